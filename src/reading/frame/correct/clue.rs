//! What the words of a correction point at: its figures, what it denies, the field it names.

use crate::message::{Kind, Statement};
use crate::reading::frame::Clause;
use crate::reading::frame::candidate::Candidate;
use crate::reading::lexicon::{Concept, Sense, UnitWord};
use crate::reading::piece::{Far, Figure, Item, Piece};
use crate::units::Equipment;

pub fn mark(c: &Clause<'_, '_>, candidate: &mut Candidate) {
    candidate.used.mark(c.pieces, |piece| {
        [
            Concept::Sorry,
            Concept::Instead,
            Concept::Not,
            Concept::Didnt,
            Concept::Held,
            Concept::About,
        ]
        .iter()
        .any(|one| piece.means(*one))
    });
}

/// A day behind `not` is the one that it was not.
pub fn is_denied(c: &Clause<'_, '_>, at: usize) -> bool {
    at > 0
        && (1..=2.min(at)).any(|back| {
            let piece = &c.pieces[at - back];
            let denies = [Concept::Not, Concept::Didnt, Concept::Instead]
                .iter()
                .any(|one| piece.means(*one));
            denies && back == 1
                || piece.means(Concept::Instead) && piece.text == "instead"
                || back == 2 && matches!(piece.text, "not") && c.pieces[at - 1].senses.is_empty()
        })
        && !(at == 1 && matches!(c.pieces[0].text, "no" | "not"))
        || at > 1
            && c.pieces[at - 1].means(Concept::Instead)
            && !c.pieces[at - 1].means(Concept::Sorry)
        || is_called_wrong(c, at)
}

/// `el 3:38 de wren está mal, fue 3:48`, `that 3:38 is wrong`: what is said of a figure just
/// behind it, before the next.
fn is_called_wrong(c: &Clause<'_, '_>, at: usize) -> bool {
    const NEAR: usize = 5;
    let behind = c.pieces[(at + 1).min(c.len())..].iter().take(NEAR);
    behind
        .take_while(|piece| {
            !piece.ends_sentence()
                && !matches!(piece.item, Item::Figure(_) | Item::Each(_) | Item::Mark(','))
        })
        .any(|piece| matches!(piece.text, "mal" | "wrong" | "incorrecto" | "incorrect"))
}

pub fn figures(c: &Clause<'_, '_>) -> Vec<(usize, Figure)> {
    let mut figures = Vec::new();
    let mut at = 0;
    while let Some(piece) = c.at(at) {
        match (c.minutes_apart(at), piece.item) {
            (Some(time), _) => {
                figures.push((at, time));
                at += 1;
            }
            (None, Item::Figure(figure) | Item::Each(figure)) => figures.push((at, figure)),
            _ => {}
        }
        at += 1;
    }
    figures
}

pub fn course(c: &Clause<'_, '_>) -> Option<(usize, crate::units::Course)> {
    c.pieces.iter().enumerate().find_map(|(at, piece)| {
        let course = piece.course();
        let by_length = match piece.item {
            Item::Far(Far::Of(50, _))
                if c.has(Concept::Water) || c.pieces.iter().any(|piece| piece.text == "pool") =>
            {
                Some(crate::units::Course::Long50m)
            }
            Item::Far(Far::Of(25, _)) if c.pieces.iter().any(|piece| piece.text == "pool") => {
                Some(crate::units::Course::Short25m)
            }
            _ => None,
        };
        Some((at, course.or(by_length)?))
    })
}

pub fn effort(c: &Clause<'_, '_>) -> Option<u8> {
    c.pieces.iter().find_map(|piece| match piece.item {
        Item::Rpe(tenths) => Some(tenths),
        Item::Figure(Figure::Whole { value: value @ 1..=10, .. })
            if c.len() <= 6 && figures(c).len() == 1 && c.minutes_apart(0).is_none() =>
        {
            u8::try_from(value * 10).ok()
        }
        _ => None,
    })
}

/// The kit that a short text names.
pub fn kit(c: &Clause<'_, '_>) -> Option<Vec<Equipment>> {
    let named = c.pieces.iter().filter_map(|piece| piece.kit());
    let kit: Vec<Equipment> = named.collect();
    (!kit.is_empty() && c.len() <= 10 && !c.has(Concept::Without)).then_some(kit)
}

/// `en 33 min`, `52 mins`: how long what was told of took, where that was not said.
pub fn lasted(c: &Clause<'_, '_>) -> bool {
    let open = matches!(c.sit.before.as_slice(), [Statement { kind: Kind::Done(done), .. }] if done.duration.is_none());
    let span = |piece: &Piece<'_>| matches!(piece.item, Item::Span(_));
    open && c.len() <= 6 && figures(c).is_empty() && c.pieces.iter().any(span)
}

/// `yards that is`, `eran yardas`
pub fn yards(c: &Clause<'_, '_>) -> bool {
    c.len() <= 10
        && figures(c).is_empty()
        && c.pieces.iter().any(|piece| piece.is(Sense::Unit(UnitWord::Yard)))
}
