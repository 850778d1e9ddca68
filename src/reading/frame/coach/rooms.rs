//! Whether the squad's chat may hear who swims in which lane.

use crate::message::Kind;
use crate::reading::frame::Clause;
use crate::reading::frame::candidate::Candidate;
use crate::reading::lexicon::{Concept, Hint};
use crate::reading::situation::Role;

/// Reads `show names in the chat`, `you can put the lanes in the group`, `no names in
/// the group chat please`.
pub fn read(c: &Clause<'_, '_>) -> Vec<Candidate> {
    let has = |words: &[&str]| c.pieces.iter().any(|piece| words.contains(&piece.text));
    let hints = |hint: Hint| has(hint.words());
    let room = hints(Hint::Chat);
    let names = has(&["names", "name", "nombres"]);
    let lanes = has(&["lanes", "calles"]);
    if c.sit.role != Role::Coach || !room || !c.people().is_empty() || c.len() > 12 {
        return vec![];
    }
    let lets = c.has(Concept::Can) || hints(Hint::Allows);
    let hides = c.has_any(&[Concept::Not, Concept::No]) || hints(Hint::Hides);
    let shows = lets || hints(Hint::Shows);
    // `post tonight's lanes in the group` wants one drawing said there, not a rule.
    if !names && !(lanes && (lets || hides)) || !hides && !shows {
        return vec![];
    }
    let mut read = Candidate::new("rooms", c.len());
    read.used.fill(true);
    vec![read.says(Kind::NamesInRooms { shown: !hides }).at_cost(0.3)]
}
