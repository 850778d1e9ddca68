//! Repeats of the set that an entry tells of, as a statement about one.

use super::heading::Heading;
use crate::message::{Kind, Length, Name, Statement};
use crate::reading::frame::Clause;
use crate::reading::frame::clause::typed;
use crate::reading::frame::results::narrative::{Slot, Spec, Told};
use crate::reading::frame::results::set;
use crate::reading::situation::Phase;
use crate::units::{Centis, Stroke};

pub fn repeat_once(
    who: Name,
    length: Length,
    time: Centis,
    tenths: bool,
    stroke: Stroke,
) -> Statement {
    let set = crate::message::SetResult {
        stroke: (stroke != Stroke::Free).then_some(stroke),
        times: vec![Some(typed(time, tenths))],
        ..crate::message::SetResult::new(1, length)
    };
    Statement { who: Some(who), kind: Kind::SetResult(set) }
}

/// The repeats that an entry tells of: those of the heading, else of the set.
pub fn spec<'a>(
    c: &Clause<'a, '_>,
    heading: &Heading,
    person: usize,
) -> Option<(Spec<'a>, Length)> {
    let main = c.sit.set.as_ref().and_then(|set| set.main());
    let line = match heading.length {
        Some(length) => c
            .sit
            .set
            .as_ref()
            .and_then(|set| set.lines.iter().find(|line| line.distance == length.amount)),
        None => main,
    };
    let distance = heading.length.map(|length| length.amount).or(line.map(|line| line.distance))?;
    let spec = Spec {
        count: heading.count.or(line.filter(|_| heading.count.is_none()).map(|line| line.count)),
        distance,
        stroke: heading.stroke.or(line.map(|line| line.stroke)).unwrap_or(Stroke::Free),
        target: line.and_then(|line| line.target),
        send_off: line.and_then(|line| line.send_off),
        whose: c.sit.people.get(person),
        so_far: heading.count.is_none() && c.sit.phase == Phase::During,
    };
    Some((spec, heading.length.unwrap_or(Length { amount: distance, unit: None })))
}

/// What an entry tells of the repeats, as a statement about one.
pub fn set_statement(
    c: &Clause<'_, '_>,
    mut told: Told,
    spec: Spec<'_>,
    length: Length,
    who: &Name,
    heading: &Heading,
) -> Option<Statement> {
    // As far as it has come: the coach sends the repeats as they are swum.
    let swum =
        told.slots.iter().filter(|slot| matches!(slot, Slot::Swum(..) | Slot::Missed)).count();
    let spec = match heading.count {
        None if swum == told.slots.len() && swum > 0 => {
            told.count = None;
            Spec { count: None, ..spec }
        }
        _ => spec,
    };
    let read = set::result(c, length, told, spec, Some(who.clone()), 0.0)?;
    read.says.into_iter().next()
}
