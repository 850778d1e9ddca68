//! How many times as long a swimmer takes by another stroke, kick, pull or drill, as their
//! own results tell.
//!
//! Knows results; what is made of them is for [`Paces`].

use super::swimmer_state::days_between;
use super::{Facts, SetSwum};
use crate::swim::Trial;
use crate::units::{Centis, Stroke};

use super::paces::Paces;

/// Results this many days old still tell (ours).
const DAYS: i64 = 112;
/// Of so many sets of one kind the middle one counts (ours).
const SETS: usize = 3;

/// Strokes and ways of swimming with how many times as long they take them as
/// the stroke that `paces` are of.
pub(super) fn own_factors(facts: &Facts, paces: &Paces) -> Vec<(Stroke, f64)> {
    let tested = [Stroke::Free, Stroke::Back, Stroke::Breast, Stroke::Fly, Stroke::Im];
    let tested = tested.into_iter().filter(|stroke| *stroke != paces.stroke);
    let by_test = tested.filter_map(|stroke| Some((stroke, by_test(facts, paces, stroke)?)));
    let swum = [Stroke::Kick, Stroke::Pull, Stroke::Drill].into_iter();
    let by_set = swum.filter_map(|stroke| Some((stroke, by_sets(facts, paces, stroke)?)));
    by_test.chain(by_set).collect()
}

/// Their last test in `stroke` beside what their other tests promise over the same
/// distance.
fn by_test(facts: &Facts, paces: &Paces, stroke: Stroke) -> Option<f64> {
    let counts = |test: &&Trial| {
        test.stroke == stroke
            && test.course == paces.course
            && (0..=DAYS).contains(&days_between(test.on, facts.today))
    };
    let test = facts.tests.iter().rev().find(counts)?;
    let other = paces.predicted(test.distance)?;
    sound(test.time.seconds() / other.time.seconds())
}

/// The middle of their last sets swum that way, beside easy swimming.
fn by_sets(facts: &Facts, paces: &Paces, stroke: Stroke) -> Option<f64> {
    let easy = paces.easy()?.per_100_s();
    let counts = |swum: &&SetSwum| {
        swum.set.stroke == stroke
            && swum.set.distance.unit() == paces.unit()
            && (0..=DAYS).contains(&days_between(swum.on, facts.today))
    };
    let sets = facts.sets.iter().rev().filter(counts).filter_map(per_100_s);
    let mut lately: Vec<f64> = sets.take(SETS).collect();
    lately.sort_by(f64::total_cmp);
    sound(lately.get(lately.len() / 2)? / easy)
}

/// The mean pace of the repeats that were timed.
fn per_100_s(swum: &SetSwum) -> Option<f64> {
    let times: Vec<Centis> = swum.times.iter().flatten().copied().collect();
    let whole: f64 = times.iter().map(|time| time.seconds()).sum();
    let far = f64::from(swum.set.distance.amount()) * times.len() as f64;
    (!times.is_empty()).then(|| whole * 100.0 / far)
}

/// Nothing that a slip of the thumb would make of it (the bounds are ours).
fn sound(factor: f64) -> Option<f64> {
    (0.7..=3.5).contains(&factor).then_some(factor)
}
