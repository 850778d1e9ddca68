//! What is wished of a session: minutes, distance, kit.

use super::named::day;
use crate::message::{Day, Kind, Length, NextWish, PlanWish, WeekKind};
use crate::reading::frame::Clause;
use crate::reading::frame::results::done::has_no_longer;
use crate::reading::lexicon::{Concept, Sense};
use crate::reading::piece::{Figure, Item, Named};
use crate::reading::situation::{Phase, Role};
use crate::units::{Equipment, Level};

/// `give me`, `something for 30 min`, `I need a session`: a wish for a session.
pub fn wishes(c: &Clause<'_, '_>) -> bool {
    let session = c.has_any(&[Concept::Session, Concept::NextSession, Concept::Plan, Concept::Set]);
    let something = c.has(Concept::Something);
    let gives = c.has_any(&[Concept::Give, Concept::Want, Concept::Need, Concept::Can]);
    let changes = c.has_any(&[
        Concept::Easier,
        Concept::Harder,
        Concept::Shorter,
        Concept::NextSession,
        Concept::Targets,
        Concept::Trend,
        Concept::Log,
    ]);
    (session || something) && gives || (changes || has_no_longer(c)) && c.len() <= 10
}

/// What to swim next, with what is wished of it.
pub fn next(c: &Clause<'_, '_>, question: bool) -> Option<Kind> {
    let minutes = c.pieces.iter().find_map(|piece| match piece.item {
        Item::Span(time) if time.seconds() >= 600.0 => {
            u16::try_from((time.seconds() / 60.0) as u32).ok()
        }
        _ => None,
    });
    let distance = c.pieces.iter().find_map(|piece| match piece.item {
        Item::Far(far) => c.length(far).filter(|length| length.amount >= 400),
        Item::Figure(Figure::Whole { value, places: 3.. })
            if (600..=6000).contains(&value) && value.is_multiple_of(100) =>
        {
            Some(Length { amount: value, unit: None })
        }
        _ => None,
    });
    let session = c.has_any(&[Concept::NextSession, Concept::Session, Concept::Plan, Concept::Set]);
    let something = c.has(Concept::Something);
    let what = c.has(Concept::What) || c.has(Concept::NextSession);
    let (with, without) = kit(c);
    // `can i take ibuprofen before a session`, `can you add the session for me`
    let ails = c.pieces.iter().any(|piece| {
        piece
            .sense(|sense| matches!(sense, Sense::Body(_) | Sense::Illness(_)).then_some(()))
            .is_some()
    });
    if question && !c.has(Concept::What) && (ails || c.unwell || c.has(Concept::Add)) {
        return None;
    }
    if c.has(Concept::Plan) && !c.has(Concept::NextSession)
        || c.has(Concept::Week) && c.has_any(&[Concept::What, Concept::Plan])
    {
        let week = c.pieces.iter().find_map(|piece| {
            piece.sense(|sense| match sense {
                Sense::Level(Level::Easy) => Some(WeekKind::Easy),
                Sense::Level(Level::Hard) => Some(WeekKind::Hard),
                _ => None,
            })
        });
        let is_today =
            c.pieces.iter().any(|piece| matches!(piece.item, Item::Day(Named::Day(Day::Today, _))));
        if !is_today {
            return Some(Kind::Plan(PlanWish { week, minutes, sessions: None, on: None }));
        }
    }
    let today =
        c.pieces.iter().any(|piece| matches!(piece.item, Item::Day(Named::Day(Day::Today, _))));
    let wished = minutes.is_some() || distance.is_some() || !with.is_empty() || !without.is_empty();
    let on_tonight = today && (what || c.has(Concept::HowMany)) && !wished;
    if on_tonight && matches!(c.sit.phase, Phase::Before | Phase::During) {
        return Some(Kind::Tonight);
    }
    if (session || something) && (wished || what || question && c.has_any(&[Concept::NextSession]))
        || wished && what && !question
        || what && today
        || minutes.is_some() && what
        || has_no_longer(c)
    {
        if c.sit.role == Role::Coach && c.people().is_empty() {
            let wishes = something || wished || c.has_any(&[Concept::Give, Concept::Want]);
            if question && !wishes && c.has_any(&[Concept::HowMany, Concept::Total]) {
                return None;
            }
            let tonight = c.sit.set.as_ref().is_some_and(|set| set.on == c.sit.today);
            let other_day = day(c).is_some_and(|on| on != Day::Today);
            if question && !wishes && tonight && !other_day {
                return Some(Kind::Tonight);
            }
            let on = day(c).or(Some(Day::Today).filter(|_| c.sit.phase == Phase::Before));
            return Some(Kind::Plan(PlanWish { week: None, minutes, sessions: None, on }));
        }
        return Some(Kind::Next(NextWish { minutes, distance, with, without, open_water: false }));
    }
    None
}

/// Kit asked for, and kit left out.
fn kit(c: &Clause<'_, '_>) -> (Vec<Equipment>, Vec<Equipment>) {
    let (mut with, mut without) = (Vec::new(), Vec::new());
    let mut barred = false;
    for piece in c.pieces {
        if piece.means(Concept::Without) || piece.means(Concept::Not) || piece.text == "no" {
            barred = true;
        }
        if piece.means(Concept::With) && !piece.means(Concept::Without) {
            barred = false;
        }
        if let Some(kit) = piece.kit() {
            if barred { without.push(kit) } else { with.push(kit) }
        }
    }
    (with, without)
}
