//! Pain and illness that are over.

use super::body::is_theirs;
use crate::message::Illness;
use crate::reading::frame::Clause;
use crate::reading::lexicon::Concept;
use crate::reading::piece::Piece;
use crate::reading::situation::Role;

/// A word for what is over, where it is that of pain or illness.
pub fn over(
    c: &Clause<'_, '_>,
    places: &[(usize, &str)],
    aches: &[usize],
    ill: Option<(usize, Option<Illness>)>,
) -> Option<usize> {
    if let Some(past) = ill.and_then(|(at, _)| is_past(c, at)) {
        return Some(past);
    }
    if let Some(settled) = is_settled(c, places) {
        return Some(settled);
    }
    let better = c.find(Concept::Better)?;
    let piece = &c.pieces[better];
    let told = !places.is_empty() || ill.is_some();
    let plain = matches!(
        piece.text,
        "better" | "recovered" | "mejor" | "recuperado" | "recuperada" | "curado" | "curada"
    ) || piece.at.1 - piece.at.0 > 1;
    let behind = aches.iter().all(|at| *at < better) && ill.is_none_or(|(at, _)| at < better);
    let denied = !is_theirs(c, better);
    // A coach's `better` is mostly of what was swum.
    let longest = if c.sit.role == Role::Coach { 3 } else { 6 };
    ((told || c.len() <= longest) && behind && (told || plain) && !denied).then_some(better)
}

/// `the shoulder thing is gone`, `knee is fine again`: a pain told of that is no more.
fn is_settled(c: &Clause<'_, '_>, places: &[(usize, &str)]) -> Option<usize> {
    // `legs are gone` is tired.
    let [(at, _)] =
        *places.iter().filter(|(_, place)| !matches!(*place, "leg" | "arm")).collect::<Vec<_>>()
    else {
        return None;
    };
    (at + 1..c.len()).find(|place| {
        let piece = &c.pieces[*place];
        let next = c.at(place + 1);
        // `his shoulder's gone` is hurt; a trouble that is gone is over.
        let trouble = c.pieces[at + 1..*place].iter().any(|piece| {
            matches!(
                piece.text,
                "thing" | "pain" | "ache" | "issue" | "problem" | "niggle" | "soreness" | "cramp"
            )
        });
        let gone = trouble
            && matches!(piece.text, "gone" | "settled" | "cleared" | "disappeared" | "vanished");
        let well = piece.means(Concept::Good)
            && next.is_some_and(|next| next.means(Concept::Again) || next.text == "now");
        (gone || well) && is_theirs(c, *place)
    })
}

/// `back from flu`, `better from my cold`, `was ill sunday, fine since yesterday`: an illness
/// at a place that is over, and the piece that says so.
fn is_past(c: &Clause<'_, '_>, at: usize) -> Option<usize> {
    let back = (at.saturating_sub(3)..at).find(|place| {
        let piece = &c.pieces[*place];
        let from = |piece: &Piece<'_>| {
            matches!(piece.text, "from" | "after" | "de" | "del" | "tras" | "despues")
        };
        let behind = c.at(place + 1).is_some_and(from);
        piece.means(Concept::Back) && (piece.at.1 - piece.at.0 > 1 || behind)
            || piece.means(Concept::Better) && behind && is_theirs(c, *place)
    });
    if back.is_some() {
        return back;
    }
    let was = c.pieces[at.saturating_sub(3)..at]
        .iter()
        .any(|piece| matches!(piece.text, "was" | "were" | "been" | "estuve" | "estaba"));
    let well = (at + 1..c.len()).find(|place| c.pieces[*place].means(Concept::Good))?;
    let since = c.pieces[well..].iter().any(|piece| {
        matches!(piece.text, "since" | "now" | "again" | "ahora" | "ya")
            || piece.means(Concept::Again)
    });
    (was && since && is_theirs(c, well)).then_some(well)
}
