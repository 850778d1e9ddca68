//! Which line of the set in force a stretch means.

use std::ops::Range;

use crate::message::Scope;
use crate::reading::frame::Clause;
use crate::reading::frame::clause::stroke_of;
use crate::reading::lexicon::{Concept, Sense};
use crate::reading::piece::{Far, Figure, Item, Piece};
use crate::reading::situation::{Line, SetInForce};
use crate::session::Part;
use crate::units::{Level, Stroke};

/// A line that is meant, or a part of several.
#[derive(Debug, Clone, PartialEq)]
pub struct Meant {
    /// Its place among the lines that are known; none where the set has no such part.
    pub lines: Range<usize>,
    /// The same for those who swim it.
    pub scope: Scope,
    /// The pieces that say so.
    pub said: Vec<usize>,
}

/// The line that a stretch names beside the main one: by its part, by its length and where
/// it stands (`the second 200`, `el 200 final`), by how it is swum (`the easy at the end`),
/// or by itself (`the 4x50 kick`).
pub fn line_meant(c: &Clause<'_, '_>, set: &SetInForce) -> Option<Meant> {
    by_part(c, set)
        .or_else(|| by_length(c, set))
        .or_else(|| by_ease(c, set))
        .or_else(|| by_itself(c, set))
}

/// `the swim down`, `the warm up`.
fn by_part(c: &Clause<'_, '_>, set: &SetInForce) -> Option<Meant> {
    let named = |piece: &Piece<'_>| {
        piece.sense(|sense| match sense {
            Sense::Part(part @ (Part::SwimDown | Part::WarmUp)) => Some(*part),
            _ => None,
        })
    };
    // `put her down`, `the flags are down`: no swim-down.
    let is_named = |at: usize| {
        c.pieces[at].text != "down"
            || c.pieces[at].at.1 - c.pieces[at].at.0 > 1
            || at > 0 && c.pieces[at - 1].means(Concept::Article)
    };
    let parts = c.pieces.iter().enumerate().filter(|(at, _)| is_named(*at));
    let (at, part) = parts.into_iter().find_map(|(at, one)| Some((at, named(one)?)))?;
    let (lines, scope) = match part {
        Part::WarmUp => (0..before_main(set), Scope::WarmUp),
        _ => (behind_main(set)..set.lines.len(), Scope::SwimDown),
    };
    Some(Meant { lines, scope, said: vec![at] })
}

/// Where among its like a line stands.
#[derive(Debug, Clone, Copy)]
enum Place {
    First,
    Last,
    Number(usize),
}

impl Place {
    /// The one there of several.
    fn of<T: Copy>(self, all: &[T]) -> Option<T> {
        match self {
            Place::First => all.first(),
            Place::Last => all.last(),
            Place::Number(number) => all.get(number.checked_sub(1)?),
        }
        .copied()
    }
}

/// `the second 200`, `the last 200`, `el 200 final`, `200 at the start`.
fn by_length(c: &Clause<'_, '_>, set: &SetInForce) -> Option<Meant> {
    c.pieces.iter().enumerate().find_map(|(at, piece)| {
        let amount = amount(c, piece)?;
        let once = |line: &Line| line.count == 1 && line.distance == amount;
        let alike = places(set, once);
        let (place, by) = place_beside(c, at)?;
        let line = place.of(&alike)?;
        Some(one_line(set, line, [at].into_iter().chain(by).collect()))
    })
}

/// `the easy at the end`, `el suave del final`, `the first easy bit`.
fn by_ease(c: &Clause<'_, '_>, set: &SetInForce) -> Option<Meant> {
    let at = c.pieces.iter().position(|piece| piece.level() == Some(Level::Easy))?;
    let (place, by) = place_beside(c, at)?;
    let line = match place {
        Place::First => Some(0).filter(|_| before_main(set) > 0),
        Place::Last => set.lines.len().checked_sub(1).filter(|last| *last >= behind_main(set)),
        Place::Number(_) => None,
    };
    Some(one_line(set, line?, [at].into_iter().chain(by).collect()))
}

/// `the 4x50 kick`, `the 25s`, `the pull`: a line that nothing else in the set is like.
fn by_itself(c: &Clause<'_, '_>, set: &SetInForce) -> Option<Meant> {
    let main = set.main();
    c.pieces.iter().enumerate().find_map(|(at, piece)| {
        let the = at > 0 && c.pieces[at - 1].means(Concept::Article);
        let alike = match piece.item {
            Item::Repeat(count, Far::Of(amount, _)) => {
                places(set, |line| line.count == count && line.distance == amount)
            }
            Item::Plural(amount) => places(set, |line| line.count > 1 && line.distance == amount),
            Item::Figure(Figure::Whole { value, .. }) if the && value >= 100 => {
                places(set, |line| line.count == 1 && line.distance == value)
            }
            _ => {
                let stroke = stroke_of(piece).filter(|stroke| the && *stroke != Stroke::Free)?;
                places(set, |line| line.stroke == stroke)
            }
        };
        let [line] = alike.as_slice() else { return None };
        let is_main = main == set.lines.get(*line);
        (!is_main).then(|| one_line(set, *line, vec![at]))
    })
}

/// The metres, or yards, that a piece may name a line by.
fn amount(c: &Clause<'_, '_>, piece: &Piece<'_>) -> Option<u32> {
    match piece.item {
        Item::Figure(Figure::Whole { value, .. }) => Some(value),
        Item::Far(far) => c.length(far).map(|length| length.amount),
        _ => None,
    }
}

/// Where a piece says that it stands, and the pieces that say so: before it (`the last 200`,
/// `the second 200`), or behind (`200 easy at the end`).
fn place_beside(c: &Clause<'_, '_>, at: usize) -> Option<(Place, Range<usize>)> {
    const FAR: usize = 4;
    let little = |piece: &Piece<'_>| {
        [Concept::Article, Concept::Of, Concept::At, Concept::In, Concept::To, Concept::One]
            .iter()
            .any(|one| piece.means(*one))
            || piece.level().is_some()
            || stroke_of(piece).is_some()
            || matches!(piece.text, "bit" | "swim" | "del" | "al")
    };
    let before = at.checked_sub(1).and_then(|before| c.at(before));
    if let Some(place) = before.and_then(|before| place_of(before, false)) {
        return Some((place, at - 1..at));
    }
    let mut place = at + 1;
    while let Some(piece) = c.at(place).filter(|_| place <= at + FAR) {
        if let Some(found) = place_of(piece, true) {
            return Some((found, at + 1..place + 1));
        }
        if !little(piece) {
            break;
        }
        place += 1;
    }
    None
}

/// The place that a word says. Behind a length, `start` and `end` say it too.
fn place_of(piece: &Piece<'_>, behind: bool) -> Option<Place> {
    let number = match piece.item {
        Item::Ordinal(number) => Some(number),
        _ => piece.sense(|sense| match sense {
            Sense::Ordinal(number) => Some(*number),
            _ => None,
        }),
    };
    let ends = piece.means(Concept::EndOf) || matches!(piece.text, "end" | "fin");
    let begins = piece.means(Concept::Started)
        || matches!(piece.text, "beginning" | "principio" | "inicio" | "comienzo");
    if piece.means(Concept::Last) || behind && ends {
        Some(Place::Last)
    } else if piece.means(Concept::First) || behind && begins {
        Some(Place::First)
    } else {
        number.filter(|_| !behind).and_then(|one| usize::try_from(one).ok()).map(Place::Number)
    }
}

fn places(set: &SetInForce, fits: impl Fn(&Line) -> bool) -> Vec<usize> {
    set.lines.iter().enumerate().filter(|(_, line)| fits(line)).map(|(at, _)| at).collect()
}

/// How many lines stand before the main part.
fn before_main(set: &SetInForce) -> usize {
    set.lines.iter().take_while(|line| !line.main).count()
}

/// Where the lines behind the main part begin.
fn behind_main(set: &SetInForce) -> usize {
    set.lines.iter().rposition(|line| line.main).map_or(set.lines.len(), |last| last + 1)
}

fn one_line(set: &SetInForce, line: usize, said: Vec<usize>) -> Meant {
    let (before, behind) = (before_main(set), behind_main(set));
    let alone = |part: Range<usize>| part.len() == 1 && part.contains(&line);
    let number = u16::try_from(line + 1).unwrap_or(u16::MAX);
    let scope = if alone(0..before) {
        Scope::WarmUp
    } else if alone(behind..set.lines.len()) {
        Scope::SwimDown
    } else {
        Scope::Line(number)
    };
    Meant { lines: line..line + 1, scope, said }
}
