//! The numbers and words of a text, and what each number may be.

use super::Timed;
use crate::reading::frame::Clause;
use crate::reading::frame::results::narrative::{LITTLE, Spec};
use crate::reading::lexicon::Concept;
use crate::reading::piece::{Figure, Item, Named, Piece};
use crate::units::{Centis, SendOff};

/// How far a time may be from what was to be held, or is to be expected.
const LIKE: std::ops::RangeInclusive<f64> = 0.72..=1.5;

/// From so much above it, what stands behind a word of leaving is what they left on.
const LEAVES: f64 = 1.2;

/// What it costs to read across the end of a sentence, …
const SENTENCE: f32 = 0.8;
/// … a comma or a word that joins, …
pub const COMMA: f32 = 0.3;
/// … and any other word that says nothing here.
const WORD: f32 = 0.15;

/// What a number may be.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Role {
    Time(Timed),
    Count(u32),
    Place(u32),
    Nothing,
}

/// A word about which repeats are meant, or what became of them.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Which {
    First,
    Last,
    Others,
    All,
    Except,
    Until,
    To,
    Then,
    Missed,
    Held,
}

/// What matters of a text here.
#[derive(Debug, Clone, PartialEq)]
pub enum Token {
    Number(Vec<(Role, f32)>),
    Word(Which),
    /// From one repeat to another, by their numbers.
    Span(u32, u32),
    /// A mark or a little word, and what it costs to read across it.
    Break(f32),
}

/// The numbers and words of a text, in order.
pub fn tokens(
    c: &Clause<'_, '_>,
    spec: &Spec<'_>,
    left_on: Option<SendOff>,
    total: u32,
) -> Vec<Token> {
    let mut tokens = Vec::new();
    let mut at = 0;
    while let Some(piece) = c.at(at) {
        if let Some(token) = word(c, at) {
            if token != Token::Break(0.0) {
                tokens.push(token);
            }
            at += 1;
            continue;
        }
        if let Item::Range(Figure::Whole { value: from, .. }, Figure::Whole { value: to, .. }) =
            piece.item
            && (1..to).contains(&from)
            && to <= total
        {
            tokens.push(Token::Span(from, to));
            at += 1;
            continue;
        }
        let (roles, length) = match c.minutes_apart(at) {
            Some(figure) if time(spec, figure).is_some() => {
                (of_figure(spec, figure, total, piece), 2)
            }
            _ => (roles(c, spec, left_on, total, at), 1),
        };
        if !roles.is_empty() {
            tokens.push(Token::Number(roles));
        }
        at += length;
    }
    tokens
}

fn word(c: &Clause<'_, '_>, at: usize) -> Option<Token> {
    let piece = c.at(at)?;
    let before = at.checked_sub(1).and_then(|before| c.at(before));
    match piece.item {
        // `no. 7`
        Item::Mark('.') if before.is_some_and(|no| matches!(no.text, "no" | "nr" | "num")) => {
            return Some(Token::Break(0.0));
        }
        Item::Mark('.' | '!' | '?' | ';') | Item::Line => return Some(Token::Break(SENTENCE)),
        Item::Mark(_) => return Some(Token::Break(COMMA)),
        Item::Ordinal(1) if piece.means(Concept::First) => return Some(Token::Word(Which::First)),
        Item::Word | Item::Chatter | Item::Unknown => {}
        _ => return None,
    }
    let words = [
        (Concept::First, Which::First),
        (Concept::Last, Which::Last),
        (Concept::Except, Which::Except),
        (Concept::Missed, Which::Missed),
    ];
    if let Some((_, which)) = words.into_iter().find(|(concept, _)| piece.means(*concept)) {
        return Some(Token::Word(which));
    }
    // `pulled out after 5` tells how many there were.
    let timed = |place: usize| {
        c.at(place).is_some_and(|next| matches!(next.item, Item::Figure(figure) if figure.whole().is_none_or(|value| value > 25)))
    };
    let after = matches!(piece.text, "thereafter" | "afterwards")
        || piece.text == "after" && (timed(at + 1) || timed(at + 2));
    if piece.means(Concept::Rest) && piece.text != "rest"
        || piece.text == "rest" && at > 0 && c.at(at - 1).is_some_and(|the| the.text == "the")
        || after
    {
        return Some(Token::Word(Which::Others));
    }
    if piece.means(Concept::All) && !piece.means(Concept::Average)
        || matches!(piece.text, "mostly" | "casi")
    {
        return Some(Token::Word(Which::All));
    }
    let words = [
        (Concept::Until, Which::Until),
        (Concept::Then, Which::Then),
        (Concept::To, Which::To),
        (Concept::Good, Which::Held),
    ];
    if let Some((_, which)) = words.into_iter().find(|(concept, _)| piece.means(*concept)) {
        return Some(Token::Word(which));
    }
    let joins = piece.means(Concept::And) || piece.means(Concept::But);
    let of_swims = [
        Concept::About,
        Concept::Held,
        Concept::Made,
        Concept::Done,
        Concept::Reps,
        Concept::One,
        Concept::Is,
    ];
    Some(Token::Break(match () {
        () if joins => COMMA,
        () if LITTLE.iter().chain(&of_swims).any(|one| piece.means(*one)) => 0.0,
        () if matches!(piece.text, "were" | "was" | "i" | "fue" | "fueron" | "se" | "me") => 0.0,
        () => WORD,
    }))
}

/// What the number at a place may be; nothing where it is none, or one of something else.
fn roles(
    c: &Clause<'_, '_>,
    spec: &Spec<'_>,
    left_on: Option<SendOff>,
    total: u32,
    at: usize,
) -> Vec<(Role, f32)> {
    let Some(piece) = c.at(at) else { return vec![] };
    match piece.item {
        Item::Figure(figure) => {
            let left = [spec.send_off, left_on];
            let known = left.into_iter().flatten().any(|send_off| {
                figure.times().iter().any(|time| time.seconds() == f64::from(send_off.seconds()))
            });
            figured(c, spec, (total, known), at, figure)
        }
        Item::Each(figure) => match time(spec, figure) {
            Some(_) if is_aside(c, at) => vec![(Role::Nothing, 0.0)],
            Some(time) => vec![(Role::Time(time), 0.0), (Role::Nothing, 1.2)],
            None => vec![],
        },
        Item::Plural(value) => {
            let figure = Figure::Whole { value, places: 2 };
            let names = value == spec.distance;
            match time(spec, figure) {
                Some(_) if is_aside(c, at) || names && is_counted(c, at) => {
                    vec![(Role::Nothing, 0.0)]
                }
                Some(time) if names => vec![(Role::Nothing, 0.0), (Role::Time(time), 0.6)],
                Some(time) => vec![(Role::Time(time), 0.0), (Role::Nothing, 1.2)],
                None => vec![],
            }
        }
        Item::Ordinal(place) => of_place(place, total),
        Item::Day(Named::OfMonth(place)) => of_place(u32::from(place), total),
        Item::TimeOfDay(place, 0) if piece.text == "la" => of_place(u32::from(place), total),
        _ => vec![],
    }
}

/// Behind a word that says that it was not swum: a bound, an aim, a denial.
fn is_aside(c: &Clause<'_, '_>, at: usize) -> bool {
    let says = |piece: &Piece<'_>| {
        [
            Concept::Under,
            Concept::Goal,
            Concept::Targets,
            Concept::Fastest,
            Concept::Slowest,
            Concept::Not,
            Concept::Didnt,
            Concept::Cant,
            Concept::Instead,
        ]
        .iter()
        .any(|one| piece.means(*one))
    };
    before_words(c, at).any(says)
}

/// The few words before a number, back to another number or a mark.
fn before_words<'c, 't>(c: &'c Clause<'_, 't>, at: usize) -> impl Iterator<Item = &'c Piece<'t>> {
    const NEAR: usize = 3;
    let counts = |piece: &&Piece<'_>| {
        let number = matches!(piece.item, Item::Figure(_) | Item::Each(_) | Item::Plural(_));
        number || matches!(piece.item, Item::Mark(_) | Item::Line)
    };
    (at.saturating_sub(NEAR)..at)
        .rev()
        .filter_map(|place| c.at(place))
        .take_while(move |piece| !counts(piece))
}

fn figured(
    c: &Clause<'_, '_>,
    spec: &Spec<'_>,
    (total, known): (u32, bool),
    at: usize,
    figure: Figure,
) -> Vec<(Role, f32)> {
    let Some(piece) = c.at(at) else { return vec![] };
    let before = |concept: Concept| at > 0 && c.at(at - 1).is_some_and(|one| one.means(concept));
    if figure.whole() == Some(spec.distance) {
        if is_counted(c, at) {
            return vec![(Role::Nothing, 0.0)];
        }
        // `los 50 a 49`
        if let (Some(time), true) = (time(spec, figure), before(Concept::Article)) {
            return vec![(Role::Nothing, 0.0), (Role::Time(time), 0.6)];
        }
    }
    let left = [Concept::SetTime, Concept::Every, Concept::SendOffWord];
    let mut back = (0..at).rev().filter_map(|place| c.at(place));
    let leaves = back
        .find(|one| !one.means(Concept::Article) || left.iter().any(|leave| one.means(*leave)))
        .is_some_and(|one| left.iter().any(|leave| one.means(*leave)));
    if leaves && known {
        return vec![];
    }
    let far = time(spec, figure)
        .zip(expected(spec))
        .is_some_and(|((time, _), expected)| time.seconds() > expected * LEAVES);
    let mut roles = of_figure(spec, figure, total, piece);
    if known || leaves && far {
        roles.iter_mut().for_each(|(role, cost)| match role {
            Role::Nothing => *cost = 0.1,
            _ => *cost += 1.0,
        });
    }
    let is_target = spec.target.is_some_and(|target| figure.times().contains(&target));
    if is_aside(c, at) || is_target && before_words(c, at).any(|one| one.means(Concept::Missed)) {
        roles.iter_mut().for_each(|(role, cost)| match role {
            Role::Time(_) => *cost += 1.5,
            Role::Nothing => *cost = 0.0,
            // `no 6`
            Role::Place(_) if before(Concept::Not) => *cost = 0.0,
            _ => {}
        });
    } else if leaves {
        roles.iter_mut().for_each(|(role, cost)| match role {
            Role::Time(_) => *cost += 0.1,
            Role::Nothing => *cost = cost.min(0.8),
            _ => {}
        });
    }
    roles
}

/// `6 de los 8x50`, `five of the fifties`, `todos los 50`: how far each was.
fn is_counted(c: &Clause<'_, '_>, at: usize) -> bool {
    let before = (0..at).rev().filter_map(|place| c.at(place));
    let counted =
        |one: &Piece<'_>| one.text == "x" || one.means(Concept::Of) || one.means(Concept::All);
    let mut before = before.skip_while(|one| one.means(Concept::Article) && !counted(one));
    before.next().is_some_and(counted)
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

fn expected(spec: &Spec<'_>) -> Option<f64> {
    spec.target
        .map(|target| target.seconds())
        .or_else(|| spec.whose.and_then(|known| known.expected(spec.distance, spec.stroke)))
}

/// A figure as the time of one repeat.
fn time(spec: &Spec<'_>, figure: Figure) -> Option<Timed> {
    let expected = expected(spec)?;
    let like = |time: &Centis| LIKE.contains(&(time.seconds() / expected));
    figure.times().into_iter().find(like).map(|time| (time, figure.has_tenths()))
}
