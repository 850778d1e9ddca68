//! A week: what kind it is, how far, which days, and the session of each.

use jiff::ToSpan;
use jiff::civil::Date;

use super::calendar::first_day;
use super::draft::Draft;
use super::next::refuse_if_stopped;
use super::order::{Order, shortest_session, write};
use super::promise::Promise;
use super::purpose::{Turn, purpose_on};
use super::rulebook::{RuleId, Rulebook};
use super::season::{Phase, phase_on, race_ahead, taper_share};
use super::standing::{Standing, days_between, in_unit};
use super::steer::{Measure, measure};
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
    let standing = Standing::of(facts, book);
    refuse_if_stopped(&standing)?;
    let before = weeks_before(facts);
    let (kind, mut because) = kind_of(&standing, wish, &before);
    let stands = standing_in(&standing, wish, kind);
    let days = with_standing(days_of(&standing, wish), &stands);
    let hard = hard_days_of(&standing, kind, &days, &stands);
    let turns = turns(facts, &days, &hard);
    let write = |(day, turn): (Date, Turn), aim: Option<u32>| match stands
        .iter()
        .find(|session| session.on == day)
    {
        Some(session) => Ok((*session).clone()),
        // How the last swim went is the measure of the first.
        None => {
            let measured = measure(&standing).filter(|_| days.first() == Some(&day));
            write_day(&standing, wish, kind, (day, turn), aim, measured)
        }
    };
    let draft = Draft::of(turns.clone(), &write)?;
    let mut wanted = volume(&standing, kind, &before, draft.room(), &mut because);
    if let Some(last) = facts.weeks.last().filter(|_| standing.open.lowers()) {
        // Pain and illness never make it longer than what was planned before.
        wanted = wanted.min(in_unit(last.distance, facts.course));
    }
    let shortest = shortest_session(facts.course);
    let step = facts.course.length().unwrap_or(100).max(50);
    let mut sessions = draft.filled(wanted, shortest, step, &write)?;
    let total = |sessions: &[Session]| sessions.iter().map(Session::amount).sum::<u32>();
    // What was promised is not given up for distance.
    let promised = matches!(facts.promised, Some(Promise::Set { .. } | Promise::Test));
    if total(&sessions) < wanted && !promised {
        // A test or slow-going purposes hold too little: what covers most instead.
        let long = turns.iter().map(|(day, turn)| (*day, long_in_place_of(*turn))).collect();
        let instead = Draft::of(long, &write)?.filled(wanted, shortest, step, &write)?;
        if total(&instead) > total(&sessions) {
            sessions = instead;
        }
    }
    if standing.open.lowers() {
        // Nor is one session more than the one before it.
        for index in 1..sessions.len() {
            let most = sessions[index - 1].amount();
            let turn = turns.iter().find(|(day, _)| *day == sessions[index].on).copied();
            if let Some(turn) = turn.filter(|_| sessions[index].amount() > most)
                && let Ok(shorter) = write(turn, Some(most))
            {
                sessions[index] = shorter;
            }
        }
    }
    because.dedup();
    let rules = because.iter().map(|rule| rule.id().to_owned()).collect();
    Ok(Week { starts: facts.today, kind, sessions, rules })
}

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

fn is_work(kind: WeekKind) -> bool {
    matches!(kind, WeekKind::Normal | WeekKind::Hard)
}

/// The kind of week that the rules allow, nearest to what was wished.
fn kind_of(
    standing: &Standing<'_>,
    wish: &WeekWish,
    before: &[&WeekPlanned],
) -> (WeekKind, Vec<RuleId>) {
    let wanted = wish.kind.unwrap_or(WeekKind::Normal);
    if let Some(rule) = standing.easy_only() {
        let back =
            standing.open.lowers() || standing.comeback.is_some() || rule == RuleId::FirstSwimsEasy;
        return match (back, wanted) {
            (true, WeekKind::Easy) | (false, _) => (WeekKind::Easy, vec![rule]),
            (true, _) => (WeekKind::Return, vec![rule]),
        };
    }
    let today = standing.facts.today;
    match phase_on(standing, today) {
        Phase::Taper if wanted != WeekKind::Easy => {
            return (WeekKind::Taper, vec![taper_share(standing).1]);
        }
        Phase::Recover => return (WeekKind::Easy, vec![RuleId::RecoverDays]),
        _ => {}
    }
    let running = before.iter().take_while(|week| is_work(week.kind)).count() as i64;
    if is_work(wanted) && running >= standing.book.whole(RuleId::EasyWeekAfter) {
        return (WeekKind::Easy, vec![RuleId::EasyWeekAfter]);
    }
    (wanted, Vec::new())
}

/// How far the week should be.
fn volume(
    standing: &Standing<'_>,
    kind: WeekKind,
    before: &[&WeekPlanned],
    room: u32,
    because: &mut Vec<RuleId>,
) -> u32 {
    let book = standing.book;
    let course = standing.facts.course;
    let today = standing.facts.today;
    // What was planned counts as far as it was swum, a week cut short by a good part
    // at half at least; of who reports nothing her weeks stay as they are.
    let reports = standing.facts.swims.iter().any(|swim| days_between(swim.on, today) <= 28);
    let amount = |week: &&&WeekPlanned| {
        let (planned, swum) = (in_unit(week.distance, course), swum_in(standing, week));
        match swum {
            0 => planned,
            most if most * 4 >= planned * 3 => planned,
            little => little.max(planned / 2),
        }
    };
    let work = || before.iter().take(4).filter(|week| is_work(week.kind));
    let recent = work().filter(|week| days_between(week.starts, today) <= 28).map(|w| amount(&w));
    let base = recent.max().or_else(|| work().map(|week| amount(&week)).max());
    let last_work = before.iter().find(|week| is_work(week.kind)).map(|week| amount(&week));
    let last = before.first().map(|week| in_unit(week.distance, course));
    let of = |amount: u32, share: f64| (f64::from(amount) * share).floor() as u32;
    let first = of(room, book.share(RuleId::FirstWeekShare));
    match kind {
        WeekKind::Normal | WeekKind::Hard => {
            let Some(base) = base.or(last_work) else {
                because.push(RuleId::FirstWeekShare);
                // What she swims already is no jump, however little room is left.
                return most_swum_in_a_week(standing).map_or(first, |swum| swum.clamp(first, room));
            };
            let after_work = reports && before.first().is_some_and(|week| is_work(week.kind));
            let step = match (kind, after_work) {
                (WeekKind::Hard, _) if reports => 1.0 + book.share(RuleId::RampWeek),
                (_, true) => 1.0 + book.share(RuleId::NormalStep),
                (_, false) => 1.0,
            };
            because.push(RuleId::RampWeek);
            // Growing stops where the minutes are all but full, so that the same
            // distance still fits next week's purposes.
            let step = if of(base, step) > of(room, 0.93) { 1.0 } else { step };
            of(base, step).min(of(base, 1.0 + book.share(RuleId::RampWeek)))
        }
        WeekKind::Easy => {
            because.push(RuleId::EasyWeekShare);
            let from = base.into_iter().chain(last_work).min().unwrap_or(first);
            of(from, book.share(RuleId::EasyWeekShare))
        }
        WeekKind::Taper => {
            // Measured on the largest week, so that a taper is no taper of a taper.
            let usual = base.or(last_work).unwrap_or(first);
            of(usual, taper_share(standing).0)
        }
        WeekKind::Return => {
            let usual = last_work.or(last).unwrap_or(first);
            let share = match standing.comeback {
                _ if standing.open.ill_since.is_some() => book.share(RuleId::IllEasy),
                _ if standing.open.pain.is_some() => book.share(RuleId::PainEasy),
                Some(comeback) => book.share(comeback.rule),
                None => 1.0,
            };
            of(usual, share)
        }
    }
}

/// How far she is known to have swum in the days of a week that was planned.
fn swum_in(standing: &Standing<'_>, week: &WeekPlanned) -> u32 {
    let facts = standing.facts;
    let swims =
        facts.swims.iter().filter(|swim| (0..7).contains(&days_between(week.starts, swim.on)));
    swims.filter_map(|swim| swim.distance).map(|far| in_unit(far, facts.course)).sum()
}

/// The most that was reported in seven days of the last four weeks.
fn most_swum_in_a_week(standing: &Standing<'_>) -> Option<u32> {
    let facts = standing.facts;
    (1..=4i64)
        .map(|week| {
            let ago = |swim: &&super::Swum| days_between(swim.on, facts.today);
            let swims =
                facts.swims.iter().filter(|swim| (7 * (week - 1)..7 * week).contains(&ago(swim)));
            swims.filter_map(|s| s.distance).map(|d| in_unit(d, facts.course)).sum::<u32>()
        })
        .max()
        .filter(|most| *most > 0)
}

/// The days of the week's sessions: hers where she named them, else spread.
fn days_of(standing: &Standing<'_>, wish: &WeekWish) -> Vec<Date> {
    let facts = standing.facts;
    let first = days_between(facts.today, first_day(standing)).clamp(0, 6);
    let first = first.max(i64::from(standing.days_swum.contains(&facts.today)));
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
        // Her own days first, the others where they lie furthest from them.
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
/// other minutes were asked for, nor a hard one in a week that holds none.
fn standing_in<'a>(standing: &Standing<'a>, wish: &WeekWish, kind: WeekKind) -> Vec<&'a Session> {
    let facts = standing.facts;
    let holds_hard = matches!(kind, WeekKind::Normal | WeekKind::Hard);
    let within = |session: &&Session| {
        let ahead = days_between(facts.today, session.on);
        (0..7).contains(&ahead)
            && (holds_hard || kind == WeekKind::Taper || !super::is_hard(session))
            && session.duration_s() <= u32::from(facts.minutes) * 60
    };
    match wish.minutes {
        Some(_) => Vec::new(),
        None => facts.standing.iter().filter(within).collect(),
    }
}

/// `days` with those of the sessions that stand, each in the place of the nearest.
fn with_standing(mut days: Vec<Date>, stands: &[&Session]) -> Vec<Date> {
    for session in stands.iter().filter(|session| !days.contains(&session.on)).collect::<Vec<_>>() {
        let free = days.iter().enumerate().filter(|(_, day)| !stands.iter().any(|s| s.on == **day));
        let nearest = free.min_by_key(|(_, day)| days_between(**day, session.on).abs());
        if let Some((index, _)) = nearest {
            days[index] = session.on;
        } else {
            days.push(session.on);
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
fn hard_days_of(
    standing: &Standing<'_>,
    kind: WeekKind,
    days: &[Date],
    stands: &[&Session],
) -> Vec<Date> {
    let most = match (kind, days.len()) {
        (WeekKind::Easy | WeekKind::Return, _) => 0,
        _ if standing.easy_only().is_some() => 0,
        (WeekKind::Taper, count) => count.div_ceil(3),
        (WeekKind::Hard, count) => count.div_ceil(2) + usize::from(count >= 4),
        (_, count) => count.div_ceil(2),
    };
    let gap = standing.hard_gap();
    // Nothing hard right before a race, nor after it.
    let near_race = |day: Date| {
        phase_on(standing, day) == Phase::Recover
            || race_ahead(standing.facts, day).is_some_and(|race| {
                days_between(day, race.on) < standing.book.whole(RuleId::RaceEve)
            })
    };
    let mut hard: Vec<Date> = Vec::new();
    hard.extend(stands.iter().filter(|session| super::is_hard(session)).map(|session| session.on));
    // The next swim was promised to be an easy one.
    let spent = measure(standing).is_some_and(|measure| measure.easy);
    let easy = days.first().filter(|_| spent || standing.facts.promised == Some(Promise::Easy));
    for day in days.iter().filter(|day| !stands.iter().any(|session| session.on == **day)) {
        let apart = hard.iter().all(|other| days_between(*other, *day).abs() >= gap);
        let free = apart && standing.may_be_hard(*day) && !near_race(*day) && easy != Some(day);
        if hard.len() < most && free {
            hard.push(*day);
        }
    }
    hard.sort_unstable();
    hard
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

/// What covers the most distance in the time, where the week needs it.
fn long_in_place_of(turn: Turn) -> Turn {
    match turn {
        Turn::OfWeek { hard, .. } => Turn::OfWeek { count: usize::from(!hard), hard, test: false },
        Turn::Next => Turn::Next,
    }
}

fn write_day(
    standing: &Standing<'_>,
    wish: &WeekWish,
    kind: WeekKind,
    (day, turn): (Date, Turn),
    aim: Option<u32>,
    measured: Option<Measure>,
) -> Result<Session, Refusal> {
    let mut purpose = purpose_on(standing, day, turn);
    match kind {
        WeekKind::Return => purpose.0 = Purpose::Return,
        WeekKind::Easy if standing.easy_only().is_none() => {
            purpose.1 = vec![RuleId::EasyWeekShare];
        }
        _ => {}
    }
    let (uncapped, most) = (aim.is_none(), measured.map(|measure| measure.most));
    let order = Order { on: day, purpose, minutes: wish.minutes, most, aim, uncapped };
    write(standing, &SessionWish::default(), &order)
}
