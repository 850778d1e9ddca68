//! Whether a stretch tells, asks or wishes.

use super::Clause;
use super::indirect::asks_otherwise;
use crate::language::Language;
use crate::reading::lexicon::{Concept, Lexicon};
use crate::reading::likely::Class;
use crate::reading::piece::{Item, Piece};

/// Pieces by which somebody is called upon before a question.
const CALLED: usize = 2;

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
            Concept::Opener,
        ]
        .iter()
        .any(|concept| piece.means(*concept))
}

/// The first piece that says something.
pub fn opening(c: &Clause<'_, '_>) -> usize {
    c.pieces.iter().position(|piece| !is_opening(piece)).unwrap_or(0)
}

/// True if the stretch is a question.
pub fn is_question(c: &Clause<'_, '_>) -> bool {
    if let Some(known) = c.question {
        return known;
    }
    let marked = c.pieces.iter().any(|piece| matches!(piece.item, Item::Mark('?' | '\u{bf}')));
    // `… o no`, `… or not`
    // … and `voy o no voy`
    let tagged = c.pieces.last().is_some_and(|last| last.means(Concept::Tag))
        || c.pieces
            .array_windows()
            .any(|[one, tag, other]| tag.means(Concept::Tag) && one.text == other.text);
    marked || tagged || asked_behind(c) || opens_question(c) || seeks_assent(c) || asks_otherwise(c)
}

/// `half of lane 4 doing breaststroke, is that ok`, `my 200 monday was 3 12 right`: what is told
/// ends with whether it is so.
fn seeks_assent(c: &Clause<'_, '_>) -> bool {
    const LAST: usize = 5;
    if c.sit.language != Language::English {
        return false;
    }
    let end = c.pieces.part(c.len().saturating_sub(LAST).max(1), c.len());
    let is_that = end.iter().any(|piece| piece.text == "is that")
        || end.array_windows::<2>().any(|[verb, that]| {
            matches!(verb.text, "is" | "was") && matches!(that.text, "that" | "this")
        });
    let told = c.pieces.iter().any(|piece| matches!(piece.item, Item::Figure(_)));
    let right = |last: &Piece<'_>| matches!(last.text, "right" | "correct");
    is_that || told && c.len() > 3 && c.pieces.last().is_some_and(right)
}

/// `heron did 3:12 on monday didnt he`, `swift's asking could she do a 2:40`: a verb before
/// its subject behind what is told.
pub fn asked_behind(c: &Clause<'_, '_>) -> bool {
    if c.sit.language != Language::English {
        return false;
    }
    let somebody = |piece: &Piece<'_>| {
        [Concept::He, Concept::She, Concept::They, Concept::You].iter().any(|one| piece.means(*one))
    };
    let turned = |pair: &[Piece<'_>; 2]| {
        let [verb, subject] = pair;
        let asks = matches!(verb.text, "could" | "can" | "would" | "should" | "did" | "does");
        asks && somebody(subject)
    };
    let tag = |pair: &[Piece<'_>; 2]| {
        let [verb, subject] = pair;
        let denies = verb.text.ends_with("nt") && verb.at.1 - verb.at.0 == 1;
        denies && (somebody(subject) || subject.means(Concept::It))
    };
    let pairs = c.pieces.array_windows::<2>();
    pairs.clone().skip(1).any(turned) || c.len() > 3 && pairs.last().is_some_and(tag)
}

/// True for a word that asks wherever it stands; `que`, `porque` and `como` of
/// Spanish also join, give reasons and say `about`.
pub fn asks(piece: &Piece<'_>) -> bool {
    let joins = [Concept::That, Concept::Because, Concept::About];
    ASKING.iter().any(|concept| piece.means(*concept))
        && !joins.iter().any(|concept| piece.means(*concept))
}

/// True for such a word where it can't but ask: `que` and `porque` at the start of
/// all, `como` before no figure.
fn asks_here(c: &Clause<'_, '_>, at: usize) -> bool {
    let Some(piece) = c.at(at).filter(|piece| ASKING.iter().any(|one| piece.means(*one))) else {
        return false;
    };
    let before = c.all.part(0, (c.offset + at).min(c.all.len()));
    let figure = c.at(at + 1).is_some_and(|next| {
        matches!(next.item, Item::Figure(_) | Item::Far(_) | Item::Span(_) | Item::Repeat(..))
    });
    if piece.means(Concept::That) || piece.means(Concept::Because) {
        return before.iter().all(is_opening);
    }
    // `the first, which was 45`: told of what stands before it.
    let relative = matches!(piece.text, "which" | "cual")
        && before.last().is_some_and(|last| last.item == Item::Mark(','))
        && before.len() > 1;
    !(relative || piece.means(Concept::About) && figure)
}

/// True if the stretch begins as a question does.
pub fn opens_question(c: &Clause<'_, '_>) -> bool {
    let first = opening(c);
    // `chamo qué es umbral`: whoever is called upon comes first.
    let called = |at: usize| matches!(c.pieces[at].item, Item::Chatter | Item::Unknown);
    let behind = (first..c.len()).take_while(|at| called(*at)).count();
    let asks_behind = c.sit.language == Language::Spanish
        && (1..=CALLED).contains(&behind)
        && c.at(first + behind).is_some_and(|piece| {
            let asked = [Concept::What, Concept::HowMany, Concept::Which, Concept::How];
            piece.means(Concept::Mean) && piece.means(Concept::What)
                || asks(piece) && asked.iter().any(|one| piece.means(*one))
        });
    // `a qué ritmo`: the word that asks within a piece of several.
    let within = |at: usize| {
        const QUE: [&str; 8] =
            ["que", "qu\u{e9}", "q", "cual", "cu\u{e1}l", "cuanto", "cu\u{e1}nto", "cada"];
        let words = c.typed(at, at + 1).split_whitespace();
        c.sit.language == Language::Spanish
            && c.at(at).is_some_and(|piece| {
                piece.means(Concept::Pace) || piece.means(Concept::SendOffWord)
            })
            && words.map(str::to_lowercase).any(|word| QUE.contains(&word.as_str()))
    };
    if asks_behind || within(first) {
        return true;
    }
    // `whats next`: one piece that begins with a word that asks.
    let inside = |piece: &Piece<'_>| {
        c.sit.language == Language::English && ASKING.iter().any(|one| piece.alone.means(*one))
            || piece.means(Concept::CanYou)
    };
    asks_here(c, first) || c.at(first).is_some_and(inside) || asks_by_order(c, first)
}

/// True if it asks somebody to do something: `can you make lane 2 …`.
pub fn is_request(c: &Clause<'_, '_>) -> bool {
    let first = opening(c);
    let Some(piece) = c.at(first) else { return false };
    let you = |piece: &Piece<'_>| piece.means(Concept::You) || piece.means(Concept::We);
    let lanes = |piece: &Piece<'_>| matches!(piece.item, Item::Lanes(_));
    // `can lane 3 even make 1:05` asks whether they are able.
    let able = |piece: &Piece<'_>| {
        let word = matches!(piece.text, "even" | "still" | "make" | "manage" | "hit");
        word && piece.at.1 - piece.at.0 == 1
    };
    let lane_does = c.at(first + 1).is_some_and(lanes) && !c.at(first + 2).is_some_and(able);
    piece.means(Concept::CanYou)
        || piece.means(Concept::Can) && lane_does
        || piece.means(Concept::Aux) && c.at(first + 1).is_some_and(you)
        || c.pieces[..first].iter().any(|piece| piece.means(Concept::Please))
}

/// A word that a question's verb may stand before.
fn is_subject(piece: &Piece<'_>) -> bool {
    matches!(piece.item, Item::Person(_) | Item::Figure(_) | Item::Day(_) | Item::Lanes(_))
        || is_pronoun(piece)
        || [
            Concept::My,
            Concept::Squad,
            Concept::Session,
            Concept::Set,
            Concept::Article,
            Concept::Everyone,
            Concept::Any,
        ]
        .iter()
        .any(|one| piece.means(*one))
        || piece.kit().is_some()
}

fn is_pronoun(piece: &Piece<'_>) -> bool {
    [Concept::Me, Concept::You, Concept::We, Concept::They, Concept::He, Concept::She, Concept::It]
        .iter()
        .any(|one| piece.means(*one))
}

/// How likely the words must make a question of what may be told.
const ASKS: f32 = 0.35;

/// `is it …`, `should I …`, `can we …`, `do you …`, `any chance …`: a verb before
/// its subject.
fn asks_by_order(c: &Clause<'_, '_>, first: usize) -> bool {
    let Some(piece) = c.at(first) else { return false };
    let several = piece.at.1 - piece.at.0 > 1;
    // `am i allowed` is one piece.
    let begins = |concept: Concept| piece.means(concept) || piece.alone.means(concept);
    let inside = several
        && (begins(Concept::Aux) || begins(Concept::AuxWeak) || begins(Concept::AuxBe))
        && {
            let second = c.typed(first, first + 1).split_whitespace().nth(1).unwrap_or_default();
            // `did I beat robin`
            let does = matches!(piece.text, "did" | "do" | "does" | "have" | "has");
            let second = if does && second == "I" { "i" } else { second };
            let second = Lexicon::of(c.sit.language).alone(second);
            second.means(Concept::Subject) || second.means(Concept::It)
        };
    // `wasn't there tonight` tells.
    if piece.means(Concept::MissedSwim) {
        return false;
    }
    if piece.means(Concept::Any) || inside {
        return true;
    }
    if several {
        return c.sit.language == Language::Spanish && piece.means(Concept::Aux);
    }
    // Spanish leaves the subject out; `puedo el lunes` tells.
    if begins(Concept::Aux) {
        let next = c.at(first + 1);
        let tells = next.is_some_and(|next| matches!(next.item, Item::Day(_)))
            && piece.means(Concept::PerhapsCome);
        return match c.sit.language {
            Language::Spanish => !tells,
            Language::English => next.is_some_and(is_subject),
        };
    }
    let subject = |next: &Piece<'_>| {
        next.means(Concept::Subject)
            || matches!(next.item, Item::Word) && next.alone.means(Concept::Subject)
            || matches!(next.item, Item::Person(_))
    };
    let it = |next: &Piece<'_>| next.means(Concept::It);
    // `was 41 a best for kite`, where the words speak for a question.
    let of_figure = begins(Concept::AuxBe)
        && c.at(first + 1).is_some_and(|next| matches!(next.item, Item::Figure(_)))
        && c.at(first + 2).is_some_and(|next| {
            next.means(Concept::Article) || matches!(next.text, "meant" | "supposed")
        })
        && c.likely.of(Class::Ask).max(c.likely.of(Class::Best)) > ASKS;
    of_figure
        || begins(Concept::AuxWeak) && c.at(first + 1).is_some_and(subject)
        || begins(Concept::AuxBe) && c.at(first + 1).is_some_and(|next| subject(next) || it(next))
}
