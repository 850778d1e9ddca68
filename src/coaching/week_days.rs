//! The days of a week: which there are, what stands on them, and which are hard.

use jiff::ToSpan;
use jiff::civil::Date;

use super::calendar::first_day;
use super::promise::Promise;
use super::rulebook::RuleId;
use super::season::{Phase, phase_on, race_ahead};
use super::steer::measure;
use super::swimmer_state::{SwimmerState, days_between, plan_on};
use super::{WeekKind, WeekWish};
use crate::session::Session;

/// The days of the week's sessions: theirs where they named them, else spread.
pub(super) fn days_of(state: &SwimmerState<'_>, wish: &WeekWish) -> Vec<Date> {
    let facts = state.facts;
    let first = days_between(facts.today, first_day(state)).clamp(0, 6);
    let first = first.max(i64::from(state.days_swum.contains(&facts.today)));
    let race = race_ahead(facts, facts.today).map(|race| race.on);
    let open: Vec<Date> = (first..7)
        .map(|ahead| facts.today.saturating_add(ahead.days()))
        .filter(|day| Some(*day) != race && !facts.shut.contains(day))
        .collect();
    let wanted = usize::from(wish.sessions.unwrap_or(facts.sessions_a_week).max(1)).min(open.len());
    let hers: Vec<Date> =
        open.iter().copied().filter(|day| facts.days.contains(&day.weekday())).collect();
    let from = if hers.len() >= wanted { &hers } else { &open };
    let mut days: Vec<Date> = spread(from, wanted);
    if hers.len() < wanted && !hers.is_empty() {
        // Their own days first, the others where they lie furthest from them.
        days = hers.clone();
        while days.len() < wanted {
            let free = open.iter().filter(|day| !days.contains(day));
            let furthest = free.max_by_key(|day| {
                let nearest = days.iter().map(|one| days_between(*one, **day).abs()).min();
                (nearest, std::cmp::Reverse(**day))
            });
            let Some(day) = furthest else { break };
            days.push(*day);
        }
        days.sort_unstable();
    }
    days
}

/// The sessions that stand and go into a week of that kind as they are: not where
/// other minutes or another kind of week were asked for, nor a hard one in a week
/// that holds none.
pub(super) fn standing_in<'a>(
    state: &SwimmerState<'a>,
    wish: &WeekWish,
    kind: WeekKind,
) -> Vec<&'a Session> {
    let facts = state.facts;
    let holds_hard = matches!(kind, WeekKind::Normal | WeekKind::Hard);
    let within = |session: &&Session| {
        let ahead = days_between(facts.today, session.on);
        (0..7).contains(&ahead)
            && (holds_hard || kind == WeekKind::Taper || !super::is_hard(session))
            && session.duration_s() <= u32::from(facts.minutes) * 60
    };
    let of_kind = plan_on(facts, facts.today).is_some_and(|week| week.kind == kind);
    let another = wish.kind.is_some() && !of_kind;
    match wish.minutes.is_some() || another {
        true => Vec::new(),
        false => facts.standing.iter().filter(within).collect(),
    }
}

/// `days` with those of the sessions that stand, each in the place of the nearest.
pub(super) fn with_standing(mut days: Vec<Date>, stands: &[&Session]) -> Vec<Date> {
    for session in stands.iter().filter(|session| !days.contains(&session.on)).collect::<Vec<_>>() {
        let free = days.iter_mut().filter(|day| !stands.iter().any(|s| s.on == **day));
        match free.min_by_key(|day| days_between(**day, session.on).abs()) {
            Some(nearest) => *nearest = session.on,
            None => days.push(session.on),
        }
    }
    days.sort_unstable();
    days
}

/// `count` of `days`, as evenly as they lie.
fn spread(days: &[Date], count: usize) -> Vec<Date> {
    (0..count).filter_map(|index| days.get(index * days.len() / count.max(1)).copied()).collect()
}

/// Which of the days are hard: about half, far enough apart and from what was
/// hard before.
pub(super) fn hard_days_of(
    state: &SwimmerState<'_>,
    kind: WeekKind,
    days: &[Date],
    stands: &[&Session],
) -> Vec<Date> {
    let most = match (kind, days.len()) {
        (WeekKind::Easy | WeekKind::Return, _) => 0,
        _ if state.easy_only().is_some() => 0,
        (WeekKind::Taper, count) => count.div_ceil(3),
        (WeekKind::Hard, count) => count.div_ceil(2) + usize::from(count >= 4),
        (_, count) => count.div_ceil(2),
    };
    let gap = state.hard_gap();
    // Nothing hard right before a race, nor after it.
    let near_race = |day: Date| {
        phase_on(state, day) == Phase::Recover
            || race_ahead(state.facts, day)
                .is_some_and(|race| days_between(day, race.on) < state.book.whole(RuleId::RaceEve))
    };
    let mut hard: Vec<Date> = Vec::new();
    hard.extend(stands.iter().filter(|session| super::is_hard(session)).map(|session| session.on));
    // The next swim was promised to be an easy one.
    let spent = measure(state).is_some_and(|measure| measure.easy);
    let easy = days.first().filter(|_| spent || state.facts.promised == Some(Promise::Easy));
    for day in days.iter().filter(|day| !stands.iter().any(|session| session.on == **day)) {
        let apart = hard.iter().all(|other| days_between(*other, *day).abs() >= gap);
        let free = apart && state.may_be_hard(*day) && !near_race(*day) && easy != Some(day);
        if hard.len() < most && free {
            hard.push(*day);
        }
    }
    hard.sort_unstable();
    hard
}
