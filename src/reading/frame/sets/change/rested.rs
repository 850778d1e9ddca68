//! Another rest behind each repeat, for all, for lanes or for some by name.

use super::lanes_and_names::{lanes, names, names_line, pass};
use crate::message::{Edit, EditWhat, Kind, Scope};
use crate::reading::frame::Clause;
use crate::reading::frame::candidate::Candidate;
use crate::reading::lexicon::{Concept, Sense, UnitWord};
use crate::reading::piece::{Figure, Item, Piece};
use crate::reading::situation::{Line, Phase};
use crate::units::{Centis, SendOff};

/// `20s rest instead of 1:05`, `lane 4 r20`, `give puffin an extra 10 sec rest`.
pub fn rested(c: &Clause<'_, '_>, main: &Line) -> Option<Candidate> {
    const SHORT: usize = 12;
    let placed = |piece: &Piece<'_>| {
        matches!(piece.item, Item::Ordinal(_) | Item::Repeat(..) | Item::Far(_) | Item::Range(..))
            || matches!(piece.text, "after" | "tras" | "despues")
    };
    if !matches!(c.sit.phase, Phase::Before | Phase::During)
        || c.len() > SHORT
        || c.pieces.iter().any(placed)
        || c.has_any(&[Concept::Held, Concept::Made, Concept::Missed, Concept::Tell])
    {
        return None;
    }
    let word = c.pieces.iter().position(|piece| {
        let rests = piece.means(Concept::RestWord) && !piece.means(Concept::Pause);
        // `10 seg entre cada uno` is between swimmers.
        (rests || piece.text == "rest") && piece.text != "entre"
    })?;
    let near = word.saturating_sub(2)..(word + 3).min(c.len());
    // `teal on 55. rest stay 1:05`: of the others, in another sentence.
    let joined = |at: &usize| !c.pieces[word.min(*at)..word.max(*at)].iter().any(Piece::is_apart);
    let near = near.filter(|at| *at != word).filter(joined);
    let (at, rest) = near.into_iter().find_map(|at| Some((at, rest_of(c, at)?)))?;
    let mut candidate = Candidate::new("change", c.len());
    let lanes = lanes(c, &mut candidate);
    let names = names(c, &mut candidate);
    let evoked = !lanes.is_empty()
        || !names.is_empty()
        || c.has_any(&[Concept::Give, Concept::Make, Concept::Assign, Concept::Instead]);
    if !evoked {
        return None;
    }
    candidate.used[word] = true;
    candidate.used[at] = true;
    // What it is instead of: the send-off.
    let now = main.send_off.map(|on| f64::from(on.seconds()));
    for (place, piece) in c.pieces.iter().enumerate().filter(|(place, _)| *place != at) {
        let Item::Figure(figure) = piece.item else { continue };
        let same = figure.times().into_iter().any(|time| Some(time.seconds()) == now);
        if !same && !candidate.used[place] {
            return None;
        }
        candidate.used[place] = true;
    }
    pass(c, &mut candidate);
    candidate.used.mark(c.pieces, |piece| {
        let little = [Concept::Give, Concept::Extra, Concept::Less, Concept::Per, Concept::With];
        names_line(piece, main)
            || piece.is(Sense::Unit(UnitWord::Second))
            || little.iter().any(|one| piece.means(*one))
    });
    let seconds = i32::try_from(rest.hundredths() / 100).ok()?;
    let more = match (c.has(Concept::Extra), c.has(Concept::Less)) {
        (true, _) => Some(seconds),
        (_, true) => Some(-seconds),
        _ => None,
    };
    let what = match (more, main.send_off) {
        // For lanes it is a longer send-off by itself.
        (Some(_), _) if names.is_empty() => return None,
        (Some(more), Some(now)) => {
            let on = u32::try_from(i32::try_from(now.seconds()).ok()? + more).ok()?;
            EditWhat::SendOff(SendOff::new(on).ok()?)
        }
        (Some(more), None) => EditWhat::SendOffBy(i16::try_from(more).ok()?),
        (None, _) => EditWhat::Rest(rest),
    };
    let (lanes, names) = if names.is_empty() { (lanes, names) } else { (vec![], names) };
    let edit = Edit { scope: Scope::Main, lanes, names, what };
    Some(candidate.says(Kind::Change(vec![edit])).at_cost(0.3))
}

/// A rest, of a few seconds up to two minutes.
fn rest_of(c: &Clause<'_, '_>, at: usize) -> Option<Centis> {
    let time = match c.at(at)?.item {
        Item::Span(time) => time,
        // `20s`
        Item::Each(figure) => figure.times().into_iter().next()?,
        Item::Plural(value) => Centis::from_whole_seconds(value).ok()?,
        Item::Figure(Figure::Whole { value, .. }) => Centis::from_whole_seconds(value).ok()?,
        _ => return None,
    };
    (5.0..=120.0).contains(&time.seconds()).then_some(time)
}
