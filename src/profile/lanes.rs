//! Lanes as they were drawn, and the coach's partings.
//!
//! Knows who swims where; not why, nor what is swum there.

use std::collections::BTreeMap;

use jiff::Timestamp;
use jiff::civil::Date;
use serde::{Deserialize, Serialize};

use super::Squad;
use crate::message::Name;
use crate::units::Lane;

/// How many drawings a squad keeps: those of the last nights.
pub(super) const DRAWN_KEPT: usize = 32;
/// How many words on partings a squad keeps.
pub(super) const PARTINGS_KEPT: usize = 256;

/// The lanes of one night.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct LanesDrawn {
    /// The night.
    pub on: Date,
    /// Every lane there is, lane 1 first; one may be empty.
    pub lanes: Vec<LaneOrder>,
    /// How many were asked for, where that was said: that many again, unless
    /// another number is said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub asked: Option<u8>,
}

/// Who swims in a lane.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct LaneOrder {
    /// Which lane.
    pub lane: Lane,
    /// In the order they lead off.
    pub swimmers: Vec<Name>,
}

/// A word on who shares no lane.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Parting {
    /// Any two of these.
    pub names: Vec<Name>,
    /// False where they may again.
    pub apart: bool,
}

impl LanesDrawn {
    /// How many lanes there are.
    pub fn count(&self) -> Option<Lane> {
        self.lanes.last().map(|order| order.lane)
    }

    /// The lane of a swimmer.
    pub fn lane_of(&self, who: &Name) -> Option<Lane> {
        self.lanes.iter().find(|order| order.swimmers.contains(who)).map(|order| order.lane)
    }
}

impl Squad {
    /// The lanes in force on the night of `day`, as known at `now`: the last
    /// drawn, without those who are done since.
    pub fn lanes_drawn(&self, day: Date, now: Timestamp) -> Option<LanesDrawn> {
        let mut drawn = self.drawn.latest_on(day, now)?.what.clone();
        for order in &mut drawn.lanes {
            order.swimmers.retain(|who| !self.is_done_by_name(who, day, now));
        }
        Some(drawn)
    }

    /// True for the name of one who swims no more on `day`.
    pub fn is_done_by_name(&self, who: &Name, day: Date, now: Timestamp) -> bool {
        self.swimmers.get(who).is_some_and(|swimmer| self.is_done(swimmer, day, now))
    }

    /// The lanes last drawn for any night up to `day`, as known at `now`.
    pub fn lanes_last_drawn(&self, day: Date, now: Timestamp) -> Option<LanesDrawn> {
        let night = self.drawn.as_of(now).map(|kept| kept.on).filter(|on| *on <= day).max()?;
        self.lanes_drawn(night, now)
    }

    /// The pairs that share no lane, as known at `now`: the last word on each
    /// pair holds.
    pub fn partings(&self, now: Timestamp) -> Vec<(Name, Name)> {
        let mut words: Vec<_> = self.partings.as_of(now).collect();
        words.sort_by_key(|kept| kept.cause);
        let mut pairs: BTreeMap<(&Name, &Name), bool> = BTreeMap::new();
        for Parting { names, apart } in words.into_iter().map(|kept| &kept.what) {
            for (at, one) in names.iter().enumerate() {
                for other in names[at + 1..].iter().filter(|other| *other != one) {
                    pairs.insert((one.min(other), one.max(other)), *apart);
                }
            }
        }
        let apart = pairs.into_iter().filter(|(_, apart)| *apart);
        apart.map(|((one, other), _)| (one.clone(), other.clone())).collect()
    }

    /// Takes a swimmer's name out of lanes and partings.
    pub(super) fn leave_lanes(&mut self, who: &Name) {
        for kept in self.drawn.iter_mut() {
            kept.what.lanes.iter_mut().for_each(|order| order.swimmers.retain(|one| one != who));
        }
        for kept in self.partings.iter_mut() {
            kept.what.names.retain(|one| one != who);
        }
    }
}
