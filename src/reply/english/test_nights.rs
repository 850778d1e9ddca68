//! The heats of a test night, who counts, and who is owed one.

use super::English;
use crate::reply::phrases::{TestNights, count};

impl TestNights for English {
    fn test_night_of(&self, distance: &str, day: &str) -> String {
        format!("Test {distance}, {day}")
    }

    fn heats_take(&self, number: usize, minutes: u32) -> String {
        format!("{}, fastest first, {minutes} min", count(number, "heat", "heats"))
    }

    fn heat(&self, number: usize, minutes: u32) -> String {
        format!("Heat {number}, {minutes} min")
    }

    fn in_heat(&self, heat: usize, of: usize, lane: &str) -> String {
        format!("heat {heat} of {of}, {lane}")
    }

    fn about(&self, time: &str) -> String {
        format!(", about {time}")
    }

    fn counted_by(&self, name: &str) -> String {
        format!(", {name} counts")
    }

    fn counts_for(&self, heat: usize, name: &str) -> String {
        format!("; you count for {name} in heat {heat}")
    }

    fn counting(&self, heats: usize) -> &'static str {
        match heats {
            1 => "Lengths are counted from the deck.",
            _ => "Lengths are counted by the same lane of the next heat, for the last by heat 1.",
        }
    }

    fn even_instead(&self, swims: usize, names: &str) -> String {
        let swims = count(swims, "more swim", "more swims");
        format!("A comfortable, even 200 instead, flat out after {swims}: {names}.")
    }

    fn even_too(&self, swims: usize, names: &str) -> String {
        format!("After {swims} more: {names}.")
    }

    fn easy_instead(&self, names: &str) -> String {
        format!("Easy swim instead: {names}.")
    }

    fn still_owed(&self, names: &str, catch_up: Option<&str>) -> String {
        match catch_up {
            Some(day) => format!("Still owed one: {names}. Catch up {day}."),
            None => format!("Still owed one: {names}."),
        }
    }

    fn none_owed(&self) -> &'static str {
        "Nobody is owed one."
    }
}
