//! Sessions swum, other training, and sessions missed.

use super::figures::{length, minutes, typed_time, within};
use super::results::rpe;
use super::trials::once;
use super::{Outcome, Trouble, about, days};
use crate::message::syntax::{Extent, Figure, Item, TypedDay};
use crate::message::{Done, Doubt, Kind, Name, Statement};
use crate::units::{Centis, Rpe};

/// A session is no shorter than this: a smaller bare number counts minutes or
/// rates the effort, and is asked about. Ours.
const LEAST_SESSION: u32 = 100;

/// True if `segment` tells of a session.
pub fn is_done(segment: &[Item]) -> bool {
    let says = |item: &Item| {
        matches!(
            item,
            Item::Done
                | Item::Short
                | Item::Sport(_)
                | Item::Rpe(_)
                | Item::Minutes(_)
                | Item::Lengths(_)
        )
    };
    segment.iter().any(says)
}

/// `missed`, `missed tue`
pub fn missed(who: Option<&Name>, segment: &[Item]) -> Outcome<Vec<Statement>> {
    let mut on = None;
    for item in segment {
        match item {
            Item::Missed => {}
            Item::Day(day) => once(&mut on, days::day(*day)?)?,
            Item::Fraction(first, second) => {
                let typed = TypedDay::Slashed { first: *first, second: *second };
                once(&mut on, days::day(typed)?)?;
            }
            _ => return Err(Trouble::Senseless),
        }
    }
    Ok(vec![about(who, Kind::Missed { on })])
}

/// `done 1800 in 45min rpe 6`, `ran 10k 50min`
pub fn done(who: Option<&Name>, segment: &[Item]) -> Outcome<Vec<Statement>> {
    let mut done = Done::default();
    let mut numbers: Vec<u32> = Vec::new();
    for item in segment {
        match item {
            Item::Done => {}
            Item::Short => done.shortened = true,
            Item::Sport(sport) => once(&mut done.sport, *sport)?,
            Item::Length(extent) => once(&mut done.distance, length(*extent)?)?,
            Item::Lengths(count) => once(&mut done.lengths, within(*count, 1..=4000)?)?,
            Item::Minutes(count) => once(&mut done.duration, minutes(*count)?)?,
            Item::Figure(Figure::Number { value, .. }) => numbers.push(*value),
            Item::Figure(figure) | Item::Took(figure) => {
                once(&mut done.duration, longest(*figure)?)?
            }
            Item::Rpe(tenths) => once(&mut done.rpe, rpe(*tenths)?)?,
            Item::Day(day) => once(&mut done.on, days::day(*day)?)?,
            Item::Fraction(first, second) => {
                let typed = TypedDay::Slashed { first: *first, second: *second };
                once(&mut done.on, days::day(typed)?)?;
            }
            Item::Stroke(_) | Item::Course(_) => {}
            _ => return Err(Trouble::Senseless),
        }
    }
    let mut asked: Option<(u32, Done, String)> = None;
    for number in numbers {
        if number >= LEAST_SESSION && done.distance.is_none() && done.sport.is_none() {
            done.distance = Some(length(Extent { amount: number, unit: None })?);
        } else if asked.is_some() {
            return Err(Trouble::Senseless);
        } else {
            asked = Some(unmarked(number, &done)?);
        }
    }
    if done.lengths.is_some() && (done.distance.is_some() || done.sport.is_some()) {
        return Err(Trouble::Senseless);
    }
    let Some((number, guess, meant)) = asked else {
        return Ok(vec![about(who, Kind::Done(done))]);
    };
    let settled = Done { distance: guess.distance.or(done.distance), ..guess };
    let doubt = Doubt::Spelling { typed: number.to_string(), meant };
    Err(Trouble::Doubt(doubt, vec![("yes".to_owned(), vec![about(who, Kind::Done(settled))])]))
}

/// A session of which only the effort is told.
pub fn rated(rpe: Rpe) -> Kind {
    Kind::Done(Done { rpe: Some(rpe), ..Done::default() })
}

/// A bare number beside the distance: up to ten an effort, else minutes.
fn unmarked(number: u32, done: &Done) -> Outcome<(u32, Done, String)> {
    if done.sport.is_some() {
        // `ran 5 45min` counts kilometres or rates the effort: nobody can tell.
        return Err(Trouble::Senseless);
    }
    if (1..=10).contains(&number) && done.rpe.is_none() {
        let guess = Done { rpe: Some(rpe(number * 10)?), ..done.clone() };
        Ok((number, guess, format!("rpe {number}")))
    } else if (11..=300).contains(&number) && done.duration.is_none() {
        let guess = Done { duration: Some(minutes(number)?), ..done.clone() };
        Ok((number, guess, format!("{number}min")))
    } else {
        Err(Trouble::Senseless)
    }
}

/// A session's time: of several readings the longest.
fn longest(figure: Figure) -> Outcome<Centis> {
    typed_time(figure)?.readings.into_iter().max().ok_or(Trouble::Senseless)
}
