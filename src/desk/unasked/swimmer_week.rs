//! A swimmer's own week, for one who asked for it. It tells of nobody else, and
//! asks for nothing: neither results nor effort.

use jiff::civil::{Time, Weekday, time};
use jiff::{Timestamp, ToSpan};

use super::hours::due_day;
use super::whom::Whom;
use crate::desk::decision::view::View;
use crate::desk::known::trials::trials;
use crate::desk::squad::overview;
use crate::history::{AgeGroup, Squad, Swimmer, TroubleKind};
use crate::message::Name;
use crate::reply::{Flag, NoteReply};
use crate::swim::Trial;

/// When it comes (ours: the week is over).
pub const DAY: Weekday = Weekday::Sunday;

/// And at what time of day.
pub const AT: Time = time(18, 0, 0, 0);

/// For how many days after its own it may still be said (ours: whoever coaches
/// too hears of the squad first).
const LATE_DAYS: u8 = 2;

/// The days it tells of.
const DAYS: i64 = 7;

/// Sets that are told.
const SETS: usize = 3;

/// Those for whom it is due at `now`: grown-ups who want it, and are neither
/// away nor ill nor stopped.
pub fn whom(squad: &Squad, now: Timestamp) -> Vec<Whom> {
    let local = now.to_zoned_datetime(squad.zone()).datetime();
    let Some(on) = due_day(local, AT, LATE_DAYS, |date| date.weekday() == DAY) else {
        return Vec::new();
    };
    let wanting = squad.swimmers.values().filter(|one| one.wants_note && is_told(squad, one, now));
    wanting
        .filter_map(|one| Some(Whom { to: one.address.clone()?, who: Some(one.name.clone()), on }))
        .collect()
}

fn is_told(squad: &Squad, swimmer: &Swimmer, now: Timestamp) -> bool {
    let unfit = |kind: &TroubleKind| matches!(kind, TroubleKind::Faint | TroubleKind::Ill { .. });
    squad.age_group(swimmer, now) == AgeGroup::Adult
        && !swimmer.is_away(squad.local_day(now), now)
        && !swimmer.open_troubles(now).any(|kept| unfit(&kept.what.kind))
}

/// Their seven days up to today, as known now.
pub fn note(view: &View<'_>, who: &Name) -> Option<NoteReply> {
    let swimmer = view.swimmer(who)?;
    let now = view.now();
    let from = view.today.saturating_sub((DAYS - 1).days());
    let swims = view.swum_since(swimmer, from);
    let metres: f64 =
        swims.iter().filter_map(|swum| swum.distance).map(|far| far.metres().get()).sum();
    let all: Vec<Trial> = trials(swimmer, view).collect();
    let sets = swimmer.sets.since(from, now).filter(|kept| {
        kept.on <= view.today && kept.what.set.target.is_some() && !kept.what.times.is_empty()
    });
    let sets: Vec<_> = sets.map(|kept| (kept.what.set.clone(), kept.what.held)).collect();
    let careful = view.is_careful(swimmer);
    let overdue = overview::row(view, swimmer).flags.contains(&Flag::Overdue);
    let shared = swimmer
        .address
        .as_ref()
        .and_then(|address| view.squad.members.get(address))
        .is_some_and(|member| member.is_shared() || member.name.as_ref() != Some(who));
    Some(NoteReply {
        who: shared.then(|| who.clone()),
        from,
        to: view.today,
        days: view.days_swum(swimmer, from, view.today),
        metres: metres.round() as u32,
        tests: overview::tests_between(&all, from, view.today),
        sets: sets.iter().rev().take(SETS).rev().cloned().collect(),
        focus: swimmer.focus_at(now).cloned(),
        careful,
        test_due: overdue && !careful,
        next_night: next_night(view, swimmer),
    })
}

/// True where there is something to tell.
pub fn has_news(note: &NoteReply) -> bool {
    note.days > 0
}

fn next_night(view: &View<'_>, swimmer: &Swimmer) -> Option<(jiff::civil::Date, Option<Time>)> {
    let now = view.now();
    let mut from = view.squad.coming_night(now)?.on;
    for _ in 0..DAYS {
        let night = view.squad.next_night(from, now)?;
        if view.squad.is_night_of(swimmer, night.on, now) {
            return Some((night.on, night.starts));
        }
        from = night.on.tomorrow().ok()?;
    }
    None
}
