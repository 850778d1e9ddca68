//! On to the next part, back again, a pause, the rest given up.

use super::lanes_and_names::{count_at, lanes};
use super::sent_off::is_clear_time;
use crate::message::{Edit, EditWhat, Kind, Scope};
use crate::reading::frame::Clause;
use crate::reading::frame::candidate::Candidate;
use crate::reading::lexicon::{Concept, Sense, UnitWord};
use crate::reading::piece::Item;
use crate::reading::situation::Phase;
use crate::session::Part;
use crate::units::Centis;

/// `extra minute after the 4th`, `carry on`, `restart from no 4`, `move on`, `scrap the
/// rest`, `2 more then swim down`.
pub fn flow(c: &Clause<'_, '_>) -> Option<Candidate> {
    if c.sit.phase != Phase::During
        || c.pieces
            .iter()
            .any(|piece| matches!(piece.item, Item::Repeat(..) | Item::Each(_) | Item::Person(_)))
    {
        return None;
    }
    let mut candidate = Candidate::new("change", c.len());
    let lanes = lanes(c, &mut candidate);
    let say = |mut candidate: Candidate, scope: Scope, what: EditWhat, cost: f32| {
        candidate.used.fill(true);
        let edit = Edit { scope, lanes: lanes.clone(), names: vec![], what };
        Some(candidate.says(Kind::Change(vec![edit])).at_cost(cost))
    };
    let pause = c.pieces.iter().find_map(|piece| match piece.item {
        Item::Span(time) if time.seconds() <= 600.0 => Some(time),
        Item::Word if piece.is(Sense::Unit(UnitWord::Minute)) => {
            Centis::from_whole_seconds(60).ok()
        }
        _ => None,
    });
    // `give them ten seconds more` is a longer send-off, `20 s more after the 4th` a pause.
    let stands = |pause: &Centis| {
        let placed = c.pieces.iter().any(|piece| matches!(piece.item, Item::Ordinal(_)));
        c.has(Concept::Pause) || pause.seconds() >= 30.0 || placed
    };
    if let Some(pause) = pause.filter(stands).filter(|_| {
        c.has_any(&[Concept::Extra, Concept::Pause, Concept::RestWord]) && c.len() <= 12
    }) {
        return say(candidate, Scope::Rest, EditWhat::Pause(pause), 0.6);
    }
    let small = c.len() <= 8;
    if c.has(Concept::Restart) && small {
        let from = c.pieces.iter().find_map(|piece| match piece.item {
            Item::Ordinal(number) => u16::try_from(number).ok(),
            _ => None,
        });
        return say(candidate, from.map_or(Scope::Main, Scope::FromRepeat), EditWhat::Restart, 0.5);
    }
    if c.has(Concept::Resume) && small {
        return say(candidate, Scope::Rest, EditWhat::Resume, 0.6);
    }
    let swim_down = c.pieces.iter().any(|piece| piece.is(Sense::Part(Part::SwimDown)));
    // `they're on the swim down now` tells; `el siguiente bloque cada 1:10` is of what comes.
    let tells = c.has(Concept::They) && c.pieces.iter().any(|piece| piece.text == "on")
        || c.pieces.iter().any(is_clear_time);
    if !tells
        && (c.has(Concept::MoveOn)
            || swim_down && c.has(Concept::Then) && small
            || swim_down && c.pieces.iter().any(|piece| piece.text == "now"))
        && small
    {
        return say(candidate, Scope::Main, EditWhat::MoveOn, 0.6);
    }
    // `no lane 3 not lane 2`, `lane 3 only 7, skip the last` give up something else.
    let gives_up = c.pieces.iter().any(|piece| {
        piece.means(Concept::Stopped) || piece.means(Concept::Skip) && piece.text != "no"
    });
    let counted = c.has(Concept::Last)
        || c.pieces.iter().any(|piece| {
            count_at(piece).is_some() && piece.text != "one"
                || matches!(piece.item, Item::Ordinal(_))
        });
    if gives_up
        && !counted
        && (c.has(Concept::Rest) || c.has(Concept::Set) || !lanes.is_empty())
        && small
    {
        return say(candidate, Scope::Main, EditWhat::MoveOn, 0.7);
    }
    None
}
