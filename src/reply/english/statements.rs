//! A statement in a few words, for what was understood of a text.

use crate::message::{Kind, Length, Statement, TypedTime};

/// `a 200 test in 3:12`
pub fn statement(statement: &Statement) -> String {
    let what = kind(&statement.kind);
    match &statement.who {
        Some(who) => format!("{what} ({who})"),
        None => what,
    }
}

fn kind(kind: &Kind) -> String {
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

fn length(length: Length) -> String {
    match length.unit {
        Some(unit) => format!("{}{unit}", length.amount),
        None => length.amount.to_string(),
    }
}

fn time(time: &TypedTime) -> String {
    time.readings.first().map_or_else(|| "?".to_owned(), |time| time.short())
}
