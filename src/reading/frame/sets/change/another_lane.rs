//! Another lane than was said, and nothing of what it is to do.

use crate::message::{Doubt, Wants};
use crate::reading::frame::Clause;
use crate::reading::frame::candidate::Candidate;
use crate::reading::lexicon::Concept;
use crate::reading::piece::{Item, Piece};
use crate::reading::situation::Phase;

/// `sorry meant lane 3`, `no, lane 3 not lane 2`: what they are to swim is asked for.
pub fn another_lane(c: &Clause<'_, '_>) -> Option<Candidate> {
    let little = |piece: &Piece<'_>| {
        let words = [
            Concept::Sorry,
            Concept::Not,
            Concept::No,
            Concept::Mean,
            Concept::Me,
            Concept::For,
            Concept::It,
            Concept::Instead,
            Concept::Lane,
        ];
        matches!(piece.item, Item::Lanes(_) | Item::Mark(_) | Item::Chatter)
            || words.iter().any(|one| piece.means(*one))
    };
    let corrects = c.has_any(&[Concept::Sorry, Concept::Not, Concept::Instead])
        || c.pieces.first().is_some_and(|first| first.text == "no");
    let lanes = c.pieces.iter().any(|piece| matches!(piece.item, Item::Lanes(_)));
    let whole = c.len() == c.all.len() && c.pieces.iter().all(little);
    let evening = matches!(c.sit.phase, Phase::Before | Phase::During);
    if !(corrects && lanes && whole && evening) {
        return None;
    }
    let mut candidate = Candidate::new("change", c.len());
    candidate.used.fill(true);
    Some(candidate.asking(Doubt::Missing { wants: Wants::Set }, vec![]).at_cost(0.1))
}
