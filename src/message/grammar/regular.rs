//! The texts that come every week, of section 7 of the grammar.

use nom::Parser;
use nom::branch::alt;
use nom::combinator::{map, opt};
use nom::sequence::preceded;

use super::lexical::{clock, number, time, weekday};
use crate::message::Day;
use crate::message::combinators::{Parsed, each_after_space, one_of, space, whole, word};
use crate::message::syntax::{Extent, Item, Said, TypedDay, Verb};

/// `digest = "digest" *( SP digest-part )`
pub fn digest(input: &str) -> Parsed<'_, Said> {
    let parts = preceded(word("digest"), each_after_space(digest_part));
    map(parts, |parts| Said::Command(Verb::Digest, parts)).parse(input)
}

/// `digest-part = switch / weekday / clock / time / number`
pub fn digest_part(input: &str) -> Parsed<'_, Item> {
    alt((
        switch,
        map(weekday, |day| Item::Day(TypedDay::Named(Day::On(day)))),
        map(whole(clock), Item::Clock),
        map(time, Item::Figure),
        map(number, |(amount, _)| Item::Length(Extent { amount, unit: None })),
    ))
    .parse(input)
}

/// `weekly-note = "weekly" [ SP switch ]`
pub fn weekly_note(input: &str) -> Parsed<'_, Said> {
    let wish = preceded(word("weekly"), opt(preceded(space, switch)));
    map(wish, |wish| Said::Command(Verb::WeeklyNote, wish.into_iter().collect())).parse(input)
}

/// `switch = "yes" / "no"`
pub fn switch(input: &str) -> Parsed<'_, Item> {
    map(one_of(&[("yes", true), ("no", false)]), Item::Switch).parse(input)
}
