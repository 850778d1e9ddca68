//! Who looks after whom.

use super::Words;
use crate::message::Name;
use crate::profile::{CareKind, ReadWhat, Role};
use crate::reply::{CareDone, CareLetter, CareRefusal, RecordLine, SeenLine};

/// What a language says of who looks after whom.
pub trait Safeguards: Words {
    /// Something done that is told in one line.
    fn cared(&self, done: &CareDone) -> String;
    /// Why something was not done.
    fn care_refusal(&self, why: &CareRefusal) -> String;
    /// How often a swimmer's health was seen by others.
    fn seen_times(&self, who: &Name, times: usize) -> String;
    /// An occasion on which it was seen.
    fn occasion(&self, what: ReadWhat) -> &'static str;
    /// What someone is in the squad; for `None` she has left.
    fn role(&self, role: Option<Role>) -> &'static str;
    /// How much is kept apart, and for how long.
    fn records_kept(
        &self,
        accidents: usize,
        disclosures: usize,
        to_minors: usize,
        years: u16,
    ) -> String;
    /// A record that is kept apart.
    fn kept_apart(&self, who: Option<&Name>, what: &CareKind) -> String;
    /// What someone is asked who has just joined a squad with minors.
    fn ask_birth_year(&self) -> &'static str;

    /// What goes to others.
    fn care_letter(&self, letter: &CareLetter) -> String;

    /// Something done.
    fn care_done(&self, done: &CareDone) -> Vec<String> {
        match done {
            CareDone::Seen { who, times, latest } => {
                let one = |line: &SeenLine| {
                    let (day, role) = (self.short_day(line.on), self.role(line.role));
                    format!("{day} {role}: {}", self.occasion(line.what))
                };
                let first = self.seen_times(who, *times);
                std::iter::once(first).chain(latest.iter().map(one)).collect()
            }
            CareDone::Records { accidents, disclosures, to_minors, years, latest } => {
                let one = |line: &RecordLine| {
                    let day = self.short_day(line.on);
                    format!("{day} {}", self.kept_apart(line.who.as_ref(), &line.what))
                };
                let first = self.records_kept(*accidents, *disclosures, *to_minors, *years);
                std::iter::once(first).chain(latest.iter().map(one)).collect()
            }
            done => vec![self.cared(done)],
        }
    }
}
