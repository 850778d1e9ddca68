//! Four weeks of coming: nights, metres, and whom to ring.

use std::collections::BTreeSet;

use jiff::ToSpan;
use jiff::civil::Date;

use super::name_on_page::Person;
use crate::coaching::RuleId;
use crate::desk::decision::view::View;
use crate::desk::squad::overview;
use crate::history::{Presence, Swimmer, TroubleKind};
use crate::units::Unit;

/// How far back it is looked.
const WEEKS: i64 = 4;

/// A swimmer's last four weeks.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Weeks {
    /// Who.
    pub who: Person,
    /// Nights on which they were seen, of so many that were swum.
    pub came: (usize, usize),
    /// Days of which they reported something themselves.
    pub reported: usize,
    /// They were away on a day of them.
    pub away: bool,
    /// They were ill on a day of them.
    pub ill: bool,
    /// How far each week, the last one ending today, oldest first, in [`unit`](Self::unit).
    pub amounts: [u32; 4],
    /// How far the week that runs was planned, in the same.
    pub planned: Option<u32>,
    /// The unit of both.
    pub unit: Unit,
    /// The last week is more than the ramp allows above the three before.
    pub jumped: bool,
    /// Not heard from or seen for long: ring them.
    pub ring: bool,
}

/// Each swimmer's, those to be rung first.
pub fn weeks(view: &View<'_>) -> Vec<Weeks> {
    let since = view.today.saturating_sub((7 * WEEKS - 1).days());
    let now = view.now();
    let swimmers = view.squad.swimmers.values();
    // A night counts once anybody was looked for on it.
    let looked_for = swimmers.clone().flat_map(|one| one.presence.since(since, now));
    let looked_for: BTreeSet<Date> = looked_for.map(|kept| kept.on).collect();
    let nights: Vec<Date> = days(since).filter(|day| looked_for.contains(day)).collect();
    let mut all: Vec<Weeks> = swimmers.map(|swimmer| of(view, swimmer, since, &nights)).collect();
    all.sort_by_key(|one| (!one.ring, !one.jumped, one.who.name.clone()));
    all
}

fn days(since: Date) -> impl Iterator<Item = Date> {
    (0..7 * WEEKS).map(move |day| since.saturating_add(day.days()))
}

fn of(view: &View<'_>, swimmer: &Swimmer, since: Date, nights: &[Date]) -> Weeks {
    let now = view.now();
    let seen = |day: &&Date| swimmer.seen_on(**day, now) == Some(Presence::Here);
    let ill = swimmer.troubles.as_of(now).any(|kept| {
        let over = kept.what.closed.map(|(_, closed)| view.squad.local_day(closed));
        matches!(kept.what.kind, TroubleKind::Ill { .. }) && over.is_none_or(|over| over >= since)
    });
    let unit = view.course_of(&swimmer.name).unit();
    let amounts = amounts(view, swimmer, since, unit);
    let planned = swimmer.weeks.as_of(now).rev().map(|kept| &kept.what).find(|week| {
        week.starts <= view.today && view.today < week.starts.saturating_add(7.days())
    });
    let before = amounts.iter().rev().skip(1).max().copied().unwrap_or_default();
    let ramp = 1.0 + view.asked.book.number(RuleId::RampWeek) / 100.0;
    let jumped = before > 0 && f64::from(amounts[3]) > f64::from(before) * ramp;
    Weeks {
        who: Person::of(view, &swimmer.name),
        came: (nights.iter().filter(seen).count(), nights.len()),
        reported: reported(swimmer, since, view),
        away: !swimmer.away.is_empty()
            && days(since).any(|day| day <= view.today && swimmer.is_away(day, now)),
        ill,
        amounts,
        planned: planned.map(|week| in_unit(week.distance.metres().get(), unit)),
        unit,
        jumped,
        ring: overview::is_silent(view, swimmer),
    }
}

/// Metres swum, reported or presumed, by week.
fn amounts(view: &View<'_>, swimmer: &Swimmer, since: Date, unit: Unit) -> [u32; 4] {
    let mut metres = [0.0; 4];
    for swum in view.swum_since(swimmer, since) {
        let week = usize::try_from((swum.on - since).get_days() / 7).unwrap_or_default();
        if let (Some(distance), Some(sum)) = (swum.distance, metres.get_mut(week)) {
            *sum += distance.metres().get();
        }
    }
    metres.map(|metres| in_unit(metres, unit))
}

fn in_unit(metres: f64, unit: Unit) -> u32 {
    (metres / unit.in_metres()).round() as u32
}

fn reported(swimmer: &Swimmer, since: Date, view: &View<'_>) -> usize {
    let now = view.now();
    let swims = swimmer.swims.since(since, now).map(|kept| kept.on);
    let sets = swimmer.sets.since(since, now).map(|kept| kept.on);
    let tests = swimmer.tests.since(since, now).map(|kept| kept.on);
    let days: BTreeSet<Date> = swims.chain(sets).chain(tests).collect();
    days.len()
}
