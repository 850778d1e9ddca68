//! Warm-up or swim-down, and a last swim: longer, shorter, swum otherwise, or left out.

use super::lanes_and_names::pass;
use super::replaced::{base, said};
use crate::message::{Edit, EditWhat, Kind, Length, Scope, TypedSet};
use crate::reading::frame::Clause;
use crate::reading::frame::candidate::Candidate;
use crate::reading::frame::sets::writer;
use crate::reading::frame::sets::writer::{WrittenPart, lines, write};
use crate::reading::lexicon::{Concept, Sense};
use crate::reading::piece::{Figure, Item};
use crate::reading::situation::Phase;
use crate::session::Part;

/// `make the swim down 100`, `no swim down`, `skip the last 200`, `cut the warm up`.
pub fn ends(c: &Clause<'_, '_>) -> Option<Candidate> {
    let set = c.sit.set.as_ref()?;
    let named = c.pieces.iter().position(|piece| {
        piece
            .sense(|sense| {
                matches!(sense, Sense::Part(Part::SwimDown | Part::WarmUp)).then_some(())
            })
            .is_some()
    });
    // `the last 200`
    let by_length = c.pieces.array_windows::<2>().position(|pair| pair[0].means(Concept::Last) && matches!(pair[1].item, Item::Figure(Figure::Whole { value, .. }) if set.lines.last().is_some_and(|line| line.distance == value && !line.main)));
    let at = named.or(by_length.map(|at| at + 1))?;
    let warm =
        c.pieces[at].sense(|sense| (*sense == Sense::Part(Part::WarmUp)).then_some(())).is_some();
    let mut candidate = Candidate::new("change", c.len());
    pass(c, &mut candidate);
    candidate.used[at] = true;
    if let Some(before) = by_length {
        candidate.used[before] = true;
    }
    let drops = c.pieces[..at]
        .iter()
        .any(|piece| piece.means(Concept::Skip) || matches!(piece.text, "no" | "sin"))
        && !c.pieces[..at].iter().any(|piece| {
            piece.text == "cut" && c.at(at + 1).is_some_and(|next| next.means(Concept::To))
        });
    let far = c
        .pieces
        .iter()
        .enumerate()
        .skip(if by_length.is_some() { at + 1 } else { 0 })
        .find_map(|(place, piece)| match piece.item {
            Item::Far(far) => Some((place, c.length(far)?)),
            Item::Figure(Figure::Whole { value, .. }) if writer::is_swum(value) && place != at => {
                Some((place, Length { amount: value, unit: None }))
            }
            _ => None,
        });
    let repeats = c.pieces.iter().any(|piece| matches!(piece.item, Item::Repeat(..)));
    let scope = if warm { Scope::WarmUp } else { Scope::SwimDown };
    if repeats {
        // `do the last 200 as 4x50 easy`
        if !c.has_any(&[Concept::Make, Concept::Swap, Concept::Instead, Concept::Skip])
            && !c.pieces.iter().any(|piece| matches!(piece.text, "as" | "for"))
        {
            return None;
        }
        let written =
            write(&Clause { pieces: c.pieces.part(at + 1, c.len()), question: None, ..*c });
        let swims = written.swims();
        let (first, ..) = (swims.first()?,);
        if first.count < 2 {
            return None;
        }
        candidate.used[at + 1..].fill(true);
        let mut new = written.parts;
        let mut whole = base(c);
        if warm {
            whole.remove(0)
        } else {
            whole.pop()?
        };
        for part in &mut new {
            if let WrittenPart::One(swim) = part {
                swim.part = Some(if drops {
                    Part::Main
                } else if warm {
                    Part::WarmUp
                } else {
                    Part::SwimDown
                });
            }
        }
        whole.extend(new.clone());
        return said(c, candidate, whole, EditWhat::Instead, &new, scope);
    }
    let what = match (drops, far) {
        (false, Some((place, far))) => {
            candidate.used[place] = true;
            EditWhat::Distance(far)
        }
        (true, _) => EditWhat::Drop,
        (false, None) => return None,
    };
    if !drops
        && !c.has_any(&[
            Concept::Make,
            Concept::Cut,
            Concept::Extra,
            Concept::Less,
            Concept::Instead,
            Concept::Skip,
        ])
    {
        return None;
    }
    for (place, piece) in c.pieces.iter().enumerate() {
        candidate.used[place] |= piece.means(Concept::Skip)
            || piece.text == "no"
            || matches!(piece.item, Item::Figure(Figure::Whole { value, .. }) if set.lines.last().is_some_and(|line| line.distance == value));
    }
    if c.sit.phase == Phase::During {
        let edit = Edit { scope, lanes: vec![], names: vec![], what };
        return Some(candidate.says(Kind::Change(vec![edit])).at_cost(0.4));
    }
    let mut whole = base(c);
    let place = if warm { 0 } else { whole.len().checked_sub(1)? };
    match (what, whole.get_mut(place)?) {
        (EditWhat::Drop, _) => drop(whole.remove(place)),
        (EditWhat::Distance(far), WrittenPart::One(swim)) => (swim.count, swim.length) = (1, far),
        _ => {}
    }
    let set = TypedSet { on: None, lines: lines(whole)? };
    Some(candidate.says(Kind::Set(set)).at_cost(0.5))
}
