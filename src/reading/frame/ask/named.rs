//! The days, lanes and distances that a question names.

use crate::message::{Day, Length};
use crate::reading::frame::Clause;
use crate::reading::lexicon::{Concept, Hint, Sense, UnitWord};
use crate::reading::piece::{Figure, Item, Named, Piece, is_raced};

/// The distances that a question names.
pub fn distances(c: &Clause<'_, '_>) -> Vec<Length> {
    let mut distances = Vec::new();
    for piece in c.pieces {
        let length = match piece.item {
            Item::Far(far) => c.length(far),
            Item::Repeat(_, far) => c.length(far),
            Item::Plural(value) => Some(Length { amount: value, unit: None }),
            Item::Figure(Figure::Whole { value, .. })
                if is_raced(value) || matches!(value, 25 | 75 | 150 | 300) =>
            {
                Some(Length { amount: value, unit: None })
            }
            _ => None,
        };
        if let Some(length) = length
            && !distances.contains(&length)
        {
            distances.push(length);
        }
    }
    distances
}

pub fn day(c: &Clause<'_, '_>) -> Option<Day> {
    c.pieces.iter().find_map(|piece| match piece.item {
        Item::Day(named) => c.coming(named),
        _ => None,
    })
}

/// The day a question is of: a past one where it asks of what was.
pub fn day_meant(c: &Clause<'_, '_>) -> Option<Day> {
    if is_past(c) { past_day(c) } else { day(c) }
}

pub fn past_day(c: &Clause<'_, '_>) -> Option<Day> {
    c.pieces.iter().find_map(|piece| match piece.item {
        Item::Day(named) => c.past(named),
        _ => None,
    })
}

/// True of what was: `was`, `did`, `came`.
pub fn is_past(c: &Clause<'_, '_>) -> bool {
    let past_day = |piece: &Piece<'_>| {
        matches!(piece.item, Item::Day(Named::Day(Day::Yesterday | Day::Last(_), _)))
    };
    has_word(c, Hint::Past.words()) || c.pieces.iter().any(past_day)
}

pub fn lane_of(c: &Clause<'_, '_>) -> Option<u8> {
    c.pieces.iter().find_map(|piece| match piece.item {
        Item::Lanes(bits) => u8::try_from(bits.trailing_zeros()).ok(),
        _ => None,
    })
}

/// The days that `this month`, `in february`, `since january`, `last week` are.
pub fn period(c: &Clause<'_, '_>) -> Option<(Option<Day>, Option<Day>)> {
    let today = c.sit.today;
    let month = c.pieces.iter().position(|piece| piece.is(Sense::Unit(UnitWord::Month)));
    if let Some(at) = month {
        let last = at > 0 && c.pieces[at - 1].means(Concept::Last);
        let first = today.first_of_month();
        let before = first.checked_sub(jiff::Span::new().months(1)).ok()?;
        return Some(if last {
            (Some(Day::Full(before)), Some(Day::Full(first)))
        } else {
            (Some(Day::Full(first)), None)
        });
    }
    c.pieces.iter().find_map(|piece| match piece.item {
        Item::Day(Named::Month(month)) => {
            let month = i8::try_from(month).ok()?;
            let year = if month <= today.month() { today.year() } else { today.year() - 1 };
            let first = jiff::civil::Date::new(year, month, 1).ok()?;
            let next = first.checked_add(jiff::Span::new().months(1)).ok()?;
            Some((Some(Day::Full(first)), Some(Day::Full(next))))
        }
        Item::Day(Named::Week(weeks)) => {
            let monday = today
                .checked_sub(jiff::Span::new().days(today.weekday().to_monday_zero_offset()))
                .ok()?;
            let first = monday.checked_add(jiff::Span::new().weeks(weeks)).ok()?;
            let next = first.checked_add(jiff::Span::new().weeks(1)).ok()?;
            Some((Some(Day::Full(first)), Some(Day::Full(next))))
        }
        Item::Day(named) => Some((c.past(named), None)),
        _ => None,
    })
}

/// True if one of these, in plain small letters, stands in it, alone or within a piece of
/// several words.
pub fn has_word(c: &Clause<'_, '_>, wanted: &[&str]) -> bool {
    let is_wanted = |word: &str| match word.is_ascii() {
        true => wanted.iter().any(|one| one.eq_ignore_ascii_case(word)),
        false => wanted.contains(&word.to_lowercase().as_str()),
    };
    c.pieces.iter().enumerate().any(|(at, piece)| {
        // Of one word, its small letters tell whether to look at it as it was typed.
        let may_be = piece.at.1 - piece.at.0 > 1 || wanted.contains(&piece.text);
        may_be && c.typed(at, at + 1).split_whitespace().any(is_wanted)
    })
}
