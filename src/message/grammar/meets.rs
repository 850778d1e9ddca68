//! Entries for a meet.

use nom::Parser;
use nom::branch::alt;
use nom::combinator::map;
use nom::multi::many1;
use nom::sequence::preceded;

use super::commands::fix_part;
use super::lexical::stroke;
use crate::message::combinators::{Parsed, one_of, space};
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
