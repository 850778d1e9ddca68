//! What the words of a correction point at: its figures, what it denies, the field it names.

use crate::message::{Kind, Statement};
use crate::reading::frame::Clause;
use crate::reading::frame::candidate::Candidate;
use crate::reading::lexicon::{Concept, Hint, Sense, UnitWord};
use crate::reading::piece::{Far, Figure, Item, Piece};
use crate::units::{Course, Equipment};

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

/// The pool that a text names: `long course`, `in a pool of 50`, `era piscina de 50`.
pub fn course(c: &Clause<'_, '_>) -> Option<(usize, Course)> {
    let is_pool = |piece: &Piece<'_>| Hint::Pool.is(piece.text);
    let pool = c.has(Concept::Water) || c.pieces.iter().any(is_pool);
    c.pieces.iter().enumerate().find_map(|(at, piece)| {
        let course = piece.course();
        let beside = |at: usize| c.pieces.part(at.saturating_sub(2), at + 3).iter().any(is_pool);
        let length = match piece.item {
            Item::Far(Far::Of(length, _)) if pool => length,
            Item::Figure(figure) if beside(at) => figure.whole().unwrap_or_default(),
            _ => 0,
        };
        let by_length = match length {
            50 => Some(Course::Long50m),
            25 => Some(Course::Short25m),
            _ => None,
        };
        Some((at, course.or(by_length)?))
    })
}

/// How hard it was; `told` where that was said before, and a figure alone is meant for it.
pub fn effort(c: &Clause<'_, '_>, told: bool) -> Option<u8> {
    let longest = if told { 10 } else { 6 };
    let counts = |figure: &(usize, Figure)| figure.1.whole() != Some(1);
    let one = figures(c).iter().filter(|figure| counts(figure)).count() == 1;
    c.pieces.iter().find_map(|piece| match piece.item {
        Item::Rpe(tenths) => Some(tenths),
        Item::Figure(Figure::Whole { value: value @ 2..=10, .. })
            if c.len() <= longest && one && c.minutes_apart(0).is_none() =>
        {
            u8::try_from(value * 10).ok()
        }
        _ => None,
    })
}

/// A figure or a distance that was said before and is denied, and the one that stands in its
/// place: `eran 375 m no 400`, `it was the 200 not the 400`.
pub fn distance_instead(c: &Clause<'_, '_>, old: u32) -> Option<u32> {
    const SHORTEST: u32 = 25;
    let mut told: Vec<(u32, bool)> = Vec::new();
    for (at, piece) in c.pieces.iter().enumerate() {
        let amount = match piece.item {
            Item::Far(far) => c.length(far)?.amount,
            Item::Plural(amount) => amount,
            Item::Figure(figure) => figure.whole()?,
            Item::Each(_) | Item::Repeat(..) | Item::Span(_) => return None,
            _ => continue,
        };
        if amount < SHORTEST || !amount.is_multiple_of(SHORTEST) {
            return None;
        }
        told.push((amount, is_behind_not(c, at)));
    }
    match told[..] {
        [(new, false), (was, true)] | [(was, true), (new, false)] if was == old && new != old => {
            Some(new)
        }
        _ => None,
    }
}

/// `not 400`, `no era 400`, `not the 200`: denied just before, with nothing but a verb or an
/// article between.
pub fn is_behind_not(c: &Clause<'_, '_>, at: usize) -> bool {
    const NEAR: usize = 2;
    let small = |piece: &&Piece<'_>| {
        !matches!(piece.item, Item::Figure(_) | Item::Far(_) | Item::Mark(_) | Item::Each(_))
            && (piece.means(Concept::AuxBe)
                || piece.means(Concept::Article)
                || piece.means(Concept::My)
                || piece.means(Concept::Refers))
    };
    let before = c.pieces.part(0, at);
    let between = before.iter().rev().take_while(small).take(NEAR).count();
    let denies = |piece: &Piece<'_>| {
        [Concept::Not, Concept::Didnt, Concept::Instead].iter().any(|one| piece.means(*one))
            || matches!(piece.text, "not" | "no")
    };
    before.iter().rev().nth(between).is_some_and(denies)
        || before.iter().rev().take(between).any(denies)
}

/// Minutes that a short text tells and nothing else, behind who comes: `15ish`, `unos 20
/// min`; `late` where how late was said before, and a small figure alone is that.
pub fn minutes_alone(c: &Clause<'_, '_>, late: bool) -> Option<u16> {
    const LONGEST: usize = 7;
    const MOST: f64 = 5400.0;
    // `did 45 mins` is of a swim.
    let other = [
        Concept::Done,
        Concept::Swam,
        Concept::Held,
        Concept::Session,
        Concept::Test,
        Concept::Set,
        Concept::Pain,
        Concept::LeaveEarly,
        Concept::Left,
    ];
    if c.has_any(&other) {
        return None;
    }
    let mut told = c.pieces.iter().filter_map(|piece| match piece.item {
        Item::Span(time) if (60.0..=MOST).contains(&time.seconds()) => {
            Some((time.seconds() / 60.0) as u16)
        }
        Item::Figure(Figure::Whole { value: value @ 5..=59, .. }) if late || value >= 10 => {
            u16::try_from(value).ok()
        }
        Item::Figure(figure) if figure.whole() == Some(1) => None,
        Item::Figure(_) | Item::Each(_) | Item::Far(_) | Item::Repeat(..) | Item::Day(_) => {
            Some(u16::MAX)
        }
        _ => None,
    });
    let minutes = told.next().filter(|minutes| *minutes < u16::MAX)?;
    (told.next().is_none() && c.len() <= LONGEST && c.len() == c.all.len()).then_some(minutes)
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
