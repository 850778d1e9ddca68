//! The paces of those who swim the same version: a lane leaves together, so the
//! slowest decides, and so does how many swim behind each other.
//!
//! Knows paces; not how swimmers come to a lane, nor what is swum in it.

use super::written::Beyond;
use crate::coaching::Facts;
use crate::coaching::lanes::{Gap, is_lapped};
use crate::coaching::paces::Paces;
use crate::session::{Aim, Repeat};
use crate::swim::even_pace;
use crate::swim::levels::{Band, at_percent};
use crate::units::{Centis, Course, Distance, Level, Pace, SendOff, Stroke};

/// The paces of one day of those who swim the same version, in one lane or in
/// several.
pub(super) struct Lane {
    /// Lane by lane.
    all: Vec<Vec<Paces>>,
    slowest: Paces,
}

impl Lane {
    /// Those of a lane's `swimmers`; anyone's where they are untested. `None`
    /// for an empty lane.
    pub fn of(swimmers: &[&Facts], course: Course) -> Option<Lane> {
        Lane::shared(&[swimmers], course)
    }

    /// Those of lanes that swim the same.
    pub fn shared(lanes: &[&[&Facts]], course: Course) -> Option<Lane> {
        let all: Vec<Vec<Paces>> = lanes
            .iter()
            .map(|swimmers| swimmers.iter().map(|facts| Paces::of(facts, course)).collect())
            .collect();
        let tested = all.iter().flatten().filter(|paces| paces.newest().is_some());
        let by_pace =
            |one: &&Paces, other: &&Paces| one.easy_per_100_s().total_cmp(&other.easy_per_100_s());
        let slowest = tested.max_by(by_pace).or_else(|| all.iter().flatten().next())?.clone();
        Some(Lane { all, slowest })
    }

    /// The paces that the lane's send-offs are made from.
    pub fn slowest(&self) -> &Paces {
        &self.slowest
    }

    /// The slowest time that `aim` means for anyone in the lane.
    pub fn target(&self, aim: Aim, distance: Distance) -> Option<Centis> {
        self.targets(aim, distance).flatten().max()
    }

    /// True if in one of the lanes the first would swim into the last from
    /// behind within one repeat.
    pub fn is_lapped(&self, aim: Aim, distance: Distance) -> bool {
        self.targets(aim, distance).any(|times| {
            let ends = times.iter().min().zip(times.iter().max());
            ends.is_some_and(|(fast, slow)| {
                is_lapped(self.slowest.course, distance, *fast, *slow, behind_s(times.len()))
            })
        })
    }

    /// What `aim` means for each, lane by lane.
    fn targets(&self, aim: Aim, distance: Distance) -> impl Iterator<Item = Vec<Centis>> {
        let own = move |paces: &Paces| own_target(paces, aim, distance);
        self.all.iter().map(move |lane| lane.iter().filter_map(own).collect())
    }

    /// `send_off`, or as much longer as it takes that the last of the fullest
    /// lane is in from a swim of `time` before the first leaves again.
    pub fn roomy(&self, time: Centis, send_off: SendOff) -> SendOff {
        let fullest = self.all.iter().map(Vec::len).max().unwrap_or_default();
        send_off.max(SendOff::after(time, behind_s(fullest)))
    }

    /// The level of a swim for the lane's slowest; a time without any test to
    /// weigh it by counts as threshold, so that nobody is hurried unknown.
    pub fn level(&self, distance: Distance, time: Centis) -> Level {
        match self.slowest.newest() {
            Some(_) => self.slowest.level(distance, time),
            None => Level::Threshold,
        }
    }

    /// About how long `line` takes the slowest: its target, else what its level
    /// and stroke make likely; `None` where nothing is known of the lane.
    pub fn likely_time(&self, line: &Repeat) -> Option<Centis> {
        let by_level = || {
            let critical = self.slowest.critical.filter(|_| line.level > Level::Easy)?;
            let whole = line.stroke == self.slowest.stroke;
            let pace = at_percent(critical, Band::of(line.level).slow_percent);
            pace.time_for(line.distance).filter(|_| whole)
        };
        line.target.or_else(by_level).or_else(|| self.slowest.easy_time(line.distance, line.stroke))
    }

    /// The send-off that the lane needs at least for `line`; `None` for drills,
    /// kick and other strokes, of which the tests say too little to gainsay a
    /// coach.
    pub fn least_send_off(&self, line: &Repeat) -> Option<SendOff> {
        if line.target.is_none() && !carries_targets(&self.slowest, line.stroke) {
            return None;
        }
        let time = self.likely_time(line)?;
        Some(match line.target {
            Some(_) => {
                let rest_s = even_pace::least_rest_s(line.distance).ceil() as u32;
                self.roomy(time, SendOff::after(time, rest_s))
            }
            // Easy swimming goes round: nobody waits for the last.
            None => SendOff::after(time, 0),
        })
    }

    /// `line` with what to say of its time, where most of those who were tested
    /// could not swim it even once, all out.
    pub fn beyond(&self, line: &Repeat) -> Option<Beyond> {
        let time = line.target.filter(|_| carries_targets(&self.slowest, line.stroke))?;
        let best = |paces: &Paces| paces.predicted(line.distance);
        let bests: Vec<Centis> =
            self.all.iter().flatten().filter_map(best).map(|best| best.time).collect();
        let swimmers = bests.iter().filter(|best| time < **best).count();
        let own = self.target(Aim::CriticalSpeed(HARD_WORK), line.distance);
        let beyond = Beyond { line: line.clone(), swimmers, of: bests.len(), own };
        (2 * swimmers > bests.len()).then_some(beyond)
    }

    /// The usual send-off for `line`, where the coach wrote none.
    pub fn usual_send_off(&self, line: &Repeat) -> SendOff {
        match self.likely_time(line) {
            Some(time) if line.level > Level::Easy => {
                self.roomy(time, Band::of(line.level).send_off(line.distance, time))
            }
            _ => self.slowest.easy_send_off(line.distance, line.stroke),
        }
    }
}

/// Tenths of a percent of critical speed: the middle of the hard level.
const HARD_WORK: u16 = 1025;

/// Seconds from the first leaving to the last, so many behind each other.
fn behind_s(swimmers: usize) -> u32 {
    let gaps = u32::try_from(swimmers.saturating_sub(1)).unwrap_or(u32::MAX);
    Gap::default().seconds().saturating_mul(gaps)
}

/// The time that `aim` means for one swimmer over `distance`.
pub(super) fn own_target(paces: &Paces, aim: Aim, distance: Distance) -> Option<Centis> {
    match aim {
        Aim::CriticalSpeed(tenths) => {
            paces.at(f64::from(tenths) / 10.0, distance).map(|hold| hold.time)
        }
        Aim::TestPace(whole) => {
            let time = paces.predicted(whole)?.time;
            let exact = Pace::of(whole, time).time_for(distance)?;
            let shown = paces.as_shown(paces.level(distance, exact), distance, exact);
            Some(paces.by_coach(distance, shown))
        }
    }
}

/// True for a swim of the stroke that the swimmer was tested in.
pub(super) fn carries_targets(paces: &Paces, stroke: Stroke) -> bool {
    paces.newest().is_some() && stroke == paces.stroke
}
