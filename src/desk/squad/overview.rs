//! The squad and its swimmers at a glance, for the coach; one's own card, for a swimmer.

use jiff::ToSpan;
use jiff::civil::Date;

use crate::coaching::Trouble;
use crate::desk::decision::desk::Desk;
use crate::desk::decision::refusing::{Stopped, refused};
use crate::desk::decision::view::View;
use crate::desk::decision::who::coached;
use crate::desk::evening::{attend, test_night};
use crate::desk::known::trials::{bests_of, trials, trials_from_a_push};
use crate::desk::known::troubles::trouble;
use crate::history::{Event, Presence, ReadWhat, Right, Swimmer};
use crate::message::{Day, Name, SquadFilter, Statement};
use crate::reply::{Flag, OkReply, Outcome, RefusedWhy, SquadReply, SquadRow, SwimmerReply, Trend};
use crate::swim::real_change::{Change, Verdict};
use crate::swim::{Trial, critical_speed};

/// A test is overdue after this many days (retest every four to six weeks is
/// common practice, no source).
const OVERDUE_DAYS: i64 = 42;

/// "Not heard from" after this many days (ours).
const SILENT_DAYS: i64 = 10;

/// Latest tests shown on a card.
const LATEST: usize = 5;

/// Latest legs of relays shown on a card.
const LEGS: usize = 3;

/// What was over within these days is shown on a card (ours).
const OVER_DAYS: i32 = 28;

/// So many of them.
const OVER: usize = 2;

/// Latest notes shown on a card.
const NOTES: usize = 2;

/// `squad`, `squad overdue`
pub fn squad(
    desk: &mut Desk<'_>,
    filter: Option<SquadFilter>,
    on: Option<Day>,
) -> Result<Outcome, Stopped> {
    desk.demand(Right::SeeSquad)?;
    let mut rows: Vec<SquadRow> =
        desk.squad.swimmers.values().map(|swimmer| row(desk, swimmer)).collect();
    let has = |row: &SquadRow, flag| row.flags.contains(&flag);
    match filter {
        None => {}
        Some(SquadFilter::Overdue) => rows.retain(|row| has(row, Flag::Overdue)),
        Some(SquadFilter::Hurt) => {
            rows.retain(|row| has(row, Flag::Hurt));
        }
        Some(SquadFilter::Silent) => rows.retain(|row| has(row, Flag::Silent)),
        Some(SquadFilter::Owed) => {
            let (owed, _) = test_night::owed(desk);
            rows.retain(|row| owed.contains(&row.swimmer));
        }
        Some(SquadFilter::Races) => {
            for row in &mut rows {
                row.race = desk.swimmer(&row.swimmer).and_then(|one| desk.next_race(one));
            }
            rows.retain(|row| row.race.is_some());
            rows.sort_by_key(|row| row.race.as_ref().map(|race| race.on));
        }
        Some(SquadFilter::Improving) => rows.retain(|row| row.trend == Trend::Up),
        Some(SquadFilter::Fading) => rows.retain(|row| row.trend == Trend::Down),
        Some(SquadFilter::Expected) => {
            let on = match on {
                Some(_) => {
                    desk.night_meant(on).ok_or_else(|| refused("day", RefusedWhy::Nothing))?
                }
                None => desk.night_meant(None).unwrap_or(desk.today),
            };
            let night = attend::night(&desk.squad, on, desk.now());
            rows.retain(|row| night.coming.iter().any(|(name, _)| *name == row.swimmer));
            let squad = desk.squad.name.clone();
            let night = Some(night);
            return Ok(Outcome::Squad(SquadReply { squad, swimmers: rows, filter, night }));
        }
        Some(SquadFilter::Pace) => rows.sort_by(|one, other| {
            let pace = |row: &SquadRow| row.critical_per_100_s.unwrap_or(f64::INFINITY);
            pace(one).total_cmp(&pace(other))
        }),
    }
    if matches!(filter, None | Some(SquadFilter::Hurt)) {
        for row in rows.iter_mut().filter(|row| has(row, Flag::Hurt)) {
            row.open = desk.swimmer(&row.swimmer).map_or_else(Vec::new, |one| open(desk, one));
        }
    }
    if filter.is_none() {
        // Whoever needs looking at first.
        rows.sort_by_key(|row| (!has(row, Flag::Hurt), row.swimmer.clone()));
    }
    let hurt = rows.iter().filter(|row| has(row, Flag::Hurt)).map(|row| row.swimmer.clone());
    desk.has_seen(hurt.collect(), ReadWhat::Squad);
    let squad = desk.squad.name.clone();
    Ok(Outcome::Squad(SquadReply { squad, swimmers: rows, filter, night: None }))
}

/// `heron` from the coach, `me` from a swimmer; also `best`, `log`, `trend`.
pub fn swimmer(desk: &mut Desk<'_>, statement: &Statement) -> Result<Outcome, Stopped> {
    let who = desk.subject(statement)?;
    let swimmer =
        desk.swimmer(&who).ok_or_else(|| refused("not_a_swimmer", RefusedWhy::NotASwimmer))?;
    let card = card(desk, swimmer, desk.may(Right::SeeSquad));
    // Whether someone is hurt is told either way.
    desk.has_seen(vec![who], ReadWhat::Card);
    Ok(Outcome::Swimmer(card))
}

/// `compare heron teal`: their tests, pace and trend side by side, for whoever
/// sees the squad; swimmers see themselves only.
pub fn compare(desk: &mut Desk<'_>, names: &[Name]) -> Result<Outcome, Stopped> {
    desk.demand(Right::SeeSquad)?;
    let mut cards = Vec::with_capacity(names.len());
    for name in names {
        let swimmer = desk.swimmer(name).ok_or_else(|| desk.who_is(name))?;
        cards.push(card(desk, swimmer, false));
    }
    desk.has_seen(names.to_vec(), ReadWhat::Card);
    Ok(Outcome::Compared(cards))
}

/// A swimmer's card; what is `private` to those on deck is on no other.
fn card(view: &View<'_>, swimmer: &Swimmer, private: bool) -> SwimmerReply {
    let now = view.now();
    let all: Vec<Trial> = trials(swimmer, view).collect();
    let mut row = row(view, swimmer);
    let (mut notes, mut over) = (Vec::new(), Vec::new());
    if private {
        row.open = open(view, swimmer);
        over = lately_over(view, swimmer);
        let latest = swimmer.notes.as_of(now).rev().filter(|note| !note.what.is_empty());
        notes = latest.take(NOTES).map(|note| (note.on, note.what.clone())).collect();
    }
    let right = swimmer.tests.as_of(now).rev().take(LATEST);
    SwimmerReply {
        row,
        bests: bests(&all),
        latest: all.iter().rev().take(LATEST).copied().collect(),
        put_right: right
            .filter_map(|kept| Some((kept.what.trial, kept.what.put_right.last()?.clone())))
            .collect(),
        own_targets: view.own_holds(swimmer),
        limits: view.said_of(swimmer),
        focus: swimmer.focus_at(now).cloned(),
        legs: swimmer.legs.as_of(now).rev().take(LEGS).map(|kept| (kept.on, kept.what)).collect(),
        race: view.next_race(swimmer),
        over,
        notes,
        page: None,
    }
}

/// What is over for less than [`OVER_DAYS`], with the day it ended, latest first.
fn lately_over(view: &View<'_>, swimmer: &Swimmer) -> Vec<(Trouble, Date)> {
    let now = view.now();
    let over = swimmer.troubles.as_of(now).rev().filter_map(|kept| {
        let (_, closed) = kept.what.closed.filter(|(_, closed)| *closed <= now)?;
        kept.what.kind.is_told().then(|| (trouble(kept), view.squad.local_day(closed)))
    });
    let lately = |day: &Date| (view.today - *day).get_days() < OVER_DAYS;
    over.filter(|(_, day)| lately(day)).take(OVER).collect()
}

/// What is open, but for what is theirs and kept nowhere.
pub fn open(view: &View<'_>, swimmer: &Swimmer) -> Vec<Trouble> {
    let told = swimmer.told_once(view.now());
    told.iter().map(trouble).chain(view.unanswered_of(swimmer)).collect()
}

/// `focus heron: long exhale`
pub fn focus(desk: &mut Desk<'_>, statement: &Statement, text: &str) -> Result<Outcome, Stopped> {
    let who = coached(desk, Right::SpeakForOthers, statement)?;
    desk.record(Event::FocusSet { who: who.clone(), text: text.to_owned() });
    Ok(Outcome::Ok(OkReply::Noted { who }))
}

/// `note heron: …`
pub fn note(desk: &mut Desk<'_>, statement: &Statement, text: &str) -> Result<Outcome, Stopped> {
    let who = coached(desk, Right::SpeakForOthers, statement)?;
    desk.record(Event::Noted { who: who.clone(), text: text.to_owned() });
    Ok(Outcome::Ok(OkReply::Noted { who }))
}

/// A swimmer's line of the squad.
pub fn row(view: &View<'_>, swimmer: &Swimmer) -> SquadRow {
    let now = view.now();
    let all: Vec<Trial> = trials(swimmer, view).collect();
    let last_test = all.last().copied();
    let alike = trials_from_a_push(swimmer, view);
    let (trend, trend_across) = trend(&alike);
    let critical = last_test.and_then(|test| {
        critical_speed::estimate(&alike, view.today, test.stroke, test.course).pace()
    });
    let last_heard = last_heard(view, swimmer);
    let last_seen = last_heard.max(last_here(view, swimmer));
    let mut flags = Vec::new();
    if is_overdue(view, swimmer, last_test) {
        flags.push(Flag::Overdue);
    }
    if swimmer.told_troubles(now).next().is_some() || !view.unanswered_of(swimmer).is_empty() {
        flags.push(Flag::Hurt);
    }
    if is_silent_since(view, swimmer, last_seen) {
        flags.push(Flag::Silent);
    }
    SquadRow {
        open: Vec::new(),
        race: None,
        swimmer: swimmer.name.clone(),
        guest: swimmer.guest,
        last_test,
        critical_per_100_s: critical.map(|pace| pace.per_100_s()),
        trend,
        trend_across,
        flags,
        last_seen,
        last_heard,
    }
}

/// True if their last test, or their joining, is too long ago.
pub fn is_overdue(view: &View<'_>, swimmer: &Swimmer, last_test: Option<Trial>) -> bool {
    let since = last_test.map_or(swimmer.joined_on, |test| test.on);
    i64::from((view.today - since).get_days()) >= OVERDUE_DAYS
}

/// True if nobody has heard of them or seen them for long, and nothing says that they are away.
pub fn is_silent(view: &View<'_>, swimmer: &Swimmer) -> bool {
    is_silent_since(view, swimmer, last_heard(view, swimmer).max(last_here(view, swimmer)))
}

fn is_silent_since(view: &View<'_>, swimmer: &Swimmer, last_seen: Option<Date>) -> bool {
    let since = last_seen.unwrap_or(swimmer.joined_on);
    let long = i64::from((view.today - since).get_days()) >= SILENT_DAYS;
    long && !swimmer.is_away(view.today, view.now())
}

/// The day from which a test is overdue, after a test or joining on `last`.
pub fn overdue_from(last: Date) -> Date {
    last.saturating_add(OVERDUE_DAYS.days())
}

/// The latest day they were seen at the pool.
fn last_here(view: &View<'_>, swimmer: &Swimmer) -> Option<jiff::civil::Date> {
    let now = view.now();
    let here = |on| swimmer.seen_on(on, now) == Some(Presence::Here);
    swimmer.presence.as_of(now).rfind(|kept| here(kept.on)).map(|kept| kept.on)
}

/// The latest day they were heard of: a result, a session, a note of pain, a word
/// that they come or not.
fn last_heard(view: &View<'_>, swimmer: &Swimmer) -> Option<jiff::civil::Date> {
    let now = view.now();
    let since = view.today.checked_sub(1.year()).unwrap_or(view.today);
    [
        swimmer.tests.since(since, now).next_back().map(|kept| kept.on),
        swimmer.sets.since(since, now).next_back().map(|kept| kept.on),
        swimmer.swims.since(since, now).next_back().map(|kept| kept.on),
        swimmer.other.since(since, now).next_back().map(|kept| kept.on),
        swimmer.missed.since(since, now).next_back().map(|kept| kept.on),
        swimmer.troubles.since(since, now).next_back().map(|kept| kept.on),
        swimmer.attendance.as_of(now).map(|kept| view.squad.local_day(kept.at)).max(),
    ]
    .into_iter()
    .flatten()
    .max()
}

/// Whether the last test differs from the one before over the same distance, stroke and
/// course by more than such tests vary by themselves; and whether only one of the two
/// was at a meet, which tells nothing of training. All as from a push.
pub fn trend(all: &[Trial]) -> (Trend, bool) {
    let Some(last) = all.last() else { return (Trend::Unknown, false) };
    let before = |meet: bool| {
        let mut settings = all.iter().rev().skip(1).filter(move |one| one.meet == meet);
        settings.find_map(|before| Change::between(before, last))
    };
    let like = before(last.meet);
    let across = like.is_none();
    match like.or_else(|| before(!last.meet)).map(|change| change.verdict()) {
        None => (Trend::Unknown, false),
        Some(Verdict::Faster(_)) => (Trend::Up, across),
        Some(Verdict::Slower(_)) => (Trend::Down, across),
        Some(Verdict::TooCloseToSay) => (Trend::Flat, across),
    }
}

/// Where tests alike are going; nothing is said of one at a meet beside one in
/// training.
fn trend_alike(all: &[Trial]) -> Trend {
    match trend(all) {
        (_, true) => Trend::Unknown,
        (trend, false) => trend,
    }
}

/// The tests from one day to another, each with where those up to it are going.
pub fn tests_between(all: &[Trial], from: Date, to: Date) -> Vec<(Trial, Trend)> {
    let up_to = |at: usize| all.get(..=at).unwrap_or_default();
    let of_days = all.iter().enumerate().filter(|(_, trial)| (from..=to).contains(&trial.on));
    of_days.map(|(at, trial)| (*trial, trend_alike(up_to(at)))).collect()
}

/// The best of each distance, stroke and course, shortest first.
fn bests(all: &[Trial]) -> Vec<Trial> {
    let mut best = bests_of(all.iter().copied());
    best.sort_by_key(|trial| (trial.stroke, trial.course, trial.distance.amount()));
    best
}
