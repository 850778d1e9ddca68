//! A reported set, with what its text left unsaid.

use jiff::civil::Date;

use crate::coaching::evening::with_own_targets;
use crate::coaching::{self, Facts};
use crate::desk::decision::view::View;
use crate::message::{self, Name};
use crate::session::{Repeat, Session};
use crate::units::{Distance, Lane, Level, Stroke};

impl View<'_> {
    /// The set as it was swum, with the target it is judged by: that of the
    /// squad's set of the night it was a part of, else what their own sessions and
    /// tests say; and their lane where it was a part of that.
    pub fn set_swum(
        &self,
        who: &Name,
        on: Date,
        facts: &Facts,
        set: &message::SetResult,
        distance: Distance,
    ) -> (Repeat, Option<Lane>) {
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
        let line = self.line_that_night(who, on, facts, &reported);
        let lane = line.as_ref().and_then(|_| {
            let evening = self.squad.set_in_force(on, self.now())?;
            Some(evening.lane_of(who)?.lane)
        });
        let repeat = match line {
            Some(line) => Repeat {
                target: reported.target.or(line.target),
                send_off: reported.send_off.or(line.send_off),
                rest: reported.rest.or(line.rest),
                ..reported
            },
            None => reported,
        };
        let target = repeat.target.or_else(|| coaching::target_for(facts, &repeat));
        (Repeat { target, ..repeat }, lane)
    }

    /// A result that says how many of the night's set were made. Where the text says no
    /// number of repeats, their lane's counts: `lane 3 all made it`.
    pub fn of_their_lane(
        &self,
        who: &Name,
        on: Date,
        set: &message::SetResult,
    ) -> message::SetResult {
        let set = set.clone();
        let (Some(made), true) = (set.made, set.times.is_empty() && set.average.is_none()) else {
            return set;
        };
        let said = |count: u16| self.asked.text.contains(&count.to_string());
        let swum = || {
            let session = self.session_that_night(who, on)?;
            let alike = |line: &Repeat| {
                line.level > Level::Easy && line.distance.amount() == set.distance.amount
            };
            let each = session.main_lines().filter(|(_, line)| alike(line));
            u16::try_from(each.map(|(count, _)| count).sum::<u32>()).ok().filter(|all| *all > 0)
        };
        let own = swum().filter(|own| *own != set.count && !said(set.count));
        let Some(own) = own else { return set };
        let made = if made == set.count { own } else { made.min(own) };
        message::SetResult { count: own, made: Some(made), of: Some(own), ..set }
    }

    /// What their lane swam, or was to swim, that night; the middle one's where they were
    /// in none.
    pub fn session_that_night(&self, who: &Name, on: Date) -> Option<Session> {
        let evening = self.squad.set_in_force(on, self.now())?;
        let lane = evening.lane_of(who).and_then(|lane| lane.session_of(who));
        lane.or_else(|| evening.middle()).cloned()
    }

    /// The line of their lane's set that night by which they swam such repeats, with
    /// their own time to hold.
    fn line_that_night(
        &self,
        who: &Name,
        on: Date,
        facts: &Facts,
        swum: &Repeat,
    ) -> Option<Repeat> {
        let session = self.session_that_night(who, on)?;
        let own = with_own_targets(&session, facts, self.booking(on).course);
        // What was changed on the way is more than one line: the most of it counts.
        let most = own
            .main_lines()
            .filter(|(_, line)| {
                line.level > Level::Easy
                    && line.distance == swum.distance
                    && line.stroke == swum.stroke
                    && swum.send_off.is_none_or(|send_off| line.send_off == Some(send_off))
                    && swum.rest.is_none_or(|rest| line.rest == Some(rest))
            })
            .max_by_key(|(count, _)| *count);
        most.map(|(count, line)| Repeat {
            count: u16::try_from(count).unwrap_or(u16::MAX),
            ..line.clone()
        })
    }
}
