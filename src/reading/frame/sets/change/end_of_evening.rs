//! When the evening has to end, or how much is left of it.

use jiff::civil::Time;

use super::lanes_and_names::lanes_named;
use crate::message::{Cut, Day, Kind, Slot};
use crate::reading::frame::Clause;
use crate::reading::frame::candidate::Candidate;
use crate::reading::lexicon::Concept;
use crate::reading::piece::Item;
use crate::reading::situation::Phase;

/// `only 20 mins left`, `they want us out by quarter to`, `we have to be out by 7.45`.
pub fn left(c: &Clause<'_, '_>) -> Option<Candidate> {
    let during = c.sit.phase == Phase::During;
    let others = c.pieces.iter().any(|piece| {
        matches!(piece.item, Item::Repeat(..) | Item::Far(_) | Item::Each(_) | Item::Person(_))
    });
    if !during && c.sit.phase != Phase::Before || others || !lanes_named(c).is_empty() {
        return None;
    }
    let minutes = match until(c) {
        Some(end) => {
            let from = if during { c.sit.time } else { c.sit.starts? };
            let left = from.until(end).ok()?.total(jiff::Unit::Minute).ok()?;
            left.round() as i64
        }
        None if during && c.has_any(&[Concept::Left, Concept::LeftMin]) => {
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
    let ends = c.has_any(&[Concept::Out, Concept::Shut, Concept::Ended, Concept::LeaveEarly]);
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
