//! When the evening has to end, or how much is left of it.

use jiff::civil::Time;

use super::lanes_and_names::lanes_named;
use crate::message::{Cut, Day, Kind, Slot};
use crate::reading::frame::Clause;
use crate::reading::frame::candidate::Candidate;
use crate::reading::lexicon::{Concept, Sense};
use crate::reading::piece::{Figure, Item, Piece};
use crate::reading::situation::Phase;

/// `only 20 mins left`, `they want us out by quarter to`, `we have to be out by 7.45`.
pub fn left(c: &Clause<'_, '_>) -> Option<Candidate> {
    let during = c.sit.phase == Phase::During;
    let others = c.pieces.iter().any(|piece| {
        matches!(
            piece.item,
            Item::Repeat(..) | Item::Far(_) | Item::Plural(_) | Item::Each(_) | Item::Person(_)
        ) || piece.sense(|sense| matches!(sense, Sense::Part(_)).then_some(())).is_some()
            && piece.text != "down"
    });
    if !during && c.sit.phase != Phase::Before || others || !lanes_named(c).is_empty() {
        return None;
    }
    let left = during && c.has_any(&[Concept::Left, Concept::LeftMin]);
    let minutes = match until(c).filter(|_| !left || minutes_said(c).is_none()) {
        Some(end) => {
            let from = if during { c.sit.time } else { c.sit.starts? };
            let left = from.until(end).ok()?.total(jiff::Unit::Minute).ok()?;
            left.round() as i64
        }
        None if early(c).is_some() => {
            let whole = i64::from(c.sit.minutes?) - early(c)?;
            let gone = match during {
                true => c.sit.starts?.until(c.sit.time).ok()?.total(jiff::Unit::Minute).ok()?,
                false => 0.0,
            };
            whole - gone.round() as i64
        }
        None if !during && only(c).is_some() => only(c)?,
        None if left => {
            let span = c.pieces.iter().find_map(|piece| match piece.item {
                Item::Span(time) => Some(time.seconds() / 60.0),
                _ => None,
            });
            span? as i64
        }
        None => return None,
    };
    let minutes = u16::try_from(minutes).ok().filter(|minutes| (3..=180).contains(minutes))?;
    let mut candidate = Candidate::new("left", c.len());
    candidate.used.fill(true);
    let kind = match during {
        true => Kind::Cut(Cut { minutes_left: Some(minutes), ..Cut::default() }),
        false => {
            Kind::Slot(Slot { minutes: Some(minutes), on: Some(Day::Today), ..Slot::default() })
        }
    };
    Some(candidate.says(kind).at_cost(0.5))
}

/// The hour by which all must be out: `out by 7.45`, `out by quarter to`, `shuts at 8`.
fn until(c: &Clause<'_, '_>) -> Option<Time> {
    let ends = c.has_any(&[Concept::Out, Concept::Shut, Concept::Ended, Concept::LeaveEarly])
        || c.pieces.iter().any(|piece| piece.text == "out");
    if let (true, Some(minute)) = (ends, (0..c.len()).find_map(|at| minute_at(c, at))) {
        return next_at(c, minute);
    }
    let at = (0..c.len()).position(|at| {
        let piece = &c.pieces[at];
        c.typed(at, at + 1).ends_with(" by")
            || matches!(piece.text, "by" | "antes" | "before" | "till" | "until")
            || piece.means(Concept::Until)
            || piece.means(Concept::At) && c.has_any(&[Concept::Shut, Concept::Ended])
    })?;
    if !ends {
        return None;
    }
    c.pieces[at + 1..].iter().take(3).enumerate().find_map(|(more, piece)| match piece.item {
        Item::TimeOfDay(hour, minute) => hour_of(c, hour, minute),
        Item::Figure(figure) if figure.whole().is_none() => {
            let (hour, minute) = figure.day_time()?;
            hour_of(c, hour, minute)
        }
        Item::Day(_) => {
            let typed = c.typed(at + 1 + more, at + 2 + more);
            let (hour, minute) = typed.split_once('.')?;
            hour_of(c, hour.parse().ok()?, minute.trim_end_matches('.').parse().ok()?)
        }
        _ => None,
    })
}

/// `10 to`, `quarter to`, `ten past`, `menos diez`, `y 55`: a minute of an hour that is not
/// said.
fn minute_at(c: &Clause<'_, '_>, at: usize) -> Option<i8> {
    let minutes = |place: usize| match c.at(place)?.item {
        Item::Figure(Figure::Whole { value: value @ (5 | 10 | 15 | 20 | 25), .. }) => {
            i8::try_from(value).ok()
        }
        Item::Word if c.at(place)?.means(Concept::Quarter) => Some(15),
        _ => None,
    };
    let ends = |place: usize| c.at(place).is_none_or(|next| next.is_apart() || !is_hour(next));
    let next = c.at(at + 1);
    if let (Some(said), Some(next)) = (minutes(at), next) {
        if matches!(next.text, "to" | "til" | "till") && ends(at + 2) {
            return Some(60 - said);
        }
        if next.means(Concept::Past) && ends(at + 2) {
            return Some(said);
        }
    }
    if c.at(at).is_some_and(|piece| piece.means(Concept::QuarterPast)) && ends(at + 1) {
        return Some(15);
    }
    let before = at.checked_sub(1).and_then(|before| c.at(before));
    let to = before.is_some_and(|before| matches!(before.text, "a" | "hasta" | "antes"));
    match c.at(at)?.text {
        "menos" if to => minutes(at + 1).map(|said| 60 - said),
        "y" if to => match c.at(at + 1)?.item {
            Item::Figure(Figure::Whole { value, places: 2 }) if value < 60 => {
                i8::try_from(value).ok()
            }
            _ => None,
        },
        _ => None,
    }
}

fn is_hour(piece: &Piece<'_>) -> bool {
    matches!(piece.item, Item::Figure(_) | Item::TimeOfDay(..))
}

/// The next time that a clock shows this minute, a while from now, or from the beginning.
fn next_at(c: &Clause<'_, '_>, minute: i8) -> Option<Time> {
    const LEAST_MIN: i32 = 5;
    let from = if c.sit.phase == Phase::During { c.sit.time } else { c.sit.starts? };
    let least = i32::from(from.minute()) + LEAST_MIN;
    let hour = from.hour() + if least > i32::from(minute) { 1 } else { 0 };
    Time::new(hour, minute, 0, 0).ok()
}

/// How many minutes before its hour the evening ends: `out ten minutes early`, `20 mins less
/// tonight`, `acabamos 10 min antes`.
fn early(c: &Clause<'_, '_>) -> Option<i64> {
    let sooner = |piece: &Piece<'_>| {
        piece.means(Concept::Early) && !piece.means(Concept::LeaveEarly) || piece.text == "antes"
    };
    let ends = [
        Concept::Out,
        Concept::Shut,
        Concept::Ended,
        Concept::LeaveEarly,
        Concept::Stopped,
        Concept::Done,
        Concept::We,
    ];
    let less = c.has(Concept::Less) && c.pieces.iter().any(|piece| is_today(c, piece));
    // `finishing early`
    let ended = c.has_any(&ends) || c.pieces.iter().any(|piece| piece.text.starts_with("finish"));
    let sooner = c.pieces.iter().any(sooner) && ended && !c.has(Concept::Arrive);
    (less || sooner).then(|| minutes_said(c)).flatten().filter(|minutes| (3..=40).contains(minutes))
}

/// `only got 45 mins tonight`, `down to 40 min`: all that there is of it.
fn only(c: &Clause<'_, '_>) -> Option<i64> {
    let little = c.has(Concept::Only)
        || c.pieces.array_windows::<2>().any(|[down, to]| down.text == "down" && to.text == "to");
    let ours = c.has_any(&[Concept::KitHave, Concept::We, Concept::Water]);
    let today = c.pieces.iter().any(|piece| is_today(c, piece));
    (little && ours && today)
        .then(|| minutes_said(c))
        .flatten()
        .filter(|minutes| (20..=120).contains(minutes))
}

fn is_today(c: &Clause<'_, '_>, piece: &Piece<'_>) -> bool {
    matches!(piece.item, Item::Day(named) if c.coming(named) == Some(Day::Today))
}

fn minutes_said(c: &Clause<'_, '_>) -> Option<i64> {
    c.pieces.iter().find_map(|piece| match piece.item {
        Item::Span(time) if time.seconds() >= 60.0 => Some((time.seconds() / 60.0) as i64),
        _ => None,
    })
}

/// The hour of this evening, whichever half of the day was meant.
fn hour_of(c: &Clause<'_, '_>, hour: u8, minute: u8) -> Option<Time> {
    let from = if c.sit.phase == Phase::During { c.sit.time } else { c.sit.starts? };
    [hour, hour.checked_add(12)?]
        .into_iter()
        .filter_map(|hour| {
            Time::new(i8::try_from(hour).ok()?, i8::try_from(minute).ok()?, 0, 0).ok()
        })
        .find(|time| *time > from)
}
