//! More about the pain that the sender told of last: which side, how strong now.

use super::level::{last_rating, lone_level};
use crate::message::{Kind, Pain, Statement};
use crate::reading::frame::Clause;
use crate::reading::frame::candidate::Candidate;
use crate::reading::lexicon::Concept;
use crate::reading::piece::{Item, Piece};

/// `the right one`, `more like a 5 going downstairs`, `el derecho`: more about the pain that the
/// sender told of last.
pub fn same_pain(
    c: &Clause<'_, '_>,
    places: &[(usize, &str)],
    candidate: &Candidate,
) -> Option<Candidate> {
    let [Statement { who, kind: Kind::Pain(told) }] = c.sit.before.as_slice() else { return None };
    let whole = c.len() == c.all.len();
    // `right not left` puts it right.
    // `actually more like a 3` is of now.
    // `sorry meant a 6` is how strong; `right not left` is which.
    let corrects = c.has_any(&[Concept::Sorry, Concept::Instead])
        && !c.has(Concept::About)
        && lone_level(c).is_none();
    // `el izquierdo, al meter la mano`: what moves is not what hurts.
    let elsewhere = places.iter().any(|(at, place)| *place != told.place && !is_moved(c, *at));
    if !whole || corrects || elsewhere || !c.people().is_empty() {
        return None;
    }
    let level = last_rating(c, 0)
        .filter(|(at, _)| {
            *at > 0 && !matches!(c.pieces[at - 1].item, Item::Figure(_)) || c.len() <= 3
        })
        .or_else(|| lone_level(c));
    let side = c.pieces.iter().position(is_side);
    if level.is_none() && side.is_none() {
        return None;
    }
    let mut candidate = candidate.clone();
    for (at, piece) in c.pieces.iter().enumerate() {
        let plain = matches!(piece.item, Item::Word | Item::Chatter | Item::Day(_) | Item::Span(_));
        candidate.used[at] |= plain && !piece.means(Concept::Not) && !piece.means(Concept::Come);
    }
    for at in level.map(|(at, _)| at).into_iter().chain(side) {
        candidate.used[at] = true;
    }
    let level = level.map(|(_, level)| level).or(told.level);
    let kind = Kind::Pain(Pain { place: told.place.clone(), level });
    let says = vec![Statement { who: who.clone(), kind }];
    Some(candidate.says(Kind::Restate { says, changed: 0 }).at_cost(-0.3))
}

/// A part of the body in what somebody does when it hurts: `when i lift my arm`, `al sacar el
/// brazo`.
fn is_moved(c: &Clause<'_, '_>, at: usize) -> bool {
    const NEAR: usize = 5;
    let limb = matches!(
        super::body(&c.pieces[at]),
        Some("arm" | "hand" | "leg" | "foot" | "head" | "elbow" | "wrist")
    );
    let before = c.pieces.part(at.saturating_sub(NEAR), at);
    let mut own = before.iter().rev().take_while(|piece| !piece.is_apart());
    limb && own.any(|piece| {
        piece.means(Concept::When)
            || matches!(piece.text, "when" | "whenever" | "lifting" | "raising" | "al" | "cuando")
    })
}

/// Which side, or which part of it.
fn is_side(piece: &Piece<'_>) -> bool {
    matches!(
        piece.text,
        "left"
            | "right"
            | "inside"
            | "outside"
            | "inner"
            | "outer"
            | "front"
            | "derecho"
            | "derecha"
            | "izquierdo"
            | "izquierda"
            | "izq"
            | "der"
            | "dcho"
            | "dcha"
    )
}
