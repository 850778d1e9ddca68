//! A reported set, with what its text left unsaid.

use jiff::civil::Date;

use super::bench::Desk;
use crate::coaching::evening::with_own_targets;
use crate::coaching::{self, Facts};
use crate::message::{self, Name};
use crate::session::{Repeat, Session};
use crate::units::{Distance, Level, Stroke};

impl Desk<'_> {
    /// The set as it was swum, with the target it is judged by: that of the
    /// squad's set of the night it was a part of, else what her own sessions and
    /// tests say.
    pub fn set_swum(
        &self,
        who: &Name,
        on: Date,
        facts: &Facts,
        set: &message::SetResult,
        distance: Distance,
    ) -> Repeat {
        let reported = Repeat {
            count: set.count,
            distance,
            stroke: set.stroke.unwrap_or(Stroke::Free),
            target: set.target,
            send_off: set.send_off,
            rest: set.rest,
            aim: None,
            level: Level::Threshold,
            equipment: set.equipment.clone(),
            cue: None,
        };
        let repeat = match self.line_that_night(who, on, facts, &reported) {
            Some(line) => Repeat {
                target: reported.target.or(line.target),
                send_off: reported.send_off.or(line.send_off),
                rest: reported.rest.or(line.rest),
                ..reported
            },
            None => reported,
        };
        let target = repeat.target.or_else(|| coaching::target_for(facts, &repeat));
        Repeat { target, ..repeat }
    }

    /// What her lane swam, or was to swim, that night; the middle one's where she was
    /// in none.
    pub fn session_that_night(&self, who: &Name, on: Date) -> Option<Session> {
        let evening = self.squad.set_in_force(on, self.now())?;
        let lane = evening.lane_of(who).and_then(|lane| lane.session_of(who));
        lane.or_else(|| evening.middle()).cloned()
    }

    /// The line of her lane's set that night by which she swam such repeats, with
    /// her own time to hold.
    fn line_that_night(
        &self,
        who: &Name,
        on: Date,
        facts: &Facts,
        swum: &Repeat,
    ) -> Option<Repeat> {
        let session = self.session_that_night(who, on)?;
        let own = with_own_targets(&session, facts, self.booking(on).course);
        let mut lines = own.main().flat_map(|block| &block.repeats);
        lines
            .find(|line| {
                line.level > Level::Easy
                    && line.distance == swum.distance
                    && line.stroke == swum.stroke
                    && swum.send_off.is_none_or(|send_off| line.send_off == Some(send_off))
                    && swum.rest.is_none_or(|rest| line.rest == Some(rest))
            })
            .cloned()
    }
}
