//! A swimmer's tests, and what they say of a new time.

use jiff::Timestamp;

use crate::desk::decision::view::View;
use crate::history::{Swimmer, TestKept};
use crate::message::Name;
use crate::swim::plausible::{self, Acquaintance, Verdict};
use crate::swim::prediction::Reach;
use crate::swim::{self, Trial, curve};
use crate::units::Start;

/// Their tests known now, oldest first.
pub fn trials<'a>(
    swimmer: &'a Swimmer,
    view: &View<'_>,
) -> impl DoubleEndedIterator<Item = Trial> + 'a {
    swimmer.tests.as_of(view.now()).map(|kept| kept.what.trial)
}

/// The best of each distance, stroke and pool, in the order in which each was first swum.
pub fn bests_of(all: impl IntoIterator<Item = Trial>) -> Vec<Trial> {
    let mut bests: Vec<Trial> = Vec::new();
    for trial in all {
        match bests.iter_mut().find(|best| best.is_like(&trial)) {
            Some(best) if trial.time < best.time => *best = trial,
            Some(_) => {}
            None => bests.push(trial),
        }
    }
    bests
}

/// The same, each as it would have been from a push.
pub fn trials_from_a_push(swimmer: &Swimmer, view: &View<'_>) -> Vec<Trial> {
    swimmer.tests.as_of(view.now()).map(|kept| from_a_push(&kept.what)).collect()
}

/// The trial as it would have been from a push, which is how repeats begin.
pub fn from_a_push(test: &TestKept) -> Trial {
    let trial = test.trial;
    Trial { time: curve::from_a_push(trial.distance, trial.time, test.began()), ..trial }
}

/// How their last test over 100 or less began; a push where there is none.
pub fn sprints_from(swimmer: &Swimmer, now: Timestamp) -> Start {
    let mut tests = swimmer.tests.as_of(now);
    let sprint = tests.rfind(|kept| kept.what.trial.distance.amount() <= 100);
    sprint.map_or(Start::Push, |kept| kept.what.began())
}

/// Over 8 % faster (12 % in their first eight weeks) or 20 % slower than their own
/// tests let expect (common practice, no source).
///
/// `new` is as from a push; `but` is the test of theirs that it replaces.
pub fn is_unlike_them(view: &View<'_>, who: &Name, new: &Trial, but: Option<&TestKept>) -> bool {
    beside_their_tests(view, who, new, but).is_some_and(|verdict| verdict != Verdict::Plausible)
}

/// What their tests say of a time; nothing where they reach no further.
pub fn beside_their_tests(
    view: &View<'_>,
    who: &Name,
    new: &Trial,
    but: Option<&TestKept>,
) -> Option<Verdict> {
    let swimmer = view.swimmer(who)?;
    let acquaintance = match (new.on - swimmer.joined_on).get_days() {
        ..=55 => Acquaintance::FirstWeeks,
        _ => Acquaintance::Settled,
    };
    let known = swimmer.tests.as_of(view.now()).map(|kept| &kept.what);
    let known: Vec<Trial> = known.filter(|kept| Some(*kept) != but).map(from_a_push).collect();
    swim::prediction::predict(&known, new.on, new.stroke, new.course, new.distance)
        .filter(|expected| expected.reach == Reach::Within)
        .map(|expected| plausible::check_against(expected.time, new.time, acquaintance))
}
