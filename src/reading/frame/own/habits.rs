//! Days, minutes, pool, units, and when to be left in peace.

use jiff::civil::Time;

use super::words::{results, uses};
use crate::message::{Day, Kind, ProfileChange};
use crate::reading::frame::Clause;
use crate::reading::frame::candidate::Candidate;
use crate::reading::lexicon::{Concept, Sense, UnitWord};
use crate::reading::piece::{Far, Figure, Item, Named, Piece};
use crate::reading::situation::Role;
use crate::units::{Course, Unit};

/// `don't be messaging me before 9`.
pub fn quiet(c: &Clause<'_, '_>, candidate: &mut Candidate) -> Option<Kind> {
    let texts = c.find(Concept::Texting)?;
    if !c.has_any(&[Concept::Not, Concept::Didnt, Concept::Wont])
        && !c.pieces.iter().any(|piece| matches!(piece.text, "no" | "stop"))
    {
        return None;
    }
    let before = c.find(Concept::Before)?;
    let (hour, minute) = c.pieces[before..].iter().find_map(|piece| match piece.item {
        Item::TimeOfDay(hour, minute) => Some((hour, minute)),
        Item::Figure(figure) => figure.day_time(),
        _ => None,
    })?;
    candidate.used[texts..].fill(true);
    let from = Time::new(i8::try_from(hour).ok()?, i8::try_from(minute).ok()?, 0, 0).ok()?;
    Some(Kind::Quiet { from })
}

/// `only wednesdays from now on, mondays i have spanish`: a day behind the only ones, and
/// more behind it, is why there are no others.
fn is_why(c: &Clause<'_, '_>, at: usize) -> bool {
    let Some(only) = c.find(Concept::Only) else { return false };
    let is_day = |piece: &Piece<'_>| matches!(piece.item, Item::Day(_));
    let named = c.pieces[..at].iter().skip(only).any(is_day);
    let parted = c.part(0, at).pieces.last().is_some_and(|last| last.item == Item::Mark(','));
    let says_more = c.at(at + 1).is_some_and(|next| {
        !is_day(next) && !matches!(next.item, Item::Mark(_)) && !next.means(Concept::And)
    });
    named && parted && says_more
}

/// `can only do wednesdays`, `3 days a week`, `45 min max`, `mon wed fri mornings`.
pub fn week(c: &Clause<'_, '_>, candidate: &mut Candidate) -> Option<Kind> {
    // Nothing of a week is told without one of these.
    let told = |piece: &Piece<'_>| {
        matches!(piece.item, Item::Day(_) | Item::Span(_))
            || matches!(piece.text, "a" | "per" | "por" | "a la")
    };
    if c.sit.role == Role::Coach || !c.pieces.iter().any(told) {
        return None;
    }
    let counted = |piece: &Piece<'_>| matches!(piece.item, Item::Figure(_) | Item::TimeOfDay(..));
    if !c.pieces.iter().any(counted) && results(c) {
        return None;
    }
    let mut days = Vec::new();
    let mut plural = false;
    for (at, piece) in c.pieces.iter().enumerate() {
        if let Item::Day(Named::Day(Day::On(weekday), _)) = piece.item {
            candidate.used[at] = true;
            if is_why(c, at) {
                continue;
            }
            days.push(weekday);
            plural |= piece.is_every_week();
        }
    }
    let minutes = c.pieces.iter().enumerate().find_map(|(at, piece)| match piece.item {
        Item::Span(time) if (900.0..=14_400.0).contains(&time.seconds()) => {
            candidate.used[at] = true;
            u16::try_from((time.seconds() / 60.0) as u32).ok()
        }
        _ => None,
    });
    let can = c.has_any(&[Concept::Can, Concept::Only, Concept::Max])
        || c.pieces.iter().any(|piece| matches!(piece.text, "works" | "suits"));
    let sessions = c.pieces.array_windows::<3>().find_map(|three| {
        match (&three[0].item, &three[1], &three[2]) {
            (Item::Figure(Figure::Whole { value: value @ 1..=9, .. }), unit, per)
                if (unit.is(Sense::Unit(UnitWord::Day))
                    || unit.means(Concept::Session)
                    || unit.means(Concept::Times)
                    || unit.means(Concept::Swam))
                    && matches!(per.text, "a" | "per" | "por" | "a la") =>
            {
                u8::try_from(*value).ok()
            }
            _ => None,
        }
    });
    if let Some(sessions) = sessions {
        candidate.used.mark(c.pieces, |piece| {
            matches!(piece.item, Item::Figure(_))
                || piece.is(Sense::Unit(UnitWord::Day))
                || piece.is(Sense::Unit(UnitWord::Week))
                || piece.means(Concept::Session)
                || piece.means(Concept::Can)
        });
        return Some(Kind::Profile(ProfileChange {
            sessions: Some(sessions),
            minutes,
            ..ProfileChange::default()
        }));
    }
    uses(
        c,
        candidate,
        &[Concept::Can, Concept::Only, Concept::Max, Concept::Session, Concept::Swam],
    );
    let week = days.len() >= 2 && can || days.len() == 1 && plural && can;
    if !days.is_empty() && week {
        let minutes = minutes.or_else(|| window(c, candidate));
        return Some(Kind::Profile(ProfileChange { days, minutes, ..ProfileChange::default() }));
    }
    let today =
        c.pieces.iter().any(|piece| matches!(piece.item, Item::Day(Named::Day(Day::Today, _))));
    if days.is_empty()
        && minutes.is_some()
        && (c.has(Concept::Max) || can)
        && c.len() <= 8
        && !today
    {
        return Some(Kind::Profile(ProfileChange { minutes, ..ProfileChange::default() }));
    }
    None
}

/// `5.45 to 7`, `6 to 7am`: minutes between two times of day.
fn window(c: &Clause<'_, '_>, candidate: &mut Candidate) -> Option<u16> {
    let mut times = Vec::new();
    for (at, piece) in c.pieces.iter().enumerate() {
        let time = match piece.item {
            Item::TimeOfDay(hour, minute) => Some((hour, minute)),
            Item::Figure(figure) => figure.day_time(),
            _ => None,
        };
        if let Some((hour, minute)) = time {
            times.push(u16::from(hour) * 60 + u16::from(minute));
            candidate.used[at] = true;
        }
    }
    let [from, to] = times[..] else { return None };
    to.checked_sub(from).filter(|minutes| (15..=240).contains(minutes))
}

/// `my pool is 50m`, `using the 50m pool from april`.
pub fn pool(c: &Clause<'_, '_>, candidate: &mut Candidate) -> Option<Kind> {
    if c.sit.role == Role::Coach
        || !c.has(Concept::Water)
        || c.has_any(&[Concept::Shut, Concept::Swam, Concept::Done])
    {
        return None;
    }
    let course = c.pieces.iter().enumerate().find_map(|(at, piece)| {
        let course = match piece.item {
            Item::Far(Far::Of(50, unit)) if unit != Some(Unit::Yard) => Some(Course::Long50m),
            Item::Far(Far::Of(25, Some(Unit::Yard))) => Some(Course::Short25yd),
            Item::Far(Far::Of(25, _)) => Some(Course::Short25m),
            _ => piece.course(),
        };
        course.inspect(|_| candidate.used[at] = true)
    })?;
    uses(c, candidate, &[Concept::My, Concept::Water]);
    Some(Kind::Profile(ProfileChange { course: Some(course), ..ProfileChange::default() }))
}

/// `yards please`, `say it in metres`.
pub fn units(c: &Clause<'_, '_>, candidate: &mut Candidate) -> Option<Kind> {
    if c.len() > 8 {
        return None;
    }
    let unit = c.pieces.iter().enumerate().find_map(|(at, piece)| {
        piece.sense(|sense| match sense {
            Sense::Unit(UnitWord::Metre) => Some((at, Unit::Metre)),
            Sense::Unit(UnitWord::Yard) => Some((at, Unit::Yard)),
            _ => None,
        })
    });
    let speaks = c.has_any(&[Concept::In, Concept::Give, Concept::Tell])
        || c.pieces
            .iter()
            .any(|piece| matches!(piece.text, "distances" | "units" | "use" | "usa" | "unidades"));
    let (at, unit) = unit.filter(|_| {
        speaks && !c.pieces.iter().any(|piece| matches!(piece.item, Item::Figure(_) | Item::Far(_)))
    })?;
    candidate.used[at] = true;
    Some(Kind::Profile(ProfileChange { units: Some(unit), ..ProfileChange::default() }))
}
