//! Illness, and being tired.

use super::body::{body, is_ache, is_theirs};
use crate::message::{Illness, Kind, Name};
use crate::reading::frame::Clause;
use crate::reading::frame::candidate::Candidate;
use crate::reading::health::Sign;
use crate::reading::lexicon::Concept;
use crate::reading::piece::{Item, Piece};

/// The illness that a piece names, where it is the sender's and now.
pub fn illness(c: &Clause<'_, '_>, at: usize) -> Option<Option<Illness>> {
    let piece = &c.pieces[at];
    let what = piece.illness()?;
    if is_ache(c, at) && at > 0 && body(&c.pieces[at - 1]).is_some() {
        return None;
    }
    // `sick set tonight`: a good one.
    let praised = |next: &Piece<'_>| {
        piece.text == "sick"
            && [Concept::Set, Concept::Session, Concept::Squad, Concept::Best]
                .iter()
                .any(|one| next.means(*one))
    };
    let idiom = c
        .at(at + 1)
        .is_some_and(|next| matches!(next.text, "of" | "water" | "feet") || praised(next));
    // `a cold`, and not the cold of the water.
    let had = |piece: &Piece<'_>| {
        matches!(
            piece.text,
            "a" | "my"
                | "got"
                | "have"
                | "full"
                | "stinking"
                | "bit"
                | "heavy"
                | "bad"
                | "had"
                | "with"
                | "caught"
                | "this"
                | "has"
                | "of"
                | "colds"
        )
    };
    let chilled = piece.text == "cold"
        && piece.at.1 - piece.at.0 == 1
        && !c.pieces[at.saturating_sub(3)..at].iter().any(had);
    (is_theirs(c, at) && !is_will(c, at) && !idiom && !chilled).then_some(what)
}

/// Verbs behind `ill` that make it `I'll`.
pub fn is_will(c: &Clause<'_, '_>, at: usize) -> bool {
    c.pieces[at].text == "ill"
        && c.at(at + 1).is_some_and(|next| {
            next.signs.has(Sign::Will)
                || next.means(Concept::Come)
                || next.means(Concept::LeaveEarly)
                || next.means(Concept::Out)
        })
}

pub fn tired(c: &Clause<'_, '_>, mut candidate: Candidate, who: Option<Name>) -> Vec<Candidate> {
    if let Some(at) = c.find(Concept::Tired) {
        let swum =
            c.pieces.iter().any(|piece| matches!(piece.item, Item::Far(_) | Item::Repeat(..)));
        if !swum && is_theirs(c, at) {
            candidate.used[at] = true;
            for (place, piece) in c.pieces.iter().enumerate() {
                candidate.used[place] |= piece.means(Concept::Sleep)
                    || matches!(piece.item, Item::Span(_) | Item::Day(_));
            }
            return vec![candidate.says_of(who, Kind::Tired).at_cost(0.9)];
        }
    }
    // `slept 4 hours`; with a figure beside it the stretch says more than that.
    let spans = c.pieces.iter().any(|piece| matches!(piece.item, Item::Span(_)));
    let figures = c.pieces.iter().any(|piece| matches!(piece.item, Item::Figure(_)));
    if c.has(Concept::Sleep) && spans && !figures {
        candidate.used.mark(c.pieces, |piece| {
            piece.means(Concept::Sleep) || matches!(piece.item, Item::Span(_) | Item::Day(_))
        });
        return vec![candidate.says_of(who, Kind::Tired).at_cost(0.9)];
    }
    vec![]
}
