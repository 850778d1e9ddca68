//! The paces of those who share a lane: it leaves together, so the slowest
//! decides.
//!
//! Knows paces; not how swimmers come to a lane, nor what is swum in it.

use crate::coaching::Facts;
use crate::coaching::paces::Paces;
use crate::session::{Aim, Repeat};
use crate::swim::even_pace;
use crate::swim::levels::{Band, at_percent};
use crate::swim::prediction::predict;
use crate::units::{Centis, Course, Distance, Level, Pace, SendOff, Stroke};

/// The paces of a lane's swimmers on one day.
pub(super) struct Lane {
    all: Vec<Paces>,
    slowest: Paces,
    today: jiff::civil::Date,
}

impl Lane {
    /// Those of `swimmers`; anyone's where the lane is empty or untested.
    pub fn of(swimmers: &[&Facts], course: Course) -> Option<Lane> {
        let today = swimmers.first()?.today;
        let all: Vec<Paces> = swimmers.iter().map(|facts| Paces::of(facts, course)).collect();
        let tested = all.iter().filter(|paces| paces.newest().is_some());
        let by_pace =
            |one: &&Paces, other: &&Paces| one.easy_per_100_s().total_cmp(&other.easy_per_100_s());
        let slowest = tested.max_by(by_pace).or_else(|| all.first())?.clone();
        Some(Lane { all, slowest, today })
    }

    /// The paces that the lane's send-offs are made from.
    pub fn slowest(&self) -> &Paces {
        &self.slowest
    }

    /// The slowest time that `aim` means for anyone in the lane.
    pub fn target(&self, aim: Aim, distance: Distance) -> Option<Centis> {
        self.all.iter().filter_map(|paces| own_target(paces, aim, distance, self.today)).max()
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
        let rest_s = match line.target {
            Some(_) => even_pace::least_rest_s(line.distance).ceil() as u32,
            None => 0,
        };
        self.likely_time(line).map(|time| SendOff::after(time, rest_s))
    }

    /// The usual send-off for `line`, where the coach wrote none.
    pub fn usual_send_off(&self, line: &Repeat) -> SendOff {
        match self.likely_time(line) {
            Some(time) if line.level > Level::Easy => {
                Band::of(line.level).send_off(line.distance, time)
            }
            _ => self.slowest.easy_send_off(line.distance, line.stroke),
        }
    }
}

/// The time that `aim` means for one swimmer over `distance`.
pub(super) fn own_target(
    paces: &Paces,
    aim: Aim,
    distance: Distance,
    today: jiff::civil::Date,
) -> Option<Centis> {
    match aim {
        Aim::CriticalSpeed(tenths) => {
            paces.at(f64::from(tenths) / 10.0, distance).map(|hold| hold.time)
        }
        Aim::TestPace(whole) => {
            let swum = paces.tests.iter().rev().find(|test| test.distance == whole);
            let time = match swum {
                Some(test) => test.time,
                None => predict(&paces.tests, today, paces.stroke, paces.course, whole)?.time,
            };
            let exact = Pace::of(whole, time).time_for(distance)?;
            Some(paces.as_shown(paces.level(distance, exact), distance, exact))
        }
    }
}

/// True for a swim of the stroke that the swimmer was tested in.
pub(super) fn carries_targets(paces: &Paces, stroke: Stroke) -> bool {
    paces.newest().is_some() && stroke == paces.stroke
}
