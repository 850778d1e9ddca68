//! What stays as it is: `the rest as is`, `wednesday's still on`.

use super::Clause;
use super::candidate::Candidate;
use crate::reading::lexicon::Concept;
use crate::reading::piece::borders;

/// Reads a stretch beside others as one that says nothing new.
pub fn read(c: &Clause<'_, '_>) -> Vec<Candidate> {
    let parted = borders(c.pieces).len() > 2;
    if !stays(c) || parted || c.len() == c.all.len() {
        return vec![];
    }
    let mut candidate = Candidate::new("unchanged", c.len());
    candidate.used.fill(true);
    vec![candidate.at_cost(-0.4)]
}

/// True for a stretch that says that something stays as it is.
pub fn stays(c: &Clause<'_, '_>) -> bool {
    let denied = [Concept::Not, Concept::Didnt, Concept::Cant, Concept::Wont];
    c.has(Concept::Stay) && !c.has_any(&denied)
}
