//! The words of a question, and what each asks for.

use std::collections::HashMap;
use std::str::FromStr;
use std::sync::LazyLock;

use strum::EnumString;

use crate::language::Language;
use crate::message::Term;
use crate::reading::lexicon::rows;

/// What a word of a question may ask for, by the names of `grammar/lexicon/asked.txt`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, EnumString)]
#[strum(serialize_all = "kebab-case")]
pub enum Word {
    What,
    HowMany,
    HowMuch,
    HowLong,
    HowOften,
    When,
    Who,
    Where,
    Why,
    How,
    Time,
    Did,
    Average,
    Quickest,
    Slowest,
    Better,
    Worse,
    Under,
    Off,
    Reach,
    Need,
    Per,
    ComesTo,
    Come,
    Been,
    LastIn,
    Last,
    Since,
    DoneSoFar,
    Left,
    Finish,
    Take,
    Total,
    Lengths,
    Rest,
    SendOff,
    Tight,
    Hold,
    Lane,
    Bring,
    Kit,
    Test,
    Set,
    On,
    Gave,
    Again,
    Stored,
    Before,
    LastTime,
    Compare,
    That,
    InPool,
    Make,
    Yet,
    SameTime,
    Close,
    Pr,
    Mean,
    WhatIs,
    Include,
    You,
    Robot,
    Data,
    Keep,
    See,
    Fit,
    Ahead,
    Else,
    Kin,
    Health,
    Filler,
    #[strum(disabled)]
    Term(Term),
}

/// Words in a row of the longest spelling.
const LONGEST: usize = 6;

static LIST: &str = include_str!("../../../../../grammar/lexicon/asked.txt");

/// The spellings of one language.
struct Spellings(HashMap<&'static str, Vec<Word>>);

static ENGLISH: LazyLock<Spellings> = LazyLock::new(|| Spellings::of("en"));
static SPANISH: LazyLock<Spellings> = LazyLock::new(|| Spellings::of("es"));

impl Spellings {
    fn of(language: &str) -> Spellings {
        let mut spellings: HashMap<&'static str, Vec<Word>> = HashMap::new();
        for (meaning, of, spelling) in rows(LIST) {
            if let Some(word) = Word::named(meaning).filter(|_| of == language) {
                spellings.entry(spelling).or_default().push(word);
            }
        }
        Spellings(spellings)
    }

    const fn in_language(language: Language) -> &'static LazyLock<Spellings> {
        match language {
            Language::English => &ENGLISH,
            Language::Spanish => &SPANISH,
        }
    }
}

impl Word {
    fn named(name: &str) -> Option<Word> {
        match name.strip_prefix("term-") {
            Some(term) => Term::from_str(term).ok().map(Word::Term),
            None => Word::from_str(name).ok(),
        }
    }
}

/// What the words of a question ask for.
#[derive(Debug, Default)]
pub struct Asked {
    /// Each meaning, with the place of its first word and of the one behind its last.
    found: Vec<(Word, (usize, usize))>,
    /// How many words there are that none of the lists knows, and none is too short to
    /// say anything.
    pub unknown: usize,
}

impl Asked {
    /// What these words ask for; `known` are those that a piece explains.
    pub fn of(words: &[&str], known: &[bool], language: Language) -> Asked {
        const SHORT: usize = 3;
        let spellings = &Spellings::in_language(language).0;
        let mut asked = Asked::default();
        let mut at = 0;
        while let Some(rest) = words.get(at..).filter(|rest| !rest.is_empty()) {
            let longest = (1..=LONGEST.min(rest.len())).rev().find_map(|count| {
                let spelling = rest.get(..count)?.join(" ");
                Some((count, spellings.get(spelling.as_str())?))
            });
            match longest {
                Some((count, meanings)) => {
                    asked.found.extend(meanings.iter().map(|word| (*word, (at, at + count))));
                    at += count;
                }
                None => {
                    let short = rest.first().is_none_or(|word| word.len() <= SHORT);
                    let known = known.get(at).copied().unwrap_or_default();
                    asked.unknown += usize::from(!short && !known);
                    at += 1;
                }
            }
        }
        asked
    }

    /// True if some word asks for this.
    pub fn has(&self, word: Word) -> bool {
        self.found.iter().any(|(found, _)| *found == word)
    }

    /// True if some word asks for one of these.
    pub fn has_any(&self, words: &[Word]) -> bool {
        words.iter().any(|word| self.has(*word))
    }

    /// The words of the trade that are named, each once.
    pub fn terms(&self) -> Vec<Term> {
        let mut terms = Vec::new();
        for (word, _) in &self.found {
            if let Word::Term(term) = word
                && !terms.contains(term)
            {
                terms.push(*term);
            }
        }
        terms
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_meaning_of_the_list_is_known() {
        for (meaning, language, spelling) in rows(LIST) {
            assert!(Word::named(meaning).is_some(), "{meaning}");
            assert!(["en", "es"].contains(&language), "{meaning}: {language}");
            assert!(spelling.split(' ').count() <= LONGEST, "{spelling}");
            assert_eq!(crate::message::folded(spelling), spelling, "as words are looked up");
        }
    }
}
