//! What stays as it is: `the rest as is`, `wednesday's still on`.

use super::Clause;
use super::candidate::Candidate;
use crate::reading::lexicon::{Concept, Hint};
use crate::reading::piece::borders;
use crate::reading::situation::Role;

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
    (c.has(Concept::Stay) || others_stay(c)) && !c.has_any(&denied)
}

/// `leave the rest`, `rest same`, `los demás igual`, `others stay on 1:05`: of a coach's set.
fn others_stay(c: &Clause<'_, '_>) -> bool {
    const SHORT: usize = 5;
    let Some(rest) = c.find(Concept::Rest).filter(|_| c.len() <= SHORT) else { return false };
    let beside = c.pieces.part(rest.saturating_sub(1), rest + 3);
    c.sit.role == Role::Coach
        && beside.iter().any(|piece| piece.means(Concept::Same) || Hint::RestStays.is(piece.text))
}
