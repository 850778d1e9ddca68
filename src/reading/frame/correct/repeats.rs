//! Repeats put right: one of their times, all of them, how many there were.

use super::clue::{figures, is_denied, kit};
use super::place::{by_place, needs_all};
use crate::message::{Kind, SetResult, TypedTime};
use crate::reading::frame::Clause;
use crate::reading::frame::candidate::Candidate;
use crate::reading::frame::clause::{stroke_of, typed};
use crate::reading::frame::results::narrative::{Slot, Spec, tell};
use crate::reading::lexicon::Concept;
use crate::reading::piece::{Far, Item, Named, Pieces};
use crate::units::{Centis, Rpe, SendOff, Stroke};

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
    if let Some(put_right) = by_place(c, &set).or_else(|| timing(c, &set)) {
        candidate.used.fill(true);
        return Some(Kind::SetResult(put_right));
    }
    if needs_all(c) {
        return None;
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
    // `my shoulder hurt on the last two` counts some of them.
    let some = c.has_any(&[Concept::Last, Concept::First])
        || c.pieces.iter().any(|piece| piece.is_of_health());
    if let Some(count) = count.filter(|_| c.len() <= 14 && !some) {
        candidate.used.fill(true);
        return recount(set, count);
    }
    let (_, named) = day?;
    set.on = c.past(named);
    candidate.used.fill(true);
    Some(Kind::SetResult(set))
}

/// `on 1:10 not 1:05`, `interval was 2:05`, `descanso 20s`, `rpe 8`: what they left on, how
/// long they rested, how hard it was, named by its word.
fn timing(c: &Clause<'_, '_>, set: &SetResult) -> Option<SetResult> {
    const BEFORE: usize = 4;
    if let [Item::Rpe(tenths)] = c
        .pieces
        .iter()
        .map(|piece| piece.item)
        .filter(|item| matches!(item, Item::Rpe(_) | Item::Figure(_) | Item::Each(_)))
        .collect::<Vec<_>>()[..]
    {
        return Some(SetResult { rpe: Rpe::from_tenths(tenths).ok(), ..set.clone() });
    }
    let open: Vec<(usize, Centis)> = c
        .pieces
        .iter()
        .enumerate()
        .filter(|(at, _)| !is_denied(c, *at))
        .filter_map(|(at, piece)| match piece.item {
            Item::Span(time) => Some((at, time)),
            Item::Figure(figure) | Item::Each(figure) => Some((at, *figure.times().first()?)),
            _ => None,
        })
        .collect();
    let [(at, time)] = open[..] else { return None };
    let before = c.pieces.part(at.saturating_sub(BEFORE), at);
    let names = |concept: Concept| before.iter().any(|piece| piece.means(concept));
    if names(Concept::RestWord) {
        return Some(SetResult { rest: Some(time), send_off: None, ..set.clone() });
    }
    let swum = set.times.iter().flatten().find_map(|time| time.readings.first().copied());
    let leaves = at > 0 && matches!(c.pieces[at - 1].text, "on" | "off" | "cada");
    // A send-off is no faster than what was swum.
    let fits = swum.is_none_or(|swum| time >= swum);
    if (names(Concept::SendOffWord) || leaves) && fits {
        let send_off = SendOff::new(time.seconds().round() as u32).ok()?;
        return Some(SetResult { send_off: Some(send_off), ..set.clone() });
    }
    None
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
