//! A text's tokens, and the normalised text that they make.

use std::collections::BTreeSet;

use super::ailing::{another, is_as_well, is_i_will};
use super::characters::folded;
use super::context::settle;
use super::lexer::{Lexeme, LexemeKind, cut};
use super::words::Words;
use crate::message::Danger;
use crate::reading::health::{self, Alarms};
use crate::reading::lex::{Form, Lexed, lex};

/// A token of the normalised text.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Token {
    /// In the grammar's shape. `~` begins a word that is in no table and may be
    /// a name; `?` one that can be nothing at all.
    pub text: String,
    /// Where it begins in the plain text, in characters.
    pub from: usize,
    /// Where it ends.
    pub to: usize,
    /// True for the side word that also means what remains (`12 left`).
    pub is_typed_left: bool,
}

/// A text in the grammar's form.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Normal {
    /// The tokens, joined by one space.
    pub text: String,
    /// Each token, with its place in the plain text.
    pub tokens: Vec<Token>,
    /// Words that were read over, but for articles and courtesies.
    pub skipped: usize,
}

/// The parts of the body that the grammar names; `back` is a stroke too.
pub const BODY: [&str; 18] = [
    "shoulder", "elbow", "wrist", "hand", "arm", "neck", "head", "ear", "rib", "hip", "groin",
    "thigh", "knee", "calf", "ankle", "foot", "leg", "low-back",
];

/// Brings a plain text into the grammar's form. What it says of danger and harm to nobody
/// in particular may have been `heard` before.
pub fn normalise(plain: &[char], words: &Words, heard: Option<(&Lexed, &Alarms)>) -> Normal {
    let lexemes = cut(plain, words);
    let (tokens, skipped) = look_up(&lexemes, words, &Alarming::of(plain, heard));
    Normal { skipped, ..Normal::of(settle(tokens)) }
}

impl Normal {
    /// The text that `tokens` make.
    pub fn of(tokens: Vec<Token>) -> Self {
        let text = tokens.iter().map(|token| token.text.as_str()).collect::<Vec<_>>().join(" ");
        Self { text, tokens, skipped: 0 }
    }

    /// The index of the token in which byte `at` of [`Normal::text`] lies.
    pub fn token_at(&self, at: usize) -> usize {
        let mut end = 0;
        for (index, token) in self.tokens.iter().enumerate() {
            end += token.text.len() + 1;
            if at < end {
                return index;
            }
        }
        self.tokens.len()
    }
}

/// Where a plain text speaks of danger or harm, in characters.
struct Alarming {
    /// From each to the one behind the last.
    at: Vec<(usize, usize)>,
    says: &'static str,
}

impl Alarming {
    /// Each statement of a list by itself. What they come to together is the desk's.
    fn of(plain: &[char], heard: Option<(&Lexed, &Alarms)>) -> Vec<Self> {
        let mut from = 0;
        let mut found = Vec::new();
        let listed = plain.contains(&';');
        if let (false, Some((lexed, alarms))) = (listed, heard) {
            return Self::heard(lexed, alarms, 0).into_iter().collect();
        }
        for part in plain.split(|c| *c == ';').filter(|_| listed) {
            found.extend(Self::of_part(part, from));
            from += part.len() + 1;
        }
        if listed { found } else { Self::of_part(plain, 0).into_iter().collect() }
    }

    fn of_part(plain: &[char], offset: usize) -> Option<Self> {
        let text: String = plain.iter().collect();
        let lexed = lex(&text);
        Self::heard(&lexed, &health::alarms_in(&lexed, &|_| false), offset)
    }

    fn heard(lexed: &Lexed, alarms: &Alarms, offset: usize) -> Option<Self> {
        let Alarms { danger, harm, .. } = alarms;
        let says = match danger {
            _ if harm.is_some() => "welfare",
            Some(danger) if !danger.sure => "(nothing)",
            Some(danger) if danger.danger == Danger::Head => "head pain",
            Some(_) => "faint",
            None => return None,
        };
        let tokens = lexed.tokens();
        let of_danger = || danger.as_ref().map(|danger| danger.at.clone());
        let mut at = harm.clone().or_else(of_danger).unwrap_or_default();
        at.sort_unstable();
        // Little words between them belong to them: `dolor en el pecho`.
        for place in 1..at.len() {
            let Some([before, next]) = at.get_mut(place - 1..=place) else { break };
            let to = before.1.max(next.0);
            let gap = tokens.get(before.1..to).unwrap_or_default();
            if gap.len() <= GAP && gap.iter().all(|token| token.form == Form::Word) {
                before.1 = to;
            }
        }
        // From bytes to characters.
        let place =
            |byte: usize| offset + lexed.plain[..byte.min(lexed.plain.len())].chars().count();
        let at: Vec<(usize, usize)> = at
            .iter()
            .filter_map(|(from, to)| {
                let (first, last) = (tokens.get(*from)?, tokens.get(to.checked_sub(1)?)?);
                Some((place(first.span.0), place(last.span.1)))
            })
            .collect();
        (!at.is_empty()).then_some(Alarming { at, says })
    }

    /// True where a lexeme is among its words.
    fn covers(&self, lexeme: &Lexeme) -> bool {
        self.at.iter().any(|(from, to)| lexeme.from < *to && *from < lexeme.to)
    }
}

/// Words between those of one danger that belong to it.
const GAP: usize = 2;

/// Each lexeme's canonical tokens: alarms first, then the longest spelling.
fn look_up(lexemes: &[Lexeme], words: &Words, alarming: &[Alarming]) -> (Vec<Token>, usize) {
    let mut skipped = 0;
    let mut spoken = BTreeSet::new();
    let keys = keys(lexemes);
    let as_well = is_as_well(&keys.iter().map(String::as_str).collect::<Vec<_>>());
    let illness = |ahead: &[&str]| {
        let (canonical, count) = words.longest_at(ahead)?;
        matches!(canonical, "ill" | "cold" | "fever" | "stomach").then_some(count)
    };
    let mut tokens = Vec::with_capacity(lexemes.len());
    let mut at = 0;
    while let Some(lexeme) = lexemes.get(at) {
        let alarm_at = |lexeme: &Lexeme| alarming.iter().position(|one| one.covers(lexeme));
        let alarm = alarm_at(lexeme);
        // No spelling reaches into what speaks of danger: `me duele el pecho`.
        let free = lexemes
            .iter()
            .skip(at)
            .take(12)
            .take_while(|one| alarm.is_some() || alarm_at(one).is_none());
        let run = keys.iter().skip(at).take(free.count()).take_while(|key| !key.is_empty());
        let ahead: Vec<&str> = run.map(String::as_str).collect();
        let of_another = another(&ahead, illness).filter(|_| !as_well && alarm.is_none());
        if let Some((_, length)) = of_another {
            at += length;
            continue;
        }
        let spelling = words.longest_at(&ahead);
        let (canonical, count) = match (&lexeme.kind, alarm, spelling) {
            (LexemeKind::Word(_), Some(alarm), _) => {
                // The first word says it, the others add nothing.
                let first = alarming.get(alarm).filter(|_| spoken.insert(alarm));
                (first.map_or("(nothing)", |alarm| alarm.says).to_owned(), 1)
            }
            (LexemeKind::Word(_), None, Some((canonical, count))) => (canonical.to_owned(), count),
            (LexemeKind::Word(word), None, None) => (unknown(word), 1),
            (LexemeKind::Token(token), ..) => (token.clone(), 1),
            (LexemeKind::Comma, ..) => (",".to_owned(), 1),
            (LexemeKind::Semicolon, ..) => (";".to_owned(), 1),
            (LexemeKind::Colon, ..) => (":".to_owned(), 1),
            (LexemeKind::Open, ..) => ("(".to_owned(), 1),
            (LexemeKind::Close, ..) => (")".to_owned(), 1),
        };
        let to = lexemes.get(at + count - 1).map_or(lexeme.to, |last| last.to);
        let is_typed_left = matches!(ahead.first(), Some(&"left"));
        let token =
            |text: &str| Token { text: text.to_owned(), from: lexeme.from, to, is_typed_left };
        match canonical.as_str() {
            "(nothing)" => {
                skipped += usize::from(!ahead.first().is_some_and(|word| EMPTY.contains(word)))
            }
            whole if whole.starts_with('"') => tokens.push(token(whole)),
            several => tokens.extend(several.split(' ').map(token)),
        }
        at += count;
    }
    (tokens, skipped)
}

/// Words that change nothing wherever they stand.
const EMPTY: &[&str] = &[
    "a", "an", "the", "please", "pls", "thanks", "thank", "ta", "cheers", "coach", "el", "la",
    "los", "las", "un", "una", "porfa", "gracias", "profe", "",
];

/// What each lexeme is looked up by: a word's letters, and nothing for others.
fn keys(lexemes: &[Lexeme]) -> Vec<String> {
    let folded: Vec<String> = lexemes
        .iter()
        .map(|lexeme| match &lexeme.kind {
            LexemeKind::Word(word) => folded(word),
            _ => String::new(),
        })
        .collect();
    let is_will = |at: usize| {
        let typed = lexemes
            .get(at)
            .is_some_and(|one| matches!(&one.kind, LexemeKind::Word(word) if word == "i'll"));
        let word = |at: usize| folded.get(at).map(String::as_str);
        typed || is_i_will(at.checked_sub(1).and_then(word), word(at + 1))
    };
    let key = |(at, key): (usize, &String)| match key.as_str() {
        "ill" if is_will(at) => "i will".to_owned(),
        _ => key.clone(),
    };
    folded.iter().enumerate().map(key).collect()
}

/// A word in no table: perhaps a name.
fn unknown(word: &str) -> String {
    let name = word.strip_suffix("'s").unwrap_or(word);
    let good = |c: char| c.is_alphanumeric() || matches!(c, '-' | '_');
    if name.chars().all(good) { format!("~{name}") } else { format!("?{name}") }
}
