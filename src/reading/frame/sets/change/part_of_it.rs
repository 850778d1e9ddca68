//! A change of part of the set: its stroke, kit, effort, from some repeat on.

use super::lanes_and_names::{count_at, lanes, names, names_line, pass};
use crate::message::{Edit, EditWhat, Kind, Scope};
use crate::reading::frame::Clause;
use crate::reading::frame::candidate::Candidate;
use crate::reading::frame::clause::stroke_of;
use crate::reading::lexicon::Concept;
use crate::reading::piece::Item;
use crate::reading::situation::{Line, Phase};
use crate::units::Level;

/// `last 2 all out`, `odds fast evens easy`, `pull for the last 4`, `lane 1 hold 40`.
pub fn part_of_it(c: &Clause<'_, '_>, main: &Line) -> Option<Candidate> {
    if c.sit.phase != Phase::During {
        return None;
    }
    let mut candidate = Candidate::new("change", c.len());
    let lanes = lanes(c, &mut candidate);
    let names = names(c, &mut candidate);
    let mut scope = Scope::Main;
    let mut scoped = false;
    for (at, piece) in c.pieces.iter().enumerate() {
        // `los 2 ultimos`
        let counted = at.checked_sub(1).and_then(|before| c.at(before)).and_then(count_at);
        if piece.means(Concept::Last)
            && let Some(count) = counted.filter(|_| c.at(at + 1).and_then(count_at).is_none())
        {
            scope = Scope::LastRepeats(u16::try_from(count).ok()?);
            scoped = true;
            candidate.used[at - 1..=at].fill(true);
        } else if piece.means(Concept::Last)
            && let Some(count) = c.at(at + 1).and_then(count_at)
        {
            scope = Scope::LastRepeats(u16::try_from(count).ok()?);
            scoped = true;
            candidate.used[at..at + 2].fill(true);
        } else if piece.means(Concept::From)
            && let Some(Item::Ordinal(number)) = c.at(at + 1).map(|next| next.item)
        {
            scope = Scope::FromRepeat(u16::try_from(number).ok()?);
            scoped = true;
            candidate.used[at..at + 2].fill(true);
        } else if piece.means(Concept::Rest) || piece.means(Concept::All) {
            scope = Scope::Rest;
            scoped = true;
            candidate.used[at] = true;
        }
    }
    if c.has(Concept::Odd) && c.has(Concept::Even) {
        let level = |concept: Concept| {
            let at = c.find(concept)?;
            c.pieces[at + 1..].iter().take(2).find_map(|piece| {
                piece.level().or(piece.means(Concept::Fast).then_some(Level::Sprint))
            })
        };
        let (odd, even) = (level(Concept::Odd)?, level(Concept::Even)?);
        candidate.used.fill(true);
        let edit = |scope, level| Edit {
            scope,
            lanes: lanes.clone(),
            names: names.clone(),
            what: EditWhat::Level(level),
        };
        return Some(
            candidate
                .says(Kind::Change(vec![edit(Scope::Odd, odd), edit(Scope::Even, even)]))
                .at_cost(0.4),
        );
    }
    let results = c.pieces.iter().filter(|piece| matches!(piece.item, Item::Figure(figure) if figure.whole().is_none_or(|value| value > 15)) || matches!(piece.item, Item::Each(_))).count();
    let mut what = None;
    for (at, piece) in c.pieces.iter().enumerate() {
        let kit = piece.kit();
        let level = piece.level();
        if let Some(kit) = kit {
            what = Some(EditWhat::Kit(vec![kit]));
        } else if let Some(stroke) = stroke_of(piece) {
            what = what.or(Some(EditWhat::Stroke(stroke)));
        } else if let Some(level) = level.filter(|_| scoped) {
            what = what.or(Some(EditWhat::Level(level)));
        } else {
            continue;
        }
        candidate.used[at] = true;
    }
    // `lane 1 hold 40`
    if let Some(at) = c
        .pieces
        .iter()
        .position(|piece| matches!(piece.text, "hold" | "target" | "aguanten" | "mantengan"))
        && let Some(Item::Figure(figure)) = c.at(at + 1).map(|next| next.item)
        && let Some(time) = c.time(figure, main.distance, main.stroke, None)
    {
        candidate.used[at..at + 2].fill(true);
        what = Some(EditWhat::Target(time));
        scoped = true;
    } else if results > 0 {
        return None;
    }
    let what = what?;
    let evoked = scoped
        || !lanes.is_empty() && c.len() <= 8
        || c.has_any(&[Concept::Make, Concept::Everyone, Concept::Swap]);
    if !evoked || !names.is_empty() && !scoped {
        return None;
    }
    pass(c, &mut candidate);
    candidate.used.mark(c.pieces, |piece| {
        names_line(piece, main) || piece.means(Concept::Swap) || piece.means(Concept::To)
    });
    let edit = Edit { scope, lanes, names, what };
    Some(candidate.says(Kind::Change(vec![edit])).at_cost(0.6))
}
