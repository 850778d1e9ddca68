//! What keeps somebody out of the water, and a result that came all the same.

use super::results::of_another;
use super::{Captures, Results, first_upper};
use crate::message::Name;
use crate::reply::{CautionKind, CautionReply, KeptReply, Out, Outcome, repeat_shorthand};

/// What a language says of those who are out.
pub trait Gates: Captures + Results {
    /// Somebody is ill, or the sender.
    fn still_ill(&self, who: Option<&Name>) -> String;
    /// Clear days are running for somebody, or the sender.
    fn still_clearing(&self, who: Option<&Name>, from: &str) -> String;

    /// A result that is stored and nothing more.
    fn kept(&self, reply: &KeptReply) -> Vec<String> {
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
