//! Whether a stretch tells, asks or wishes.

use super::Clause;
use crate::language::Language;
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
        || piece.means(Concept::Opening)
}

/// The first piece that says something.
pub fn opening(c: &Clause<'_, '_>) -> usize {
    c.pieces.iter().position(|piece| !is_opening(piece)).unwrap_or(0)
}

/// True for a word that opens a question wherever it stands; `que`, `porque` and
/// `como` of Spanish also join, give reasons and say `about`.
pub fn asks(piece: &Piece<'_>) -> bool {
    let joins = [Concept::That, Concept::Because, Concept::About];
    ASKING.iter().any(|concept| piece.means(*concept))
        && !joins.iter().any(|concept| piece.means(*concept))
}

/// True if the stretch is a question.
pub fn is_question(c: &Clause<'_, '_>) -> bool {
    let marked = c.pieces.iter().any(|piece| matches!(piece.item, Item::Mark('?' | '\u{bf}')));
    let first = opening(c);
    let Some(piece) = c.at(first) else { return false };
    let joins = ASKING.iter().any(|concept| piece.means(*concept));
    let word = asks(piece)
        || joins && opens_text(c, first)
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
        );
    // `… o no`, `… or not`
    let tagged = c.at(c.len() - 1).is_some_and(|last| last.means(Concept::Tag));
    marked || word || tagged || asks_by_order(c, first)
}

/// True where nothing is said before this piece in the whole text, and no figure
/// follows that it would be about.
fn opens_text(c: &Clause<'_, '_>, first: usize) -> bool {
    let before = &c.all[..(c.offset + first).min(c.all.len())];
    let figure = c.at(first + 1).is_some_and(|next| {
        matches!(next.item, Item::Figure(_) | Item::Far(_) | Item::Span(_) | Item::Repeat(..))
    });
    let about = c.at(first).is_some_and(|piece| piece.means(Concept::About));
    before.iter().all(is_opening) && !(about && figure)
}

/// True if the stretch begins as a question does.
pub fn opens_question(c: &Clause<'_, '_>) -> bool {
    let first = opening(c);
    c.at(first).is_some_and(asks) || asks_by_order(c, first)
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

/// `is it …`, `should I …`, `can we …`, `puedo …`: a verb before its subject.
fn asks_by_order(c: &Clause<'_, '_>, first: usize) -> bool {
    let Some(piece) = c.at(first) else { return false };
    if piece.means(Concept::Aux) {
        let next = c.at(first + 1);
        // In Spanish the subject goes without saying.
        let alone = c.sit.language == Language::Spanish
            || matches!(piece.text, "any" | "anyone" | "anybody");
        return match alone {
            true => !next.is_some_and(|next| {
                next.means(Concept::Out)
                    || next.means(Concept::Late)
                    || matches!(next.item, Item::Day(_)) && piece.means(Concept::ComeIfDay)
            }),
            false => next.is_some_and(is_subject),
        };
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
