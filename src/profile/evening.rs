//! The set of a night: one version a lane, as it stands after every change.

use jiff::Timestamp;
use jiff::civil::Date;
use serde::{Deserialize, Serialize};

use super::Squad;
use crate::message::{Name, PlanWish, TypedSet};
use crate::session::Session;

/// How many sets a squad keeps: those of the last weeks' nights.
pub(super) const SETS_KEPT: usize = 16;

/// The set of one night.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct SquadSet {
    /// The night.
    pub on: Date,
    /// What it was written from, so that it can be dealt out to other lanes;
    /// `None` once it was changed on the way.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub source: Option<SetSource>,
    /// When it began, where it was sent after the night had begun; else it begins
    /// with the night.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub begun: Option<Timestamp>,
    /// One version a lane, by lane.
    pub lanes: Vec<LaneKept>,
}

/// What a night's set was written from.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum SetSource {
    /// We planned the night, as the coach wished.
    Planned(PlanWish),
    /// The coach wrote it.
    Written(TypedSet),
}

/// One lane of a night's set.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct LaneKept {
    /// The lane, counted from 1.
    pub lane: u8,
    /// Who was drawn into it when the set was written.
    pub swimmers: Vec<Name>,
    /// What it swims.
    pub session: Session,
}

impl SquadSet {
    /// The lane that a swimmer is drawn into; the middle one for whoever is in
    /// none: she joined since, or came unannounced.
    pub fn lane_of(&self, who: &Name) -> Option<&LaneKept> {
        let own = self.lanes.iter().find(|lane| lane.swimmers.contains(who));
        own.or_else(|| self.middle())
    }

    /// The middle lane.
    pub fn middle(&self) -> Option<&LaneKept> {
        self.lanes.get(self.lanes.len() / 2)
    }
}

impl Squad {
    /// The set in force on the night of `day`, as known at `now`: the last put
    /// or changed.
    pub fn set_in_force(&self, day: Date, now: Timestamp) -> Option<&SquadSet> {
        self.sets.latest_on(day, now).map(|kept| &kept.what)
    }

    /// The lane of the night's set that a swimmer swims in, as known at `now`:
    /// the one last drawn for her, else the one she was in when the set was
    /// written.
    pub fn set_lane_of(&self, who: &Name, day: Date, now: Timestamp) -> Option<&LaneKept> {
        let set = self.set_in_force(day, now)?;
        let drawn = self.lanes_drawn(day, now).and_then(|drawn| drawn.lane_of(who));
        let again =
            drawn.and_then(|drawn| set.lanes.iter().find(|lane| lane.lane == drawn.number()));
        again.or_else(|| set.lane_of(who))
    }

    /// Takes a swimmer's name out of the sets' lanes.
    pub(super) fn leave_sets(&mut self, who: &Name) {
        for kept in self.sets.iter_mut() {
            kept.what.lanes.iter_mut().for_each(|lane| lane.swimmers.retain(|one| one != who));
        }
    }

    /// The sets of the nights before `day`, as known at `now`, latest first: one
    /// a night.
    pub fn sets_before(&self, day: Date, now: Timestamp) -> Vec<&SquadSet> {
        let mut nights: Vec<Date> =
            self.sets.as_of(now).map(|kept| kept.on).filter(|on| *on < day).collect();
        nights.dedup();
        nights.into_iter().rev().filter_map(|on| self.set_in_force(on, now)).collect()
    }
}
