//! What stands beside the words of a question, and whom it is about.

use super::rows::Beside;
use super::word::{Asked, Word};
use crate::message::{Length, Of, Sought};
use crate::reading::frame::Clause;
use crate::reading::frame::ask::named::{distances, has_word, is_past};
use crate::reading::lexicon::{Concept, Hint, Sense, UnitWord};
use crate::reading::piece::{Figure, Item, Named, Piece, is_raced};
use crate::reading::situation::{Phase, Role};
use crate::units::Centis;

/// Pieces up to which a question is short.
const SHORT: usize = 9;

/// Pieces up to which it says nothing else.
const BARE: usize = 4;

/// What stands beside the words.
pub struct Stands {
    /// The distance whose time, or whose pieces, are asked for.
    pub length: Option<Length>,
    /// Of `4x25` the four.
    pub repeats: Option<u16>,
    /// The times that are named.
    pub times: Vec<Vec<Centis>>,
    found: Vec<Beside>,
}

impl Stands {
    pub fn of(c: &Clause<'_, '_>, asked: &Asked) -> Stands {
        let times = times(c);
        let repeats = c.pieces.iter().find_map(|piece| match piece.item {
            Item::Repeat(count, far) => Some((u16::try_from(count).ok()?, c.length(far)?)),
            _ => None,
        });
        let people = c.people().len();
        let past = is_past(c) || asked.has(Word::Before) || has_word(c, Hint::PastPerhaps.words());
        let any = |wanted: fn(&Item<'_>) -> bool| c.pieces.iter().any(|piece| wanted(&piece.item));
        let coach = c.sit.role == Role::Coach;
        // Whoever runs the evening and swims in no lane has nothing of their own.
        let swims = !coach || c.sit.me.is_some();
        let own =
            swims && (c.has_any(&[Concept::My, Concept::Me]) || has_word(c, Hint::Sender.words()));
        let us = c.has_any(&[Concept::Squad, Concept::Everyone, Concept::We, Concept::They])
            || has_word(c, &["grupo", "equipo", "todos", "all", "em"]);
        let facts = [
            (Beside::Timed, !times.is_empty()),
            (Beside::Pair, times.len() > 1),
            (Beside::Untimed, times.is_empty()),
            (Beside::Far, !distances(c).is_empty()),
            (Beside::Repeats, repeats.is_some()),
            (Beside::Person, people > 0),
            (Beside::Lane, any(|item| matches!(item, Item::Lanes(_)))),
            (Beside::Either, names_two(c)),
            (Beside::Day, any(|item| matches!(item, Item::Day(_)))),
            (Beside::Span, names_span(c)),
            (Beside::Kit, c.pieces.iter().any(|piece| piece.kit().is_some())),
            (Beside::Named, !asked.terms().is_empty()),
            (Beside::Past, past),
            (Beside::NotPast, !past),
            (Beside::Coach, coach),
            (Beside::Swimmer, !coach),
            (Beside::Own, own),
            (Beside::Us, us),
            (Beside::During, matches!(c.sit.phase, Phase::Before | Phase::During)),
            (Beside::Said, !c.sit.before.is_empty()),
            (Beside::Short, c.len() <= SHORT),
            (Beside::Bare, c.len() <= BARE && asked.unknown == 0),
            (Beside::Nobody, people == 0 && !any(|item| matches!(item, Item::Lanes(_)))),
            (Beside::NotOwn, !own),
        ];
        let found = facts.into_iter().filter(|(_, holds)| *holds).map(|(one, _)| one).collect();
        Stands {
            length: repeats.map(|(_, each)| each),
            repeats: repeats.map(|(count, _)| count),
            times,
            found,
        }
    }

    pub fn has(&self, one: Beside) -> bool {
        self.found.contains(&one)
    }

    /// Whom it is about; nothing where somebody is meant whom we can't tell.
    pub fn whom(
        &self,
        c: &Clause<'_, '_>,
        whole: &Clause<'_, '_>,
        asked: &Asked,
        sought: Sought,
    ) -> Option<Of> {
        let about_nobody = matches!(
            sought,
            Sought::Us | Sought::Data | Sought::Meaning | Sought::Stored | Sought::Lengths
        );
        let named = c.people();
        if !named.is_empty() {
            return Some(Of::Named(named.iter().filter_map(|one| c.name(*one)).collect()));
        }
        let lanes: Vec<u8> = c
            .pieces
            .iter()
            .filter_map(|piece| match piece.item {
                Item::Lanes(bits) => Some((1..=10u8).filter(move |lane| bits >> lane & 1 == 1)),
                _ => None,
            })
            .flatten()
            .collect();
        if !lanes.is_empty() {
            return Some(Of::Lanes(lanes));
        }
        if about_nobody {
            return Some(Of::Sender);
        }
        // `kite was quick. what did she do`, and nobody else whom it may be.
        let pronoun = asked.has(Word::Kin);
        match whole.people().as_slice() {
            [one] if pronoun || !self.has(Beside::Own) && c.len() < whole.len() => {
                return Some(Of::Named(vec![c.name(*one)?]));
            }
            [] => {}
            _ if pronoun => return None,
            _ => {}
        }
        // `what did she do`: of whom nobody said.
        let guardian = c.sit.guardian;
        // `what did marcus do`: nor whether an unknown word is somebody.
        let of_us = self.has(Beside::Own) || self.has(Beside::Us);
        let stranger = !of_us && asked.unknown > 0 || has_stranger(c);
        if pronoun && !guardian || stranger {
            return None;
        }
        let all = self.has(Beside::Coach) && !(self.has(Beside::Own) && c.sit.me.is_some());
        Some(if all || asked.has(Word::Who) { Of::All } else { Of::Sender })
    }
}

/// True of `3 or 4`.
fn names_two(c: &Clause<'_, '_>) -> bool {
    let small = |piece: &Piece<'_>| {
        matches!(piece.item, Item::Figure(Figure::Whole { value: 1..=10, .. }) | Item::Lanes(_))
    };
    c.pieces
        .array_windows()
        .any(|[one, or, other]| or.means(Concept::Or) && small(one) && small(other))
}

/// True where a week or a month is named: `last month`, `in february`.
pub fn names_span(c: &Clause<'_, '_>) -> bool {
    let of_month = |piece: &Piece<'_>| piece.is(Sense::Unit(UnitWord::Month));
    c.pieces.iter().any(|piece| {
        matches!(piece.item, Item::Day(Named::Month(_) | Named::Week(_))) || of_month(piece)
    })
}

/// True where a word may be the name of somebody whom we don't know.
fn has_stranger(c: &Clause<'_, '_>) -> bool {
    c.pieces.iter().any(|piece| matches!(piece.item, Item::Marked(_)))
}

/// The times that a question names: figures that are no distance.
fn times(c: &Clause<'_, '_>) -> Vec<Vec<Centis>> {
    let mut times = Vec::new();
    let mut at = 0;
    while let Some(piece) = c.at(at) {
        if let Some(figure) = c.minutes_apart(at) {
            times.push(figure.times().to_vec());
            at += 2;
            continue;
        }
        let before = at.checked_sub(1).and_then(|before| c.at(before));
        let aimed = before.is_some_and(|before| {
            before.means(Concept::Under)
                || matches!(before.text, "de" | "los" | "sub" | "break" | "breaking" | "off")
        });
        match piece.item {
            Item::Span(time) => times.push(vec![time]),
            // `how far off 3:05 am i`
            Item::TimeOfDay(hour @ 1..=9, minute) => {
                let seconds = u32::from(hour) * 60 + u32::from(minute);
                times.extend(Centis::from_whole_seconds(seconds).ok().map(|time| vec![time]));
            }
            Item::Each(figure) => times.push(figure.times().to_vec()),
            Item::Figure(Figure::Whole { value, places: 1 }) if aimed && value < 10 => {
                times.extend(Centis::from_whole_seconds(value * 60).ok().map(|time| vec![time]));
            }
            Item::Figure(Figure::Whole { value, places })
                if !is_raced(value) && places >= 2 && !matches!(value, 25 | 75 | 150 | 300) =>
            {
                times.push(Figure::Whole { value, places }.times().to_vec());
            }
            Item::Figure(figure) if !matches!(figure, Figure::Whole { .. }) => {
                times.push(figure.times().to_vec());
            }
            _ => {}
        }
        at += 1;
    }
    times.retain(|readings| !readings.is_empty());
    times.dedup();
    times
}
