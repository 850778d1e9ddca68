//! Times over a distance.

use super::slots::Slots;
use crate::message::{Day, Kind, Length, Name, Statement, Test};
use crate::reading::frame::{Clause, fits, stroke_of, typed};
use crate::reading::lexicon::Concept;
use crate::reading::likely::{Stands, Telling};
use crate::reading::piece::{Figure, Item, Piece};
use crate::reading::situation::{Known, Role};
use crate::units::{Centis, Stroke};

/// How far a time may be from a best to be one over that distance.
const LIKE: std::ops::RangeInclusive<f64> = 0.85..=1.2;

/// A figure that may be a time, at a place: `3:12`, `3.12`, `3 12`, `48`.
fn figure_at(slots: &Slots<'_, '_, '_>, at: usize) -> Option<(Figure, usize)> {
    if slots.used[at] {
        return None;
    }
    if let Some(joined) = slots.c.minutes_apart(at).filter(|_| !slots.used[at + 1]) {
        return Some((joined, 2));
    }
    match slots.c.at(at)?.item {
        Item::Figure(figure) | Item::Each(figure) => Some((figure, 1)),
        _ => None,
    }
}

/// One time over one distance, of whom the text is about.
pub fn test(slots: &mut Slots<'_, '_, '_>) -> Option<Vec<Statement>> {
    let who = slots.who()?;
    let known = slots.c.subject();
    one(slots, known, None, 0..slots.c.len()).map(|test| vec![told(who, test)])
}

/// A time that is like one best and no other, whatever stands beside it: `absolutely
/// smashed it 3 08`.
pub fn lone(c: &Clause<'_, '_>) -> Option<Vec<Statement>> {
    let figure = |piece: &Piece<'_>| match piece.item {
        Item::Figure(Figure::Whole { value, .. }) => value > 12 || !piece.is_spelled(),
        Item::Figure(_) | Item::Each(_) | Item::Repeat(..) | Item::Far(_) | Item::Span(_) => true,
        _ => false,
    };
    let figures = c.pieces.iter().filter(|piece| figure(piece)).count();
    let joined = (0..c.len()).any(|at| c.minutes_apart(at).is_some());
    let minutes = |figure: Figure| figure.times().iter().any(|time| time.seconds() >= 60.0);
    let timed = joined && figures == 2
        || figures == 1
            && c.pieces.iter().any(|piece| {
                matches!(piece.item, Item::Figure(figure)
                    if minutes(figure) && figure.whole().is_none())
            });
    let own = c.sit.role == Role::Swimmer;
    let speaks = [Concept::Until, Concept::Late, Concept::Want, Concept::Goal];
    if !timed || !own || c.speaks_ahead() || c.has_any(&speaks) {
        return None;
    }
    test(&mut Slots::of(c, &[Telling::Test]))
}

/// Of a coach: each one named with the time that follows, or stands before.
pub fn tests_of_many(slots: &mut Slots<'_, '_, '_>) -> Option<Vec<Statement>> {
    let c = slots.c;
    let people: Vec<(usize, usize)> = c
        .pieces
        .iter()
        .enumerate()
        .filter_map(|(at, piece)| match piece.item {
            Item::Person(person) => Some((at, person)),
            _ => None,
        })
        .collect();
    if people.is_empty() {
        return None;
    }
    let over = slots.distance().map(|length| length.amount).or(c.sit.tested);
    let mut says = Vec::new();
    for (number, (at, person)) in people.iter().enumerate() {
        let end = people.get(number + 1).map_or(c.len(), |next| next.0);
        let from = if people.len() == 1 { 0 } else { *at };
        let known = c.sit.people.get(*person);
        if let Some(test) = one(slots, known, over, from..end) {
            slots.used[*at] = true;
            says.push(told(c.name(*person), test));
        }
    }
    (!says.is_empty()).then_some(says)
}

fn told(who: Option<Name>, test: Test) -> Statement {
    Statement { who, kind: Kind::Test(test) }
}

/// A time and the distance that it suits.
struct Fit {
    /// How far from what was to be expected, as the logarithm of their ratio.
    off: f64,
    /// Where the distance stands, if the text names it.
    place: Option<usize>,
    distance: Length,
    /// Where the time stands.
    at: std::ops::Range<usize>,
    time: Centis,
    tenths: bool,
}

/// The distance and the time within a span that suit each other best.
fn one(
    slots: &mut Slots<'_, '_, '_>,
    known: Option<&Known>,
    over: Option<u32>,
    within: std::ops::Range<usize>,
) -> Option<Test> {
    let c = slots.c;
    let stroke = c.stroke();
    let swum = stroke.unwrap_or(Stroke::Free);
    let mut distances: Vec<(Option<usize>, Length)> =
        over.iter().map(|amount| (None, Length { amount: *amount, unit: None })).collect();
    let far = |at: &usize| !slots.used[*at] && slots.stands(*at, Stands::Distance);
    for at in within.clone().filter(far) {
        let length = match c.pieces[at].item {
            Item::Far(far) => c.length(far),
            Item::Figure(Figure::Whole { value, .. }) | Item::Plural(value) if value >= 25 => {
                Some(Length { amount: value, unit: None })
            }
            _ => None,
        };
        distances.extend(length.map(|length| (Some(at), length)));
    }
    if distances.is_empty() {
        let bests = known.iter().flat_map(|known| &known.bests);
        distances.extend(
            bests
                .filter(|(distance, stroke, _)| *stroke == swum && *distance >= 100)
                .map(|(distance, ..)| (None, Length { amount: *distance, unit: None })),
        );
    }
    let mut best: Option<Fit> = None;
    for at in within.filter(|at| slots.stands(*at, Stands::Swum)) {
        let Some((figure, length)) = figure_at(slots, at) else { continue };
        for (place, distance) in &distances {
            if place.is_some_and(|place| (at..at + length).contains(&place)) {
                continue;
            }
            let expected = known.and_then(|known| known.expected(distance.amount, swum));
            for time in figure.times() {
                if !fits(time, distance.amount, c.sit.course, swum, expected) {
                    continue;
                }
                let share = expected.map_or(1.3, |expected| time.seconds() / expected);
                if place.is_none() && over.is_none() && !LIKE.contains(&share) {
                    continue;
                }
                let off = share.ln().abs();
                if best.as_ref().is_none_or(|known| off < known.off) {
                    let (place, distance) = (*place, *distance);
                    let tenths = figure.has_tenths();
                    best = Some(Fit { off, place, distance, at: at..at + length, time, tenths });
                }
            }
        }
    }
    let Fit { place, distance, at, time, tenths, .. } = best?;
    slots.used[at].fill(true);
    if let Some(place) = place {
        slots.used[place] = true;
    }
    let on = slots.past_day().or_else(|| {
        let night = c.sit.swum_on();
        (night != c.sit.today).then_some(Day::Full(night))
    });
    slots.used.mark(c.pieces, |piece| stroke_of(piece).is_some() || piece.means(Concept::Test));
    Some(Test { stroke, on, ..Test::new(distance, typed(time, tenths)) })
}
