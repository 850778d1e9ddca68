//! The squad at a glance.

use super::English;
use crate::message::SquadFilter;
use crate::reply::phrases::{Glances, Group};

impl Glances for English {
    fn group(&self, group: Group) -> &'static str {
        match group {
            Group::Hurt => "HURT",
            Group::Silent => "Not heard from",
            Group::Slower => "Slower",
            Group::Faster => "Faster",
            Group::Overdue => "Test due",
            Group::Untested => "No test yet",
        }
    }

    fn asked_for(&self, filter: SquadFilter, number: usize) -> String {
        let number = match number {
            0 => "nobody".to_owned(),
            number => number.to_string(),
        };
        match filter {
            SquadFilter::Overdue => format!("{number} due a test"),
            SquadFilter::Hurt => format!("{number} hurt or ill"),
            SquadFilter::Silent => format!("{number} not heard from"),
            SquadFilter::Improving => format!("{number} really faster than the test before"),
            SquadFilter::Fading => format!("{number} really slower than the test before"),
            SquadFilter::Owed => format!("{number} still owed the test"),
            SquadFilter::Expected => format!("{number} coming"),
            SquadFilter::Races => format!("{number} with a race to come"),
            SquadFilter::Pace => format!("{number} by pace"),
        }
    }

    fn by_pace(&self) -> &'static str {
        "Critical pace per 100:"
    }
}
