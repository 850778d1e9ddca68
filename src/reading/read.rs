//! The way from a text to a decision.

use crate::language::Language;
use crate::reading::decide::{Decision, decide};
use crate::reading::frame::Clause;
use crate::reading::lex::{Form, lex};
use crate::reading::lexicon::{Found, Lexicon, is_ordinary, tongue};
use crate::reading::piece::{Cell, Piece, pieces};
use crate::reading::rank::{Part, best};
use crate::reading::situation::Situation;

/// Everything that reading a text came to, for showing it.
#[derive(Debug, Clone, PartialEq)]
pub struct Trace {
    /// Each piece, as it is printed.
    pub pieces: Vec<String>,
    /// Every part of the best reading: what was typed, and what was made of it.
    pub parts: Vec<String>,
    /// What is done.
    pub decision: Decision,
}

/// The language that a text is written in; the usual one where its words speak for
/// none.
pub fn language_of(text: &str, usual: Language, is_name: impl Fn(&str) -> bool) -> Language {
    tongue(&lex(text).tokens(), usual, is_name)
}

/// Reads a text in its situation. Pure.
pub fn read(text: &str, sit: &Situation) -> Decision {
    let alone = |text: &str| with_pieces(text, sit, |whole| decide(&best(whole)));
    let decision = alone(text);
    let Some(before) = &sit.unfinished else { return decision };
    // What was missing from the text before: the two are one.
    let is_whole = matches!(&decision, Decision::Take { .. });
    match alone(&format!("{before}, {text}")) {
        joined @ Decision::Take { .. } if !is_whole => joined,
        _ => decision,
    }
}

/// Reads a text and tells how.
pub fn trace(text: &str, sit: &Situation) -> Trace {
    with_pieces(text, sit, |whole| {
        let ranked = best(whole);
        let decision = decide(&ranked);
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
        Trace {
            pieces: whole.pieces.iter().map(piece).collect(),
            parts: ranked.parts.iter().map(part).collect(),
            decision,
        }
    })
}

fn with_pieces<O>(text: &str, sit: &Situation, f: impl FnOnce(&Clause<'_, '_>) -> O) -> O {
    let lexed = lex(text);
    let tokens = lexed.tokens();
    let language = tongue(&tokens, sit.language, |word| sit.person(word).is_some());
    let sit: &Situation = match language == sit.language {
        true => sit,
        false => &Situation { language, ..sit.clone() },
    };
    let lexicon = Lexicon::of(language);
    let mut found: Vec<Found> = Vec::with_capacity(tokens.len() * 2);
    let mut ranges = Vec::with_capacity(tokens.len());
    for at in 0..tokens.len() {
        let from = found.len();
        if tokens[at].form == Form::Word || matches!(tokens[at].form, Form::Digits { .. }) {
            found.extend(lexicon.senses_at(&tokens[at..]));
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
    let whole = Clause {
        pieces: &pieces,
        offset: 0,
        all: &pieces,
        plain: &lexed.plain,
        spans: &spans,
        sit,
    };
    f(&whole)
}
