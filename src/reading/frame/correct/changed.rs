//! A statement with what a correction changes of it.

use super::clue::{
    course, distance_instead, effort, figures, is_behind_not, is_denied, kit, minutes_alone, yards,
};
use super::repeats::set_changed;
use super::timed::{splits, timed};
use crate::message::{Day, Kind, Pain};
use crate::reading::frame::candidate::Candidate;
use crate::reading::frame::clause::{stroke_of, typed};
use crate::reading::frame::results::test::with_kit;
use crate::reading::frame::{Clause, attend, body};
use crate::reading::lexicon::{Concept, Hint};
use crate::reading::piece::{Figure, Item, Named};
use crate::units::{Rpe, Stroke, Unit};

/// The statement with what the stretch changes of it.
pub fn changed_kind(c: &Clause<'_, '_>, kind: &Kind, candidate: &mut Candidate) -> Option<Kind> {
    let day = c.pieces.iter().enumerate().find_map(|(at, piece)| match piece.item {
        Item::Day(named) if !is_denied(c, at) => Some((at, named)),
        _ => None,
    });
    let stroke = c
        .pieces
        .iter()
        .enumerate()
        .find_map(|(at, piece)| Some((at, stroke_of(piece).filter(|_| !is_denied(c, at))?)));
    match kind {
        Kind::Test(test) => {
            let mut test = test.clone();
            let swum = test.stroke.unwrap_or(Stroke::Free);
            let whose = c.sit.own();
            // `in a pool of 50 this time`: its figure is no time.
            let short = c.len() <= 10 && figures(c).len() <= 1;
            if let Some((_, course)) = course(c).filter(|_| short) {
                candidate.used.fill(true);
                test.course = Some(course);
                return Some(Kind::Test(test));
            }
            if let Some(amount) = distance_instead(c, test.distance.amount) {
                candidate.used.fill(true);
                test.distance.amount = amount;
                test.splits.clear();
                return Some(Kind::Test(test));
            }
            let time = figures(c).into_iter().find_map(|(at, figure)| {
                let time = c.time(figure, test.distance.amount, swum, whose)?;
                let new = !is_denied(c, at)
                    && test.time.readings.first() != Some(&time)
                    && figure.whole() != Some(test.distance.amount);
                new.then_some((at, time, figure.has_tenths()))
            });
            if let Some((at, time, tenths)) = time {
                candidate.used[at] = true;
                candidate.used.mark(c.pieces, |piece| matches!(piece.item, Item::Figure(_)));
                test.time = typed(time, tenths);
                test.splits.clear();
                return Some(Kind::Test(test));
            }
            if let Some((at, stroke)) = stroke.filter(|(_, stroke)| Some(*stroke) != test.stroke) {
                candidate.used[at] = true;
                candidate.used.mark(c.pieces, |piece| stroke_of(piece).is_some());
                if c.len() <= 6 && figures(c).is_empty() {
                    candidate.used.fill(true);
                }
                test.stroke = Some(stroke);
                return Some(Kind::Test(test));
            }
            if let Some(splits) = splits(c, &test) {
                candidate.used.fill(true);
                test.splits = splits;
                return Some(Kind::Test(test));
            }
            // `that was with fins`: swum, and no best.
            if let Some(kit) = kit(c) {
                candidate.used.fill(true);
                return Some(Kind::SetResult(with_kit(&test, kit)));
            }
            if yards(c) {
                candidate.used.fill(true);
                test.distance.unit = Some(Unit::Yard);
                test.course = None;
                return Some(Kind::Test(test));
            }
            if let Some(start) = c.pieces.iter().find_map(|piece| piece.start()) {
                candidate.used.fill(true);
                test.start = Some(start);
                return Some(Kind::Test(test));
            }
            day_changed(c, day, candidate).map(|on| {
                test.on = Some(on);
                Kind::Test(test)
            })
        }
        Kind::SetResult(set) => set_changed(c, set, stroke, day, candidate),
        Kind::Done(done) => {
            if let Some(test) = timed(c, done, candidate) {
                return Some(Kind::Test(test));
            }
            let mut done = done.clone();
            if let Some(tenths) = effort(c, done.rpe.is_some()) {
                candidate.used.fill(true);
                done.rpe = Rpe::from_tenths(tenths).ok();
                return Some(Kind::Done(done));
            }
            if let (Some(length), true) = (&mut done.distance, yards(c)) {
                candidate.used.fill(true);
                length.unit = Some(Unit::Yard);
                return Some(Kind::Done(done));
            }
            let old = done.distance.map(|length| length.amount);
            let far = c.pieces.iter().enumerate().find_map(|(at, piece)| {
                let amount = match piece.item {
                    Item::Far(far) => c.length(far)?.amount,
                    Item::Figure(Figure::Whole { value, .. }) if value >= 100 => value,
                    // `no 62`: lengths, as before.
                    Item::Figure(Figure::Whole { value, .. }) | Item::Ordinal(value)
                        if old.is_some_and(|old| {
                            old.is_multiple_of(c.sit.pool_length())
                                && old / c.sit.pool_length() < 3 * value
                                && value > 9
                        }) =>
                    {
                        value * c.sit.pool_length()
                    }
                    Item::Figure(Figure::Parted { whole, parts, places: 1, .. })
                        if old.is_some_and(|old| old >= 1000) =>
                    {
                        whole * 1000 + parts * 100
                    }
                    _ => return None,
                };
                (!is_denied(c, at) && Some(amount) != old).then_some((at, amount))
            });
            // Of other sport a length is named as one: `meant 8k`.
            let named = c.pieces.iter().any(|piece| matches!(piece.item, Item::Far(_)));
            if let Some((at, amount)) = far.filter(|_| done.sport.is_none() || named) {
                candidate.used[at] = true;
                candidate
                    .used
                    .mark(c.pieces, |piece| matches!(piece.item, Item::Figure(_) | Item::Far(_)));
                done.distance = Some(crate::message::Length {
                    amount,
                    unit: done.distance.and_then(|length| length.unit),
                });
                // `1600, and it was tuesday`
                let days = c.pieces.iter().filter(|piece| matches!(piece.item, Item::Day(_)));
                let one_day = days.count() == 1;
                if let Some(on) = day_changed(c, day.filter(|_| one_day), candidate) {
                    done.on = Some(on);
                }
                if done.sport.is_some() {
                    candidate.used.fill(true);
                }
                return Some(Kind::Done(done));
            }
            let took = c.pieces.iter().enumerate().find_map(|(at, piece)| match piece.item {
                Item::Span(time) if !is_denied(c, at) && Some(time) != done.duration => {
                    Some((at, time))
                }
                _ => None,
            });
            if let Some((at, time)) = took {
                candidate.used[at] = true;
                done.duration = Some(time);
                return Some(Kind::Done(done));
            }
            day_changed(c, day, candidate).map(|on| {
                done.on = Some(on);
                Kind::Done(done)
            })
        }
        Kind::Attend { coming: true, on, late_min } if day.is_none() => {
            // `make that quarter to 8`, `20 rather`
            let alone = minutes_alone(c, late_min.is_some());
            let late_min = Some(alone.or_else(|| attend::minutes_late(c))?);
            candidate.used.fill(true);
            Some(Kind::Attend { coming: true, late_min, on: *on })
        }
        Kind::Race { distance, on, goal } => {
            let hopes = c.has_any(&[Concept::Goal, Concept::Under, Concept::Want]);
            // `the 21st` is of the month that was told.
            let coming = |named: Named| match named {
                Named::OfMonth(day) => {
                    let day = i8::try_from(day).ok()?;
                    c.date_of(*on)?.with().day(day).build().ok().map(Day::Full)
                }
                named => c.coming(named),
            };
            let moved = day.and_then(|(_, named)| coming(named)).filter(|moved| moved != on);
            // `want to go under 6:40`
            let hoped = figures(c).into_iter().filter(|_| hopes).find_map(|(_, figure)| {
                let time = c.time(figure, distance.amount, Stroke::Free, c.sit.own())?;
                Some(typed(time, figure.has_tenths()))
            });
            if moved.is_none() && hoped.is_none() {
                return None;
            }
            candidate.used.fill(true);
            Some(Kind::Race {
                distance: *distance,
                on: moved.unwrap_or(*on),
                goal: hoped.or_else(|| goal.clone()),
            })
        }
        Kind::Away { from, until } => {
            let (at, named) = day?;
            let said = c.coming(named)?;
            let far = |other: Option<Day>| {
                let (one, other) = (c.date_of(said)?, c.date_of(other?)?);
                Some(one.since(other).ok()?.get_days().abs())
            };
            candidate.used[at] = true;
            // The end that it is nearer to is the one that was wrong.
            let first =
                far(*from).is_some_and(|first| far(Some(*until)).is_none_or(|last| first < last));
            Some(match first {
                true => Kind::Away { from: Some(said), until: *until },
                false => Kind::Away { from: *from, until: said },
            })
        }
        Kind::Attend { coming, late_min, .. } => {
            let named = day.map(|(at, named)| {
                candidate.used[at] = true;
                named
            });
            let on = named.and_then(|named| c.coming(named))?;
            Some(Kind::Attend { coming: *coming, late_min: *late_min, on: Some(on) })
        }
        Kind::Pain(pain) => {
            // `not my back sorry, the neck`
            let named = |(at, piece)| Some((at, body(piece)?));
            let places: Vec<(usize, &str)> =
                c.pieces.iter().enumerate().filter_map(named).collect();
            if let [first, second] = places[..] {
                let denied = |one: (usize, &str)| one.1 == pain.place && is_behind_not(c, one.0);
                let place = match (denied(first), denied(second)) {
                    (true, false) => second.1,
                    (false, true) => first.1,
                    _ => return None,
                };
                candidate.used.fill(true);
                return Some(Kind::Pain(Pain { place: place.to_owned(), level: pain.level }));
            }
            let side = c.pieces.iter().any(|piece| Hint::Side.is(piece.text));
            (side && c.len() <= 8).then(|| {
                candidate.used.fill(true);
                Kind::Pain(pain.clone())
            })
        }
        _ => None,
    }
}

fn day_changed(
    c: &Clause<'_, '_>,
    day: Option<(usize, Named)>,
    candidate: &mut Candidate,
) -> Option<Day> {
    let (at, named) = day?;
    let past = c.past(named)?;
    candidate.used[at] = true;
    candidate.used.mark(c.pieces, |piece| {
        // `that was on monday, not tonight` keeps nobody away.
        matches!(piece.item, Item::Day(_) | Item::Figure(_) | Item::Far(_))
            || piece.means(Concept::Out)
    });
    Some(past)
}
