//! What the parts of a text say together: what is said twice is kept once, what belongs to
//! one swim or day is joined, and what contradicts itself is settled.

use jiff::civil::Date;

use crate::message::{Day, Done, Fix, Kind, Name, Statement};
use crate::reading::frame::Clause;
use crate::reading::piece::Item;
use crate::reading::rank::Ranked;
use crate::reading::situation::Phase;

/// What the parts that ask nothing say together.
pub fn said(ranked: &Ranked, whole: &Clause<'_, '_>) -> Vec<Statement> {
    let sure = ranked.parts.iter().filter(|part| part.asks.is_none());
    let says = told_once(sure.flat_map(|part| part.says.clone()).collect());
    let says = told_anew(says, whole);
    let says = fixed_alike(without_empty(of_one_day(says, whole), whole));
    let mut kept: Vec<Statement> = Vec::new();
    for one in on_evenings(one_way(once_a_day(says, whole), whole), whole) {
        if !kept.contains(&one) {
            kept.push(one);
        }
    }
    kept
}

/// `scrap that i can, swapped shifts`, behind who comes: what is said now stands for what is
/// taken back.
fn told_anew(mut says: Vec<Statement>, whole: &Clause<'_, '_>) -> Vec<Statement> {
    let comes = |one: &Statement| matches!(one.kind, Kind::Attend { .. });
    if says.iter().any(comes) && whole.sit.before.iter().any(comes) {
        says.retain(|one| one.kind != Kind::Undo);
    }
    // `wednesday neither`: put right, and so said.
    let put_right: Vec<Kind> = says
        .iter()
        .filter_map(|one| match &one.kind {
            Kind::Restate { says, changed } => says.get(*changed).map(|one| one.kind.clone()),
            _ => None,
        })
        .collect();
    // `10 mins late tho`, of the evening that was told of.
    let is_said = |one: &Kind, other: &Kind| match (one, other) {
        (
            Kind::Attend { coming, late_min, .. },
            Kind::Attend { coming: same, late_min: late, on: None },
        ) => coming == same && late_min == late,
        (one, other) => one == other,
    };
    says.retain(|one| !comes(one) || !put_right.iter().any(|right| is_said(right, &one.kind)));
    says
}

/// Whether who comes is told of a day on which nobody swims here: `stitches out friday`.
pub fn is_of_no_evening(one: &Statement, whole: &Clause<'_, '_>) -> bool {
    let Kind::Attend { on: Some(on), .. } = one.kind else { return false };
    let day = whole.date_of(on).map(Date::weekday);
    !whole.sit.nights.is_empty() && day.is_some_and(|day| !whole.sit.nights.contains(&day))
}

/// `stitches out friday so can i swim monday`: beside something else, nobody comes or stays
/// away on a day without an evening; nor, told with what was swum tonight, from the next:
/// `got in 20 mins late so just the 50s`.
fn on_evenings(says: Vec<Statement>, whole: &Clause<'_, '_>) -> Vec<Statement> {
    let after = whole.sit.phase == Phase::After && says.iter().any(|one| one.kind.is_swum());
    let past = |one: &Statement| {
        matches!(one.kind, Kind::Attend { on: None | Some(Day::Today), .. }) && after
    };
    let misfit = |one: &Statement| past(one) || is_of_no_evening(one, whole);
    match says.iter().all(misfit) {
        true => says,
        false => says.into_iter().filter(|one| !misfit(one)).collect(),
    }
}

/// Who, on which day, whether they come, and whether the day was named.
type Coming = (Option<Name>, Date, bool, bool);

/// `no sitter, missus working late, out tonight`: nobody is both in and out on one day; what
/// names its day stands, or what was said last.
fn one_way(says: Vec<Statement>, whole: &Clause<'_, '_>) -> Vec<Statement> {
    let coming = |one: &Statement| match &one.kind {
        Kind::Attend { on, coming, .. } => {
            let day = on.map_or(Some(whole.sit.today), |on| whole.date_of(on))?;
            Some((one.who.clone(), day, *coming, on.is_some()))
        }
        _ => None,
    };
    let told: Vec<_> = says.iter().map(coming).collect();
    let yields = |(at, one): (usize, &Option<Coming>)| {
        let Some((who, day, comes, dated)) = one else { return false };
        let other = told.iter().enumerate().rev().find_map(|(place, other)| {
            let (whose, when, way, named) = other.as_ref()?;
            (whose == who && when == day && way != comes).then_some((place, *named))
        });
        other.is_some_and(|(place, named)| match (*dated, named) {
            (false, true) => true,
            (true, false) => false,
            _ => place > at,
        })
    };
    let yields: Vec<bool> = told.iter().enumerate().map(yields).collect();
    says.into_iter().zip(yields).filter_map(|(one, yields)| (!yields).then_some(one)).collect()
}

/// `the 8 all done. 48 48 49 …`: that a set was made says nothing beside its times.
fn told_once(says: Vec<Statement>) -> Vec<Statement> {
    let timed = |one: &Statement, other: &Statement| match (&one.kind, &other.kind) {
        (Kind::SetResult(made), Kind::SetResult(set)) => {
            one.who == other.who
                && made.distance == set.distance
                && made.times.is_empty()
                && made.average.is_none()
                && made.made == made.of
                && !set.times.is_empty()
        }
        _ => false,
    };
    let says = joined(says);
    let is_said = |one: &Statement| says.iter().any(|other| timed(one, other));
    says.iter().filter(|one| !is_said(one)).cloned().collect()
}

/// `closed on easter monday, so no session on 6 april`: what is said twice of one day.
fn once_a_day(says: Vec<Statement>, whole: &Clause<'_, '_>) -> Vec<Statement> {
    let dated = |one: &Statement| {
        let mut one = one.clone();
        match &mut one.kind {
            Kind::Attend { on, .. } => {
                *on = Some(Day::Full(on.map_or(Some(whole.sit.today), |on| whole.date_of(on))?));
            }
            Kind::Shut { days, on } => {
                let day = on.or(days.first().copied().map(Day::On))?;
                *on = Some(Day::Full(whole.date_of(day)?));
                days.clear();
            }
            _ => return None,
        }
        Some(one)
    };
    let mut told: Vec<Statement> = Vec::new();
    let mut is_new = |one: &Statement| match dated(one) {
        Some(dated) if told.contains(&dated) => false,
        dated => {
            told.extend(dated);
            true
        }
    };
    says.into_iter().filter(|one| is_new(one)).collect()
}

/// `sat, 90 min on the bike + 20 min jog`: what is told with a swim or a ride of a day is of
/// that day; and `2k at the pool, 1k of it with paddles` is 2k.
fn of_one_day(says: Vec<Statement>, whole: &Clause<'_, '_>) -> Vec<Statement> {
    let days = whole.pieces.iter().filter(|piece| matches!(piece.item, Item::Day(_))).count();
    let mut told: Vec<Statement> = Vec::with_capacity(says.len());
    for mut one in says {
        let first = told.iter().find_map(|before| match &before.kind {
            Kind::Done(done) if before.who == one.who => Some(done.clone()),
            _ => None,
        });
        if let (Kind::Done(more), Some(first)) = (&mut one.kind, first) {
            if days == 1 {
                more.on = more.on.or(first.on);
            }
            let far = |done: &Done| done.distance.map(|length| length.amount);
            let within = far(more) < far(&first) && more.duration.is_none();
            if first.sport.is_none() && more.sport.is_none() && far(more).is_some() && within {
                continue;
            }
        }
        told.push(one);
    }
    told
}

/// `swam at the gym pool yesterday, 1000 in 17:40`: a session that says neither how far nor
/// how long, on a day without an evening, is the one whose swims are told beside it.
fn without_empty(says: Vec<Statement>, whole: &Clause<'_, '_>) -> Vec<Statement> {
    let day = |on: Option<Day>| on.map_or(Some(whole.sit.today), |on| whole.date_of(on));
    let empty = |done: &Done| {
        done.sport.is_none()
            && done.distance.is_none()
            && done.duration.is_none()
            && done.rpe.is_none()
    };
    let swum_on = |one: &Statement| match &one.kind {
        Kind::Test(test) => Some(day(test.on)),
        Kind::SetResult(set) => Some(day(set.on)),
        Kind::Done(done) if done.sport.is_none() && !empty(done) => Some(day(done.on)),
        _ => None,
    };
    let is_told = |one: &Statement| {
        let Kind::Done(done) = &one.kind else { return false };
        let on_evening = day(done.on).is_none_or(|on| whole.sit.nights.contains(&on.weekday()));
        let same = |other: &Statement| {
            other.who == one.who && swum_on(other).is_some_and(|on| on == day(done.on))
        };
        empty(done) && !on_evening && says.iter().any(same)
    };
    says.iter().filter(|one| !is_told(one)).cloned().collect()
}

/// `lark should be 3:53, and plover 4:21`: beside a time that is put right, another's is too.
fn fixed_alike(mut says: Vec<Statement>) -> Vec<Statement> {
    let fixed = says.iter().find_map(|one| match &one.kind {
        Kind::Fix(fix) if fix.was.is_some() && fix.time.is_some() => Some(fix.clone()),
        _ => None,
    });
    let Some(fixed) = fixed else { return says };
    for one in &mut says {
        if let (Kind::Test(test), Some(who)) = (&one.kind, &one.who)
            && Some(test.distance.amount) == fixed.distance.map(|length| length.amount)
        {
            let fix = Fix {
                time: Some(test.time.clone()),
                instead: None,
                was: Some(who.clone()),
                on: fixed.on,
                distance: fixed.distance,
                ..Fix::default()
            };
            *one = Statement { who: None, kind: Kind::Fix(fix) };
        }
    }
    says
}

/// `saturday 60 lengths, 1500, in 38 min`: one swim, told in parts.
fn joined(says: Vec<Statement>) -> Vec<Statement> {
    let mut joined: Vec<Statement> = Vec::with_capacity(says.len());
    for one in says {
        if let (Some(last), Kind::Done(more)) = (joined.last_mut(), &one.kind)
            && last.who == one.who
            && let Kind::Done(told) = &mut last.kind
            && told.sport == more.sport
            && (told.distance.is_some() && told.distance == more.distance
                // `gym this morning, weights, 45 min`
                || told.sport.is_some() && told.distance.is_none() && more.distance.is_none())
            && (told.duration.is_none() || more.duration.is_none())
            && (told.on.is_none() || more.on.is_none() || told.on == more.on)
        {
            told.duration = told.duration.or(more.duration);
            told.on = told.on.or(more.on);
            told.rpe = told.rpe.or(more.rpe);
        } else {
            joined.push(one);
        }
    }
    joined
}
