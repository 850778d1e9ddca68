//! Times that the coach set for a swimmer's repeats, in place of the computed
//! ones, until their next test.
//!
//! Such a time stands for repeats faster than threshold: those at the pace of a
//! test or a race. Threshold and easier swimming is written from critical speed,
//! which no single time changes.

use jiff::Timestamp;
use jiff::civil::Date;
use serde::{Deserialize, Serialize};

use super::Facts;
use super::paces::Paces;
use crate::session::{Part, Repeat, Session};
use crate::swim::Trial;
use crate::swim::even_pace::{Target, least_rest_s};
use crate::swim::levels::Band;
use crate::units::{Centis, Course, Distance, Level, SendOff, Stroke};

/// A time to hold, by the coach's word.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct OwnTarget {
    /// How far a repeat is.
    pub distance: Distance,
    /// The time to hold.
    pub time: Centis,
    /// The stroke they were coached in then.
    pub stroke: Stroke,
    /// The pool it was meant for.
    pub course: Course,
    /// The day it was said.
    pub on: Date,
    /// The instant it was said.
    pub at: Timestamp,
}

impl OwnTarget {
    /// True once `test`, told at `told`, has taken its place: the next test in
    /// its stroke, not one of a day before it was said.
    pub fn is_over(&self, test: &Trial, told: Timestamp) -> bool {
        test.stroke == self.stroke && told > self.at && test.on >= self.on
    }

    /// The target as a swim, to be turned into another pool's.
    pub(super) fn as_swum(&self) -> Trial {
        Trial {
            distance: self.distance,
            time: self.time,
            stroke: self.stroke,
            course: self.course,
            on: self.on,
            meet: false,
        }
    }
}

/// `session` with the coach's times in place of the computed ones. The time on
/// the clock never grows: where a repeat needs a longer send-off, there are
/// fewer of them.
pub fn held_to_own(session: &Session, facts: &Facts, course: Course) -> Session {
    if facts.own_targets.is_empty() {
        return session.clone();
    }
    let paces = Paces::of(facts, course);
    let mut own = session.clone();
    let main = own.blocks.iter_mut().filter(|block| block.part == Part::Main);
    main.flat_map(|block| &mut block.repeats).for_each(|line| hold_to_own(&paces, line));
    own
}

/// The time to hold that a repeat has by the coach's word; else its own.
pub(super) fn own_time(facts: &Facts, line: &Repeat) -> Option<Centis> {
    let paces = Paces::of(facts, facts.course);
    own_hold(&paces, line).map(|(time, _)| time).or(line.target)
}

fn own_hold(paces: &Paces, line: &Repeat) -> Option<(Centis, Level)> {
    let before = line.target.filter(|_| line.stroke == paces.stroke)?;
    if line.level <= Level::Threshold {
        return None;
    }
    let time = paces.by_coach(line.distance, before);
    (time != before).then(|| (time, paces.level(line.distance, time)))
}

fn hold_to_own(paces: &Paces, line: &mut Repeat) {
    let (Some((time, level)), Some(before)) = (own_hold(paces, line), line.target) else { return };
    if let Some(on) = line.send_off {
        let new = kept_rest(before, time, on, line.distance);
        let new = match level > line.level {
            true => new.max(Band::of(level).send_off(line.distance, time)),
            false => new,
        };
        let fits = u32::from(line.count) * on.seconds() / new.seconds().max(1);
        // One that has no room on the clock stays as it was written.
        let Some(count) = u16::try_from(fits).ok().filter(|count| *count > 0) else { return };
        line.count = count.min(line.count);
        line.send_off = Some(new);
    }
    line.target = Some(time);
    line.level = level;
}

/// A target with the coach's time in place of the computed one.
pub(super) fn by_coach(paces: &Paces, target: Target) -> Target {
    let time = paces.by_coach(target.distance, target.time);
    if time == target.time {
        return target;
    }
    let send_off = target.send_off.map(|on| kept_rest(target.time, time, on, target.distance));
    Target { time, send_off, ..target }
}

/// The send-off that leaves the rest there was; a faster time shortens none.
fn kept_rest(before: Centis, time: Centis, on: SendOff, distance: Distance) -> SendOff {
    let rest = on.rest_after(before).map_or(0.0, Centis::seconds).max(least_rest_s(distance));
    SendOff::after(time, rest.ceil() as u32).max(on)
}
