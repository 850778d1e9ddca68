//! What one session has to fit, and what it is for.

use jiff::civil::Date;

use super::super::paces::Paces;
use super::super::rulebook::{RuleId, Rulebook};
use crate::session::Purpose;
use crate::swim::Trial;
use crate::units::{Equipment, Stroke};

/// Everything the builder works from: settled before it starts.
#[derive(Clone)]
pub(in crate::coaching) struct Setting<'a> {
    /// The day it is for.
    pub on: Date,
    /// What it is for.
    pub purpose: Purpose,
    /// Paces in the pool of the day.
    pub paces: &'a Paces,
    /// Numbers in force.
    pub book: &'a Rulebook,
    /// Seconds in the water.
    pub budget_s: u32,
    /// The distance wished for, in the pool's unit; the builder comes as near
    /// from below as it can.
    pub aim: Option<u32>,
    /// The aim is a share of a week, to be reached before all else; else it is
    /// only a limit.
    pub promised: bool,
    /// Targets are written.
    pub targets_shown: bool,
    /// Enough swims behind them for full doses.
    pub seasoned: bool,
    /// Kit that may be used.
    pub kit: Vec<Equipment>,
    /// Kit that was asked for.
    pub wanted: Vec<Equipment>,
    /// Sore places.
    pub places: Vec<String>,
    /// Drills of the last sessions, by id.
    pub drills_before: Vec<String>,
    /// As far as they can swim without a stop, where they can't swim any repeat.
    pub unbroken: Option<u32>,
    /// The distance to test, if this is a test.
    pub test: Option<u32>,
    /// The race to rehearse, at the time that is hoped for or predicted.
    pub race: Option<Trial>,
    /// Short pieces only: sharp, not tired.
    pub taper: bool,
    /// Longer warm-up, by age or wish.
    pub long_warm_up: bool,
    /// The coach's words on what to think of.
    pub focus: Option<String>,
    /// A main set that follows from the last result.
    pub follow_up: Option<crate::session::Repeat>,
    /// That set and no other.
    pub bound: bool,
    /// Settles every choice among equals.
    pub seed: u64,
    /// The rules that decided so far.
    pub because: Vec<RuleId>,
}

impl Setting<'_> {
    /// One length, or the step in which open water is measured.
    pub fn length(&self) -> u32 {
        self.paces.course.length().unwrap_or(100)
    }

    /// The longest repeat that they can swim: a length at the least.
    pub fn longest(&self) -> u32 {
        self.unbroken.map_or(u32::MAX, |far| (far / self.length()).max(1) * self.length())
    }

    /// The step in which whole sessions are counted: an even number of lengths
    /// where there is room for that.
    pub fn step(&self) -> u32 {
        match self.aim {
            Some(aim) if aim < 400 => self.length(),
            _ if self.budget_s < 1500 => self.length(),
            _ => self.length().max(50),
        }
    }

    /// Kit that was asked for and may be used, in the contract's order.
    pub fn wanted_kit(&self) -> Vec<Equipment> {
        let mut kit: Vec<Equipment> =
            self.wanted.iter().copied().filter(|kit| self.kit.contains(kit)).collect();
        kit.sort_unstable();
        kit.dedup();
        kit
    }

    /// True if that place hurts.
    pub fn hurts(&self, place: &str) -> bool {
        self.places.iter().any(|one| one == place)
    }

    /// True if hard work is meant.
    pub fn hard(&self) -> bool {
        matches!(
            self.purpose,
            Purpose::PaceHolding | Purpose::RaceRehearsal | Purpose::Speed | Purpose::Threshold
        )
    }

    /// The stroke of the swims that carry a target: the tested one, unless it
    /// would load a sore place.
    pub fn stroke(&self) -> Stroke {
        let sore = match self.paces.stroke {
            Stroke::Fly | Stroke::Im => &["shoulder", "back", "neck"][..],
            Stroke::Breast => &["knee", "hip"][..],
            _ => &[][..],
        };
        match sore.iter().any(|place| self.hurts(place)) {
            true => Stroke::Free,
            false => self.paces.stroke,
        }
    }

    /// Where in a level's dose the best size lies: low for a returner, lowest
    /// before a race.
    pub fn dose_share(&self) -> f64 {
        match (self.taper, self.seasoned) {
            (true, _) => 0.0,
            (false, true) => 0.6,
            (false, false) => 0.3,
        }
    }
}
