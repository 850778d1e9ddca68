//! The situation that a text is read in, gathered from the squad as of now.

use jiff::ToSpan;

use crate::coaching::evening::with_own_targets;
use crate::desk::decision::asked::Asked;
use crate::desk::decision::view::View;
use crate::history::{Right, Squad, Swimmer};
use crate::message::{Name, Statement};
use crate::reading::situation::{Known, Line, Phase, Role, SetInForce};
use crate::reading::{self, Situation};
use crate::session::{Part, Session};
use crate::units::{Centis, Stroke};

/// What a text of a member is read by.
pub fn situation(squad: &Squad, asked: &Asked<'_>) -> Situation {
    View::new(squad, asked).situation()
}

/// How a text of a member is read: its fragments, readings and what they cost.
pub fn traced(squad: &Squad, asked: &Asked<'_>) -> reading::Trace {
    reading::trace(asked.text, &situation(squad, asked))
}

impl View<'_> {
    /// What a text of the sender's is read by.
    pub fn situation(&self) -> Situation {
        let pending = self.asked_about().or_else(|| self.shown_for_swum());
        self.situation_before(pending)
    }

    /// The same, with what was told and is not kept yet.
    pub fn situation_before(&self, pending: Option<Vec<Statement>>) -> Situation {
        let now = self.now();
        let evening = self.squad.evening_of(now);
        let local = now.to_zoned_datetime(self.squad.zone());
        let me = self.me().cloned();
        let course = me.as_ref().map_or(self.squad.course, |me| self.course_of(me));
        let people: Vec<Known> =
            self.squad.swimmers.values().map(|swimmer| self.known(swimmer)).collect();
        let booking = self.booking(evening);
        let is_night = self.squad.night(evening, now).is_some();
        let phase = match booking.starts.filter(|_| is_night) {
            None => Phase::None,
            Some(starts) if now < starts => Phase::Before,
            Some(starts)
                if now
                    < starts
                        .saturating_add(i64::from(booking.minutes).minutes())
                        .unwrap_or(now) =>
            {
                Phase::During
            }
            Some(_) => Phase::After,
        };
        let last_night = self.last_night(phase, evening);
        // By handle, as the squad has them.
        let place = |name: &Name| people.binary_search_by(|known| known.name.cmp(name)).ok();
        let shown_night = if phase == Phase::None
            || phase == Phase::Before && self.squad.set_in_force(evening, now).is_none()
        {
            last_night.unwrap_or(evening)
        } else {
            evening
        };
        Situation {
            language: self.language(),
            role: if self.may(Right::SpeakForOthers) { Role::Coach } else { Role::Swimmer },
            me: me.as_ref().and_then(place),
            guardian: me.is_some() && me.as_ref() == self.ward(),
            today: evening,
            time: local.time(),
            course,
            nights: self.squad.weekly_days(self.today, now),
            starts: self.squad.next_night(self.today, now).and_then(|night| night.starts),
            minutes: is_night.then_some(booking.minutes),
            phase,
            set: self.set_of(shown_night, me.as_ref()),
            lanes: (self.as_kept(shown_night).kept.lanes.iter())
                .map(|lane| lane.swimmers.iter().filter_map(place).collect())
                .collect(),
            tested: last_night.and_then(|night| self.tested_on(night)),
            last_night,
            pending: pending.is_some(),
            before: pending.unwrap_or_else(|| self.said_or_named()),
            unfinished: self.unfinished(),
            people,
        }
    }

    fn known(&self, swimmer: &Swimmer) -> Known {
        let mut bests: Vec<(u32, Stroke, Centis)> = Vec::new();
        for kept in swimmer.tests.as_of(self.now()) {
            let trial = kept.what.trial;
            let key = (trial.distance.amount(), trial.stroke);
            match bests.iter_mut().find(|(distance, stroke, _)| (*distance, *stroke) == key) {
                Some((_, _, best)) => *best = (*best).min(trial.time),
                None => bests.push((key.0, key.1, trial.time)),
            }
        }
        Known { name: swimmer.name.clone(), bests }
    }

    /// The last evening that has begun.
    fn last_night(&self, phase: Phase, evening: jiff::civil::Date) -> Option<jiff::civil::Date> {
        if matches!(phase, Phase::During | Phase::After) {
            return Some(evening);
        }
        (1..8i64)
            .map(|days| evening.saturating_sub(days.days()))
            .find(|day| self.squad.night(*day, self.now()).is_some())
    }

    /// The distance that most of those tested on a night swam.
    fn tested_on(&self, night: jiff::civil::Date) -> Option<u32> {
        let now = self.now();
        if let Some(called) = self.squad.test_night_called(now).filter(|called| called.on == night)
        {
            return Some(called.what.amount());
        }
        let mut counts: Vec<(u32, usize)> = Vec::new();
        for swimmer in self.squad.swimmers.values() {
            for kept in swimmer.tests.as_of(now).filter(|kept| kept.on == night) {
                let amount = kept.what.trial.distance.amount();
                match counts.iter_mut().find(|(known, _)| *known == amount) {
                    Some((_, count)) => *count += 1,
                    None => counts.push((amount, 1)),
                }
            }
        }
        let most = counts.into_iter().max_by_key(|(_, count)| *count)?;
        (most.1 > 1).then_some(most.0)
    }

    fn set_of(&self, night: jiff::civil::Date, me: Option<&Name>) -> Option<SetInForce> {
        let now = self.now();
        let evening = self.squad.set_in_force(night, now)?;
        let lane = me.and_then(|me| evening.lane_of(me)?.session_of(me));
        let session = lane.or_else(|| evening.middle())?;
        let session = match me.and_then(|me| self.facts(me)) {
            Some(facts) => with_own_targets(session, &facts, self.booking(night).course),
            None => session.clone(),
        };
        Some(SetInForce { on: night, lines: lines(&session) })
    }

    /// The text that the open question wants more of.
    fn unfinished(&self) -> Option<String> {
        self.open_question()?.text.clone()
    }
}

/// A session's lines, rounds told as repeats.
fn lines(session: &Session) -> Vec<Line> {
    let mut lines = Vec::new();
    for block in &session.blocks {
        for repeat in &block.repeats {
            lines.push(Line {
                count: u32::from(repeat.count) * u32::from(block.rounds),
                distance: repeat.distance.amount(),
                stroke: repeat.stroke,
                send_off: repeat.send_off,
                target: repeat.target,
                main: !matches!(block.part, Part::WarmUp | Part::SwimDown),
            });
        }
    }
    lines
}
