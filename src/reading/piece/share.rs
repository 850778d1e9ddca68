//! Which of several, how many of how many, from what to what; and figures with a
//! word of their own: effort, pulse.

use nom::Parser;
use nom::branch::alt;
use nom::combinator::{map, not, opt, verify};
use nom::sequence::{pair, preceded, terminated};

use super::figure::{Figure, figure};
use super::number::{below_hundred, number_word};
use super::sensed_token::{
    Read, Words, concept, digits, glued_digits, glued_mark, glued_word, mark, no, sense, word,
};
use crate::message::Day;
use crate::reading::lexicon::{Concept, Sense};

/// `4th`, `no 6`, `number 6`, `#6`, `the third`, `rep 3`
pub fn ordinal<'t>(input: Words<'t>) -> Read<'t, u32> {
    let ended = terminated(
        map(digits(1, 2), |(value, _)| value),
        glued_word(&[
            "st", "nd", "rd", "th", "o", "a", "er", "ero", "era", "ro", "ra", "do", "da", "to",
            "ta", "mo", "ma", "vo", "va", "no", "na",
        ]),
    );
    let said = sense(|sense| match sense {
        Sense::Ordinal(value) => Some(value),
        _ => None,
    });
    let number = || alt((map(digits(1, 2), |(value, _)| value), below_hundred));
    let numbered = preceded(
        pair(alt((concept(Concept::No), mark('#'))), opt(mark('.'))),
        verify(number(), |value| (1..=40).contains(value)),
    );
    alt((ended, numbered, said)).parse(input)
}

/// `6 of 8`, `6/8`, `6 of the 8`, `7 out of 8`, `six of the eight`, `7 de 8`
pub fn of_all<'t>(input: Words<'t>) -> Read<'t, (u32, u32)> {
    let number = || alt((map(digits(1, 2), |(value, _)| value), below_hundred));
    let of = || pair(concept(Concept::Of), opt(concept(Concept::Article)));
    let between = alt((map(pair(opt(word("out")), of()), |_| ()), glued_mark('/')));
    let (rest, (some, all)) = pair(number(), preceded(between, number())).parse(input)?;
    let (rest, ()) = not(alt((glued_mark('/'), glued_mark(':')))).parse(rest)?;
    // `8 of 50`, `2 of 50m` are repeats.
    match some <= all && all <= 40 && all != 25 {
        true => Ok((rest, (some, all))),
        false => no(input),
    }
}

/// `47-49`, `48/49`, `between 47 and 50`, `47 to 50`, `de 1.50 a 1.43`
pub fn range<'t>(input: Words<'t>) -> Read<'t, (Figure, Figure)> {
    let close = |input: Words<'t>| -> Read<'t, (Figure, Figure)> {
        let dash = alt((mark('-'), glued_mark('/')));
        pair(figure, preceded(dash, figure)).parse(input)
    };
    let said = |input: Words<'t>| -> Read<'t, (Figure, Figure)> {
        let and = alt((concept(Concept::And), concept(Concept::Or), concept(Concept::To)));
        preceded(concept(Concept::Between), pair(figure, preceded(and, figure))).parse(input)
    };
    // `de 1.50 a 1.43`; `de 50 a 48` is a distance and its time.
    let from_to = |input: Words<'t>| -> Read<'t, (Figure, Figure)> {
        let timed = verify(figure, |figure| figure.whole().is_none());
        let to = concept(Concept::To);
        preceded(concept(Concept::From), pair(timed, preceded(to, figure))).parse(input)
    };
    // `47 to 50`, of times alone: `1 to 4` are repeats, `50 to 48` a distance and its time.
    let to = |input: Words<'t>| -> Read<'t, (Figure, Figure)> {
        let mut between =
            verify(pair(figure, preceded(concept(Concept::To), figure)), |(from, to)| {
                match (from.whole(), to.whole()) {
                    (Some(from), Some(to)) => from < to && (25..=99).contains(&from),
                    (None, None) => true,
                    _ => false,
                }
            });
        between.parse(input)
    };
    let (rest, (from, to)) = alt((said, from_to, close, to)).parse(input)?;
    // A third figure makes it a list.
    let (rest, ()) = not(pair(alt((mark('-'), glued_mark('/'))), figure)).parse(rest)?;
    let alike = match (from, to) {
        (Figure::Whole { value: one, .. }, Figure::Whole { value: other, .. }) => {
            one.abs_diff(other) <= 15 && one > 12
        }
        (Figure::Clock(_), Figure::Clock(_)) | (Figure::Parted { .. }, Figure::Parted { .. }) => {
            true
        }
        _ => false,
    };
    if alike { Ok((rest, (from, to))) } else { no(input) }
}

/// `rpe 6`, `felt a 6`, `7/10`, `4 out of 10`, `effort 7.5`: in tenths.
pub fn rpe<'t>(input: Words<'t>) -> Read<'t, u8> {
    alt((rpe_named, out_of_ten)).parse(input)
}

fn tenths<'t>(input: Words<'t>) -> Read<'t, u32> {
    let whole = alt((map(digits(1, 2), |(value, _)| value), |input| {
        number_word(input, |value| value <= 10)
    }));
    let (rest, (whole, part)) = pair(
        verify(whole, |value| *value <= 10),
        opt(preceded(alt((glued_mark('.'), glued_mark(','))), glued_digits(1, 1))),
    )
    .parse(input)?;
    Ok((rest, whole * 10 + part.map_or(0, |(value, _)| value)))
}

fn rpe_named<'t>(input: Words<'t>) -> Read<'t, u8> {
    // `esfuerzo hoy un 7`
    let today = opt(sense(|sense| (sense == Sense::Day(Day::Today)).then_some(())));
    let between = opt(alt((
        mark(':'),
        mark('='),
        map(pair(concept(Concept::Of), opt(concept(Concept::Article))), |_| ()),
        word("was"),
        concept(Concept::Article),
        concept(Concept::About),
        concept(Concept::Held),
    )));
    let (rest, tenths) = preceded((concept(Concept::Rpe), today, between), tenths).parse(input)?;
    let (rest, _) = opt(pair(out_of, ten)).parse(rest)?;
    effort(input, rest, tenths)
}

/// `/`, `out of`, `de`, `sobre`
fn out_of<'t>(input: Words<'t>) -> Read<'t, ()> {
    let of = map(pair(opt(word("out")), concept(Concept::Of)), |_| ());
    alt((glued_mark('/'), of, word("sobre"))).parse(input)
}

fn ten<'t>(input: Words<'t>) -> Read<'t, ()> {
    let in_digits = map(verify(digits(2, 2), |(value, _)| *value == 10), |_| ());
    let said = map(|input| number_word(input, |value| value == 10), |_| ());
    alt((in_digits, said)).parse(input)
}

fn out_of_ten<'t>(input: Words<'t>) -> Read<'t, u8> {
    let (rest, tenths) = terminated(tenths, pair(out_of, ten)).parse(input)?;
    let (rest, ()) = not(pair(glued_mark('/'), digits(1, 4))).parse(rest)?;
    effort(input, rest, tenths)
}

fn effort<'t>(input: Words<'t>, rest: Words<'t>, tenths: u32) -> Read<'t, u8> {
    match u8::try_from(tenths) {
        Ok(tenths) if tenths <= 100 => Ok((rest, tenths)),
        _ => no(input),
    }
}

/// `hr 152`, `heart rate 152`, `152 bpm`
pub fn pulse<'t>(input: Words<'t>) -> Read<'t, u16> {
    let between = || {
        opt(alt((
            concept(Concept::Of),
            concept(Concept::About),
            concept(Concept::At),
            concept(Concept::Held),
            mark(':'),
            word("hit"),
            word("is"),
        )))
    };
    let behind =
        preceded(pair(concept(Concept::Hr), between()), map(digits(2, 3), |(value, _)| value));
    // `48 heart rate 162`: the figure behind is the pulse.
    let other = not(preceded(between(), digits(2, 3)));
    let before =
        terminated(map(digits(2, 3), |(value, _)| value), pair(concept(Concept::Hr), other));
    let (rest, value) =
        verify(alt((behind, before)), |value| (30..=240).contains(value)).parse(input)?;
    Ok((rest, u16::try_from(value).unwrap_or(0)))
}
