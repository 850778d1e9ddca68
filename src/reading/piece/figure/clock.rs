//! Times whose minutes and seconds are told apart: `3:12`, `3m12s`, `three oh nine`.

use nom::Parser;
use nom::branch::alt;
use nom::combinator::{map, not, opt, peek, verify};
use nom::sequence::{pair, preceded, terminated};

use super::value::Clock;
use crate::reading::lex::Form;
use crate::reading::lexicon::{Concept, Sense, UnitWord};
use crate::reading::piece::number::{below_hundred, number_word, sounds_like};
use crate::reading::piece::sensed_token::{
    self, Read, Words, concept, digits, glued_digits, glued_mark, glued_word, mark, no, one, unit,
};
use crate::units::Centis;

pub fn clock(minutes: u32, seconds: u32, parts: Option<(u32, u8)>) -> Option<Clock> {
    let hundredths = match parts {
        None => 0,
        Some((value, 1)) => value * 10,
        Some((value, 2)) => value,
        Some(_) => return None,
    };
    let time = Centis::new((minutes * 60 + seconds) * 100 + hundredths).ok()?;
    let day_time = (minutes < 24 && seconds < 60 && parts.is_none())
        .then(|| Some((u8::try_from(minutes).ok()?, u8::try_from(seconds).ok()?)))
        .flatten();
    Some(Clock { time, tenths: parts.is_some(), day_time })
}

/// Minutes, seconds and parts, made a clock.
fn made<'t>(
    input: Words<'t>,
    rest: Words<'t>,
    minutes: u32,
    seconds: u32,
    parts: Option<(u32, u8)>,
) -> Read<'t, Clock> {
    match clock(minutes, seconds, parts).filter(|_| seconds < 60) {
        Some(clock) => Ok((rest, clock)),
        None => no(input),
    }
}

/// `.4`, `,45` close behind.
pub fn parts<'t>(input: Words<'t>) -> Read<'t, (u32, u8)> {
    preceded(alt((glued_mark('.'), glued_mark(','))), glued_digits(1, 2)).parse(input)
}

/// `1:02:10`
pub fn hours<'t>(input: Words<'t>) -> Read<'t, Clock> {
    let seconds =
        || preceded(glued_mark(':'), verify(glued_digits(2, 2), |(value, _)| *value < 60));
    let (rest, ((hours, _), ((minutes, _), (second, _)))) =
        pair(digits(1, 2), pair(seconds(), seconds())).parse(input)?;
    let (rest, parts) = opt(parts).parse(rest)?;
    made(input, rest, hours * 60 + minutes, second, parts)
}

/// `3'12`, `3' 12"`, `3'12"4`, `3'12''`, `3'` and `45"` being lengths of time of
/// their own.
pub fn quoted<'t>(input: Words<'t>) -> Read<'t, Clock> {
    let (rest, ((minutes, _), (seconds, _))) = pair(
        digits(1, 3),
        preceded(glued_mark('\''), verify(digits(1, 2), |(value, _)| *value < 60)),
    )
    .parse(input)?;
    let double = map(pair(glued_mark('\''), glued_mark('\'')), |_| ());
    let (rest, closed) = opt(alt((glued_mark('"'), double))).parse(rest)?;
    // `pausa 1' 8x50`: a minute, and something else.
    let (rest, ()) = not(alt((sensed_token::word("x"), mark('*')))).parse(rest)?;
    let behind = glued_digits(1, 2);
    let (rest, tenths) = match closed {
        Some(()) => opt(alt((parts, behind))).parse(rest)?,
        None => opt(parts).parse(rest)?,
    };
    made(input, rest, minutes, seconds, tenths)
}

/// `3m12`, `3min10`, `3 min 12 s`, `3 minutes and 12 seconds`, `2m57s`.
pub fn lettered<'t>(input: Words<'t>) -> Read<'t, Clock> {
    let minutes = alt((map(digits(1, 3), |(value, _)| value), below_hundred, sounds_like));
    let minute = alt((unit(UnitWord::Minute), glued_word(&["m"])));
    let (rest, minutes) = terminated(minutes, minute).parse(input)?;
    let joined = opt(alt((concept(Concept::And), concept(Concept::Point))));
    let seconds = alt((map(digits(1, 2), |(value, _)| value), zero_unit, below_hundred));
    let (rest, seconds) = preceded(joined, seconds).parse(rest)?;
    let (rest, tenths) = opt(alt((parts, said_parts))).parse(rest)?;
    // `20 mins 1200`, `45 min 2k`, `3 min 12x50` are two things.
    let (rest, ended) = opt(alt((unit(UnitWord::Second), glued_word(&["s"])))).parse(rest)?;
    let more = one(|cell| {
        let counts = cell.senses.iter().any(|found| matches!(found.sense, Sense::Unit(_)));
        (cell.token.glued && matches!(cell.token.form, Form::Word | Form::Digits { .. }) || counts)
            .then_some(())
    });
    let times = alt((glued_mark(':'), glued_mark('.'), glued_mark('\'')));
    let goes_on = peek(pair(times, glued_digits(1, 9))).parse(rest).is_ok();
    if ended.is_none() && (peek(more).parse(rest).is_ok() || goes_on) {
        return no(input);
    }
    made(input, rest, minutes, seconds, tenths)
}

/// `3:12`, `3:12.4`, `3 : 12`
pub fn colon<'t>(input: Words<'t>) -> Read<'t, Clock> {
    let sixty = verify(digits(2, 2), |(value, _)| *value < 60);
    let (rest, ((minutes, _), (seconds, _))) =
        pair(digits(1, 3), preceded(mark(':'), sixty)).parse(input)?;
    let (rest, tenths) = opt(parts).parse(rest)?;
    // A third group would make it something else.
    let (rest, ()) = not(pair(glued_mark(':'), glued_digits(1, 9))).parse(rest)?;
    made(input, rest, minutes, seconds, tenths)
}

/// `1.40.5`, `3.12,4`
pub fn dotted_twice<'t>(input: Words<'t>) -> Read<'t, Clock> {
    let mark = || alt((glued_mark('.'), glued_mark(',')));
    let sixty = verify(glued_digits(2, 2), |(value, _)| *value < 60);
    let (rest, ((minutes, _), ((seconds, _), tenths))) =
        pair(digits(1, 2), pair(preceded(mark(), sixty), preceded(mark(), glued_digits(1, 2))))
            .parse(input)?;
    made(input, rest, minutes, seconds, Some(tenths))
}

/// `three oh nine`, `two forty four`, `six fifty one`, `won twenty eight`, `three
/// eleven point five`, `three minutes dead`, `tres cero nueve`.
pub fn said<'t>(input: Words<'t>) -> Read<'t, Clock> {
    let teen = |input: Words<'t>| number_word(input, |value| (1..20).contains(&value));
    // `for forty minutes`, `to fifty`: of the words that sound like a number only
    // those that are hardly ever anything else.
    let heard = verify(sounds_like, |value| matches!(value, 1 | 8));
    let heard = preceded(not(alt((sensed_token::word("a"), sensed_token::word("an")))), heard);
    let (rest, minutes) = alt((teen, heard)).parse(input)?;
    let above = |input: Words<'t>| match below_hundred(input) {
        Ok((rest, value)) if (10..60).contains(&value) => Ok((rest, value)),
        _ => no(input),
    };
    let (rest, seconds) =
        preceded(opt(concept(Concept::Point)), alt((zero_unit, above))).parse(rest)?;
    // `two fifty metres`, `one fifty hundreds`: no time.
    let counted = |sense| match sense {
        Sense::Number(100 | 1000) | Sense::Plural(_) => Some(()),
        Sense::Unit(UnitWord::Metre | UnitWord::Yard | UnitWord::Length) => Some(()),
        _ => None,
    };
    if sensed_token::sense(counted)(rest).is_ok() {
        return no(input);
    }
    let (rest, tenths) = opt(said_parts).parse(rest)?;
    let clock = made(input, rest, minutes, seconds, tenths)?;
    Ok(clock)
}

/// `oh nine`, `o five`, `zero four`
pub fn zero_unit<'t>(input: Words<'t>) -> Read<'t, u32> {
    let zero = sensed_token::sense(|sense| match sense {
        Sense::Number(0) | Sense::SoundsLike(0) => Some(()),
        _ => None,
    });
    preceded(zero, |input| number_word(input, |value| (1..10).contains(&value))).parse(input)
}

/// `point five`
fn said_parts<'t>(input: Words<'t>) -> Read<'t, (u32, u8)> {
    let point = concept(Concept::Point);
    let digit = |input: Words<'t>| number_word(input, |value| value < 10);
    let (rest, first) = preceded(point, digit).parse(input)?;
    match opt(digit).parse(rest)? {
        (rest, Some(second)) => Ok((rest, (first * 10 + second, 2))),
        (rest, None) => Ok((rest, (first, 1))),
    }
}
