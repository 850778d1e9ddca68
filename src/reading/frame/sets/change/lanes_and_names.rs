//! What the changes of a set have in common: lanes, names, words that say nothing beside them.

use crate::language::Language;
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
    bare_lanes(c).into_iter().for_each(|(at, _)| candidate.used[at] = true);
    lanes_named(c)
}

/// `la 4 no llega`, `los de la 3 y la 4`, `1:10 for 3 and 4`: lanes by their numbers alone,
/// and where they stand.
fn bare_lanes(c: &Clause<'_, '_>) -> Vec<(usize, u8)> {
    let most = u32::try_from(c.sit.lanes.len()).unwrap_or(0);
    let number = |at: usize| match c.at(at)?.item {
        Item::Figure(Figure::Whole { value, places: 1 }) if (1..=most).contains(&value) => {
            u8::try_from(value).ok()
        }
        _ => None,
    };
    let mut all: Vec<(usize, u8)> = Vec::new();
    for at in 1..c.len() {
        let Some(lane) = number(at) else { continue };
        let before = &c.pieces[at - 1];
        let goes_on =
            before.means(Concept::And) && all.last().is_some_and(|(last, _)| *last + 2 >= at);
        // `for 10`, `la 4x50` count something else; behind `for` stand two, or the end.
        let ends = c.at(at + 1).is_none_or(|next| next.is_apart() || next.means(Concept::And));
        let of_lane = c.sit.language == Language::Spanish && before.text == "la"
            || before.means(Concept::For) && ends;
        if goes_on || of_lane {
            all.push((at, lane));
        }
    }
    all
}

/// The lanes that a stretch names.
pub fn lanes_named(c: &Clause<'_, '_>) -> Vec<u8> {
    let mut all: Vec<u8> = c.pieces.iter().flat_map(Piece::lanes).collect();
    if all.is_empty() {
        all.extend(bare_lanes(c).into_iter().map(|(_, lane)| lane));
    }
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

/// The swimmers for whom a stretch changes something, all of them taken as explained. Whoever
/// stands behind a figure and a reason is but why: `baja a 6 que puffin no llega`.
pub fn names(c: &Clause<'_, '_>, candidate: &mut Candidate) -> Vec<Name> {
    candidate.used.mark(c.pieces, |piece| matches!(piece.item, Item::Person(_)));
    let figure = |piece: &Piece<'_>| matches!(piece.item, Item::Figure(_) | Item::Repeat(..));
    let told = c.pieces.iter().position(figure).unwrap_or(c.len());
    let why = |piece: &Piece<'_>| piece.means(Concept::Because) || piece.means(Concept::That);
    let why = c.pieces[told..].iter().position(why).map_or(c.len(), |at| told + at);
    c.part(0, why).people().into_iter().filter_map(|person| c.name(person)).collect()
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
            Concept::Assign,
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

/// The pieces but for those at some places: without what names a line, the rest is what is
/// written of it.
pub fn pieces_without<'t>(c: &Clause<'_, 't>, is_left: impl Fn(usize) -> bool) -> Vec<Piece<'t>> {
    let kept = c.pieces.iter().enumerate().filter(|(at, _)| !is_left(*at));
    kept.map(|(_, piece)| piece.clone()).collect()
}
