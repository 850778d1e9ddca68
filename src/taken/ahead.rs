//! What lies ahead of a squad or a swimmer, for a calendar.

use jiff::civil::Date;
use jiff::{Timestamp, ToSpan};

use super::calendar::{Entry, When};
use super::file::Whose;
use crate::digest;
use crate::profile::{Kept, Night, Squad, Swimmer};
use crate::session::Session;

/// How far ahead nights are listed (ours: a calendar asks again long before).
const DAYS: i64 = 56;

/// Nights of the squad, cancelled ones too, then races and own sessions.
pub fn events(squad: &Squad, swimmers: &[&Swimmer], whose: &Whose, now: Timestamp) -> Vec<Entry> {
    let today = squad.local_day(now);
    let days = (0..DAYS).map(|ahead| today.saturating_add(ahead.days()));
    let mut all: Vec<Entry> = days.filter_map(|day| night(squad, day, now)).collect();
    for swimmer in swimmers {
        all.extend(race(squad, swimmer, today, now));
        if matches!(whose, Whose::One(_)) {
            all.extend(sessions(squad, swimmer, today, now));
        }
    }
    all
}

/// The same id whatever changes of it, so that a calendar knows it again.
fn id(squad: &Squad, what: &str, who: &str, on: Date) -> String {
    digest::hex(&digest::of(["calendar", &squad.id.0, what, who, &on.to_string()]))
}

fn night(squad: &Squad, day: Date, now: Timestamp) -> Option<Entry> {
    let shut = squad.is_shut(day, now);
    let night = match shut {
        // As it would have been.
        true => squad.weekly_night(day.weekday(), day, now)?,
        false => squad.night(day, now)?,
    };
    Some(Entry {
        id: id(squad, "night", "", day),
        // Each change of the timetable is one more, so a later word outdoes an earlier.
        sequence: squad.timetable_changes(now),
        when: when(squad, &night),
        title: squad.name.clone(),
        cancelled: shut,
    })
}

/// From instant to instant where the start is known, so that no calendar needs to
/// know our zone's summer time; else the day.
fn when(squad: &Squad, night: &Night) -> When {
    let starts =
        night.starts.and_then(|time| squad.zone().to_timestamp(night.on.to_datetime(time)).ok());
    let ends = starts.and_then(|at| at.checked_add(i64::from(night.minutes).minutes()).ok());
    match starts.zip(ends) {
        Some((from, to)) => When::Between(from, to),
        None => When::Day(night.on),
    }
}

fn race(squad: &Squad, swimmer: &Swimmer, today: Date, now: Timestamp) -> Option<Entry> {
    let race = swimmer.race.at(now).filter(|race| race.on >= today)?;
    let name = swimmer.name.as_str();
    Some(Entry {
        id: id(squad, "race", name, race.on),
        sequence: number(swimmer.race.cause_at(now).unwrap_or_default()),
        when: When::Day(race.on),
        title: format!("{name}: {} {}", race.distance.amount(), race.stroke.name()),
        cancelled: false,
    })
}

/// The number of a message, as one that grows with each change.
fn number(cause: u64) -> usize {
    usize::try_from(cause).unwrap_or(usize::MAX)
}

/// One's own sessions as they were last told.
fn sessions(squad: &Squad, swimmer: &Swimmer, today: Date, now: Timestamp) -> Vec<Entry> {
    let name = swimmer.name.as_str();
    let ahead = swimmer.told(now).into_iter().filter(|kept| kept.on >= today);
    let entry = |kept: &Kept<Session>| Entry {
        id: id(squad, "session", name, kept.on),
        // Each message outdoes those before it.
        sequence: number(kept.cause),
        when: When::Day(kept.on),
        title: format!("{name}: {} {}", kept.what.amount(), kept.what.unit.name()),
        cancelled: false,
    };
    ahead.map(entry).collect()
}
