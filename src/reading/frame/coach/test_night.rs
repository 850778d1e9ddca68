//! Evenings on which the squad is tested.

use super::timetable::{Placed, date, mark};
use crate::message::{Day, Kind, Length};
use crate::reading::frame::Clause;
use crate::reading::frame::candidate::Candidate;
use crate::reading::lexicon::Concept;
use crate::reading::piece::{Figure, Item, Named, Which};
use crate::reading::situation::Phase;

/// `next wednesday a 400 time trial`, `test night 400 thu`.
pub fn test_night(c: &Clause<'_, '_>, days: &[Placed]) -> Option<Candidate> {
    if !c.has(Concept::Test) {
        return None;
    }
    let mut candidate = Candidate::new("test-night", c.len());
    let named = c.pieces.array_windows::<2>().any(|pair| {
        pair[0].means(Concept::Test) && matches!(pair[1].text, "night" | "evening" | "session")
    });
    let figures = c.pieces.iter().any(|piece| matches!(piece.item, Item::Figure(_) | Item::Far(_)));
    if let (true, false, true, Some((_, _, day))) =
        (named, figures, c.has(Concept::Move), days.last())
    {
        candidate.used.fill(true);
        let on = date(c, *day).map_or(*day, Day::Full);
        return Some(candidate.says(Kind::TestNight { distance: None, on: Some(on) }).at_cost(0.4));
    }
    let (at, distance) = c.pieces.iter().enumerate().find_map(|(at, piece)| match piece.item {
        Item::Figure(Figure::Whole {
            value: value @ (100 | 200 | 400 | 800 | 1000 | 1500),
            ..
        }) => Some((at, Length { amount: value, unit: None })),
        Item::Far(far) => Some((at, c.length(far)?)),
        Item::Plural(value @ (100 | 200 | 400 | 800)) => {
            Some((at, Length { amount: value, unit: None }))
        }
        _ => None,
    })?;
    let others = c.pieces.iter().filter(|piece| matches!(piece.item, Item::Figure(figure) if figure.is_marked() || figure.whole().is_some_and(|value| value > 20)) || matches!(piece.item, Item::Far(_) | Item::Repeat(..))).count();
    // `we'll do 200 timed to finish`: this evening.
    let now = c.has(Concept::Will) && c.has(Concept::We) && c.sit.phase != Phase::None;
    let now = now.then_some((0, Named::Day(Day::Today, Which::Plain), Day::Today));
    let ahead = days
        .iter()
        .copied()
        .find(|(_, named, _)| !matches!(named, Named::Day(Day::Yesterday, _)))
        .or(now)?;
    if others > 1 {
        return None;
    }
    candidate.used[at] = true;
    mark(c, &mut candidate);
    candidate
        .used
        .mark(c.pieces, |piece| piece.means(Concept::Test) || piece.means(Concept::Everyone));
    let on = date(c, ahead.2).map_or(ahead.2, Day::Full);
    Some(candidate.says(Kind::TestNight { distance: Some(distance), on: Some(on) }).at_cost(0.4))
}
