//! What was promised of the next swims and is open.

use jiff::Timestamp;

use crate::coaching::{self, Promise};
use crate::desk::decision::view::View;
use crate::history::{Kept, Swimmer, TroubleKept};
use crate::session::Repeat;
use crate::swim::Trial;

impl View<'_> {
    /// What was promised to them and is open: a set until it was swum or they were
    /// tested, an easy swim until they swam.
    pub fn promised(&self, swimmer: &Swimmer) -> Option<Promise> {
        let now = self.now();
        let promise = swimmer.promised.at(now)?.clone()?;
        let cause = swimmer.promised.cause_at(now)?;
        let made = swimmer.promised.set_at(now)?;
        let on = self.squad.local_day(made);
        // A test brings new paces and so ends what was promised by the old ones, unless it was
        // in another stroke.
        let of_it = |test: &Trial| match &promise {
            Promise::Set { set } => set.stroke == test.stroke,
            Promise::Easy | Promise::Test => true,
        };
        let mut since = swimmer.tests.as_of(now).filter(|kept| kept.cause > cause);
        if since.any(|kept| of_it(&kept.what.trial)) {
            return None;
        }
        let swum_after = || {
            let swims = swimmer.swims.as_of(now).filter(|kept| kept.cause > cause);
            swims.map(|kept| kept.on).any(|day| day > on)
        };
        // What they were told for a day on which they swam was swum, if not told how: not
        // where pain or illness took it back, nor where they got out long before its end.
        let told_and_swum = |set: &Repeat| {
            let swims = swimmer.swims.as_of(now).filter(|swum| swum.cause > cause && swum.on > on);
            swims.into_iter().any(|swum| {
                let told = swimmer.told_before(swum.cause, now);
                told.iter().any(|told| {
                    told.on == swum.on
                        && coaching::holds(&told.what, set)
                        && !trouble_between(swimmer, told.cause, swum.cause, now)
                        && !coaching::is_cut_short(self.asked.book, &swum.what, &told.what)
                })
            })
        };
        match &promise {
            // Before the test that was promised comes the easy swim.
            Promise::Easy if swum_after() => self.test_before(swimmer, cause),
            Promise::Set { set } if told_and_swum(set) => None,
            _ => Some(promise),
        }
    }

    /// True if an easy swim is promised, and behind it the test that was promised before.
    pub fn test_waits(&self, swimmer: &Swimmer) -> bool {
        let easy = self.promised(swimmer) == Some(Promise::Easy);
        let cause = swimmer.promised.cause_at(self.now()).filter(|_| easy);
        cause.is_some_and(|cause| self.test_before(swimmer, cause).is_some())
    }

    /// The test that was promised before message `cause` promised something else, where
    /// none was swum since.
    fn test_before(&self, swimmer: &Swimmer, cause: u64) -> Option<Promise> {
        let (by, before) = swimmer.promised.before(cause)?;
        if *before == Some(Promise::Easy) {
            return self.test_before(swimmer, by);
        }
        let swum = swimmer.tests.as_of(self.now()).any(|kept| kept.cause > by);
        before.clone().filter(|before| *before == Promise::Test && !swum)
    }
}

/// True if pain, illness or a stop began or ended between two messages: what the first
/// told does not hold when the second comes.
fn trouble_between(swimmer: &Swimmer, told: u64, swum: u64, now: Timestamp) -> bool {
    let between = |cause: u64| told < cause && cause < swum;
    let ended = |kept: &Kept<TroubleKept>| kept.what.closed.is_some_and(|(by, _)| between(by));
    swimmer.troubles.as_of(now).any(|kept| between(kept.cause) || ended(kept))
}
