//! The squad's page.

use super::English;
use crate::reply::Trend;
use crate::reply::phrases::{Boards, Label, count};

impl Boards for English {
    fn label(&self, label: Label) -> &'static str {
        match label {
            Label::Board => "Board",
            Label::Hurting => "Stopped or hurting now",
            Label::TonightsRegister => "Tonight's register",
            Label::Register => "Register",
            Label::Lanes => "Lanes",
            Label::Clock => "The whole set",
            Label::Paced => "Last paced set",
            Label::Tests => "Tests",
            Label::Weeks => "The last four weeks",
            Label::Focus => "Focus and next date",
            Label::All => "All",
            Label::ToDo => "To do",
            Label::NothingToDo => "Nothing waits for you.",
            Label::Owed => "Owed a test",
            Label::Overdue => "Test overdue",
            Label::Slower => "Slower than before",
            Label::Waiting => "Plans wait for your yes: text SQUAD WAITING",
            Label::Before => "before it",
            Label::NobodyHurting => "Nobody is stopped or hurting.",
            Label::Unheard => "An alarm has reached nobody by text. Look at who is stopped below.",
            Label::Stopped => "Stopped: out of the water",
            Label::OutToday => "out today",
            Label::SwimsEasy => "swims easy",
            Label::HeldEasy => "coach's word",
            Label::Ill => "ill",
            Label::Fever => "ill, fever",
            Label::NoLevel => "no level said",
            Label::MaySwim => "Now",
            Label::Until => "Until",
            Label::Call => "Call their contact",
            Label::Here => "Here",
            Label::Late => "Late",
            Label::NotYet => "late",
            Label::Coming => "Expected",
            Label::Unsaid => "Not heard from",
            Label::Out => "Out",
            Label::Absent => "Looked for, not here",
            Label::Guest => "guest",
            Label::NoLanes => "No lanes drawn. Text LANES 4.",
            Label::EmptyLane => "empty",
            Label::InNoLane => "Here, in no lane",
            Label::Guessed => "pace guessed",
            Label::Gently => "easy",
            Label::NoSet => "No set yet. Text PLAN TONIGHT, or SET and what you want swum.",
            Label::Starts => "Starts",
            Label::Ends => "Ends",
            Label::MinutesLeft => "min left",
            Label::SetEnds => "set ends",
            Label::NoStart => "Nobody said when it starts. Text SLOT TUE 2000-2100 4 LANES.",
            Label::BookedTo => "booked to",
            Label::NextLeaves => "next leaves",
            Label::ToHold => "To hold:",
            Label::OwnTimes => "beside names: the time to hold",
            Label::Minor => "minor",
            Label::CareHow => "What each may swim",
            Label::Pause => "Pause updates",
            Label::GoOn => "Resume updates",
            Label::Old => "Paused: this is {} old.",
            Label::Lost => "The server does not answer: this is {} old.",
            Label::CoachSheet => "the coach's sheet",
            Label::TestDue => "test due",
            Label::Day => "day",
            Label::Test => "test",
            Label::Verdict => "beside the last",
            Label::CriticalPace => "critical pace per 100, with its band",
            Label::Pace => "critical pace",
            Label::WeekFrom => "week from",
            Label::Swum => "swum",
            Label::Load => "effort x min",
            Label::Marks => "marks",
            Label::Pain => "pain",
            Label::Number => "repeat",
            Label::Time => "time",
            Label::Beside => "slower by",
            Label::Next => "Next session",
            Label::NoNext => "None stands now. The text NEXT gives one.",
            Label::Days => "Offered and swum",
            Label::NoDays => "Nothing offered or swum in four weeks.",
            Label::Offered => "offered",
            Label::Presumed => "by the register",
            Label::Back => "Back to the board",
            Label::Take => "To take along",
            Label::TakeHow => "Nothing of anybody's health. As long as this page is open.",
            Label::Calendar => "A calendar that lasts",
            Label::CalendarHow => {
                "An address for your calendar's own app: nights, races and sessions, kept up to date. Whoever has it sees them."
            }
            Label::CalendarOnce => "Copy it now: it is shown this once.",
            Label::CalendarOpen => "Open one",
            Label::CalendarRenew => "A new address; the old one shuts",
            Label::CalendarShut => "Shut it",
            Label::Prints => "Printed, this page is a sheet for each lane and one for the coach.",
            Label::Over => "All swum.",
            Label::NothingPaced => "No set with a target in four weeks.",
            Label::NoTest => "no test yet",
            Label::Due => "Due",
            Label::DueTestNight => "Due: missed the test night",
            Label::NoSwimmers => "Nobody swims here yet. Swimmers text JOIN, the code and a name.",
            Label::Came => "Came",
            Label::Reported => "Reported",
            Label::ByWeek => "Week by week",
            Label::Planned => "planned",
            Label::Away => "away",
            Label::Ring => "Ring: not heard from",
            Label::Jumped => "Metres jumped",
            Label::NothingAhead => "No focus, note or race. Text FOCUS HERON: LONG NECK.",
            Label::Note => "Note",
            Label::Race => "Race",
            Label::Shut => "This board is shut",
            Label::ShutHow => "Text BOARD for a new address. It stays open for 12 hours.",
            Label::Unavailable => "Not to be had just now",
            Label::UnavailableHow => "This page tries again by itself.",
        }
    }

    fn as_of(&self, time: &str) -> String {
        format!("as of {time}")
    }

    fn no_paddles(&self) -> &'static str {
        "no paddles"
    }

    fn no_swimming(&self) -> &'static str {
        "no swimming"
    }

    fn easy_version(&self) -> &'static str {
        "swims the easy version"
    }

    fn stop_for_today(&self) -> &'static str {
        "done for today; the next session is lowered"
    }

    fn since(&self, when: &str) -> String {
        format!("since {when}")
    }

    fn hurts(&self, place: &str) -> String {
        place.to_owned()
    }

    fn of_ten(&self, level: u8) -> String {
        format!("{level} of 10")
    }

    fn released_by(&self, you: bool, who: &str) -> String {
        if you { format!("you text RELEASE {who}") } else { "the coach releases them".to_owned() }
    }

    fn clinicians_word(&self, said: bool) -> &'static str {
        if said { "they say a clinician cleared it" } else { "no clinician's word yet" }
    }

    fn guardians_word(&self, said: bool) -> &'static str {
        if said { "the guardian agrees" } else { "the guardian has not agreed yet" }
    }

    fn ends_it_alone(&self) -> &'static str {
        "the swimmer texts BETTER"
    }

    fn minor(&self, adult: Option<&str>) -> String {
        match adult {
            Some(adult) => format!("minor: {adult} answers"),
            None => "minor: the guardian answers".to_owned(),
        }
    }

    fn minor_alone(&self) -> &'static str {
        "minor: no guardian has agreed"
    }

    fn minutes_late(&self, minutes: u16) -> String {
        format!("{minutes} min late")
    }

    fn gap(&self, seconds: u32) -> String {
        format!("{seconds} s apart")
    }

    fn head_count(&self, here: usize, of: usize) -> String {
        format!("{here} of {of} at the pool")
    }

    fn nth_of(&self, number: u16) -> String {
        let ending = match (number % 10, number % 100) {
            (_, 11..=13) => "th",
            (1, _) => "st",
            (2, _) => "nd",
            (3, _) => "rd",
            _ => "th",
        };
        format!("{number}{ending} of")
    }

    fn round_of(&self, round: u16, of: u16) -> String {
        format!("round {round} of {of}")
    }

    fn over_by(&self, minutes: u32) -> String {
        format!("{minutes} min too long")
    }

    fn held_of(&self, held: usize, of: usize) -> String {
        format!("held {held} of {of}")
    }

    fn verdict(&self, trend: Trend) -> &'static str {
        match trend {
            Trend::Up => "faster, a real change",
            Trend::Down => "slower, a real change",
            Trend::Flat => "too close to say",
            Trend::Unknown => "the first of its kind",
        }
    }

    fn nights(&self, came: usize, of: usize) -> String {
        format!("{came} of {}", count(of, "night", "nights"))
    }

    fn days(&self, number: usize) -> String {
        count(number, "day", "days")
    }
}
