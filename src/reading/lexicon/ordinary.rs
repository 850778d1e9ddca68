//! Words that a language knows, though they mean nothing here.
//!
//! A word that stands in its language's list is no slip of the finger and no
//! name; it is chatter. Sources beside the lists.

use super::Lexicon;
use super::inflected::is_form;
use crate::language::Language;

/// True for an ordinary word of `language`, folded.
pub fn is_ordinary(word: &str, language: Language) -> bool {
    match language {
        Language::English => stands_in(ENGLISH, word),
        // No list holds all the forms of Spanish verbs, and this one lacks words of the
        // trade (`entrenar`), which the lists of meanings have.
        Language::Spanish => {
            is_form(word, |word| stands_in(SPANISH, word) || Lexicon::of(language).has_word(word))
        }
    }
}

/// A binary search over sorted lines, so that nothing is built at the start.
fn stands_in(list: &str, word: &str) -> bool {
    let bytes = list.as_bytes();
    let (mut low, mut high) = (0, bytes.len());
    while low < high {
        let middle = low + (high - low) / 2;
        let start = bytes[..middle].iter().rposition(|b| *b == b'\n').map_or(0, |at| at + 1);
        let end =
            bytes[middle..].iter().position(|b| *b == b'\n').map_or(bytes.len(), |at| middle + at);
        match bytes[start..end].cmp(word.as_bytes()) {
            std::cmp::Ordering::Equal => return true,
            std::cmp::Ordering::Less => low = end + 1,
            std::cmp::Ordering::Greater => high = start,
        }
    }
    false
}

const ENGLISH: &str = include_str!("../../../grammar/lexicon/ordinary-english.txt");
const SPANISH: &str = include_str!("../../../grammar/lexicon/ordinary-spanish.txt");
