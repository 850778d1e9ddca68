//! The days and times of day that a word of coming is about.

use jiff::civil::Time;

use super::group::Says;
use crate::message::Day;
use crate::reading::frame::Clause;
use crate::reading::lexicon::{Concept, Sense, UnitWord};
use crate::reading::piece::{Figure, Item, Named};

/// The days that a word stands for: `the next 2 weds` is two, `next week` all of its
/// evenings.
pub fn days(c: &Clause<'_, '_>, at: usize, named: Named, day: Day) -> Vec<Day> {
    let count = (at.saturating_sub(2)..at).find_map(|place| match c.pieces[place].item {
        Item::Figure(Figure::Whole { value: value @ 2..=8, .. })
            if place > 0 && c.pieces[place - 1].means(Concept::Next) =>
        {
            Some(value)
        }
        _ => None,
    });
    if let (Some(count), Named::Day(Day::On(weekday), _)) = (count, named) {
        let first = (1..=7i32).find_map(|days| {
            let date = c.sit.today.checked_add(jiff::Span::new().days(days)).ok()?;
            (date.weekday() == weekday).then_some(date)
        });
        if let Some(first) = first {
            return (0..count)
                .filter_map(|weeks| first.checked_add(jiff::Span::new().weeks(weeks)).ok())
                .map(Day::Full)
                .collect();
        }
    }
    if let Some(all) = all_of_month(c, at, named) {
        return all;
    }
    let Some(monday) = c.monday_of(named) else { return vec![day] };
    // `next week monday` is one day of it.
    let other =
        c.pieces.iter().any(|piece| matches!(piece.item, Item::Day(Named::Day(Day::On(_), _))));
    if other {
        return vec![];
    }
    (0..7)
        .filter_map(|days| monday.checked_add(jiff::Span::new().days(days)).ok())
        .filter(|date| c.sit.nights.contains(&date.weekday()) && *date >= c.sit.today)
        .map(Day::Full)
        .collect()
}

/// `wednesdays in april`: each of them.
fn all_of_month(c: &Clause<'_, '_>, at: usize, named: Named) -> Option<Vec<Day>> {
    let month = c.pieces.iter().find_map(|piece| match piece.item {
        Item::Day(Named::Month(month)) => i8::try_from(month).ok(),
        _ => None,
    })?;
    match named {
        Named::Month(_) => {
            let weekdays = c.pieces.iter().any(|piece| is_every(piece));
            weekdays.then(Vec::new)
        }
        Named::Day(Day::On(weekday), _) if is_every(&c.pieces[at]) => {
            let today = c.sit.today;
            let year = if month < today.month() { today.year() + 1 } else { today.year() };
            let first = jiff::civil::Date::new(year, month, 1).ok()?;
            let days =
                (0..31i64).filter_map(|days| first.checked_add(jiff::Span::new().days(days)).ok());
            let all = days.filter(|date| {
                date.month() == month && date.weekday() == weekday && *date >= today
            });
            Some(all.map(Day::Full).collect())
        }
        _ => None,
    }
}

/// `wednesdays`
fn is_every(piece: &crate::reading::piece::Piece<'_>) -> bool {
    matches!(piece.item, Item::Day(Named::Day(Day::On(_), _))) && piece.means(Concept::EveryDay)
}

/// The time of day behind a place, and where it stands.
pub fn clock_behind(c: &Clause<'_, '_>, at: usize) -> Option<(Time, usize)> {
    (at + 1..(at + 6).min(c.len())).find_map(|place| Some((clock_at(c, place)?, place)))
}

/// A piece as a time of day about the evening's.
fn clock_at(c: &Clause<'_, '_>, at: usize) -> Option<Time> {
    let (hour, minute) = match c.at(at)?.item {
        Item::TimeOfDay(hour, minute) => (hour, minute),
        // `7 40 ish`
        Item::Figure(Figure::Whole { value: hour @ 1..=23, .. })
            if matches!(
                c.at(at + 1).map(|next| next.item),
                Some(Item::Figure(Figure::Whole { value: 10..=59, .. }))
            ) =>
        {
            let Item::Figure(Figure::Whole { value, .. }) = c.at(at + 1)?.item else { return None };
            (u8::try_from(hour).ok()?, u8::try_from(value).ok()?)
        }
        Item::Figure(figure) => figure.day_time()?,
        _ => return None,
    };
    let starts = c.sit.starts.map_or(19, |starts| starts.hour());
    let hour = i8::try_from(hour).ok()?;
    // `7.20` is in the evening where the squad swims in the evening.
    let hour = if hour < 12 && starts >= 12 { hour + 12 } else { hour };
    Time::new(hour, i8::try_from(minute).ok()?, 0, 0).ok()
}

/// By how many minutes someone is late, and where that stands: `15 late`, `be there
/// 1920ish`, `about quarter past`.
pub fn late_by(c: &Clause<'_, '_>, says: &[Says]) -> Option<(u16, usize)> {
    if says.iter().any(|one| matches!(one, Says::Out | Says::Leaves(_))) {
        return None;
    }
    let late = c.find(Concept::Late);
    if let Some(at) = late
        && let Some(found) = minutes_near(c, at)
    {
        return Some(found);
    }
    let arrives = late.is_some() || says.contains(&Says::In) || c.has(Concept::Arrive);
    if !arrives {
        return None;
    }
    if let Some(at) = c.find(Concept::QuarterPast) {
        return Some((15, at));
    }
    // `half past`, `a y media`
    let half = c.pieces.array_windows::<2>().position(|pair| {
        pair[0].means(Concept::Half) && pair[1].means(Concept::Past)
            || pair[0].text == "y" && pair[1].text == "media"
    });
    if let (Some(at), Some(starts)) = (half, c.sit.starts) {
        let behind = u16::try_from(90 - starts.minute()).ok()? % 60;
        return (behind > 0).then_some((behind, at));
    }
    let past = c.pieces.array_windows::<2>().position(|pair| {
        matches!(pair[0].item, Item::Figure(Figure::Whole { value: 2..=59, .. }))
            && pair[1].means(Concept::Past)
    });
    if let Some(at) = past
        && let Item::Figure(Figure::Whole { value, .. }) = c.pieces[at].item
    {
        return Some((u16::try_from(value).ok()?, at));
    }
    let starts = c.sit.starts?;
    (0..c.len()).find_map(|at| {
        let time = clock_at(c, at)?;
        let behind = i32::from(time.hour()) * 60 + i32::from(time.minute())
            - i32::from(starts.hour()) * 60
            - i32::from(starts.minute());
        // A bare `7` is the hour it begins.
        (1..=90).contains(&behind).then_some((u16::try_from(behind).ok()?, at))
    })
}

/// `15 late`, `late 10`, `10 mins late`.
fn minutes_near(c: &Clause<'_, '_>, at: usize) -> Option<(u16, usize)> {
    let near = (at.saturating_sub(4)..at).rev().chain(at + 1..(at + 5).min(c.len()));
    near.into_iter().find_map(|place| {
        let minutes = match c.pieces[place].item {
            Item::Span(time) if time.seconds() <= 5400.0 => (time.seconds() / 60.0) as u16,
            Item::Figure(Figure::Whole { value, .. }) if (2..=90).contains(&value) => {
                u16::try_from(value).ok()?
            }
            _ => return None,
        };
        Some((minutes, place))
    })
}

/// The days that a unit of the calendar has.
pub fn days_in(sense: &Sense) -> Option<i32> {
    match sense {
        Sense::Unit(UnitWord::Week) => Some(7),
        Sense::Unit(UnitWord::Fortnight) => Some(14),
        Sense::Unit(UnitWord::Day) => Some(1),
        Sense::Unit(UnitWord::Month) => Some(30),
        _ => None,
    }
}
