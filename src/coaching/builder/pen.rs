//! Writes single lines of a session at a pace that the swimmer has.

use super::Setting;
use crate::coaching::drills::Drill;
use crate::coaching::paces::Hold;
use crate::session::{Block, Cue, Part, Repeat, Session};
use crate::units::{Distance, Level, SendOff, Stroke};

impl Setting<'_> {
    /// The session that these blocks are.
    pub fn session(&self, blocks: Vec<Block>) -> Session {
        Session {
            on: self.on,
            purpose: self.purpose,
            unit: self.paces.unit(),
            blocks: blocks.into(),
            rules: self.because.iter().map(|rule| rule.id().to_owned()).collect(),
            without: Vec::new(),
        }
    }

    /// Puts what the coach wants thought of on the first line of the warm-up.
    pub fn put_focus(&self, warm_up: Option<&mut Block>) {
        let first = warm_up.and_then(|warm| warm.repeats.first_mut());
        if let (Some(focus), Some(line)) = (&self.focus, first) {
            line.cue = Some(Cue::Coach(focus.clone()));
        }
    }

    /// `count` easy swims; with a target only in the stroke that was tested.
    pub fn easy(&self, count: u16, amount: u32, stroke: Stroke) -> Option<Repeat> {
        let distance = self.distance(amount)?;
        let send_off = self.paces.easy_send_off(distance, stroke);
        let tested = stroke == self.stroke() && stroke == self.paces.stroke;
        let target = match tested && self.targets_shown {
            true => self.paces.at(84.0, distance).map(|hold| hold.time),
            false => None,
        };
        Some(self.line(count, distance, stroke, target.zip(Some(send_off)), send_off, Level::Easy))
    }

    /// `count` swims at `percent` of critical speed.
    pub fn at(&self, count: u16, amount: u32, percent: f64) -> Option<Repeat> {
        let hold = self.paces.at(percent, self.distance(amount)?)?;
        self.held(count, amount, hold)
    }

    /// `count` swims at a pace already settled.
    pub fn held(&self, count: u16, amount: u32, hold: Hold) -> Option<Repeat> {
        let distance = self.distance(amount)?;
        let stroke = self.stroke_for(amount);
        let timed = Some((hold.time, hold.send_off));
        (hold.time < hold.send_off.time() && self.targets_shown)
            .then(|| self.line(count, distance, stroke, timed, hold.send_off, hold.level))
    }

    /// `count` swims of a drill.
    pub fn drilled(&self, count: u16, amount: u32, drill: &Drill) -> Option<Repeat> {
        let distance = self.distance(amount)?;
        let send_off = self.paces.easy_send_off(distance, Stroke::Drill);
        let mut line = self.line(count, distance, Stroke::Drill, None, send_off, Level::Easy);
        line.equipment = drill.equipment.into_iter().collect();
        line.cue = Some(Cue::Drill(drill.id.to_owned()));
        Some(line)
    }

    /// The tested stroke, or choice where the distance can't hold a medley.
    pub fn stroke_for(&self, amount: u32) -> Stroke {
        match self.stroke() {
            Stroke::Im if !amount.is_multiple_of(4 * self.length()) => Stroke::Choice,
            stroke => stroke,
        }
    }

    fn distance(&self, amount: u32) -> Option<Distance> {
        Distance::new(amount, self.paces.unit()).ok()
    }

    fn line(
        &self,
        count: u16,
        distance: Distance,
        stroke: Stroke,
        timed: Option<(crate::units::Centis, SendOff)>,
        send_off: SendOff,
        level: Level,
    ) -> Repeat {
        Repeat {
            count,
            distance,
            stroke,
            target: timed.filter(|(target, on)| *target < on.time()).map(|(target, _)| target),
            send_off: Some(send_off),
            rest: None,
            aim: None,
            level,
            equipment: Vec::new(),
            cue: None,
        }
    }
}

/// One block, once through.
pub(super) fn once(part: Part, repeats: Vec<Repeat>) -> Block {
    Block { part, rounds: 1, repeats }
}
