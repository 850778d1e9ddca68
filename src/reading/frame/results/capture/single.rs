//! One time of one person: a test, with or without its parts, or a repeat of the set.

use super::entry::is_heading;
use super::heading::Heading;
use super::repeats::{repeat_once, spec};
use super::timed::Timed;
use crate::message::{Day, Kind, Length, Statement, Test, TypedTime};
use crate::reading::frame::Clause;
use crate::reading::frame::clause::{fits, typed};
use crate::reading::lexicon::Concept;
use crate::reading::piece::Figure;
use crate::units::{Centis, Stroke};

/// What one time of a person is.
#[derive(Debug, Clone, Copy)]
pub enum Mode {
    /// A test over this distance.
    Test(Length),
    /// Repeats of a set.
    Set,
}

/// Whether an entry tells of a test or of repeats.
pub fn mode(c: &Clause<'_, '_>, heading: &Heading, person: usize, times: &[Timed]) -> Mode {
    let known = c.sit.people.get(person);
    let stroke = heading.stroke.unwrap_or(Stroke::Free);
    let within = |distance: u32, low: f64, high: f64| {
        let expected = known.and_then(|known| known.expected(distance, stroke));
        let fit = |figure: &Figure| match expected {
            Some(expected) => figure
                .times()
                .into_iter()
                .any(|time| (low..=high).contains(&(time.seconds() / expected))),
            None => figure
                .times()
                .into_iter()
                .any(|time| fits(time, distance, c.sit.course, stroke, None)),
        };
        times.iter().all(|time| fit(&time.figure))
    };
    if let Some(length) = heading.length {
        let single = times.len() == 1 || c.has(Concept::Sorry);
        return if !heading.repeats && single { Mode::Test(length) } else { Mode::Set };
    }
    if times.len() != 1 && !c.has(Concept::Sorry) {
        return Mode::Set;
    }
    let tested = c.sit.tested.into_iter().chain([200, 400, 100]);
    let line = c.sit.set.as_ref().and_then(|set| set.main()).map(|line| line.distance);
    for distance in tested {
        if Some(distance) != line && within(distance, 0.82, 1.22) {
            return Mode::Test(Length { amount: distance, unit: None });
        }
    }
    Mode::Set
}

/// `teal 2:56 splits 41 44 46 45`, `swift 200 1:19 out 1:24 back`: a test told with its
/// parts, or by them alone. They are of about equal length, and their sum is what the
/// swimmer may swim over the whole.
pub fn in_splits(
    c: &Clause<'_, '_>,
    heading: &Heading,
    person: usize,
    times: &[Timed],
) -> Option<Statement> {
    if heading.repeats || heading.count.is_some() {
        return None;
    }
    let length = heading.length.or(c.sit.tested.map(|amount| Length { amount, unit: None }))?;
    let stroke = heading.stroke.unwrap_or(Stroke::Free);
    let expected = c.sit.people.get(person)?.expected(length.amount, stroke)?;
    // `1:41 at the hundred`
    let is_part = |time: &&Timed| {
        time.figure.whole().is_some_and(|value| is_heading(value) && value < length.amount)
    };
    let times: Vec<Timed> = times.iter().filter(|time| !is_part(time)).copied().collect();
    let about = |figure: Figure, share: f64| {
        let fits = |time: &Centis| (0.75..=1.3).contains(&(time.seconds() / (expected * share)));
        figure.times().into_iter().find(fits)
    };
    let (first, behind) = times.split_first()?;
    let (last, before) = times.split_last()?;
    let (total, parts) = match (about(first.figure, 1.0), about(last.figure, 1.0)) {
        (Some(total), _) => (Some(total), behind),
        (None, Some(total)) => (Some(total), before),
        (None, None) => (None, times.as_slice()),
    };
    // `1:41 at the hundred, 3:28`: the other half is what is left.
    if let (Some(time), [half]) = (total, parts)
        && let Some(half) = about(half.figure, 0.5)
        && let Some(other) = time.less(half)
        && !c.has(Concept::Sorry)
    {
        return test(c, person, length, typed(time, false), vec![half, other], heading);
    }
    let each = 1.0 / parts.len().max(2) as f64;
    let splits: Option<Vec<Centis>> = parts.iter().map(|part| about(part.figure, each)).collect();
    let splits = splits.filter(|splits| splits.len() > 1)?;
    let sum = splits.iter().copied().reduce(|one, other| one + other)?;
    let time = total.unwrap_or(sum);
    let agree = (time.seconds() - sum.seconds()).abs() <= 3.0;
    agree.then(|| test(c, person, length, typed(time, false), splits, heading)).flatten()
}

/// One time of one person as a test.
pub fn single(
    c: &Clause<'_, '_>,
    person: usize,
    figure: Figure,
    heading: &Heading,
) -> Option<Statement> {
    let known = c.sit.people.get(person)?;
    let stroke = heading.stroke.unwrap_or(Stroke::Free);
    let length = match heading.length {
        Some(length) => length,
        None => match mode(c, heading, person, &[Timed::new(0, figure)]) {
            Mode::Test(length) => length,
            Mode::Set => {
                let (spec, length) = spec(c, heading, person)?;
                let time = c.time(figure, spec.distance, stroke, Some(known))?;
                return Some(repeat_once(
                    known.name.clone(),
                    length,
                    time,
                    figure.has_tenths(),
                    stroke,
                ));
            }
        },
    };
    let time = c.time(figure, length.amount, stroke, Some(known))?;
    if heading.repeats {
        return Some(repeat_once(known.name.clone(), length, time, figure.has_tenths(), stroke));
    }
    test(c, person, length, typed(time, figure.has_tenths()), vec![], heading)
}

fn test(
    c: &Clause<'_, '_>,
    person: usize,
    distance: Length,
    time: TypedTime,
    splits: Vec<Centis>,
    heading: &Heading,
) -> Option<Statement> {
    let test = Test {
        stroke: heading.stroke,
        on: heading.day.or_else(|| night(c)),
        splits,
        meet: c.has(Concept::Meet),
        ..Test::new(distance, time)
    };
    Some(Statement { who: Some(c.name(person)?), kind: Kind::Test(test) })
}

fn night(c: &Clause<'_, '_>) -> Option<Day> {
    let night = c.sit.swum_on();
    (night != c.sit.today).then_some(Day::Full(night))
}
