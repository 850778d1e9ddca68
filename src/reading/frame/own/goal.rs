//! What somebody wants: a race on a day, a time over a distance.

use super::words::uses;
use crate::message::{Day, Doubt, Kind, Length, Wants};
use crate::reading::frame::candidate::Candidate;
use crate::reading::frame::clause::{stroke_of, typed};
use crate::reading::frame::{Clause, mood};
use crate::reading::lexicon::Concept;
use crate::reading::piece::{Figure, Item, Named, is_raced};
use crate::reading::situation::Role;
use crate::units::{Centis, Stroke};

/// The distance, stroke and time that a wish names.
fn wished(
    c: &Clause<'_, '_>,
    candidate: &mut Candidate,
) -> (Option<crate::message::Length>, Option<Stroke>, Option<Figure>) {
    let (mut far, mut time) = (None, None);
    for (at, piece) in c.pieces.iter().enumerate() {
        match piece.item {
            Item::Far(one) if far.is_none() => {
                far = c.length(one);
                candidate.used[at] = true;
            }
            Item::Figure(figure) => {
                let distance = figure.whole().filter(|value| is_raced(*value));
                if let (Some(amount), true) = (distance, far.is_none()) {
                    far = Some(crate::message::Length { amount, unit: None });
                } else if time.is_none() {
                    // `sub 27 for the 1500` is in minutes.
                    let minutes = figure
                        .whole()
                        .filter(|value| *value < 60 && far.is_none_or(|far| far.amount >= 600));
                    time =
                        Some(minutes.map_or(figure, |value| Figure::Whole {
                            value: value * 100,
                            places: 4,
                        }));
                } else {
                    continue;
                }
                candidate.used[at] = true;
            }
            Item::Span(span) if time.is_none() && span.seconds() >= 60.0 => {
                time =
                    Some(Figure::Whole { value: (span.seconds() / 60.0) as u32 * 100, places: 4 });
                candidate.used[at] = true;
            }
            _ => {}
        }
    }
    let stroke = c.stroke();
    candidate.used.mark(c.pieces, |piece| stroke_of(piece).is_some());
    (far, stroke, time)
}

/// `race 1500 on 18 april`, `entered a 200 free in may`, `got a 1.5k ocean swim on the 22nd`.
pub fn race(c: &Clause<'_, '_>, candidate: &mut Candidate) -> Option<Kind> {
    if c.sit.role == Role::Coach {
        return None;
    }
    let named = c.has_any(&[Concept::Enter, Concept::Race, Concept::Meet]);
    let (at, day) = c.pieces.iter().enumerate().find_map(|(at, piece)| match piece.item {
        Item::Day(named) => Some((at, named)),
        _ => None,
    })?;
    let ahead = c.coming(day)?;
    let is_ahead = match day {
        Named::Day(
            Day::DayMonth(..) | Day::Slashed(..) | Day::Full(_) | Day::SlashedYear(..),
            _,
        )
        | Named::OfMonth(_)
        | Named::Month(_) => true,
        Named::Day(Day::On(_), _) => named,
        _ => false,
    };
    if !is_ahead {
        return None;
    }
    let (far, _, time) = wished(c, candidate);
    let distance = far?;
    let wants = c.has_any(&[Concept::Want, Concept::Goal]);
    if !(named || wants || distance.amount >= 750) || c.past(day) == Some(Day::Today) {
        return None;
    }
    // `ive a 3k swim on 14 june`: it is had, and to come.
    let is_had = c.pieces.array_windows::<2>().any(|[have, one]| {
        let article = one.means(Concept::Article);
        article && (have.means(Concept::KitHave) || matches!(have.text, "ive" | "tengo" | "have"))
    });
    if c.has_any(&[Concept::Swam, Concept::Done]) && !named && !is_had {
        return None;
    }
    candidate.used[at] = true;
    uses(
        c,
        candidate,
        &[
            Concept::Enter,
            Concept::Race,
            Concept::Meet,
            Concept::Want,
            Concept::Goal,
            Concept::Under,
            Concept::KitHave,
        ],
    );
    if let Named::Month(_) = day {
        return None;
    }
    let goal = time
        .and_then(|figure| c.time(figure, distance.amount, Stroke::Free, c.sit.own()))
        .map(|time| typed(time, false));
    Some(Kind::Race { distance, on: ahead, goal })
}

/// The distance of which a time is a little faster than the best: `under 3 by june`.
fn implied(c: &Clause<'_, '_>, time: Figure) -> Option<Length> {
    const FASTER: std::ops::Range<f64> = 0.85..1.0;
    let bests = &c.sit.own()?.bests;
    let shares = bests.iter().filter(|(_, stroke, _)| *stroke == Stroke::Free).flat_map(|best| {
        let share = |time: Centis| (time.seconds() / best.2.seconds(), best.0);
        time.times().into_iter().map(share)
    });
    let near = shares.filter(|(share, _)| FASTER.contains(share));
    let (_, amount) = near.max_by(|one, other| one.0.total_cmp(&other.0))?;
    Some(Length { amount, unit: None })
}

/// `want to go under 3:00 for the 200`, `aiming for sub 3 by june`.
pub fn goal(c: &Clause<'_, '_>, candidate: &mut Candidate) -> Option<Kind> {
    if !c.has_any(&[Concept::Want, Concept::Goal]) || c.sit.role == Role::Coach {
        return None;
    }
    let (far, stroke, time) = wished(c, candidate);
    let spent = c.pieces.iter().enumerate().find_map(|(at, piece)| match piece.item {
        Item::Span(time) => Some((at, Figure::of_time(time))),
        _ => None,
    });
    let time = time.or_else(|| {
        let (at, figure) = spent?;
        candidate.used[at] = true;
        Some(figure)
    });
    let distance = far.or_else(|| implied(c, time?))?;
    let time = c.time(time?, distance.amount, stroke.unwrap_or(Stroke::Free), c.sit.own())?;
    uses(
        c,
        candidate,
        &[Concept::Want, Concept::Goal, Concept::Under, Concept::Until, Concept::Done],
    );
    let mut by = None;
    for (at, piece) in c.pieces.iter().enumerate() {
        if let Item::Day(named) = piece.item {
            candidate.used[at] = true;
            by = by.or(c.last_of(named));
        }
    }
    Some(Kind::Goal { distance, stroke, time: typed(time, false), by })
}

/// A goal or a race without its distance, time or day: asks.
pub fn unfinished(c: &Clause<'_, '_>) -> Vec<Candidate> {
    let raced = c.has_any(&[Concept::Enter]) && c.has_any(&[Concept::Race, Concept::Meet]);
    // `want to do a 1500 open water in july`
    let month = c.pieces.iter().any(|piece| matches!(piece.item, Item::Day(Named::Month(_))));
    let in_month = month
        && c.has_any(&[Concept::Want, Concept::KitHave])
        && wished(c, &mut Candidate::new("race", c.len())).0.is_some_and(|far| far.amount >= 750);
    if !raced && !in_month || c.sit.role == Role::Coach || mood::is_question(c) {
        return vec![];
    }
    let mut candidate = Candidate::new("race", c.len());
    if race(c, &mut candidate).is_some() {
        return vec![];
    }
    candidate.used.fill(true);
    let wants = if in_month { Wants::Race } else { Wants::Distance };
    vec![candidate.asking(Doubt::Missing { wants }, vec![]).at_cost(1.2)]
}
