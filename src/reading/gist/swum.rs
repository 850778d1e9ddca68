//! What was swum beside times and repeats, or is to be: sessions, other sport, races, what is
//! put right.

use super::slots::Slots;
use crate::message::{Done, Fix, Kind, Sport, Statement};
use crate::reading::lexicon::Sense;
use crate::reading::likely::Stands;
use crate::reading::piece::Item;
use crate::units::Stroke;

/// A session, or other sport.
pub fn done(slots: &mut Slots<'_, '_, '_>) -> Option<Vec<Statement>> {
    let who = slots.who()?;
    let (sport, activity) = slots
        .take(|_, piece| {
            piece.sense(|sense| match sense {
                Sense::Sport(sport, name) => {
                    let other = *sport == Sport::Other;
                    Some((Some(*sport), other.then(|| (*name).to_owned())))
                }
                _ => None,
            })
        })
        .unwrap_or_default();
    let distance = slots.distance();
    let duration = slots.take_as(Stands::Lasts, |_, piece| match piece.item {
        Item::Span(time) if time.seconds() >= 240.0 => Some(time),
        Item::Figure(figure) if figure.is_marked() && sport.is_some() => {
            figure.times().first().copied()
        }
        _ => None,
    });
    let rpe = slots.effort();
    let on = slots.past_day();
    let done =
        Done { distance, lengths: None, duration, rpe, on, sport, activity, shortened: false };
    Some(vec![Statement { who, kind: Kind::Done(done) }])
}

/// A race to come: how far, when, and what is hoped for.
pub fn race(slots: &mut Slots<'_, '_, '_>) -> Option<Vec<Statement>> {
    let c = slots.c;
    let who = slots.who()?;
    let distance = slots.distance()?;
    let on = slots.coming_days(Stands::On).first().copied()?;
    let goal = slots.places(Stands::Goal).first().copied();
    let goal = goal.and_then(|at| {
        slots.time_of(at, distance.amount, c.stroke().unwrap_or(Stroke::Free), c.subject())
    });
    Some(vec![Statement { who, kind: Kind::Race { distance, on, goal } }])
}

/// What was told before, with this time or of this swimmer.
pub fn fixed(slots: &mut Slots<'_, '_, '_>) -> Option<Vec<Statement>> {
    let who = slots.who()?;
    let distance = slots.distance();
    let swum = slots.places(Stands::Swum);
    let [at] = *swum.as_slice() else { return None };
    let over = distance.map(|it| it.amount).or(slots.c.sit.tested).unwrap_or(200);
    let time = slots.time_of(at, over, Stroke::Free, slots.c.subject())?;
    let on = slots.past_day();
    let fix =
        Fix { time: Some(time), was: None, instead: None, on, distance, start: None, meet: false };
    Some(vec![Statement { who, kind: Kind::Fix(fix) }])
}
