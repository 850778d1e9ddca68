//! A statement in a few words, for what was understood of a text.

use super::Words;
use crate::message::{Kind, Length, Statement, TypedTime};

/// What a language calls the things that were said.
pub trait Statements: Words {
    /// A kind of statement.
    fn said(&self, kind: &Kind) -> String;

    /// `a 200 test in 3:12`
    fn statement(&self, statement: &Statement) -> String {
        let what = self.said(&statement.kind);
        match &statement.who {
            Some(who) => format!("{what} ({who})"),
            None => what,
        }
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
