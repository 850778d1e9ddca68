//! How much of a swimmer's history is kept in memory: a working window, the bests, and
//! what is open, so that neither a reply nor a snapshot grows with the length of the
//! history. The journal keeps all. A question as of an instant at which something counted
//! that is no longer kept folds the whole history for itself.

use std::collections::HashMap;

use jiff::civil::Date;
use jiff::tz::TimeZone;
use jiff::{Timestamp, ToSpan};
use serde::{Deserialize, Serialize};

use super::{Kept, Ledger, Squad, Swimmer, TestKept, TroubleKept};
use crate::units::Centis;

/// How many days of sets, swims, weeks and the register are kept: a week more
/// than coaching ever looks back (its sixteen weeks).
const DAYS: i64 = 17 * 7;
/// The latest few of each are kept however old they are.
const LEAST: usize = 12;
/// And no more than so many, however new: two a day.
const MOST: usize = 2 * DAYS as usize;
/// How many tests are kept beside the best of each kind: those of a fortnight
/// each for over four years.
const TESTS: usize = 120;
/// How many notes, entries, legs of relays and knocks to the head are kept.
const NOTES: usize = 60;
/// How many planned sessions are kept: some weeks' worth.
const PLANNED: usize = 28;
/// How many suggested sessions are kept.
const SUGGESTED: usize = 12;

/// What of a history is kept no more.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub struct Dropped {
    /// The latest day of what was dropped for its age.
    #[serde(skip_serializing_if = "Option::is_none")]
    on: Option<Date>,
    /// The latest instant of what was dropped for its number.
    #[serde(skip_serializing_if = "Option::is_none")]
    at: Option<Timestamp>,
}

impl Dropped {
    /// True if nothing was.
    pub fn is_nothing(&self) -> bool {
        *self == Dropped::default()
    }

    /// True if something of it counted at `now`, which is `today`.
    fn counted_at(&self, now: Timestamp, today: Date) -> bool {
        let since = today.checked_sub(DAYS.days()).unwrap_or(Date::MIN);
        self.on.is_some_and(|on| on >= since) || self.at.is_some_and(|at| at > now)
    }

    fn by_age<T: Clone>(&mut self, ledger: &mut Ledger<T>, today: Date) {
        let since = today.checked_sub(DAYS.days()).unwrap_or(Date::MIN);
        let oldest = ledger.iter().next().is_some_and(|kept| kept.on < since);
        if oldest && ledger.len() > LEAST {
            let spare = ledger.len() - LEAST;
            let old = ledger.iter().take(spare).take_while(|kept| kept.on < since).count();
            let on = ledger.iter().take(old).map(|kept| kept.on).max();
            ledger.keep_latest(ledger.len() - old);
            self.on = self.on.max(on);
        }
        self.by_number(ledger, MOST);
    }

    fn by_number<T: Clone>(&mut self, ledger: &mut Ledger<T>, most: usize) {
        let over = ledger.len().saturating_sub(most);
        if over > 0 {
            let at = ledger.iter().take(over).map(|kept| kept.at).max();
            ledger.keep_latest(most);
            self.at = self.at.max(at);
        }
    }

    /// Drops tests that are neither the latest nor the best of their kind.
    fn tests(&mut self, tests: &mut Ledger<TestKept>) {
        // Looked at now and then only: it takes going through all of them.
        if tests.len() < TESTS + TESTS / 4 {
            return;
        }
        let mut best: HashMap<_, Centis> = HashMap::new();
        for kept in tests.iter() {
            let time = best.entry(kind(kept)).or_insert(kept.what.trial.time);
            *time = kept.what.trial.time.min(*time);
        }
        let old: Vec<u64> = tests.iter().take(tests.len() - TESTS).map(|kept| kept.cause).collect();
        let at = tests.drop_those(|place, kept| {
            place < old.len() && best.get(&kind(kept)) != Some(&kept.what.trial.time)
        });
        self.at = self.at.max(at);
    }

    /// Drops troubles that are over and old.
    fn troubles(&mut self, troubles: &mut Ledger<TroubleKept>, today: Date) {
        let since = today.checked_sub(DAYS.days()).unwrap_or(Date::MIN);
        if troubles.len() > LEAST {
            let spare = troubles.len() - LEAST;
            // Ahead of no zone's day: what is over by this is over anywhere.
            let over = |kept: &Kept<TroubleKept>| {
                let (_, at) = kept.what.closed?;
                at.to_zoned_datetime(TimeZone::UTC).date().checked_add(1.day()).ok()
            };
            let goes = |place: usize, kept: &Kept<TroubleKept>| {
                place < spare && over(kept).is_some_and(|on| on < since)
            };
            let gone = troubles.iter().enumerate().filter(|(place, kept)| goes(*place, kept));
            let on = gone.filter_map(|(_, kept)| over(kept)).max();
            if on.is_some() {
                troubles.drop_those(goes);
                self.on = self.on.max(on);
            }
        }
    }
}

/// Tests that can be each other's best.
fn kind(
    kept: &Kept<TestKept>,
) -> (u32, crate::units::Unit, crate::units::Stroke, crate::units::Course, bool, crate::units::Start)
{
    let trial = &kept.what.trial;
    let far = trial.distance;
    (far.amount(), far.unit(), trial.stroke, trial.course, trial.meet, kept.what.began())
}

impl Swimmer {
    /// Keeps the window as of `today`.
    pub(super) fn prune(&mut self, today: Date) {
        let mut dropped = self.dropped;
        dropped.by_age(&mut self.sets, today);
        dropped.by_age(&mut self.swims, today);
        dropped.by_age(&mut self.other, today);
        dropped.by_age(&mut self.missed, today);
        dropped.by_age(&mut self.presence, today);
        dropped.by_age(&mut self.attendance, today);
        dropped.by_age(&mut self.away, today);
        dropped.by_age(&mut self.weeks, today);
        dropped.by_number(&mut self.notes, NOTES);
        dropped.by_number(&mut self.tired, NOTES);
        dropped.by_number(&mut self.entries, NOTES);
        dropped.by_number(&mut self.legs, NOTES);
        dropped.by_number(&mut self.knocks, NOTES);
        dropped.tests(&mut self.tests);
        dropped.troubles(&mut self.troubles, today);
        self.planned.keep_latest(PLANNED);
        self.suggested.keep_latest(SUGGESTED);
        self.taken_back.keep_latest(PLANNED);
        self.dropped = dropped;
    }
}

impl Squad {
    /// True if something counted at `now` that is kept no more: then only the whole
    /// history can answer.
    pub fn needs_more_at(&self, now: Timestamp) -> bool {
        let today = self.local_day(now);
        let swimmers = self.swimmers.values().chain(self.former.values());
        self.as_of.is_some_and(|last| now < last)
            && swimmers.into_iter().any(|one| one.dropped.counted_at(now, today))
    }
}
