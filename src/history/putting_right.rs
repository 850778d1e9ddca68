//! Results that were stored for the wrong swimmer: moved to the right one, and back where
//! that is undone.
//!
//! Knows whose a result was, and which message moved it; not who may say so.

use std::sync::Arc;

use jiff::Timestamp;
use jiff::civil::Date;
use serde::{Deserialize, Serialize};

use super::{Before, Kept, PutRight, Squad, Stamped, SwappedTest, Swimmer, TestKept, Touched};
use crate::coaching::{SetSwum, Swum};
use crate::message::Name;

/// How many moves a squad remembers: `undo` reaches no further back.
const MOVES_KEPT: usize = 40;

/// What a message gave to another beside tests, which say themselves whose they
/// were.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Moved {
    /// From whom.
    from: Name,
    /// To whom.
    to: Name,
    /// Their sets of that message.
    sets: Vec<Kept<SetSwum>>,
    /// Their sessions of it.
    swims: Vec<Kept<Swum>>,
}

/// Who puts right, by which message, on which day.
pub(super) struct PuttingRight {
    cause: u64,
    at: Timestamp,
    by: Option<Name>,
    on: Date,
}

impl PuttingRight {
    fn of(&self, was: &Name) -> PutRight {
        let was = Before::Of(was.clone());
        PutRight { cause: self.cause, by: self.by.clone(), on: self.on, was }
    }
}

impl Squad {
    pub(super) fn putting_right(&self, stamped: &Stamped) -> PuttingRight {
        let Stamped { cause, at, by, .. } = stamped;
        let (by, on) = (self.handle_of(by), self.local_day(*at));
        PuttingRight { cause: *cause, at: *at, by, on }
    }

    /// Gives what message `moved` stored of `from` to `to`.
    pub(super) fn move_results(
        &mut self,
        from: &Name,
        to: &Name,
        moved: u64,
        right: &PuttingRight,
    ) -> Touched {
        if !self.swimmers.contains_key(to) {
            return Touched::All;
        }
        let Some(was) = self.swimmers.get_mut(from).map(Arc::make_mut) else {
            return Touched::All;
        };
        let mut tests: Vec<Kept<TestKept>> = was.tests.of_cause(moved).cloned().collect();
        let sets: Vec<Kept<SetSwum>> = was.sets.of_cause(moved).cloned().collect();
        let swims: Vec<Kept<Swum>> = was.swims.of_cause(moved).cloned().collect();
        was.tests.withdraw(moved);
        was.sets.withdraw(moved);
        was.swims.withdraw(moved);
        tests.iter_mut().for_each(|test| test.what.put_right.push(right.of(from)));
        if let Some(now) = self.swimmers.get_mut(to).map(Arc::make_mut) {
            tests.into_iter().for_each(|test| now.tests.keep(test));
            sets.iter().cloned().for_each(|set| now.sets.keep(set));
            swims.iter().cloned().for_each(|swum| now.swims.keep(swum));
        }
        let what = Moved { from: from.clone(), to: to.clone(), sets, swims };
        self.moves.keep(Kept { cause: right.cause, at: right.at, on: right.on, what });
        self.moves.keep_latest(MOVES_KEPT);
        Touched::All
    }

    /// Two tests change places.
    pub(super) fn swap_results(
        &mut self,
        (one, theirs): &(Name, SwappedTest),
        (other, others): &(Name, SwappedTest),
        right: &PuttingRight,
    ) -> Touched {
        let mut take = |from: &Name, which: &SwappedTest| {
            let swimmer = self.swimmers.get_mut(from).map(Arc::make_mut)?;
            swimmer.tests.take(which.cause, |test| test.trial.distance == which.distance)
        };
        let (first, second) = (take(one, theirs), take(other, others));
        for (to, from, test) in [(other, one, first), (one, other, second)] {
            let swimmer = self.swimmers.get_mut(to).map(Arc::make_mut);
            if let (Some(swimmer), Some(mut test)) = (swimmer, test) {
                test.what.put_right.push(right.of(from));
                swimmer.tests.keep(test);
            }
        }
        Touched::All
    }

    /// Gives back what message `cause` had given to another; what went on to a
    /// third since stays there.
    pub(super) fn give_back(&mut self, cause: u64) {
        let mut back: Vec<(Name, Kept<TestKept>)> = Vec::new();
        for swimmer in self.swimmers.values_mut() {
            while let Some((from, at)) = given(swimmer, cause) {
                let swimmer = Arc::make_mut(swimmer);
                let Some(mut test) = swimmer.tests.remove(at) else { break };
                test.what.put_right.retain(|right| right.cause != cause);
                back.push((from, test));
            }
        }
        for (to, test) in back {
            if let Some(swimmer) = self.swimmers.get_mut(&to).map(Arc::make_mut) {
                swimmer.tests.keep(test);
            }
        }
        let moves: Vec<Moved> = self.moves.of_cause(cause).map(|kept| kept.what.clone()).collect();
        self.moves.withdraw(cause);
        for Moved { from, to, sets, swims } in moves {
            for set in sets {
                let taken = self.change(&to, |swimmer| swimmer.sets.take_equal(&set));
                taken.flatten().into_iter().for_each(|set| {
                    self.change(&from, |swimmer| swimmer.sets.keep(set));
                });
            }
            for swum in swims {
                let taken = self.change(&to, |swimmer| swimmer.swims.take_equal(&swum));
                taken.flatten().into_iter().for_each(|swum| {
                    self.change(&from, |swimmer| swimmer.swims.keep(swum));
                });
            }
        }
    }

    fn change<T>(&mut self, name: &Name, change: impl FnOnce(&mut Swimmer) -> T) -> Option<T> {
        self.swimmers.get_mut(name).map(|swimmer| change(Arc::make_mut(swimmer)))
    }
}

/// A test of theirs that message `cause` gave them: whose it was, and its place.
fn given(swimmer: &Swimmer, cause: u64) -> Option<(Name, usize)> {
    swimmer.tests.iter().enumerate().find_map(|(at, kept)| {
        let last = kept.what.put_right.iter().rev().find_map(|right| match &right.was {
            Before::Of(was) => Some((right.cause, was)),
            Before::Time(_) => None,
        });
        last.filter(|(by, _)| *by == cause).map(|(_, was)| (was.clone(), at))
    })
}
