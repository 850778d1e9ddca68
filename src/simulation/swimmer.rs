//! A virtual swimmer: who they are, how they come, what happens to them.

use jiff::civil::Date;
use rand::{RngExt, SeedableRng};
use rand_chacha::ChaCha8Rng;

use super::body::Body;
use super::pool::Ability;
use super::report::Report;
use crate::session::{Part, Repeat, Session};
use crate::units::{Centis, Course, Distance, Level, Rpe};

/// Load of a minute of swimming at a level (ours; the order of Mujika et al. 1995, Med
/// Sci Sports Exerc 27:251-258, from memory).
const fn load_a_minute(level: Level) -> f64 {
    match level {
        Level::Easy => 1.0,
        Level::Steady => 1.5,
        Level::Threshold => 3.0,
        Level::Hard => 4.0,
        Level::Sprint => 5.0,
    }
}
/// How far outside its level, by their true critical speed, a hard repeat may be
/// before it trains little, in percent of speed (ours).
const PACE_WIDTH: f64 = 2.0;
/// A set that drains this much of the reserve trains fully (ours).
const DEEP: f64 = 0.4;
/// With this much pain ahead of them they stay at home (ours).
const LAID_OFF_DAYS: u16 = 16;
/// Typical error of a test in training, as in `swim::Trial::typical_error`.
const TEST_ERROR: f64 = 0.02;
/// A repeat of a set varies by this much.
const REPEAT_ERROR: f64 = 0.008;

/// A virtual swimmer.
#[derive(Debug, Clone)]
pub struct Swimmer {
    /// Their handle.
    pub handle: String,
    /// Their pool.
    pub course: Course,
    /// Minutes booked for a session.
    pub minutes: u16,
    /// Sessions a week.
    pub sessions_a_week: u8,
    /// The chance that they come to a session.
    pub attendance: f64,
    start: Ability,
    body: Body,
    dice: ChaCha8Rng,
    sick_days: u16,
    sore_days: u16,
    sore_level: u8,
    load_today: f64,
    training_today: f64,
    usual_load: f64,
    was_hard: bool,
}

/// What one session made of them.
#[derive(Debug, Clone, PartialEq)]
pub struct Swum {
    /// What they would text, in order.
    pub reports: Vec<Report>,
    /// Load, in minutes of easy swimming.
    pub load: f64,
}

impl Swimmer {
    /// A swimmer drawn by `seed`: 200 in 2:10 to 4:30, one to five sessions a
    /// week, of 45 to 75 minutes.
    pub fn drawn(handle: &str, course: Course, seed: u64) -> Self {
        let mut dice = ChaCha8Rng::seed_from_u64(seed);
        let start = Ability {
            time_200_s: dice.random_range(130.0..270.0),
            exponent: dice.random_range(1.06..1.13),
        };
        let mut one_of =
            |of: &[u8]| of.get(dice.random_range(0..of.len())).copied().unwrap_or_default();
        let sessions_a_week = one_of(&[2, 2, 3, 3, 3, 4, 5]);
        let minutes = u16::from(one_of(&[45, 60, 60, 60, 75]));
        // Used to about half of what they now have time for, easy and steady.
        let habit = f64::from(sessions_a_week) * f64::from(minutes) * 0.35 / 7.0;
        Self {
            handle: handle.to_owned(),
            course,
            minutes,
            sessions_a_week,
            attendance: dice.random_range(0.6..0.98),
            start,
            body: Body::used_to(habit),
            sick_days: 0,
            sore_days: 0,
            sore_level: 0,
            load_today: 0.0,
            training_today: 0.0,
            usual_load: habit,
            was_hard: false,
            dice,
        }
    }

    /// What they could do today.
    pub fn ability(&self) -> Ability {
        let today = match (self.is_ill(), self.is_sore()) {
            (true, _) => 0.93,
            (false, true) => 0.97,
            (false, false) => 1.0,
        };
        Ability { time_200_s: self.start.time_200_s / (self.body.form() * today), ..self.start }
    }

    /// Their speed against the start, rested, in percent gained.
    pub fn gain_percent(&self) -> f64 {
        100.0 * (self.body.rested() - 1.0)
    }

    /// True while they are ill.
    pub fn is_ill(&self) -> bool {
        self.sick_days > 0
    }

    /// True while something hurts.
    pub fn is_sore(&self) -> bool {
        self.sore_days > 0
    }

    /// Whether they come today: never when ill, nor when it hurts too much.
    pub fn comes(&mut self) -> bool {
        let chance = self.attendance;
        let able = !self.is_ill() && self.sore_days < LAID_OFF_DAYS;
        self.dice.random_bool(chance) && able
    }

    /// A flat-out test today.
    pub fn test(&mut self, distance: Distance) -> Option<Report> {
        let noise = 1.0 + TEST_ERROR / 2.0 * self.normal();
        let time = Centis::from_seconds(self.ability().time(distance) * noise).ok()?.to_tenth();
        Some(Report::Test { distance, time })
    }

    /// Swims `session`: the hard lines give times, all of it gives load.
    pub fn swim(&mut self, session: &Session) -> Swum {
        let ability = self.ability();
        let mut reports = Vec::new();
        let (mut training, mut strain) = (0.0, 0.0);
        for block in &session.blocks {
            for line in &block.repeats {
                let rounds = f64::from(block.rounds);
                let minutes = rounds * self.minutes_of(line, &ability);
                let load = minutes * load_a_minute(line.level);
                strain += load;
                training += load * self.worth(line, &ability);
                if block.part == Part::Test {
                    reports.extend(self.test(line.distance));
                }
                if block.part == Part::Main && line.level.is_hard() && line.count > 1 {
                    reports.extend(self.set(line, &ability));
                }
            }
        }
        let load = strain;
        if self.is_sore() {
            // Swum on, it lasts; swum on hard, it lasts much longer.
            let hard = reports.iter().any(|report| matches!(report, Report::Set { .. }));
            self.sore_days += if hard { 4 } else { 1 };
        }
        self.load_today += strain;
        self.training_today += training;
        if let Ok(distance) = Distance::new(session.amount(), session.unit) {
            let minutes = u16::try_from(session.duration_s().div_ceil(60)).unwrap_or(u16::MAX);
            let share = strain / f64::from(minutes.max(1));
            let felt = (1.5 + 2.2 * share + self.body.tiredness()).clamp(1.0, 10.0);
            if let Ok(rpe) = Rpe::from_tenths((felt.round() * 10.0) as u8) {
                reports.push(Report::Done { distance, minutes, rpe });
            }
        }
        self.was_hard |= session.blocks.iter().flat_map(|b| &b.repeats).any(|l| l.level.is_hard());
        Swum { reports, load }
    }

    /// Ends the day: the body answers, and they may fall ill or sore. Gives what
    /// they would text of that.
    pub fn end_day(&mut self, _on: Date) -> Vec<Report> {
        let (training, load) = (self.training_today, self.load_today);
        self.body.day(training, load);
        // Much more than usual in a week, and something begins to hurt.
        self.usual_load += (load - self.usual_load) / 28.0;
        let rush = (self.body.week_load() / self.usual_load.max(1.0) - 1.3).max(0.0);
        let sore_chance = (0.002 + 0.02 * rush) * if self.was_hard { 2.0 } else { 1.0 };
        self.load_today = 0.0;
        self.training_today = 0.0;
        self.was_hard = false;
        let mut reports = Vec::new();
        match (self.sick_days, self.sore_days) {
            (1, _) | (_, 1) => reports.push(Report::Better),
            _ => {}
        }
        self.sick_days = self.sick_days.saturating_sub(1);
        self.sore_days = self.sore_days.saturating_sub(1);
        if self.sick_days == 0 && self.dice.random_bool(0.004) {
            self.sick_days = self.dice.random_range(4..10);
            reports.push(Report::Ill { fever: self.sick_days > 6 });
        }
        if self.sore_days == 0 && self.dice.random_bool(sore_chance.min(0.2)) {
            self.sore_days = self.dice.random_range(5..15);
            self.sore_level = self.dice.random_range(2..=6);
            reports.push(Report::Pain { place: "shoulder", level: self.sore_level });
        }
        reports
    }

    fn set(&mut self, line: &Repeat, ability: &Ability) -> Option<Report> {
        let target = line.target?;
        let times = ability
            .repeats(line, target)
            .times
            .into_iter()
            .map(|time| {
                let noise = 1.0 + REPEAT_ERROR * self.normal();
                // Read off a pace clock: whole seconds.
                Centis::from_seconds(time * noise).ok().map(Centis::to_second)
            })
            .collect();
        Some(Report::Set { set: line.clone(), times })
    }

    /// Minutes of swimming in a line.
    fn minutes_of(&self, line: &Repeat, ability: &Ability) -> f64 {
        let each = match line.target {
            Some(target) => target.seconds(),
            None => f64::from(line.distance.amount()) / (0.8 * ability.critical_speed()),
        };
        f64::from(line.count) * each / 60.0
    }

    /// How much of a line's load trains: all of easy work, and of hard work what
    /// lies near the pace that is right for them today.
    fn worth(&self, line: &Repeat, ability: &Ability) -> f64 {
        let Some(target) = line.target.filter(|_| line.level.is_hard()) else { return 1.0 };
        let speed = f64::from(line.distance.amount()) / target.seconds();
        let percent = 100.0 * speed / ability.critical_speed();
        let (low, high) = match line.level {
            Level::Threshold => (95.0, 101.0),
            Level::Hard => (99.0, 106.0),
            // Race pace trains by how deep it goes, and little once it is lost.
            _ => {
                let swum = ability.repeats(line, target);
                let lost = swum.times.iter().filter(|time| **time > target.seconds() * 1.02);
                let lost = lost.count() as f64 / swum.times.len().max(1) as f64;
                return (swum.drained / DEEP).min(1.0) * (1.0 - 0.7 * lost);
            }
        };
        let off = (percent - percent.clamp(low, high)) / PACE_WIDTH;
        libm::exp(-off * off / 2.0)
    }

    /// A standard normal number (Box & Muller 1958).
    fn normal(&mut self) -> f64 {
        let (u, v): (f64, f64) =
            (self.dice.random_range(1e-12..1.0), self.dice.random_range(0.0..1.0));
        (-2.0 * libm::log(u)).sqrt() * libm::cos(std::f64::consts::TAU * v)
    }
}
