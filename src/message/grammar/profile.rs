//! Section 6 of the grammar: what a person says of themselves.

use nom::Parser;
use nom::branch::alt;
use nom::combinator::map;

use super::lexical::{course, duration, length, number, weekdays};
use crate::language::Language;
use crate::message::combinators::{Parsed, after, digits, one_of, whole};
use crate::message::syntax::{Extent, Item, Said, Verb};
use crate::units::Unit;

/// `profile = pool / born / days / minutes / units / language`
pub fn profile(input: &str) -> Parsed<'_, Said> {
    map(alt((pool, born, days, minutes, units, language)), |part| {
        Said::Command(Verb::Profile, vec![part])
    })
    .parse(input)
}

/// `pool = "pool" SP ( course / length / number )`
pub fn pool(input: &str) -> Parsed<'_, Item> {
    let bare = map(number, |(amount, _)| Item::Length(Extent { amount, unit: None }));
    let kind = alt((map(course, Item::Course), map(length, Item::Length), bare));
    after("pool", kind).parse(input)
}

/// `born = "born" SP 4DIGIT`
pub fn born(input: &str) -> Parsed<'_, Item> {
    map(after("born", whole(digits(4, 4))), |(year, _)| Item::Born(year)).parse(input)
}

/// `days = "days" SP ( weekdays / 1*2DIGIT )`
pub fn days(input: &str) -> Parsed<'_, Item> {
    let several = map(whole(digits(1, 2)), |(count, _)| Item::Count(count));
    after("days", alt((map(weekdays, Item::Weekdays), several))).parse(input)
}

/// `minutes = "minutes" SP ( duration / 1*3DIGIT )`
pub fn minutes(input: &str) -> Parsed<'_, Item> {
    let bare = map(whole(digits(1, 3)), |(minutes, _)| Item::Minutes(minutes));
    after("minutes", alt((duration, bare))).parse(input)
}

/// `units = "units" SP ( "m" / "yd" )`
pub fn units(input: &str) -> Parsed<'_, Item> {
    let table = &[("m", Unit::Metre), ("yd", Unit::Yard)];
    map(after("units", one_of(table)), Item::Units).parse(input)
}

/// `language = "language" SP ( "en" / "es" )`
pub fn language(input: &str) -> Parsed<'_, Item> {
    let table = &[("en", Language::English), ("es", Language::Spanish)];
    map(after("language", one_of(table)), Item::Language).parse(input)
}
