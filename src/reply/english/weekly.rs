//! The texts that come every week.

use super::English;
use crate::profile::Unasked;
use crate::reply::WeeklyRefusal;
use crate::reply::phrases::{Weeklies, count};

impl Weeklies for English {
    fn week_of(&self, squad: &str, days: &str, swam: usize) -> String {
        format!("{squad}, {days}: {swam} swam.")
    }

    fn days_to(&self, from: &str, to: &str) -> String {
        format!("{from} to {to}")
    }

    fn tested(&self, list: &str) -> String {
        format!("Tested: {list}.")
    }

    fn came(&self, list: &str) -> String {
        format!("Days swum: {list}.")
    }

    fn getting_faster(&self, names: &str) -> String {
        format!("Improving: {names}.")
    }

    fn getting_slower(&self, names: &str) -> String {
        format!("Fading: {names}.")
    }

    fn not_heard_from(&self, names: &str) -> String {
        format!("Not heard from: {names}.")
    }

    fn tests_overdue(&self, names: &str) -> String {
        format!("Test overdue: {names}.")
    }

    fn tests_fall_due(&self, names: &str) -> String {
        format!("Test due this coming week: {names}.")
    }

    fn nights_ahead(&self, list: &str) -> String {
        format!("Nights ahead: {list}.")
    }

    fn night_of_test(&self, day: &str, distance: u32) -> String {
        format!("{day} (test {distance})")
    }

    fn quiet_week(&self) -> &'static str {
        "A quiet week: nobody swam, nothing to tell."
    }

    fn your_week(&self, days: &str, swims: usize, metres: u32) -> String {
        let far = if metres > 0 { format!(", {metres}m") } else { String::new() };
        format!("Your week, {days}: swam on {}{far}.", count(swims, "day", "days"))
    }

    fn you_held(&self, set: &str, held: u16, of: u16) -> String {
        format!("{set}: held {held} of {of}.")
    }

    fn go_carefully(&self) -> &'static str {
        "Go easy for now, and stop if it hurts."
    }

    fn test_is_due(&self) -> &'static str {
        "A test is due when you feel fresh."
    }

    fn to_end_notes(&self) -> &'static str {
        "WEEKLY OFF ends these notes."
    }

    fn digest_comes(&self, when: &str, counts: bool) -> String {
        let counts = if counts { ", and the count of who comes on squad nights" } else { "" };
        format!("The week's digest comes {when}{counts}. DIGEST OFF ends it.")
    }

    fn digest_ends(&self, counts: bool) -> &'static str {
        if counts {
            "No weekly digest any more; the count on squad nights still comes. DIGEST shows the week."
        } else {
            "No weekly digest and no counts any more. DIGEST shows the week."
        }
    }

    fn note_comes(&self, when: &str) -> String {
        format!(
            "A note of your week comes {when} when you swam. WEEKLY OFF ends it, WEEKLY shows it now."
        )
    }

    fn note_ends(&self) -> &'static str {
        "No weekly note any more. WEEKLY shows your week."
    }

    fn shown_whole(&self, what: Unasked) -> &'static str {
        match what {
            Unasked::Count => "SQUAD TONIGHT shows it all.",
            Unasked::Digest => "DIGEST shows it all.",
            Unasked::Note => "WEEKLY shows it all.",
            Unasked::Advice => "WEEKLY shows your sets.",
        }
    }

    fn weekly_refusal(&self, why: WeeklyRefusal) -> &'static str {
        match why {
            WeeklyRefusal::Minor => "Weekly notes are for grown-ups. ME shows how you are doing.",
            WeeklyRefusal::HersToSay => {
                "A weekly note is the swimmer's own to ask for: WEEKLY ON, from her telephone."
            }
            WeeklyRefusal::QuietHours => {
                "Nothing is sent unasked between 20:00 and 08:00. Like this: digest sun 18:00"
            }
        }
    }
}
