//! Tables of phrases that are looked for in a text before it is parsed.
//!
//! Knows words and headings, and nothing of what they stand for.

use super::normal::{folded, plain};

/// Phrases under headings, each heading standing for a `T`.
///
/// One phrase a line, without accents or apostrophes. `~` behind a word allows
/// one slip of the finger; `_` stands for one word more, or none.
pub struct Phrases<T> {
    phrases: Vec<Phrase<T>>,
}

/// A phrase found in a text.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Found<T> {
    /// What it stands for.
    pub what: T,
    /// Its first word, counted from 0.
    pub at: usize,
    /// How many words it takes.
    pub length: usize,
}

/// A word of a text, folded.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Word {
    /// Its letters, without case, accents and apostrophes.
    pub text: String,
    /// Which clause it stands in: a comma or a full stop begins another.
    pub clause: usize,
}

/// The words of a text; figures and signs are left out.
pub fn words(text: &str) -> Vec<Word> {
    split(text, char::is_alphabetic)
}

/// The words and figures of a text.
pub fn words_and_figures(text: &str) -> Vec<Word> {
    split(text, char::is_alphanumeric)
}

fn split(text: &str, belongs: fn(char) -> bool) -> Vec<Word> {
    let plain = plain(text).text.replace('\'', "");
    let mut words = Vec::new();
    for (clause, piece) in plain.split([',', '.', ';', '!', '?', '\n']).enumerate() {
        let parts = piece.split(|c: char| !belongs(c)).filter(|word| !word.is_empty());
        words.extend(parts.map(|word| Word { text: folded(word), clause }));
    }
    words
}

impl<T: Copy> Phrases<T> {
    /// Reads tables; `heading` tells what the phrases under `[name]` stand for,
    /// and `None` for headings that are another table's.
    pub fn load(tables: &[&'static str], heading: impl Fn(&str) -> Option<T>) -> Self {
        let mut phrases = Vec::new();
        for table in tables {
            let mut what = None;
            for line in table.lines().filter(|line| !line.is_empty() && !line.starts_with('#')) {
                if let Some(name) = line.strip_prefix('[').and_then(|l| l.strip_suffix(']')) {
                    what = heading(name);
                } else if let Some(what) = what {
                    phrases.push(Phrase { what, words: line.split(' ').map(pattern).collect() });
                }
            }
        }
        Self { phrases }
    }

    /// The longest phrase at the start of `ahead`, folded words.
    pub fn at_start(&self, ahead: &[&str]) -> Option<(T, usize)> {
        let first = ahead.first()?;
        self.phrases
            .iter()
            .filter(|phrase| phrase.words[0].is(first))
            .filter_map(|phrase| phrase.length_in(ahead).map(|length| (phrase.what, length)))
            .max_by_key(|(_, length)| *length)
    }

    /// Every phrase in a text, from left to right; none overlaps another.
    pub fn all_in(&self, words: &[Word]) -> Vec<Found<T>> {
        let texts: Vec<&str> = words.iter().map(|word| word.text.as_str()).collect();
        let mut found = Vec::new();
        let mut at = 0;
        while at < texts.len() {
            match self.at_start(&texts[at..texts.len().min(at + LONGEST)]) {
                Some((what, length)) => {
                    found.push(Found { what, at, length });
                    at += length;
                }
                None => at += 1,
            }
        }
        found
    }
}

/// No phrase takes more words than this, gaps included.
const LONGEST: usize = 12;

struct Phrase<T> {
    what: T,
    words: Vec<Pattern>,
}

enum Pattern {
    Exact(&'static str),
    OneSlip(&'static str),
    AnyOrNone,
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

impl<T> Phrase<T> {
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
