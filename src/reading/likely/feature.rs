//! What the model looks at: words and pairs of words, with figures, names and other
//! pieces masked by their kind, who writes and when.

use std::collections::HashSet;

use foldhash::fast::RandomState;

use crate::reading::frame::Clause;
use crate::reading::lexicon::Sense;
use crate::reading::piece::{Item, Piece};
use crate::reading::situation::{Phase, Role};

/// Words longer than this are looked at by their beginning, too.
const STEM: usize = 5;

/// The features of a text, each once, in the order in which they come.
pub fn features(c: &Clause<'_, '_>) -> Vec<String> {
    let role = match c.sit.role {
        Role::Coach => "coach",
        Role::Swimmer => "swimmer",
    };
    let phase = match c.sit.phase {
        Phase::None => "free",
        Phase::Before => "before",
        Phase::During => "during",
        Phase::After => "after",
    };
    let mut all: Vec<String> = vec![format!("{role} {phase}")];
    let set = c.sit.set.is_some();
    all.push(format!("{role} {}", if set { "set" } else { "no-set" }));
    let mut before = "^".to_owned();
    for (at, piece) in c.pieces.iter().enumerate() {
        for word in masked(c, at, piece) {
            all.push(word.clone());
            all.push([role, ":", &word].concat());
            all.push([&before, "_", &word].concat());
            if word.chars().count() > STEM {
                all.push(format!("{}*", word.chars().take(STEM).collect::<String>()));
            }
            before = word;
        }
        for sense in &piece.senses {
            if let Sense::Word(concept) = sense {
                all.push(format!("={concept:?}"));
            }
        }
    }
    all.push(format!("{before}_$"));
    each_once(all)
}

/// Each of them once, in the order in which they came first.
pub fn each_once(all: Vec<String>) -> Vec<String> {
    let mut seen = HashSet::with_capacity_and_hasher(all.len(), RandomState::default());
    let first: Vec<bool> = all.iter().map(|one| seen.insert(one.as_str())).collect();
    let kept = all.into_iter().zip(first).filter_map(|(one, first)| first.then_some(one));
    kept.collect()
}

/// A piece as words, or as the kind of what it is.
pub fn masked(c: &Clause<'_, '_>, at: usize, piece: &Piece<'_>) -> Vec<String> {
    let kind = match piece.item {
        Item::Figure(figure) if figure.is_marked() => "<clock>",
        Item::Figure(figure) if figure.whole().is_none() => "<parted>",
        Item::Figure(figure) => match figure.whole().unwrap_or(0) {
            0..=12 => "<few>",
            13..=99 => "<tens>",
            _ => "<hundreds>",
        },
        Item::Far(_) => "<far>",
        Item::Repeat(..) => "<repeat>",
        Item::Plural(_) => "<plural>",
        Item::Each(_) => "<each>",
        Item::Span(_) => "<span>",
        Item::Ordinal(_) => "<ordinal>",
        Item::OfAll(..) => "<of-all>",
        Item::Range(..) => "<range>",
        Item::Rpe(_) => "<rpe>",
        Item::Pulse(_) => "<pulse>",
        Item::Day(_) => "<day>",
        Item::TimeOfDay(..) => "<hour>",
        Item::Person(person) if Some(person) == c.sit.me => "<me>",
        Item::Person(_) | Item::Marked(_) => "<person>",
        Item::Lanes(_) => "<lane>",
        Item::Picture => "<picture>",
        Item::Line => "<line>",
        Item::Mark('?') => "?",
        Item::Mark('!') => "!",
        Item::Mark(_) => return vec![],
        Item::Word | Item::Chatter | Item::Unknown => {
            let typed = c.typed(at, at + 1).to_lowercase();
            let word = |word: &str| word.chars().filter(|c| c.is_alphanumeric()).collect();
            return typed.split_whitespace().map(word).collect();
        }
    };
    vec![kind.to_owned()]
}
