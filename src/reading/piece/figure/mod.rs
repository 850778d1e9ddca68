//! Figures that may be a time: as typed, with every reading they can have.

mod clock;
mod plain;
mod span;
mod value;

use nom::branch::alt;
use nom::combinator::{map, opt, verify};
use nom::sequence::{pair, preceded};
use nom::{Input, Parser};

use super::number::{spelled, thousands};
use super::sensed_token::{Read, Words, concept, glued_digits, mark, no, unit, word};
use crate::reading::lexicon::{Concept, UnitWord};
use clock::{clock, colon, dotted_twice, hours, lettered, parts, quoted, said};
use plain::{in_digits, parted, parted_by_word};

pub use span::{decimal, span};
pub use value::{Clock, Figure};

/// Any figure, the longest shape first.
pub fn figure<'t>(input: Words<'t>) -> Read<'t, Figure> {
    let (rest, figure) = alt((
        map(alt((hours, quoted, lettered, colon, dotted_twice, said)), Figure::Clock),
        short_colon,
        parted,
        parted_by_word,
        map(verify(thousands, |value| value.is_multiple_of(50)), |value| Figure::Whole {
            value,
            places: 4,
        }),
        in_digits,
        map(spelled, |value| Figure::Whole { value, places: 0 }),
    ))
    .parse(input)?;
    match (figure.and_half(), half_behind(rest)) {
        (Some(figure), Ok((rest, ()))) => Ok((rest, figure)),
        _ => Ok((rest, figure)),
    }
}

/// `and a half`, `y medio`: of a second.
fn half_behind<'t>(input: Words<'t>) -> Read<'t, ()> {
    let and = pair(concept(Concept::And), opt(concept(Concept::Article)));
    let (rest, ()) = preceded(and, concept(Concept::Half)).parse(input)?;
    // `7 y media` is a time of day, `dos y medio km` a distance.
    let day = word("media")(input.take_from(1)).is_ok();
    match day || unit(UnitWord::Kilo)(rest).is_ok() || unit(UnitWord::Hour)(rest).is_ok() {
        true => no(input),
        false => Ok((rest, ())),
    }
}

/// `:48`
fn short_colon<'t>(input: Words<'t>) -> Read<'t, Figure> {
    let (rest, (seconds, _)) =
        preceded(mark(':'), verify(glued_digits(2, 2), |(value, _)| *value <= 60)).parse(input)?;
    let (rest, tenths) = opt(parts).parse(rest)?;
    match clock(0, seconds, tenths) {
        Some(clock) => Ok((rest, Figure::Clock(Clock { day_time: None, ..clock }))),
        None => no(input),
    }
}
