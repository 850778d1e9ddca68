//! Tests: which figure is the distance, which the time, which the pool, and
//! whether the splits add up.

use super::figures::{length, minutes, plain_time, typed_time};
use super::{Outcome, Trouble, about, days, reports};
use crate::message::syntax::{Extent, Figure, Item};
use crate::message::{Doubt, Kind, Length, Name, Statement, Test, TimedTest, TypedTime};
use crate::units::{Centis, Course, Unit};

/// Splits may differ from the time by this much: 0.3 s, for a thumb that
/// presses late. Ours.
const SPLITS_TOLERANCE: u32 = 30;

/// What stands in a test's text, by class.
#[derive(Default)]
struct Found {
    lengths: Vec<Extent>,
    numbers: Vec<Figure>,
    times: Vec<Figure>,
    took: Option<Figure>,
    minutes: Option<u32>,
    minutes_first: bool,
    mile: bool,
    splits: Vec<Figure>,
    test: Option<Parts>,
}

/// What is told of a test beside its distance and time.
#[derive(Clone)]
struct Parts(Test);

/// True for a distance with a time, and nothing that says what it was.
pub fn lacks_only_the_word(segment: &[Item]) -> bool {
    let fits = |item: &Item| {
        matches!(
            item,
            Item::Length(_)
                | Item::Mile
                | Item::Figure(_)
                | Item::Took(_)
                | Item::Stroke(_)
                | Item::Course(_)
                | Item::Day(_)
                | Item::Fraction(..)
                | Item::Begin(_)
                | Item::Meet
                | Item::Splits(_)
                | Item::Name(_)
                | Item::Comma
        )
    };
    let far = segment.iter().filter(|item| matches!(item, Item::Length(_) | Item::Mile)).count();
    let figures =
        segment.iter().filter(|item| matches!(item, Item::Figure(_) | Item::Took(_))).count();
    let numbers = segment.iter().filter_map(|item| match item {
        Item::Figure(Figure::Number { value, .. }) => Some(*value),
        _ => None,
    });
    // Two bare numbers are a distance and a time only if one alone can be the
    // distance; three are nothing.
    let round = numbers.clone().filter(|number| number.is_multiple_of(25)).count();
    let told = match numbers.count() {
        0 | 1 => true,
        2 => round == 1,
        _ => false,
    };
    segment.iter().all(fits) && figures >= 1 && far + figures >= 2 && told
}

/// A distance and a time alone: asked about, unless the meet or the start says
/// that it was against the clock.
pub fn test_or_session(who: Option<&Name>, segment: &[Item]) -> Outcome<Vec<Statement>> {
    let raced =
        segment.iter().any(|item| matches!(item, Item::Meet | Item::Begin(_) | Item::Splits(_)));
    let as_test = test(who, segment);
    if raced {
        return as_test;
    }
    let tested = as_test?;
    let mut options = vec![("test".to_owned(), tested)];
    if let Ok(done) = super::deeds::done(who, segment) {
        options.push(("done".to_owned(), done));
    }
    Err(Trouble::Doubt(Doubt::TestOrSession, options))
}

/// A test of a distance or of a time.
pub fn test(who: Option<&Name>, segment: &[Item]) -> Outcome<Vec<Statement>> {
    let found = gather(segment)?;
    let Some(Parts(parts)) = found.test.clone() else { return Err(Trouble::Senseless) };
    if let (Some(duration), true, None) = (found.minutes, found.times.is_empty(), found.took) {
        let far = match (found.lengths.as_slice(), found.numbers.as_slice()) {
            ([far], []) => *far,
            ([], [Figure::Number { value, .. }]) => Extent { amount: *value, unit: None },
            _ => return Err(Trouble::Senseless),
        };
        let plain = parts.splits.is_empty() && parts.start.is_none() && !parts.meet;
        if found.minutes_first && plain && found.splits.is_empty() {
            let timed = TimedTest {
                duration: minutes(duration)?,
                distance: length(far)?,
                stroke: parts.stroke,
                course: parts.course,
                on: parts.on,
            };
            return Ok(vec![about(who, Kind::TimedTest(timed))]);
        }
        let time = TypedTime::sure(minutes(duration)?);
        return with_splits(who, Test { distance: length(far)?, time, ..parts }, &found.splits);
    }
    if found.minutes.is_some() {
        return Err(Trouble::Senseless);
    }
    if found.mile {
        return mile(who, parts, &found);
    }
    match far_and_time(&found, parts.course)? {
        Resolved::Sure { far, time, course } => {
            let test = Test { distance: length(far)?, time: typed_time(time)?, course, ..parts };
            let splits = if found.splits.is_empty() {
                found.times.get(1..).unwrap_or_default()
            } else {
                &found.splits
            };
            with_splits(who, test, splits)
        }
        Resolved::Either(pairs) => {
            let mut options = Vec::new();
            for (far, time, course) in pairs {
                let test = Test {
                    distance: length(far)?,
                    time: typed_time(time)?,
                    course,
                    ..parts.clone()
                };
                let word = format!("{}{}", far.amount, far.unit.map_or("", |unit| unit.name()));
                options.push((word, with_splits(who, test, &found.splits)?));
            }
            let typed = options.iter().map(|(word, _)| word.as_str()).collect::<Vec<_>>().join(" ");
            Err(Trouble::Doubt(Doubt::Figure { typed }, options))
        }
        Resolved::SpacedTime { far, minutes, seconds } => {
            let figure = Figure::Clock { minutes, seconds, hundredths: None };
            let test = Test { distance: length(far)?, time: typed_time(figure)?, ..parts };
            let doubt = Doubt::Spelling {
                typed: format!("{minutes} {seconds:02}"),
                meant: format!("{minutes}:{seconds:02}"),
            };
            Err(Trouble::Doubt(
                doubt,
                vec![("yes".to_owned(), with_splits(who, test, &found.splits)?)],
            ))
        }
    }
}

fn gather(segment: &[Item]) -> Outcome<Found> {
    let mut found = Found::default();
    // Distance and time stand in for the real ones until those are settled.
    let mut parts = Test::new(Length { amount: 1, unit: None }, TypedTime::sure(Centis::GREATEST));
    for item in segment {
        match item {
            Item::Length(extent) => found.lengths.push(*extent),
            Item::Took(figure) => once(&mut found.took, *figure)?,
            Item::Figure(figure @ Figure::Number { .. }) => found.numbers.push(*figure),
            Item::Figure(figure) => found.times.push(*figure),
            Item::Minutes(minutes) => {
                once(&mut found.minutes, *minutes)?;
                found.minutes_first = found.lengths.is_empty() && found.numbers.is_empty();
            }
            Item::Mile => found.mile = true,
            Item::Splits(splits) => found.splits.clone_from(splits),
            Item::Stroke(stroke) => once(&mut parts.stroke, *stroke)?,
            Item::Course(course) => once(&mut parts.course, *course)?,
            Item::Day(day) => once(&mut parts.on, days::day(*day)?)?,
            Item::Fraction(first, second) => {
                let typed =
                    crate::message::syntax::TypedDay::Slashed { first: *first, second: *second };
                once(&mut parts.on, days::day(typed)?)?;
            }
            Item::Begin(start) => once(&mut parts.start, *start)?,
            Item::Meet => parts.meet = true,
            Item::Test | Item::Comma => {}
            _ => return Err(Trouble::Senseless),
        }
    }
    found.test = Some(Parts(parts));
    Ok(found)
}

/// Fills a field that may be said once; the same again changes nothing.
pub fn once<T: PartialEq>(field: &mut Option<T>, value: T) -> Outcome<()> {
    match field {
        Some(before) if *before != value => Err(Trouble::Senseless),
        _ => {
            *field = Some(value);
            Ok(())
        }
    }
}

enum Resolved {
    Sure { far: Extent, time: Figure, course: Option<Course> },
    Either(Vec<(Extent, Figure, Option<Course>)>),
    SpacedTime { far: Extent, minutes: u32, seconds: u32 },
}

/// Which figure is the distance and which the time. A number may be a distance
/// if it is a multiple of 25; if two may be, it is asked.
fn far_and_time(found: &Found, course: Option<Course>) -> Outcome<Resolved> {
    let bare = |figure: &Figure| match figure {
        Figure::Number { value, .. } => Extent { amount: *value, unit: None },
        _ => Extent { amount: 0, unit: None },
    };
    let may_be_far = |figure: &Figure| bare(figure).amount.is_multiple_of(25);
    let pool = |extent: &Extent| match course {
        None => reports::course(*extent),
        Some(_) => None,
    };
    let times = match &found.took {
        Some(took) if found.times.is_empty() => std::slice::from_ref(took),
        Some(_) => return Err(Trouble::Senseless),
        None => found.times.as_slice(),
    };
    match (found.lengths.as_slice(), found.numbers.as_slice(), times) {
        ([far], [], [time, ..]) => Ok(Resolved::Sure { far: *far, time: *time, course }),
        ([far], [time], []) => Ok(Resolved::Sure { far: *far, time: *time, course }),
        ([], [far], [time, ..]) => Ok(Resolved::Sure { far: bare(far), time: *time, course }),
        ([one, other], numbers, times) if numbers.len() + times.len().min(1) == 1 => {
            let time = times.first().or(numbers.first()).copied().ok_or(Trouble::Senseless)?;
            two_lengths(*one, *other, time, pool)
        }
        ([length], [number], [time, ..]) if may_be_far(number) => {
            two_lengths(*length, bare(number), *time, pool)
        }
        ([length], [one, other], []) if pool(length).is_some() => {
            either(one, other, pool(length), may_be_far, bare)
        }
        ([], [one, other], []) => either(one, other, course, may_be_far, bare),
        (
            [],
            [
                far,
                Figure::Number { value: minutes @ 0..=59, .. },
                Figure::Number { value: seconds @ 0..=59, digits: 2 },
            ],
            [],
        ) => Ok(Resolved::SpacedTime { far: bare(far), minutes: *minutes, seconds: *seconds }),
        _ => Err(Trouble::Senseless),
    }
}

fn either(
    one: &Figure,
    other: &Figure,
    course: Option<Course>,
    may_be_far: impl Fn(&Figure) -> bool,
    bare: impl Fn(&Figure) -> Extent,
) -> Outcome<Resolved> {
    match (may_be_far(one), may_be_far(other)) {
        (true, false) => Ok(Resolved::Sure { far: bare(one), time: *other, course }),
        (false, true) => Ok(Resolved::Sure { far: bare(other), time: *one, course }),
        _ => Ok(Resolved::Either(vec![(bare(one), *other, course), (bare(other), *one, course)])),
    }
}

/// Of two lengths one is the pool's: the one that can be, or else it is asked.
fn two_lengths(
    one: Extent,
    other: Extent,
    time: Figure,
    pool: impl Fn(&Extent) -> Option<Course>,
) -> Outcome<Resolved> {
    match (pool(&one), pool(&other)) {
        (Some(course), None) => Ok(Resolved::Sure { far: other, time, course: Some(course) }),
        (None, Some(course)) => Ok(Resolved::Sure { far: one, time, course: Some(course) }),
        (Some(first), Some(second)) => {
            Ok(Resolved::Either(vec![(one, time, Some(second)), (other, time, Some(first))]))
        }
        (None, None) => Err(Trouble::Senseless),
    }
}

/// A mile is 1500 m in a metric pool and 1650 yd in a yard pool: asked.
fn mile(who: Option<&Name>, parts: Test, found: &Found) -> Outcome<Vec<Statement>> {
    let time = match (&found.took, found.times.as_slice(), found.numbers.as_slice()) {
        (Some(time), [], []) | (None, [time, ..], []) | (None, [], [time]) => *time,
        _ => return Err(Trouble::Senseless),
    };
    let mut options = Vec::new();
    for (amount, unit) in [(1500, Unit::Metre), (1650, Unit::Yard)] {
        let test = Test {
            distance: Length { amount, unit: Some(unit) },
            time: typed_time(time)?,
            ..parts.clone()
        };
        options.push((amount.to_string(), with_splits(who, test, &found.splits)?));
    }
    Err(Trouble::Doubt(Doubt::Mile, options))
}

/// The test with its splits, if they add up to its time.
fn with_splits(who: Option<&Name>, mut test: Test, splits: &[Figure]) -> Outcome<Vec<Statement>> {
    if splits.is_empty() {
        return Ok(vec![about(who, Kind::Test(test))]);
    }
    if splits.len() == 1 {
        return Err(Trouble::Senseless);
    }
    let readings: Vec<TypedTime> =
        splits.iter().map(|split| typed_time(*split)).collect::<Outcome<_>>()?;
    // All split times of a swim are written alike: all in their first reading,
    // or all in their second.
    let ways: Vec<Vec<Centis>> = (0..2)
        .filter_map(|way| readings.iter().map(|time| time.readings.get(way).copied()).collect())
        .collect();
    for time in test.time.readings.clone() {
        for way in &ways {
            if let Some(own) = own_splits(way, time) {
                let tenths = test.time.tenths || !time.is_whole_seconds();
                test.time = TypedTime { readings: vec![time], tenths };
                test.splits = own;
                return Ok(vec![about(who, Kind::Test(test))]);
            }
        }
    }
    let (Some(time), Ok(plain)) = (
        test.time.readings.first().copied(),
        splits.iter().map(|split| plain_time(*split)).collect::<Result<Vec<_>, _>>(),
    ) else {
        return Err(Trouble::Senseless);
    };
    let sum = sum(&plain).ok_or(Trouble::Senseless)?;
    let as_said = Test { splits: Vec::new(), ..test.clone() };
    let as_added = Test { time: TypedTime::sure(sum), splits: plain, ..test };
    let options = vec![
        (time.short(), vec![about(who, Kind::Test(as_said))]),
        (sum.short(), vec![about(who, Kind::Test(as_added))]),
    ];
    Err(Trouble::Doubt(Doubt::Splits { sum, time }, options))
}

/// The splits each on its own, if they make up `time`: as given, or as the
/// differences of running times.
fn own_splits(splits: &[Centis], time: Centis) -> Option<Vec<Centis>> {
    let near = |sum: Centis| sum.hundredths().abs_diff(time.hundredths()) <= SPLITS_TOLERANCE;
    if near(sum(splits)?) {
        return Some(splits.to_vec());
    }
    if !near(*splits.last()?) {
        return None;
    }
    let mut own = vec![*splits.first()?];
    for [before, after] in splits.array_windows() {
        own.push(after.less(*before)?);
    }
    Some(own)
}

fn sum(splits: &[Centis]) -> Option<Centis> {
    splits.iter().copied().reduce(|one, other| one + other)
}
