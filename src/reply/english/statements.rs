//! What the things that were said are called.

use super::English;
use crate::message::Kind;
use crate::reply::phrases::{Statements, length, time};

impl Statements for English {
    fn said(&self, kind: &Kind) -> String {
        let fixed = match kind {
            Kind::Test(test) => {
                return format!("a {} test in {}", length(test.distance), time(&test.time));
            }
            Kind::TimedTest(test) => {
                return format!("{} in {}", length(test.distance), test.duration.short());
            }
            Kind::SetResult(set) => return format!("{}x{}", set.count, length(set.distance)),
            Kind::Pain(pain) => return format!("{} pain", pain.place),
            Kind::Set(_) => "a set",
            Kind::Done(_) => "a session done",
            Kind::Missed { .. } => "a missed session",
            Kind::Ill { .. } => "ill",
            Kind::Better => "better",
            Kind::Away { .. } => "away",
            Kind::Faint => "faintness",
            Kind::Plan(_) => "plan",
            Kind::Next(_) => "next",
            Kind::Profile(_) => "a setting",
            Kind::Race { .. } => "a race",
            Kind::Squad { .. } => "squad",
            Kind::Targets { .. } => "targets",
            _ => "a word of command",
        };
        fixed.to_owned()
    }
}
