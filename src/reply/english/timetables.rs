//! The squad's evenings.

use super::English;
use crate::reply::phrases::{Timetables, Words, count};
use jiff::civil::Date;

impl Timetables for English {
    fn every(&self, weekday: &str) -> String {
        format!("every {weekday}")
    }

    fn lanes_there(&self, number: u8) -> String {
        count(usize::from(number), "lane", "lanes")
    }

    fn shut_then(&self) -> &'static str {
        "pool shut"
    }

    fn no_nights(&self) -> &'static str {
        "No squad nights yet. To set one: slot tue 2000-2100 4 lanes"
    }

    fn set_moves(&self, hard: bool, to: Date) -> String {
        format!("Its {}set moves to {}.", if hard { "hard " } else { "" }, self.day(to))
    }

    fn set_left_out(&self, hard: bool) -> &'static str {
        if hard {
            "Its hard set is left out: hard days stay apart, no catching up."
        } else {
            "Its set is left out: no catching up."
        }
    }

    fn plans_leave_it_out(&self, number: usize, hard: usize) -> String {
        let leave = if number == 1 { "1 plan leaves" } else { &format!("{number} plans leave") };
        let hard = if hard > 0 { format!(" ({hard} hard)") } else { String::new() };
        format!("{leave} the day out{hard}; NEXT works it out anew.")
    }

    fn next_night(&self, night: &str) -> String {
        format!("Next night: {night}.")
    }
}
