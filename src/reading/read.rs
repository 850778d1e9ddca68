//! The way from a text to a decision.

use crate::reading::decide::{Decision, decide};
use crate::message::{Kind, Statement};
use crate::reading::frame::{Clause, complaints};
use crate::reading::health::alarms_in;
use crate::reading::lex::{Form, lex};
use crate::reading::lexicon::{Found, Lexicon, is_ordinary};
use crate::reading::piece::{Cell, Piece, pieces};
use crate::reading::rank::{Ranked, best};
use crate::reading::situation::Situation;

/// Everything that reading a text came to, for showing it.
pub struct Trace {
    /// Each piece, as it is printed.
    pub pieces: Vec<String>,
    /// The best reading.
    pub ranked: Ranked,
    /// What is done.
    pub decision: Decision,
}

/// Reads a text in its situation. Pure.
pub fn read(text: &str, sit: &Situation) -> Decision {
    let alone = |text: &str| with_pieces(text, sit, |whole| with_health(decide(&best(whole), whole), whole));
    let decision = alone(text);
    let Some(before) = &sit.unfinished else { return decision };
    // What was missing from the text before: the two are one.
    let is_whole = matches!(&decision, Decision::Take { .. });
    match alone(&format!("{before}, {text}")) {
        joined @ Decision::Take { .. } if !is_whole => joined,
        _ => decision,
    }
}

/// Pain and illness once read are never dropped, whatever became of the rest.
fn with_health(decision: Decision, whole: &Clause<'_, '_>) -> Decision {
    let told = complaints(whole);
    let missing = |says: &[Statement]| -> Vec<Statement> {
        let same = |one: &Statement, other: &Statement| {
            std::mem::discriminant(&one.kind) == std::mem::discriminant(&other.kind)
                && place_of(&one.kind) == place_of(&other.kind)
        };
        told.iter().filter(|one| !says.iter().any(|said| same(one, said))).cloned().collect()
    };
    match decision {
        Decision::Take { mut says, rest } => {
            let more = missing(&says);
            says.extend(more);
            Decision::Take { says, rest }
        }
        Decision::Ask { about, options, mut says } => {
            let options_say: Vec<Statement> =
                options.iter().flat_map(|(_, says)| says.clone()).chain(says.clone()).collect();
            says.extend(missing(&options_say));
            Decision::Ask { about, options, says }
        }
        Decision::Nothing if told.is_empty() => Decision::Nothing,
        Decision::Nothing => Decision::Take { says: told, rest: None },
    }
}

fn place_of(kind: &Kind) -> Option<&str> {
    match kind {
        Kind::Pain(pain) => Some(&pain.place),
        _ => None,
    }
}

/// Reads a text and tells how.
pub fn trace(text: &str, sit: &Situation) -> Trace {
    with_pieces(text, sit, |whole| {
        let ranked = best(whole);
        let decision = with_health(decide(&ranked, whole), whole);
        let shown =
            |piece: &Piece<'_>| format!("{:?} {:?} {:?}", piece.text, piece.item, piece.senses);
        Trace { pieces: whole.pieces.iter().map(shown).collect(), ranked, decision }
    })
}

fn with_pieces<O>(text: &str, sit: &Situation, f: impl FnOnce(&Clause<'_, '_>) -> O) -> O {
    let lexed = lex(text);
    let tokens = lexed.tokens();
    let others = |word: &str| sit.person(word).is_some_and(|person| Some(person) != sit.me);
    let alarms = alarms_in(&lexed, &others);
    let danger = alarms.danger.map(|danger| danger.at).unwrap_or_default();
    let speaks = |at: usize| {
        danger.iter().any(|(from, to)| (*from..*to).contains(&at)) && !others(tokens[at].text)
    };
    let lexicon = Lexicon::of(sit.language);
    let mut found: Vec<Found> = Vec::with_capacity(tokens.len() * 2);
    let mut ranges = Vec::with_capacity(tokens.len());
    for at in 0..tokens.len() {
        let from = found.len();
        if speaks(at) {
            ranges.push(from..from);
            continue;
        }
        if tokens[at].form == Form::Word || matches!(tokens[at].form, Form::Digits { .. }) {
            found.extend(lexicon.senses_at(&tokens[at..]));
        }
        ranges.push(from..found.len());
    }
    let person = |text: &str, possessive: bool| {
        sit.person(text).or_else(|| {
            let stem = text.strip_suffix('s')?;
            let found = sit.person(stem)?;
            (possessive
                || !is_ordinary(text, sit.language)
                || sit.language == crate::language::Language::English)
                .then_some(found)
        })
    };
    let cells: Vec<Cell<'_>> = tokens
        .iter()
        .zip(ranges)
        .enumerate()
        .map(|(at, (token, range))| Cell {
            token: *token,
            spoken_for: speaks(at),
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
        danger: !danger.is_empty(),
    };
    f(&whole)
}
