//! Offices: who holds one, who is called in danger.

use super::Safeguards;
use crate::reply::{OfficeDone, OfficeLetter, OfficeRefusal, StaffLine};

/// What a language says of offices.
pub trait Offices: Safeguards {
    /// Something done that is told in one line.
    fn office_done(&self, done: &OfficeDone) -> String;
    /// Why something was not done.
    fn office_refusal(&self, why: &OfficeRefusal) -> String;
    /// What others are told.
    fn office_letter(&self, letter: &OfficeLetter) -> String;
    /// To whoever raised an alarm, perhaps on deck: it has reached nobody yet.
    fn nobody_reached(&self, on_deck: bool) -> &'static str;
    /// Beside an answer to a minor's words that were not read.
    fn worried_hint(&self) -> &'static str;
    /// As what somebody is called who holds no office.
    fn second_contact(&self) -> &'static str;

    /// What was done about offices.
    fn offices(&self, done: &OfficeDone) -> Vec<String> {
        let line = |line: &StaffLine| {
            let role = match line.role {
                Some(role) => Safeguards::role(self, Some(role)),
                None => self.second_contact(),
            };
            match &line.called {
                Some(called) => format!("{role}: {called}, {}", line.address),
                None => format!("{role}: {}", line.address),
            }
        };
        match done {
            OfficeDone::Staff(all) => {
                all.iter().map(line).chain([self.office_done(done)]).collect()
            }
            done => vec![self.office_done(done)],
        }
    }
}
