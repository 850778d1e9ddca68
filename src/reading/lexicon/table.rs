//! The lists, loaded once: from the first word of a spelling to its senses.

use std::sync::LazyLock;

use jiff::civil::Weekday;

use super::rows::rows;
use super::{Concept, Fixed, Sense, UnitWord};
use crate::language::Language;
use crate::message::{Day, Illness, Sport};
use crate::reading::lex::Token;
use crate::session::Part;
use crate::units::{Course, Equipment, Level, Start, Stroke};

/// A language's words.
pub struct Lexicon {
    /// Spellings by their first word, longest first.
    by_first: Fixed<&'static str, Vec<Spelling>>,
}

#[derive(Debug, PartialEq)]
struct Spelling {
    words: Vec<&'static str>,
    sense: Sense,
}

/// What a word alone may mean, looked up once.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Alone(&'static [Spelling]);

impl Alone {
    /// A word that means nothing.
    pub const NOTHING: Alone = Alone(&[]);

    /// True if the word alone can mean this.
    pub fn means(self, concept: Concept) -> bool {
        self.0
            .iter()
            .any(|spelling| spelling.words.len() == 1 && spelling.sense == Sense::Word(concept))
    }
}

/// A sense and how many words it takes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Found {
    /// How many words.
    pub words: usize,
    /// What they stand for.
    pub sense: Sense,
}

impl Lexicon {
    /// The words of `language`.
    pub fn of(language: Language) -> &'static Lexicon {
        match language {
            Language::English => &ENGLISH,
            Language::Spanish => &SPANISH,
        }
    }

    /// Every sense of the words at the start of `ahead`, the longest first.
    pub fn senses_at<'a>(&'a self, ahead: &'a [Token<'a>]) -> impl Iterator<Item = Found> + 'a {
        let spellings = ahead.first().and_then(|first| self.by_first.get(first.text));
        spellings.into_iter().flatten().filter_map(move |spelling| {
            let fits = ahead.len() >= spelling.words.len()
                && spelling.words.iter().zip(ahead).all(|(word, token)| *word == token.text);
            fits.then_some(Found { words: spelling.words.len(), sense: spelling.sense })
        })
    }

    /// True if this word alone means something.
    pub fn has_word(&self, word: &str) -> bool {
        self.by_first.get(word).is_some_and(|all| all.iter().any(|one| one.words.len() == 1))
    }

    /// What this word alone may mean.
    pub fn alone(&'static self, word: &str) -> Alone {
        Alone(self.by_first.get(word).map_or(&[], Vec::as_slice))
    }

    /// True if a word alone can mean this.
    pub fn means(&'static self, word: &str, concept: Concept) -> bool {
        self.alone(word).means(concept)
    }

    /// True if some spelling begins with this word.
    pub fn knows(&self, word: &str) -> bool {
        self.by_first.contains_key(word)
    }

    /// Every spelling of one word.
    pub fn words(&self) -> impl Iterator<Item = &'static str> {
        self.by_first.values().flatten().filter_map(|one| match *one.words {
            [word] => Some(word),
            _ => None,
        })
    }

    fn load(lists: &[&'static str]) -> Self {
        let mut by_first: Fixed<&'static str, Vec<Spelling>> = Fixed::default();
        for (class, value, spelling) in lists.iter().flat_map(|list| rows(list)) {
            // Signs of health are read by themselves.
            if class == "sign" {
                continue;
            }
            let sense = sense(class, value);
            debug_assert!(sense.is_some(), "no such meaning: [{class}] {value}");
            let words = in_tokens(spelling);
            let (Some(sense), Some(first)) = (sense, words.first()) else { continue };
            by_first.entry(first).or_default().push(Spelling { words, sense });
        }
        for spellings in by_first.values_mut() {
            spellings.sort_by_key(|spelling| std::cmp::Reverse(spelling.words.len()));
        }
        Lexicon { by_first }
    }
}

/// A spelling in the words that the lexer takes it for: `2nite` is a figure and a word.
fn in_tokens(spelling: &'static str) -> Vec<&'static str> {
    let mut words = Vec::new();
    for word in spelling.split(' ') {
        let mut rest = word;
        while let Some(first) = rest.chars().next() {
            let other = |next: char| next.is_ascii_digit() != first.is_ascii_digit();
            let (run, after) = rest.split_at(rest.find(other).unwrap_or(rest.len()));
            words.push(run);
            rest = after;
        }
    }
    words
}

fn sense(class: &str, value: &'static str) -> Option<Sense> {
    let number = || value.parse().ok();
    Some(match class {
        "number" => Sense::Number(number()?),
        "sounds like" => Sense::SoundsLike(number()?),
        "plural" => Sense::Plural(number()?),
        "ordinal" => Sense::Ordinal(number()?),
        "unit" => Sense::Unit(unit(value)?),
        "stroke" => Sense::Stroke(value.parse::<Stroke>().ok()?),
        "kit" => Sense::Kit(value.parse::<Equipment>().ok()?),
        "level" => Sense::Level(level(value)?),
        "effort" => Sense::Effort(value),
        "part" => Sense::Part(part(value)?),
        "course" => Sense::Course(course(value)?),
        "start" => Sense::Start(start(value)?),
        "day" => Sense::Day(day(value)?),
        "feast" => Sense::Feast(crate::reading::piece::Feast::named(value)?),
        "month" => Sense::Month(u8::try_from(number()?).ok()?),
        "sport" => Sense::Sport(sport(value), value),
        "illness" => Sense::Illness(illness(value)?),
        "body" => Sense::Body(value),
        "word" => {
            let concept = Concept::ALL.iter().find(|(_, name)| *name == value);
            Sense::Word(concept?.0)
        }
        _ => return None,
    })
}

fn unit(value: &str) -> Option<UnitWord> {
    Some(match value {
        "m" => UnitWord::Metre,
        "yd" => UnitWord::Yard,
        "k" => UnitWord::Kilo,
        "mile" => UnitWord::Mile,
        "length" => UnitWord::Length,
        "sec" => UnitWord::Second,
        "min" => UnitWord::Minute,
        "hour" => UnitWord::Hour,
        "day" => UnitWord::Day,
        "week" => UnitWord::Week,
        "fortnight" => UnitWord::Fortnight,
        "month" => UnitWord::Month,
        _ => return None,
    })
}

fn level(value: &str) -> Option<Level> {
    Some(match value {
        "easy" => Level::Easy,
        "steady" => Level::Steady,
        "threshold" => Level::Threshold,
        "hard" => Level::Hard,
        "sprint" => Level::Sprint,
        _ => return None,
    })
}

fn part(value: &str) -> Option<Part> {
    Some(match value {
        "warm-up" => Part::WarmUp,
        "drill" => Part::Drill,
        "build" => Part::Build,
        "test" => Part::Test,
        "recovery" => Part::Recovery,
        "main" => Part::Main,
        "swim-down" => Part::SwimDown,
        _ => return None,
    })
}

fn course(value: &str) -> Option<Course> {
    Some(match value {
        "25m" => Course::Short25m,
        "50m" => Course::Long50m,
        "25yd" => Course::Short25yd,
        "open" => Course::OpenWater,
        _ => return None,
    })
}

fn start(value: &str) -> Option<Start> {
    Some(match value {
        "push" => Start::Push,
        "dive" => Start::Dive,
        "water" => Start::Water,
        _ => return None,
    })
}

fn day(value: &str) -> Option<Day> {
    let weekday = |name| {
        Some(match name {
            "mon" => Weekday::Monday,
            "tue" => Weekday::Tuesday,
            "wed" => Weekday::Wednesday,
            "thu" => Weekday::Thursday,
            "fri" => Weekday::Friday,
            "sat" => Weekday::Saturday,
            "sun" => Weekday::Sunday,
            _ => return None,
        })
    };
    Some(match value {
        "today" => Day::Today,
        "yesterday" => Day::Yesterday,
        "tomorrow" => Day::Tomorrow,
        other => Day::On(weekday(other)?),
    })
}

fn sport(value: &str) -> Sport {
    match value {
        "run" => Sport::Run,
        "ride" => Sport::Ride,
        "gym" => Sport::Gym,
        _ => Sport::Other,
    }
}

fn illness(value: &str) -> Option<Option<Illness>> {
    Some(match value {
        "cold" => Some(Illness::Cold),
        "fever" => Some(Illness::Fever),
        "stomach" => Some(Illness::Stomach),
        "ill" => None,
        _ => return None,
    })
}

static ENGLISH: LazyLock<Lexicon> = LazyLock::new(|| {
    Lexicon::load(&[
        include_str!("../../../grammar/lexicon/english.txt"),
        include_str!("../../../grammar/lexicon/body-english.txt"),
        include_str!("../../../grammar/lexicon/health-english.txt"),
    ])
});

static SPANISH: LazyLock<Lexicon> = LazyLock::new(|| {
    Lexicon::load(&[
        include_str!("../../../grammar/lexicon/spanish.txt"),
        include_str!("../../../grammar/lexicon/body-spanish.txt"),
        include_str!("../../../grammar/lexicon/health-spanish.txt"),
    ])
});
