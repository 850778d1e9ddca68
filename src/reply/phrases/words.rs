//! The small words, and what every language puts together from them alike:
//! days, trials, lists.

use jiff::civil::{Date, Weekday};

use crate::coaching::{self, drill};
use crate::session::{Part, Purpose};
use crate::swim::Trial;
use crate::units::{Centis, Course, Equipment, Level, Pace, Stroke, Weekdays};

/// The small words of a language.
pub trait Words {
    /// A stroke.
    fn stroke(&self, stroke: Stroke) -> &'static str;
    /// A piece of equipment.
    fn equipment(&self, equipment: Equipment) -> &'static str;
    /// A level, where no target says it better.
    fn level(&self, level: Level) -> &'static str;
    /// Before a send-off.
    fn on(&self) -> &'static str;
    /// Before a rest.
    fn rest(&self) -> &'static str;
    /// A part of a session, as it stands before its line.
    fn part(&self, part: Part) -> &'static str;
    /// What a session is for, as a title.
    fn title(&self, purpose: Purpose) -> &'static str;
    /// A course in words.
    fn course(&self, course: Course) -> &'static str;
    /// A weekday, cut short.
    fn weekday(&self, day: Weekday) -> &'static str;
    /// The months from the first, cut short.
    fn months(&self) -> &'static [&'static str; 12];
    /// Before the last of a list of all.
    fn and(&self) -> &'static str;
    /// Before the last of a list to choose from.
    fn or(&self) -> &'static str;
    /// A sentence of the coaching tables in this language, in the GSM alphabet.
    fn sentence(&self, words: coaching::Words) -> String;

    /// A drill's cue, by its id.
    fn cue(&self, id: &str) -> String {
        drill(id).map_or_else(|| id.to_owned(), |drill| self.sentence(drill.words))
    }

    /// `Wed 4 Mar`
    fn day(&self, date: Date) -> String {
        format!("{} {}", self.weekday(date.weekday()), self.short_day(date))
    }

    /// `4 Mar`
    fn short_day(&self, date: Date) -> String {
        let at = usize::try_from(date.month() - 1).unwrap_or_default();
        format!("{} {}", date.day(), self.months().get(at).copied().unwrap_or("?"))
    }

    /// `Tue Thu`
    fn weekdays(&self, days: &Weekdays) -> String {
        days.iter().map(|day| self.weekday(day)).collect::<Vec<_>>().join(" ")
    }

    /// `200 free 3:12`, `200yd back 2:40`
    fn trial(&self, trial: &Trial) -> String {
        format!("{} {}", self.trial_name(trial), trial.time.short())
    }

    /// `200 free`, `200yd back`
    fn trial_name(&self, trial: &Trial) -> String {
        let unit = if trial.course == Course::Short25yd { "yd" } else { "" };
        format!("{}{unit} {}", trial.distance.amount(), self.stroke(trial.stroke))
    }

    /// `a, b and c`
    fn all_of(&self, words: &[String]) -> String {
        list(words, self.and())
    }

    /// `a, b or c`
    fn one_of(&self, words: &[String]) -> String {
        list(words, self.or())
    }
}

fn list(words: &[String], last_but: &str) -> String {
    match words {
        [] => String::new(),
        [one] => one.clone(),
        [head @ .., last] => format!("{} {last_but} {last}", head.join(", ")),
    }
}

/// `1 swimmer`, `3 swimmers`
pub fn count(number: usize, one: &str, many: &str) -> String {
    format!("{number} {}", if number == 1 { one } else { many })
}

/// The word with its first letter in upper case.
pub fn first_upper(word: &str) -> String {
    let mut letters = word.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// By how much one time differs from another: `2.2 s`, `2:02`.
pub fn difference(by: Centis) -> String {
    let short = by.short();
    if short.contains(':') { short } else { format!("{short} s") }
}

/// A pace to the second, as it is meant to be read: `1:49`.
pub fn shown_pace(pace: Pace) -> String {
    pace.per_100().map_or_else(|| "?".to_owned(), |time| time.to_second().short())
}
