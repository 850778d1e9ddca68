//! A test put right, or made of what was told: its time, its parts, the kit it was swum with.

use super::clue::figures;
use crate::message::{Done, Test};
use crate::reading::frame::Clause;
use crate::reading::frame::candidate::Candidate;
use crate::reading::frame::clause::typed;
use crate::reading::lexicon::Concept;
use crate::reading::piece::Figure;
use crate::units::{Centis, Stroke};

/// `did the 200 tonight`, and then `308`: what was swum was timed.
pub fn timed(c: &Clause<'_, '_>, done: &Done, candidate: &mut Candidate) -> Option<Test> {
    const FURTHEST: u32 = 1_500;
    let distance = done.distance.filter(|far| far.amount <= FURTHEST)?;
    if done.duration.is_some() || done.sport.is_some() {
        return None;
    }
    let figures = figures(c);
    let [(at, figure)] = figures.as_slice() else { return None };
    // `1600 actually` is how far.
    if figure.whole().is_some_and(|far| far >= 400 && far.is_multiple_of(50)) {
        return None;
    }
    let known = c.sit.own().filter(|known| !known.bests.is_empty())?;
    let time = c.time(*figure, distance.amount, Stroke::Free, Some(known))?;
    let apart = c.minutes_apart(*at).is_some();
    candidate.used[*at..=at + usize::from(apart)].fill(true);
    Some(Test { on: done.on, ..Test::new(distance, typed(time, figure.has_tenths())) })
}

/// Splits named as such; of one alone, that of the first half: `the 50 split was 40`.
pub fn splits(c: &Clause<'_, '_>, test: &Test) -> Option<Vec<Centis>> {
    c.find(Concept::Splits)?;
    let whole = test.distance.amount;
    let is_distance = |figure: &Figure| {
        figure.whole().is_some_and(|far| far < whole && matches!(far, 25 | 50 | 100 | 200 | 400))
    };
    let (named, figures): (Vec<Figure>, Vec<Figure>) =
        figures(c).into_iter().map(|(_, figure)| figure).partition(is_distance);
    let times: Vec<Centis> =
        figures.into_iter().filter_map(|figure| figure.times().first().copied()).collect();
    let [half] = times.as_slice() else { return (times.len() > 1).then_some(times) };
    let of_half = named.iter().all(|far| far.whole().is_some_and(|far| far * 2 == whole));
    let total = test.time.readings.first()?;
    let rest = total.hundredths().checked_sub(half.hundredths()).filter(|_| of_half)?;
    Some(vec![*half, Centis::new(rest).ok()?])
}
