//! A repeat set with what came of it.

use super::figures::{length, plain_time, send_off, typed_time, within};
use super::trials::once;
use super::{Outcome, Trouble, about, days};
use crate::message::syntax::{Figure, Item, Made, TypedDay};
use crate::message::{Doubt, Kind, Name, SetResult, Statement, TypedTime};
use crate::units::Rpe;

/// The set that `segment` reports.
pub fn set_result(who: Option<&Name>, segment: &[Item]) -> Outcome<Vec<Statement>> {
    let mut repeat = None;
    let mut result =
        SetResult::new(1, length(crate::message::syntax::Extent { amount: 1, unit: None })?);
    // `6/8` behind eight repeats tells how many were made, unless the times, the
    // average or the number made are told; then it is a day.
    let tells = |item: &Item| matches!(item, Item::Made(_) | Item::Held(_) | Item::Average(_));
    let told_nothing = !segment.iter().any(tells);
    let count = segment.iter().find_map(|item| match item {
        Item::Repeat(repeat) => Some(repeat.count),
        _ => None,
    });
    let mut missed = false;
    for item in segment {
        match item {
            Item::Repeat(one) => once(&mut repeat, *one)?,
            Item::Stroke(stroke) => once(&mut result.stroke, *stroke)?,
            Item::SendOff(figure) => {
                let one = send_off(*figure).map_err(|several| {
                    which(who, segment, item, &several.iter().map(|s| s.time()).collect::<Vec<_>>())
                })?;
                once(&mut result.send_off, one)?;
            }
            Item::Rest(figure) => {
                let one =
                    plain_time(*figure).map_err(|several| which(who, segment, item, &several))?;
                once(&mut result.rest, one)?;
            }
            Item::Target(figure) => {
                let one =
                    plain_time(*figure).map_err(|several| which(who, segment, item, &several))?;
                once(&mut result.target, one)?;
            }
            Item::Held(all) => {
                for one in all {
                    result.times.push(one.map(typed_time).transpose()?);
                }
            }
            Item::Figure(Figure::Number { value, .. }) if missed => {
                missed = false;
                let count = count.unwrap_or(0);
                once(&mut result.of, within(count, 1..=100)?)?;
                once(
                    &mut result.made,
                    within(count.checked_sub(*value).ok_or(Trouble::Senseless)?, 0..=100)?,
                )?;
            }
            Item::Figure(figure) => result.times.push(Some(typed_time(*figure)?)),
            Item::Miss => result.times.push(None),
            Item::Missed => missed = true,
            Item::Average(figure) => once(&mut result.average, typed_time(*figure)?)?,
            Item::Made(made) => {
                let count = count.unwrap_or(0);
                let (made, of) = match made {
                    Made::Of(made, of) => (*made, Some(*of)),
                    Made::All => (count, Some(count)),
                    Made::Some(made) => (*made, None),
                };
                once(&mut result.made, within(made, 0..=100)?)?;
                if let Some(of) = of {
                    once(&mut result.of, within(of, 1..=100)?)?;
                }
            }
            Item::Fraction(made, of) if told_nothing && made <= of && count == Some(*of) => {
                once(&mut result.made, within(*made, 0..=100)?)?;
                once(&mut result.of, within(*of, 1..=100)?)?;
            }
            Item::Fraction(first, second) => {
                let typed = TypedDay::Slashed { first: *first, second: *second };
                once(&mut result.on, days::day(typed)?)?;
            }
            Item::Equipment(kit) => result.equipment.push(*kit),
            Item::Rpe(tenths) => once(&mut result.rpe, rpe(*tenths)?)?,
            Item::HeartRate(beats) => once(&mut result.heart_rate, within(*beats, 30..=250)?)?,
            Item::Strokes(strokes) => once(&mut result.strokes, within(*strokes, 1..=99)?)?,
            Item::Day(day) => once(&mut result.on, days::day(*day)?)?,
            // How it was meant to be swum, not what came of it.
            Item::Done | Item::Level(_) | Item::Effort(_) => {}
            _ => return Err(Trouble::Senseless),
        }
    }
    let repeat = repeat.ok_or(Trouble::Senseless)?;
    result.count = within(repeat.count, 1..=100)?;
    result.distance = length(repeat.extent)?;
    result.equipment.sort_unstable();
    result.equipment.dedup();
    let overmade = result
        .made
        .zip(result.of.or(Some(result.count)))
        .is_some_and(|(made, of)| made > of || of > result.count);
    if missed || overmade {
        return Err(Trouble::Senseless);
    }
    counted(who, result)
}

/// A rating, 0 to 10.
pub fn rpe(tenths: u32) -> Outcome<Rpe> {
    within(tenths, 0..=100)
        .and_then(|tenths| Rpe::from_tenths(tenths).map_err(|_| Trouble::Senseless))
}

/// As many times as repeats, or the question which it was.
fn counted(who: Option<&Name>, result: SetResult) -> Outcome<Vec<Statement>> {
    let as_result = |result: SetResult| vec![about(who, Kind::SetResult(result))];
    if let Some((doubt, options)) = count_in_doubt(&result) {
        let options = options.into_iter().map(|(word, result)| (word, as_result(result)));
        return Err(Trouble::Doubt(doubt, options.collect()));
    }
    let said = !result.times.is_empty() || result.average.is_some() || result.made.is_some();
    let told =
        said || result.rpe.is_some() || result.heart_rate.is_some() || result.strokes.is_some();
    if told { Ok(as_result(result)) } else { Err(Trouble::Senseless) }
}

/// What is to be asked of a set with more or fewer times than repeats, and the
/// words that settle it, each with the set as it then is; `None` where they agree.
pub fn count_in_doubt(result: &SetResult) -> Option<(Doubt, Vec<(String, SetResult)>)> {
    let given = u16::try_from(result.times.len()).unwrap_or(u16::MAX);
    if given == 0 || given == result.count {
        return None;
    }
    let mut options: Vec<(String, SetResult)> = Vec::new();
    if let ([Some(one)], None) = (result.times.as_slice(), &result.average) {
        let average: TypedTime = one.clone();
        let averaged = SetResult { average: Some(average), times: Vec::new(), ..result.clone() };
        options.push(("avg".to_owned(), averaged));
    }
    if given <= 100 {
        options.push((given.to_string(), SetResult { count: given, ..result.clone() }));
    }
    if given < result.count {
        let mut missing = result.clone();
        missing.times.resize(usize::from(result.count), None);
        options.push(("x".to_owned(), missing));
    }
    Some((Doubt::TimesCount { given, repeats: result.count }, options))
}

/// The set as it was typed, out of the answers to the question how many it were.
pub fn as_typed(doubt: &Doubt, options: &[(String, Vec<Statement>)]) -> Option<Vec<Statement>> {
    let Doubt::TimesCount { given, repeats } = doubt else { return None };
    let (_, said) = options.iter().find(|(word, _)| *word == given.to_string())?;
    let typed = said.iter().cloned().map(|mut one| {
        if let Kind::SetResult(set) = &mut one.kind
            && set.times.len() == usize::from(*given)
        {
            set.count = *repeats;
        }
        one
    });
    Some(typed.collect())
}

/// The question which of several times a number is, each with the set that
/// follows from it.
fn which(
    who: Option<&Name>,
    segment: &[Item],
    item: &Item,
    several: &[crate::units::Centis],
) -> Trouble {
    if several.is_empty() {
        return Trouble::Senseless;
    }
    let mut options = Vec::new();
    for time in several {
        let seconds = Figure::Seconds {
            seconds: time.hundredths() / 100,
            hundredths: Some(time.hundredths() % 100),
        };
        let settled: Vec<Item> = segment
            .iter()
            .map(|one| match one {
                one if one != item => one.clone(),
                Item::SendOff(_) => Item::SendOff(seconds),
                Item::Rest(_) => Item::Rest(seconds),
                Item::Target(_) => Item::Target(seconds),
                other => other.clone(),
            })
            .collect();
        match set_result(who, &settled) {
            Ok(statements) => options.push((time.short(), statements)),
            // A second doubt: typing it again settles both.
            Err(Trouble::Doubt(..)) => {}
            Err(Trouble::Senseless) => return Trouble::Senseless,
        }
    }
    let typed = several.iter().map(|time| time.short()).collect::<Vec<_>>().join(" or ");
    Trouble::Doubt(Doubt::Figure { typed }, options)
}
