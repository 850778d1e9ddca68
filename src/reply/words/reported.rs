//! A session that was reported.

use crate::coaching::RuleId;
use crate::reply::{DoneReply, Voice};
use crate::units::Rpe;

// What is told, and in which order.
impl Voice {
    /// A session reported.
    pub(in crate::reply) fn done(self, reply: &DoneReply) -> Vec<String> {
        let parts = self.session_parts(reply);
        if reply.repeat {
            return vec![self.stored_already(&parts.join(", "))];
        }
        let what = if parts.is_empty() { self.a_session().to_owned() } else { parts.join(", ") };
        let mut first = self.stored_for(&what, &self.day(reply.on));
        if reply.elsewhere {
            first.push_str(&format!(" {}", self.elsewhere()));
        }
        let mut lines = vec![first];
        lines.extend(reply.eased.map(|rule| match rule {
            RuleId::CutShort => self.cut_short().to_owned(),
            _ => self.eased().to_owned(),
        }));
        if let Some(week) = reply.week {
            lines.push(self.in_seven_days(&week.to_string()));
        }
        if reply.rpe.is_none() && !reply.elsewhere {
            lines.push(self.how_hard().to_owned());
        }
        lines
    }

    /// How far, how long, how hard.
    pub(super) fn session_parts(self, reply: &DoneReply) -> Vec<String> {
        [
            reply.distance.map(|distance| distance.to_string()),
            reply.duration.map(|time| format!("{} min", time.hundredths().div_ceil(6000))),
            reply.rpe.map(|rpe| self.effort_of(rpe)),
        ]
        .into_iter()
        .flatten()
        .collect()
    }
}

// In which words.
impl Voice {
    /// A session, where nothing more is known of it.
    pub(super) fn a_session(self) -> &'static str {
        self.pick("Session", "entreno")
    }

    /// How hard a session felt.
    fn effort_of(self, rpe: Rpe) -> String {
        say!(self, "effort {rpe}", "esfuerzo {rpe}", [rpe = rpe.value()])
    }

    /// A session is stored for a day.
    pub(super) fn stored_for(self, what: &str, day: &str) -> String {
        say!(self, "{what} stored for {day}.", "Guardado para {day}: {what}.", [what, day])
    }

    /// Training that wasn't swimming.
    fn elsewhere(self) -> &'static str {
        self.pick(
            "It counts as training, not as metres swum.",
            "Cuenta como entreno, no como metros nadados.",
        )
    }

    /// The distance of seven days.
    fn in_seven_days(self, distance: &str) -> String {
        say!(self, "{distance} in seven days.", "{distance} en siete dias.", [distance])
    }

    /// Asks how hard it was.
    fn how_hard(self) -> &'static str {
        self.pick(
            "How hard, 0 to 10? Text it with the session next time: done 1500 45min rpe 6",
            "¿Qué esfuerzo, de 0 a 10? La proxima vez, todo junto: hecho 1500 45min rpe 6",
        )
    }

    /// A swim was cut short, and the next is as long as it.
    fn cut_short(self) -> &'static str {
        self.pick(
            "Less than was meant is fine; well done for going. The next one is made to measure.",
            "Menos de lo previsto tambien vale; bien por ir. El proximo va a medida.",
        )
    }

    /// A swim was very hard, and the next is less.
    fn eased(self) -> &'static str {
        self.pick(
            "A hard day; well done for going. The next one is made to measure: less.",
            "Un dia duro, y aun asi fuiste. El siguiente va a tu medida: menos.",
        )
    }
}
