//! The squad and its swimmers.

use super::English;
use crate::coaching::{After, Trouble};
use crate::message::Name;
use crate::reply::phrases::{People, Words, count};
use crate::reply::{Flag, Trend};

impl People for English {
    fn own_page(&self, url: &str, hours: i64) -> String {
        format!("Drawn, and to take along: {url} - yours alone, for {hours} hours.")
    }

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

    fn across(&self, at_meet: bool) -> &'static str {
        if at_meet { "a meet beside training" } else { "training beside a meet" }
    }

    fn at_meet(&self) -> &'static str {
        ", meet"
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

    fn over(&self, trouble: &str, day: &str) -> String {
        format!("Over on {day}: {trouble}.")
    }

    fn open(&self, trouble: &Trouble) -> String {
        match trouble {
            Trouble::Pain { since, place, level } => {
                let level = level.map(|level| format!(" {level}")).unwrap_or_default();
                format!("{place}{level} since {}", self.short_day(*since))
            }
            Trouble::Ill { since, fever: false } => format!("ill since {}", self.short_day(*since)),
            Trouble::Ill { since, .. } => format!("fever since {}", self.short_day(*since)),
            Trouble::Mending { since, after: After::Away } => {
                format!("back since {}", self.short_day(*since))
            }
            Trouble::Mending { since, .. } => format!("mending since {}", self.short_day(*since)),
            Trouble::Faint { since } => format!("STOPPED since {}", self.short_day(*since)),
            Trouble::Held { since } => format!("held to easy since {}", self.short_day(*since)),
        }
    }

    fn may_release(&self) -> &'static str {
        "A stop or a hold ends with RELEASE and the name, from the coach."
    }

    fn next_race(&self, race: &str, day: &str) -> String {
        format!("Race: {race}, {day}.")
    }

    fn noted_on(&self, day: &str, text: &str) -> String {
        format!("Note of {day}: {text}")
    }

    fn put_right(&self, trial: &str, was: &str, by: Option<&Name>, day: &str) -> String {
        let by = by.map_or("the coach", Name::as_str);
        format!("{trial}: was {was}, put right by {by} {day}.")
    }

    fn passed_on(&self, text: &str) -> String {
        format!("From your coach: {text}")
    }
}
