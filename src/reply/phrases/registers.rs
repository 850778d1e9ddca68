//! Who is at the pool.

use super::Words;
use crate::message::Name;
use crate::reply::RegisterReply;

/// More names than this are only counted (ours: a list that nobody reads).
const MOST_NAMED: usize = 8;

/// What a language says of the register.
pub trait Registers: Words {
    /// How many are there.
    fn here(&self, number: usize) -> String;
    /// How many were looked for and are not there.
    fn absent(&self, number: usize) -> String;
    /// How many are not marked yet.
    fn unmarked(&self, number: usize) -> String;
    /// Those who are there and must not swim.
    fn must_not_swim(&self, names: &str, number: usize) -> String;
    /// The same without a name.
    fn some_must_not_swim(&self, number: usize) -> String;

    /// `Tue 3 Mar: 9 here, 1 absent (wren), 2 not marked (siskin, teal).`
    fn register(&self, reply: &RegisterReply) -> Vec<String> {
        let named = |counted: String, names: &[Name], named: bool| {
            let few = named && !reply.in_room && (1..=MOST_NAMED).contains(&names.len());
            if few { format!("{counted} ({})", joined(names)) } else { counted }
        };
        let mut parts = vec![self.here(reply.here.len())];
        if !reply.absent.is_empty() {
            parts.push(named(self.absent(reply.absent.len()), &reply.absent, true));
        }
        if !reply.unmarked.is_empty() {
            parts.push(named(self.unmarked(reply.unmarked.len()), &reply.unmarked, true));
        }
        let mut lines = Vec::new();
        match reply.stopped.len() {
            0 => {}
            number if reply.in_room => lines.push(self.some_must_not_swim(number)),
            number => lines.push(self.must_not_swim(&joined(&reply.stopped), number)),
        }
        lines.push(format!("{}: {}.", self.day(reply.on), parts.join(", ")));
        if reply.listed && !reply.in_room && !reply.here.is_empty() {
            lines.push(format!("{}.", joined(&reply.here)));
        }
        lines
    }
}

fn joined(names: &[Name]) -> String {
    names.iter().map(Name::as_str).collect::<Vec<_>>().join(", ")
}
