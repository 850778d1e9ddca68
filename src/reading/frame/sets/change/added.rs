//! Repeats that come to the set.

use std::ops::Range;

use super::lanes_and_names::{cuts, lanes, names_line, pieces_without};
use super::line_meant::line_meant;
use super::replaced::{base, mains, said};
use crate::message::{Cut, Doubt, EditWhat, Kind, Scope, Statement, Wants};
use crate::reading::frame::Clause;
use crate::reading::frame::candidate::Candidate;
use crate::reading::frame::clause::stroke_of;
use crate::reading::frame::sets::writer::{WrittenPart, write};
use crate::reading::lexicon::{Concept, Hint};
use crate::reading::piece::{Item, Piece, Pieces};
use crate::reading::situation::{Line, Phase};
use crate::session::Part;

/// True where something comes to what is known: `add`, `mete`, `4x25 fly after the 50s`.
pub fn adds(c: &Clause<'_, '_>) -> bool {
    says_more(c) || place(c).is_some()
}

/// `add 4x50`, `another 4x50`
fn says_more(c: &Clause<'_, '_>) -> bool {
    let opening = &mut c.pieces.iter().take(OPENING);
    let told = opening.any(|piece| piece.means(Concept::Add) || is_put_in(piece));
    told || c.pieces.array_windows::<2>().any(|pair| {
        pair[0].means(Concept::Extra) && matches!(pair[1].item, Item::Repeat(..) | Item::Figure(_))
    })
}

/// `stick`, `chuck`, `throw`: beside repeats they are put in.
fn is_put_in(piece: &Piece<'_>) -> bool {
    Hint::PutsIn.is(piece.text)
}

fn is_after(piece: &Piece<'_>) -> bool {
    matches!(piece.text, "after" | "despues" | "tras")
}

/// How many pieces may stand before the word that something is added, and that word.
const OPENING: usize = 4;

/// `add another 4x50 same turnaround`, `stick 4x25 fly in before the swim down`.
pub fn added(c: &Clause<'_, '_>, main: &Line) -> Option<Candidate> {
    let then = c.pieces.iter().any(|piece| is_after(piece) || is_put_in(piece));
    let place = place(c);
    if !then && place.is_none() && !says_more(c) {
        return None;
    }
    if let Some(asked) = wanted(c) {
        return Some(asked);
    }
    // `4x50 kick after the warm up` is no warm-up.
    let is_place = |at: usize| place.as_ref().is_some_and(|(_, said)| said.contains(&at));
    let without = pieces_without(c, is_place);
    let stretch = Clause { pieces: Pieces(&without), question: None, ..*c };
    let written = write(&stretch);
    let swims = written.swims();
    let [first] = swims.as_slice() else { return None };
    let mut candidate = Candidate::new("change", c.len());
    let lanes = lanes(c, &mut candidate);
    candidate.used.mark(c.pieces, |piece| {
        !matches!(piece.item, Item::Figure(_) | Item::Repeat(..) | Item::Far(_) | Item::Person(_))
    });
    let kept = (0..c.len()).filter(|at| !is_place(*at));
    for (at, used) in kept.zip(written.used.iter()) {
        candidate.used[at] |= *used;
    }
    if let Some((_, said)) = &place {
        candidate.used[said.clone()].fill(true);
    }
    if first.length.amount == main.distance
        && first.count > 1
        && first.is_bare()
        && c.sit.phase == Phase::During
    {
        let count = u16::try_from(main.count + first.count).ok()?;
        candidate.says = cuts(&lanes, |lane| Cut { lane, count: Some(count), ..Cut::default() });
        return Some(candidate.at_cost(0.4));
    }
    let by_length = without
        .get(first.at)
        .is_some_and(|piece| matches!(piece.item, Item::Far(_) | Item::Figure(_)));
    if first.count == 1 && !by_length {
        return None;
    }
    let parts = mains(written.parts.clone());
    let mut whole = base(c);
    let end = whole
        .iter()
        .rposition(
            |part| matches!(part, WrittenPart::One(swim) if swim.part == Some(Part::SwimDown)),
        )
        .unwrap_or(whole.len());
    let place = place.map_or(end, |(place, _)| place.min(whole.len()));
    for (more, part) in parts.iter().enumerate() {
        whole.insert(place + more, part.clone());
    }
    let mut read = said(c, candidate, whole, EditWhat::Add, &parts, Scope::Rest)?;
    if let Some(Statement { kind: Kind::Change(edits), .. }) = read.says.first_mut() {
        edits.iter_mut().for_each(|edit| edit.lanes.clone_from(&lanes));
    }
    Some(read)
}

/// Where something comes in among the lines that are known, and the pieces that say so:
/// `after the warm up`, `before the swim down`, `antes de los 50`.
fn place(c: &Clause<'_, '_>) -> Option<(usize, Range<usize>)> {
    const NAME: usize = 5;
    // Little words before the name: `after the`, `antes de los`.
    const NEAR: usize = 2;
    let set = c.sit.set.as_ref()?;
    let main = set.main()?;
    (0..c.len()).find_map(|at| {
        let piece = c.at(at)?;
        let behind = is_after(piece);
        if !behind && !piece.means(Concept::Before) {
            return None;
        }
        let name = c.part(at + 1, (at + 1 + NAME).min(c.len()));
        let apart = name.pieces.iter().position(Piece::is_apart).unwrap_or(name.len());
        let name = name.part(0, apart);
        let of_main = || {
            let near = name.pieces.iter().take(NEAR + 1);
            let said = near.into_iter().position(|piece| names_line(piece, main))?;
            let first = set.lines.iter().position(|line| line.main)?;
            let last = set.lines.iter().rposition(|line| line.main)?;
            Some((first..last + 1, said))
        };
        let beside = || {
            let meant = line_meant(&name, set)?;
            let near = meant.said.iter().min().is_some_and(|first| *first <= NEAR);
            Some((meant.lines, meant.said.into_iter().max().filter(|_| near)?))
        };
        let (lines, last) = beside().or_else(of_main)?;
        Some((if behind { lines.end } else { lines.start }, at..at + 1 + last + 1))
    })
}

/// `add some kick in there somewhere`: how much of it, and where, is asked.
fn wanted(c: &Clause<'_, '_>) -> Option<Candidate> {
    let figures = |piece: &Piece<'_>| {
        matches!(
            piece.item,
            Item::Figure(_) | Item::Far(_) | Item::Repeat(..) | Item::Plural(_) | Item::Span(_)
        )
    };
    let way = |piece: &Piece<'_>| piece.kit().is_some() || stroke_of(piece).is_some();
    let opens = |piece: &Piece<'_>| piece.means(Concept::Add) || is_put_in(piece);
    let told = c.pieces.iter().take(OPENING).position(opens)?;
    let what = c.pieces[told..].iter().any(way);
    if c.pieces.iter().any(figures) || !what || !c.people().is_empty() {
        return None;
    }
    let mut candidate = Candidate::new("change", c.len());
    candidate.used.fill(true);
    Some(candidate.asking(Doubt::Missing { wants: Wants::Change }, vec![]).at_cost(0.8))
}
