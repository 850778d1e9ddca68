//! What was told of repeats, as a statement; or what to ask, where times and repeats disagree.

use crate::message::{Doubt, Kind, Length, Name, SetResult, Statement, TypedTime, Wants};
use crate::reading::frame::Clause;
use crate::reading::frame::candidate::Candidate;
use crate::reading::frame::clause::typed;
use crate::reading::frame::results::narrative::{Slot, Spec, Told};
use crate::reading::frame::results::puzzle;
use crate::reading::lexicon::Concept;
use crate::reading::piece::Item;
use crate::units::{Rpe, SendOff, Stroke};

/// From so much above its target a repeat was not held (ours).
const MISSED_BY: f64 = 1.01;

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
    let mut set = SetResult {
        stroke: told.stroke.or((spec.stroke != Stroke::Free).then_some(spec.stroke)),
        send_off: told.send_off,
        rest: told.rest,
        target: told.target,
        average: told.average.map(|(time, tenths)| typed(time, tenths)),
        equipment: told.kit.clone(),
        rpe: told.rpe.and_then(|tenths| Rpe::from_tenths(tenths).ok()),
        heart_rate: told.pulse,
        on: told.day.and_then(|named| c.past(named)),
        ..SetResult::new(u16::try_from(stated.unwrap_or(slots.len() as u32)).ok()?, length)
    };
    let mut candidate = Candidate::new("set-result", c.len());
    candidate.used.clone_from(&told.used);
    let made = told.made.map(|(made, of)| (made, of.or(stated)));
    let all_made = made.is_none_or(|(made, of)| of == Some(made));
    if who.is_none()
        && all_made
        && let Some(times) = in_another_way(c, &told, &spec)
    {
        let count = u16::try_from(times.len()).ok()?;
        let set = SetResult { count, times, average: None, ..set };
        let says = vec![Statement { who, kind: Kind::SetResult(set) }];
        return Some(candidate.asking_whether(says).at_cost(cost));
    }
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
        // `the last two went to 53`: the others as they were meant, as it seems.
        let aim = told.target.or(spec.target).map(|target| target.seconds() * MISSED_BY);
        let slow = |slot: &Slot| matches!(slot, Slot::Swum(time, _) if aim.is_some_and(|aim| time.seconds() > aim));
        let swum_slow = slots.iter().filter(|slot| slow(slot)).count();
        if let Some(count) = stated.filter(|count| swum_slow == swum && swum < *count as usize) {
            set.made = u16::try_from(count as usize - swum).ok();
            set.of = u16::try_from(count).ok();
            let says = vec![Statement { who, kind: Kind::SetResult(set) }];
            return Some(candidate.asking_whether(says).at_cost(cost + 0.5));
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

/// One time for each, none for one that was missed.
fn to_times(slots: &[Slot]) -> Vec<Option<TypedTime>> {
    let one = |slot: &Slot| match slot {
        Slot::Swum(time, tenths) => Some(typed(*time, *tenths)),
        _ => None,
    };
    slots.iter().map(one).collect()
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

/// What the numbers come to where that is not what was told from left to right: of two ways
/// to read a text none is taken for granted.
fn in_another_way(
    c: &Clause<'_, '_>,
    told: &Told,
    spec: &Spec<'_>,
) -> Option<Vec<Option<TypedTime>>> {
    /// What a way may cost that is set against another (ours, by what it brought on texts).
    const SOUND: f32 = 0.9;
    let solved = puzzle::solve(c, spec, told.send_off, &[told.count, spec.count])?;
    let times = solved.times(spec.target).filter(|_| solved.cost <= SOUND)?;
    let told_so = match (told.each, told.count.or(spec.count)) {
        (Some((time, tenths)), Some(count)) => vec![Some(typed(time, tenths)); count as usize],
        _ => to_times(&told.slots),
    };
    // Who stopped told of no more.
    let rest = times.strip_prefix(told_so.as_slice()).filter(|_| !told_so.is_empty());
    let agrees = rest.is_some_and(|rest| rest.iter().all(Option::is_none));
    (!agrees).then_some(times)
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
    let times = puzzle::solve(c, spec, None, totals)?.times(spec.target)?;
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
