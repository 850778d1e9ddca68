//! Repeats put right: one of their times, all of them, how many there were.

use super::clue::{figures, is_denied, kit};
use crate::message::{Kind, SetResult, TypedTime};
use crate::reading::frame::Clause;
use crate::reading::frame::candidate::Candidate;
use crate::reading::frame::clause::{stroke_of, typed};
use crate::reading::frame::results::narrative::{Slot, Spec, tell};
use crate::reading::lexicon::Concept;
use crate::reading::piece::{Far, Item, Named, Pieces};
use crate::units::Stroke;

/// `last one was 50 not 51`, `the third was 1.54`, `*46`, `8x100`, `it was 5 not 6`.
pub fn set_changed(
    c: &Clause<'_, '_>,
    set: &SetResult,
    stroke: Option<(usize, Stroke)>,
    day: Option<(usize, Named)>,
    candidate: &mut Candidate,
) -> Option<Kind> {
    let mut set = set.clone();
    if let Some((count, Far::Of(amount, _))) = c.pieces.iter().find_map(|piece| match piece.item {
        Item::Repeat(count, far) => Some((count, far)),
        _ => None,
    }) && amount == set.distance.amount
        && c.len() <= 4
    {
        candidate.used.fill(true);
        return recount(set, count);
    }
    let spec = Spec {
        count: Some(u32::from(set.count)),
        distance: set.distance.amount,
        stroke: set.stroke.unwrap_or(Stroke::Free),
        target: set.target,
        send_off: set.send_off,
        whose: c.sit.own(),
        so_far: false,
    };
    let pieces = without_denied(c);
    let stretch = Clause { pieces: Pieces(&pieces), question: None, ..*c };
    let told = tell(&stretch, spec);
    let swum: Vec<(usize, TypedTime)> = told
        .slots
        .iter()
        .enumerate()
        .filter_map(|(at, slot)| match slot {
            Slot::Swum(time, tenths) => Some((at, typed(*time, *tenths))),
            _ => None,
        })
        .collect();
    if !swum.is_empty()
        && !set.times.is_empty()
        && swum.len() < set.times.len()
        && c.has_any(&[Concept::Last, Concept::First])
            | c.pieces.iter().any(|piece| matches!(piece.item, Item::Ordinal(_)))
    {
        for (at, time) in swum {
            *set.times.get_mut(at)? = Some(time);
        }
        candidate.used.fill(true);
        return Some(Kind::SetResult(set));
    }
    if let Some((time, tenths)) = told.each.or(told.average).filter(|_| c.len() <= 6) {
        candidate.used.fill(true);
        set.times = vec![Some(typed(time, tenths)); usize::from(set.count)];
        return Some(Kind::SetResult(set));
    }
    if let Some((at, stroke)) = stroke {
        candidate.used[at] = true;
        candidate.used.mark(c.pieces, |piece| stroke_of(piece).is_some());
        set.stroke = Some(stroke);
        return Some(Kind::SetResult(set));
    }
    if let Some(kit) = kit(c) {
        candidate.used.fill(true);
        set.equipment = kit;
        return Some(Kind::SetResult(set));
    }
    if told.rest.is_some() && told.rest != set.rest || told.send_off.is_some() {
        candidate.used.fill(true);
        set.rest = told.rest.or(set.rest);
        set.send_off = told.send_off.or(set.send_off);
        if let Some((time, tenths)) = told.average.or(told.each) {
            set.average = Some(typed(time, tenths));
            (set.made, set.of) = (None, None);
        }
        return Some(Kind::SetResult(set));
    }
    let count = figures(c).into_iter().find_map(|(at, figure)| {
        figure.whole().filter(|value| {
            (1..=40).contains(value) && *value != u32::from(set.count) && !is_denied(c, at)
        })
    });
    if let Some(count) = count.filter(|_| c.len() <= 14) {
        candidate.used.fill(true);
        return recount(set, count);
    }
    let (_, named) = day?;
    set.on = c.past(named);
    candidate.used.fill(true);
    Some(Kind::SetResult(set))
}

/// The same with another number of repeats: as many of the same time.
fn recount(mut set: SetResult, count: u32) -> Option<Kind> {
    let same = set.times.array_windows::<2>().all(|pair| pair[0] == pair[1]);
    if !same {
        return None;
    }
    set.count = u16::try_from(count).ok()?;
    if let Some(first) = set.times.first().cloned() {
        set.times = vec![first; count as usize];
    }
    Some(Kind::SetResult(set))
}

/// The pieces without what `not` denies.
fn without_denied<'t>(c: &Clause<'_, 't>) -> Vec<crate::reading::piece::Piece<'t>> {
    let mut kept = Vec::new();
    for (at, piece) in c.pieces.iter().enumerate() {
        let denied = matches!(piece.item, Item::Figure(_) | Item::Each(_))
            && is_denied(c, at)
            && kept.iter().any(|one: &crate::reading::piece::Piece<'_>| {
                matches!(one.item, Item::Figure(_) | Item::Each(_))
            });
        if !denied {
            kept.push(piece.clone());
        }
    }
    kept
}
