//! Whether a stretch tells, asks or wishes.

use super::Clause;
use crate::reading::lexicon::Concept;
use crate::reading::piece::{Item, Piece};

/// Words that open a question.
pub const ASKING: [Concept; 8] = [
    Concept::What,
    Concept::How,
    Concept::When,
    Concept::Where,
    Concept::Which,
    Concept::Who,
    Concept::Why,
    Concept::HowMany,
];

/// True for a piece that says nothing at the start of a sentence.
pub fn is_opening(piece: &Piece<'_>) -> bool {
    matches!(piece.item, Item::Mark(_) | Item::Line | Item::Picture)
        || [
            Concept::Greeting,
            Concept::Please,
            Concept::Coach,
            Concept::Thanks,
            Concept::And,
            Concept::But,
            Concept::Sorry,
            Concept::Then,
        ]
        .iter()
        .any(|concept| piece.means(*concept))
        || matches!(
            piece.text,
            "so" | "ok"
                | "okay"
                | "well"
                | "right"
                | "um"
                | "er"
                | "ah"
                | "oh"
                | "also"
                | "btw"
                | "quick"
                | "question"
                | "q"
                | "hmm"
                | "anyway"
                | "x"
                | "just"
                | "wondering"
                | "if"
                | "wonder"
                | "now"
                | "y"
                | "pues"
                | "oye"
                | "che"
                | "bueno"
                | "una"
                | "pregunta"
                | "duda"
                | "dumb"
                | "stupid"
                | "random"
                | "silly"
        )
}

/// The first piece that says something.
pub fn opening(c: &Clause<'_, '_>) -> usize {
    c.pieces.iter().position(|piece| !is_opening(piece)).unwrap_or(0)
}

/// True if the stretch is a question.
pub fn is_question(c: &Clause<'_, '_>) -> bool {
    let marked = c.pieces.iter().any(|piece| matches!(piece.item, Item::Mark('?' | '\u{bf}')));
    let first = opening(c);
    let Some(piece) = c.at(first) else { return false };
    let word = ASKING.iter().any(|concept| piece.means(*concept))
        || matches!(
            piece.text,
            "what"
                | "whats"
                | "how"
                | "hows"
                | "when"
                | "whens"
                | "where"
                | "which"
                | "who"
                | "whos"
                | "why"
                | "que"
                | "q"
                | "cuanto"
                | "cuando"
                | "donde"
                | "cual"
                | "quien"
                | "como"
                | "por"
        );
    marked || word || asks_by_order(c, first)
}

/// True if the stretch begins as a question does.
pub fn opens_question(c: &Clause<'_, '_>) -> bool {
    let first = opening(c);
    c.at(first).is_some_and(|piece| ASKING.iter().any(|concept| piece.means(*concept)))
        || asks_by_order(c, first)
}

/// A word that a question's verb may stand before.
fn is_subject(piece: &Piece<'_>) -> bool {
    matches!(piece.item, Item::Person(_) | Item::Figure(_) | Item::Day(_))
        || [
            Concept::Me,
            Concept::My,
            Concept::You,
            Concept::We,
            Concept::They,
            Concept::He,
            Concept::She,
            Concept::Squad,
            Concept::Session,
            Concept::Set,
        ]
        .iter()
        .any(|one| piece.means(*one))
        || matches!(
            piece.text,
            "it" | "that"
                | "those"
                | "these"
                | "this"
                | "there"
                | "the"
                | "a"
                | "an"
                | "anyone"
                | "anybody"
                | "everyone"
                | "all"
                | "fins"
                | "paddles"
                | "swimming"
        )
}

/// `is it …`, `should I …`, `can we …`, `do you …`: a verb before its subject.
fn asks_by_order(c: &Clause<'_, '_>, first: usize) -> bool {
    let Some(piece) = c.at(first) else { return false };
    if matches!(
        piece.text,
        "is" | "are"
            | "am"
            | "should"
            | "would"
            | "does"
            | "will"
            | "shall"
            | "can"
            | "could"
            | "may"
            | "any"
            | "anyone"
            | "anybody"
            | "es"
            | "puedo"
            | "podria"
            | "debo"
            | "deberia"
            | "hay"
            | "sirve"
            | "sirven"
            | "conviene"
            | "alguien"
            | "algun"
            | "alguna"
            | "cuanto"
            | "cuantos"
            | "cuantas"
            | "cuanta"
    ) {
        let spanish =
            !piece.text.is_ascii() || c.sit.language == crate::language::Language::Spanish;
        return spanish
            || matches!(piece.text, "any" | "anyone" | "anybody")
            || c.at(first + 1).is_some_and(is_subject);
    }
    if piece.at.1 - piece.at.0 > 1 && piece.means(Concept::Is) {
        return true;
    }
    let verb = matches!(piece.text, "do" | "did" | "have" | "has" | "was" | "were");
    let subject = c.at(first + 1).is_some_and(|next| {
        [Concept::Me, Concept::You, Concept::We, Concept::They, Concept::He, Concept::She]
            .iter()
            .any(|one| next.means(*one))
            || matches!(
                next.text,
                "it" | "that" | "those" | "these" | "this" | "we" | "they" | "you" | "i"
            )
            || matches!(next.item, Item::Person(_))
    });
    verb && subject
}
