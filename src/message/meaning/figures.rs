//! What a figure can mean as a time.

use super::{Outcome, Trouble};
use crate::message::syntax::{Extent, Figure};
use crate::message::{Length, TypedTime};
use crate::units::{Centis, SendOff};

/// Below this many seconds nobody swims a length of any pool (the fastest 25
/// from a dive takes longer), so `3.12` after `hold` is 3 min 12 s. Ours.
pub const SHORTEST_SWIM_S: u32 = 9;

/// Every time that `figure` may be, the likelier first.
pub fn typed_time(figure: Figure) -> Outcome<TypedTime> {
    let readings: Vec<Centis> = readings(figure)
        .into_iter()
        .flatten()
        .filter_map(|hundredths| Centis::new(hundredths).ok())
        .collect();
    let first = readings.first().ok_or(Trouble::Senseless)?;
    let tenths = match figure {
        Figure::Number { .. } => false,
        _ => !first.is_whole_seconds() || has_decimals(figure),
    };
    Ok(TypedTime { tenths, readings })
}

const fn has_decimals(figure: Figure) -> bool {
    match figure {
        Figure::Hours { hundredths, .. }
        | Figure::Clock { hundredths, .. }
        | Figure::Seconds { hundredths, .. } => hundredths.is_some(),
        Figure::Dotted { places, .. } => places == 1,
        Figure::Number { .. } => false,
    }
}

/// The one or two readings, in hundredths.
fn readings(figure: Figure) -> [Option<u32>; 2] {
    let clock = |minutes: u32, seconds: u32, hundredths: u32| {
        Some(minutes * 6000 + seconds * 100 + hundredths)
    };
    match figure {
        Figure::Number { value, digits } => {
            let seconds = value.checked_mul(100);
            let (minutes, rest) = (value / 100, value % 100);
            match digits {
                1 | 2 => [seconds, value.checked_mul(6000)],
                3 | 4 if rest < 60 && minutes > 0 => [clock(minutes, rest, 0), seconds],
                _ => [seconds, None],
            }
        }
        Figure::Hours { hours, minutes, seconds, hundredths } => {
            let long = hours * 360_000 + minutes * 6000 + seconds * 100 + hundredths.unwrap_or(0);
            // `1:02:35` with colons throughout is also written for 1:02.35.
            let short = hundredths.is_none().then(|| hours * 6000 + minutes * 100 + seconds);
            [Some(long), short]
        }
        Figure::Clock { minutes, seconds, hundredths } => {
            [clock(minutes, seconds, hundredths.unwrap_or(0)), None]
        }
        Figure::Seconds { seconds, hundredths } => {
            [Some(seconds * 100 + hundredths.unwrap_or(0)), None]
        }
        Figure::Dotted { whole, decimals, places: 1 } => [Some(whole * 100 + decimals * 10), None],
        Figure::Dotted { whole, decimals, .. } => {
            let seconds = Some(whole * 100 + decimals);
            let minutes = (decimals < 60).then(|| whole * 6000 + decimals * 100);
            if whole < SHORTEST_SWIM_S {
                [minutes.or(seconds), minutes.and(seconds)]
            } else {
                [seconds, minutes]
            }
        }
    }
}

/// A time that can mean one thing only where it stands: a target, a rest, a
/// split. A bare number is seconds up to 99; a longer one may be minutes too.
///
/// # Errors
/// The readings, where there are two.
pub fn plain_time(figure: Figure) -> Result<Centis, Vec<Centis>> {
    let readings = typed_time(figure).map(|time| time.readings).unwrap_or_default();
    let first = readings.first().copied().ok_or_else(Vec::new)?;
    match figure {
        Figure::Number { digits: 1 | 2, .. } | Figure::Dotted { .. } | Figure::Hours { .. } => {
            Ok(first)
        }
        _ if readings.len() > 1 => Err(readings),
        _ => Ok(first),
    }
}

/// A send-off; `on 1:05`, `on 65`, `on 1.05`.
///
/// # Errors
/// The possible send-offs, none where it can be none.
pub fn send_off(figure: Figure) -> Result<SendOff, Vec<SendOff>> {
    let whole = |time: &Centis| {
        time.is_whole_seconds().then(|| SendOff::new(time.hundredths() / 100).ok()).flatten()
    };
    let typed = typed_time(figure).map(|time| time.readings).unwrap_or_default();
    let readings = match figure {
        Figure::Number { digits: 1 | 2, .. } => 1,
        _ => typed.len(),
    };
    let possible: Vec<SendOff> = typed.iter().take(readings).filter_map(whole).collect();
    match possible.as_slice() {
        [one] => Ok(*one),
        _ => Err(possible),
    }
}

/// A distance, if it is one.
pub fn length(extent: Extent) -> Outcome<Length> {
    match extent.amount {
        1..=100_000 => Ok(Length { amount: extent.amount, unit: extent.unit }),
        _ => Err(Trouble::Senseless),
    }
}

/// A whole number of minutes as a time.
pub fn minutes(minutes: u32) -> Outcome<Centis> {
    Centis::from_whole_seconds(minutes.saturating_mul(60)).map_err(|_| Trouble::Senseless)
}

/// A number in the range of its field.
pub fn within<T: TryFrom<u32>>(number: u32, range: std::ops::RangeInclusive<u32>) -> Outcome<T> {
    if !range.contains(&number) {
        return Err(Trouble::Senseless);
    }
    T::try_from(number).map_err(|_| Trouble::Senseless)
}
