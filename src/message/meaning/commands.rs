//! What is asked for and put right.

use super::evening;
use super::figures::{length, minutes, typed_time, within};
use super::reports::course;
use super::trials::once;
use super::{Outcome, Trouble, about, approval, days, limits, meets, people, regular};
use crate::message::syntax::{Extent, Figure, Item, Verb};
use crate::message::{
    Day, Doubt, Fix, Kind, Length, Name, NextWish, PlanWish, ProfileChange, Statement, TypedTime,
};
use crate::units::{Course, Unit};

/// The statement that a verb and its parts make.
pub fn command(who: Option<Name>, verb: Verb, parts: Vec<Item>) -> Outcome<Vec<Statement>> {
    let kind = match verb {
        Verb::Plan => Kind::Plan(plan(&parts)?),
        Verb::Next => return next(who, &parts),
        Verb::Swap => swap(&parts)?,
        Verb::Targets => Kind::Targets { distances: distances(&parts)? },
        Verb::OwnTarget => Kind::OwnTargets { holds: own_targets(&parts)? },
        Verb::Predict => return predict(who, &parts),
        Verb::Race => return race(who, &parts),
        Verb::Compare => Kind::Compare { names: names(&parts) },
        Verb::Profile => return profile(who, &parts),
        Verb::Away => {
            Kind::Away { from: None, until: first_day(&parts)?.ok_or(Trouble::Senseless)? }
        }
        Verb::Join => match parts.as_slice() {
            [Item::Code(code), Item::Name(name)] => {
                Kind::Join { code: code.clone(), name: name.clone() }
            }
            _ => return Err(Trouble::Senseless),
        },
        Verb::Fix => Kind::Fix(fix(&parts)?),
        Verb::Was => Kind::Fix(was(&parts)?),
        Verb::No => match parts.first() {
            None => Kind::No,
            Some(Item::Figure(figure)) => {
                Kind::Fix(Fix { time: Some(typed_time(*figure)?), ..Fix::default() })
            }
            Some(_) => return Err(Trouble::Senseless),
        },
        Verb::Help => Kind::Help {
            topic: parts.into_iter().find_map(|part| match part {
                Item::Topic(topic) => Some(topic),
                _ => None,
            }),
        },
        Verb::Entry => return meets::entry(who, &parts, false),
        Verb::Scratch => return meets::entry(who, &parts, true),
        Verb::Relay => return meets::relay(who, &parts),
        Verb::Invite
        | Verb::HandOver
        | Verb::Remove
        | Verb::Add
        | Verb::Claim
        | Verb::Leave
        | Verb::Squads => return people::command(who, verb, &parts),
        Verb::Limit | Verb::Allow | Verb::Kit => return limits::command(who, verb, &parts),
        Verb::Digest | Verb::WeeklyNote => return regular::command(who, verb, &parts),
        Verb::Approve => return approval::approve(who, &parts),
        _ => return evening::command(who, verb, &parts),
    };
    Ok(vec![Statement { who, kind }])
}

/// `heron target 50 46`: a time for each distance; nothing where the test's are
/// to hold again.
fn own_targets(parts: &[Item]) -> Outcome<Vec<(Length, TypedTime)>> {
    parts
        .chunks(2)
        .map(|hold| match hold {
            [Item::Length(extent), Item::Figure(time)] => {
                Ok((length(*extent)?, typed_time(*time)?))
            }
            [Item::Figure(Figure::Number { value, .. }), Item::Figure(time)] => {
                Ok((length(Extent { amount: *value, unit: None })?, typed_time(*time)?))
            }
            _ => Err(Trouble::Senseless),
        })
        .collect()
}

fn plan(parts: &[Item]) -> Outcome<PlanWish> {
    let mut wish = PlanWish::default();
    for part in parts {
        match part {
            Item::Week(week) => once(&mut wish.week, *week)?,
            Item::Minutes(count) => once(&mut wish.minutes, within(*count, 10..=240)?)?,
            Item::Count(count) => once(&mut wish.sessions, within(*count, 1..=14)?)?,
            Item::Day(day) => once(&mut wish.on, days::day(*day)?)?,
            _ => return Err(Trouble::Senseless),
        }
    }
    Ok(wish)
}

/// `next 30min no fins`; a bare `next 30` may be minutes, which is asked.
fn next(who: Option<Name>, parts: &[Item]) -> Outcome<Vec<Statement>> {
    let mut wish = NextWish::default();
    let mut asked = None;
    for part in parts {
        match part {
            Item::Minutes(count) => once(&mut wish.minutes, within(*count, 10..=240)?)?,
            Item::Length(extent) => once(&mut wish.distance, length(*extent)?)?,
            Item::Figure(Figure::Number { value: count @ 10..=99, .. }) => {
                once(&mut asked, *count)?
            }
            Item::Figure(Figure::Number { value, .. }) => {
                once(&mut wish.distance, length(Extent { amount: *value, unit: None })?)?;
            }
            Item::Equipment(kit) => wish.with.push(*kit),
            Item::Without(kit) => wish.without.extend(kit),
            Item::Course(Course::OpenWater) => wish.open_water = true,
            _ => return Err(Trouble::Senseless),
        }
    }
    wish.with.sort_unstable();
    wish.with.dedup();
    wish.without.sort_unstable();
    wish.without.dedup();
    let Some(count) = asked else { return Ok(vec![Statement { who, kind: Kind::Next(wish) }]) };
    let mut meant = wish;
    once(&mut meant.minutes, within(count, 10..=240)?)?;
    let doubt = Doubt::Spelling { typed: count.to_string(), meant: format!("{count}min") };
    let yes = vec![Statement { who, kind: Kind::Next(meant) }];
    Err(Trouble::Doubt(doubt, vec![("yes".to_owned(), yes)]))
}

/// `swap tue thu`, `swap heron teal tue 200`
fn swap(parts: &[Item]) -> Outcome<Kind> {
    let [Item::Name(one), Item::Name(other), which @ ..] = parts else {
        return Ok(Kind::Swap { days: two_days(parts)? });
    };
    let (mut on, mut distance) = (None, None);
    for part in which {
        match part {
            Item::Day(day) => once(&mut on, days::day(*day)?)?,
            Item::Length(extent) => once(&mut distance, length(*extent)?)?,
            _ => return Err(Trouble::Senseless),
        }
    }
    Ok(Kind::SwapResults { names: [one.clone(), other.clone()], on, distance })
}

fn two_days(parts: &[Item]) -> Outcome<[Day; 2]> {
    match parts {
        [Item::Day(one), Item::Day(other)] => Ok([days::day(*one)?, days::day(*other)?]),
        _ => Err(Trouble::Senseless),
    }
}

fn first_day(parts: &[Item]) -> Outcome<Option<Day>> {
    let typed = parts.iter().find_map(|part| match part {
        Item::Day(day) => Some(*day),
        _ => None,
    });
    typed.map(days::day).transpose()
}

/// Distances as typed; `50s` is a plural here.
fn distances(parts: &[Item]) -> Outcome<Vec<Length>> {
    let amount = |part: &Item| match part {
        Item::Length(extent) => Ok(*extent),
        Item::Figure(Figure::Number { value, .. }) => Ok(Extent { amount: *value, unit: None }),
        Item::Figure(Figure::Seconds { seconds, hundredths: None })
            if seconds.is_multiple_of(25) =>
        {
            Ok(Extent { amount: *seconds, unit: None })
        }
        _ => Err(Trouble::Senseless),
    };
    parts.iter().map(|part| length(amount(part)?)).collect()
}

fn names(parts: &[Item]) -> Vec<Name> {
    let name = |part: &Item| match part {
        Item::Name(name) => Some(name.clone()),
        _ => None,
    };
    parts.iter().filter_map(name).collect()
}

/// The two swims that are called a mile.
const MILES: [(u32, Unit); 2] = [(1500, Unit::Metre), (1650, Unit::Yard)];

fn predict(who: Option<Name>, parts: &[Item]) -> Outcome<Vec<Statement>> {
    let predict = |distance| vec![about(who.as_ref(), Kind::Predict { distance })];
    match parts {
        [Item::Length(extent)] => Ok(predict(length(*extent)?)),
        [Item::Mile] => {
            let options = MILES.map(|(amount, unit)| {
                (amount.to_string(), predict(Length { amount, unit: Some(unit) }))
            });
            Err(Trouble::Doubt(Doubt::Mile, options.into()))
        }
        _ => Err(Trouble::Senseless),
    }
}

fn race(who: Option<Name>, parts: &[Item]) -> Outcome<Vec<Statement>> {
    let (mut far, mut on, mut goal, mut mile) = (None, None, None, false);
    for part in parts {
        match part {
            Item::Length(extent) => once(&mut far, length(*extent)?)?,
            Item::Mile => mile = true,
            Item::Day(day) => once(&mut on, days::day(*day)?)?,
            Item::Goal(figure) => once(&mut goal, typed_time(*figure)?)?,
            _ => return Err(Trouble::Senseless),
        }
    }
    let on = on.ok_or(Trouble::Senseless)?;
    let race =
        |distance| vec![about(who.as_ref(), Kind::Race { distance, on, goal: goal.clone() })];
    match (far, mile) {
        (Some(distance), false) => Ok(race(distance)),
        (None, true) => {
            let options = MILES.map(|(amount, unit)| {
                (amount.to_string(), race(Length { amount, unit: Some(unit) }))
            });
            Err(Trouble::Doubt(Doubt::Mile, options.into()))
        }
        _ => Err(Trouble::Senseless),
    }
}

fn profile(who: Option<Name>, parts: &[Item]) -> Outcome<Vec<Statement>> {
    let [part] = parts else { return Err(Trouble::Senseless) };
    let mut change = ProfileChange::default();
    match part {
        Item::Course(course) => change.course = Some(*course),
        Item::Length(Extent { amount: 50, unit: None }) => change.course = Some(Course::Long50m),
        Item::Length(Extent { amount: 25, unit: None }) => {
            let with = |course| {
                let change = ProfileChange { course: Some(course), ..ProfileChange::default() };
                (course.to_string(), vec![about(who.as_ref(), Kind::Profile(change))])
            };
            let options = vec![with(Course::Short25m), with(Course::Short25yd)];
            return Err(Trouble::Doubt(Doubt::Figure { typed: "25".to_owned() }, options));
        }
        Item::Length(extent) => change.course = Some(course(*extent).ok_or(Trouble::Senseless)?),
        Item::Born(year) => change.born = Some(within(*year, 1900..=2099)?),
        Item::Weekdays(days) => {
            change.days.clone_from(days);
            change.days.sort_by_key(|day| day.to_monday_one_offset());
            change.days.dedup();
        }
        Item::Count(count) => change.sessions = Some(within(*count, 1..=14)?),
        Item::Minutes(count) => change.minutes = Some(within(*count, 10..=240)?),
        Item::Units(unit) => change.units = Some(*unit),
        Item::Language(language) => change.language = Some(*language),
        _ => return Err(Trouble::Senseless),
    }
    Ok(vec![Statement { who, kind: Kind::Profile(change) }])
}

/// `fix 3:14`, `fix heron tue 200 3:21`
fn fix(parts: &[Item]) -> Outcome<Fix> {
    let mut fix = Fix::default();
    let mut figures = Vec::new();
    for part in parts {
        match part {
            Item::Name(name) => once(&mut fix.was, name.clone())?,
            Item::Length(extent) => once(&mut fix.distance, length(*extent)?)?,
            Item::Day(day) => once(&mut fix.on, days::day(*day)?)?,
            Item::Figure(figure) => figures.push(*figure),
            Item::Instead(figure) => once(&mut fix.instead, typed_time(*figure)?)?,
            _ => return Err(Trouble::Senseless),
        }
    }
    match figures.as_slice() {
        [] => {}
        [time] => fix.time = Some(typed_time(*time)?),
        [Figure::Number { value, .. }, time] if fix.distance.is_none() => {
            fix.distance = Some(length(Extent { amount: *value, unit: None })?);
            fix.time = Some(typed_time(*time)?);
        }
        _ => return Err(Trouble::Senseless),
    }
    let says = fix.time.is_some() || fix.was.is_some();
    if says { Ok(fix) } else { Err(Trouble::Senseless) }
}

/// `that was teal`, `that was 3:14`
fn was(parts: &[Item]) -> Outcome<Fix> {
    match parts {
        [Item::Name(name)] => Ok(Fix { was: Some(name.clone()), ..Fix::default() }),
        [Item::Figure(figure)] => Ok(Fix { time: Some(typed_time(*figure)?), ..Fix::default() }),
        _ => Err(Trouble::Senseless),
    }
}

/// Minutes between one and a day.
pub fn minute_count(count: u32) -> Outcome<u16> {
    minutes(count)?;
    within(count, 1..=999)
}
