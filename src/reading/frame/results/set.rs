//! A set with what came of it: `8x50 on 1:05 48 48 49 …`, or only what came of it
//! where the set is known.

use super::narrative::{Slot, Spec, Told, tell};
use super::puzzle;
use crate::message::{Doubt, Kind, Length, Name, SetResult, Statement, TypedTime, Wants};
use crate::reading::frame::Clause;
use crate::reading::frame::candidate::Candidate;
use crate::reading::frame::clause::typed;
use crate::reading::lexicon::Concept;
use crate::reading::piece::{Far, Figure, Item, Piece};
use crate::reading::situation::{Known, Line};
use crate::units::{Rpe, SendOff, Stroke};

/// Where the repeats that a text tells of are named.
#[derive(Debug, Clone, Copy)]
struct Named {
    count: Option<u32>,
    length: Length,
    /// The piece that names them.
    at: usize,
    stroke: Option<Stroke>,
}

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

/// The repeats that a stretch names, as `8x50`, `3 rounds of 4x50` or `the 100s`.
fn named_sets(c: &Clause<'_, '_>) -> Vec<Named> {
    let rounds = c.pieces.windows(2).find_map(|pair| match (&pair[0].item, &pair[1]) {
        (Item::Figure(Figure::Whole { value, .. }), word) if word.means(Concept::Round) => {
            Some(*value)
        }
        _ => None,
    });
    let mut sets = Vec::new();
    for (at, piece) in c.pieces.iter().enumerate() {
        match piece.item {
            Item::Repeat(count, far) => {
                let count = count * rounds.filter(|rounds| count * rounds <= 100).unwrap_or(1);
                let stroke = None;
                sets.extend(c.length(far).map(|length| Named {
                    count: Some(count),
                    length,
                    at,
                    stroke,
                }));
            }
            Item::Plural(value) => {
                let line = c.sit.set.as_ref().and_then(|set| set.main());
                // `50s` of a set of 50s names nothing new.
                let is_line = line.is_some_and(|line| line.distance == value);
                if !is_line && sets.is_empty() {
                    let length = Length { amount: value, unit: None };
                    sets.push(Named { count: None, length, at, stroke: None });
                }
            }
            _ => {}
        }
    }
    sets.sort_by_key(|set| set.count.is_none());
    if sets.is_empty() {
        sets.extend(broken(c));
    }
    sets
}

fn is_broken(piece: &Piece<'_>) -> bool {
    matches!(piece.text, "broken" | "roto" | "partido" | "partidos")
}

/// `broken 500 1:28 1:29 1:31 1:31 1:27 with 10 s rest`: as many parts as times.
fn broken(c: &Clause<'_, '_>) -> Option<Named> {
    let at = c.pieces.windows(2).position(|pair| {
        is_broken(&pair[0]) && matches!(pair[1].item, Item::Figure(_) | Item::Far(_))
    })? + 1;
    let whole = match c.pieces[at].item {
        Item::Figure(figure) => figure.whole()?,
        Item::Far(far) => c.length(far)?.amount,
        _ => return None,
    };
    let times = c.pieces[at + 1..].iter().filter(|piece| matches!(piece.item, Item::Figure(_)));
    let count = u32::try_from(times.count()).ok().filter(|count| *count > 1)?;
    let fits = whole.is_multiple_of(count) && (whole / count).is_multiple_of(c.sit.pool_length());
    let length = Length { amount: whole / count, unit: None };
    fits.then_some(Named { count: Some(count), length, at, stroke: None })
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
        return listed(c, whose, who).into_iter().collect();
    };
    // `my stroke fell apart on the last three` is of how, and not of how many.
    let of_form = c.pieces.windows(2).any(|pair| {
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
    const LIKE: std::ops::RangeInclusive<f64> = 0.85..=1.3;
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
        count: u32::try_from(figures.len()).ok(),
        distance,
        stroke: Stroke::Free,
        target: None,
        send_off: None,
        whose,
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

/// What was told, as a statement; nothing where nothing was.
pub fn result(
    c: &Clause<'_, '_>,
    length: Length,
    told: Told,
    spec: Spec<'_>,
    who: Option<Name>,
    cost: f32,
) -> Option<Candidate> {
    if !told.is_something() {
        return None;
    }
    let told = with_send_off(told);
    let typed_count = told.count;
    let mut slots = told.slots.clone();
    // What was held was held at its target.
    if let Some(target) = told.target.or(spec.target) {
        slots
            .iter_mut()
            .filter(|slot| **slot == Slot::Held)
            .for_each(|slot| *slot = Slot::Swum(target, false));
    }
    let stated = typed_count.or(spec.count);
    let swum = slots.iter().filter(|slot| matches!(slot, Slot::Swum(..))).count();
    let whole = !slots.is_empty()
        && slots.iter().all(|slot| matches!(slot, Slot::Swum(..) | Slot::Missed))
        && swum > 0;
    let to_times = |slots: &[Slot]| -> Vec<Option<TypedTime>> {
        let one = |slot: &Slot| match slot {
            Slot::Swum(time, tenths) => Some(typed(*time, *tenths)),
            _ => None,
        };
        slots.iter().map(one).collect()
    };
    let mut set = SetResult {
        count: u16::try_from(stated.unwrap_or(slots.len() as u32)).ok()?,
        distance: length,
        stroke: told.stroke.or((spec.stroke != Stroke::Free).then_some(spec.stroke)),
        send_off: told.send_off,
        rest: told.rest,
        target: told.target,
        times: Vec::new(),
        average: told.average.map(|(time, tenths)| typed(time, tenths)),
        made: None,
        of: None,
        equipment: told.kit.clone(),
        rpe: told.rpe.and_then(|tenths| Rpe::from_tenths(tenths).ok()),
        heart_rate: told.pulse,
        strokes: None,
        on: told.day.and_then(|named| c.past(named)),
    };
    let mut candidate = Candidate::new("set-result", c.len());
    candidate.used.clone_from(&told.used);
    let made = told.made.map(|(made, of)| (made, of.or(stated)));
    let totals = [made.map(|(made, _)| made), stated, spec.count];
    if whole {
        set.times = to_times(&slots);
        let given = set.times.len() as u32;
        let expected = made.map(|(made, _)| made).or(stated).unwrap_or(given);
        let fewer = given < stated.unwrap_or(given);
        let explained = made.is_some_and(|(made, _)| made == given)
            || fewer
                && c.has_any(&[
                    Concept::Stopped,
                    Concept::Only,
                    Concept::Short,
                    Concept::Missed,
                    Concept::Left,
                ])
            || fewer && who.is_some();
        if given == expected || explained || stated.is_none() {
            set.count = u16::try_from(given).ok()?;
            return Some(candidate.says_of(who, Kind::SetResult(set)).at_cost(cost));
        }
        if let Some(solved) = puzzled(c, &candidate, &set, &totals, &spec, who.clone(), cost) {
            return Some(solved);
        }
        return times_in_doubt(candidate, set, given, expected, who, cost);
    }
    if let Some((time, tenths)) = told.each {
        let count = made.map(|(made, _)| made).or(stated)?;
        if let Some((made, of)) = made
            && of.is_some_and(|of| of != made)
        {
            (set.made, set.of) =
                (u16::try_from(made).ok(), of.and_then(|of| u16::try_from(of).ok()));
            set.average = Some(typed(time, tenths));
        } else {
            set.count = u16::try_from(count).ok()?;
            set.times = vec![Some(typed(time, tenths)); count as usize];
        }
        return Some(candidate.says_of(who, Kind::SetResult(set)).at_cost(cost + 0.1));
    }
    if swum > 0 && made.is_none() {
        if let Some(solved) = puzzled(c, &candidate, &set, &totals, &spec, who.clone(), cost) {
            return Some(solved);
        }
        // Some of them are told and the rest is open: the times are asked for.
        let given = u16::try_from(swum).ok()?;
        let repeats = set.count;
        return Some(
            candidate.asking(Doubt::TimesCount { given, repeats }, vec![]).at_cost(cost + 1.0),
        );
    }
    let missed = slots.iter().filter(|slot| **slot == Slot::Missed).count() as u32;
    let held = slots.iter().filter(|slot| **slot == Slot::Held).count() as u32;
    let made = made.or_else(|| {
        let count = stated?;
        match (told.made_all, missed, held) {
            (_, 1.., _) => Some((count.checked_sub(missed)?, Some(count))),
            (_, 0, 1..) => Some((held, Some(count))),
            (true, 0, 0) => Some((count, Some(count))),
            _ => None,
        }
    });
    if let Some((made, of)) = made {
        // `six completed, averaging about 63`
        let one = slots.iter().find_map(|slot| match slot {
            Slot::Swum(time, tenths) => Some(typed(*time, *tenths)),
            _ => None,
        });
        set.average = set.average.or(one.filter(|_| swum == 1 && c.has(Concept::Average)));
        (set.made, set.of) = (u16::try_from(made).ok(), of.and_then(|of| u16::try_from(of).ok()));
        return Some(candidate.says_of(who, Kind::SetResult(set)).at_cost(cost + 0.3));
    }
    if set.average.is_some() && stated.is_some() {
        if told.vague {
            let says = vec![Statement { who, kind: Kind::SetResult(set) }];
            return Some(candidate.asking_whether(says).at_cost(cost + 0.5));
        }
        return Some(candidate.says_of(who, Kind::SetResult(set)).at_cost(cost));
    }
    told.vague.then(|| {
        candidate.asking(Doubt::Missing { wants: Wants::Times }, vec![]).at_cost(cost + 1.0)
    })
}

/// `8x50 a 1:05: 47 47 48 …`: nobody aims at what they are so much faster than; it is what
/// they left on.
fn with_send_off(mut told: Told) -> Told {
    const FAR_BELOW: f64 = 0.85;
    let Some(target) = told.target.filter(|_| told.send_off.is_none()) else { return told };
    let times: Vec<f64> = told
        .slots
        .iter()
        .filter_map(|slot| match slot {
            Slot::Swum(time, _) => Some(time.seconds()),
            _ => None,
        })
        .collect();
    let below = |time: &f64| *time < target.seconds() * FAR_BELOW;
    if times.len() > 1
        && times.iter().all(below)
        && let Ok(send_off) = SendOff::new(target.seconds() as u32)
    {
        told.send_off = Some(send_off);
        told.target = None;
    }
    told
}

/// What the numbers come to if all repeats are told of, asked about.
fn puzzled(
    c: &Clause<'_, '_>,
    candidate: &Candidate,
    set: &SetResult,
    totals: &[Option<u32>],
    spec: &Spec<'_>,
    who: Option<Name>,
    cost: f32,
) -> Option<Candidate> {
    // `did 10 by mistake. 48 48 49 …`: so many as the text says.
    let given = u32::try_from(set.times.len()).ok()?;
    let says_so = c
        .pieces
        .iter()
        .any(|piece| matches!(piece.item, Item::Figure(figure) if figure.whole() == Some(given)));
    if says_so && spec.count.is_some_and(|count| given > count) {
        return None;
    }
    let times = puzzle::solve(c, spec, totals)?;
    let set = SetResult {
        count: u16::try_from(times.len()).ok()?,
        times,
        average: None,
        made: None,
        of: None,
        ..set.clone()
    };
    let says = vec![Statement { who, kind: Kind::SetResult(set) }];
    Some(candidate.clone().asking_whether(says).at_cost(cost + 0.5))
}

/// As many times as were sent, or a missed one for each that wants.
fn times_in_doubt(
    candidate: Candidate,
    set: SetResult,
    given: u32,
    repeats: u32,
    who: Option<Name>,
    cost: f32,
) -> Option<Candidate> {
    let says = |set: SetResult| vec![Statement { who: who.clone(), kind: Kind::SetResult(set) }];
    let as_given = SetResult { count: u16::try_from(given).ok()?, ..set.clone() };
    let mut options = vec![(given.to_string(), says(as_given))];
    if given < repeats {
        let mut times = set.times.clone();
        times.resize(repeats as usize, None);
        let missed = SetResult { count: u16::try_from(repeats).ok()?, times, ..set };
        options.push(("x".to_owned(), says(missed)));
    }
    let about = Doubt::TimesCount {
        given: u16::try_from(given).ok()?,
        repeats: u16::try_from(repeats).ok()?,
    };
    Some(candidate.asking(about, options).at_cost(cost + 0.5))
}
