//! What somebody can't or may not do, of section 6 of the grammar.

use nom::Parser;
use nom::branch::alt;
use nom::combinator::{map, opt, value};
use nom::sequence::preceded;

use super::lexical::{equipment, stroke};
use crate::message::combinators::{Parsed, each_after_space, one_of, space, word};
use crate::message::syntax::{Item, Said, Verb};
use crate::session::Limit;

/// `limit = ( "limit" / "allow" ) [ SP "all" ] 1*( SP limited )`
pub fn limit(input: &str) -> Parsed<'_, Said> {
    let (rest, verb) = one_of(&[("limit", Verb::Limit), ("allow", Verb::Allow)]).parse(input)?;
    let (rest, all) = opt(preceded(space, value(Item::Everyone, word("all")))).parse(rest)?;
    let (rest, first) = preceded(space, limited).parse(rest)?;
    let (rest, others) = each_after_space(limited).parse(rest)?;
    let parts = all.into_iter().chain([first]).chain(others).collect();
    Ok((rest, Said::Command(verb, parts)))
}

/// `limited = equipment / stroke / "breast-kick" / "dives" / "tumble-turns"`
pub fn limited(input: &str) -> Parsed<'_, Item> {
    let others = one_of(&[
        ("breast-kick", Limit::BreastKick),
        ("dives", Limit::Dives),
        ("tumble-turns", Limit::TumbleTurns),
    ]);
    map(alt((others, map(equipment, Limit::Kit), map(stroke, Limit::Stroke))), Item::Limited)
        .parse(input)
}

/// `kit = "kit" 1*( SP equipment )`
pub fn kit(input: &str) -> Parsed<'_, Said> {
    let (rest, first) = preceded((word("kit"), space), equipment).parse(input)?;
    let (rest, others) = each_after_space(equipment).parse(rest)?;
    let parts = std::iter::once(first).chain(others).map(Item::Equipment).collect();
    Ok((rest, Said::Command(Verb::Kit, parts)))
}
