//! Figures as plain numbers, with or without a point: `312`, `3.12`, `3 con 12`.

use nom::Parser;
use nom::branch::alt;
use nom::combinator::{map, not};
use nom::sequence::{pair, terminated};

use super::clock::zero_unit;
use super::value::Figure;
use crate::reading::lexicon::{Concept, Sense};
use crate::reading::piece::number::below_hundred;
use crate::reading::piece::sensed_token::{
    Read, Words, concept, digits, glued_digits, glued_mark, no, sense,
};

/// `3 con 12`, `cuarenta y ocho punto cinco`, `three point twelve`.
pub fn parted_by_word<'t>(input: Words<'t>) -> Read<'t, Figure> {
    let number = || alt((map(digits(1, 2), |(value, _)| value), below_hundred));
    let (rest, whole) = terminated(number(), concept(Concept::Point)).parse(input)?;
    let in_words = map(below_hundred, |value| (value, if value < 10 { 1 } else { 2 }));
    let mut behind = alt((digits(1, 2), map(zero_unit, |value| (value, 2)), in_words));
    let (rest, (parts, places)) = behind.parse(rest)?;
    // `4 con 20 de descanso`, `6 con 10 s`: how many, and their rest.
    let counted = |sense| match sense {
        Sense::Unit(_) | Sense::Kit(_) | Sense::Word(Concept::RestWord | Concept::Of) => Some(()),
        _ => None,
    };
    match sense(counted)(rest).is_ok() {
        true => no(input),
        false => Ok((rest, Figure::Parted { whole, parts, places, comma: false })),
    }
}

pub fn in_digits<'t>(input: Words<'t>) -> Read<'t, Figure> {
    map(digits(1, 6), |(value, places)| Figure::Whole { value, places }).parse(input)
}

/// `3.12`, `47.2`, `3,12`
pub fn parted<'t>(input: Words<'t>) -> Read<'t, Figure> {
    let point = alt((map(glued_mark('.'), |()| false), map(glued_mark(','), |()| true)));
    let (rest, ((whole, _), (comma, (parts, places)))) =
        pair(digits(1, 3), pair(point, glued_digits(1, 2))).parse(input)?;
    let more = pair(alt((glued_mark('.'), glued_mark(','), glued_mark(':'))), glued_digits(1, 9));
    let (rest, ()) = not(more).parse(rest)?;
    Ok((rest, Figure::Parted { whole, parts, places, comma }))
}
