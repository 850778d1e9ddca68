//! The evening as it is told: by lanes, for one lane, and what a change made of it.

use super::tonight::Tonight;
use super::who_swims;
use crate::coaching::evening::{
    expected_times, line_in_question, remarks, shortened, swims_gently, with_own_targets,
};
use crate::coaching::lanes::{
    Evening, LaneDrawn, LaneSendOff, Moved, OneMove, as_placed, move_worth_making,
};
use crate::desk::decision::desk::Desk;
use crate::desk::decision::view::View;
use crate::desk::known::booking::Booking;
use crate::history::{LaneKept, Right};
use crate::message::Name;
use crate::reply::{
    Ends, EveningReply, LaneNow, LaneReply, LanesChangedReply, LanesReply, OwnTargets, TooLong,
};
use crate::session::{Part, Session};
use crate::units::{Lane, Level};

impl Tonight {
    /// The set by lanes; `only` one of them where that was asked for.
    pub fn told(&self, view: &View<'_>, only: Option<u8>) -> EveningReply {
        let lanes: Vec<LaneReply> = self
            .kept
            .swum()
            .filter(|lane| only.is_none_or(|only| lane.lane.number() == only))
            .filter_map(|lane| self.lane_told(view, lane))
            .collect();
        let in_room = view.asked.room.is_some() && !view.names_in_rooms();
        EveningReply {
            on: self.on,
            minutes: self.booking.minutes,
            without: view.left_out_by_squad(lanes.iter().map(|lane| &lane.session)),
            lanes,
            only,
            in_room,
        }
    }

    fn lane_told(&self, view: &View<'_>, lane: &LaneKept) -> Option<LaneReply> {
        let session = view.shown(lane.session.as_ref()?);
        let (tight, beyond) =
            self.with_swims(view, &lane.swimmers, |swims| remarks(&session, self.swum_s(), swims));
        let known = lane.swimmers.iter().filter_map(|name| Some((name, view.facts(name)?)));
        let (gentle, timed): (Vec<_>, Vec<_>) =
            known.partition(|(_, facts)| swims_gently(view.asked.book, facts));
        let course = self.booking.course;
        let targets = timed.into_iter().map(|(name, facts)| {
            let version = lane.own.get(name).map_or_else(|| session.clone(), |own| view.shown(own));
            let own = with_own_targets(&version, &facts, course);
            let expected = expected_times(&own, &facts, course);
            let lines = own.blocks.into_iter().flat_map(|block| block.repeats);
            let lines = lines.filter(|line| line.aim.is_some() && line.target.is_some());
            OwnTargets { swimmer: name.clone(), lines: lines.collect(), expected }
        });
        Some(LaneReply {
            lane: lane.lane.number(),
            targets: targets.filter(|own| !own.is_empty()).collect(),
            gently: gentle.into_iter().map(|(name, _)| name.clone()).collect(),
            swimmers: lane.swimmers.clone(),
            ends: view.ends(&self.booking, &session),
            too_long: too_long(&self.booking, self.swum_s(), &session),
            tight,
            beyond,
            session,
        })
    }

    /// The lanes as they stand, and what there is to say of them.
    pub fn lanes_told(&self, view: &View<'_>, moved: Vec<Moved>) -> LanesReply {
        let present: Vec<Name> = self.kept.swimmers().cloned().collect();
        let last = self.kept.lanes.last().map_or(Lane::FIRST, |lane| lane.lane);
        let evening = self.for_lanes(view, &present, last);
        let names = |lane: &LaneKept| lane.swimmers.iter().map(Name::to_string).collect();
        let orders: Vec<(Lane, Vec<String>)> =
            self.kept.lanes.iter().map(|lane| (lane.lane, names(lane))).collect();
        let lanes =
            as_placed(&evening, &orders).into_iter().map(|drawn| self.with_set(view, drawn));
        let focus = present.iter().filter_map(|name| {
            let focus = view.swimmer(name)?.focus_at(view.now())?;
            Some((name.clone(), focus.clone()))
        });
        LanesReply {
            on: self.on,
            lanes: lanes.collect(),
            moved,
            relaxed: Vec::new(),
            advice: self.advice_in(&evening),
            stopped: view.with_part(self.on, &self.booking, who_swims::Part::Stopped),
            done: view.with_part(self.on, &self.booking, who_swims::Part::Done),
            careful: present.iter().filter(|name| is_careful(view, name)).cloned().collect(),
            focus: focus.collect(),
        }
    }

    /// The one move worth making in the lanes as they stand.
    pub fn advice(&self, view: &View<'_>) -> Option<OneMove> {
        let present: Vec<Name> = self.kept.swimmers().cloned().collect();
        let last = self.kept.lanes.last().map_or(Lane::FIRST, |lane| lane.lane);
        self.advice_in(&self.for_lanes(view, &present, last))
    }

    fn advice_in(&self, evening: &Evening) -> Option<OneMove> {
        let places = self.kept.places().into_iter();
        let now = places.map(|(name, lane)| (name.to_string(), lane)).collect();
        move_worth_making(evening, &now)
    }

    /// A lane with the send-offs of the set that it swims, where one is in force.
    fn with_set(&self, view: &View<'_>, lane: LaneDrawn) -> LaneDrawn {
        let kept = self.kept.lane(lane.lane.number()).and_then(|lane| lane.session.as_ref());
        match kept.map(|session| send_offs(&view.shown(session))) {
            Some(send_offs) => LaneDrawn { send_offs, ..lane },
            None => lane,
        }
    }

    /// What changed in the lanes since `before`: who moved, and for each lane that
    /// changed what it swims and when it ends.
    pub fn changes_told(&self, view: &View<'_>, before: &Tonight) -> LanesChangedReply {
        let (was, is) = (before.kept.places(), self.kept.places());
        let mut moved: Vec<(Name, Option<Lane>, Option<Lane>)> = is
            .iter()
            .filter(|(name, lane)| was.get(*name) != Some(lane))
            .map(|(name, lane)| (name.clone(), was.get(name).copied(), Some(*lane)))
            .collect();
        let left = was.iter().filter(|(name, _)| !is.contains_key(*name));
        moved.extend(left.map(|(name, lane)| (name.clone(), Some(*lane), None)));
        let lanes = self.kept.lanes.iter().filter_map(|lane| {
            let old = before.kept.lanes.iter().find(|old| old.lane == lane.lane);
            let changed =
                old.is_none_or(|old| old.swimmers != lane.swimmers || old.session != lane.session);
            changed.then(|| self.lane_now(view, lane, old, before))
        });
        LanesChangedReply {
            on: self.on,
            night: None,
            moved,
            lanes: lanes.collect(),
            relaxed: Vec::new(),
            parted: Vec::new(),
            gap: (before.kept.gap != self.kept.gap).then_some(self.kept.gap),
        }
    }

    fn lane_now(
        &self,
        view: &View<'_>,
        lane: &LaneKept,
        old: Option<&LaneKept>,
        before: &Tonight,
    ) -> LaneNow {
        let swum_s = self.swum_s();
        let line = |session: &Session| line_in_question(session, swum_s);
        let session = lane.session.as_ref().map(|session| view.shown(session));
        let was = old.and_then(|old| old.session.as_ref()).map(|session| view.shown(session));
        let tight = session.as_ref().map_or_else(Vec::new, |session| {
            self.with_swims(view, &lane.swimmers, |swims| remarks(session, swum_s, swims).0)
        });
        LaneNow {
            lane: lane.lane.number(),
            swimmers: lane.swimmers.clone(),
            line: session.as_ref().and_then(line),
            line_was: was.as_ref().and_then(line),
            now: session.as_ref().map(|session| ends(view, &self.booking, session, swum_s)),
            was: was.as_ref().map(|session| ends(view, &before.booking, session, swum_s)),
            tight,
        }
    }
}

/// When `session` ends, by the clock where its start is known.
pub fn ends(view: &View<'_>, booking: &Booking, session: &Session, elapsed_s: u32) -> Ends {
    match view.ends(booking, session) {
        Some(time) => Ends::At(time),
        None => Ends::In(session.duration_s().saturating_sub(elapsed_s)),
    }
}

/// Something is open that makes them swim easily.
fn is_careful(view: &View<'_>, name: &Name) -> bool {
    view.swimmer(name).is_some_and(|swimmer| view.is_careful(swimmer))
}

/// What of `session` is more than the booking holds.
fn too_long(booking: &Booking, elapsed_s: u32, session: &Session) -> Option<TooLong> {
    let booked_s = u32::from(booking.minutes) * 60;
    let by_s = session.duration_s().checked_sub(booked_s).filter(|over| *over > 0)?;
    let shorter = shortened(session, elapsed_s, booked_s);
    Some(TooLong { by_s, fits: shorter.fits && shorter.keeps_purpose, without: shorter.given_up })
}

/// Of the main part, what is more than easy.
fn send_offs(session: &Session) -> Vec<LaneSendOff> {
    let main = session.blocks.iter().filter(|block| block.part == Part::Main);
    let lines = main.flat_map(|block| block.repeats.iter().map(|line| (block.rounds, line)));
    lines
        .filter(|(_, line)| line.level > Level::Easy)
        .filter_map(|(rounds, line)| {
            Some(LaneSendOff {
                count: line.count.saturating_mul(rounds),
                distance: line.distance,
                slowest: line.target?,
                send_off: line.send_off?,
                stretched_s: 0,
            })
        })
        .collect()
}

/// What whoever runs the evening is told of lanes that changed; none where they are as
/// `before`.
pub fn became_of_lanes(desk: &mut Desk<'_>, before: &Tonight) -> Option<LanesChangedReply> {
    let told = before.kept.is_told();
    if !told || desk.is_over(before.on, &before.booking) || !desk.may(Right::RunEvening) {
        return None;
    }
    let after = desk.settled(before.on);
    let changes = after.changes_told(desk, before);
    (!changes.moved.is_empty()).then_some(changes)
}
