//! Questions of any other kind: what is asked, about whom, of when, word by word, so that
//! they can be answered from what is known, however they were put.
//!
//! It looks only at questions that no frame knows. Where a word of health stands in the
//! text, or too much of it stays unknown, it says nothing, and the question goes to people.

mod beside;
mod rows;
mod word;

use beside::{Stands, names_span};
use rows::ROWS;
use word::{Asked, Word};

use super::named::{day, day_meant, distances, is_past, period};
use crate::message::{Name, Of, Question, Sought, Term};
use crate::reading::frame::{Clause, mood, stroke_of};
use crate::reading::lex::{Form, lex};
use crate::reading::lexicon::{Concept, Hint, Sense, UnitWord};
use crate::reading::piece::{Figure, Item, Piece};
use crate::units::Course;

/// Words that may stand unknown beside what is asked (ours).
const UNKNOWN: usize = 1;

/// What the question is made of; nothing where we don't know what it asks.
pub fn question_in(c: &Clause<'_, '_>) -> Option<Question> {
    if speaks_of_health(c) {
        return None;
    }
    of_stretch(c, c)
        .or_else(|| sentences(c).iter().rev().find_map(|one| of_stretch(one, c)))
        .or_else(|| core(c).and_then(|one| of_stretch(&one, c)))
}

/// The clause that asks, of a sentence that tells something before or behind it: `what did
/// wren do last night i've lost my bit of paper`.
fn core<'a, 't>(c: &Clause<'a, 't>) -> Option<Clause<'a, 't>> {
    const LEAST: usize = 3;
    let tells = |at: usize| {
        let piece = &c.pieces[at];
        let joins = [Concept::But, Concept::Because];
        joins.iter().any(|one| piece.means(*one))
            || Hint::BesideAQuestion.is(piece.text)
            || piece.is_apart()
    };
    let from = (0..c.len()).find(|at| mood::opens_question(&c.part(*at, c.len())))?;
    let to = (from + LEAST..c.len()).find(|at| tells(*at)).unwrap_or(c.len());
    (from > 0 || to < c.len()).then(|| c.part(from, to))
}

/// True where a word of health stands in it, whoever it is about.
pub fn speaks_of_health(c: &Clause<'_, '_>) -> bool {
    let asked = asked(c);
    // `is 1:05 too tight`: of a send-off, and of no body.
    let by_clock = |piece: &Piece<'_>| {
        asked.has(Word::Tight) && piece.text == "tight" && c.pieces.iter().any(is_time)
    };
    let of_health = c.pieces.iter().any(|piece| piece.is_of_health() && !by_clock(piece));
    c.danger || c.unwell || of_health || asked.has(Word::Health)
}

fn is_time(piece: &Piece<'_>) -> bool {
    matches!(piece.item, Item::Figure(Figure::Clock(_) | Figure::Parted { .. }))
}

/// The sentences of a text, where there are several, that ask something.
fn sentences<'a, 't>(c: &Clause<'a, 't>) -> Vec<Clause<'a, 't>> {
    let ends = |piece: &Piece<'_>| piece.is_apart() || matches!(piece.item, Item::Line);
    let mut from = 0;
    let mut all = Vec::new();
    for at in 0..c.len() {
        if ends(&c.pieces[at]) {
            all.push((from, at + 1));
            from = at + 1;
        }
    }
    all.push((from, c.len()));
    if all.len() < 2 {
        return vec![];
    }
    let parts = all.into_iter().filter(|(from, to)| from < to).map(|(from, to)| c.part(from, to));
    parts.filter(mood::is_question).collect()
}

/// A sentence as a question; whom the text named before it, it is about too.
fn of_stretch(c: &Clause<'_, '_>, whole: &Clause<'_, '_>) -> Option<Question> {
    let asked = asked(c);
    if asked.unknown > UNKNOWN {
        return None;
    }
    let stands = Stands::of(c, &asked);
    let row = ROWS.iter().find(|row| row.fits(&asked, |one| stands.has(one)))?;
    let of = stands.whom(c, whole, &asked, row.gives)?;
    let far = distances(c);
    let longest = far.iter().max_by_key(|length| length.amount).copied();
    let shortest = far.iter().min_by_key(|length| length.amount).copied();
    let piece = shortest.filter(|one| Some(*one) != longest);
    let spans = names_span(c) || matches!(row.gives, Sought::Swum);
    let span = spans.then(|| period(c)).flatten();
    let on = || day_meant(c).or_else(|| is_past(c).then(|| day(c)).flatten());
    Some(Question {
        sought: row.gives,
        of,
        on: if span.is_some() { None } else { on() },
        within: span,
        before: asked.has(Word::Before),
        length: stands.length.or(longest),
        piece,
        stroke: c.stroke(),
        repeats: stands.repeats,
        times: stands.times.clone(),
        kit: c.pieces.iter().filter_map(Piece::kit).collect(),
        terms: terms(&asked, &stands),
        pool: pool(c),
    })
}

/// `whats my best 400`: the best over what it names, where it names one distance or stroke.
pub fn best_over(c: &Clause<'_, '_>, who: Option<Name>) -> Option<Question> {
    if mood::is_request(c) {
        return None;
    }
    let far = distances(c);
    let length = match far.as_slice() {
        [one] => Some(*one),
        [] => None,
        _ => return None,
    };
    (length.is_some() || c.stroke().is_some()).then(|| Question {
        sought: Sought::Best,
        of: who.map_or(Of::Sender, |who| Of::Named(vec![who])),
        on: None,
        within: None,
        before: false,
        length,
        piece: None,
        stroke: c.stroke(),
        repeats: None,
        times: vec![],
        kit: vec![],
        terms: vec![],
        pool: None,
    })
}

/// The pool that a time is asked for in: `3:12 in yards`. Of two, the one that is not said
/// of the time: `my 200 in meters if i go 3:05 in yards`.
fn pool(c: &Clause<'_, '_>) -> Option<Course> {
    let course = |piece: &Piece<'_>| {
        let sense = |sense: &Sense| match sense {
            Sense::Unit(UnitWord::Yard) => Some(Course::Short25yd),
            Sense::Unit(UnitWord::Metre) if piece.text.len() > 1 => Some(Course::Short25m),
            Sense::Course(course) => Some(*course),
            _ => None,
        };
        piece.sense(sense)
    };
    let timed = |at: usize| {
        let before = c.pieces.part(at.saturating_sub(2), at);
        before.iter().any(|one| matches!(one.item, Item::Figure(Figure::Clock(_)) | Item::Each(_)))
    };
    let found: Vec<(usize, Course)> =
        (0..c.len()).filter_map(|at| Some((at, course(&c.pieces[at])?))).collect();
    let free = found.iter().rfind(|(at, _)| !timed(*at));
    free.or(found.last()).map(|(_, course)| *course)
}

/// The words of the trade that it names, and those that its figures are: `what does on 1:05
/// mean`.
fn terms(asked: &Asked, stands: &Stands) -> Vec<Term> {
    let mut terms = asked.terms();
    let mut add = |term: Term| {
        if !terms.contains(&term) {
            terms.insert(0, term);
        }
    };
    let holds = asked.terms().contains(&Term::Hold);
    if stands.times.len() > usize::from(holds) {
        add(Term::SendOff);
    }
    if stands.repeats.is_some() {
        add(Term::Repeats);
    }
    terms
}

/// What its words ask for, where no piece says what they are.
fn asked(c: &Clause<'_, '_>) -> Asked {
    let typed = lex(c.typed(0, c.len()));
    let tokens = typed.tokens();
    let words: Vec<_> = tokens.iter().filter(|token| token.form == Form::Word).collect();
    // What the pieces explain: people, days, figures, lanes, kit, strokes.
    let told = |piece: &Piece<'_>| {
        let wordy = matches!(piece.item, Item::Word | Item::Chatter | Item::Unknown);
        !wordy || piece.kit().is_some()
    };
    let mut explained: Vec<&str> = Vec::new();
    for (at, piece) in c.pieces.iter().enumerate() {
        if told(piece) || stroke_of(piece).is_some() {
            explained.extend(c.typed(at, at + 1).split(|c: char| !c.is_alphanumeric()));
        }
    }
    let known: Vec<bool> = words
        .iter()
        .map(|token| explained.iter().any(|one| one.eq_ignore_ascii_case(token.text)))
        .collect();
    let words: Vec<&str> = words.iter().map(|token| token.text).collect();
    Asked::of(&words, &known, c.sit.language)
}
