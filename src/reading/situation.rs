//! What is known when a text is read: who writes, when, of whom, and what stands.

use std::collections::HashMap;

use foldhash::fast::RandomState;
use jiff::civil::{Date, Time, Weekday};

use crate::language::Language;
use crate::message::{Name, Statement};
use crate::swim::strokes::times_free;
use crate::units::{Centis, Course, SendOff, Stroke};

/// What the sender is to the squad.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Role {
    /// Swims, or answers for someone who does.
    #[default]
    Swimmer,
    /// Runs the evening and speaks for others.
    Coach,
}

/// Where the evening stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Phase {
    /// No evening today, or it is not known.
    #[default]
    None,
    /// One is to come today.
    Before,
    /// It is under way.
    During,
    /// It is over.
    After,
}

/// A swimmer whom the sender may speak of, or the sender.
#[derive(Debug, Clone, PartialEq)]
pub struct Known {
    /// The handle.
    pub name: Name,
    /// The best time over each distance and stroke, in metres or yards of the pool.
    pub bests: Vec<(u32, Stroke, Centis)>,
}

/// One line of the set in force.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Line {
    /// Repeats.
    pub count: u32,
    /// How far each, in the pool's unit.
    pub distance: u32,
    /// Its stroke.
    pub stroke: Stroke,
    /// Leave every so often.
    pub send_off: Option<SendOff>,
    /// What the sender is to hold.
    pub target: Option<Centis>,
    /// It belongs to the main part.
    pub main: bool,
}

/// The set of an evening.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SetInForce {
    /// Which evening's.
    pub on: Date,
    /// In the order swum.
    pub lines: Vec<Line>,
}

impl SetInForce {
    /// The line that results without a word of which are about: that of the most
    /// metres in the main part.
    pub fn main(&self) -> Option<&Line> {
        let main = self.lines.iter().filter(|line| line.main && line.count > 1);
        main.max_by_key(|line| line.count * line.distance)
    }

    /// All of its metres.
    pub fn total(&self) -> u32 {
        self.lines.iter().map(|line| line.count * line.distance).sum()
    }
}

/// All that a text is read by, beside its words.
#[derive(Debug, Clone, PartialEq)]
pub struct Situation {
    /// The sender's language.
    pub language: Language,
    /// What the sender is.
    pub role: Role,
    /// Everyone whom the sender may name, the sender included.
    pub people: Vec<Known>,
    /// The sender's place among them.
    pub me: Option<usize>,
    /// The sender is the guardian of the one at that place.
    pub guardian: bool,
    /// The squad's local day.
    pub today: Date,
    /// Its local time.
    pub time: Time,
    /// The sender's pool, or the squad's.
    pub course: Course,
    /// The squad's evenings.
    pub nights: Vec<Weekday>,
    /// When they begin.
    pub starts: Option<Time>,
    /// How long today's is.
    pub minutes: Option<u16>,
    /// Where today's stands.
    pub phase: Phase,
    /// The set in force: today's, or the last evening's until the next begins.
    pub set: Option<SetInForce>,
    /// Who swims in which lane, lane 1 first, each in order.
    pub lanes: Vec<Vec<usize>>,
    /// The distance over which the squad was tested on its last evening.
    pub tested: Option<u32>,
    /// The last evening that has begun, today's included.
    pub last_night: Option<Date>,
    /// What the sender said last, within the day.
    pub before: Vec<Statement>,
    /// That is not kept yet: the sender was asked whether it was meant.
    pub pending: bool,
    /// A text of the last half hour that said too little to be kept.
    pub unfinished: Option<String>,
}

impl Default for Situation {
    fn default() -> Self {
        Self {
            language: Language::English,
            role: Role::Swimmer,
            people: Vec::new(),
            me: None,
            guardian: false,
            today: Date::constant(2026, 3, 4),
            time: Time::constant(12, 0, 0, 0),
            course: Course::Short25m,
            nights: Vec::new(),
            starts: None,
            minutes: None,
            phase: Phase::None,
            set: None,
            lanes: Vec::new(),
            tested: None,
            last_night: None,
            before: Vec::new(),
            pending: false,
            unfinished: None,
        }
    }
}

/// The exponent by which times grow with the distance (ours).
const EXPONENT: f64 = 1.08;

impl Known {
    /// The time to be expected over so many metres or yards, from the nearest best.
    pub fn expected(&self, distance: u32, stroke: Stroke) -> Option<f64> {
        let of = |wanted: Option<Stroke>| {
            let fit =
                self.bests.iter().filter(move |(_, swum, _)| wanted.is_none_or(|one| one == *swum));
            // The distance itself, as mostly; else the nearest by its logarithm.
            fit.clone().find(|(known, ..)| *known == distance).or_else(|| {
                let meant = f64::from(distance.max(1)).ln();
                let near = fit.map(|best| ((f64::from(best.0).ln() - meant).abs(), best));
                near.min_by(|one, other| one.0.total_cmp(&other.0)).map(|(_, best)| best)
            })
        };
        let (known, swum, time) =
            of(Some(stroke)).or_else(|| of(Some(Stroke::Free))).or_else(|| of(None))?;
        let longer = match *known == distance {
            true => 1.0,
            false => (f64::from(distance) / f64::from(*known)).powf(EXPONENT),
        };
        let scaled = time.seconds() * longer;
        Some(scaled * times_free(stroke) / times_free(*swum))
    }
}

impl Situation {
    /// The sender's own record.
    pub fn own(&self) -> Option<&Known> {
        self.people.get(self.me?)
    }

    /// The number of someone by handle.
    pub fn person(&self, handle: &str) -> Option<usize> {
        self.people.iter().position(|known| known.name.as_str() == handle)
    }

    /// The number of each by handle: for a text, every word of which may be one.
    pub fn handles(&self) -> HashMap<&str, usize, RandomState> {
        // Of several with one handle, which there are none of, the first.
        let all = self.people.iter().enumerate().rev();
        all.map(|(place, known)| (known.name.as_str(), place)).collect()
    }

    /// The one whose handle a coach begins to write and leaves off: `plov 4:12`.
    pub fn shortened(&self, word: &str) -> Option<usize> {
        const SHORTEST: usize = 3;
        if self.role != Role::Coach || word.len() < SHORTEST {
            return None;
        }
        let begins = |known: &&Known| known.name.as_str().starts_with(word);
        let mut people = self.people.iter().filter(begins);
        let one = people.next().filter(|_| people.next().is_none())?;
        self.person(one.name.as_str())
    }

    /// The length of the pool in its unit; 25 in open water.
    pub fn pool_length(&self) -> u32 {
        self.course.length().unwrap_or(25)
    }

    /// The day that a result without a day was swum: before the evening of a day
    /// the last one's for a coach, else today.
    pub fn swum_on(&self) -> Date {
        match (self.role, self.phase, self.last_night) {
            (Role::Coach, Phase::None | Phase::Before, Some(night)) => night,
            _ => self.today,
        }
    }

    /// The next evening after today, or today's where it is still to come.
    pub fn next_night(&self) -> Option<Date> {
        let from = if self.phase == Phase::Before { 0 } else { 1 };
        (from..15).find_map(|days| {
            let day = self.today.checked_add(jiff::Span::new().days(days)).ok()?;
            self.nights.contains(&day.weekday()).then_some(day)
        })
    }
}
