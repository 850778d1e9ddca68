//! The small words: strokes, kit, levels, days, parts of a session.

use jiff::civil::{Date, Weekday};

use crate::coaching::drill;
use crate::reply::shorthand::Words;
use crate::session::{Part, Purpose};
use crate::swim::Trial;
use crate::units::{Course, Equipment, Level, Stroke};

/// The words of the shorthand.
pub struct Whiteboard;

impl Words for Whiteboard {
    fn stroke(&self, stroke: Stroke) -> &'static str {
        self::stroke(stroke)
    }

    fn equipment(&self, equipment: Equipment) -> &'static str {
        match equipment {
            Equipment::Fins => "fins",
            Equipment::Paddles => "paddles",
            Equipment::PullBuoy => "buoy",
            Equipment::Board => "board",
            Equipment::Snorkel => "snorkel",
        }
    }

    fn level(&self, level: Level) -> &'static str {
        level.name()
    }

    fn on(&self) -> &'static str {
        "on"
    }

    fn rest(&self) -> &'static str {
        "rest"
    }
}

/// A stroke.
pub fn stroke(stroke: Stroke) -> &'static str {
    match stroke {
        Stroke::Im => "IM",
        other => other.name(),
    }
}

/// A part of a session, as it stands before its line.
pub fn part(part: Part) -> &'static str {
    match part {
        Part::WarmUp => "Warm-up",
        Part::Drill => "Drill",
        Part::Build => "Build",
        Part::Test => "TEST",
        Part::Recovery => "Easy",
        Part::Main => "Main",
        Part::SwimDown => "Swim-down",
    }
}

/// What a session is for.
pub fn purpose(purpose: Purpose) -> &'static str {
    match purpose {
        Purpose::Endurance => "endurance",
        Purpose::PaceHolding => "holding pace",
        Purpose::RaceRehearsal => "race rehearsal",
        Purpose::Return => "easy return",
        Purpose::Speed => "speed",
        Purpose::Technique => "technique",
        Purpose::Test => "test",
        Purpose::Threshold => "threshold",
    }
}

/// A drill's cue.
pub fn cue(id: &str) -> String {
    drill(id).map_or(id, |drill| drill.words.en).to_owned()
}

/// A course in words.
pub fn course(course: Course) -> &'static str {
    match course {
        Course::Short25m => "25 m pool",
        Course::Long50m => "50 m pool",
        Course::Short25yd => "25 yd pool",
        Course::OpenWater => "open water",
    }
}

/// `Wed 4 Mar`
pub fn day(date: Date) -> String {
    format!("{} {} {}", weekday(date.weekday()), date.day(), month(date.month()))
}

/// `4 Mar`
pub fn short_day(date: Date) -> String {
    format!("{} {}", date.day(), month(date.month()))
}

/// `Wed`
pub fn weekday(day: Weekday) -> &'static str {
    match day {
        Weekday::Monday => "Mon",
        Weekday::Tuesday => "Tue",
        Weekday::Wednesday => "Wed",
        Weekday::Thursday => "Thu",
        Weekday::Friday => "Fri",
        Weekday::Saturday => "Sat",
        Weekday::Sunday => "Sun",
    }
}

fn month(month: i8) -> &'static str {
    const MONTHS: [&str; 12] =
        ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];
    usize::try_from(month - 1).ok().and_then(|at| MONTHS.get(at)).copied().unwrap_or("?")
}

/// `200 free 3:12`, `200yd back 2:40`
pub fn trial(trial: &Trial) -> String {
    format!("{} {}", trial_name(trial), trial.time.short())
}

/// `200 free`, `200yd back`
pub fn trial_name(trial: &Trial) -> String {
    let unit = if trial.course == Course::Short25yd { "yd" } else { "" };
    format!("{}{unit} {}", trial.distance.amount(), stroke(trial.stroke))
}

/// `a, b and c`
pub fn list(words: &[String]) -> String {
    match words {
        [] => String::new(),
        [one] => one.clone(),
        [head @ .., last] => format!("{} and {last}", head.join(", ")),
    }
}

/// `1 swimmer`, `3 swimmers`
pub fn count(number: usize, one: &str) -> String {
    if number == 1 { format!("1 {one}") } else { format!("{number} {one}s") }
}

/// The word with its first letter in upper case.
pub fn first_upper(word: &str) -> String {
    let mut letters = word.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// `a 400 test`, `an 800 test`
pub fn a_test(amount: u32) -> String {
    let article = if amount.to_string().starts_with('8') { "an" } else { "a" };
    format!("{article} {amount} test")
}
