//! Is a new time really different from an old one?
//!
//! Knows two times and how much such times vary by themselves; not why they
//! changed.
//!
//! Source of the method: Hopkins 2004, Sportscience 8:1-7 (chances of benefit
//! and harm against a smallest worthwhile change), in its normal form.

use std::fmt;

use super::Trial;
use super::least_squares::Line;

/// The smallest worthwhile change as a share of the typical error: Hopkins
/// 2004. (Pyne, Trewin & Hopkins 2004 use about half.)
pub const WORTHWHILE_SHARE: f64 = 0.3;

/// The chances that a change of time is real.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Change {
    /// The gain in percent, `100 * ln(old/new)`: above nought is faster.
    pub percent: f64,
    /// Lower and upper 90 % limits of the true gain, percent.
    pub limits_90: (f64, f64),
    /// The gain that would matter, percent.
    pub worthwhile_percent: f64,
    /// Chance, 0 to 1, that the swimmer is faster by a worthwhile amount.
    pub faster: f64,
    /// Chance that the change doesn't matter either way.
    pub same: f64,
    /// Chance that the swimmer is slower by a worthwhile amount.
    pub slower: f64,
    /// Chance that the swimmer is faster at all.
    pub faster_at_all: f64,
}

/// What to tell a swimmer.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Verdict {
    /// At least three chances in four of a worthwhile gain.
    Faster(Likelihood),
    /// At least three chances in four of a worthwhile loss.
    Slower(Likelihood),
    /// Neither.
    TooCloseToSay,
}

/// A chance in words, after the scale of Hopkins (its limits from memory).
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Likelihood {
    /// Below 0.5 %.
    AlmostCertainlyNot,
    /// 0.5 to 5 %.
    VeryUnlikely,
    /// 5 to 25 %.
    Unlikely,
    /// 25 to 75 %.
    Possibly,
    /// 75 to 95 %.
    Likely,
    /// 95 to 99.5 %.
    VeryLikely,
    /// Above 99.5 %.
    AlmostCertainly,
}

impl fmt::Display for Verdict {
    /// In plain English: `very likely faster`, `too close to say`.
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Verdict::Faster(likely) => write!(out, "{} faster", likely.words()),
            Verdict::Slower(likely) => write!(out, "{} slower", likely.words()),
            Verdict::TooCloseToSay => out.write_str("too close to say"),
        }
    }
}

impl Likelihood {
    /// The words for a chance of 0 to 1.
    pub fn of(chance: f64) -> Self {
        match chance {
            c if c < 0.005 => Self::AlmostCertainlyNot,
            c if c < 0.05 => Self::VeryUnlikely,
            c if c < 0.25 => Self::Unlikely,
            c if c < 0.75 => Self::Possibly,
            c if c < 0.95 => Self::Likely,
            c if c <= 0.995 => Self::VeryLikely,
            _ => Self::AlmostCertainly,
        }
    }

    /// In plain English.
    pub const fn words(self) -> &'static str {
        match self {
            Self::AlmostCertainlyNot => "almost certainly not",
            Self::VeryUnlikely => "very unlikely",
            Self::Unlikely => "unlikely",
            Self::Possibly => "possibly",
            Self::Likely => "likely",
            Self::VeryLikely => "very likely",
            Self::AlmostCertainly => "almost certainly",
        }
    }
}

impl Change {
    /// Compares two trials over the same distance, stroke and course; `None`
    /// if they are not.
    pub fn between(old: &Trial, new: &Trial) -> Option<Change> {
        if !old.is_like(new) {
            return None;
        }
        let gain = 100.0 * libm::log(old.time.seconds() / new.time.seconds());
        let (before, after) = (old.typical_error() * 100.0, new.typical_error() * 100.0);
        Some(Change::of(gain, before.hypot(after), WORTHWHILE_SHARE * before.max(after)))
    }

    /// The change over a run of trials, oldest first, all comparable: the
    /// straight line through the logarithms of the times, from the first day to
    /// the last. Two trials give [`Change::between`]. `None` for fewer, for
    /// trials that don't compare, and where all were swum on one day.
    pub fn over(trials: &[Trial]) -> Option<Change> {
        let first = trials.first()?;
        if !trials.iter().all(|trial| first.is_like(trial)) {
            return None;
        }
        let points: Vec<(f64, f64)> = trials
            .iter()
            .map(|trial| {
                let days = first.days_before(trial.on) as f64;
                (days, -100.0 * libm::log(trial.time.seconds()))
            })
            .collect();
        let line = Line::through(&points)?;
        let span = points.iter().map(|(day, _)| day).fold(0.0, |a: f64, b| a.max(*b));
        let mean = points.iter().map(|(day, _)| day).sum::<f64>() / points.len() as f64;
        let (mut sxx, mut variance, mut widest) = (0.0, 0.0, 0.0_f64);
        for ((day, _), trial) in points.iter().zip(trials) {
            let (off, error) = (day - mean, trial.typical_error() * 100.0);
            sxx += off * off;
            variance += off * off * error * error;
            widest = widest.max(error);
        }
        Some(Change::of(line.slope * span, span * variance.sqrt() / sxx, WORTHWHILE_SHARE * widest))
    }

    /// The chances for a gain of `percent` whose standard deviation is `sd`
    /// percent (typical error times the root of two, for two trials alike),
    /// against a worthwhile change of `worthwhile` percent.
    pub fn of(percent: f64, sd: f64, worthwhile: f64) -> Change {
        let faster = 1.0 - normal_cdf((worthwhile - percent) / sd);
        let slower = normal_cdf((-worthwhile - percent) / sd);
        Change {
            percent,
            limits_90: (percent - 1.645 * sd, percent + 1.645 * sd),
            worthwhile_percent: worthwhile,
            faster,
            same: 1.0 - faster - slower,
            slower,
            faster_at_all: normal_cdf(percent / sd),
        }
    }

    /// What to tell the swimmer.
    pub fn verdict(&self) -> Verdict {
        match (Likelihood::of(self.faster), Likelihood::of(self.slower)) {
            (likely, _) if likely >= Likelihood::Likely => Verdict::Faster(likely),
            (_, likely) if likely >= Likelihood::Likely => Verdict::Slower(likely),
            _ => Verdict::TooCloseToSay,
        }
    }
}

/// The least change, percent, that can't be chance nineteen times in twenty:
/// `1.96 * sqrt(2) * typical error`, the error in percent.
pub fn minimal_detectable_percent(typical_error_percent: f64) -> f64 {
    1.96 * std::f64::consts::SQRT_2 * typical_error_percent
}

/// The standard normal distribution function.
pub fn normal_cdf(z: f64) -> f64 {
    0.5 * libm::erfc(-z / std::f64::consts::SQRT_2)
}
