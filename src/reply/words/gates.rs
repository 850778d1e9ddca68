//! What keeps somebody out of the water, and a result that came all the same.

use super::small::first_upper;
use super::trials::of_another;
use crate::message::Name;
use crate::reply::{CautionKind, CautionReply, KeptReply, Out, Outcome, Voice, repeat_shorthand};

// What is told, and in which order.
impl Voice {
    /// A result that is stored and nothing more.
    pub(in crate::reply) fn kept(self, reply: &KeptReply) -> Vec<String> {
        let about = reply.other.then(|| reply.who.clone());
        let mut lines = match reply.out {
            None => vec![],
            Some(Out::Stopped) => self.caution(&CautionReply { kind: CautionKind::Stopped, about }),
            Some(Out::Ill) => vec![self.still_ill(about.as_ref())],
            Some(Out::Clearing(from)) => {
                vec![self.still_clearing(about.as_ref(), &self.day(from))]
            }
        };
        let of_whom = |what: &str| of_another(reply.other, &reply.who, what);
        lines.push(match reply.result.as_ref() {
            Outcome::Test(test) => self.stored(&of_whom(&self.trial(&test.trial))),
            Outcome::Set(set) => self.stored(&of_whom(&repeat_shorthand(&set.set, self))),
            Outcome::Done(done) => {
                let parts = self.session_parts(done).join(", ");
                let what = if parts.is_empty() { self.a_session().to_owned() } else { parts };
                first_upper(&of_whom(&self.stored_for(&what, &self.day(done.on))))
            }
            _ => String::new(),
        });
        if let Outcome::Test(test) = reply.result.as_ref() {
            let dropped = test.dropped.as_ref();
            lines.extend(dropped.map(|set| self.off_by_test(&repeat_shorthand(set, self))));
        }
        lines
    }
}

// In which words.
impl Voice {
    /// Somebody is ill, or the sender.
    fn still_ill(self, who: Option<&Name>) -> String {
        match who {
            None => say!(
                self,
                "You are ill by your own word: no training. Text BETTER when it is over; clear \
                 days follow.",
                "Por tu propia palabra no estas bien: nada de entrenar. Escribe MEJOR cuando \
                 pase; despues van dias de descanso."
            ),
            Some(who) => say!(
                self,
                "{who} is ill: no training until it is over, and clear days after.",
                "{who} tiene una enfermedad: no entrena hasta que pase, y luego descansa.",
                [who]
            ),
        }
    }

    /// Clear days are running for somebody, or the sender.
    fn still_clearing(self, who: Option<&Name>, from: &str) -> String {
        match who {
            None => say!(
                self,
                "Clear days first: no training before {from}.",
                "Primero dias de descanso: no entrenes antes del {from}.",
                [from]
            ),
            Some(who) => say!(
                self,
                "{who} has clear days first: no training before {from}.",
                "{who} tiene primero dias de descanso: no antes del {from}.",
                [who, from]
            ),
        }
    }
}
