//! Section 8 of the grammar: who comes, who goes, who runs the squad.

use nom::Parser;
use nom::branch::alt;
use nom::combinator::{map, opt};
use nom::sequence::preceded;

use super::commands::code;
use super::lexical::{figure, length, name, text};
use crate::message::Office;
use crate::message::combinators::{Parsed, after, each_after_space, one_of, space, word};
use crate::message::syntax::{Item, Said, Verb};

/// `people = invite / hand-over / remove / add / claim / leave / squads`
pub fn people(input: &str) -> Parsed<'_, Said> {
    alt((invite, hand_over, remove, add, claim, leave, squads)).parse(input)
}

/// `invite = "invite" SP text [ SP office ] [ SP name ]`
pub fn invite(input: &str) -> Parsed<'_, Said> {
    let whom = (after("invite", text), opt(preceded(space, office)), opt(preceded(space, name)));
    map(whom, |(to, office, name)| {
        let mut parts = vec![Item::Text(to)];
        parts.extend(office.map(Item::Office));
        parts.extend(name.map(Item::Name));
        Said::Command(Verb::Invite, parts)
    })
    .parse(input)
}

/// `office = "co-coach" / "assistant" / "guardian" / "officer"`
pub fn office(input: &str) -> Parsed<'_, Office> {
    one_of(&[
        ("co-coach", Office::Coach),
        ("assistant", Office::Assistant),
        ("guardian", Office::Guardian),
        ("officer", Office::WelfareOfficer),
    ])
    .parse(input)
}

/// `hand-over = "hand-over" SP name`
pub fn hand_over(input: &str) -> Parsed<'_, Said> {
    map(after("hand-over", name), |to| Said::Command(Verb::HandOver, vec![Item::Name(to)]))
        .parse(input)
}

/// `remove = "remove" SP name`
pub fn remove(input: &str) -> Parsed<'_, Said> {
    map(after("remove", name), |name| Said::Command(Verb::Remove, vec![Item::Name(name)]))
        .parse(input)
}

/// `add = "add" SP name *( SP guess )`
pub fn add(input: &str) -> Parsed<'_, Said> {
    map((after("add", name), each_after_space(guess)), |(name, mut parts)| {
        parts.insert(0, Item::Name(name));
        Said::Command(Verb::Add, parts)
    })
    .parse(input)
}

/// `guess = length / figure`
pub fn guess(input: &str) -> Parsed<'_, Item> {
    alt((map(length, Item::Length), map(figure, Item::Figure))).parse(input)
}

/// `claim = "claim" SP code`
pub fn claim(input: &str) -> Parsed<'_, Said> {
    map(after("claim", code), |code| Said::Command(Verb::Claim, vec![Item::Code(code)]))
        .parse(input)
}

/// `leave = "leave"`
pub fn leave(input: &str) -> Parsed<'_, Said> {
    map(word("leave"), |_| Said::Command(Verb::Leave, Vec::new())).parse(input)
}

/// `squads = "squads"`
pub fn squads(input: &str) -> Parsed<'_, Said> {
    map(word("squads"), |_| Said::Command(Verb::Squads, Vec::new())).parse(input)
}
