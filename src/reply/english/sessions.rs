//! Sessions and weeks.

use super::English;
use crate::coaching::WeekKind;
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

    fn for_alone(&self) -> &'static str {
        "At squad night swim the squad's set (TONIGHT); this is for a swim alone."
    }

    fn harder_sessions_after_yes(&self) -> &'static str {
        "Harder ones come after your coach's yes: PLAN asks for a week."
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
