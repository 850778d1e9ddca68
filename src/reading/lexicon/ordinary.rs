//! Words that a language knows, though they mean nothing here.
//!
//! A word that stands in its language's list is no slip of the finger and no
//! name; it is chatter. Sources beside the lists.

use std::collections::HashMap;
use std::sync::LazyLock;

use foldhash::fast::RandomState;

use super::inflected::is_form;
use super::{FixedSet, Lexicon};
use crate::language::Language;
use crate::reading::lex::{Form, Lexed};

/// Of each token of a text whether it is an ordinary word, by [`Language::ALL`]'s order.
pub type Ordinary = [bool; Language::ALL.len()];

/// Which tokens of a text are ordinary words, worked out once for all who ask; none of what
/// is no word.
pub fn ordinary(lexed: &Lexed) -> &[Ordinary] {
    lexed.noted(|tokens| {
        // A longer text says most of its words more than once.
        let mut met: HashMap<&str, Ordinary, RandomState> = HashMap::default();
        let mut of = |word| {
            let look = || Language::ALL.map(|language| is_ordinary(word, language));
            *met.entry(word).or_insert_with(look)
        };
        let known = tokens.iter().map(|token| match token.form {
            Form::Word => of(token.text),
            _ => Ordinary::default(),
        });
        known.collect()
    })
}

/// True for a token that is an ordinary word of `language`.
pub const fn knows([english, spanish]: Ordinary, language: Language) -> bool {
    match language {
        Language::English => english,
        Language::Spanish => spanish,
    }
}

/// True for an ordinary word of `language`, folded.
pub fn is_ordinary(word: &str, language: Language) -> bool {
    match language {
        Language::English => ENGLISH.contains(word),
        // No list holds all the forms of Spanish verbs, and this one lacks words of the
        // trade (`entrenar`), which the lists of meanings have.
        Language::Spanish => {
            is_form(word, |word| SPANISH.contains(word) || Lexicon::of(language).has_word(word))
        }
    }
}

/// A list's words, with room for all of them from the first.
fn set(list: &'static str) -> FixedSet<&'static str> {
    let mut words = FixedSet::default();
    words.reserve(list.bytes().filter(|byte| *byte == b'\n').count() + 1);
    words.extend(list.lines());
    words
}

static ENGLISH: LazyLock<FixedSet<&'static str>> =
    LazyLock::new(|| set(include_str!("../../../grammar/lexicon/ordinary-english.txt")));

static SPANISH: LazyLock<FixedSet<&'static str>> =
    LazyLock::new(|| set(include_str!("../../../grammar/lexicon/ordinary-spanish.txt")));
