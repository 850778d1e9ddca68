//! Lengths of time with their unit: `45 min`, `half an hour`, `1h05`.

use nom::Parser;
use nom::branch::alt;
use nom::combinator::{map, opt, verify};
use nom::sequence::{pair, preceded, terminated};

use super::plain::{in_digits, parted};
use super::value::Figure;
use crate::reading::lexicon::{Concept, Sense, UnitWord};
use crate::reading::piece::number::{below_hundred, number_word, sounds_like, spelled};
use crate::reading::piece::sensed_token::{
    self, Read, Words, concept, digits, glued_mark, glued_word, mark, no, unit, word,
};
use crate::units::Centis;

/// A unit of time behind a figure: how many hundredths one is.
pub fn time_unit<'t>(input: Words<'t>) -> Read<'t, u32> {
    let quote = alt((map(glued_mark('"'), |()| 100), map(glued_mark('\''), |()| 6000)));
    let word = sensed_token::sense(|sense| match sense {
        Sense::Unit(UnitWord::Second) => Some(100),
        Sense::Unit(UnitWord::Minute) => Some(6000),
        Sense::Unit(UnitWord::Hour) => Some(360_000),
        _ => None,
    });
    alt((quote, word)).parse(input)
}

/// A length of time with its unit: `45 min`, `20"`, `half an hour`, `1h05`, `an
/// hour and a half`, `three quarters of an hour`.
pub fn span<'t>(input: Words<'t>) -> Read<'t, Centis> {
    alt((hour_and_minutes, portion_of_hour, hours_and_half, and_half, with_unit)).parse(input)
}

fn centis<'t>(input: Words<'t>, rest: Words<'t>, hundredths: u32) -> Read<'t, Centis> {
    match Centis::new(hundredths) {
        Ok(time) => Ok((rest, time)),
        Err(_) => no(input),
    }
}

fn with_unit<'t>(input: Words<'t>) -> Read<'t, Centis> {
    let article = map(alt((word("an"), word("one"), word("un"), word("una"))), |()| (100, 1));
    let couple = map(sounds_like, |value| (value * 100, 1));
    let (rest, (whole, _)) =
        alt((decimal, article, verify(couple, |(value, _)| *value > 100))).parse(input)?;
    let (rest, each) = preceded(opt(mark('-')), time_unit).parse(rest)?;
    let hundredths = u64::from(whole) * u64::from(each) / 100;
    centis(input, rest, u32::try_from(hundredths).unwrap_or(0))
}

/// A number in hundredths of itself, and how many decimals were typed.
pub fn decimal<'t>(input: Words<'t>) -> Read<'t, (u32, u8)> {
    let (rest, figure) =
        alt((parted, in_digits, map(spelled, |value| Figure::Whole { value, places: 0 })))
            .parse(input)?;
    match figure {
        Figure::Whole { value, .. } => Ok((rest, (value.saturating_mul(100), 0))),
        Figure::Parted { whole, parts, places, .. } => {
            Ok((rest, (whole * 100 + if places == 1 { parts * 10 } else { parts }, places)))
        }
        Figure::Clock(_) => no(input),
    }
}

/// `1h05`, `1 hr 10`, `2 hours 15 mins`
fn hour_and_minutes<'t>(input: Words<'t>) -> Read<'t, Centis> {
    let hour = alt((unit(UnitWord::Hour), glued_word(&["h"])));
    let (rest, hours) = terminated(how_many_hours, hour).parse(input)?;
    let minutes = alt((map(digits(1, 2), |(value, _)| value), |input| {
        number_word(input, |value| (5..60).contains(&value))
    }));
    let (rest, and) = opt(concept(Concept::And)).parse(rest)?;
    let (rest, minutes) = verify(minutes, |value| *value < 60).parse(rest)?;
    let (rest, unit) = opt(alt((unit(UnitWord::Minute), glued_word(&["m"])))).parse(rest)?;
    // `1 hora y 48 largos`, `una hora y 20x50`: two things.
    let more = |sense| matches!(sense, Sense::Unit(_)).then_some(());
    let crossed = alt((word("x"), mark('*'))).parse(rest).is_ok();
    match unit.is_none() && (and.is_some() || sensed_token::sense(more)(rest).is_ok() || crossed) {
        true => no(input),
        false => centis(input, rest, (hours * 60 + minutes) * 6000),
    }
}

/// `1`, `two`, `una`.
fn how_many_hours<'t>(input: Words<'t>) -> Read<'t, u32> {
    alt((
        map(digits(1, 2), |(value, _)| value),
        below_hundred,
        map(alt((word("an"), word("una"))), |()| 1),
    ))
    .parse(input)
}

/// `half an hour`, `quarter of an hour`, `three quarters of an hour`
fn portion_of_hour<'t>(input: Words<'t>) -> Read<'t, Centis> {
    let half = map(concept(Concept::Half), |()| 30);
    let quarters = pair(number_or_digit(3), concept(Concept::Quarter));
    let three = map(quarters, |_| 45);
    let quarter = map(concept(Concept::Quarter), |()| 15);
    let little = alt((concept(Concept::Of), concept(Concept::Article)));
    let (rest, minutes) = alt((three, half, quarter)).parse(input)?;
    let (rest, _) = opt(little).parse(rest)?;
    let (rest, _) = opt(concept(Concept::Article)).parse(rest)?;
    let (rest, ()) = unit(UnitWord::Hour)(rest)?;
    centis(input, rest, minutes * 6000)
}

/// `an hour and a half`, `una hora y media`
fn hours_and_half<'t>(input: Words<'t>) -> Read<'t, Centis> {
    let (rest, hours) = terminated(opt(how_many_hours), unit(UnitWord::Hour)).parse(input)?;
    let (rest, _) = pair(concept(Concept::And), opt(concept(Concept::Article))).parse(rest)?;
    let half = map(concept(Concept::Half), |()| 180_000);
    let quarter = map(concept(Concept::Quarter), |()| 90_000);
    let (rest, more) = alt((half, quarter)).parse(rest)?;
    centis(input, rest, hours.unwrap_or(1) * 360_000 + more)
}

/// `nine and a half minutes`
fn and_half<'t>(input: Words<'t>) -> Read<'t, Centis> {
    let article = opt(concept(Concept::Article));
    let half = preceded(pair(concept(Concept::And), article), concept(Concept::Half));
    let (rest, whole) = terminated(how_many_hours, half).parse(input)?;
    let (rest, each) = time_unit(rest)?;
    centis(input, rest, whole * each + each / 2)
}

/// This number, in a digit or a word.
fn number_or_digit<'t>(wanted: u32) -> impl FnMut(Words<'t>) -> Read<'t, ()> {
    move |input| {
        let digit = map(verify(digits(1, 1), move |(value, _)| *value == wanted), |_| ());
        let said = map(move |input| number_word(input, |value| value == wanted), |_| ());
        alt((digit, said)).parse(input)
    }
}
