//! The shapes that pieces have: the longest that stands at a place.

use nom::Parser;
use nom::combinator::map;

use super::figure::{self, Figure};
use super::item::Item;
use super::sensed_token::{Cell, Read, Words, glued_word, no};
use super::{calendar, length, people, share};
use crate::reading::lex::Form;
use crate::reading::lexicon::{Concept, Sense};

/// The longest shape at a place; of equal ones the first here.
pub fn shape<'t>(input: Words<'t>) -> Read<'t, Item<'t>> {
    // No shape begins with what ends a sentence or parts one.
    let parts = |form| {
        matches!(form, Form::Mark(',' | '.' | ';' | '!' | '?' | ')') | Form::Line | Form::Picture)
    };
    if input.0.first().is_none_or(|cell| parts(cell.token.form)) {
        return no(input);
    }
    let begins_word = input.0.first().is_some_and(|cell| cell.token.form == Form::Word);
    let may_count = input.0.first().is_some_and(|cell| {
        !begins_word
            || cell.person.is_some()
            || !cell.senses.is_empty()
            || cell.means(Concept::Article)
    });
    if !may_count || begins_word && !input.0.first().is_some_and(begins) {
        return no(input);
    }
    let mut best: Option<(Words<'t>, Item<'t>)> = None;
    let mut consider = |read: Read<'t, Item<'t>>| {
        if let Ok((rest, item)) = read
            && best.as_ref().is_none_or(|(before, _)| rest.0.len() < before.0.len())
        {
            best = Some((rest, item));
        }
    };
    consider(map(people::person, Item::Person).parse(input));
    consider(map(people::marked, Item::Marked).parse(input));
    consider(map(people::lanes, Item::Lanes).parse(input));
    consider(map(share::rpe, Item::Rpe).parse(input));
    consider(map(share::of_all, |(some, all)| Item::OfAll(some, all)).parse(input));
    consider(map(calendar::day, Item::Day).parse(input));
    consider(map(length::repeat, |(count, far)| Item::Repeat(count, far)).parse(input));
    consider(map(length::far, Item::Far).parse(input));
    consider(map(length::plural, Item::Plural).parse(input));
    consider(map(each, Item::Each).parse(input));
    consider(
        map(calendar::time_of_day, |(hour, minute)| Item::TimeOfDay(hour, minute)).parse(input),
    );
    consider(map(share::pulse, Item::Pulse).parse(input));
    consider(map(share::range, |(from, to)| Item::Range(from, to)).parse(input));
    consider(map(share::ordinal, Item::Ordinal).parse(input));
    consider(map(figure::figure, Item::Figure).parse(input));
    consider(map(figure::span, Item::Span).parse(input));
    match best {
        Some(found) => Ok(found),
        None => no(input),
    }
}

/// `48s`, `1.41s`, `1:39s`
fn each<'t>(input: Words<'t>) -> Read<'t, Figure> {
    let (rest, figure) = figure::figure(input)?;
    let (rest, ()) = glued_word(&["s"])(rest)?;
    Ok((rest, figure))
}

/// Words that a shape begins with whatever they mean.
const BEGIN: [&str; 29] = [
    "a", "al", "an", "c", "ciento", "couple", "cuarto", "de", "del", "el", "en", "este", "hace",
    "half", "l", "la", "las", "ln", "los", "on", "one", "otra", "para", "por", "the", "un", "una",
    "w", "wc",
];

/// False for a word that no shape begins with: most of a text are.
fn begins(cell: &Cell<'_>) -> bool {
    let may_be = |sense: Sense| match sense {
        Sense::Number(_)
        | Sense::SoundsLike(_)
        | Sense::Plural(_)
        | Sense::Ordinal(_)
        | Sense::Feast(_)
        | Sense::Month(_)
        | Sense::Day(_)
        | Sense::Unit(_) => true,
        Sense::Word(concept) => matches!(
            concept,
            Concept::Article
                | Concept::At
                | Concept::Between
                | Concept::DayAfterTomorrow
                | Concept::DayBeforeYesterday
                | Concept::EndOf
                | Concept::From
                | Concept::Half
                | Concept::Hr
                | Concept::Lane
                | Concept::Last
                | Concept::Next
                | Concept::No
                | Concept::Quarter
                | Concept::Rpe
                | Concept::This
                | Concept::Within
        ),
        _ => false,
    };
    cell.person.is_some()
        || cell.senses.iter().any(|found| may_be(found.sense))
        || BEGIN.contains(&cell.token.text)
}
