//! Whether plans wait for the coach's yes, and those that do.

use jiff::Timestamp;
use jiff::civil::Date;
use serde::{Deserialize, Serialize};

use super::{Squad, Swimmer};
use crate::coaching::{WeekPlanned, WeekWish};
use crate::session::Session;

/// A week that a swimmer asked for and that waits for the coach's yes.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct PlanWaiting {
    /// The message that asked for it.
    pub cause: u64,
    /// What was asked.
    pub wish: WeekWish,
    /// The week.
    pub week: WeekPlanned,
    /// Its sessions, whole.
    pub sessions: Vec<Session>,
}

impl Squad {
    /// True if plans wait for the coach's yes.
    pub fn approves_plans(&self, now: Timestamp) -> bool {
        self.approval.at(now).copied().unwrap_or_default()
    }

    /// True if a room may hear who swims in which lane.
    pub fn names_in_rooms_at(&self, now: Timestamp) -> bool {
        self.names_in_rooms.at(now).copied().unwrap_or_default()
    }
}

impl Swimmer {
    /// The plan of theirs that waits at `now`, until the last of its days is over.
    pub fn plan_waiting(&self, today: Date, now: Timestamp) -> Option<&PlanWaiting> {
        let waiting = self.waiting.at(now)?.as_ref()?;
        waiting.week.days.iter().any(|(day, _)| *day >= today).then_some(waiting)
    }
}
