//! The squad and its swimmers.

use super::English;
use crate::reply::phrases::{People, count};
use crate::reply::{Flag, Trend};

impl People for English {
    fn swimmers(&self, number: usize) -> String {
        count(number, "swimmer", "swimmers")
    }

    fn flagged(&self, flag: Flag) -> &'static str {
        match flag {
            Flag::Hurt => "hurt",
            Flag::Overdue => "overdue",
            Flag::Silent => "not heard from",
        }
    }

    fn flag(&self, flag: Flag) -> &'static str {
        match flag {
            Flag::Hurt => "HURT",
            Flag::Overdue => "test due",
            Flag::Silent => "not heard from",
        }
    }

    fn trend(&self, trend: Trend) -> Option<&'static str> {
        match trend {
            Trend::Up => Some("faster"),
            Trend::Down => Some("slower"),
            Trend::Flat => Some("level"),
            Trend::Unknown => None,
        }
    }

    fn no_test_yet(&self) -> &'static str {
        "no test yet"
    }

    fn critical_pace(&self, pace: &str) -> String {
        format!("Critical pace about {pace} per 100.")
    }

    fn bests(&self, list: &str) -> String {
        format!("Bests: {list}.")
    }

    fn latest(&self, list: &str) -> String {
        format!("Latest: {list}.")
    }

    fn focus(&self, focus: &str) -> String {
        format!("Focus: {focus}")
    }
}
