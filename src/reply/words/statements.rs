//! A statement in a few words, for what was understood of a text.

use crate::message::{Kind, Length, Statement, TypedTime};
use crate::reply::Voice;

// What is told, and in which order.
impl Voice {
    /// `a 200 test in 3:12`
    pub fn statement(self, statement: &Statement) -> String {
        let what = self.said(&statement.kind);
        match &statement.who {
            Some(who) => format!("{what} ({who})"),
            None => what,
        }
    }
}

// In which words.
impl Voice {
    /// A kind of statement.
    fn said(self, kind: &Kind) -> String {
        let fixed = match kind {
            Kind::Test(test) => {
                return say!(
                    self,
                    "a {distance} test in {time}",
                    "un test de {distance} en {time}",
                    [distance = length(test.distance), time = time(&test.time)]
                );
            }
            Kind::TimedTest(test) => {
                return say!(
                    self,
                    "{distance} in {duration}",
                    "{distance} en {duration}",
                    [distance = length(test.distance), duration = test.duration.short()]
                );
            }
            Kind::SetResult(set) => return format!("{}x{}", set.count, length(set.distance)),
            Kind::Pain(pain) => return self.pain_in(&pain.place),
            Kind::Set(_) => self.pick("a set", "una serie"),
            Kind::Done(_) => self.pick("a session done", "un entreno hecho"),
            Kind::Missed { .. } => self.pick("a missed session", "un dia sin nadar"),
            Kind::Ill { .. } => self.pick("ill", "enfermedad"),
            Kind::Better => self.pick("better", "que ya va mejor"),
            Kind::Away { .. } => self.pick("away", "unos dias fuera"),
            Kind::Faint => self.pick("faintness", "mareo"),
            Kind::Plan(_) => "plan",
            Kind::Next(_) => self.pick("next", "siguiente"),
            Kind::Profile(_) => self.pick("a setting", "un ajuste"),
            Kind::Race { .. } => self.pick("a race", "una carrera"),
            Kind::Squad { .. } => self.pick("squad", "equipo"),
            Kind::Targets { .. } => self.pick("targets", "objetivos"),
            _ => self.pick("a word of command", "una orden"),
        };
        fixed.to_owned()
    }
}

/// A length as typed.
pub fn length(length: Length) -> String {
    match length.unit {
        Some(unit) => format!("{}{unit}", length.amount),
        None => length.amount.to_string(),
    }
}

/// A time as typed, in its likelier reading.
pub fn time(time: &TypedTime) -> String {
    time.readings.first().map_or_else(|| "?".to_owned(), |time| time.short())
}

/// What was read, in the grammar's own words.
pub fn canonical(says: &[Statement]) -> String {
    says.iter().map(Statement::to_string).collect::<Vec<_>>().join("; ")
}
