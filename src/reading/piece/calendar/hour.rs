//! Times of day in words or with their mark: `7pm`, `half 7`, `las 7 y media`.

use nom::Parser;
use nom::branch::alt;
use nom::combinator::{map, opt, verify};
use nom::sequence::{pair, preceded};

use crate::reading::lexicon::{Concept, Sense, UnitWord};
use crate::reading::piece::number::below_hundred;
use crate::reading::piece::sensed_token::{
    self, Read, Words, concept, digits, glued_digits, glued_mark, no, sense, word,
};

/// A time of day in words or with its mark: `7pm`, `half 7`, `quarter to 8`, `ten
/// to seven`, `19:30h`, `las 7`. A bare figure may be one too; the statement says.
pub fn time_of_day<'t>(input: Words<'t>) -> Read<'t, (u8, u8)> {
    alt((half_past, quarter, minutes_to, with_half_day, at_las, hour_and, before_las)).parse(input)
}

/// `las 7`, `a las siete y media`, `tipo 7 y cuarto`, `las 8 menos diez`.
fn at_las<'t>(input: Words<'t>) -> Read<'t, (u8, u8)> {
    let mut begins = pair(opt(concept(Concept::At)), alt((word("las"), word("la"))));
    let (rest, _) = begins.parse(input)?;
    if let Ok(found) = alt((with_half_day, hour_and)).parse(rest) {
        return Ok(found);
    }
    let (rest, hour) = hour(rest)?;
    let point = alt((glued_mark(':'), glued_mark('.')));
    let minutes = preceded(point, verify(glued_digits(2, 2), |(value, _)| *value < 60));
    let (rest, minutes) = opt(minutes).parse(rest)?;
    // `las 8 a 48`, `las 4 series`: repeats.
    let counts = |sense| match sense {
        Sense::Unit(_) => Some(()),
        Sense::Word(
            Concept::Reps
            | Concept::Set
            | Concept::First
            | Concept::Last
            | Concept::SetTime
            | Concept::Of,
        ) => Some(()),
        _ => None,
    };
    match minutes.is_none() && (sense(counts)(rest).is_ok() || word("en")(rest).is_ok()) {
        true => no(input),
        false => time(input, rest, hour, minutes.map_or(0, |(value, _)| value)),
    }
}

/// `7 y media`, `siete y cuarto`, `8 menos cuarto`, `7 y veinte`.
fn hour_and<'t>(input: Words<'t>) -> Read<'t, (u8, u8)> {
    let (rest, hour) = hour(input)?;
    let (rest, before) =
        alt((map(word("menos"), |()| true), map(word("y"), |()| false))).parse(rest)?;
    let small = alt((map(digits(2, 2), |(value, _)| value), below_hundred));
    let mut minutes = alt((
        map(word("media"), |()| 30),
        map(word("cuarto"), |()| 15),
        verify(small, |value| matches!(value, 5 | 10 | 20 | 25)),
    ));
    let (rest, minutes) = minutes.parse(rest)?;
    match before {
        true => time(input, rest, (hour + 23) % 24, 60 - minutes),
        false => time(input, rest, hour, minutes),
    }
}

/// `cuarto para las 8`, `20 para las siete`.
fn before_las<'t>(input: Words<'t>) -> Read<'t, (u8, u8)> {
    let minutes =
        alt((map(word("cuarto"), |()| 15), map(digits(1, 2), |(value, _)| value), below_hundred));
    let (rest, minutes) =
        verify(minutes, |value| matches!(value, 5 | 10 | 15 | 20 | 25)).parse(input)?;
    let to = pair(alt((word("para"), word("pa"))), alt((word("las"), word("la"))));
    let (rest, hour) = preceded(to, hour).parse(rest)?;
    time(input, rest, (hour + 23) % 24, 60 - minutes)
}

fn hour<'t>(input: Words<'t>) -> Read<'t, u32> {
    let number = alt((map(digits(1, 2), |(value, _)| value), below_hundred));
    verify(number, |hour| (1..=24).contains(hour)).parse(input)
}

fn at(hour: u32, minute: u32) -> Option<(u8, u8)> {
    Some((u8::try_from(hour % 24).ok()?, u8::try_from(minute).ok()?))
}

fn time<'t>(input: Words<'t>, rest: Words<'t>, hour: u32, minute: u32) -> Read<'t, (u8, u8)> {
    match at(hour, minute) {
        Some(time) => Ok((rest, time)),
        None => no(input),
    }
}

/// `half 7`, `half past seven`; Spanish says the half behind the hour.
fn half_past<'t>(input: Words<'t>) -> Read<'t, (u8, u8)> {
    let half = pair(word("half"), opt(word("past")));
    let (rest, hour) = preceded(half, hour).parse(input)?;
    let counted = rest
        .0
        .first()
        .is_some_and(|next| next.senses.iter().any(|found| matches!(found.sense, Sense::Unit(_))));
    match counted {
        true => no(input),
        false => time(input, rest, hour, 30),
    }
}

/// `quarter to 8`, `quarter past seven`
fn quarter<'t>(input: Words<'t>) -> Read<'t, (u8, u8)> {
    let (rest, ()) = preceded(opt(word("a")), concept(Concept::Quarter)).parse(input)?;
    let (rest, before) =
        alt((map(word("to"), |()| true), map(word("past"), |()| false))).parse(rest)?;
    let (rest, hour) = hour(rest)?;
    if before { time(input, rest, (hour + 23) % 24, 45) } else { time(input, rest, hour, 15) }
}

/// `ten to seven`, `20 past 7`
fn minutes_to<'t>(input: Words<'t>) -> Read<'t, (u8, u8)> {
    let minutes = alt((map(digits(1, 2), |(value, _)| value), below_hundred));
    let (rest, minutes) =
        verify(minutes, |value| matches!(value, 5 | 10 | 20 | 25)).parse(input)?;
    let (rest, before) =
        alt((map(word("to"), |()| true), map(word("past"), |()| false))).parse(rest)?;
    let (rest, hour) = hour(rest)?;
    if before {
        time(input, rest, (hour + 23) % 24, 60 - minutes)
    } else {
        time(input, rest, hour, minutes)
    }
}

/// `7pm`, `6.30 am`, `19:30h`, `7 o clock`
fn with_half_day<'t>(input: Words<'t>) -> Read<'t, (u8, u8)> {
    let (rest, (hour, _)) = verify(digits(1, 2), |(value, _)| *value < 25).parse(input)?;
    let point = alt((glued_mark(':'), glued_mark('.')));
    let (rest, minute) =
        opt(preceded(point, verify(glued_digits(2, 2), |(value, _)| *value < 60))).parse(rest)?;
    let minute = minute.map_or(0, |(value, _)| value);
    // `19:30h`, `19 hs`
    let hours = |input: Words<'t>| match hour >= 13 || minute > 0 && hour >= 5 {
        true => sensed_token::unit(UnitWord::Hour)(input),
        false => no(input),
    };
    let mut half = alt((
        map(concept(Concept::Morning), |()| Some(false)),
        map(concept(Concept::Afternoon), |()| Some(true)),
        map(alt((word("oclock"), map(pair(word("o"), word("clock")), |_| ()), hours)), |()| None),
    ));
    let (rest, half) = half.parse(rest)?;
    let hour = match half {
        Some(true) if hour < 12 => hour + 12,
        Some(false) if hour == 12 => 0,
        _ => hour,
    };
    time(input, rest, hour, minute)
}
