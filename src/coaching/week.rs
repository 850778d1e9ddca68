//! A week: what kind it is, how far, which days, and the session of each.

use jiff::ToSpan;
use jiff::civil::Date;

use super::next::refuse_if_stopped;
use super::promise::Promise;
use super::purpose::{Turn, purpose_on, races_on};
use super::rulebook::{RuleId, Rulebook};
use super::season::{Phase, phase_on, race_ahead, taper_share};
use super::steer::{Measure, measure, within};
use super::swimmer_state::{SwimmerState, days_between, in_unit};
use super::volume::volume;
use super::week_days::{days_of, hard_days_of, standing_in, with_standing};
use super::week_distance::Draft;
use super::write_session::{Order, shortest_session, write};
use super::{Facts, Refusal, SessionWish, WeekKind, WeekPlanned, WeekWish};
use crate::session::{Purpose, Session};
use crate::units::Unit;

/// A week for one swimmer.
#[derive(Debug, Clone, PartialEq)]
pub struct Week {
    /// Its first day: the day on which it was asked for.
    pub starts: Date,
    /// What kind it is.
    pub kind: WeekKind,
    /// Its sessions, in order.
    pub sessions: Vec<Session>,
    /// The ids of the rules that decided the week.
    pub rules: Vec<String>,
}

impl Week {
    /// The whole distance, in the unit of its sessions.
    pub fn distance(&self) -> u32 {
        self.sessions.iter().map(Session::amount).sum()
    }

    /// The unit of its sessions; metres where there are none.
    pub fn unit(&self) -> Unit {
        self.sessions.first().map_or(Unit::Metre, |session| session.unit)
    }

    /// Its days and whether each holds hard work, as a [`WeekPlanned`] keeps them.
    pub fn days(&self) -> Vec<(Date, bool)> {
        self.sessions.iter().map(|session| (session.on, super::is_hard(session))).collect()
    }
}

/// The seven local days from today.
///
/// # Errors
/// As [`super::next_session`], but never for harder: where a hard week is not
/// allowed the week that is allowed comes instead, with the rule that decided.
pub fn week(facts: &Facts, wish: &WeekWish) -> Result<Week, Refusal> {
    week_by(&Rulebook::default(), facts, wish)
}

/// [`week`] by a coach's own numbers.
///
/// # Errors
/// As [`week`].
pub fn week_by(book: &Rulebook, facts: &Facts, wish: &WeekWish) -> Result<Week, Refusal> {
    let state = SwimmerState::of(facts, book);
    refuse_if_stopped(&state)?;
    let before = weeks_before(facts);
    let (kind, mut because) = kind_of(&state, wish, &before);
    let mut stands = standing_in(&state, wish, kind);
    let days = with_standing(days_of(&state, wish), &stands);
    // How the last swim went is the measure of the first, whichever that now is.
    let first = days.first().copied();
    stands.retain(|session| Some(session.on) != first || within(&state, session));
    let hard = hard_days_of(&state, kind, &days, &stands);
    let turns = turns(facts, &days, &hard);
    let write = |(day, turn): (Date, Turn), aim: Option<u32>| match stands
        .iter()
        .find(|session| session.on == day)
    {
        Some(session) => Ok((*session).clone()),
        // How the last swim went is the measure of the first.
        None => {
            let measured = measure(&state).filter(|_| days.first() == Some(&day));
            write_day(&state, wish, kind, (day, turn), aim, measured)
        }
    };
    let draft = Draft::of(turns.clone(), &write)?;
    let mut wanted = volume(&state, kind, &before, draft.room(), &mut because);
    if let Some(last) = facts.weeks.last().filter(|_| state.open.lowers()) {
        // Pain and illness never make it longer than what was planned before.
        wanted = wanted.min(in_unit(last.distance, facts.course));
    }
    let shortest = shortest_session(facts.course);
    let step = facts.course.length().unwrap_or(100).max(50);
    let mut sessions = draft.filled(wanted, shortest, step, &write)?;
    let total = |sessions: &[Session]| sessions.iter().map(Session::amount).sum::<u32>();
    // What was promised is not given up for distance.
    let promised = matches!(facts.promised_hard(), Some(Promise::Set { .. } | Promise::Test));
    if total(&sessions) < wanted && !promised {
        // A test or slow-going purposes hold too little: what covers most instead.
        let long = turns.iter().map(|(day, turn)| (*day, long_in_place_of(*turn))).collect();
        let instead = Draft::of(long, &write)?.filled(wanted, shortest, step, &write)?;
        if total(&instead) > total(&sessions) {
            sessions = instead;
        }
    }
    if state.open.lowers() {
        // Nor is one session more than the one before it.
        let mut before: Option<u32> = None;
        for session in &mut sessions {
            let turn = turns.iter().find(|(day, _)| *day == session.on);
            if let (Some(most), Some(turn)) = (before, turn)
                && session.amount() > most
                && let Ok(shorter) = write(*turn, Some(most))
            {
                *session = shorter;
            }
            before = Some(session.amount());
        }
    }
    // The day of a race is told with the week, and is none of its training.
    let race = race_ahead(facts, facts.today).map(|race| race.on);
    let in_week = race.filter(|on| {
        days_between(facts.today, *on) < 7
            && races_on(&state, *on)
            && sessions.iter().all(|session| session.on != *on)
    });
    if let Some(day) = in_week {
        sessions.push(write((day, Turn::Next), None)?);
        sessions.sort_by_key(|session| session.on);
    }
    because.dedup();
    let rules = because.iter().map(|rule| rule.id().to_owned()).collect();
    Ok(Week { starts: facts.today, kind, sessions, rules })
}

/// Days from the start of a week within which a taper makes it a week of taper (ours).
const TAPER_BEGINS: i64 = 2;

/// The weeks before today, newest first: of plans that overlap the last counts.
fn weeks_before(facts: &Facts) -> Vec<&WeekPlanned> {
    let mut before: Vec<&WeekPlanned> = Vec::new();
    let mut cursor = facts.today;
    loop {
        let latest = facts
            .weeks
            .iter()
            .filter(|week| days_between(week.starts, cursor) >= 7)
            .max_by_key(|week| week.starts);
        let Some(week) = latest else { return before };
        before.push(week);
        cursor = week.starts;
    }
}

/// True for a week of work, none to recover or come back.
pub(super) fn is_work(kind: WeekKind) -> bool {
    matches!(kind, WeekKind::Normal | WeekKind::Hard)
}

/// The kind of week that the rules allow, nearest to what was wished.
fn kind_of(
    state: &SwimmerState<'_>,
    wish: &WeekWish,
    before: &[&WeekPlanned],
) -> (WeekKind, Vec<RuleId>) {
    let wanted = wish.kind.unwrap_or(WeekKind::Normal);
    if let Some(rule) = state.easy_only() {
        let back =
            state.open.lowers() || state.comeback.is_some() || rule == RuleId::FirstSwimsEasy;
        return match (back, wanted) {
            (true, WeekKind::Easy) | (false, _) => (WeekKind::Easy, vec![rule]),
            (true, _) => (WeekKind::Return, vec![rule]),
        };
    }
    let today = state.facts.today;
    // A week in which the taper begins at once is one.
    let begun = today.saturating_add(TAPER_BEGINS.days());
    match phase_on(state, today) {
        Phase::Sharpen | Phase::Build
            if wanted != WeekKind::Easy && phase_on(state, begun) == Phase::Taper =>
        {
            return (WeekKind::Taper, vec![taper_share(state).1]);
        }
        Phase::Taper if wanted != WeekKind::Easy => {
            return (WeekKind::Taper, vec![taper_share(state).1]);
        }
        Phase::Recover => return (WeekKind::Easy, vec![RuleId::RecoverDays]),
        _ => {}
    }
    let running = before.iter().take_while(|week| is_work(week.kind)).count() as i64;
    if is_work(wanted) && running >= state.book.whole(RuleId::EasyWeekAfter) {
        return (WeekKind::Easy, vec![RuleId::EasyWeekAfter]);
    }
    (wanted, Vec::new())
}

/// Each day with its turn: hard and light ones are counted on from week to week.
fn turns(facts: &Facts, days: &[Date], hard: &[Date]) -> Vec<(Date, Turn)> {
    let week = usize::try_from(days_between(facts.joined, facts.today) / 7).unwrap_or(0);
    let (mut hard_count, mut light_count) = (week * hard.len(), week);
    days.iter()
        .map(|day| {
            let is_hard = hard.contains(day);
            let count = if is_hard { &mut hard_count } else { &mut light_count };
            // A test, if one is due, comes on the first hard day.
            let test = hard.first() == Some(day);
            let turn = Turn::OfWeek { count: *count, hard: is_hard, test };
            *count += 1;
            (*day, turn)
        })
        .collect()
}

/// The session that covers most in the time, where the week needs the distance.
fn long_in_place_of(turn: Turn) -> Turn {
    match turn {
        Turn::OfWeek { hard, .. } => Turn::OfWeek { count: usize::from(!hard), hard, test: false },
        Turn::Next => Turn::Next,
    }
}

fn write_day(
    state: &SwimmerState<'_>,
    wish: &WeekWish,
    kind: WeekKind,
    (day, turn): (Date, Turn),
    aim: Option<u32>,
    measured: Option<Measure>,
) -> Result<Session, Refusal> {
    let mut purpose = purpose_on(state, day, turn);
    match kind {
        _ if purpose.0 == Purpose::Race => {}
        WeekKind::Return => purpose.0 = Purpose::Return,
        WeekKind::Easy if state.easy_only().is_none() => {
            purpose.1 = vec![RuleId::EasyWeekShare];
        }
        _ => {}
    }
    let (uncapped, most) = (aim.is_none(), measured.map(|measure| measure.most));
    let order = Order { on: day, purpose, minutes: wish.minutes, most, aim, uncapped };
    write(state, &SessionWish::default(), &order)
}
