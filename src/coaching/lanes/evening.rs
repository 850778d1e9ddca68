//! What the lanes are drawn from: who is there, the pool, the set, the coach's
//! wishes.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use crate::units::{Course, Distance, Lane, Level, Pace, SendOff};

/// An evening in the pool, as far as lanes need it.
#[derive(Debug, Clone, PartialEq)]
pub struct Evening {
    /// Who is there, each handle once.
    pub swimmers: Vec<Entrant>,
    /// The last lane we have.
    pub lanes: Lane,
    /// How many may swim in one lane.
    pub capacity: u16,
    /// Seconds between two who leave behind each other.
    pub gap: Gap,
    /// The pool. Within one repeat nobody may be lapped: on a repeat longer than
    /// a circle (two lengths: 50 m in a 25 m pool, 100 m in a 50 m pool, 50 yd in
    /// a 25 yd pool) the first of the lane gains less on the last than a circle
    /// less the lead that the gaps give them. Worked with even speeds: repeat x
    /// (last's time - first's time + gaps) < circle x last's time. In open water
    /// there is no circle, and nobody is lapped.
    pub course: Course,
    /// The repeats that every lane swims, in whole lengths of the pool; none for
    /// no limits of time.
    pub set: Vec<LaneRepeat>,
    /// The coach's pins: a handle and its lane. Those not there don't count.
    pub pins: BTreeMap<String, Lane>,
    /// The coach's partings: two handles that share no lane.
    pub apart: Vec<(String, String)>,
    /// How many seconds longer a send-off may be than the set's own, so that all
    /// of a full lane get away; nought unless the coach allows it.
    pub stretch_s: u32,
}

/// Someone who is there.
#[derive(Debug, Clone, PartialEq)]
pub struct Entrant {
    /// Their handle.
    pub name: String,
    /// What is known of their pace.
    pub known_pace: KnownPace,
}

/// What is known of a swimmer's threshold pace.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum KnownPace {
    /// Their tests tell it.
    Tested(Pace),
    /// Somebody guessed it; it counts like any other and is marked.
    Guessed(Pace),
    /// Nothing is known: they go last in the slowest lane.
    Unknown,
}

impl KnownPace {
    /// The pace, tested or guessed.
    pub const fn pace(self) -> Option<Pace> {
        match self {
            KnownPace::Tested(pace) | KnownPace::Guessed(pace) => Some(pace),
            KnownPace::Unknown => None,
        }
    }
}

/// The time between two swimmers who leave behind each other.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Gap {
    /// Five seconds: one figure of the pace clock.
    #[default]
    Five,
    /// Ten seconds.
    Ten,
}

impl Gap {
    /// In seconds.
    pub const fn seconds(self) -> u32 {
        match self {
            Gap::Five => 5,
            Gap::Ten => 10,
        }
    }

    /// The shortest send-off on which so many can leave behind each other and the
    /// first again behind the last.
    pub fn turn(self, swimmers: usize) -> SendOff {
        let swimmers = u32::try_from(swimmers.max(1)).unwrap_or(u32::MAX);
        let seconds = self.seconds().saturating_mul(swimmers);
        SendOff::new(seconds).unwrap_or(SendOff::LONGEST)
    }
}

/// A repeat that every lane swims.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct LaneRepeat {
    /// How many times.
    pub count: u16,
    /// How far.
    pub distance: Distance,
    /// How hard: each swims it in the middle of that level.
    pub level: Level,
    /// The send-off, where the coach set one; else that of the lane's slowest.
    pub send_off: Option<SendOff>,
}
