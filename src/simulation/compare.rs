//! Many virtual swimmers under the adaptive and the fixed plan, side by side.

use std::fmt;

use jiff::civil::Date;

use super::season::{Plan, season};
use super::swimmer::Swimmer;
use super::watch::Broken;
use crate::coaching::Rulebook;
use crate::units::Course;

/// Whom to simulate, for how long.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Trials {
    /// How many swimmers.
    pub swimmers: u32,
    /// How many weeks.
    pub weeks: u16,
    /// Where the dice begin.
    pub seed: u64,
    /// The day before the first week.
    pub from: Date,
}

/// The two plans on the same swimmers.
#[derive(Debug, Clone, PartialEq)]
pub struct Comparison {
    /// How many swimmers.
    pub swimmers: u32,
    /// How many weeks.
    pub weeks: u16,
    /// What they report is heard.
    pub adaptive: Arm,
    /// Nothing is heard after the first test.
    pub fixed: Arm,
    /// Swimmers who gained more under the adaptive plan.
    pub better_adaptive: u32,
}

/// One plan over all swimmers.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Arm {
    /// Mean gain of speed, weighted by how much of the plan was swum, percent.
    pub gain_percent: f64,
    /// Mean share of the sessions swum.
    pub adherence: f64,
    /// Days with pain, for each swimmer.
    pub sore_days: f64,
    /// Days ill, for each swimmer.
    pub ill_days: f64,
    /// Rules broken, all together.
    pub broken: Broken,
    weight: f64,
}

/// Simulates each swimmer, drawn by the seed and their number, once under each plan,
/// by the numbers in force; `done` is called after each.
pub fn compare(book: &Rulebook, trials: Trials, done: impl Fn()) -> Comparison {
    let Trials { swimmers, weeks, seed, from } = trials;
    let (mut adaptive, mut fixed, mut better_adaptive) = (Arm::default(), Arm::default(), 0);
    for number in 0..swimmers {
        let course = match number % 3 {
            0 => Course::Short25m,
            1 => Course::Long50m,
            _ => Course::Short25yd,
        };
        let drawn =
            || Swimmer::drawn(&format!("wren{number}"), course, seed.wrapping_add(number.into()));
        let one = season(book, drawn(), from, weeks, Plan::Adaptive);
        let other = season(book, drawn(), from, weeks, Plan::Fixed);
        better_adaptive += u32::from(one.gain_percent > other.gain_percent);
        adaptive.take(&one);
        fixed.take(&other);
        done();
    }
    adaptive.average(swimmers);
    fixed.average(swimmers);
    Comparison { swimmers, weeks, adaptive, fixed, better_adaptive }
}

impl Arm {
    fn take(&mut self, season: &super::season::Season) {
        self.gain_percent += season.gain_percent * season.adherence;
        self.weight += season.adherence;
        self.adherence += season.adherence;
        self.sore_days += f64::from(season.sore_days);
        self.ill_days += f64::from(season.ill_days);
        self.broken.add(&season.broken);
    }

    fn average(&mut self, swimmers: u32) {
        let count = f64::from(swimmers.max(1));
        self.gain_percent /= self.weight.max(f64::MIN_POSITIVE);
        self.adherence /= count;
        self.sore_days /= count;
        self.ill_days /= count;
    }
}

impl fmt::Display for Comparison {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        writeln!(out, "{} swimmers, {} weeks, same seeds", self.swimmers, self.weeks)?;
        writeln!(out, "{:28}{:>10}{:>10}", "", "adaptive", "fixed")?;
        let mut row =
            |name: &str, one: f64, other: f64| writeln!(out, "{name:28}{one:>10.2}{other:>10.2}");
        let (a, f) = (&self.adaptive, &self.fixed);
        row("gain of speed, percent", a.gain_percent, f.gain_percent)?;
        row("sessions swum, percent", 100.0 * a.adherence, 100.0 * f.adherence)?;
        row("days with pain", a.sore_days, f.sore_days)?;
        row("days ill", a.ill_days, f.ill_days)?;
        let mut count =
            |name: &str, one: u32, other: u32| writeln!(out, "{name:28}{one:>10}{other:>10}");
        count("weeks planned", a.broken.weeks, f.broken.weeks)?;
        count("sessions planned", a.broken.sessions, f.broken.sessions)?;
        count("ramp broken", a.broken.ramp, f.broken.ramp)?;
        count("hard days too close", a.broken.hard_days, f.broken.hard_days)?;
        count("easy weeks late", a.broken.easy_weeks, f.broken.easy_weeks)?;
        count("comebacks too low", a.broken.comebacks, f.broken.comebacks)?;
        count("sessions that don't fit", a.broken.fits, f.broken.fits)?;
        count("impossible send-offs", a.broken.send_offs, f.broken.send_offs)?;
        count("hard while hurt or ill", a.broken.raised, f.broken.raised)?;
        count("hard after ten days out", a.broken.returns, f.broken.returns)?;
        writeln!(out, "gained more when heard: {} of {}", self.better_adaptive, self.swimmers)
    }
}
