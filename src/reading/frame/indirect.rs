//! Questions that don't begin like one: told (`heron wants to know what she needs`), turned
//! round behind something else (`looks tired what did she do monday`), or put to be
//! confirmed (`just checking my 400 is 6:52`).

use super::Clause;
use super::mood::asks;
use crate::language::Language;
use crate::reading::lexicon::{Concept, Hint};
use crate::reading::piece::{Item, Piece};

/// Pieces that may stand between the word that tells of a question and the one that asks.
const BETWEEN: usize = 4;

/// Who may stand behind a verb that is turned.
const SUBJECTS: [&str; 4] = ["i", "she", "he", "they"];

/// Who may stand behind a word that asks: somebody else.
const OTHERS: [&str; 3] = ["she", "he", "they"];

/// True of a stretch that asks without beginning so.
pub fn asks_otherwise(c: &Clause<'_, '_>) -> bool {
    tells_of_a_question(c) || reminds(c) || checks(c) || turned_inside(c)
}

/// True if a word as typed is one of these, whatever its letters and apostrophes.
fn is_of(typed: &str, wanted: &[&str]) -> bool {
    let plain =
        || typed.bytes().filter(|byte| *byte != b'\'').map(|byte| byte.to_ascii_lowercase());
    wanted.iter().any(|one| plain().eq(one.bytes()))
}

fn has_word_of(c: &Clause<'_, '_>, at: usize, hint: Hint) -> bool {
    is_there(c, at, hint.words())
}

fn is_there(c: &Clause<'_, '_>, at: usize, wanted: &[&str]) -> bool {
    let Some(piece) = c.at(at) else { return false };
    match (piece.item, piece.at.1 - piece.at.0) {
        (Item::Word | Item::Chatter | Item::Unknown, 1) => wanted.contains(&piece.text),
        (Item::Word, _) => c.typed(at, at + 1).split_whitespace().any(|word| is_of(word, wanted)),
        _ => false,
    }
}

/// `wants to know what …`, `is asking if …`, `quisiera saber cuanto …`; not `let me know if`,
/// nor `don't know if`.
fn tells_of_a_question(c: &Clause<'_, '_>) -> bool {
    let asks_from = |at: usize| {
        let rest = c.pieces.part((at + 1).min(c.len()), (at + 1 + BETWEEN).min(c.len()));
        rest.iter().any(|piece| asks(piece) || piece.means(Concept::If))
            || rest.iter().any(|piece| matches!(piece.text, "whether" | "si"))
    };
    let not = |piece: &Piece<'_>| {
        [Concept::Not, Concept::Didnt, Concept::Tell].iter().any(|one| piece.means(*one))
            || matches!(piece.text, "let" | "dont" | "no" | "never")
    };
    let wants = |at: usize| {
        let before = c.pieces.part(at.saturating_sub(3), at);
        let wanted = [Concept::Want, Concept::Need, Concept::To];
        !before.iter().any(not)
            && (before.iter().any(|piece| wanted.iter().any(|one| piece.means(*one)))
                || (at.saturating_sub(2)..=at).any(|at| has_word_of(c, at, Hint::Wishes)))
    };
    (0..c.len()).any(|at| {
        let near = c.pieces.part(at.saturating_sub(2), at);
        (has_word_of(c, at, Hint::Asks) || has_word_of(c, at, Hint::Confirms))
            && !near.iter().any(not)
            && asks_from(at)
            || has_word_of(c, at, Hint::Knows) && wants(at) && asks_from(at)
    })
}

/// `me pueden recordar el tiempo del lunes`
fn reminds(c: &Clause<'_, '_>) -> bool {
    const BY: usize = 4;
    c.sit.language == Language::Spanish
        && (0..c.len().min(BY)).any(|at| has_word_of(c, at, Hint::Recalls))
}

/// `just checking my 400 pb is 6 52`, `please confirm that this was recorded`
fn checks(c: &Clause<'_, '_>) -> bool {
    let checking = (0..c.len().min(3)).any(|at| is_there(c, at, &["checking"]));
    let confirm = (0..c.len()).any(|at| {
        has_word_of(c, at, Hint::Confirms)
            && c.at(at + 1).is_some_and(|next| {
                next.means(Concept::That) || matches!(next.text, "that" | "this" | "it" | "que")
            })
    });
    checking || confirm
}

/// `i never wrote it down did i give you one`, `looks tired what did she do`: a verb before
/// its subject behind what is told, or behind a word that asks.
fn turned_inside(c: &Clause<'_, '_>) -> bool {
    if c.sit.language != Language::English {
        return false;
    }
    let echoes = ["so", "neither", "nor", "as", "than"];
    (1..c.len()).any(|at| {
        let piece = &c.pieces[at];
        if piece.at.1 - piece.at.0 != 2 || piece.item != Item::Word {
            return false;
        }
        let Some((verb, subject)) = c.typed(at, at + 1).split_once(' ') else { return false };
        let turned = is_of(verb, Hint::Turned.words()) && is_of(subject.trim(), &SUBJECTS);
        // `what did` in one piece.
        let asked = asks(piece)
            && is_of(subject.trim(), Hint::Turned.words())
            && c.at(at + 1).is_some_and(|next| {
                matches!(next.item, Item::Person(_)) || OTHERS.contains(&next.text)
            });
        let before = &c.pieces[at - 1];
        // `what do i cut` asks for advice.
        let advice = is_of(subject.trim(), &["i"]) && asks(before);
        (turned && !advice && !echoes.contains(&before.text) || asked)
            && !before.means(Concept::Tell)
    })
}
