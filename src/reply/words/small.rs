//! The small words, and what every language puts together from them alike:
//! days, trials, lists.

use jiff::civil::{Date, Time, Weekday};

use crate::coaching::{self, drill};
use crate::language::Language;
use crate::message::Name;
use crate::reply::{Voice, carried};
use crate::session::{Part, Purpose};
use crate::swim::Trial;
use crate::units::{Centis, Course, Equipment, Level, Pace, Stroke, Weekdays};

// What is told, and in which order.
impl Voice {
    /// A drill's cue, by its id.
    pub fn cue(self, id: &str) -> String {
        drill(id).map_or_else(|| id.to_owned(), |drill| self.sentence(drill.words))
    }

    /// `Wed 4 Mar`
    pub fn day(self, date: Date) -> String {
        format!("{} {}", self.weekday(date.weekday()), self.short_day(date))
    }

    /// `4 Mar`
    pub fn short_day(self, date: Date) -> String {
        let at = usize::try_from(date.month() - 1).unwrap_or_default();
        format!("{} {}", date.day(), self.months().get(at).copied().unwrap_or("?"))
    }

    /// `Tue Thu`
    pub(super) fn weekdays(self, days: &Weekdays) -> String {
        days.iter().map(|day| self.weekday(day)).collect::<Vec<_>>().join(" ")
    }

    /// `200 free 3:12`, `200yd back 2:40`
    pub fn trial(self, trial: &Trial) -> String {
        format!("{} {}", self.trial_name(trial), trial.time.short())
    }

    /// `200 free`, `200yd back`
    pub(super) fn trial_name(self, trial: &Trial) -> String {
        let unit = if trial.course == Course::Short25yd { "yd" } else { "" };
        format!("{}{unit} {}", trial.distance.amount(), self.stroke(trial.stroke))
    }

    /// `a, b and c`
    pub(super) fn all_of(self, words: &[String]) -> String {
        list(words, self.and())
    }

    /// `a, b or c`
    pub(super) fn one_of(self, words: &[String]) -> String {
        list(words, self.or())
    }
}

// In which words.
impl Voice {
    /// A stroke.
    pub fn stroke(self, stroke: Stroke) -> &'static str {
        let (english, spanish) = match stroke {
            Stroke::Free => (stroke.name(), "libre"),
            Stroke::Back => (stroke.name(), "espalda"),
            Stroke::Breast => (stroke.name(), "braza"),
            Stroke::Fly => (stroke.name(), "mariposa"),
            Stroke::Im => ("IM", "estilos"),
            Stroke::Kick => (stroke.name(), "patada"),
            Stroke::Pull => (stroke.name(), "brazos"),
            Stroke::Drill => (stroke.name(), "técnica"),
            Stroke::Choice => (stroke.name(), "a elegir"),
        };
        self.pick(english, spanish)
    }

    /// A piece of equipment.
    pub(in crate::reply) fn equipment(self, equipment: Equipment) -> &'static str {
        let (english, spanish) = match equipment {
            Equipment::Fins => (equipment.name(), "aletas"),
            Equipment::Paddles => (equipment.name(), "palas"),
            Equipment::PullBuoy => ("buoy", "pull buoy"),
            Equipment::Board => (equipment.name(), "tabla"),
            Equipment::Snorkel => (equipment.name(), "tubo"),
        };
        self.pick(english, spanish)
    }

    /// A level, where no target says it better.
    pub(in crate::reply) fn level(self, level: Level) -> &'static str {
        let spanish = match level {
            Level::Easy => "suave",
            Level::Steady => "constante",
            Level::Threshold => "umbral",
            Level::Hard => "fuerte",
            Level::Sprint => "sprint",
        };
        self.pick(level.name(), spanish)
    }

    /// Before a send-off.
    pub(in crate::reply) fn on(self) -> &'static str {
        self.pick("on", "cada")
    }

    /// Before a rest.
    pub(in crate::reply) fn rest(self) -> &'static str {
        self.pick("rest", "descanso")
    }

    /// A part of a session, as it stands before its line.
    pub fn part(self, part: Part) -> &'static str {
        match part {
            Part::WarmUp => self.pick("Warm-up", "Calentamiento"),
            Part::Drill => self.pick("Drill", "Técnica"),
            Part::Build => self.pick("Build", "Progresivo"),
            Part::Test => "TEST",
            Part::Recovery => self.pick("Easy", "Recuperacion"),
            Part::Main => self.pick("Main", "Principal"),
            Part::SwimDown => self.pick("Swim-down", "Vuelta a la calma"),
        }
    }

    /// What a session is for, as a title.
    pub fn title(self, purpose: Purpose) -> &'static str {
        match purpose {
            Purpose::Endurance => self.pick("endurance", "resistencia"),
            Purpose::PaceHolding => self.pick("holding pace", "mantener el ritmo"),
            Purpose::Race => self.pick("race day", "dia de la prueba"),
            Purpose::RaceRehearsal => self.pick("race rehearsal", "ensayo de carrera"),
            Purpose::Return => self.pick("easy return", "vuelta suave"),
            Purpose::Speed => self.pick("speed", "velocidad"),
            Purpose::Technique => self.pick("technique", "técnica"),
            Purpose::Test => "test",
            Purpose::Threshold => self.pick("threshold", "umbral"),
        }
    }

    /// A course in words.
    pub(super) fn course(self, course: Course) -> &'static str {
        match course {
            Course::Short25m => self.pick("25 m pool", "piscina de 25 m"),
            Course::Long50m => self.pick("50 m pool", "piscina de 50 m"),
            Course::Short25yd => self.pick("25 yd pool", "piscina de 25 yd"),
            Course::OpenWater => self.pick("open water", "aguas abiertas"),
        }
    }

    /// A weekday, cut short.
    pub(super) fn weekday(self, day: Weekday) -> &'static str {
        match day {
            Weekday::Monday => self.pick("Mon", "lun"),
            Weekday::Tuesday => self.pick("Tue", "mar"),
            Weekday::Wednesday => self.pick("Wed", "mié"),
            Weekday::Thursday => self.pick("Thu", "jue"),
            Weekday::Friday => self.pick("Fri", "vie"),
            Weekday::Saturday => self.pick("Sat", "sab"),
            Weekday::Sunday => self.pick("Sun", "dom"),
        }
    }

    /// The months from the first, cut short.
    fn months(self) -> &'static [&'static str; 12] {
        self.pick(
            &["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"],
            &["ene", "feb", "mar", "abr", "may", "jun", "jul", "ago", "sep", "oct", "nov", "dic"],
        )
    }

    /// Before the last of a list of all.
    fn and(self) -> &'static str {
        self.pick("and", "y")
    }

    /// Before the last of a list to choose from.
    fn or(self) -> &'static str {
        self.pick("or", "o")
    }

    /// A sentence of the coaching tables in this language, in the GSM alphabet.
    pub(super) fn sentence(self, words: coaching::Words) -> String {
        match self.language {
            Language::English => words.en.to_owned(),
            Language::Spanish => carried(words.es),
        }
    }
}

fn list(words: &[String], last_but: &str) -> String {
    match words {
        [] => String::new(),
        [one] => one.clone(),
        [head @ .., last] => format!("{} {last_but} {last}", head.join(", ")),
    }
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

/// `18:00`
pub fn clock(at: Time) -> String {
    at.strftime("%H:%M").to_string()
}

/// Names in a row.
pub fn joined(names: &[Name]) -> String {
    names.iter().map(Name::as_str).collect::<Vec<_>>().join(", ")
}
