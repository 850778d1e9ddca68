//! Sessions and weeks.

use super::English;
use crate::coaching::WeekKind;
use crate::reply::News;
use crate::reply::phrases::{Sessions, count};
use crate::units::SendOff;

impl Sessions for English {
    fn head(&self, day: &str, distance: &str, minutes: u32, title: &str) -> String {
        format!("{day}, {distance} in {minutes} min, {title}:")
    }

    fn week(&self, kind: WeekKind, starts: &str, sessions: usize, distance: &str) -> String {
        let sessions = count(sessions, "session", "sessions");
        format!("{} week from {starts}: {sessions}, {distance}.", self::kind(kind))
    }

    fn lane(&self, lane: u8) -> String {
        format!("L{lane}")
    }

    fn stop_rule(&self, over: &str, then: Option<SendOff>) -> String {
        match then {
            Some(on) => {
                format!("Two running over {over}: on {on}, same pace; again: easy to the end.")
            }
            None => format!("Two running over {over}: leave out the rest of the round."),
        }
    }

    fn before_it(&self) -> &'static str {
        "Before it:"
    }

    fn only_if_well(&self) -> &'static str {
        "For when you are well and clear days have passed: text BETTER when you are."
    }

    fn unheard_since(&self, day: &str) -> String {
        format!("No swim told since {day}: if you swam, text it with its day (done 1500 fri).")
    }

    fn then_the_race(&self) -> &'static str {
        "The race comes before the swim-down. Swim your own race, and text me the time."
    }

    fn how_to_test(&self, distance: u32) -> String {
        format!(
            "Even from the first length, as fast as you can keep up. Then: {distance} test and the time."
        )
    }

    fn for_alone(&self) -> &'static str {
        "At squad night swim the squad's set (TONIGHT); this is for a swim alone."
    }

    fn harder_sessions_after_yes(&self) -> &'static str {
        "Harder ones come after your coach's yes: PLAN asks for a week."
    }

    fn another_than_told(&self, day: &str, news: News) -> String {
        let why = match news {
            News::Away => "you are away then",
            News::Better => "you are on the way back",
            News::Break => "you have been out of the water",
            News::Corrected => "a result was put right",
            News::Done => "the last swim says so",
            News::Elsewhere => "you trained hard elsewhere",
            News::Limits => "something is left out, or set by your coach",
            News::Profile => "you changed your settings",
            News::Race => "a race is coming",
            News::Set => "your last set says so",
            News::Shut => "the pool is shut",
            News::SquadSet => "the squad swims hard beside it",
            News::Test => "you were tested since",
            News::Tired => "you said you are tired",
            News::Trouble => "you told of pain or illness",
            News::Wish => "you asked for it",
        };
        format!("Changed from what I said for {day}: {why}.")
    }

    fn set_waits(&self, set: &str) -> String {
        format!("No room for {set} in this one: it waits for the next hard swim.")
    }

    fn test_is_promised(&self) -> &'static str {
        "No test in this one: it waits for the next hard swim."
    }

    fn other_week(&self, asked: WeekKind, given: WeekKind) -> String {
        format!(
            "You asked for {}; the rules give {} (text WHY).",
            kind(asked).to_lowercase(),
            kind(given).to_lowercase()
        )
    }
}

fn kind(kind: WeekKind) -> &'static str {
    match kind {
        WeekKind::Easy => "Easy",
        WeekKind::Normal => "Normal",
        WeekKind::Hard => "Hard",
        WeekKind::Taper => "Taper",
        WeekKind::Return => "Return",
    }
}
