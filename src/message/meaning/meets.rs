//! Meets to come, who is entered for what, and the legs of a relay.

use super::figures::{length, typed_time, within};
use super::reports::course;
use super::trials::once;
use super::{Outcome, Trouble, about, days};
use crate::message::syntax::{Extent, Figure, Item, TypedDay};
use crate::message::{Entry, Kind, Name, RelayLeg, Statement};

/// `entry heron 100 free 20 dec 1:05.0`, `scratch heron 100 free`
pub fn entry(who: Option<Name>, parts: &[Item], scratched: bool) -> Outcome<Vec<Statement>> {
    let (mut whom, mut distance, mut figures) = (who, None, Vec::new());
    let (mut stroke, mut on) = (None, None);
    for part in parts {
        match part {
            Item::Name(name) => once(&mut whom, name.clone())?,
            Item::Length(extent) => once(&mut distance, length(*extent)?)?,
            Item::Stroke(one) => once(&mut stroke, *one)?,
            Item::Day(typed) => once(&mut on, days::day(*typed)?)?,
            Item::Figure(figure) => figures.push(*figure),
            _ => return Err(Trouble::Senseless),
        }
    }
    let mut figures = figures.into_iter().peekable();
    if let (None, Some(Figure::Number { value, .. })) = (&distance, figures.peek()) {
        distance = Some(length(Extent { amount: *value, unit: None })?);
        figures.next();
    }
    let time = figures.next().map(typed_time).transpose()?;
    if figures.next().is_some() || scratched && time.is_some() {
        return Err(Trouble::Senseless);
    }
    let distance = distance.ok_or(Trouble::Senseless)?;
    let entry = Entry { distance, stroke, on, time, scratched };
    Ok(vec![about(whom.as_ref(), Kind::Entry(entry))])
}

/// `meet 20 dec 25m`: a meet to come and its pool.
pub fn meet(items: &[Item]) -> Outcome<Option<Kind>> {
    let (mut is_meet, mut on, mut pool) = (false, None, None);
    for item in items {
        match item {
            Item::Meet if !is_meet => is_meet = true,
            Item::Day(typed) => once(&mut on, days::day(*typed)?)?,
            Item::Fraction(first, second) => {
                let typed = TypedDay::Slashed { first: *first, second: *second };
                once(&mut on, days::day(typed)?)?;
            }
            Item::Course(one) => once(&mut pool, *one)?,
            Item::Length(extent) => match course(*extent) {
                Some(one) => once(&mut pool, one)?,
                None => return Ok(None),
            },
            Item::Comma => {}
            _ => return Ok(None),
        }
    }
    Ok(on.filter(|_| is_meet).map(|on| Kind::Meet { on, course: pool }))
}

/// `relay 4x50 free heron 31.2 teal 29.8 x siskin 30.5`: a statement a leg.
pub fn relay(who: Option<Name>, parts: &[Item]) -> Outcome<Vec<Statement>> {
    let (mut repeat, mut stroke, mut on) = (None, None, None);
    let (mut whose, mut legs) = (None, Vec::new());
    for part in parts {
        match part {
            Item::Repeat(one) => once(&mut repeat, *one)?,
            Item::Stroke(one) => once(&mut stroke, *one)?,
            Item::Day(typed) => once(&mut on, days::day(*typed)?)?,
            Item::Name(name) => once(&mut whose, name.clone())?,
            Item::Figure(figure) => {
                let whose = whose.take().or_else(|| who.clone()).ok_or(Trouble::Senseless)?;
                legs.push(Some((whose, typed_time(*figure)?)));
            }
            Item::Miss => legs.push(None),
            _ => return Err(Trouble::Senseless),
        }
    }
    let repeat = repeat.ok_or(Trouble::Senseless)?;
    let count = within(repeat.count, 2..=10)?;
    let distance = length(repeat.extent)?;
    if whose.is_some() || legs.len() > usize::from(count) || legs.iter().all(Option::is_none) {
        return Err(Trouble::Senseless);
    }
    let swum = (1u8..).zip(legs).filter_map(|(leg, swum)| Some((leg, swum?)));
    let told = swum.map(|(leg, (whose, time))| {
        let one = RelayLeg { count, distance, stroke, on, leg, time };
        about(Some(&whose), Kind::RelayLeg(one))
    });
    Ok(told.collect())
}
