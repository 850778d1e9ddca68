//! Section 1 of the grammar: a whole text and its statements.

use nom::Parser;
use nom::branch::alt;
use nom::bytes::complete::tag;
use nom::combinator::{map, opt, value};
use nom::multi::many0;
use nom::sequence::preceded;

use super::commands::command;
use super::lexical::name;
use super::reports::{capture, report};
use crate::message::combinators::{Parsed, word};
use crate::message::syntax::{Said, Sentence, Text};

/// `message = opting / capture / statements`
pub fn message(input: &str) -> Parsed<'_, Text> {
    match input.contains(" : ") {
        true => alt((opting, map(capture, Text::Capture), map(statements, Text::Statements)))
            .parse(input),
        false => alt((opting, map(statements, Text::Statements))).parse(input),
    }
}

/// `opting = "stop" / "start"`
pub fn opting(input: &str) -> Parsed<'_, Text> {
    alt((
        value(Text::Opt { out: true }, word("stop")),
        value(Text::Opt { out: false }, word("start")),
    ))
    .parse(input)
}

/// `statements = statement *( SP ( "," / ";" ) SP statement )`
pub fn statements(input: &str) -> Parsed<'_, Vec<Sentence>> {
    map(
        (statement, many0(preceded(alt((tag(" , "), tag(" ; "))), statement))),
        |(first, mut rest)| {
            rest.insert(0, first);
            rest
        },
    )
    .parse(input)
}

/// `statement = named / said`
pub fn statement(input: &str) -> Parsed<'_, Sentence> {
    alt((named, map(said, |said| Sentence { who: None, said: Some(said) }))).parse(input)
}

/// `named = name [ SP ":" ] [ SP said ]`
pub fn named(input: &str) -> Parsed<'_, Sentence> {
    map((name, opt(tag(" :")), opt(preceded(tag(" "), said))), |(who, _, said)| Sentence {
        who: Some(who),
        said,
    })
    .parse(input)
}

/// `said = command / report`
pub fn said(input: &str) -> Parsed<'_, Said> {
    alt((command, map(report, Said::Report))).parse(input)
}
