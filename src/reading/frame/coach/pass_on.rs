//! Words to be passed on or kept: `tell`, `note`, `focus`; and swimmers eased off or
//! released.

use crate::message::{Kind, Name, Statement, WeekKind};
use crate::reading::frame::Clause;
use crate::reading::frame::candidate::Candidate;
use crate::reading::frame::mood;
use crate::reading::lexicon::{Concept, Hint, Sense};
use crate::reading::likely::Class;
use crate::reading::piece::{Figure, Item, Piece};
use crate::reading::situation::Role;
use crate::units::Level;

/// The longest text that is passed on or kept.
const LONGEST: usize = 300;

/// Reads a stretch as words to be passed on or kept.
pub fn words(c: &Clause<'_, '_>) -> Vec<Candidate> {
    if c.sit.role != Role::Coach {
        return vec![];
    }
    let mut read = Vec::new();
    read.extend(tell(c));
    read.extend(noted(c, Concept::Focus));
    read.extend(noted(c, Concept::Note));
    read
}

fn skips(piece: &Piece<'_>) -> bool {
    matches!(piece.item, Item::Mark(':' | ',' | '-' | '"' | '\'' | '.'))
        || piece.means(Concept::That) && piece.at.1 - piece.at.0 == 1
        || Hint::BeforeAMessage.is(piece.text) && !matches!(piece.item, Item::Person(_))
}

fn text(c: &Clause<'_, '_>, from: usize) -> Option<String> {
    let mut from = from;
    while c.at(from).is_some_and(skips) {
        from += 1;
    }
    let text = c.typed(from, c.len());
    let text: String = text.chars().take(LONGEST).collect();
    (text.chars().filter(|c| c.is_alphanumeric()).count() > 1).then_some(text)
}

/// The people, the lane or everybody at a place, and the place behind.
fn addressed(c: &Clause<'_, '_>, from: usize) -> Option<(Vec<Option<Name>>, usize)> {
    let mut at = from;
    let mut names: Vec<Option<Name>> = Vec::new();
    let little = |piece: &Piece<'_>| {
        piece.means(Concept::And)
            || matches!(piece.item, Item::Mark(',' | '&' | '+' | ':'))
            || piece.means(Concept::Article)
            || piece.means(Concept::Of)
            || Hint::Whom.is(piece.text)
    };
    let mut end = None;
    while let Some(piece) = c.at(at) {
        match piece.item {
            Item::Person(person) => {
                names.push(c.name(person));
                end = Some(at + 1);
            }
            Item::Lanes(bits) if names.is_empty() => {
                let lanes = (1..=20usize)
                    .filter(|lane| bits & (1 << lane) != 0)
                    .filter_map(|lane| c.sit.lanes.get(lane - 1));
                names.extend(lanes.flatten().map(|person| c.name(*person)));
                end = Some(at + 1);
            }
            _ if piece.means(Concept::Everyone)
                || piece.means(Concept::Squad)
                || Hint::Everybody.is(piece.text) =>
            {
                names.push(None);
                end = Some(at + 1);
            }
            _ if little(piece) => {}
            _ => break,
        }
        at += 1;
        if at > from + 14 {
            break;
        }
    }
    end.map(|end| (names, end))
}

/// `tell teal …`, `let plover know …`, `can you tell everyone …`, `send to all: …`.
fn tell(c: &Clause<'_, '_>) -> Option<Candidate> {
    let first = mood::opening(c);
    let at = (first..(first + 6).min(c.len()))
        .find(|at| c.pieces[*at].means(Concept::Tell) && !c.pieces[*at].means(Concept::Me))
        .or_else(|| {
            let last = (first..c.len()).rev().find(|at| c.pieces[*at].means(Concept::Tell))?;
            (c.len() - last <= 3).then_some(last)
        })?;
    // `finch told me`: a report.
    let before = c.pieces[first..at].iter().any(|piece| matches!(piece.item, Item::Person(_)));
    if before {
        return None;
    }
    // `let everyone know …`: the words name them.
    let typed = c.typed(at, at + 1).to_lowercase();
    let them = typed.contains(" them") || typed.contains(" em");
    let all = typed.contains("everyone") || them && at == first;
    let everyone = || all.then(|| (vec![None], at + 1));
    let (whom, from) = addressed(c, at + 1).or_else(everyone)?;
    // `coffee at mine sunday, tell them`: what stands before.
    let told = text(c, from).or_else(|| {
        let told = c.typed(0, at).trim().trim_end_matches([',', '.', ';', ' ']);
        (at > 3).then(|| told.chars().take(LONGEST).collect::<String>())
    });
    let text = told?;
    let mut candidate = Candidate::new("tell", c.len());
    candidate.used.fill(true);
    // `no session tonight, tell everyone`: it is so, too.
    let told = if at > 3 { c.part(0, at) } else { c.part(from, c.len()) };
    let shut = |one: &Statement| matches!(one.kind, Kind::Shut { .. });
    let so = super::timetable::read(&told).into_iter().flat_map(|one| one.says).filter(shut);
    candidate.says.extend(so);
    for who in whom {
        candidate.says.push(Statement { who, kind: Kind::Tell { text: text.clone() } });
    }
    Some(candidate.at_cost(-0.5))
}

/// `note for heron: …`, `make a note that heron …`, `kite's focus is turns`.
fn noted(c: &Clause<'_, '_>, concept: Concept) -> Option<Candidate> {
    let [person] = c.people()[..] else { return None };
    let name = c.name(person)?;
    let at = c.find(concept)?;
    let place = c.pieces.iter().position(|piece| matches!(piece.item, Item::Person(_)))?;
    let first = mood::opening(c);
    let begins = at <= first + 3;
    let behind = place < at && at <= place + 2 && concept == Concept::Focus;
    if !begins && !behind || concept == Concept::Note && c.pieces[at].text == "on" {
        return None;
    }
    let from = if behind {
        at + 1
    } else if place <= at + 4 {
        at.max(place) + 1
    } else {
        at + 1
    };
    // `anota a robin 200 braza 4:48`: a time to be kept, and no words about it.
    let is_time =
        |piece: &Piece<'_>| matches!(piece.item, Item::Figure(figure) if figure.is_marked());
    let swum = c.at(from).is_some_and(|next| matches!(next.item, Item::Figure(_) | Item::Far(_)))
        && c.pieces[from + 1..].iter().any(is_time)
        || c.has(Concept::Held)
            && c.pieces.iter().any(is_time)
            && c.pieces.iter().any(|piece| {
                matches!(piece.item, Item::Far(_) | Item::Figure(Figure::Whole { places: 3.., .. }))
            });
    let text = text(c, from)?;
    let mut candidate = Candidate::new("note", c.len());
    candidate.used.fill(true);
    let kind = if concept == Concept::Focus { Kind::Focus { text } } else { Kind::Note { text } };
    Some(candidate.says_of(Some(name), kind).at_cost(if swum { 2.0 } else { -0.3 }))
}

/// `kite dropping the left elbow`: what a coach says of one swimmer, without a
/// figure, is a note.
pub fn remark(c: &Clause<'_, '_>) -> Vec<Candidate> {
    let [person] = c.people()[..] else { return vec![] };
    if c.sit.role != Role::Coach || mood::is_question(c) || c.len() < 4 || asks_by_words(c) {
        return vec![];
    }
    // `he's swimming over heron's feet` is of somebody named before.
    let of_before = c.at(mood::opening(c)).is_some_and(|piece| {
        [Concept::He, Concept::She, Concept::They].iter().any(|one| piece.means(*one))
    });
    // `i forgot to write down kites time, did she send it`: what leads to a question.
    let behind = c.whole().part((c.offset + c.len()).min(c.all.len()), c.all.len());
    if of_before || c.danger || !behind.is_empty() && mood::opens_question(&behind) {
        return vec![];
    }
    let figures = c.pieces.iter().any(|piece| {
        matches!(
            piece.item,
            Item::Figure(_)
                | Item::Far(_)
                | Item::Repeat(..)
                | Item::Each(_)
                | Item::Lanes(_)
                | Item::Span(_)
        )
    });
    let health =
        c.pieces.iter().any(|piece| piece.means(Concept::Pain) || piece.illness().is_some());
    if figures || health {
        return vec![];
    }
    let told = crate::reading::frame::health::read(c).into_iter().flat_map(|one| one.says);
    let hurts = told.into_iter().any(|one| one.kind.ails());
    if hurts {
        return vec![];
    }
    let mut candidate = Candidate::new("remark", c.len());
    candidate.used.fill(true);
    let text: String = c.typed(0, c.len()).chars().take(LONGEST).collect();
    vec![candidate.says_of(c.name(person), Kind::Note { text }).at_cost(2.2)]
}

/// `wrens 200s this year`: the words speak for a question and hardly for a note.
fn asks_by_words(c: &Clause<'_, '_>) -> bool {
    const ASKS: [Class; 5] =
        [Class::Trend, Class::Best, Class::Log, Class::Targets, Class::Predict];
    const LIKELY: f32 = 0.6;
    const NOTE: f32 = 0.2;
    let asks: f32 = ASKS.iter().map(|one| c.likely.of(*one)).sum();
    asks >= LIKELY && c.likely.of(Class::Note) < NOTE
}

/// `go easy on wren this week`, `heron easy only tonight`, `finch right to go again`.
pub fn eased(c: &Clause<'_, '_>) -> Vec<Candidate> {
    let people = c.people();
    if c.sit.role != Role::Coach || people.is_empty() || mood::is_question(c) {
        return vec![];
    }
    let figures = c.pieces.iter().any(|piece| {
        matches!(piece.item, Item::Figure(figure) if figure.whole() != Some(1))
            || matches!(piece.item, Item::Far(_) | Item::Repeat(..))
    });
    if figures {
        return vec![];
    }
    let easy = c.has(Concept::HoldEasy)
        || c.pieces.iter().any(|piece| piece.is(Sense::Level(Level::Easy)))
            && (c.has(Concept::Only)
                || c.pieces.iter().any(|piece| {
                    matches!(piece.item, Item::Day(_)) || matches!(piece.text, "week" | "semana")
                }));
    let mut candidate = Candidate::new("eased", c.len());
    candidate.used.fill(true);
    let kind =
        if c.has(Concept::Release) && !c.has_any(&[Concept::Not, Concept::Didnt, Concept::Cant]) {
            Kind::Release
        } else if easy {
            Kind::Hold { week: WeekKind::Easy }
        } else {
            return vec![];
        };
    for person in people {
        candidate.says.push(Statement { who: c.name(person), kind: kind.clone() });
    }
    vec![candidate.at_cost(0.5)]
}
