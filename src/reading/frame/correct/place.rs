//! Repeats put right one by one: `first one was 47`, `I missed one out, 52 at the end`, `I
//! put the 47 in twice`, `number 5 I missed`.
//!
//! Each time goes to the place that is named nearest to it; words say whether it takes the
//! place of one that was told, comes to those, or goes from them.

use super::clue::is_denied;
use crate::message::{SetResult, TypedTime};
use crate::reading::frame::Clause;
use crate::reading::frame::clause::typed;
use crate::reading::lexicon::{Concept, Hint};
use crate::reading::piece::{Figure, Item, Piece};
use crate::units::Centis;

/// How far a time may be from those that were told.
const LIKE: std::ops::RangeInclusive<f64> = 0.7..=1.4;

/// Pieces that may stand between a time and the place behind it: `a 52 at the end`.
const NEAR: usize = 3;

/// Which of the repeats.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Place {
    First(usize),
    Last(usize),
    Nth(usize),
}

impl Place {
    /// The repeats meant of so many, as a span.
    fn of(self, count: usize) -> Option<std::ops::Range<usize>> {
        let span = match self {
            Place::First(few) => 0..few,
            Place::Last(few) => count.checked_sub(few)?..count,
            Place::Nth(number) => number.checked_sub(1)?..number,
        };
        (span.end <= count && !span.is_empty()).then_some(span)
    }
}

/// What the text tells of places.
#[derive(Default)]
struct Told {
    /// Each place with the times told of it.
    of_places: Vec<(Place, Vec<TypedTime>)>,
    /// Times that no place stands by.
    loose: Vec<TypedTime>,
    /// Small figures that are neither.
    counts: usize,
}

/// The set with what the text says of single repeats; nothing where it says nothing of
/// them, or more than can be told apart.
pub fn by_place(c: &Clause<'_, '_>, set: &SetResult) -> Option<SetResult> {
    let part = c.len() < c.all.len();
    let of_all = [Concept::SendOffWord, Concept::RestWord, Concept::Average];
    let ails = c.pieces.iter().any(Piece::is_of_health);
    if part && needs_all(c) || c.has_any(&of_all) || ails {
        return None;
    }
    let known = set.times.iter().flatten().find_map(|time| time.readings.first())?;
    let told = told(c, set, *known)?;
    let mut times = set.times.clone();
    let typed = typed_of(c);
    if Hint::ToldTwice.is_said(&typed) {
        let [twice] = told.loose.as_slice() else { return None };
        let is_it = |time: &Option<TypedTime>| {
            time.as_ref().is_some_and(|time| time.readings == twice.readings)
        };
        // Once is enough: one that is there once is no double.
        if times.iter().filter(|time| is_it(time)).count() < 2 {
            return None;
        }
        times.remove(times.iter().rposition(is_it)?);
    } else if Hint::LeftOut.is_said(&typed) {
        // A set of which all was told has no room for more.
        let all = c.sit.set.as_ref().and_then(|set| set.main());
        if all.is_some_and(|line| line.count as usize <= times.len()) {
            return None;
        }
        insert(&mut times, &told)?;
    } else {
        replace(c, &mut times, &told)?;
    }
    let count = u16::try_from(times.len()).ok()?;
    (times != set.times).then(|| SetResult {
        count,
        times,
        average: None,
        made: None,
        of: None,
        ..set.clone()
    })
}

/// True of a text whose words say that something was left out or told twice: what part of
/// it says of a time is not all of it.
pub fn needs_all(c: &Clause<'_, '_>) -> bool {
    let typed = typed_of(&c.whole());
    Hint::LeftOut.is_said(&typed) || Hint::ToldTwice.is_said(&typed)
}

/// What was typed, in small letters; `forgot to say` leaves out no repeat.
fn typed_of(c: &Clause<'_, '_>) -> String {
    let typed = c.typed(0, c.len()).to_lowercase();
    let says = Hint::ForgotToSay.words();
    says.iter().fold(typed, |typed, says| typed.replace(says, ""))
}

/// True of a text that names one repeat or several by their place, or tells of one left out.
pub fn names_repeats(c: &Clause<'_, '_>) -> bool {
    const LONGEST: usize = 14;
    let place = |at: usize| place_at(c, at, usize::from(u8::MAX)).is_some();
    c.len() <= LONGEST && ((0..c.len()).any(place) || needs_all(c))
}

/// What comes to those that were told: at the front, at the end, at its number.
fn insert(times: &mut Vec<Option<TypedTime>>, told: &Told) -> Option<()> {
    if told.of_places.iter().all(|(_, times)| times.is_empty()) && told.loose.is_empty() {
        return None;
    }
    for (place, more) in &told.of_places {
        let at = match place {
            Place::First(_) => 0,
            Place::Last(_) => times.len(),
            Place::Nth(number) => number.checked_sub(1).filter(|at| *at <= times.len())?,
        };
        times.splice(at..at, more.iter().cloned().map(Some));
    }
    times.extend(told.loose.iter().cloned().map(Some));
    Some(())
}

/// What takes the place of what was told, or was not made.
fn replace(c: &Clause<'_, '_>, times: &mut [Option<TypedTime>], told: &Told) -> Option<()> {
    if told.of_places.is_empty() || !told.loose.is_empty() {
        return None;
    }
    let missed = c.has_any(&[Concept::Missed, Concept::Didnt, Concept::Cant]);
    for (place, new) in &told.of_places {
        let span = place.of(times.len())?;
        match new.as_slice() {
            [] if missed => times.get_mut(span)?.fill(None),
            [one] => times.get_mut(span)?.fill(Some(one.clone())),
            several if several.len() == span.len() => {
                for (time, new) in times.get_mut(span)?.iter_mut().zip(several) {
                    *time = Some(new.clone());
                }
            }
            _ => return None,
        }
    }
    Some(())
}

/// Reads places and times from left to right; nothing where a figure is neither.
fn told(c: &Clause<'_, '_>, set: &SetResult, known: Centis) -> Option<Told> {
    let mut told = Told::default();
    // Where the last time without a place stands.
    let mut loose_at: Option<usize> = None;
    let mut at = 0;
    while let Some(piece) = c.at(at) {
        let joined = c.minutes_apart(at);
        let figure = joined.or(match piece.item {
            Item::Figure(figure) | Item::Each(figure) => Some(figure),
            Item::Repeat(..)
            | Item::Far(_)
            | Item::OfAll(..)
            | Item::Range(..)
            | Item::Person(_)
            | Item::Rpe(_)
            | Item::Day(_) => return None,
            _ => None,
        });
        let behind = loose_at.is_some_and(|loose| {
            at - loose <= NEAR && !c.pieces.part(loose, at).iter().any(Piece::is_apart)
        });
        if let Some(place) = place_at(c, at, set.times.len()) {
            let mut entry = (place, Vec::new());
            if behind {
                entry.1.extend(told.loose.pop());
            }
            loose_at = None;
            told.of_places.push(entry);
        } else if let Some(figure) = figure.filter(|_| !is_denied(c, at)) {
            match like(figure, known) {
                Some(time) => match told.of_places.last_mut() {
                    Some((place, times)) if times.len() < room(*place) => times.push(time),
                    _ => {
                        told.loose.push(time);
                        loose_at = Some(at);
                    }
                },
                None if figure.whole().is_some_and(|value| value <= 40) => told.counts += 1,
                None => return None,
            }
        }
        at += 1 + usize::from(joined.is_some());
    }
    (told.counts <= 2).then_some(told)
}

const fn room(place: Place) -> usize {
    match place {
        Place::First(few) | Place::Last(few) => few,
        Place::Nth(_) => 1,
    }
}

/// A place that is named here: `the third`, `number 5`, `first two`, `los dos ultimos`.
fn place_at(c: &Clause<'_, '_>, at: usize, count: usize) -> Option<Place> {
    const FEW: u32 = 6;
    let piece = c.at(at)?;
    let few = |at: usize| match c.at(at)?.item {
        Item::Figure(Figure::Whole { value: value @ 1..=FEW, .. }) => Some(value as usize),
        _ => None,
    };
    let beside = few(at + 1).or_else(|| few(at.checked_sub(1)?)).unwrap_or(1);
    if piece.means(Concept::Last) || ends(c, at) {
        return Some(Place::Last(beside));
    }
    match piece.item {
        Item::Ordinal(1) if piece.means(Concept::First) => Some(Place::First(beside)),
        Item::Ordinal(number) if (1..=count).contains(&(number as usize)) => {
            Some(Place::Nth(number as usize))
        }
        _ if piece.means(Concept::First) => Some(Place::First(beside)),
        _ => None,
    }
}

/// `at the end`, `al final`
fn ends(c: &Clause<'_, '_>, at: usize) -> bool {
    matches!(c.pieces[at].text, "end" | "al final" | "final")
}

fn like(figure: Figure, known: Centis) -> Option<TypedTime> {
    let near = |time: &Centis| LIKE.contains(&(time.seconds() / known.seconds()));
    Some(typed(figure.times().into_iter().find(near)?, figure.has_tenths()))
}
