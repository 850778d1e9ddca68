//! What is known of what was asked.

use super::English;
use crate::reply::SwumReply;
use crate::reply::phrases::{Questions, count};

impl Questions for English {
    fn test_called(&self, distance: u32, day: &str) -> String {
        format!("next test {distance} on {day}, the squad's test night.")
    }

    fn test_due(&self, from: Option<&str>, distance: Option<u32>, last: &str) -> String {
        let due =
            from.map_or("a test is due now".to_owned(), |from| format!("next test due {from}"));
        let best = distance.map_or(String::new(), |far| format!(", best a {far}"));
        format!("{due}{best}. Last: {last}.")
    }

    fn first_test(&self) -> &'static str {
        "no test yet: an even 200 or 400, fresh and warmed up, then text 200 test 3:12"
    }

    fn test_waits(&self) -> &'static str {
        "no test while something is open (pain, illness, a hold or a stop)."
    }

    fn swims_in(&self, lane: &str, day: &str) -> String {
        format!("in {lane} on {day}.")
    }

    fn nobody_in(&self) -> &'static str {
        "nobody"
    }

    fn swum_in(&self, days: &str, swum: &SwumReply) -> String {
        let mut said = vec![match swum.sessions {
            0 => "no session on record".to_owned(),
            sessions => count(sessions, "session", "sessions"),
        }];
        said.extend((swum.metres > 0).then(|| format!("{}m", swum.metres)));
        said.extend((swum.tests > 0).then(|| count(swum.tests, "test", "tests")));
        said.extend((swum.sets > 0).then(|| count(swum.sets, "set with times", "sets with times")));
        format!("{days}: {}.", said.join(", "))
    }

    fn counted_back_to(&self, day: &str) -> String {
        format!("I count no further back than {day}.")
    }

    fn held_so_many(&self, held: u16, of: u16) -> String {
        format!("held {held} of {of}")
    }

    fn is_on(&self, night: &str) -> String {
        format!("It is on: {night}.")
    }

    fn begins_at(&self, time: &str) -> String {
        format!("begins {time}.")
    }

    fn booked_until(&self, time: &str, left_min: Option<u32>) -> String {
        match left_min {
            Some(left) => format!("Booked until {time}, {left} min left."),
            None => format!("Booked until {time}."),
        }
    }

    fn one_of_so_many(&self, number: u16, of: u16) -> String {
        format!("no {number} of {of}")
    }

    fn in_round(&self, round: u16, of: u16) -> String {
        format!("round {round} of {of}")
    }

    fn on_the_way_to(&self, part: &str) -> String {
        format!("changing over to the {part}")
    }

    fn and_then(&self, parts: &str) -> String {
        format!("then {parts}")
    }

    fn lane_ends(&self, time: &str) -> String {
        format!("ends {time}")
    }

    fn all_swum(&self) -> &'static str {
        "done by the clock"
    }

    fn no_lanes(&self, day: &str) -> String {
        format!("No lanes are drawn for {day} yet.")
    }

    fn no_results(&self, day: Option<&str>) -> String {
        match day {
            Some(day) => format!("No times on record for {day}."),
            None => "No times on record yet.".to_owned(),
        }
    }

    fn no_set_on(&self, day: &str) -> String {
        format!("No set of the squad's on record for {day}.")
    }

    fn no_test_night(&self) -> &'static str {
        "No test night is called. To call one: test night 400 thu"
    }

    fn no_night_on(&self, day: &str) -> String {
        format!("No squad night on {day}.")
    }

    fn nights_unknown(&self) -> &'static str {
        "Nobody has told me when the squad swims: ask your coach."
    }

    fn carried_to_deck(&self, who: &str, asks: bool, text: &str) -> String {
        format!("{who} {}: {text}", if asks { "asks" } else { "says" })
    }

    fn guardian_of(&self, names: &str) -> String {
        format!("The guardian of {names}")
    }

    fn given_to_deck(&self) -> &'static str {
        "Passed on to your coach."
    }
}
