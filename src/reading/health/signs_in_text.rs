//! A text's tokens with the signs that their words are, and the clauses and
//! sentences that they stand in.

use super::sign::{Sign, Signs};
use super::signs_ruled_out::{hide, settle};
use super::words::{HealthWords, Spelling};
use crate::message::Illness;
use crate::reading::lex::{Form, Token};
use crate::reading::lexicon::Ordinary;

/// A stretch of tokens and what it may be a sign of.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Mark {
    /// The first token.
    pub from: usize,
    /// The one behind the last.
    pub to: usize,
    /// What it is a sign of.
    pub signs: Signs,
    /// The part of the body that it names.
    pub place: Option<&'static str>,
    /// The illness that it names.
    pub illness: Option<Option<Illness>>,
}

impl Mark {
    pub fn len(&self) -> usize {
        self.to - self.from
    }

    /// True if it has a token in common with `from..to`.
    pub fn overlaps(&self, from: usize, to: usize) -> bool {
        self.from < to && from < self.to
    }
}

/// A text's marks.
pub struct Marked<'a, 't> {
    /// Its tokens.
    pub tokens: &'a [Token<'t>],
    /// The marks, by where they begin.
    pub marks: Vec<Mark>,
    /// The clause of each token: a comma or a full stop begins another.
    pub clause: Vec<usize>,
    /// The sentence of each token.
    pub sentence: Vec<usize>,
    /// All signs of the text.
    pub all: Signs,
    /// A grave word stands in a phrase that is known as harmless.
    pub gear: bool,
    /// Someone of the roster who is not the sender, for each token.
    pub named: Vec<bool>,
}

impl<'a, 't> Marked<'a, 't> {
    /// Marks a text's tokens, of which it is known whether they are `ordinary`; `is_name`
    /// knows other people's names.
    ///
    /// With `slips` a word that nobody knows may be a slip of a grave one: only in a
    /// text of that language, as many a name is a letter away from a word of another.
    pub fn new(
        tokens: &'a [Token<'t>],
        ordinary: &[Ordinary],
        words: &HealthWords,
        slips: bool,
        is_name: &dyn Fn(&str) -> bool,
    ) -> Self {
        // Whoever is marked is a person, however like a grave word the name is.
        let is_marked = |at: usize, token: &Token<'_>| {
            token.glued && before(tokens, at).is_some_and(|before| before.is_mark('@'))
        };
        let is_named = |(at, token)| is_person(token, is_name) || is_marked(at, token);
        let named: Vec<bool> = tokens.iter().enumerate().map(is_named).collect();
        let mut marks = Vec::with_capacity(tokens.len());
        for (at, ((token, named), coded)) in
            tokens.iter().zip(&named).zip(codes(tokens)).enumerate()
        {
            if coded {
                continue;
            }
            if *named {
                marks.push(Mark {
                    from: at,
                    to: at + 1,
                    signs: Signs::of(&[Sign::Other]),
                    place: None,
                    illness: None,
                });
                continue;
            }
            // A word that somebody knows is no slip.
            let slips = slips && ordinary.get(at).is_none_or(|known| *known == Ordinary::default());
            let behind = tokens.get(at + 1..).unwrap_or_default();
            push_marks(behind, at, token, (words, slips), &mut marks);
        }
        measure(tokens, &mut marks);
        let (clause, sentence) = parted(tokens);
        settle(&mut marks);
        let gear = hide(&mut marks);
        let all = marks.iter().fold(Signs::NONE, |all, mark| all.and(mark.signs));
        Marked { tokens, marks, clause, sentence, all, gear, named }
    }

    /// The tokens from one place up to another.
    pub fn tokens_in(&self, from: usize, to: usize) -> &'a [Token<'t>] {
        self.tokens.get(from..to).unwrap_or_default()
    }

    /// The token before a place.
    pub fn before(&self, at: usize) -> Option<&'a Token<'t>> {
        before(self.tokens, at)
    }

    /// Marks that begin from token `from` on and before token `to`.
    pub fn between(&self, from: usize, to: usize) -> impl DoubleEndedIterator<Item = &Mark> {
        between(&self.marks, from, to)
    }

    /// The first and the one behind the last token of the sentence of token `at`.
    pub fn sentence_of(&self, at: usize) -> (usize, usize) {
        bounds(&self.sentence, at)
    }

    /// The same of its clause.
    pub fn clause_of(&self, at: usize) -> (usize, usize) {
        bounds(&self.clause, at)
    }

    /// True if a mark with one of `signs` begins from token `from` on and before
    /// token `to`.
    pub fn any(&self, from: usize, to: usize, signs: Signs) -> bool {
        self.all.meets(signs) && self.between(from, to).any(|mark| mark.signs.meets(signs))
    }
}

/// The token before a place.
fn before<'a, 't>(tokens: &'a [Token<'t>], at: usize) -> Option<&'a Token<'t>> {
    tokens.get(at.checked_sub(1)?)
}

/// Of marks by where they begin, those that begin from token `from` on and before token `to`.
pub fn between(marks: &[Mark], from: usize, to: usize) -> impl DoubleEndedIterator<Item = &Mark> {
    let start = marks.partition_point(|mark| mark.from < from);
    let end = marks.partition_point(|mark| mark.from < to);
    marks.get(start..end).unwrap_or_default().iter()
}

/// The tokens that are parts of a code (`GN7DEA`, `join SOS23K`): what its letters
/// happen to spell is no word.
fn codes(tokens: &[Token<'_>]) -> Vec<bool> {
    const BEFORE: [&str; 4] = ["join", "claim", "confirm", "code"];
    const LONGEST: usize = 8;
    let more =
        |token: &Token<'_>| token.glued && matches!(token.form, Form::Word | Form::Digits { .. });
    let mut coded = Vec::with_capacity(tokens.len());
    for run in tokens.chunk_by(|_, next| more(next)) {
        let is_code = match run {
            [first, between @ .., last] => {
                // `7out`, `head8` are figures beside words; letters on both sides are not.
                let short = last.span.1 - first.span.0 <= LONGEST;
                let jumbled = !between.is_empty() && first.form == Form::Word && short;
                let before = before(tokens, coded.len());
                jumbled || before.is_some_and(|before| BEFORE.contains(&before.text))
            }
            _ => false,
        };
        coded.resize(coded.len() + run.len(), is_code);
    }
    coded
}

fn bounds(parts: &[usize], at: usize) -> (usize, usize) {
    let part = parts.get(at).copied().unwrap_or_default();
    (parts.partition_point(|one| *one < part), parts.partition_point(|one| *one <= part))
}

pub(super) fn is_person(token: &Token<'_>, is_name: &dyn Fn(&str) -> bool) -> bool {
    token.form == Form::Word
        && (is_name(token.text) || token.text.strip_suffix('s').is_some_and(is_name))
}

fn push_marks(
    behind: &[Token<'_>],
    at: usize,
    token: &Token<'_>,
    (words, slips): (&HealthWords, bool),
    marks: &mut Vec<Mark>,
) {
    if !matches!(token.form, Form::Word | Form::Digits { .. }) {
        return;
    }
    let mut spellings = words.beginning(token.text);
    if slips
        && spellings.is_empty()
        && token.form == Form::Word
        && let Some(meant) = words.slip_of(token.text)
    {
        spellings = words.beginning(meant);
    }
    if token.form == Form::Word && is_medical(token.text) {
        marks.push(Mark {
            from: at,
            to: at + 1,
            signs: Signs::of(&[Sign::Condition]),
            place: None,
            illness: None,
        });
    }
    for spelling in spellings {
        if let Some(length) = spelled(spelling, behind) {
            marks.push(Mark {
                from: at,
                to: at + 1 + length,
                signs: spelling.signs,
                place: spelling.place,
                illness: spelling.illness,
            });
        }
    }
}

/// Words that are put between those of a phrase and only make it stronger: `passed right out`.
const EMPHATIC: [&str; 14] = [
    "tf",
    "fully",
    "literally",
    "totally",
    "completely",
    "right",
    "straight",
    "proper",
    "bloody",
    "fucking",
    "effing",
    "actually",
    "medio",
    "casi",
];

/// How many tokens behind its first a spelling takes, where it stands there: as it is, or, of
/// a phrase that hides nothing, with one word between that makes it stronger.
fn spelled(spelling: &Spelling, behind: &[Token<'_>]) -> Option<usize> {
    let count = spelling.rest.len();
    let is = |(word, token): (&&str, &Token<'_>)| **word == *token.text;
    if behind.len() >= count && spelling.rest.iter().zip(behind).all(is) {
        return Some(count);
    }
    if count == 0 || spelling.signs.meets(Signs::of(&[Sign::Idiom, Sign::Gear])) {
        return None;
    }
    let (last, before) = spelling.rest.split_last()?;
    let [emphatic, end] = behind.get(count - 1..count + 1)? else { return None };
    let stands = before.iter().zip(behind).all(is) && end.text == *last;
    (stands && EMPHATIC.contains(&emphatic.text)).then_some(count + 1)
}

/// A word that ends as names of illnesses (`tendonitis`, `neuralgia`) and of classes of
/// medicines (`-cillin`, `-statin`, as the stems of international non-proprietary names
/// are published by the World Health Organization) do.
fn is_medical(word: &str) -> bool {
    const ENDS: [&str; 14] = [
        "itis",
        "algia",
        "opathy",
        "ectomy",
        "osclerosis",
        "aemia",
        "cillin",
        "mycin",
        "statin",
        "profen",
        "olol",
        "sartan",
        "azole",
        "oplasty",
    ];
    const SHORTEST: usize = 7;
    word.len() >= SHORTEST && ENDS.iter().any(|end| word.ends_with(end))
}

/// Figures that are signs: sugar too low or too high, blood pressure, weeks of a
/// pregnancy.
///
/// Sugar below 4 mmol/l (70 mg/dl) or above 15 (270) is acted on, as diabetes
/// societies teach; a systolic pressure below 90 or from 180 on, as patient pages of
/// hospitals do.
fn measure(tokens: &[Token<'_>], marks: &mut Vec<Mark>) {
    let mut found: Vec<Mark> = Vec::new();
    let mut push = |from: usize, to: usize, sign: Sign| {
        found.push(Mark { from, to, signs: Signs::of(&[sign]), place: None, illness: None });
    };
    for mark in marks.iter() {
        let mut near = tokens.iter().enumerate().skip(mark.to).take(7);
        let figure = near.find_map(|(at, token)| Some((at, token.value()?)));
        let Some((at, value)) = figure else { continue };
        let pressure =
            tokens.get(at + 1).is_some_and(|next| next.is_mark('/') || next.text == "over");
        let to = match tokens.get(at + 1) {
            Some(mark) if mark.is_mark('.') && mark.glued => (at + 3).min(tokens.len()),
            Some(_) if pressure => (at + 3).min(tokens.len()),
            _ => at + 1,
        };
        if mark.signs.has(Sign::Sugar) && !pressure {
            match value {
                1..4 | 30..70 => push(at, to, Sign::Low),
                15..30 | 270..600 => push(at, to, Sign::High),
                _ => {}
            }
        }
        if mark.signs.has(Sign::Vitals) && pressure {
            match value {
                40..90 => push(at, to, Sign::Low),
                180..260 => push(at, to, Sign::High),
                _ => {}
            }
        }
    }
    for mark in marks.iter().filter(|mark| mark.signs.has(Sign::Pills)) {
        let near = mark.from.saturating_sub(COUNTED_WITHIN)..mark.from;
        let before = near.filter_map(|at| Some((at, tokens.get(at)?, tokens.get(at + 1)?)));
        let many = before.filter(|(_, here, next)| {
            here.value().is_some_and(|value| (MANY_PILLS..200).contains(&value))
                && !COUNTS_ELSE.contains(&next.text)
        });
        many.for_each(|(at, ..)| push(at, at + 1, Sign::ManyPills));
    }
    for (at, [here, next]) in tokens.array_windows().enumerate() {
        let weeks = matches!(next.text, "weeks" | "wks" | "week" | "semanas" | "wk");
        let before = before(tokens, at).map_or("", |before| before.text);
        let apart = matches!(
            before,
            "for"
                | "in"
                | "last"
                | "next"
                | "past"
                | "after"
                | "since"
                | "every"
                | "por"
                | "hace"
                | "en"
                | "cada"
        );
        if weeks && !apart && here.value().is_some_and(|value| (4..43).contains(&value)) {
            push(at, at + 2, Sign::Weeks);
        }
    }
    marks.extend(found);
    marks.sort_by_key(|mark| mark.from);
}

/// Tokens between a count of tablets and the tablets: `12 of mums painkillers`.
const COUNTED_WITHIN: usize = 4;

/// So many tablets are more than a day's dose of the common ones (package leaflets: eight
/// tablets of 500 mg of paracetamol at most).
const MANY_PILLS: u32 = 9;

/// What a figure before tablets counts otherwise.
const COUNTS_ELSE: [&str; 21] = [
    "mg", "mcg", "ml", "g", "day", "days", "week", "weeks", "hours", "hrs", "mins", "minutes",
    "am", "pm", "dias", "semanas", "horas", "x", "m", "/", "-",
];

/// The clause and the sentence of each token.
fn parted(tokens: &[Token<'_>]) -> (Vec<usize>, Vec<usize>) {
    let (mut clause, mut sentence) = (0, 0);
    let (mut clauses, mut sentences) = (Vec::new(), Vec::new());
    for (at, token) in tokens.iter().enumerate() {
        clauses.push(clause);
        sentences.push(sentence);
        let in_figure = token.is_mark('.')
            && token.glued
            && tokens.get(at + 1).is_some_and(|next| next.glued && next.value().is_some());
        match token.form {
            Form::Line | Form::Mark('!' | '?') => {
                clause += 1;
                sentence += 1;
            }
            Form::Mark('.') if !in_figure => {
                clause += 1;
                sentence += 1;
            }
            Form::Mark(',' | ';' | ':' | '(' | ')' | '\u{2026}') | Form::Picture => clause += 1,
            _ if token.text == "but" || token.text == "pero" => clause += 1,
            _ => {}
        }
    }
    (clauses, sentences)
}
