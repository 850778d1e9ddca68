//! Plans that wait for the coach's yes.

use super::English;
use crate::reply::ApprovalRefusal;
use crate::reply::phrases::{Approvals, Sessions, count};

impl Approvals for English {
    fn plans_wait(&self, wanted: bool) -> &'static str {
        if wanted {
            "Plans wait for your yes from now on; easy ones go out at once. SQUAD WAITING lists \
             them, APPROVE ALL sends them, APPROVE PLANS OFF ends it."
        } else {
            "Plans go out at once from now on, by the rules."
        }
    }

    fn how_many_wait(&self, number: usize) -> String {
        let waits = if number == 1 { "1 plan waits" } else { &format!("{number} plans wait") };
        format!("{waits} for the coach's yes (APPROVE ALL, APPROVE HERON, APPROVE HERON NO):")
    }

    fn none_waits(&self, wanted: bool) -> &'static str {
        if wanted {
            "No plan waits for a yes."
        } else {
            "No plan waits: plans go out at once. APPROVE PLANS ON has them wait for the coach."
        }
    }

    fn waiting_line(&self, who: &str, distance: &str, sessions: usize, hard: usize) -> String {
        let sessions = count(sessions, "session", "sessions");
        format!("{who}: {distance}, {sessions}, {hard} hard")
    }

    fn waits_for_yes(&self, line: &str) -> String {
        format!("Plan waits, {line}.")
    }

    fn went_out(&self, names: &str) -> String {
        format!("Sent: the week of {names}.")
    }

    fn were_lowered(&self, names: &str) -> String {
        format!("Made lower first, as something came up since: {names}.")
    }

    fn not_told(&self, names: &str) -> String {
        format!("No text can go to {names}: NEXT follows the plan all the same.")
    }

    fn wait_on(&self, names: &str) -> String {
        format!("Not sent, as they are stopped and may not swim until released: {names}.")
    }

    fn was_sent_back(&self, who: &str, told: bool) -> String {
        match told {
            true => format!("The week of {who} doesn't go out, and {who} is told."),
            false => format!("The week of {who} doesn't go out. No text can go to {who}."),
        }
    }

    fn yours_waits(&self, planned: bool) -> &'static str {
        if planned {
            "Your coach looks at that week first; then it comes by text. Till then NEXT goes on with \
             your last plan, and PLAN EASY comes at once."
        } else {
            "Your coach looks at that week first; then it comes by text. Till then NEXT gives easy \
             sessions, and PLAN EASY comes at once."
        }
    }

    fn coach_says_yes(&self, lowered: bool) -> &'static str {
        if lowered {
            "Your coach says yes to your week, made lower for what came up since:"
        } else {
            "Your coach says yes to your week:"
        }
    }

    fn yours_sent_back(&self, planned: bool) -> &'static str {
        if planned {
            "Your coach would like another week for you than that one: have a word together. NEXT \
             goes on with your last plan."
        } else {
            "Your coach would like another week for you than that one: have a word together. NEXT \
             gives easy sessions till then."
        }
    }

    fn yours_waits_again(&self) -> &'static str {
        "Your coach looks at your week once more, so please don't go by it yet. NEXT shows what \
         to swim till then."
    }

    fn approval_refusal(&self, why: &ApprovalRefusal) -> String {
        match why {
            ApprovalRefusal::NothingWaits { who } => {
                format!("No plan of {who} waits for a yes. SQUAD WAITING lists those that do.")
            }
            ApprovalRefusal::AfterYes => self.harder_sessions_after_yes().to_owned(),
        }
    }
}
