//! The paces of those who swim in a lane: it leaves on one send-off, so the slowest
//! decides, and each must get away before the first leaves again.
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

/// The paces of one day of those who swim in one lane, a gap apart.
pub(super) struct Lane {
    swimmers: Vec<Paces>,
    slowest: Paces,
    gap: Gap,
}

impl Lane {
    /// Those of a lane's `swimmers`; anyone's where they are untested. `None`
    /// for an empty lane.
    pub fn of(swimmers: &[&Facts], course: Course, gap: Gap) -> Option<Lane> {
        let swimmers: Vec<Paces> = swimmers.iter().map(|facts| Paces::of(facts, course)).collect();
        let tested = swimmers.iter().filter(|paces| paces.newest().is_some());
        let by_pace =
            |one: &&Paces, other: &&Paces| one.easy_per_100_s().total_cmp(&other.easy_per_100_s());
        let slowest = tested.max_by(by_pace).or_else(|| swimmers.first())?.clone();
        Some(Lane { swimmers, slowest, gap })
    }

    /// The paces that the lane's send-offs are made from.
    pub fn slowest(&self) -> &Paces {
        &self.slowest
    }

    /// The slowest time that `aim` means for anyone in the lane who can leave
    /// again on `send_off`; who can't has none to hold.
    pub fn target_on(
        &self,
        aim: Aim,
        distance: Distance,
        stroke: Stroke,
        send_off: Option<SendOff>,
    ) -> Option<Centis> {
        let makes_it = |time: &Centis| send_off.is_none_or(|on| *time < on.time());
        self.targets(aim, distance, stroke).into_iter().filter(makes_it).max()
    }

    /// The slowest time that `aim` means for anyone in the lane.
    pub fn target(&self, aim: Aim, distance: Distance, stroke: Stroke) -> Option<Centis> {
        self.targets(aim, distance, stroke).into_iter().max()
    }

    /// True if the first would swim into the last from behind within one repeat.
    pub fn is_lapped(&self, aim: Aim, distance: Distance) -> bool {
        let times = self.targets(aim, distance, self.slowest.stroke);
        let ends = times.iter().min().zip(times.iter().max());
        let lead_s = self.gap.turn(times.len()).seconds().saturating_sub(self.gap.seconds());
        ends.is_some_and(|(fast, slow)| {
            is_lapped(self.slowest.course, distance, *fast, *slow, lead_s)
        })
    }

    /// What `aim` means for each.
    fn targets(&self, aim: Aim, distance: Distance, stroke: Stroke) -> Vec<Centis> {
        let own = |paces: &Paces| own_target(paces, aim, distance, stroke);
        self.swimmers.iter().filter_map(own).collect()
    }

    /// `send_off`, or as much longer as it takes that all leave a gap apart before
    /// the first leaves again. They circle: the last may still be coming home.
    pub fn in_turn(&self, send_off: SendOff) -> SendOff {
        send_off.max(self.gap.turn(self.swimmers.len()))
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
            let pace = at_percent(critical, Band::of(line.level).slow_percent);
            let time = pace.time_for(line.distance)?;
            // Kick and drill are hardly faster for being swum harder.
            let whole = !matches!(line.stroke, Stroke::Kick | Stroke::Drill);
            let slower = self.slowest.times_as_long(line.stroke);
            Centis::from_seconds(time.seconds() * slower).ok().filter(|_| whole)
        };
        line.target.or_else(by_level).or_else(|| self.slowest.easy_time(line.distance, line.stroke))
    }

    /// The send-off that the lane needs at least for `line`, as far as its tests
    /// and other results tell, and whether that rests on a guess; `None` for drills
    /// and choice, which nobody times, and where nothing is known of the lane.
    pub fn least_send_off(&self, line: &Repeat) -> Option<(SendOff, bool)> {
        if matches!(line.stroke, Stroke::Drill | Stroke::Choice) && line.target.is_none() {
            return None;
        }
        let guess = line.target.is_none() && self.slowest.is_guess(line.stroke);
        let time = self.likely_time(line)?;
        let rest_s = match line.target {
            Some(_) => even_pace::least_rest_s(line.distance).ceil() as u32,
            // Easy swimming goes round: nobody waits for the last.
            None => 0,
        };
        Some((self.in_turn(SendOff::after(time, rest_s)), guess))
    }

    /// What would leave the rest of its level.
    pub fn fitting_send_off(&self, line: &Repeat) -> Option<SendOff> {
        self.likely_time(line).map(|_| self.usual_send_off(line))
    }

    /// `line` with what to say of its time, where most of those who were tested
    /// could not swim it even once, all out.
    pub fn beyond(&self, line: &Repeat) -> Option<Beyond> {
        let time = line.target.filter(|_| carries_targets(&self.slowest, line.stroke))?;
        let best = |paces: &Paces| paces.predicted(line.distance);
        let bests: Vec<Centis> =
            self.swimmers.iter().filter_map(best).map(|best| best.time).collect();
        let swimmers = bests.iter().filter(|best| time < **best).count();
        let own = self.target(Aim::CriticalSpeed(HARD_WORK), line.distance, line.stroke);
        let beyond = Beyond { line: line.clone(), swimmers, of: bests.len(), own };
        (2 * swimmers > bests.len()).then_some(beyond)
    }

    /// The usual send-off for `line`, where the coach wrote none.
    pub fn usual_send_off(&self, line: &Repeat) -> SendOff {
        let usual = match self.likely_time(line) {
            Some(time) if line.level > Level::Easy => {
                Band::of(line.level).send_off(line.distance, time)
            }
            _ => self.slowest.easy_send_off(line.distance, line.stroke),
        };
        self.in_turn(usual)
    }

    /// `line` with this lane's time to hold and its usual send-off.
    pub fn aimed(&self, line: &Repeat) -> Repeat {
        let target = |aim| self.target(aim, line.distance, line.stroke);
        let target = line.aim.map_or(line.target, target);
        let line = Repeat { target, rest: None, ..line.clone() };
        Repeat { send_off: Some(self.usual_send_off(&line)), ..line }
    }
}

/// Tenths of a percent of critical speed: the middle of the hard level.
const HARD_WORK: u16 = 1025;

/// The time that `aim` means for one swimmer over `distance` in `stroke`; none
/// where nothing of theirs tells of that stroke.
pub(super) fn own_target(
    paces: &Paces,
    aim: Aim,
    distance: Distance,
    stroke: Stroke,
) -> Option<Centis> {
    if !carries_targets(paces, stroke) {
        return None;
    }
    match aim {
        Aim::CriticalSpeed(tenths) => {
            let hold = paces.at(f64::from(tenths) / 10.0, distance)?;
            match stroke == paces.stroke {
                true => Some(hold.time),
                false => {
                    let seconds = hold.time.seconds() * paces.times_as_long(stroke);
                    Centis::from_seconds(seconds).ok().map(Centis::to_second)
                }
            }
        }
        Aim::TestPace(whole) => {
            let time = paces.predicted(whole)?.time;
            let exact = Pace::of(whole, time).time_for(distance)?;
            let shown = paces.as_shown(paces.level(distance, exact), distance, exact);
            Some(paces.by_coach(distance, shown)).filter(|_| stroke == paces.stroke)
        }
    }
}

/// True for a swim of the stroke that the swimmer was tested in, and of another
/// whole stroke of which a test of theirs tells.
pub(super) fn carries_targets(paces: &Paces, stroke: Stroke) -> bool {
    let whole = !matches!(stroke, Stroke::Kick | Stroke::Drill | Stroke::Pull | Stroke::Choice);
    paces.newest().is_some() && whole && !paces.is_guess(stroke)
}
