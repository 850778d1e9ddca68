//! Days, times and lengths, and words joined by spaces.

use std::fmt;

use crate::message::meaning::SHORTEST_SWIM_S;
use crate::message::{Day, Length, TypedTime};
use crate::units::{Centis, Course, Equipment, Start, weekday_word};

/// Words joined by one space; what is absent leaves no gap.
#[derive(Default)]
pub struct Words(Vec<String>);

impl Words {
    /// Starts with `word`.
    pub fn of(word: &str) -> Self {
        Self(vec![word.to_owned()])
    }

    /// One word more.
    #[must_use]
    pub fn and(mut self, word: impl fmt::Display) -> Self {
        self.0.push(word.to_string());
        self
    }

    /// One word more, where there is something to say.
    #[must_use]
    pub fn maybe(self, word: Option<impl fmt::Display>) -> Self {
        match word {
            Some(word) => self.and(word),
            None => self,
        }
    }

    /// A word more for each.
    #[must_use]
    pub fn each<T: fmt::Display>(self, words: impl IntoIterator<Item = T>) -> Self {
        words.into_iter().fold(self, Words::and)
    }
}

impl fmt::Display for Words {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(&self.0.join(" "))
    }
}

impl fmt::Display for Length {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(out, "{}", self.amount)?;
        self.unit.map_or(Ok(()), |unit| write!(out, "{unit}"))
    }
}

impl fmt::Display for Day {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        const MONTHS: [&str; 12] =
            ["jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"];
        match self {
            Day::Today => out.write_str("today"),
            Day::Yesterday => out.write_str("yesterday"),
            Day::Tomorrow => out.write_str("tomorrow"),
            Day::On(day) => out.write_str(weekday_word(*day)),
            Day::Last(day) => write!(out, "last {}", weekday_word(*day)),
            Day::Slashed(first, second) => write!(out, "{first}/{second}"),
            Day::SlashedYear(first, second, year) => write!(out, "{first}/{second}/{year}"),
            Day::DayMonth(day, month) => {
                let month = usize::from(*month).checked_sub(1).and_then(|at| MONTHS.get(at));
                write!(out, "{day} {}", month.unwrap_or(&"?"))
            }
            Day::Full(date) => write!(out, "{date}"),
        }
    }
}

/// A time that can be read one way only.
pub fn sure(time: Centis) -> String {
    let (seconds, rest) = (time.hundredths() / 100, time.hundredths() % 100);
    let decimals = match rest {
        0 => String::new(),
        rest if rest % 10 == 0 => format!(".{}", rest / 10),
        rest => format!(".{rest:02}"),
    };
    match (seconds / 60, seconds % 60) {
        (0, _) | (1000.., _) => format!("{seconds}{decimals}s"),
        (minutes, seconds) => format!("{minutes}:{seconds:02}{decimals}"),
    }
}

impl fmt::Display for TypedTime {
    /// The spelling that has these readings and no others.
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.readings.as_slice() {
            [] => Ok(()),
            [one] if self.tenths && one.is_whole_seconds() => {
                let plain = sure(*one);
                match plain.strip_suffix('s') {
                    Some(seconds) => write!(out, "{seconds}.0s"),
                    None => write!(out, "{plain}.0"),
                }
            }
            [one] => out.write_str(&sure(*one)),
            [first, second, ..] => match both(first.hundredths(), second.hundredths()) {
                Some(spelling) => out.write_str(&spelling),
                None => out.write_str(&sure(*first)),
            },
        }
    }
}

/// The figure that may be the one or the other number of hundredths.
fn both(first: u32, second: u32) -> Option<String> {
    let bare = |number: u32| (number > 0).then(|| number.to_string());
    if first.checked_mul(60) == Some(second) && first.is_multiple_of(100) && first < 10_000 {
        return bare(first / 100);
    }
    // As minutes and seconds first, as seconds or hundredths second.
    let (minutes, seconds) = (first / 6000, first % 6000 / 100);
    if first.is_multiple_of(100) && second == (minutes * 100 + seconds) * 100 {
        return bare(minutes * 100 + seconds);
    }
    if minutes < SHORTEST_SWIM_S && first.is_multiple_of(100) && second == minutes * 100 + seconds {
        return Some(format!("{minutes}.{seconds:02}"));
    }
    let (whole, decimals) = (first / 100, first % 100);
    if whole >= SHORTEST_SWIM_S && second == whole * 6000 + decimals * 100 {
        return Some(format!("{whole}.{decimals:02}"));
    }
    let (hours, minutes, seconds) = (first / 360_000, first % 360_000 / 6000, first % 6000 / 100);
    (second == hours * 6000 + minutes * 100 + seconds)
        .then(|| format!("{hours}:{minutes:02}:{seconds:02}"))
}

/// A number and nothing else, so that beside a distance it needs its word.
pub fn is_bare(time: &TypedTime) -> bool {
    time.to_string().bytes().all(|byte| byte.is_ascii_digit())
}

/// A rating as it is typed.
pub fn rating(tenths: u8) -> String {
    match tenths % 10 {
        0 => (tenths / 10).to_string(),
        rest => format!("{}.{rest}", tenths / 10),
    }
}

/// A course in words that no distance could be taken for.
pub const fn course(course: Course) -> &'static str {
    match course {
        Course::Short25m => "scm",
        Course::Long50m => "lcm",
        Course::Short25yd => "scy",
        Course::OpenWater => "open water",
    }
}

/// Equipment by the word that people type.
pub fn equipment(kit: Equipment) -> &'static str {
    match kit {
        Equipment::PullBuoy => "buoy",
        other => other.name(),
    }
}

/// How a swim began.
pub const fn start(start: Start) -> &'static str {
    match start {
        Start::Push => "push",
        Start::Dive => "dive",
        Start::Water => "water start",
    }
}
