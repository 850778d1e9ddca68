//! The evening as it stands, from which everything said about it is read.
//!
//! It is what was last kept, with those who came and went since taken in. Working
//! it out changes nothing and gives the same at the same instant to everyone; it is
//! kept when the coach changes something, or once it was looked at.

use std::collections::{BTreeMap, BTreeSet};

use jiff::civil::Date;

use super::tonight::Tonight;
use super::write;
use crate::coaching::evening::{aimed_anew, dealt_anew, swum_amount};
use crate::coaching::lanes::lane_for;
use crate::desk::decision::desk::Desk;
use crate::desk::decision::view::View;
use crate::history::{EveningBy, Event, LaneKept, SetSource};
use crate::message::Name;
use crate::session::{Repeat, Session};
use crate::units::Lane;

impl View<'_> {
    /// The evening of `on` as it stands now.
    pub fn tonight(&self, on: Date) -> Tonight {
        let mut tonight = self.as_kept(on);
        if !self.is_over(on, &tonight.booking) {
            tonight.take_in_people(self);
            tonight.take_in_heats(self);
        }
        tonight
    }
}

impl Desk<'_> {
    /// The evening as it stands. It is kept if it has changed: somebody has now seen
    /// it, so it must stay so.
    pub fn settled(&mut self, on: Date) -> Tonight {
        let tonight = self.tonight(on);
        if tonight.kept.lanes.is_empty() {
            return tonight;
        }
        self.keep(tonight, EveningBy::People)
    }

    /// Keeps the evening, where anything of it is new.
    pub fn keep(&mut self, mut tonight: Tonight, by: EveningBy) -> Tonight {
        let before = self.squad.evening_kept(tonight.on, self.now());
        tonight.kept.by = before.map_or(by, |before| before.by);
        if before == Some(&tonight.kept) {
            return tonight;
        }
        // What the coach said in this message is more than who came of it.
        let said = self.events.iter().rev().find_map(|event| match event {
            Event::EveningPut { evening } if evening.on == tonight.on => Some(evening.by),
            _ => None,
        });
        tonight.kept.by = match (by, said) {
            (EveningBy::People, Some(said)) => said,
            _ => by,
        };
        self.record(Event::EveningPut { evening: tonight.kept.clone() });
        tonight
    }

    /// Takes in what a message changed of who swims, once the night has begun: from
    /// then on it counts when it happened.
    pub fn settle_after(&mut self) {
        if self.events.is_empty() {
            return;
        }
        let on = self.evening();
        let kept = self.squad.evening_kept(on, self.now());
        let has_lanes = kept.is_some_and(|kept| !kept.lanes.is_empty());
        if has_lanes && self.elapsed_s(&self.booking(on)).is_some() {
            self.settled(on);
        }
    }
}

impl Tonight {
    /// Whoever swims and is in no lane comes into one, and whoever swims no more
    /// leaves theirs.
    fn take_in_people(&mut self, view: &View<'_>) {
        let present = view.swimming(self.on, &self.booking);
        let placed: BTreeSet<&Name> = self.kept.swimmers().collect();
        let same = placed.len() == present.len() && present.iter().all(|one| placed.contains(one));
        if same {
            return;
        }
        let before = self.kept.lanes.clone();
        let begun = self.elapsed_s.is_some();
        if self.kept.lanes.is_empty() || !self.kept.drawn && !begun {
            let lanes = view.lanes_there(self, present.len());
            if self.draw(view, &present, lanes).is_none() {
                return;
            }
        } else {
            self.leave(&present);
            self.join(view, &present, &present);
        }
        self.deal(view, &before);
    }

    /// Only `present` stay in their lanes.
    fn leave(&mut self, present: &[Name]) {
        let present: BTreeSet<&Name> = present.iter().collect();
        for lane in &mut self.kept.lanes {
            lane.swimmers.retain(|name| present.contains(name));
            lane.own.retain(|name, _| lane.swimmers.contains(name));
        }
    }

    /// Those of `who` that are in no lane come into the one of their pace; nobody moves.
    fn join(&mut self, view: &View<'_>, present: &[Name], who: &[Name]) {
        let Some(last) = self.kept.lanes.last().map(|lane| lane.lane) else { return };
        let mut now = self.kept.places();
        if who.iter().all(|name| now.contains_key(name)) {
            return;
        }
        // Of as many as are there, and so worked out once.
        let evening = self.for_lanes(view, present, last);
        for name in who {
            if now.contains_key(name) {
                continue;
            }
            let pinned = evening.pins.get(name.as_str()).copied().filter(|lane| *lane <= last);
            let by_pace = || match last {
                Lane::FIRST => None,
                _ => {
                    let now = now.iter().map(|(name, lane)| (name.to_string(), *lane)).collect();
                    lane_for(&evening, &now, name.as_str())
                }
            };
            let to = pinned.or_else(by_pace).unwrap_or(last);
            self.put(&evening, name, to);
            now.insert(name.clone(), to);
        }
    }

    /// Takes someone out of their lane and puts them into the one of their pace,
    /// wherever they were put tonight.
    pub fn place_by_pace(&mut self, view: &View<'_>, name: &Name) {
        let present: Vec<Name> = self.kept.swimmers().cloned().collect();
        self.kept.placed.remove(name);
        self.kept.take_out(name);
        self.join(view, &present, std::slice::from_ref(name));
    }

    /// Writes what each lane swims, where its swimmers are others than `before`. What
    /// was swum stays; a set that has not begun is written anew.
    pub fn deal(&mut self, view: &View<'_>, before: &[LaneKept]) {
        self.deal_to(view, before, false);
    }

    /// As [`Tonight::deal`], for all lanes, whoever swims in them: another gap.
    pub fn deal_all(&mut self, view: &View<'_>, before: &[LaneKept]) {
        self.deal_to(view, before, true);
    }

    fn deal_to(&mut self, view: &View<'_>, before: &[LaneKept], all: bool) {
        self.account(before);
        if !before.iter().any(|lane| lane.session.is_some()) {
            return;
        }
        let source = self.kept.source.clone().filter(|_| !self.kept.edited);
        if let (Some(source), None) = (source, self.elapsed_s)
            && let Ok(sessions) = write::sessions(view, self, &source)
        {
            self.swim(sessions);
            return;
        }
        let planned = matches!(self.kept.source, Some(SetSource::Planned(_)));
        let swum_s = self.swum_s();
        let mut lanes = std::mem::take(&mut self.kept.lanes);
        for lane in &mut lanes {
            let was = before.iter().find(|was| was.lane == lane.lane);
            let members = |lane: &LaneKept| lane.swimmers.iter().cloned().collect::<BTreeSet<_>>();
            let same = was.is_some_and(|was| members(was) == members(lane));
            if same && !all && lane.session.is_some() {
                continue;
            }
            if lane.swimmers.is_empty() {
                continue;
            }
            // A lane that is new swims on with what its neighbour swims.
            let near = || {
                let with = before.iter().filter(|was| was.session.is_some());
                with.min_by_key(|was| was.lane.number().abs_diff(lane.lane.number()))
            };
            let session = lane.session.clone().or_else(|| near()?.session.clone());
            let number = lane.lane;
            let stands = |line: &Repeat| self.kept.is_said(number, line);
            lane.session = session.map(|session| {
                let ends_s = session.duration_s();
                self.with_swims(view, &lane.swimmers, |swims| match planned {
                    true => dealt_anew(&session, swum_s, swims, stands, ends_s),
                    false => aimed_anew(&session, swum_s, swims, stands),
                })
            });
        }
        self.kept.lanes = lanes;
    }

    /// What those who changed lanes, came or went have swum differently from their
    /// lane.
    fn account(&mut self, before: &[LaneKept]) {
        if self.elapsed_s.is_none() {
            return;
        }
        let swum_s = self.swum_s();
        let swum = |session: Option<&Session>| {
            session.map_or(0, |session| i64::from(swum_amount(session, swum_s)))
        };
        let kept = &mut self.kept;
        let (were, are) = (by_swimmer(before), by_swimmer(&kept.lanes));
        let names: BTreeSet<&Name> = were.keys().chain(are.keys()).copied().collect();
        for name in names {
            let (old, new) = (were.get(name).copied(), are.get(name).copied());
            if old.map(|lane| lane.lane) == new.map(|lane| lane.lane) {
                continue;
            }
            let so_far = match old {
                Some(lane) => {
                    let more = kept.otherwise.get(name).copied().unwrap_or(0);
                    swum(lane.session_of(name)) + i64::from(more)
                }
                None => i64::from(kept.gone.get(name).copied().unwrap_or(0)),
            };
            let of_lane = new.map(|lane| {
                let of_number = before.iter().find(|was| was.lane == lane.lane);
                swum(of_number.and_then(|was| was.session.as_ref()))
            });
            kept.otherwise.remove(name);
            kept.gone.remove(name);
            match of_lane {
                Some(of_lane) => {
                    let more = i32::try_from(so_far - of_lane).unwrap_or_default();
                    if more != 0 {
                        kept.otherwise.insert(name.clone(), more);
                    }
                }
                None => {
                    let swum = u32::try_from(so_far.max(0)).unwrap_or_default();
                    kept.gone.insert(name.clone(), swum);
                }
            }
        }
    }
}

/// The lane of each swimmer.
fn by_swimmer(lanes: &[LaneKept]) -> BTreeMap<&Name, &LaneKept> {
    let each =
        lanes.iter().rev().flat_map(|lane| lane.swimmers.iter().map(move |name| (name, lane)));
    // Of several lanes of one swimmer, of whom there is none, the first.
    each.collect()
}
