//! Plans that wait for the coach's yes, of section 7 of the grammar.

use nom::Parser;
use nom::branch::alt;
use nom::combinator::{map, opt, value};
use nom::sequence::{pair, preceded};

use super::lexical::name;
use super::regular::switch;
use crate::message::combinators::{Parsed, space, word};
use crate::message::syntax::{Item, Said, Verb};

/// `approve = "approve" [ SP ( switch / "all" / plan-of ) ]`
pub fn approve(input: &str) -> Parsed<'_, Said> {
    let one = map(alt((switch, value(Item::Everyone, word("all")))), |item| vec![item]);
    let what = opt(preceded(space, alt((one, plan_of))));
    map(preceded(word("approve"), what), |what| {
        Said::Command(Verb::Approve, what.unwrap_or_default())
    })
    .parse(input)
}

/// `plan-of = name [ SP "no" ]`
pub fn plan_of(input: &str) -> Parsed<'_, Vec<Item>> {
    let no = value(Item::Switch(false), word("no"));
    map(pair(name, opt(preceded(space, no))), |(who, no)| {
        std::iter::once(Item::Name(who)).chain(no).collect()
    })
    .parse(input)
}
