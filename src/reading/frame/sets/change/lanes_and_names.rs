//! What the changes of a set have in common: lanes, names, words that say nothing beside them.

use crate::message::{Cut, Kind, Name, Statement};
use crate::reading::frame::Clause;
use crate::reading::frame::candidate::Candidate;
use crate::reading::frame::mood::is_request;
use crate::reading::lexicon::{Concept, Sense};
use crate::reading::piece::{Far, Figure, Item, Piece};
use crate::reading::situation::Line;
use crate::session::Part;

/// The lanes that a stretch names, and their words taken as explained.
pub fn lanes(c: &Clause<'_, '_>, candidate: &mut Candidate) -> Vec<u8> {
    candidate
        .used
        .mark(c.pieces, |piece| matches!(piece.item, Item::Lanes(_)) || piece.means(Concept::Lane));
    lanes_named(c)
}

/// The lanes that a stretch names.
pub fn lanes_named(c: &Clause<'_, '_>) -> Vec<u8> {
    let mut all: Vec<u8> = c.pieces.iter().flat_map(Piece::lanes).collect();
    if all.is_empty() {
        // `fast lane`, `slow lane`
        let count = u8::try_from(c.sit.lanes.len()).unwrap_or(0);
        let lane = c.find(Concept::Lane);
        let near = |words: &[&str]| {
            lane.is_some_and(|lane| {
                c.pieces[lane.saturating_sub(2)..(lane + 3).min(c.len())]
                    .iter()
                    .any(|piece| words.contains(&piece.text))
            })
        };
        if near(&["fast", "fastest", "top", "rapida"]) {
            all.push(1);
        } else if near(&["slow", "slowest", "bottom", "lenta"]) && count > 0 {
            all.push(count);
        }
    }
    all
}

pub fn names(c: &Clause<'_, '_>, candidate: &mut Candidate) -> Vec<Name> {
    candidate.used.mark(c.pieces, |piece| matches!(piece.item, Item::Person(_)));
    c.people().into_iter().filter_map(|person| c.name(person)).collect()
}

/// Words that say nothing beside a change.
pub fn pass(c: &Clause<'_, '_>, candidate: &mut Candidate) {
    candidate.used.mark(c.pieces, |piece| {
        [
            Concept::Make,
            Concept::Cut,
            Concept::Can,
            Concept::CanYou,
            Concept::Want,
            Concept::Everyone,
            Concept::They,
            Concept::She,
            Concept::He,
            Concept::Only,
            Concept::Set,
            Concept::Then,
            Concept::Will,
            Concept::We,
            Concept::Set,
            Concept::Instead,
            Concept::Sorry,
            Concept::Same,
            Concept::Maybe,
            Concept::Not,
        ]
        .iter()
        .any(|one| piece.means(*one))
            || matches!(piece.item, Item::Day(_))
            // `could lane 3 go to 1:15?` asks for it.
            || piece.item == Item::Mark('?')
                && is_request(&c.whole())
    });
}

/// True if a piece names the main line: `8x50`, `the 50s`, `main set`.
pub fn names_line(piece: &Piece<'_>, main: &Line) -> bool {
    match piece.item {
        Item::Plural(value) => value == main.distance,
        Item::Repeat(count, Far::Of(amount, _)) => count == main.count && amount == main.distance,
        _ => {
            piece.sense(|sense| (*sense == Sense::Part(Part::Main)).then_some(())).is_some()
                && piece.at.1 - piece.at.0 > 1
        }
    }
}

/// Figures that say how many.
pub fn count_at(piece: &Piece<'_>) -> Option<u32> {
    match piece.item {
        Item::Figure(Figure::Whole { value, .. }) if (1..=40).contains(&value) => Some(value),
        _ => None,
    }
}

pub fn cuts(lanes: &[u8], cut: impl Fn(Option<u8>) -> Cut) -> Vec<Statement> {
    let says = |lane| Statement { who: None, kind: Kind::Cut(cut(lane)) };
    match lanes {
        [] => vec![says(None)],
        several => several.iter().map(|lane| says(Some(*lane))).collect(),
    }
}
