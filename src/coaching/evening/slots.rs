//! The parts of a squad's session, each filled for one lane to a share of the
//! clock.
//!
//! Knows one lane's paces; not the other lanes.

use super::lane::Lane;
use crate::coaching::drills::Drill;
use crate::session::{Aim, Block, Cue, Part, Repeat};
use crate::units::{Centis, Distance, Level, SendOff, Stroke};

/// One part of the session, the same for every lane.
#[derive(Debug, Clone, Copy)]
pub(super) enum Slot {
    /// Easy, longer swims first.
    WarmUp,
    /// One drill.
    Drill(&'static Drill),
    /// Up to the pace of the main set.
    Build(Pace),
    /// Repeats at one pace, in so many rounds with an easy 50 behind each.
    Hold { pace: Pace, piece: u32, rounds: u16 },
    /// A drill and easy swimming in turn.
    Technique(&'static Drill),
    /// A timed swim of so much, alone in the water.
    Test(u32),
    /// Easy, right behind the test.
    Recovery,
    /// Easy repeats beside the main set.
    Beside,
    /// Easy, whatever time is left.
    SwimDown,
}

/// A pace as a share of critical speed, and its level.
#[derive(Debug, Clone, Copy)]
pub(super) struct Pace {
    pub level: Level,
    /// Tenths of a percent.
    pub tenths: u16,
}

/// Lengths of a swim-down at most (ours: 600 m in a pool of 25, which fast lanes swim
/// on a long evening).
const MOST_SWIM_DOWN: u32 = 24;

/// Lines of a lane, written in whole lengths of its pool.
pub(super) struct Writer<'a> {
    pub lane: &'a Lane,
}

impl Writer<'_> {
    /// One length; 100 in open water.
    fn length(&self) -> u32 {
        self.lane.slowest().course.length().unwrap_or(100)
    }

    /// The block of `slot` that comes nearest to `seconds`, at least one repeat.
    pub fn block(&self, slot: Slot, seconds: u32) -> Option<Block> {
        let fifty = self.length().max(50);
        let (part, rounds, repeats) = match slot {
            Slot::WarmUp => (Part::WarmUp, 1, self.warm_up(seconds)?),
            Slot::Drill(drill) => (Part::Drill, 1, vec![self.drill(drill, seconds)?]),
            Slot::Build(pace) => (Part::Build, 1, self.build(pace, seconds)?),
            Slot::Hold { pace, piece, rounds } => {
                (Part::Main, rounds, self.hold(pace, piece, rounds, seconds)?)
            }
            Slot::Technique(drill) => return self.technique(drill, seconds),
            Slot::Test(amount) => (Part::Test, 1, vec![self.test(amount)?]),
            Slot::Recovery => (Part::Recovery, 1, vec![self.easy(1, 2 * fifty, Stroke::Choice)?]),
            Slot::Beside => {
                let quick = self.lane.slowest().easy_per_100_s() <= 120.0;
                let one = self.easy(1, if quick { 2 * fifty } else { fifty }, Stroke::Free)?;
                (Part::Main, 1, vec![times(one, seconds, 1)])
            }
            Slot::SwimDown => (Part::SwimDown, 1, vec![self.swim_down(seconds)?]),
        };
        Some(Block { part, rounds, repeats })
    }

    /// A repeat of the main set, alone.
    pub fn held(&self, pace: Pace, piece: u32) -> Option<Repeat> {
        let distance = self.distance(piece)?;
        let aim = Aim::CriticalSpeed(pace.tenths);
        let easy = self.easy(1, piece, Stroke::Free)?;
        // Without a pace to hold the lane swims it easily.
        if self.lane.target(aim, distance, easy.stroke).is_none() {
            return Some(easy);
        }
        Some(self.lane.aimed(&Repeat { aim: Some(aim), level: pace.level, ..easy }))
    }

    fn distance(&self, amount: u32) -> Option<Distance> {
        let course = self.lane.slowest().course;
        Distance::new(amount, course.unit()).ok().filter(|distance| distance.fits(course))
    }

    fn easy(&self, count: u16, amount: u32, stroke: Stroke) -> Option<Repeat> {
        let distance = self.distance(amount)?;
        Some(Repeat {
            count,
            distance,
            stroke,
            target: None,
            aim: None,
            send_off: Some(self.lane.in_turn(self.lane.slowest().easy_send_off(distance, stroke))),
            rest: None,
            level: Level::Easy,
            equipment: Vec::new(),
            cue: None,
        })
    }

    /// A longer swim where the lane can, then 50s.
    fn warm_up(&self, seconds: u32) -> Option<Vec<Repeat>> {
        let straight = match self.lane.slowest().easy_per_100_s() {
            slow if slow > 150.0 => None,
            middling if middling > 120.0 => self.easy(1, 100, Stroke::Free),
            _ => self.easy(1, 200, Stroke::Free),
        };
        let short = self.easy(1, self.length().max(50), Stroke::Choice)?;
        let long_s = straight.as_ref().map_or(0, seconds_of);
        match straight.filter(|_| seconds > long_s + seconds_of(&short)) {
            Some(long) => Some(vec![long, times(short, seconds - long_s, 1)]),
            None => Some(vec![times(short, seconds, 1)]),
        }
    }

    fn drill(&self, drill: &Drill, seconds: u32) -> Option<Repeat> {
        let mut line = self.easy(1, self.length().min(50), Stroke::Drill)?;
        line.equipment = drill.equipment.into_iter().collect();
        line.cue = Some(Cue::Drill(drill.id.to_owned()));
        Some(times(line, seconds, 2))
    }

    /// Steady 50s, the last at the pace of the main set.
    fn build(&self, pace: Pace, seconds: u32) -> Option<Vec<Repeat>> {
        let piece = self.length().max(50);
        let last = self.held(pace, piece)?;
        let steady = self.held(Pace { level: Level::Steady, tenths: 915 }, piece)?;
        let before = seconds.saturating_sub(seconds_of(&last));
        Some(vec![times(steady, before, 1), last])
    }

    fn hold(&self, pace: Pace, piece: u32, rounds: u16, seconds: u32) -> Option<Vec<Repeat>> {
        let line = self.held(pace, piece)?;
        let a_round = seconds / u32::from(rounds.max(1));
        if rounds == 1 {
            return Some(vec![times(line, a_round, 1)]);
        }
        let between = self.easy(1, self.length().max(50), Stroke::Choice)?;
        let left = a_round.saturating_sub(seconds_of(&between));
        Some(vec![times(line, left, 2), between])
    }

    fn technique(&self, drill: &Drill, seconds: u32) -> Option<Block> {
        let mut drilled = self.drill(drill, 0)?;
        drilled.count = 2;
        let mut swims = self.easy(1, self.length().max(50), Stroke::Free)?;
        swims.count = 2;
        let a_round = seconds_of(&drilled) + seconds_of(&swims);
        let rounds = nearest(seconds, a_round).clamp(1, 20) as u16;
        Some(Block { part: Part::Main, rounds, repeats: vec![drilled, swims] })
    }

    /// It has no target: it says what the next targets are.
    fn test(&self, amount: u32) -> Option<Repeat> {
        // Above what settles by its nature.
        let level = if amount <= 500 { Level::Sprint } else { Level::Hard };
        Some(Repeat { level, ..self.easy(1, amount, Stroke::Free)? })
    }

    /// As far as fits at an easy pace: all lanes are out within a length of each
    /// other.
    fn swim_down(&self, seconds: u32) -> Option<Repeat> {
        (1..=MOST_SWIM_DOWN).rev().find_map(|lengths| {
            let line = self.easy(1, lengths * self.length(), Stroke::Choice)?;
            let time = self.lane.slowest().easy_time(line.distance, line.stroke);
            // Nothing follows it, so it needs no rest.
            let send_off = time.map(|time| SendOff::after(time, 0)).or(line.send_off);
            let line = Repeat { send_off, ..line };
            (seconds_of(&line) <= seconds).then_some(line)
        })
    }
}

/// Whole seconds of one line.
pub(super) fn seconds_of(line: &Repeat) -> u32 {
    let each = line.send_off.map_or(0, SendOff::seconds);
    u32::from(line.count) * each
}

/// As many of `line` as come nearest to `seconds`, at least `least`.
fn times(line: Repeat, seconds: u32, least: u16) -> Repeat {
    let count = nearest(seconds, seconds_of(&line)).min(60) as u16;
    Repeat { count: count.max(least), ..line }
}

fn nearest(seconds: u32, each: u32) -> u32 {
    (seconds + each / 2) / each.max(1)
}

/// Minutes of swimming at its pace in a block.
pub(super) fn swum_min(block: &Block) -> f64 {
    let lines = block.repeats.iter().filter(|line| line.level > Level::Easy);
    let swum = lines.map(|line| f64::from(line.count) * line.target.map_or(0.0, Centis::seconds));
    f64::from(block.rounds) * swum.sum::<f64>() / 60.0
}
