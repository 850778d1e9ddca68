//! People and lanes.
//!
//! A person is a name of the roster, or marked: `@name`, `name:` at the start. An
//! unknown word is never a person.

use nom::Parser;
use nom::branch::alt;
use nom::combinator::{map, opt, peek, verify};
use nom::multi::many0;
use nom::sequence::{pair, preceded, terminated};

use super::number::below_hundred;
use super::sensed_token::{Read, Words, concept, digits, glued_digits, mark, no, one, word};
use crate::reading::lex::Form;
use crate::reading::lexicon::{Concept, Hint};

/// A person of the roster, by number.
pub fn person<'t>(input: Words<'t>) -> Read<'t, usize> {
    preceded(opt(mark('@')), one(|cell| cell.person)).parse(input)
}

/// `@name`, of whoever it may be: the word.
pub fn marked<'t>(input: Words<'t>) -> Read<'t, &'t str> {
    let glued =
        one(|cell| (cell.token.glued && cell.token.form == Form::Word).then_some(cell.token.text));
    preceded(mark('@'), glued).parse(input)
}

/// `lane 2`, `L1`, `lanes 1 and 2`, `lanes 1-3`, `lane two`, `lanes 3 4`, `fast lane`:
/// a bit a lane.
pub fn lanes<'t>(input: Words<'t>) -> Read<'t, u32> {
    let lane_number = |input: Words<'t>| -> Read<'t, u32> {
        let number =
            alt((map(digits(1, 2), |(value, _)| value), below_hundred, super::number::sounds_like));
        verify(number, |lane| (1..=20).contains(lane)).parse(input)
    };
    let spelled_short = |input: Words<'t>| -> Read<'t, u32> {
        // `L1`, `l2`: the letter and the number stand together.
        let letter = one(|cell| matches!(cell.token.text, "l" | "ln" | "c").then_some(()));
        let (rest, (number, _)) = preceded(letter, glued_digits(1, 2)).parse(input)?;
        // `c1:05` is a send-off.
        let goes_on = rest.0.first().is_some_and(|next| {
            next.token.glued
                && matches!(next.token.form, Form::Mark(':' | '.' | '\'' | '"'))
                && rest.0.get(1).is_none_or(|after| after.token.value().is_some())
        });
        if (1..=20).contains(&number) && !goes_on { Ok((rest, number)) } else { no(input) }
    };
    // `a la 3`, `para la 2`, `los del 4`: in Spanish the word goes without saying.
    let article = || alt((word("la"), word("las")));
    let beside = alt((word("a"), word("en"), word("de"), word("para"), word("por")));
    let those = pair(alt((word("los"), word("las"))), alt((word("del"), word("de"))));
    let unsaid = alt((
        preceded(pair(beside, article()), small_lane),
        preceded(pair(those, opt(article())), small_lane),
        terminated(preceded(article(), small_lane), peek(lane_does)),
    ));
    let named = preceded(pair(concept(Concept::Lane), opt(mark('#'))), lane_number);
    let mut first = alt((spelled_short, named, unsaid));
    let (rest, first) = first.parse(input)?;
    let and = || {
        alt((
            mark('&'),
            mark('+'),
            mark(','),
            mark('/'),
            concept(Concept::And),
            concept(Concept::Or),
        ))
    };
    let plural = input
        .0
        .first()
        .is_some_and(|cell| cell.means(Concept::Lane) && cell.token.text.ends_with('s'));
    // `lane 4 down to 6`, `cut lane 2 to 6` are of one lane.
    let to = || one(move |cell| (plural && cell.means(Concept::To)).then_some(()));
    let through = || alt((mark('-'), to()));
    // `lanes 1 2 45 2 52`: a lane and times; only lanes joined by a word count.
    let said = || alt((concept(Concept::Lane), article()));
    let another = preceded(and(), alt((spelled_short, preceded(opt(said()), small_lane))));
    let mut up_to = preceded(through(), alt((spelled_short, small_lane)));
    if let Ok((rest, last)) = up_to.parse(rest)
        && last > first
    {
        return Ok((rest, (first..=last).fold(0, |bits, lane| bits | 1 << lane)));
    }
    let (rest, more) = many0(another).parse(rest)?;
    let (rest, beside) = match plural && more.is_empty() {
        true => opt(small_lane).parse(rest)?,
        false => (rest, None),
    };
    let bits = more.into_iter().chain(beside).fold(1u32 << first, |bits, lane| bits | 1 << lane);
    Ok((rest, bits))
}

/// What a lane does, behind its number: `la 4 hace 6`, `la 3 que sale cada 1:20`.
fn lane_does<'t>(input: Words<'t>) -> Read<'t, ()> {
    one(|cell| Hint::LaneDoes.is(cell.token.text).then_some(())).parse(input)
}

/// A lane's number behind another: one digit, and nothing that makes it a time.
fn small_lane<'t>(input: Words<'t>) -> Read<'t, u32> {
    let number = alt((map(digits(1, 1), |(value, _)| value), |input| {
        super::number::number_word(input, |value| (1..10).contains(&value))
    }));
    let (rest, value) = verify(number, |value| *value > 0).parse(input)?;
    let figure_follows = rest.0.first().is_some_and(|next| {
        next.token.glued
            && (next.token.is_mark(':')
                || next.token.is_mark('.')
                || next.token.is_mark('\'')
                || next.token.form == Form::Word)
    });
    let number_follows = rest.0.first().is_some_and(|next| {
        matches!(next.token.form, Form::Digits { places: 2.., .. })
            && input.0.first().is_some_and(|first| !first.token.glued)
            // `lanes 1 and 2 10x100`
            && rest.0.get(1).is_none_or(|after| {
                !after.token.is_mark(':') && after.token.text != "x"
            })
    });
    // `lanes 1 and 2, 8 for 3 and 4`: so many for others.
    let counts = matches!(rest.0, [next, lane, ..]
        if next.means(Concept::For) && matches!(lane.token.form, Form::Digits { places: 1, .. }));
    if counts || figure_follows || number_follows { no(input) } else { Ok((rest, value)) }
}
