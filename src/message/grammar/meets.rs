//! Entries for a meet, and the legs of a relay.

use nom::Parser;
use nom::branch::alt;
use nom::combinator::{map, value};
use nom::multi::many1;
use nom::sequence::preceded;

use super::commands::fix_part;
use super::lexical::{date, figure, name, stroke};
use super::sets::repeat;
use crate::message::combinators::{Parsed, after, one_of, space, word};
use crate::message::syntax::{Item, Said, Verb};

/// `race-entry = ( "entry" / "scratch" ) 1*( SP race-entry-part )`
pub fn race_entry(input: &str) -> Parsed<'_, Said> {
    let verb = one_of(&[("entry", Verb::Entry), ("scratch", Verb::Scratch)]);
    map((verb, many1(preceded(space, race_entry_part))), |(verb, parts)| Said::Command(verb, parts))
        .parse(input)
}

/// `race-entry-part = fix-part / stroke`
pub fn race_entry_part(input: &str) -> Parsed<'_, Item> {
    alt((fix_part, map(stroke, Item::Stroke))).parse(input)
}

/// `relay = "relay" SP repeat 1*( SP relay-part )`
pub fn relay(input: &str) -> Parsed<'_, Said> {
    let legs = after("relay", (repeat, many1(preceded(space, relay_part))));
    map(legs, |(repeat, parts)| {
        let parts = std::iter::once(Item::Repeat(repeat)).chain(parts).collect();
        Said::Command(Verb::Relay, parts)
    })
    .parse(input)
}

/// `relay-part = name / stroke / date / figure / "x"`
pub fn relay_part(input: &str) -> Parsed<'_, Item> {
    alt((
        map(name, Item::Name),
        map(stroke, Item::Stroke),
        date,
        map(figure, Item::Figure),
        value(Item::Miss, word("x")),
    ))
    .parse(input)
}
