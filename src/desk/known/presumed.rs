//! What is presumed of whoever was at the pool and has not reported: they swam
//! the set of their lane, unless they were done that evening.
//!
//! Worked out anew each time and stored nowhere, so that a report of theirs, a
//! change of the set or of the register replaces it, whenever it comes. It counts
//! as distance and as a day swum, and says nothing about how fit they are.

use std::collections::BTreeSet;

use jiff::civil::Date;

use crate::coaching::{self, Swum};
use crate::desk::decision::view::View;
use crate::history::{EveningKept, Presence, Swimmer};
use crate::message::Name;
use crate::session::Session;
use crate::units::Distance;

impl View<'_> {
    /// Their sessions from `since` on, reported or presumed, oldest first.
    pub fn swum_since(&self, swimmer: &Swimmer, since: Date) -> Vec<Swum> {
        let now = self.now();
        let reports = swimmer.swims.since(since, now).map(|kept| kept.what.clone());
        let mut swims = of_reports(reports, swimmer.swims.len());
        let mut nights: Vec<Date> =
            swimmer.presence.since(since, now).map(|kept| kept.on).collect();
        nights.dedup();
        nights.retain(|on| {
            *on <= self.today
                && swimmer.seen_on(*on, now) == Some(Presence::Here)
                && !self.squad.is_done(swimmer, *on, now)
                && !swims.iter().any(|swum| swum.on == *on)
                && !swimmer.missed.as_of(now).any(|kept| kept.on == *on)
        });
        swims.extend(nights.into_iter().map(|on| self.presumed(swimmer, on)));
        // Reports stand in order as they are kept.
        if !swims.is_sorted_by_key(|swum| swum.on) {
            swims.sort_by_key(|swum| swum.on);
        }
        swims
    }

    /// On how many days from one to another they swam, reported or seen there.
    pub fn days_swum(&self, swimmer: &Swimmer, from: Date, to: Date) -> usize {
        let now = self.now();
        let mut days: BTreeSet<Date> =
            self.swum_since(swimmer, from).into_iter().map(|swum| swum.on).collect();
        days.extend(swimmer.sets.since(from, now).map(|kept| kept.on));
        days.extend(swimmer.tests.since(from, now).map(|kept| kept.on));
        days.range(from..=to).count()
    }

    /// What they swam that day by their own report, or are presumed to have swum on a
    /// night on which they were seen.
    pub fn seen_swum(&self, who: &Name, on: Date) -> Option<Swum> {
        let swims = self.swum_since(self.swimmer(who)?, on);
        swims.into_iter().rfind(|swum| swum.on == on)
    }

    /// What they are presumed to have swum on a night on which they were there: the set
    /// of their lane, or what was planned for them. Where neither is known, only that
    /// they swam.
    fn presumed(&self, swimmer: &Swimmer, on: Date) -> Swum {
        let now = self.now();
        let of_lane = self.session_that_night(&swimmer.name, on);
        let planned = || swimmer.planned.as_of(now).rfind(|kept| kept.on == on);
        let session: Option<Session> = of_lane.or_else(|| planned().map(|kept| kept.what.clone()));
        let distance = session.as_ref().and_then(|session| {
            let amount = self.squad.evening_kept(on, now).map_or(session.amount(), |evening| {
                swum_by(evening, &swimmer.name, session.amount())
            });
            Distance::new(amount, session.unit).ok()
        });
        let hard = session.as_ref().is_some_and(coaching::is_hard);
        Swum { on, distance, minutes: None, rpe: None, presumed: true, effort_alone: false, hard }
    }
}

/// What they swam of a lane's session: all of it but for what they swam otherwise, or
/// what it was until they went.
fn swum_by(evening: &EveningKept, who: &Name, amount: u32) -> u32 {
    match evening.gone.get(who) {
        Some(swum) => *swum,
        None => {
            let more = evening.otherwise.get(who).copied().unwrap_or(0);
            amount.saturating_add_signed(more)
        }
    }
}

/// Sessions as reported, `most` at most; a word of effort alone is of the other report of
/// its day, where there is one, and the last such word holds.
fn of_reports(reports: impl Iterator<Item = Swum>, most: usize) -> Vec<Swum> {
    let (mut efforts, mut swims) = (Vec::new(), Vec::with_capacity(most));
    for report in reports {
        if report.effort_alone { efforts.push(report) } else { swims.push(report) }
    }
    for effort in efforts {
        match swims.iter_mut().rfind(|swum| swum.on == effort.on) {
            Some(swum) => (swum.rpe, swum.hard) = (effort.rpe, effort.hard),
            None => swims.push(effort),
        }
    }
    swims
}
