//! Another main set, with what stands round it.

use super::lanes_and_names::{names_line, pieces_without};
use crate::message::{Edit, EditWhat, Kind, Scope, TypedSet};
use crate::reading::frame::Clause;
use crate::reading::frame::candidate::Candidate;
use crate::reading::frame::sets::frame::{known, with_ends};
use crate::reading::frame::sets::writer::{WrittenPart, lines, write};
use crate::reading::lexicon::Concept;
use crate::reading::piece::{Item, Pieces};
use crate::reading::situation::{Line, Phase};
use crate::session::Part;

/// `instead of the 8x50 16x25`, `swap the 50s for 4x100 on 2:10`, `scrap the 50s, 4x100
/// off 2:10 instead`.
pub fn replaced(c: &Clause<'_, '_>, main: &Line) -> Option<Candidate> {
    let swaps = c.has_any(&[Concept::Instead, Concept::Swap, Concept::Make])
        || c.has(Concept::Skip)
            && c.pieces.iter().filter(|piece| matches!(piece.item, Item::Repeat(..))).count() > 0;
    if !swaps {
        return None;
    }
    let old = c.pieces.iter().position(|piece| names_line(piece, main))?;
    // Without the line's old name, what is written is the new one.
    let pieces = pieces_without(c, |at| at == old);
    let stretch = Clause { pieces: Pieces(&pieces), question: None, ..*c };
    let written = write(&stretch);
    let swims = written.swims();
    let new = !swims.is_empty()
        && swims.iter().any(|swim| swim.count > 1 || swim.length.amount != main.distance);
    if !new {
        return None;
    }
    let mut candidate = Candidate::new("change", c.len());
    let skipped = written.used.clone();
    let mut place = 0;
    for at in 0..c.len() {
        if at == old {
            candidate.used[at] = true;
            continue;
        }
        candidate.used[at] = skipped[place]
            || !matches!(
                c.pieces[at].item,
                Item::Figure(_) | Item::Repeat(..) | Item::Far(_) | Item::Span(_)
            );
        place += 1;
    }
    let parts = mains(written.parts);
    said(c, candidate, with_ends(c, parts.clone()), EditWhat::Instead, &parts, Scope::Main)
}

/// Parts without a name belong to the main part.
pub fn mains(parts: Vec<WrittenPart>) -> Vec<WrittenPart> {
    parts
        .into_iter()
        .map(|part| match part {
            WrittenPart::One(mut swim) => {
                swim.part = swim.part.or(Some(Part::Main));
                WrittenPart::One(swim)
            }
            rounds => rounds,
        })
        .collect()
}

/// The new set before the evening; during it the change alone.
pub fn said(
    c: &Clause<'_, '_>,
    candidate: Candidate,
    whole: Vec<WrittenPart>,
    what: fn(TypedSet) -> EditWhat,
    parts: &[WrittenPart],
    scope: Scope,
) -> Option<Candidate> {
    if c.sit.phase == Phase::During {
        let set = TypedSet { on: None, lines: lines(parts.to_vec())?, lanes: vec![] };
        let edit = Edit { scope, lanes: vec![], names: vec![], what: what(set) };
        return Some(candidate.says(Kind::Change(vec![edit])).at_cost(0.5));
    }
    let set = TypedSet { on: None, lines: lines(whole)?, lanes: vec![] };
    Some(candidate.says(Kind::Set(set)).at_cost(0.5))
}

/// Every line that is known, with its part.
pub fn base(c: &Clause<'_, '_>) -> Vec<WrittenPart> {
    let Some(set) = &c.sit.set else { return vec![] };
    let last = set.lines.len() - 1;
    set.lines
        .iter()
        .enumerate()
        .map(|(at, line)| {
            known(
                line,
                if line.main {
                    Part::Main
                } else if at == last {
                    Part::SwimDown
                } else {
                    Part::WarmUp
                },
            )
        })
        .collect()
}
