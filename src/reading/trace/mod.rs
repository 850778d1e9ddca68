//! How a text is read, for people and other programs to look at: its tokens, its
//! fragments, what each frame makes of them and at what cost, and what is done.
//!
//! Nothing here decides; it shows what `read` goes by.

use std::fmt::Debug;

use serde::{Deserialize, Serialize};

use super::decide::Decision;
use super::frame::Clause;
use super::health;
use super::lex::{Form, Token, lex};
use super::lexicon::{Concept, Sense};
use super::piece::{Item, Piece};
use super::rank::{Part, best, candidates};
use super::read::{read, with_pieces};
use super::situation::Situation;
use crate::language::Language;
use crate::message::{self, Statement};

mod print;

/// How a text is read.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Trace {
    /// The text.
    pub text: String,
    /// The language that it is taken to be in.
    pub language: Language,
    /// What it is cut into.
    pub tokens: Vec<TokenSeen>,
    /// What it says in our own notation, where it is that: then that holds.
    pub notation: Option<Vec<String>>,
    /// The tokens put together, each with what it may mean.
    pub fragments: Vec<Fragment>,
    /// The kinds of statement that the words make likely, the likeliest first.
    pub likely: Vec<Likely>,
    /// What each frame makes of the whole text and of the parts of the best reading,
    /// the cheapest first.
    pub readings: Vec<ReadingSeen>,
    /// The best way to part the text, and what each part says.
    pub best: Vec<Stretch>,
    /// What the whole of that costs.
    pub cost: f32,
    /// Signs and rules of danger and harm that it meets.
    pub signs: Vec<String>,
    /// What is done with it.
    pub decision: DecisionSeen,
}

/// A token.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct TokenSeen {
    /// Without case, accents and apostrophes.
    pub text: String,
    /// What it is made of: `word`, `digits`, `mark`, `line` or `picture`.
    pub form: String,
}

/// Tokens that belong together.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Fragment {
    /// As typed.
    pub typed: String,
    /// What it is: `repeat`, `figure`, `person`, `word` …
    pub is: String,
    /// What its words may mean.
    pub means: Vec<String>,
}

/// A kind of statement, and how likely the words make it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Likely {
    /// The kind.
    pub kind: String,
    /// From 0 to 1.
    pub odds: f32,
}

/// What a frame makes of a text.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct ReadingSeen {
    /// Of which words.
    pub typed: String,
    /// Which frame.
    pub frame: String,
    /// What speaks against it, without what it leaves unexplained.
    pub cost: f32,
    /// What it says, in our own notation.
    pub says: Vec<String>,
    /// It asks first.
    pub asks: bool,
}

/// A part of the best reading.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Stretch {
    /// As typed.
    pub typed: String,
    /// Which frame reads it; none where it is left.
    pub frame: Option<String>,
    /// What it costs, with what it leaves.
    pub cost: f32,
    /// What it says, in our own notation.
    pub says: Vec<String>,
    /// What it leaves unexplained.
    pub left: Vec<String>,
}

/// What is done with a text.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", tag = "does")]
pub enum DecisionSeen {
    /// It says this.
    Take {
        /// In our own notation.
        says: Vec<String>,
        /// Words of it that nothing was made of.
        rest: Option<String>,
    },
    /// It is asked about first.
    Ask {
        /// The words that settle it, each with what it would say beside that.
        answers: Vec<AnswerSeen>,
        /// What is certain whatever the answer is.
        says: Vec<String>,
    },
    /// It says nothing that is known.
    Nothing,
}

/// An answer to a question, and what it would say.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct AnswerSeen {
    /// The word.
    pub word: String,
    /// In our own notation.
    pub says: Vec<String>,
}

/// How a text is read in its situation, as a text of its own and no answer to a
/// question.
pub fn trace(text: &str, sit: &Situation) -> Trace {
    let lexed = lex(text);
    let decision = read(text, sit);
    let shown = |whole: &Clause<'_, '_>| {
        let ranked = best(whole);
        let pieces = 0..whole.pieces.len();
        let notation = notation(text, whole.sit);
        Trace {
            text: text.to_owned(),
            language: whole.sit.language,
            tokens: lexed.tokens().iter().map(TokenSeen::of).collect(),
            notation: notation.clone(),
            fragments: pieces.map(|at| Fragment::of(whole, at)).collect(),
            likely: whole
                .likely
                .ranked()
                .into_iter()
                .take(3)
                .map(|(class, odds)| Likely { kind: class.name().to_owned(), odds: cents(odds) })
                .collect(),
            readings: readings(whole, &ranked.parts),
            best: ranked.parts.iter().map(|part| Stretch::of(whole, part)).collect(),
            cost: cents(ranked.cost),
            signs: health::explain(text, &|word| sit.person(word).is_some()),
            decision: match notation {
                Some(says) => DecisionSeen::Take { says, rest: None },
                None => DecisionSeen::of(&decision),
            },
        }
    };
    with_pieces("", text, sit, shown)
}

/// What a text says in our own notation, where it is that and names nobody unknown.
fn notation(text: &str, sit: &Situation) -> Option<Vec<String>> {
    let knows = |name: &message::Name| sit.person(name.as_str()).is_some();
    if !message::Typed::new(text).is_notation(sit.language, knows) {
        return None;
    }
    match message::parse_knowing(text, sit.language, knows) {
        message::Reading::Understood(message) => Some(printed(&message.statements)),
        _ => None,
    }
}

/// What the frames make of the whole, and of its parts where it has several.
fn readings(whole: &Clause<'_, '_>, parts: &[Part]) -> Vec<ReadingSeen> {
    let all = (0, whole.pieces.len());
    let several = parts.iter().map(|part| part.at).filter(|at| *at != all);
    let mut seen: Vec<ReadingSeen> = [all]
        .into_iter()
        .chain(several)
        .flat_map(|(from, to)| {
            let stretch = whole.part(from, to);
            candidates(&stretch).into_iter().map(move |one| ReadingSeen {
                typed: whole.typed(from, to).to_owned(),
                frame: one.frame.to_owned(),
                cost: cents(one.cost),
                says: printed(&one.says),
                asks: one.asks.is_some(),
            })
        })
        .collect();
    seen.sort_by(|one, other| one.cost.total_cmp(&other.cost));
    seen
}

/// To the hundredth: more says nothing.
fn cents(figure: f32) -> f32 {
    (figure * 100.0).round() / 100.0
}

fn printed(says: &[Statement]) -> Vec<String> {
    says.iter().map(ToString::to_string).collect()
}

impl TokenSeen {
    fn of(token: &Token<'_>) -> TokenSeen {
        let (text, form) = match token.form {
            Form::Word => (token.text.to_owned(), "word"),
            Form::Digits { .. } => (token.text.to_owned(), "digits"),
            Form::Mark(mark) => (mark.to_string(), "mark"),
            Form::Line => ("\\n".to_owned(), "line"),
            Form::Picture => (token.text.to_owned(), "picture"),
        };
        TokenSeen { text, form: form.to_owned() }
    }
}

impl Fragment {
    fn of(whole: &Clause<'_, '_>, at: usize) -> Fragment {
        let piece = &whole.pieces[at];
        let means = piece.senses.iter().map(meaning).collect();
        Fragment { typed: whole.typed(at, at + 1).to_owned(), is: kind_of(piece), means }
    }
}

/// What a fragment is.
fn kind_of(piece: &Piece<'_>) -> String {
    match &piece.item {
        Item::Person(_) | Item::Marked(_) => "person".to_owned(),
        item => named(item),
    }
}

/// What a word may mean: the list's name for it, or its kind and value.
fn meaning(sense: &Sense) -> String {
    match sense {
        Sense::Word(concept) => {
            let known = Concept::ALL.iter().find(|(one, _)| one == concept);
            known.map_or_else(String::new, |(_, name)| (*name).to_owned())
        }
        other => {
            let inner = match other {
                Sense::Number(number)
                | Sense::SoundsLike(number)
                | Sense::Plural(number)
                | Sense::Ordinal(number) => number.to_string(),
                Sense::Month(number) => number.to_string(),
                Sense::Unit(one) => named(one),
                Sense::Stroke(one) => one.to_string(),
                Sense::Kit(one) => named(one),
                Sense::Level(one) => named(one),
                Sense::Part(one) => named(one),
                Sense::Course(one) => one.to_string(),
                Sense::Start(one) => named(one),
                Sense::Day(one) => named(one),
                Sense::Feast(one) => named(one),
                Sense::Effort(word) | Sense::Body(word) | Sense::Sport(_, word) => {
                    (*word).to_owned()
                }
                Sense::Illness(one) => one.as_ref().map(named).unwrap_or_default(),
                Sense::Word(_) => String::new(),
            };
            format!("{} {inner}", named(other)).trim_end().to_owned()
        }
    }
}

/// The name of a value's variant, in words: `TimeOfDay(7, 30)` is a time of day. The
/// code's own names are this trace's vocabulary.
fn named(value: &impl Debug) -> String {
    let whole = format!("{value:?}");
    let name = whole.split(|letter: char| !letter.is_alphanumeric()).next().unwrap_or_default();
    let mut words = String::with_capacity(name.len() + 4);
    for letter in name.chars() {
        if letter.is_uppercase() && !words.is_empty() {
            words.push(' ');
        }
        words.extend(letter.to_lowercase());
    }
    words
}

impl Stretch {
    fn of(whole: &Clause<'_, '_>, part: &Part) -> Stretch {
        let (from, to) = part.at;
        let unused = (from..to).zip(part.used.iter()).filter(|(_, used)| !**used);
        Stretch {
            typed: whole.typed(from, to).to_owned(),
            frame: part.frame.map(str::to_owned),
            cost: cents(part.cost),
            says: printed(&part.says),
            left: unused.map(|(at, _)| whole.typed(at, at + 1).to_owned()).collect(),
        }
    }
}

impl DecisionSeen {
    fn of(decision: &Decision) -> DecisionSeen {
        match decision {
            Decision::Take { says, rest } => {
                DecisionSeen::Take { says: printed(says), rest: rest.clone() }
            }
            Decision::Ask { options, says, .. } => DecisionSeen::Ask {
                answers: options
                    .iter()
                    .map(|(word, says)| AnswerSeen { word: word.clone(), says: printed(says) })
                    .collect(),
                says: printed(says),
            },
            Decision::Nothing => DecisionSeen::Nothing,
        }
    }
}
