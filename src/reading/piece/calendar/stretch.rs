//! Stretches of days: a week, a month, the end of one.

use nom::Parser;
use nom::branch::alt;
use nom::combinator::{map, opt};
use nom::sequence::{pair, preceded, terminated};

use super::date::{behind_el, day_month, month_day, month_word, of_month_number};
use super::named::Named;
use crate::message::Day;
use crate::reading::lexicon::{Concept, UnitWord};
use crate::reading::piece::sensed_token::{self, Read, Words, concept, mark, no, word};

/// `end of may`, `the end of june`
pub fn end_of_month<'t>(input: Words<'t>) -> Read<'t, Named> {
    map(preceded(concept(Concept::EndOf), month_word), Named::EndOf).parse(input)
}

/// `next week`, `this week`, `last week`, `the weekend`
pub fn week<'t>(input: Words<'t>) -> Read<'t, Named> {
    let which = || {
        alt((
            map(alt((concept(Concept::Next), word("otra"))), |()| 1),
            map(concept(Concept::This), |()| 0),
            map(concept(Concept::Last), |()| -1),
        ))
    };
    let week = || sensed_token::unit(UnitWord::Week);
    let the = || opt(concept(Concept::Article));
    let before = terminated(preceded(the(), which()), week());
    // `la semana que viene`, `la semana pasada`
    let behind = preceded(pair(word("la"), week()), which());
    // `the week after next`
    let after_next =
        map(pair(preceded(the(), week()), pair(word("after"), concept(Concept::Next))), |_| 2);
    let (rest, which) = alt((after_next, before, behind)).parse(input)?;
    Ok((rest, Named::Week(which)))
}

/// `week of the 16th`, `wk commencing 9 march`, `w/c 16/3`, `la semana del 16`
pub fn week_of<'t>(input: Words<'t>) -> Read<'t, Named> {
    let week = preceded(opt(concept(Concept::Article)), sensed_token::unit(UnitWord::Week));
    let of = alt((concept(Concept::Of), word("commencing"), word("beginning"), word("starting")));
    let short = alt((word("wc"), map(pair(word("w"), pair(mark('/'), word("c"))), |_| ())));
    let english = preceded(
        alt((map(pair(week, of), |_| ()), short)),
        preceded(opt(word("the")), alt((day_month, month_day, of_month_number))),
    );
    let spanish = preceded(pair(word("la"), sensed_token::unit(UnitWord::Week)), behind_el);
    match alt((english, spanish)).parse(input)? {
        (rest, Named::Day(Day::DayMonth(day, month), _)) => {
            Ok((rest, Named::WeekOf(day, Some(month))))
        }
        (rest, Named::OfMonth(day)) => Ok((rest, Named::WeekOf(day, None))),
        _ => no(input),
    }
}

/// `in april`, `april`
pub fn month<'t>(input: Words<'t>) -> Read<'t, Named> {
    let (rest, month) = month_word(input)?;
    // `may` and `march` are also other words.
    let is_other =
        matches!(input.0.first().map(|cell| cell.token.text), Some("may" | "march" | "mar"));
    match is_other {
        true => no(input),
        false => Ok((rest, Named::Month(month))),
    }
}
