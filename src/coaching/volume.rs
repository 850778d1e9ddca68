//! How far a week should be: by what was planned before it, and what was swum of it.

use std::collections::BTreeSet;

use jiff::civil::Date;

use super::rulebook::RuleId;
use super::season::taper_share;
use super::swimmer_state::{SwimmerState, days_between, in_unit};
use super::week::is_work;
use super::{Facts, Swum, WeekKind, WeekPlanned};

/// How far a week of that kind should be, with the rules that decided.
pub(super) fn volume(
    state: &SwimmerState<'_>,
    kind: WeekKind,
    before: &[&WeekPlanned],
    room: u32,
    because: &mut Vec<RuleId>,
) -> u32 {
    let book = state.book;
    let course = state.facts.course;
    let today = state.facts.today;
    // A week of which a good half was swum counts as planned, of less the half. Of
    // few sessions one is easily missed: there each session is held to the longest
    // that was swum, and the week stays; so it does for who reports nothing.
    let reports = state.facts.swims.iter().any(|swim| days_between(swim.on, today) <= 28);
    let amount = |week: &&&WeekPlanned| {
        let planned = in_unit(week.distance, course);
        let few = week.days.len() <= FEW_SESSIONS;
        match swum_in(state.facts, week) {
            0 => planned,
            _ if few || is_half_swum(state.facts, week) => planned,
            _ => planned / 2,
        }
    };
    let work = || before.iter().take(4).filter(|week| is_work(week.kind));
    let recent = work().filter(|week| days_between(week.starts, today) <= 28).map(|w| amount(&w));
    // What they held before weeks that they did not swim still counts, up to what those
    // weeks were planned to be.
    let held = before.iter().filter(|week| is_work(week.kind)).take(4).filter(|week| {
        days_between(week.starts, today) <= HELD_DAYS && is_half_swum(state.facts, week)
    });
    let planned = |week: &&WeekPlanned| in_unit(week.distance, course);
    let held = held.map(planned).max().min(work().map(planned).max());
    let base = recent.chain(held).max().or_else(|| work().map(|week| amount(&week)).max());
    let last_work = before.iter().find(|week| is_work(week.kind)).map(|week| amount(&week));
    let last = before.first().map(|week| in_unit(week.distance, course));
    let of = |amount: u32, share: f64| (f64::from(amount) * share).floor() as u32;
    let first = of(room, book.share(RuleId::FirstWeekShare));
    match kind {
        WeekKind::Normal | WeekKind::Hard => {
            let Some(base) = base.or(last_work) else {
                // What they swim already is no jump, however little room is left.
                let swum = most_swum_in_a_week(state).filter(|swum| *swum > first);
                because.push(match swum {
                    Some(_) => RuleId::AsBefore,
                    None => RuleId::FirstWeekShare,
                });
                return swum.map_or(first, |swum| swum.min(room));
            };
            // Nothing grows by what was planned and left.
            let swum = |week: &&&WeekPlanned| is_half_swum(state.facts, week);
            let last = before.first().filter(|week| is_work(week.kind));
            let after_work = reports && last.filter(swum).is_some();
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
            of(usual, taper_share(state).0)
        }
        WeekKind::Return => {
            // What there is room for was lowered already, and so was any other week.
            let Some(usual) = last_work else { return last.unwrap_or(first) };
            let share = match state.comeback {
                _ if state.open.ill_since.is_some() => book.share(RuleId::IllEasy),
                _ if state.open.pain.is_some() => book.share(RuleId::PainEasy),
                Some(comeback) => book.share(comeback.rule),
                None => 1.0,
            };
            of(usual, share)
        }
    }
}

/// So many sessions a week are few: the session is capped, not the week (common
/// practice, no source).
const FEW_SESSIONS: usize = 3;

/// Longer ago than this a week that was held is no measure of the next (ours).
const HELD_DAYS: i64 = 56;

/// True if a good half of a week that was planned is known to have been swum.
fn is_half_swum(facts: &Facts, week: &WeekPlanned) -> bool {
    swum_in(facts, week) * 2 >= in_unit(week.distance, facts.course)
}

/// How far they are known to have swum in the days of a week that was planned. A day of
/// which they reported only a set or a test counts as planned.
fn swum_in(facts: &Facts, week: &WeekPlanned) -> u32 {
    let swims =
        facts.swims.iter().filter(|swim| (0..7).contains(&days_between(week.starts, swim.on)));
    let told = swims.filter_map(|swim| Some((swim.on, in_unit(swim.distance?, facts.course))));
    let told: Vec<(Date, u32)> = told.collect();
    let sets = facts.sets.iter().map(|set| set.on);
    let on_them: BTreeSet<Date> = sets.chain(facts.tests.iter().map(|test| test.on)).collect();
    let untold = week.days.iter().filter(|(day, _)| {
        on_them.contains(day) && !told.iter().any(|(swum_on, _)| swum_on == day)
    });
    let a_day =
        in_unit(week.distance, facts.course) / u32::try_from(week.days.len().max(1)).unwrap_or(1);
    let untold = untold.map(|_| a_day).sum::<u32>();
    told.iter().map(|(_, far)| far).sum::<u32>() + untold
}

/// The most that was reported in seven days of the last four weeks.
fn most_swum_in_a_week(state: &SwimmerState<'_>) -> Option<u32> {
    let facts = state.facts;
    (1..=4i64)
        .map(|week| {
            let ago = |swim: &&Swum| days_between(swim.on, facts.today);
            let swims =
                facts.swims.iter().filter(|swim| (7 * (week - 1)..7 * week).contains(&ago(swim)));
            swims.filter_map(|s| s.distance).map(|d| in_unit(d, facts.course)).sum::<u32>()
        })
        .max()
        .filter(|most| *most > 0)
}
