//! Words that one place of the reader looks for by themselves, whatever else they mean.

use std::sync::LazyLock;

use strum::{EnumIter, EnumString, IntoEnumIterator};

use super::rows::rows;

static LIST: &str = include_str!("../../../grammar/lexicon/hints.txt");

/// What a word hints at, by the names of `grammar/lexicon/hints.txt`, which says what each
/// means.
#[derive(Debug, Clone, Copy, PartialEq, Eq, EnumIter, EnumString)]
#[strum(serialize_all = "kebab-case")]
#[allow(missing_docs)] // each is explained by its words
pub enum Hint {
    Against,
    Allows,
    Asks,
    BeforeAMessage,
    BesideAName,
    BesideAQuestion,
    Chat,
    Coach,
    Confirms,
    CountChanged,
    Denies,
    Did,
    Doing,
    Ends,
    Enters,
    Everybody,
    Fades,
    Feels,
    Fewer,
    ForABodyPart,
    ForgotToSay,
    HadDone,
    HeldSo,
    Hides,
    HowOneIs,
    KeptBeside,
    Knows,
    LaneDoes,
    LeftOut,
    List,
    Makes,
    Marked,
    Might,
    MightHave,
    NewMember,
    Past,
    PastPerhaps,
    Pool,
    PutDown,
    PutsIn,
    Recalls,
    Reminder,
    RestStays,
    Result,
    Sender,
    Shows,
    Side,
    Somebody,
    Stays,
    StaysAtTheEnds,
    Swims,
    TakesOff,
    ToldTwice,
    Trouble,
    Turned,
    WasThere,
    Well,
    WereSoMany,
    Whom,
    Wishes,
    Years,
}

/// The words of each hint, in the order of the hints.
static WORDS: LazyLock<Vec<Vec<&'static str>>> = LazyLock::new(|| {
    let rows = rows(LIST);
    let words = |hint: Hint| {
        let of_hint = rows.iter().filter(move |(name, ..)| name.parse() == Ok(hint));
        of_hint.map(|(_, _, word)| *word).collect()
    };
    Hint::iter().map(words).collect()
});

impl Hint {
    /// Its words, in both languages.
    pub fn words(self) -> &'static [&'static str] {
        WORDS.get(self as usize).map_or(&[], Vec::as_slice)
    }

    /// True of one of its words.
    pub fn is(self, word: &str) -> bool {
        self.words().contains(&word)
    }

    /// True if one of them stands in the text as typed, as a word or several.
    pub fn is_said(self, typed: &str) -> bool {
        let ends = |one: Option<char>| one.is_none_or(|one| !one.is_alphanumeric());
        self.words().iter().any(|word| {
            typed.match_indices(word).any(|(at, _)| {
                let (before, behind) = (typed.get(..at), typed.get(at + word.len()..));
                ends(before.and_then(|text| text.chars().next_back()))
                    && ends(behind.and_then(|text| text.chars().next()))
            })
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_list_and_the_hints_are_the_same() {
        let as_typed = ["forgot-to-say", "left-out", "told-twice"];
        for (hint, language, word) in rows(LIST) {
            assert!(hint.parse::<Hint>().is_ok(), "{hint}");
            assert!(["en", "es"].contains(&language), "{hint}: {language}");
            assert!(!word.contains(' ') || as_typed.contains(&hint), "{hint}: {word}");
            assert_eq!(crate::message::folded(word), word, "as words are looked up");
        }
        for hint in Hint::iter() {
            assert!(!hint.words().is_empty(), "{hint:?}");
        }
    }
}
