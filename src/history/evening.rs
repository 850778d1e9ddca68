//! The evening of a night: who swims in which lane, in which order, and what each
//! lane swims, as it stands after every change.
//!
//! One value, kept whole at each change. Knows what was decided; not why.

use std::collections::BTreeMap;

use jiff::Timestamp;
use jiff::civil::Date;
use serde::{Deserialize, Serialize};

use super::{Kept, Squad, Stamped, Touched};
use crate::coaching::lanes::Gap;
use crate::message::{Name, PlanWish, TypedSet};
use crate::session::{Repeat, Session};
use crate::units::{Distance, Lane, SendOff};

/// How many nights a squad keeps.
const NIGHTS_KEPT: usize = 16;
/// How many changes are kept of the night changed last, to be taken back.
const CHANGES_KEPT: usize = 24;
/// How many of each other night.
const EARLIER_KEPT: usize = 2;

/// The evening of one night.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct EveningKept {
    /// The night.
    pub on: Date,
    /// What it came from last.
    pub by: EveningBy,
    /// What its set was written from; none where there is no set, or it came from
    /// another night.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub source: Option<SetSource>,
    /// The set was changed on the way, and is not written from its source again.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub edited: bool,
    /// When the set began, where it was sent after the night had begun; else it
    /// begins with the night.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub begun: Option<Timestamp>,
    /// Between two who leave behind each other.
    #[serde(default)]
    pub gap: Gap,
    /// How many lanes were asked for, where that was said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub asked: Option<u8>,
    /// The coach has drawn the lanes or put someone into one: nobody moves unasked.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub drawn: bool,
    /// Every lane there is, lane 1 first; one may be empty.
    pub lanes: Vec<LaneKept>,
    /// Whom the coach put where tonight.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub placed: BTreeMap<Name, Lane>,
    /// The heats of a test night, the first to go first.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub heats: Vec<Vec<(Name, Lane)>>,
    /// Send-offs that are the coach's own words.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub said: Vec<SendOffSaid>,
    /// What those in a lane swam more, or less where below nought, than their lane
    /// by the time they came to it, in the pool's unit.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub otherwise: BTreeMap<Name, i32>,
    /// What those who left had swum.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub gone: BTreeMap<Name, u32>,
}

/// What an evening came from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum EveningBy {
    /// Its set was put.
    Set,
    /// Its set was changed.
    Change,
    /// The coach said who swims where.
    Lanes,
    /// Somebody came, went, or may not swim.
    People,
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

/// A send-off that the coach said.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct SendOffSaid {
    /// For this lane; none for all.
    pub lane: Option<Lane>,
    /// For repeats of this.
    pub distance: Distance,
    /// Leave every so often.
    pub on: SendOff,
}

/// One lane of an evening.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct LaneKept {
    /// Which lane.
    pub lane: Lane,
    /// Who swims in it, in the order they lead off.
    pub swimmers: Vec<Name>,
    /// What it swims; none while no set is written.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub session: Option<Session>,
    /// What those of it swim of whom the coach said something else.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub own: BTreeMap<Name, Session>,
}

impl EveningKept {
    /// A night of which nothing is known yet.
    pub fn new(on: Date) -> EveningKept {
        EveningKept {
            on,
            by: EveningBy::People,
            source: None,
            edited: false,
            begun: None,
            gap: Gap::default(),
            asked: None,
            drawn: false,
            lanes: Vec::new(),
            placed: BTreeMap::new(),
            heats: Vec::new(),
            said: Vec::new(),
            otherwise: BTreeMap::new(),
            gone: BTreeMap::new(),
        }
    }

    /// The lane that a swimmer swims in.
    pub fn lane_of(&self, who: &Name) -> Option<&LaneKept> {
        self.lanes.iter().find(|lane| lane.swimmers.contains(who))
    }

    /// A lane by its number.
    pub fn lane(&self, number: u8) -> Option<&LaneKept> {
        self.lanes.iter().find(|lane| lane.lane.number() == number)
    }

    /// True if a set is written for it.
    pub fn has_set(&self) -> bool {
        self.lanes.iter().any(|lane| lane.session.is_some())
    }

    /// True if somebody was told who swims where: lanes were drawn, or a set put.
    pub fn is_told(&self) -> bool {
        self.drawn || self.has_set()
    }

    /// What its lanes swim, by lane.
    pub fn sessions(&self) -> impl Iterator<Item = &Session> {
        self.lanes.iter().filter_map(|lane| lane.session.as_ref())
    }

    /// What the middle one of its lanes swims.
    pub fn middle(&self) -> Option<&Session> {
        let swum: Vec<&LaneKept> = self.swum().collect();
        swum.get(swum.len() / 2).and_then(|lane| lane.session.as_ref())
    }

    /// The lanes that someone swims in; all that have a set where nobody is in any.
    pub fn swum(&self) -> impl Iterator<Item = &LaneKept> {
        let nobody = self.lanes.iter().all(|lane| lane.swimmers.is_empty());
        let swum = move |lane: &&LaneKept| !lane.swimmers.is_empty() || nobody;
        self.lanes.iter().filter(swum)
    }

    /// Everyone in a lane.
    pub fn swimmers(&self) -> impl Iterator<Item = &Name> {
        self.lanes.iter().flat_map(|lane| &lane.swimmers)
    }

    /// The lane of each swimmer.
    pub fn places(&self) -> BTreeMap<Name, Lane> {
        let of_lane = |lane: &LaneKept| {
            let number = lane.lane;
            lane.swimmers.iter().map(move |name| (name.clone(), number)).collect::<Vec<_>>()
        };
        self.lanes.iter().flat_map(of_lane).collect()
    }

    /// True if the send-off of `line` in `lane` is the coach's own word.
    pub fn is_said(&self, lane: Lane, line: &Repeat) -> bool {
        self.said.iter().any(|said| {
            said.lane.is_none_or(|of| of == lane)
                && said.distance == line.distance
                && Some(said.on) == line.send_off
        })
    }

    /// Takes a swimmer out of whichever lane they are in.
    pub fn take_out(&mut self, who: &Name) {
        for lane in &mut self.lanes {
            lane.swimmers.retain(|one| one != who);
            lane.own.remove(who);
        }
    }

    /// Takes a swimmer's name out.
    pub(super) fn forget(&mut self, who: &Name) {
        self.take_out(who);
        self.heats.iter_mut().for_each(|heat| heat.retain(|(name, _)| name != who));
        self.placed.remove(who);
        self.otherwise.remove(who);
        self.gone.remove(who);
    }
}

impl LaneKept {
    /// What a swimmer of it swims, before their own times to hold.
    pub fn session_of(&self, who: &Name) -> Option<&Session> {
        self.own.get(who).or(self.session.as_ref())
    }
}

impl Squad {
    /// The evening of `day` as it was last kept by `now`.
    pub fn evening_kept(&self, day: Date, now: Timestamp) -> Option<&EveningKept> {
        self.evenings.latest_on(day, now).map(|kept| &kept.what)
    }

    /// That evening, where a set is written for it.
    pub fn set_in_force(&self, day: Date, now: Timestamp) -> Option<&EveningKept> {
        self.evening_kept(day, now).filter(|evening| evening.has_set())
    }

    /// How many lanes there were on the last night up to `day` for which the coach
    /// drew some, as known at `now`.
    pub fn lanes_last_drawn(&self, day: Date, now: Timestamp) -> Option<Lane> {
        let mut kept = self.evenings.as_of(now).rev();
        let drawn = kept.find(|kept| kept.on <= day && kept.what.drawn)?;
        drawn.what.lanes.last().map(|lane| lane.lane)
    }

    /// The evenings before `day` that had a set, as known at `now`, latest first.
    pub fn sets_before(&self, day: Date, now: Timestamp) -> Vec<&EveningKept> {
        let mut nights: Vec<Date> =
            self.evenings.as_of(now).map(|kept| kept.on).filter(|on| *on < day).collect();
        nights.dedup();
        nights.into_iter().rev().filter_map(|on| self.set_in_force(on, now)).collect()
    }

    /// Takes back what message `cause` made of its evenings, and what only came of it
    /// since: who came and went is taken in anew.
    pub(super) fn take_back_evening(&mut self, cause: u64) {
        let theirs = self.evenings.of_cause(cause).filter(|kept| kept.what.by != EveningBy::People);
        let on: Vec<Date> = theirs.map(|kept| kept.on).collect();
        self.evenings.withdraw(cause);
        if !on.is_empty() {
            let came_of_it = |kept: &Kept<EveningKept>| {
                kept.cause > cause && kept.what.by == EveningBy::People && on.contains(&kept.on)
            };
            self.evenings.drop_those(|_, kept| came_of_it(kept));
        }
    }

    /// Keeps an evening as it is from now on.
    pub(super) fn put_evening(&mut self, stamped: &Stamped, evening: EveningKept) -> Touched {
        let (cause, on, by) = (stamped.cause, evening.on, evening.by);
        // One message leaves one evening behind.
        self.evenings.withdraw_if(cause, |earlier| earlier.on == on);
        self.evenings.keep(Kept { cause, at: stamped.at, on, what: evening });
        self.thin_evenings(on);
        match by {
            EveningBy::People => Touched::Head,
            _ => self.member(&stamped.by, |member| member.can_undo(cause)),
        }
    }

    /// Drops what nobody takes back any more, so that a snapshot stays small.
    fn thin_evenings(&mut self, changed: Date) {
        let mut days: Vec<Date> = self.evenings.iter().map(|kept| kept.on).collect();
        days.dedup();
        let first = days.len().saturating_sub(NIGHTS_KEPT);
        let first = days.get(first).copied().unwrap_or(Date::MIN);
        self.evenings.keep_latest_each(|day| match day {
            day if day == changed => CHANGES_KEPT,
            day if day < first => 0,
            _ => EARLIER_KEPT,
        });
    }

    /// Takes a swimmer's name out of the evenings.
    pub(super) fn leave_evenings(&mut self, who: &Name) {
        self.evenings.iter_mut().for_each(|kept| kept.what.forget(who));
    }
}
