//! Kit that somebody owns or lacks, what they can not or may not do, how far they can swim.

use super::words::{results, uses};
use crate::message::{Kind, Limits};
use crate::reading::frame::Clause;
use crate::reading::frame::candidate::Candidate;
use crate::reading::frame::clause::stroke_of;
use crate::reading::lexicon::Concept;
use crate::reading::piece::{Figure, Item};
use crate::reading::situation::Role;
use crate::session::Limit;
use crate::units::{Equipment, Stroke};

fn all_kit(c: &Clause<'_, '_>, candidate: &mut Candidate) -> Vec<(usize, Equipment)> {
    let mut all = Vec::new();
    for (at, piece) in c.pieces.iter().enumerate() {
        if let Some(kit) = piece.kit() {
            all.push((at, kit));
            candidate.used[at] = true;
        }
    }
    all
}

/// `got fins now`, `lost my paddles`, `I have a buoy and a board but no fins`.
pub fn kit(c: &Clause<'_, '_>, candidate: &mut Candidate) -> Option<Kind> {
    if c.sit.role == Role::Coach {
        return None;
    }
    let kit = all_kit(c, candidate);
    if kit.is_empty() || results(c) {
        return None;
    }
    let lacks = |at: usize| {
        (at.saturating_sub(3)..at).any(|before| {
            let piece = &c.pieces[before];
            piece.means(Concept::KitLack) && !matches!(piece.text, "got" | "have")
                || matches!(piece.text, "no" | "sin")
                || piece.means(Concept::Not)
        }) || c.at(at + 1).is_some_and(|next| matches!(next.text, "no" | "broke" | "snapped"))
    };
    let has = c.has(Concept::KitHave);
    uses(
        c,
        candidate,
        &[Concept::KitHave, Concept::KitLack, Concept::Not, Concept::Without, Concept::New],
    );
    let (lacking, owned): (Vec<_>, Vec<_>) = kit.into_iter().partition(|(at, _)| lacks(*at));
    let names =
        |list: Vec<(usize, Equipment)>| list.into_iter().map(|(_, kit)| kit).collect::<Vec<_>>();
    if lacking.is_empty() && !has {
        return None;
    }
    let (have, lack) = (names(owned), names(lacking));
    Some(Kind::Limits(Limits::KitChanged { have, lack }))
}

/// `no fly please`, `no tumble turns`, `can't do breast kick`, `finch no paddles`.
pub fn barred(c: &Clause<'_, '_>, candidate: &mut Candidate) -> Option<Kind> {
    let avoids = c.find(Concept::Avoid)?;
    if results(c) {
        return None;
    }
    let coach = c.sit.role == Role::Coach;
    if !coach
        && c.has_any(&[Concept::KitLack])
        && c.pieces
            .iter()
            .any(|piece| matches!(piece.text, "lost" | "broke" | "snapped" | "forgot" | "payday"))
    {
        return None;
    }
    let mut what = Vec::new();
    for (at, piece) in c.pieces.iter().enumerate() {
        let limit = if piece.means(Concept::Tumble) {
            Some(Limit::TumbleTurns)
        } else if piece.means(Concept::Dives) {
            Some(Limit::Dives)
        } else if piece.means(Concept::BreastKick) {
            Some(Limit::BreastKick)
        } else if coach && let Some(kit) = piece.kit() {
            Some(Limit::Kit(kit))
        } else {
            stroke_of(piece)
                .filter(|stroke| !matches!(stroke, Stroke::Free | Stroke::Choice | Stroke::Drill))
                .map(Limit::Stroke)
        };
        if let Some(limit) = limit.filter(|_| at > avoids || at + 3 > avoids) {
            what.push(limit);
            candidate.used[at] = true;
        }
    }
    if what.is_empty() {
        return None;
    }
    uses(c, candidate, &[Concept::Avoid, Concept::Cant, Concept::Not, Concept::Maybe]);
    Some(Kind::Limits(Limits::Barred { what, all: false }))
}

/// `longest I can go is 6 lengths`, `nothing over 1200 for now`.
pub fn able(c: &Clause<'_, '_>, candidate: &mut Candidate) -> Option<Kind> {
    if !c.has_any(&[Concept::Max, Concept::Able, Concept::Can, Concept::Only]) {
        return None;
    }
    let far = c.pieces.iter().enumerate().find_map(|(at, piece)| match piece.item {
        Item::Far(far) => Some((at, c.length(far)?)),
        Item::Figure(Figure::Whole { value, .. }) if value >= 400 => {
            Some((at, crate::message::Length { amount: value, unit: None }))
        }
        _ => None,
    });
    let (at, far) = far?;
    if c.has(Concept::Max) && far.amount >= 400 {
        uses(c, candidate, &[Concept::Max]);
        candidate.used[at] = true;
        return Some(Kind::Ability { unbroken: None, most: Some(far) });
    }
    let stop = c
        .pieces
        .iter()
        .any(|piece| matches!(piece.text, "stop" | "stopping" | "rest" | "breather" | "parar"));
    if c.has(Concept::Able) || stop && c.has_any(&[Concept::Can, Concept::Only]) {
        uses(c, candidate, &[Concept::Able, Concept::Can, Concept::Only, Concept::Stopped]);
        candidate.used[at] = true;
        return Some(Kind::Ability { unbroken: Some(far), most: None });
    }
    None
}
