//! Words of danger and of harm, looked for before anything is parsed.
//!
//! Knows phrases and nothing of what is answered; every language is looked
//! through, whatever language the swimmer has chosen.

use std::sync::LazyLock;

use super::normal::{folded, plain};

/// How grave the words of a text are; the gravest first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Danger {
    /// Chest pain, fainting, a fit, breath that won't come: out now, and help.
    Emergency,
    /// A knock to the head: out, and no more swimming.
    HeadKnock,
    /// Dizziness: out, sit, not alone.
    Dizzy,
    /// A grave word inside a harmless phrase (`chest strap`): ask in one word,
    /// alarm nobody.
    Unclear,
}

/// What a phrase of the tables stands for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Alarm {
    /// See [`Danger::Emergency`].
    Emergency,
    /// See [`Danger::HeadKnock`].
    HeadKnock,
    /// See [`Danger::Dizzy`].
    Dizzy,
    /// See [`Danger::Unclear`].
    Harmless,
    /// Words of harm or fear.
    Welfare,
}

/// The gravest danger that the words of `text` name.
///
/// ```
/// use lapwing::message::{Danger, danger};
/// assert_eq!(danger("200 test 3:12 felt dizy"), Some(Danger::Dizzy));
/// assert_eq!(danger("chest strap slipped"), Some(Danger::Unclear));
/// assert_eq!(danger("dying lol"), None);
/// ```
pub fn danger(text: &str) -> Option<Danger> {
    alarms(text)
        .into_iter()
        .filter_map(|alarm| match alarm {
            Alarm::Emergency => Some(Danger::Emergency),
            Alarm::HeadKnock => Some(Danger::HeadKnock),
            Alarm::Dizzy => Some(Danger::Dizzy),
            Alarm::Harmless => Some(Danger::Unclear),
            Alarm::Welfare => None,
        })
        .min()
}

/// True where the words of `text` speak of harm or fear.
pub fn welfare(text: &str) -> bool {
    alarms(text).contains(&Alarm::Welfare)
}

/// The phrase at the start of `ahead`, folded words, and how many it takes.
pub(super) fn alarm_at(ahead: &[&str]) -> Option<(Alarm, usize)> {
    match phrase_at(ahead)? {
        (Some(alarm), length) => Some((alarm, length)),
        (None, _) => None,
    }
}

/// As [`alarm_at`]; a phrase of the quiet list has no alarm.
fn phrase_at(ahead: &[&str]) -> Option<(Option<Alarm>, usize)> {
    let first = ahead.first()?;
    PHRASES
        .iter()
        .filter(|phrase| phrase.words[0].is(first))
        .filter_map(|phrase| phrase.length_in(ahead).map(|length| (phrase.alarm, length)))
        .max_by_key(|(_, length)| *length)
}

fn alarms(text: &str) -> Vec<Alarm> {
    let plain = plain(text).text.replace('\'', "");
    let words: Vec<String> =
        plain.split(|c: char| !c.is_alphabetic()).filter(|w| !w.is_empty()).map(folded).collect();
    let words: Vec<&str> = words.iter().map(String::as_str).collect();
    let mut found = Vec::new();
    let mut at = 0;
    while at < words.len() {
        let ahead = &words[at..words.len().min(at + LONGEST)];
        match phrase_at(ahead) {
            Some((alarm, length)) => {
                found.extend(alarm);
                at += length;
            }
            None => at += 1,
        }
    }
    found
}

/// No phrase takes more words than this, gaps included.
const LONGEST: usize = 12;

struct Phrase {
    alarm: Option<Alarm>,
    words: Vec<Pattern>,
}

enum Pattern {
    Exact(&'static str),
    OneSlip(&'static str),
    AnyOrNone,
}

static PHRASES: LazyLock<Vec<Phrase>> = LazyLock::new(|| {
    [
        include_str!("../../grammar/safety/english.txt"),
        include_str!("../../grammar/safety/spanish.txt"),
    ]
    .into_iter()
    .flat_map(load)
    .collect()
});

fn load(table: &'static str) -> Vec<Phrase> {
    let mut alarm = None;
    let mut phrases = Vec::new();
    for line in table.lines().filter(|line| !line.is_empty() && !line.starts_with('#')) {
        match line {
            "[emergency]" => alarm = Some(Alarm::Emergency),
            "[dizzy]" => alarm = Some(Alarm::Dizzy),
            "[head]" => alarm = Some(Alarm::HeadKnock),
            "[harmless]" => alarm = Some(Alarm::Harmless),
            "[welfare]" => alarm = Some(Alarm::Welfare),
            "[quiet]" => alarm = None,
            phrase => {
                phrases.push(Phrase { alarm, words: phrase.split(' ').map(pattern).collect() })
            }
        }
    }
    phrases
}

fn pattern(word: &'static str) -> Pattern {
    match word.strip_suffix('~') {
        Some(word) => Pattern::OneSlip(word),
        None if word == "_" => Pattern::AnyOrNone,
        None => Pattern::Exact(word),
    }
}

impl Pattern {
    fn is(&self, word: &str) -> bool {
        match self {
            Pattern::Exact(exact) => *exact == word,
            Pattern::OneSlip(meant) => {
                *meant == word
                    || (meant.chars().next() == word.chars().next()
                        && meant.len().abs_diff(word.len()) <= 1
                        && strsim::osa_distance(meant, word) <= 1)
            }
            Pattern::AnyOrNone => true,
        }
    }
}

impl Phrase {
    /// How many of the words `ahead` it takes, if it stands there.
    fn length_in(&self, ahead: &[&str]) -> Option<usize> {
        fn go(patterns: &[Pattern], ahead: &[&str], taken: usize) -> Option<usize> {
            let Some((first, rest)) = patterns.split_first() else { return Some(taken) };
            let with_one = || {
                let (word, after) = ahead.split_first()?;
                first.is(word).then(|| go(rest, after, taken + 1)).flatten()
            };
            match first {
                Pattern::AnyOrNone => go(rest, ahead, taken).or_else(with_one),
                _ => with_one(),
            }
        }
        go(&self.words, ahead, 0)
    }
}
