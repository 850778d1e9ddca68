//! The plain line through a swimmer's tests: distance over time.
//!
//! It explains and is compared with; nothing is computed from it.
//!
//! Model: `d = reserve + speed * t` (Wakayoshi et al. 1992, Eur J Appl Physiol
//! 64:153-157, for swimming).

use std::collections::BTreeMap;

use jiff::civil::Date;

use super::Trial;
use super::critical_speed::{SHORTEST, WINDOW_DAYS};
use super::least_squares::Line;
use crate::units::{Course, Metres, Pace, Speed, Stroke};

/// Fastest and slowest time, in hundredths, of a test that feeds the line:
/// 100 s and 20 min (the model holds for about 2 to 15 min: Scott, Burden &
/// Dekerle 2023, J Hum Kinet 90:239-251).
const LINE_SPAN: std::ops::RangeInclusive<u32> = 10_000..=120_000;
/// Where critical speed usually lies as a share of the 400's speed: 94 % and
/// two standard deviations of 1.5 % either way.
const USUAL_SHARE: std::ops::RangeInclusive<f64> = 0.91..=0.97;

/// A line through tests of two distances or more.
#[derive(Debug, Clone, PartialEq)]
pub struct Linear {
    /// The pace of its slope.
    pub pace: Pace,
    /// What is swum beyond that speed before it is used up. Unreliable (typical
    /// error 4 to 9 m: Scott, Burden & Dekerle 2023), so it is shown and never
    /// coached from.
    pub reserve: Metres,
    /// The tests that made it, shortest first.
    pub made_from: Vec<Trial>,
    /// Its speed as a share of the 400's, where that lies outside the usual 0.91
    /// to 0.97: worth a remark and a second look, no error.
    pub unusual_share: Option<f64>,
}

/// Two tests of which the longer was swum at least as fast: no distance is
/// left over for a reserve, so one was no full effort or is mistyped.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ImpossiblePair {
    /// The shorter test, swum no faster.
    pub shorter: Trial,
    /// The longer one.
    pub longer: Trial,
}

/// The line through the tests of 200 or more in `stroke` and `course` within 56
/// days of the newest, swum in 100 s to 20 min; of several over one distance the
/// fastest counts, and the shorter of an impossible pair does not. `None` where
/// fewer than two distances are left.
pub fn linear(trials: &[Trial], today: Date, stroke: Stroke, course: Course) -> Option<Linear> {
    let fitting = |trial: &&Trial| {
        trial.stroke == stroke
            && trial.course == course
            && trial.distance.unit() == course.unit()
            && trial.distance.amount() >= SHORTEST
            && trial.on <= today
    };
    let mut recent: Vec<Trial> = trials.iter().filter(fitting).copied().collect();
    let newest = recent.iter().map(|trial| trial.on).max()?;
    recent.retain(|trial| trial.days_before(newest) <= WINDOW_DAYS);
    let best = fastest_by_distance(&recent);
    let impossible = impossible_pairs(&best);
    let made_from: Vec<Trial> = best
        .into_iter()
        .filter(|trial| LINE_SPAN.contains(&trial.time.hundredths()))
        .filter(|trial| !impossible.iter().any(|pair| pair.shorter == *trial))
        .collect();
    let points: Vec<(f64, f64)> = made_from
        .iter()
        .map(|trial| (trial.time.seconds(), f64::from(trial.distance.amount())))
        .collect();
    let line = Line::through(&points).filter(|_| points.len() >= 2)?;
    let unit = course.unit();
    // On the line itself 400 takes (400 - reserve)/speed, whence the share of its speed.
    let share = 1.0 - line.intercept / 400.0;
    Some(Linear {
        pace: Speed::new(line.slope, unit).ok()?.pace(),
        reserve: Metres::new(line.intercept * unit.in_metres()),
        made_from,
        unusual_share: (!USUAL_SHARE.contains(&share)).then_some(share),
    })
}

/// The fastest trial over each distance, shortest distance first; of equal
/// times the newer. All must be in one unit.
pub fn fastest_by_distance(trials: &[Trial]) -> Vec<Trial> {
    let mut best: BTreeMap<u32, Trial> = BTreeMap::new();
    for trial in trials {
        let kept = best.entry(trial.distance.amount()).or_insert(*trial);
        if (trial.time, std::cmp::Reverse(trial.on)) < (kept.time, std::cmp::Reverse(kept.on)) {
            *kept = *trial;
        }
    }
    best.into_values().collect()
}

/// The pairs of `trials` (shortest first, one unit) of which the longer was
/// swum at least as fast as the shorter. That is the same as critical speed at
/// or above the longer one's speed, and as a reserve of nought or less.
pub fn impossible_pairs(trials: &[Trial]) -> Vec<ImpossiblePair> {
    let faster = |shorter: &Trial, longer: &Trial| {
        // d2/t2 >= d1/t1 in whole numbers, so that equal paces compare as equal.
        let cross =
            |a: &Trial, b: &Trial| u64::from(a.distance.amount()) * u64::from(b.time.hundredths());
        cross(longer, shorter) >= cross(shorter, longer)
    };
    let mut pairs = Vec::new();
    for (index, shorter) in trials.iter().enumerate() {
        for longer in trials.iter().skip(index + 1) {
            if shorter.distance.amount() < longer.distance.amount() && faster(shorter, longer) {
                pairs.push(ImpossiblePair { shorter: *shorter, longer: *longer });
            }
        }
    }
    pairs
}
