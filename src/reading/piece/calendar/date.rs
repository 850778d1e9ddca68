//! Days by their date: `18 april`, `20/12`, `the 20th`.

use nom::Parser;
use nom::branch::alt;
use nom::combinator::{map, opt, verify};
use nom::sequence::{pair, preceded, terminated};

use super::named::{Named, plain};
use crate::message::Day;
use crate::reading::lexicon::{Concept, Sense};
use crate::reading::piece::number::below_hundred;
use crate::reading::piece::sensed_token::{
    self, Read, Words, concept, digits, glued_digits, glued_mark, glued_word, no, sense, word,
};

/// `2026-11-20`
pub fn full<'t>(input: Words<'t>) -> Read<'t, Named> {
    let (rest, ((year, _), ((month, _), (day, _)))) = pair(
        digits(4, 4),
        pair(
            preceded(glued_mark('-'), glued_digits(2, 2)),
            preceded(glued_mark('-'), glued_digits(2, 2)),
        ),
    )
    .parse(input)?;
    let date = jiff::civil::Date::new(
        i16::try_from(year).unwrap_or(0),
        i8::try_from(month).unwrap_or(0),
        i8::try_from(day).unwrap_or(0),
    );
    match date {
        Ok(date) => Ok((rest, plain(Day::Full(date)))),
        Err(_) => no(input),
    }
}

pub fn month_word<'t>(input: Words<'t>) -> Read<'t, u8> {
    sense(|sense| match sense {
        Sense::Month(month) => Some(month),
        _ => None,
    })(input)
}

fn day_number<'t>(input: Words<'t>) -> Read<'t, u8> {
    let digits = map(digits(1, 2), |(value, _)| value);
    let number = terminated(alt((digits, below_hundred)), opt(ordinal_end));
    let (rest, value) = verify(number, |value| (1..=31).contains(value)).parse(input)?;
    Ok((rest, u8::try_from(value).unwrap_or(1)))
}

fn ordinal_end<'t>(input: Words<'t>) -> Read<'t, ()> {
    glued_word(&["st", "nd", "rd", "th", "o", "a"]).parse(input)
}

/// `18 april`, `18th of april`, `18 de abril`
pub fn day_month<'t>(input: Words<'t>) -> Read<'t, Named> {
    let of = opt(concept(Concept::Of));
    let the = opt(concept(Concept::Article));
    let (rest, (day, month)) =
        pair(preceded(the, day_number), preceded(of, month_word)).parse(input)?;
    Ok((rest, plain(Day::DayMonth(day, month))))
}

/// `april 18`, `june 14th`
pub fn month_day<'t>(input: Words<'t>) -> Read<'t, Named> {
    let (rest, (month, day)) =
        pair(month_word, preceded(opt(word("the")), day_number)).parse(input)?;
    // `may 200`: no date. A time of day is none either.
    match rest.0.first().is_some_and(|next| {
        next.token.glued
            && !next.token.is_mark(',')
            && !next.token.is_mark('.')
            && !next.token.is_mark('!')
            && !next.token.is_mark('?')
    }) {
        true => no(input),
        false => Ok((rest, plain(Day::DayMonth(day, month)))),
    }
}

/// `20/11`, `20/11/2026`
pub fn slashed<'t>(input: Words<'t>) -> Read<'t, Named> {
    let number =
        |from: u8| verify(digits(1, 2), move |(value, _)| (u32::from(from)..=31).contains(value));
    let second = preceded(
        glued_mark('/'),
        verify(glued_digits(1, 2), |(value, _)| (1..=31).contains(value)),
    );
    let (rest, ((first, _), (second, _))) = pair(number(1), second).parse(input)?;
    let (rest, year) =
        opt(preceded(glued_mark('/'), alt((glued_digits(4, 4), glued_digits(2, 2)))))
            .parse(rest)?;
    let small = |value: u32| u8::try_from(value).unwrap_or(1);
    let day = match year {
        None => Day::Slashed(small(first), small(second)),
        Some((year, places)) => {
            let year = if places == 2 { 2000 + year } else { year };
            Day::SlashedYear(small(first), small(second), i16::try_from(year).unwrap_or(0))
        }
    };
    Ok((rest, plain(day)))
}

/// `16.3.`, `9.3.2026`: day and month with points, the last one included.
pub fn dotted<'t>(input: Words<'t>) -> Read<'t, Named> {
    let day = verify(digits(1, 2), |(value, _)| (1..=31).contains(value));
    let month = preceded(
        glued_mark('.'),
        verify(glued_digits(1, 2), |(value, _)| (1..=12).contains(value)),
    );
    let (rest, ((day, day_places), (month, month_places))) =
        pair(day, terminated(month, glued_mark('.'))).parse(input)?;
    let (rest, year) = opt(alt((glued_digits(4, 4), glued_digits(2, 2)))).parse(rest)?;
    // `4.04.` at the end of a sentence is a time.
    if year.is_none() && day_places < month_places {
        return no(input);
    }
    Ok((
        rest,
        plain(Day::DayMonth(u8::try_from(day).unwrap_or(1), u8::try_from(month).unwrap_or(1))),
    ))
}

/// `the 20th`, `the 9th`, `el 23`, `el dia 14`
pub fn of_month<'t>(input: Words<'t>) -> Read<'t, Named> {
    alt((behind_el, behind_the)).parse(input)
}

fn behind_the<'t>(input: Words<'t>) -> Read<'t, Named> {
    let article = alt((word("the"), word("on")));
    preceded(article, of_month_number).parse(input)
}

/// `el 23`, `el dia 14`, `del 10`, `al 24`: without an ending; no date before a
/// figure's mark or unit, nor `el 25 en 18`.
pub fn behind_el<'t>(input: Words<'t>) -> Read<'t, Named> {
    let article = alt((word("el"), word("del"), word("al"), word("este")));
    let (rest, (day, value)) =
        pair(preceded(article, opt(word("dia"))), digits(1, 2)).parse(input)?;
    let (value, _) = value;
    let (rest, _) = opt(ordinal_end).parse(rest)?;
    let counted = |cell: &sensed_token::Cell<'_>| {
        cell.token.glued
            && matches!(cell.token.text, ":" | "." | "," | "'" | "\"" | "/" | "%")
            && rest.0.get(1).is_some_and(|next| next.token.glued && next.token.value().is_some())
            || cell.token.glued && matches!(cell.token.text, "'" | "\"" | "%")
            || cell
                .senses
                .iter()
                .any(|found| matches!(found.sense, Sense::Unit(_) | Sense::Stroke(_)))
            || cell.token.text == "x"
            || value == 25 && matches!(cell.token.text, "en" | "a")
    };
    let is_figure = day.is_none() && rest.0.first().is_some_and(counted);
    match (1..=31).contains(&value) && !is_figure {
        true => Ok((rest, Named::OfMonth(u8::try_from(value).unwrap_or(1)))),
        false => no(input),
    }
}

/// `14th` without an article: so many repeats there hardly are.
pub fn late_of_month<'t>(input: Words<'t>) -> Read<'t, Named> {
    let (rest, named) = of_month_number(input)?;
    match named {
        Named::OfMonth(13..) => Ok((rest, named)),
        _ => no(input),
    }
}

/// `20th`
pub fn of_month_number<'t>(input: Words<'t>) -> Read<'t, Named> {
    let value = verify(digits(1, 2), |(value, _)| (1..=31).contains(value));
    let (rest, (value, _)) = terminated(value, ordinal_end).parse(input)?;
    Ok((rest, Named::OfMonth(u8::try_from(value).unwrap_or(1))))
}
