//! A set with what came of it: `8x50 on 1:05 48 48 49 …`, or only what came of it
//! where the set is known.

mod named;
mod result;

use super::narrative::{Spec, Told, tell};
use crate::message::{Length, Name};
use crate::reading::frame::Clause;
use crate::reading::frame::candidate::Candidate;
use crate::reading::lexicon::Concept;
use crate::reading::piece::{Far, Figure, Item, Piece};
use crate::reading::situation::{Known, Line};
use crate::units::Stroke;
use named::{Named, is_broken, named_sets};

pub use result::result;

/// Reads a stretch as what the sender, or the one it names, swam of a set.
pub fn read(c: &Clause<'_, '_>) -> Vec<Candidate> {
    // `fallé el 6 y el 7`: of repeats, not of the month.
    if c.people().len() > 1 || c.speaks_ahead() && !c.has(Concept::Missed) {
        return vec![];
    }
    let whose = c.subject();
    let who = c.other().and_then(|one| c.name(one));
    // A coach who does not swim here tells of others only.
    if who.is_none() && c.sit.me.is_none() {
        return vec![];
    }
    let named = named_sets(c);
    if let Some(named) = named.first() {
        return of_named(c, *named, named.at, whose, who).into_iter().collect();
    }
    by_situation(c, whose, who)
}

fn of_named(
    c: &Clause<'_, '_>,
    named: Named,
    at: usize,
    whose: Option<&Known>,
    who: Option<Name>,
) -> Option<Candidate> {
    let line = c.sit.set.as_ref().and_then(|set| {
        let fits = |line: &&Line| {
            line.distance == named.length.amount
                && named.count.is_none_or(|count| count == line.count)
        };
        set.lines.iter().find(fits)
    });
    let spec = Spec {
        count: named.count,
        distance: named.length.amount,
        stroke: named.stroke.or(line.map(|line| line.stroke)).unwrap_or(Stroke::Free),
        target: line.and_then(|line| line.target),
        send_off: line.and_then(|line| line.send_off),
        whose,
        so_far: false,
    };
    let mut told = tell(c, spec);
    told.used[at] = true;
    if at > 0 && is_broken(&c.pieces[at - 1]) {
        told.used[at - 1] = true;
    }
    if at > 0 && c.pieces[at - 1].means(Concept::Round) {
        told.used[at - 1] = true;
        if at > 1 {
            told.used[at - 2] = true;
        }
    }
    if at > 1 && c.pieces[at - 1].text == "of" && c.pieces[at - 2].means(Concept::Round) {
        told.used[at - 3.min(at)..at].fill(true);
    }
    mark_person(c, &mut told);
    result(c, named.length, told, spec, who, 0.2)
}

/// What came of the set in force, without its name.
fn by_situation(c: &Clause<'_, '_>, whose: Option<&Known>, who: Option<Name>) -> Vec<Candidate> {
    let Some(line) = c.sit.set.as_ref().and_then(|set| set.main()) else {
        let listed = listed(c, whose, who.clone());
        return listed.or_else(|| counted(c, whose, who)).into_iter().collect();
    };
    // `my stroke fell apart on the last three` is of how, and not of how many.
    let of_form = c.pieces.array_windows::<2>().any(|pair| {
        pair[0].means(Concept::My)
            && matches!(pair[1].text, "stroke" | "technique" | "form" | "kick" | "catch")
    });
    if of_form {
        return vec![];
    }
    let other_distance = c.pieces.iter().any(|piece| match piece.item {
        Item::Far(Far::Of(amount, _)) => amount != line.distance,
        Item::Far(_) => true,
        _ => false,
    });
    if other_distance {
        return vec![];
    }
    let spec = Spec {
        count: Some(line.count),
        distance: line.distance,
        stroke: line.stroke,
        target: line.target,
        send_off: line.send_off,
        whose,
        so_far: false,
    };
    let mut told = tell(c, spec);
    mark_person(c, &mut told);
    // `no pude con el 1:05, los hice cada 1:15`: all of them, on another send-off.
    if !told.is_something() && told.send_off.is_some() && told.send_off != spec.send_off {
        told.made_all = c.has_any(&[Concept::Missed, Concept::Held, Concept::Done, Concept::Made]);
    }
    let length = Length { amount: line.distance, unit: None };
    result(c, length, told, spec, who, 0.5).into_iter().collect()
}

/// `48 48 49 50` with no set in force: repeats of the one distance that this swimmer does
/// in such times, asked about.
fn listed(c: &Clause<'_, '_>, whose: Option<&Known>, who: Option<Name>) -> Option<Candidate> {
    const FEWEST: usize = 3;
    let known = whose.filter(|known| !known.bests.is_empty())?;
    let plain = |piece: &Piece<'_>| matches!(piece.item, Item::Figure(_) | Item::Mark(_));
    let figures: Vec<Figure> = c
        .pieces
        .iter()
        .filter_map(|piece| match piece.item {
            Item::Figure(figure) => Some(figure),
            _ => None,
        })
        .collect();
    if figures.len() < FEWEST || !c.pieces.iter().all(plain) {
        return None;
    }
    let count = u32::try_from(figures.len()).ok()?;
    suiting(c, known, &figures, count, who)
}

/// `did all 8, 48s`, `8/8 avg 47.6`, `los 8 a 48` with no set in force: as many of the one
/// distance that this swimmer does in such a time, asked about.
fn counted(c: &Clause<'_, '_>, whose: Option<&Known>, who: Option<Name>) -> Option<Candidate> {
    const LONGEST: usize = 9;
    let known = whose.filter(|known| !known.bests.is_empty())?;
    // `last 2 were 50` is of some of what was told.
    let some = [Concept::Last, Concept::First, Concept::Rest, Concept::Except, Concept::Missed];
    if c.has_any(&some) || c.sit.before.iter().any(|said| said.kind.is_swum()) {
        return None;
    }
    let swum = [Concept::All, Concept::Done, Concept::Held, Concept::Made, Concept::Average];
    let mut counts = Vec::new();
    let mut times = Vec::new();
    for piece in c.pieces {
        match piece.item {
            Item::Figure(Figure::Whole { value: value @ 2..=16, .. }) => counts.push(value),
            Item::OfAll(made, of) if made == of => counts.push(of),
            Item::Figure(figure) | Item::Each(figure) => times.push(figure),
            Item::Word | Item::Chatter | Item::Mark(',' | '.' | '!') | Item::Picture => {}
            _ => return None,
        }
    }
    let ([count], [time]) = (&counts[..], &times[..]) else { return None };
    let counted = counts.len() < c.len() && c.has_any(&swum)
        || c.pieces.iter().any(|piece| matches!(piece.item, Item::OfAll(..)));
    let whole = c.len() == c.all.len() && c.len() <= LONGEST && c.offset == 0;
    if !counted || !whole {
        return None;
    }
    suiting(c, known, &[*time], *count, who)
}

/// So many repeats of the one distance that all of these times suit.
fn suiting(
    c: &Clause<'_, '_>,
    known: &Known,
    figures: &[Figure],
    count: u32,
    who: Option<Name>,
) -> Option<Candidate> {
    const LIKE: std::ops::RangeInclusive<f64> = 0.85..=1.3;
    let fit = |distance: &u32| {
        let expected = known.expected(*distance, Stroke::Free);
        let like = |figure: &Figure| {
            expected.is_some_and(|expected| {
                figure.times().iter().any(|time| LIKE.contains(&(time.seconds() / expected)))
            })
        };
        figures.iter().all(like)
    };
    let mut distances = [25, 50, 100, 200, 400].into_iter().filter(fit);
    let distance = distances.next().filter(|_| distances.next().is_none())?;
    let spec = Spec {
        count: Some(count),
        distance,
        stroke: Stroke::Free,
        target: None,
        send_off: None,
        whose: Some(known),
        so_far: false,
    };
    let told = tell(c, spec);
    let length = Length { amount: distance, unit: None };
    let read = result(c, length, told, spec, who, 0.0).filter(|read| read.asks.is_none())?;
    let mut candidate = Candidate::new("set-result", c.len());
    candidate.used.clone_from(&read.used);
    Some(candidate.asking_whether(read.says).at_cost(0.4))
}

fn mark_person(c: &Clause<'_, '_>, told: &mut Told) {
    for (at, piece) in c.pieces.iter().enumerate() {
        if matches!(piece.item, Item::Person(_)) {
            told.used[at] = true;
        }
    }
}
