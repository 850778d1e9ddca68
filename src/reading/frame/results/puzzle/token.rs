//! The numbers and words of a text, and what each number may be.

use super::Timed;
use crate::reading::frame::Clause;
use crate::reading::frame::results::narrative::Spec;
use crate::reading::lexicon::Concept;
use crate::reading::piece::{Figure, Item, Named, Piece};
use crate::units::Centis;

/// How far a time may be from what was to be held, or is to be expected.
const LIKE: std::ops::RangeInclusive<f64> = 0.72..=1.5;

/// What a number may be.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Role {
    Time(Timed),
    Count(u32),
    Place(u32),
    Nothing,
}

/// A word about which repeats are meant.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Which {
    First,
    Last,
    Others,
    All,
    Except,
    Until,
    Missed,
}

/// What matters of a text here.
#[derive(Debug, Clone, PartialEq)]
pub enum Token {
    Number(Vec<(Role, f32)>),
    Word(Which),
}

/// The numbers and words of a text, in order.
pub fn tokens(c: &Clause<'_, '_>, spec: &Spec<'_>, total: u32) -> Vec<Token> {
    let mut tokens = Vec::new();
    let mut at = 0;
    while at < c.len() {
        let piece = &c.pieces[at];
        if let Some(which) = word(c, at) {
            tokens.push(Token::Word(which));
            at += 1;
            continue;
        }
        let (roles, length) = match c.minutes_apart(at) {
            Some(figure) if time(spec, figure).is_some() => {
                (of_figure(spec, figure, total, piece), 2)
            }
            _ => (roles(c, spec, total, at), 1),
        };
        if !roles.is_empty() {
            tokens.push(Token::Number(roles));
        }
        at += length;
    }
    tokens
}

fn word(c: &Clause<'_, '_>, at: usize) -> Option<Which> {
    let piece = &c.pieces[at];
    if !matches!(piece.item, Item::Word | Item::Chatter | Item::Unknown) {
        return None;
    }
    let words = [
        (Concept::First, Which::First),
        (Concept::Last, Which::Last),
        (Concept::Except, Which::Except),
        (Concept::Missed, Which::Missed),
    ];
    if let Some((_, which)) = words.into_iter().find(|(concept, _)| piece.means(*concept)) {
        return Some(which);
    }
    if piece.means(Concept::Rest) && piece.text != "rest"
        || piece.text == "rest" && at > 0 && c.pieces[at - 1].text == "the"
        || matches!(piece.text, "after" | "thereafter" | "afterwards" | "después" | "despues")
    {
        return Some(Which::Others);
    }
    if piece.means(Concept::All) && !piece.means(Concept::Average)
        || matches!(piece.text, "mostly" | "casi")
    {
        return Some(Which::All);
    }
    piece.means(Concept::Until).then_some(Which::Until)
}

/// What the number at a place may be; nothing where it is none, or one of something else.
fn roles(c: &Clause<'_, '_>, spec: &Spec<'_>, total: u32, at: usize) -> Vec<(Role, f32)> {
    let piece = &c.pieces[at];
    let before = |concept: Concept| at > 0 && c.pieces[at - 1].means(concept);
    let behind = |concepts: &[Concept]| concepts.iter().any(|one| before(*one));
    let aside = behind(&[
        Concept::Under,
        Concept::Goal,
        Concept::Targets,
        Concept::Fastest,
        Concept::Slowest,
    ]);
    let leaves = behind(&[Concept::SetTime, Concept::Every, Concept::SendOffWord]);
    match piece.item {
        Item::Figure(figure) => {
            let known = spec.send_off.is_some_and(|send_off| {
                figure.times().iter().any(|time| time.seconds() == f64::from(send_off.seconds()))
            });
            if leaves && known {
                return vec![];
            }
            let mut roles = of_figure(spec, figure, total, piece);
            if known {
                roles.iter_mut().for_each(|(role, cost)| match role {
                    Role::Nothing => *cost = 0.1,
                    _ => *cost += 1.0,
                });
            }
            if aside || leaves {
                roles.iter_mut().for_each(|(role, cost)| match role {
                    Role::Time(_) => *cost += if aside { 1.5 } else { 0.3 },
                    Role::Nothing => *cost = if aside { 0.0 } else { 0.6 },
                    _ => {}
                });
            }
            roles
        }
        Item::Each(figure) => match time(spec, figure) {
            Some(time) => vec![(Role::Time(time), 0.0), (Role::Nothing, 1.2)],
            None => vec![],
        },
        Item::Plural(value) => {
            let figure = Figure::Whole { value, places: 2 };
            let names = value == spec.distance;
            match time(spec, figure) {
                Some(time) if names => vec![(Role::Nothing, 0.0), (Role::Time(time), 0.6)],
                Some(time) => vec![(Role::Time(time), 0.0), (Role::Nothing, 1.2)],
                None => vec![],
            }
        }
        Item::Ordinal(place) => of_place(place, total),
        Item::Day(Named::OfMonth(place)) => of_place(u32::from(place), total),
        _ => vec![],
    }
}

fn of_place(place: u32, total: u32) -> Vec<(Role, f32)> {
    match (1..=total).contains(&place) {
        true => vec![(Role::Place(place), 0.0), (Role::Nothing, 0.8)],
        false => vec![],
    }
}

fn of_figure(spec: &Spec<'_>, figure: Figure, total: u32, piece: &Piece<'_>) -> Vec<(Role, f32)> {
    let time = time(spec, figure);
    let mut roles: Vec<(Role, f32)> =
        time.map(|time| (Role::Time(time), 0.0)).into_iter().collect();
    let whole = figure.whole().filter(|value| (1..=total).contains(value));
    if let Some(value) = whole {
        roles.push((Role::Count(value), 0.2));
        roles.push((Role::Place(value), 0.5));
    }
    let nothing = match (time.is_some(), whole) {
        (true, _) => 1.2,
        (false, Some(1)) if piece.is_spelled() => 0.0,
        (false, Some(_)) => 0.5,
        (false, None) => 0.4,
    };
    roles.push((Role::Nothing, nothing));
    roles
}

/// A figure as the time of one repeat.
fn time(spec: &Spec<'_>, figure: Figure) -> Option<Timed> {
    let expected = spec
        .target
        .map(|target| target.seconds())
        .or_else(|| spec.whose.and_then(|known| known.expected(spec.distance, spec.stroke)))?;
    let like = |time: &Centis| LIKE.contains(&(time.seconds() / expected));
    figure.times().into_iter().find(like).map(|time| (time, figure.has_tenths()))
}
