//! The way from a text to a decision.

use std::ops::Range;

use crate::language::Language;
use crate::reading::decide::{Decision, decide};
use crate::reading::fallback::by_words;
use crate::reading::follow;
use crate::reading::frame::Clause;
use crate::reading::lex::{Form, Token, lex};
use crate::reading::lexicon::{Concept, Found, Lexicon, Sense, is_ordinary, tongue};
use crate::reading::piece::{Cell, Piece, pieces};
use crate::reading::rank::{Part, best};
use crate::reading::situation::Situation;
use crate::reading::words::{self, Likely, Weights};

/// Everything that reading a text came to, for showing it.
#[derive(Debug, Clone, PartialEq)]
pub struct Trace {
    /// Each piece, as it is printed.
    pub pieces: Vec<String>,
    /// Every part of the best reading: what was typed, and what was made of it.
    pub parts: Vec<String>,
    /// The kinds that the words make likeliest.
    pub likely: Vec<String>,
    /// What each frame makes of the whole text.
    pub rivals: Vec<String>,
    /// What is done.
    pub decision: Decision,
}

/// Reads a text in its situation. Pure.
pub fn read(text: &str, sit: &Situation) -> Decision {
    let decision = with_pieces("", text, sit, settle);
    if matches!(&decision, Decision::Take { .. }) {
        return decision;
    }
    // What was missing from the text before: the two are one.
    if let Some(before) = &sit.unfinished
        && let joined @ Decision::Take { .. } =
            with_pieces("", &format!("{before}, {text}"), sit, |whole| decide(&best(whole)))
    {
        return joined;
    }
    follow::on(text, sit).unwrap_or(decision)
}

/// The decision on a text's best reading, or on what its words make likely.
fn settle(whole: &Clause<'_, '_>) -> Decision {
    match decide(&best(whole)) {
        Decision::Nothing => by_words(whole).unwrap_or(Decision::Nothing),
        decision => decision,
    }
}

/// Reads a text and tells how.
pub fn trace(text: &str, sit: &Situation) -> Trace {
    with_pieces("", text, sit, |whole| {
        let ranked = best(whole);
        let decision = settle(whole);
        let piece = |piece: &Piece<'_>| {
            let senses: Vec<String> =
                piece.senses.iter().map(|sense| format!("{sense:?}")).collect();
            format!("{} {:?} {}", piece.text, piece.item, senses.join(" "))
        };
        let part = |part: &Part| {
            let typed = whole.typed(part.at.0, part.at.1);
            let left: Vec<&str> = whole.pieces[part.at.0..part.at.1]
                .iter()
                .zip(&part.used)
                .filter(|(_, used)| !**used)
                .map(|(piece, _)| piece.text)
                .collect();
            let frame = part.frame.unwrap_or("none");
            format!("{frame} {:.2} \"{typed}\" left {left:?}", part.cost)
        };
        let rivals = crate::reading::rank::candidates(whole).into_iter().map(|one| {
            let said = one.says.iter().map(|one| one.to_string()).collect::<Vec<_>>().join("; ");
            format!("{} {:.2}+ {said}", one.frame, one.cost)
        });
        let likely = whole.likely.ranked().into_iter().take(3);
        Trace {
            likely: likely.map(|(class, odds)| format!("{} {odds:.2}", class.name())).collect(),
            rivals: rivals.collect(),
            pieces: whole.pieces.iter().map(piece).collect(),
            parts: ranked.parts.iter().map(part).collect(),
            decision,
        }
    })
}

/// The language that a text is written in; the usual one where its words speak for
/// none.
pub fn language_of(text: &str, usual: Language, is_name: impl Fn(&str) -> bool) -> Language {
    tongue(&lex(text).tokens(), usual, is_name)
}

/// What the words' model looks at in a text.
pub fn features(text: &str, sit: &Situation) -> Vec<String> {
    with_pieces("", text, sit, words::features)
}

/// Takes a text in pieces. What stands in `notation` before it is our own, in English
/// whatever the sender's language.
pub fn with_pieces<O>(
    notation: &str,
    text: &str,
    sit: &Situation,
    f: impl FnOnce(&Clause<'_, '_>) -> O,
) -> O {
    let lexed = match (notation, text) {
        ("", _) => lex(text),
        (_, "") => lex(notation),
        _ => lex(&format!("{notation}, {text}")),
    };
    let tokens = lexed.tokens();
    let notation = lexed.plain.len().min(notation.len());
    let typed = tokens.iter().position(|token| token.span.0 >= notation).unwrap_or(tokens.len());
    let is_name = |word: &str| sit.person(word).is_some();
    let language = tongue(&tokens[typed..], sit.language, is_name);
    let sit: &Situation = match language == sit.language {
        true => sit,
        false => &Situation { language, ..sit.clone() },
    };
    let own = Lexicon::of(language);
    let mut found: Vec<Found> = Vec::with_capacity(tokens.len() * 2);
    let mut ranges = Vec::with_capacity(tokens.len());
    for at in 0..tokens.len() {
        let from = found.len();
        if tokens[at].form == Form::Word || matches!(tokens[at].form, Form::Digits { .. }) {
            let ours = tokens[at].span.1 <= notation;
            let lexicon = if ours { Lexicon::of(Language::English) } else { own };
            found.extend(lexicon.senses_at(&tokens[at..]));
            let before =
                ranges.last().map_or(&[][..], |range: &Range<usize>| &found[range.clone()]);
            if is_unwell(&found[from..], before, tokens.get(at + 1), lexicon) {
                let mine = found.split_off(from);
                found.extend(mine.into_iter().filter(|one| !means(one, Concept::Me)));
            }
        }
        ranges.push(from..found.len());
    }
    let person = |text: &str, possessive: bool| {
        sit.person(text).or_else(|| {
            let stem = text.strip_suffix('s')?;
            let found = sit.person(stem)?;
            (possessive || !is_ordinary(text, sit.language) || sit.language == Language::English)
                .then_some(found)
        })
    };
    let cells: Vec<Cell<'_>> = tokens
        .iter()
        .zip(ranges)
        .map(|(token, range)| Cell {
            token: *token,
            senses: &found[range],
            person: match token.form {
                Form::Word => person(token.text, token.possessive),
                _ => None,
            },
        })
        .collect();
    let pieces = pieces(&cells, |word| is_ordinary(word, sit.language));
    let spans: Vec<(usize, usize)> = tokens.iter().map(|token| token.span).collect();
    let unread = Likely::default();
    let whole = Clause {
        likely: &unread,
        pieces: &pieces,
        offset: 0,
        all: &pieces,
        plain: &lexed.plain,
        spans: &spans,
        sit,
    };
    let likely = Weights::of(sit.language).likely(&whole);
    f(&Clause { likely: &likely, ..whole })
}

/// True where `ill` is a complaint and no `I'll`: behind `is`, or with no verb to come.
fn is_unwell(
    senses: &[Found],
    before: &[Found],
    next: Option<&Token<'_>>,
    lexicon: &Lexicon,
) -> bool {
    let both = senses.iter().any(|one| means(one, Concept::Me))
        && senses.iter().any(|one| matches!(one.sense, Sense::Illness(_)));
    let joins = [Concept::And, Concept::But, Concept::Because];
    let verb = next.is_some_and(|next| {
        next.form == Form::Word && !joins.iter().any(|one| lexicon.means(next.text, *one))
    });
    both && (!verb || before.iter().any(|one| means(one, Concept::Is)))
}

fn means(found: &Found, concept: Concept) -> bool {
    found.sense == Sense::Word(concept)
}
