//! What lies ahead of a squad or a swimmer, for a calendar.

use jiff::civil::Date;
use jiff::{Timestamp, ToSpan};

use super::calendar::{Entry, When};
use super::file::Whose;
use crate::digest;
use crate::history::{Ahead, Kept, Night, RaceEntry, Squad, Swimmer, TakenBack, TroubleKind};

/// How far ahead nights are listed (ours: a calendar asks again long before).
const DAYS: i64 = 56;
/// How long races and sessions stay once their day is over, called off or not (ours: a
/// calendar that was not opened for a month still learns what became of them).
const STAY_DAYS: i64 = 28;

/// Nights of the squad, then races and own sessions, each with those that are off.
pub fn events(squad: &Squad, swimmers: &[&Swimmer], whose: &Whose, now: Timestamp) -> Vec<Entry> {
    let today = squad.local_day(now);
    let days = (0..DAYS).map(|ahead| today.saturating_add(ahead.days()));
    let mut all: Vec<Entry> = days.filter_map(|day| night(squad, day, now)).collect();
    let since = today.saturating_sub(STAY_DAYS.days());
    for swimmer in swimmers {
        all.extend(races(squad, swimmer, since, now));
        if matches!(whose, Whose::One(_)) {
            all.extend(sessions(squad, swimmer, since, now));
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

/// Races named and entered for, and what was taken back of them.
fn races(squad: &Squad, swimmer: &Swimmer, since: Date, now: Timestamp) -> Vec<Entry> {
    let race = |distance, stroke| Ahead::Race { distance, stroke };
    let mut entered: Vec<Stands> = Vec::new();
    let mut by_message: Vec<&Kept<RaceEntry>> = swimmer.entries.as_of(now).collect();
    by_message.sort_by_key(|kept| kept.cause);
    for kept in by_message {
        let Some(on) = kept.what.on else { continue };
        let one = Stands {
            first: on,
            on,
            what: race(kept.what.distance, kept.what.stroke),
            is_off: kept.what.scratched,
            changed_by: kept.cause,
        };
        match entered.iter_mut().find(|other| other.is_the_same(&one)) {
            // The last word holds.
            Some(other) => *other = one,
            None => entered.push(one),
        }
    }
    let named = swimmer.races_named(&squad.zone(), now).into_iter().map(|named| Stands {
        first: named.first,
        on: named.race.on,
        what: race(named.race.distance, named.race.stroke),
        is_off: named.given_up.is_some(),
        changed_by: named.changed_by(),
    });
    let mut all: Vec<Stands> = named.collect();
    for one in entered {
        match all.iter_mut().find(|other| other.is_the_same(&one)) {
            // Named and entered for: it is on as long as either says so.
            Some(other) => {
                other.is_off &= one.is_off;
                other.changed_by = other.changed_by.max(one.changed_by);
            }
            None => all.push(one),
        }
    }
    take_back(&mut all, swimmer, now, |what| matches!(what, Ahead::Race { .. }));
    listed(squad, swimmer, &all, since)
}

/// One's own sessions as they were last told. None that is to come stands for whoever is
/// stopped.
fn sessions(squad: &Squad, swimmer: &Swimmer, since: Date, now: Timestamp) -> Vec<Entry> {
    let today = squad.local_day(now);
    let stops = swimmer.troubles.as_of(now).filter(|kept| kept.what.kind == TroubleKind::Faint);
    let stops = stops.flat_map(|kept| {
        let over = kept.what.closed.filter(|(_, at)| *at <= now).map(|(by, _)| by);
        [Some(kept.cause), over]
    });
    let stopped_by = stops.flatten().max().unwrap_or_default();
    let told = swimmer.told_for(since, &squad.zone(), now).into_iter().map(|one| {
        let to_come = one.told.on >= today;
        let session = &one.told.what;
        Stands {
            first: one.told.on,
            on: one.told.on,
            what: Ahead::Session { amount: session.amount(), unit: session.unit },
            is_off: !one.stands || (to_come && swimmer.is_stopped(now)),
            changed_by: if to_come { one.changed_by.max(stopped_by) } else { one.changed_by },
        }
    });
    let mut all: Vec<Stands> = told.collect();
    take_back(&mut all, swimmer, now, |what| matches!(what, Ahead::Session { .. }));
    listed(squad, swimmer, &all, since)
}

/// A race or a session as it stands.
struct Stands {
    /// The day by which it is known.
    first: Date,
    on: Date,
    what: Ahead,
    is_off: bool,
    /// The message that changed it last: each outdoes those before it.
    changed_by: u64,
}

impl Stands {
    /// True for the same thing, whatever of it changed: one session a day.
    fn is_the_same(&self, other: &Stands) -> bool {
        let alike =
            matches!((self.what, other.what), (Ahead::Session { .. }, Ahead::Session { .. }));
        self.first == other.first && (alike || self.what == other.what)
    }
}

/// What was taken back is off where nothing else says that it is on, and has changed
/// either way.
fn take_back(all: &mut Vec<Stands>, swimmer: &Swimmer, now: Timestamp, is: fn(&Ahead) -> bool) {
    for kept in swimmer.taken_back.as_of(now).filter(|kept| is(&kept.what.what)) {
        let TakenBack { what, first } = kept.what;
        let gone = Stands { first, on: kept.on, what, is_off: true, changed_by: kept.cause };
        match all.iter_mut().find(|other| other.is_the_same(&gone)) {
            Some(other) => other.changed_by = other.changed_by.max(gone.changed_by),
            None => all.push(gone),
        }
    }
}

fn listed(squad: &Squad, swimmer: &Swimmer, all: &[Stands], since: Date) -> Vec<Entry> {
    let name = swimmer.name.as_str();
    let entry = |one: &Stands| {
        let (kind, of, title) = match one.what {
            Ahead::Race { distance, stroke } => {
                let race = format!("{} {}", distance.amount(), stroke.name());
                ("race", format!("{name} {race} {}", distance.unit().name()), race)
            }
            Ahead::Session { amount, unit } => {
                ("session", name.to_owned(), format!("{amount} {}", unit.name()))
            }
        };
        Entry {
            id: id(squad, kind, &of, one.first),
            sequence: usize::try_from(one.changed_by).unwrap_or(usize::MAX),
            when: When::Day(one.on),
            title: format!("{name}: {title}"),
            cancelled: one.is_off,
        }
    };
    all.iter().filter(|one| one.on >= since).map(entry).collect()
}
