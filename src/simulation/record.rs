//! The facts of a virtual swimmer, kept as their texts and plans come in.

use jiff::ToSpan;
use jiff::civil::Date;

use super::report::Report;
use super::swimmer::Swimmer;
use crate::coaching::{self, Facts, SetSwum, Swum, Trouble, Week, WeekPlanned};
use crate::session::Session;
use crate::swim::Trial;
use crate::units::{Distance, Stroke};

/// What coaching gets to know of them.
#[derive(Debug, Clone)]
pub struct Record {
    facts: Facts,
}

impl Record {
    /// A record opened on `joined`.
    pub fn of(swimmer: &Swimmer, joined: Date) -> Self {
        Self {
            facts: Facts {
                handle: swimmer.handle.clone(),
                sessions_a_week: swimmer.sessions_a_week,
                ..Facts::of_nobody(joined, swimmer.course, swimmer.minutes)
            },
        }
    }

    /// The facts on `today`.
    pub fn on(&mut self, today: Date) -> &Facts {
        self.facts.today = today;
        &self.facts
    }

    /// True while pain or illness is open.
    pub fn something_open(&self) -> bool {
        !self.facts.open.is_empty()
    }

    /// What a sheet of paper makes of a text: nothing, but for a test, which it
    /// takes as swum with the old result.
    pub fn ignored(&mut self, on: Date, report: &Report) {
        if let (Report::Test { .. }, Some(first)) = (report, self.facts.tests.first()) {
            let same = Trial { on, ..*first };
            self.facts.tests.push(same);
        }
    }

    /// What a sheet of paper makes of a session whose day has come: it was swum.
    pub fn taken_as_swum(&mut self, session: &Session) {
        self.facts.swims.push(Swum {
            on: session.on,
            distance: Distance::new(session.amount(), session.unit).ok(),
            minutes: None,
            rpe: None,
            presumed: true,
            effort_alone: false,
            hard: coaching::is_hard(session),
        });
    }

    /// Keeps a plan.
    pub fn planned(&mut self, week: &Week) {
        if let Ok(distance) = Distance::new(week.distance(), week.unit()) {
            self.facts.weeks.push(WeekPlanned {
                starts: week.starts,
                kind: week.kind,
                distance,
                days: week.days(),
            });
        }
        let old = self.facts.today.saturating_sub(112.days());
        self.facts.weeks.retain(|week| week.starts >= old);
    }

    /// Keeps what they texted on `on` of `session`.
    pub fn heard(&mut self, on: Date, session: Option<&Session>, report: &Report) {
        let facts = &mut self.facts;
        match report {
            Report::Test { distance, time } => facts.tests.push(Trial {
                distance: *distance,
                time: *time,
                stroke: Stroke::Free,
                course: facts.course,
                on,
                meet: false,
            }),
            Report::Set { set, times } => {
                let held = set.target.map(|target| crate::swim::set::analyse(target, times).held);
                let held = held.and_then(|held| u16::try_from(held).ok()).unwrap_or(0);
                facts.sets.push(SetSwum { on, set: set.clone(), times: times.clone(), held });
            }
            Report::Done { distance, minutes, rpe } => facts.swims.push(Swum {
                on,
                distance: Some(*distance),
                minutes: Some(*minutes),
                rpe: Some(*rpe),
                presumed: false,
                effort_alone: false,
                hard: session.is_some_and(coaching::is_hard),
            }),
            Report::Ill { fever } => facts.open.push(Trouble::Ill { since: on, fever: *fever }),
            Report::Pain { place, level } => facts.open.push(Trouble::Pain {
                since: on,
                place: (*place).to_owned(),
                level: Some(*level),
            }),
            Report::Better => facts.open.clear(),
            Report::Missed => {}
        }
        let old = on.saturating_sub(112.days());
        facts.swims.retain(|swim| swim.on >= old);
        facts.sets.retain(|set| set.on >= old);
    }
}
