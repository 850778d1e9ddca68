//! What an answer rests on, kept for `why`.

use super::desk::Desk;
use crate::coaching;
use crate::history::{Event, MainOf, Reasons};
use crate::message::Name;
use crate::session::Session;

impl Desk<'_> {
    /// Keeps what the answer rests on, for `why`.
    pub fn keep_reasons(&mut self, reasons: Reasons) {
        let address = self.asked.from.to_owned();
        self.record(Event::ReasonsKept { address, reasons });
    }
}

/// The main set of the first hard one of a swimmer's sessions.
pub fn main_of<'s>(who: &Name, sessions: impl IntoIterator<Item = &'s Session>) -> Option<MainOf> {
    sessions.into_iter().find_map(|session| {
        let set = coaching::main_line(session)?.clone();
        Some(MainOf { who: who.clone(), purpose: session.purpose, set })
    })
}
