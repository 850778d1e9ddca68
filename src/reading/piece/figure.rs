//! Figures that may be a time: as typed, with every reading they can have.

use nom::branch::alt;
use nom::combinator::{map, not, opt, peek, verify};
use nom::sequence::{pair, preceded, terminated};
use nom::{Input, Parser};

use super::cell::{
    Read, Words, concept, digits, glued_digits, glued_mark, glued_word, mark, no, one, unit, word,
};
use super::number::{below_hundred, number_word, sounds_like, spelled, thousands};
use crate::reading::lex::Form;
use crate::reading::lexicon::{Concept, Sense, UnitWord};
use crate::units::Centis;

/// A figure without a unit of distance.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Figure {
    /// `312`, `48`, `forty eight`
    Whole {
        /// Its value.
        value: u32,
        /// How many digits were typed; none where it was said in words.
        places: u8,
    },
    /// `3:12.4`, `3'12`, `3m12s`, `three oh nine`, `1:02:10`
    Clock(Clock),
    /// `3.12`, `47.2`, `3,12`: minutes and seconds, or seconds and their parts.
    Parted {
        /// Before the mark.
        whole: u32,
        /// The digits behind it.
        parts: u32,
        /// How many.
        places: u8,
        /// The mark was a comma.
        comma: bool,
    },
}

/// A time whose minutes and seconds are told apart.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Clock {
    /// Its length.
    pub time: Centis,
    /// Hundredths or tenths were given.
    pub tenths: bool,
    /// It can be a time of day: two or four digits about a colon or a point.
    pub day_time: Option<(u8, u8)>,
}

/// The times that a figure may be, the likeliest first: two at most.
#[derive(Debug, Clone, Copy)]
pub struct Times {
    all: [Centis; 2],
    count: usize,
}

impl Times {
    /// Those of two that there are, each once.
    fn of(several: [Option<Centis>; 2]) -> Self {
        let mut times = Times { all: [Centis::GREATEST; 2], count: 0 };
        for time in several.into_iter().flatten() {
            if !times.contains(&time) {
                times.all[times.count] = time;
                times.count += 1;
            }
        }
        times
    }
}

impl std::ops::Deref for Times {
    type Target = [Centis];

    fn deref(&self) -> &[Centis] {
        &self.all[..self.count]
    }
}

impl IntoIterator for Times {
    type Item = Centis;
    type IntoIter = std::iter::Take<std::array::IntoIter<Centis, 2>>;

    fn into_iter(self) -> Self::IntoIter {
        self.all.into_iter().take(self.count)
    }
}

impl Figure {
    /// Every time that it may be, the likeliest first.
    pub fn times(self) -> Times {
        let centis = |hundredths: u32| Centis::new(hundredths).ok();
        let clock = |minutes: u32, seconds: u32, parts: u32| {
            (seconds < 60).then(|| centis((minutes * 60 + seconds) * 100 + parts)).flatten()
        };
        Times::of(match self {
            Figure::Clock(clock) => [Some(clock.time), None],
            Figure::Whole { value, .. } if value < 100 => [centis(value * 100), None],
            Figure::Whole { value, .. } if value < 10_000 => {
                [clock(value / 100, value % 100, 0), centis(value * 100)]
            }
            Figure::Whole { value, .. } => [
                clock(value / 10_000 * 60 + value / 100 % 100, value % 100, 0)
                    .filter(|_| value / 100 % 100 < 60),
                None,
            ],
            Figure::Parted { whole, parts, places, .. } => {
                let seconds = centis(whole * 100 + if places == 1 { parts * 10 } else { parts });
                match places {
                    // `27 y medio`, `27.5` of a 1500: half a minute.
                    1 if parts == 5 && whole >= 13 => [seconds, clock(whole, 30, 0)],
                    1 => [seconds, clock(whole, parts * 10, 0)],
                    _ if parts < 60 && whole < 60 => [clock(whole, parts, 0), seconds],
                    _ => [seconds, None],
                }
            }
        })
    }

    /// The number, where it is a whole one.
    pub fn whole(self) -> Option<u32> {
        match self {
            Figure::Whole { value, .. } => Some(value),
            _ => None,
        }
    }

    /// True where tenths of a second were given, as far as it is seconds.
    pub fn has_tenths(self) -> bool {
        match self {
            Figure::Whole { .. } => false,
            Figure::Clock(clock) => clock.tenths,
            Figure::Parted { places, .. } => places == 1,
        }
    }

    /// The same and half a second more, where that makes sense.
    fn and_half(self) -> Option<Figure> {
        match self {
            Figure::Clock(clock) if !clock.tenths => Some(Figure::Clock(Clock {
                time: Centis::new(clock.time.hundredths() + 50).ok()?,
                tenths: true,
                day_time: None,
            })),
            Figure::Whole { value: whole @ 13..=99, .. } => {
                Some(Figure::Parted { whole, parts: 5, places: 1, comma: false })
            }
            Figure::Parted { whole, parts, places: 2, .. } if parts < 60 => {
                Some(Figure::Clock(Clock {
                    time: Centis::new((whole * 60 + parts) * 100 + 50).ok()?,
                    tenths: true,
                    day_time: None,
                }))
            }
            _ => None,
        }
    }

    /// True for a figure that says itself that it is a time.
    pub fn is_marked(self) -> bool {
        matches!(self, Figure::Clock(_))
    }

    /// The time of day that it may be, on a clock of twelve or 24 hours.
    pub fn day_time(self) -> Option<(u8, u8)> {
        let of = |hour: u32, minute: u32| {
            (hour < 24 && minute < 60)
                .then_some((u8::try_from(hour).ok()?, u8::try_from(minute).ok()?))
        };
        match self {
            Figure::Clock(clock) => clock.day_time,
            Figure::Whole { value, .. } if (1..=24).contains(&value) => of(value % 24, 0),
            Figure::Whole { value, places: 3 | 4 } => of(value / 100, value % 100),
            Figure::Whole { .. } => None,
            Figure::Parted { whole, parts, places: 2, .. } => of(whole, parts),
            Figure::Parted { .. } => None,
        }
    }
}

/// Any figure, the longest shape first.
pub fn figure<'t>(input: Words<'t>) -> Read<'t, Figure> {
    let (rest, figure) = alt((
        map(alt((hours, quoted, lettered, colon, dotted_twice, said)), Figure::Clock),
        short_colon,
        parted,
        parted_by_word,
        map(verify(thousands, |value| value.is_multiple_of(50)), |value| Figure::Whole {
            value,
            places: 4,
        }),
        in_digits,
        map(spelled, |value| Figure::Whole { value, places: 0 }),
    ))
    .parse(input)?;
    match (figure.and_half(), half_behind(rest)) {
        (Some(figure), Ok((rest, ()))) => Ok((rest, figure)),
        _ => Ok((rest, figure)),
    }
}

/// `and a half`, `y medio`: of a second.
fn half_behind<'t>(input: Words<'t>) -> Read<'t, ()> {
    let and = pair(concept(Concept::And), opt(concept(Concept::Article)));
    let (rest, ()) = preceded(and, concept(Concept::Half)).parse(input)?;
    // `7 y media` is a time of day, `dos y medio km` a distance.
    let day = word("media")(input.take_from(1)).is_ok();
    match day || unit(UnitWord::Kilo)(rest).is_ok() || unit(UnitWord::Hour)(rest).is_ok() {
        true => no(input),
        false => Ok((rest, ())),
    }
}

/// `3 con 12`, `cuarenta y ocho punto cinco`, `three point twelve`.
fn parted_by_word<'t>(input: Words<'t>) -> Read<'t, Figure> {
    let number = || alt((map(digits(1, 2), |(value, _)| value), below_hundred));
    let (rest, whole) = terminated(number(), concept(Concept::Point)).parse(input)?;
    let in_words = map(below_hundred, |value| (value, if value < 10 { 1 } else { 2 }));
    let mut behind = alt((digits(1, 2), map(zero_unit, |value| (value, 2)), in_words));
    let (rest, (parts, places)) = behind.parse(rest)?;
    // `4 con 20 de descanso`, `6 con 10 s`: how many, and their rest.
    let counted = |sense| match sense {
        Sense::Unit(_) | Sense::Kit(_) | Sense::Word(Concept::RestWord | Concept::Of) => Some(()),
        _ => None,
    };
    match super::cell::sense(counted)(rest).is_ok() {
        true => no(input),
        false => Ok((rest, Figure::Parted { whole, parts, places, comma: false })),
    }
}

fn in_digits<'t>(input: Words<'t>) -> Read<'t, Figure> {
    map(digits(1, 6), |(value, places)| Figure::Whole { value, places }).parse(input)
}

fn clock(minutes: u32, seconds: u32, parts: Option<(u32, u8)>) -> Option<Clock> {
    let hundredths = match parts {
        None => 0,
        Some((value, 1)) => value * 10,
        Some((value, 2)) => value,
        Some(_) => return None,
    };
    let time = Centis::new((minutes * 60 + seconds) * 100 + hundredths).ok()?;
    let day_time = (minutes < 24 && seconds < 60 && parts.is_none())
        .then(|| Some((u8::try_from(minutes).ok()?, u8::try_from(seconds).ok()?)))
        .flatten();
    Some(Clock { time, tenths: parts.is_some(), day_time })
}

/// Minutes, seconds and parts, made a clock.
fn made<'t>(
    input: Words<'t>,
    rest: Words<'t>,
    minutes: u32,
    seconds: u32,
    parts: Option<(u32, u8)>,
) -> Read<'t, Clock> {
    match clock(minutes, seconds, parts).filter(|_| seconds < 60) {
        Some(clock) => Ok((rest, clock)),
        None => no(input),
    }
}

/// `.4`, `,45` close behind.
fn parts<'t>(input: Words<'t>) -> Read<'t, (u32, u8)> {
    preceded(alt((glued_mark('.'), glued_mark(','))), glued_digits(1, 2)).parse(input)
}

/// `1:02:10`
fn hours<'t>(input: Words<'t>) -> Read<'t, Clock> {
    let seconds =
        || preceded(glued_mark(':'), verify(glued_digits(2, 2), |(value, _)| *value < 60));
    let (rest, ((hours, _), ((minutes, _), (second, _)))) =
        pair(digits(1, 2), pair(seconds(), seconds())).parse(input)?;
    let (rest, parts) = opt(parts).parse(rest)?;
    made(input, rest, hours * 60 + minutes, second, parts)
}

/// `3'12`, `3' 12"`, `3'12"4`, `3'12''`, `3'` and `45"` being lengths of time of
/// their own.
fn quoted<'t>(input: Words<'t>) -> Read<'t, Clock> {
    let (rest, ((minutes, _), (seconds, _))) = pair(
        digits(1, 3),
        preceded(glued_mark('\''), verify(digits(1, 2), |(value, _)| *value < 60)),
    )
    .parse(input)?;
    let double = map(pair(glued_mark('\''), glued_mark('\'')), |_| ());
    let (rest, closed) = opt(alt((glued_mark('"'), double))).parse(rest)?;
    // `pausa 1' 8x50`: a minute, and something else.
    let (rest, ()) = not(alt((super::cell::word("x"), mark('*')))).parse(rest)?;
    let behind = glued_digits(1, 2);
    let (rest, tenths) = match closed {
        Some(()) => opt(alt((parts, behind))).parse(rest)?,
        None => opt(parts).parse(rest)?,
    };
    made(input, rest, minutes, seconds, tenths)
}

/// `3m12`, `3min10`, `3 min 12 s`, `3 minutes and 12 seconds`, `2m57s`.
fn lettered<'t>(input: Words<'t>) -> Read<'t, Clock> {
    let minutes = alt((map(digits(1, 3), |(value, _)| value), below_hundred, sounds_like));
    let minute = alt((unit(UnitWord::Minute), glued_word(&["m"])));
    let (rest, minutes) = terminated(minutes, minute).parse(input)?;
    let joined = opt(alt((concept(Concept::And), concept(Concept::Point))));
    let seconds = alt((map(digits(1, 2), |(value, _)| value), zero_unit, below_hundred));
    let (rest, seconds) = preceded(joined, seconds).parse(rest)?;
    let (rest, tenths) = opt(alt((parts, said_parts))).parse(rest)?;
    // `20 mins 1200`, `45 min 2k`, `3 min 12x50` are two things.
    let (rest, ended) = opt(alt((unit(UnitWord::Second), glued_word(&["s"])))).parse(rest)?;
    let more = one(|cell| {
        let counts = cell.senses.iter().any(|found| matches!(found.sense, Sense::Unit(_)));
        (cell.token.glued && matches!(cell.token.form, Form::Word | Form::Digits { .. }) || counts)
            .then_some(())
    });
    let times = alt((glued_mark(':'), glued_mark('.'), glued_mark('\'')));
    let goes_on = peek(pair(times, glued_digits(1, 9))).parse(rest).is_ok();
    if ended.is_none() && (peek(more).parse(rest).is_ok() || goes_on) {
        return no(input);
    }
    made(input, rest, minutes, seconds, tenths)
}

/// `3:12`, `3:12.4`, `3 : 12`
fn colon<'t>(input: Words<'t>) -> Read<'t, Clock> {
    let sixty = verify(digits(2, 2), |(value, _)| *value < 60);
    let (rest, ((minutes, _), (seconds, _))) =
        pair(digits(1, 3), preceded(mark(':'), sixty)).parse(input)?;
    let (rest, tenths) = opt(parts).parse(rest)?;
    // A third group would make it something else.
    let (rest, ()) = not(pair(glued_mark(':'), glued_digits(1, 9))).parse(rest)?;
    made(input, rest, minutes, seconds, tenths)
}

/// `:48`
fn short_colon<'t>(input: Words<'t>) -> Read<'t, Figure> {
    let (rest, (seconds, _)) =
        preceded(mark(':'), verify(glued_digits(2, 2), |(value, _)| *value <= 60)).parse(input)?;
    let (rest, tenths) = opt(parts).parse(rest)?;
    match clock(0, seconds, tenths) {
        Some(clock) => Ok((rest, Figure::Clock(Clock { day_time: None, ..clock }))),
        None => no(input),
    }
}

/// `1.40.5`, `3.12,4`
fn dotted_twice<'t>(input: Words<'t>) -> Read<'t, Clock> {
    let mark = || alt((glued_mark('.'), glued_mark(',')));
    let sixty = verify(glued_digits(2, 2), |(value, _)| *value < 60);
    let (rest, ((minutes, _), ((seconds, _), tenths))) =
        pair(digits(1, 2), pair(preceded(mark(), sixty), preceded(mark(), glued_digits(1, 2))))
            .parse(input)?;
    made(input, rest, minutes, seconds, Some(tenths))
}

/// `3.12`, `47.2`, `3,12`
fn parted<'t>(input: Words<'t>) -> Read<'t, Figure> {
    let point = alt((map(glued_mark('.'), |()| false), map(glued_mark(','), |()| true)));
    let (rest, ((whole, _), (comma, (parts, places)))) =
        pair(digits(1, 3), pair(point, glued_digits(1, 2))).parse(input)?;
    let more = pair(alt((glued_mark('.'), glued_mark(','), glued_mark(':'))), glued_digits(1, 9));
    let (rest, ()) = not(more).parse(rest)?;
    Ok((rest, Figure::Parted { whole, parts, places, comma }))
}

/// `three oh nine`, `two forty four`, `six fifty one`, `won twenty eight`, `three
/// eleven point five`, `three minutes dead`, `tres cero nueve`.
fn said<'t>(input: Words<'t>) -> Read<'t, Clock> {
    let teen = |input: Words<'t>| number_word(input, |value| (1..20).contains(&value));
    // `for forty minutes`, `to fifty`: of the words that sound like a number only
    // those that are hardly ever anything else.
    let heard = verify(sounds_like, |value| matches!(value, 1 | 8));
    let heard = preceded(not(alt((super::cell::word("a"), super::cell::word("an")))), heard);
    let (rest, minutes) = alt((teen, heard)).parse(input)?;
    let above = |input: Words<'t>| match below_hundred(input) {
        Ok((rest, value)) if (10..60).contains(&value) => Ok((rest, value)),
        _ => no(input),
    };
    let (rest, seconds) =
        preceded(opt(concept(Concept::Point)), alt((zero_unit, above))).parse(rest)?;
    // `two fifty metres`, `one fifty hundreds`: no time.
    let counted = |sense| match sense {
        Sense::Number(100 | 1000) | Sense::Plural(_) => Some(()),
        Sense::Unit(UnitWord::Metre | UnitWord::Yard | UnitWord::Length) => Some(()),
        _ => None,
    };
    if super::cell::sense(counted)(rest).is_ok() {
        return no(input);
    }
    let (rest, tenths) = opt(said_parts).parse(rest)?;
    let clock = made(input, rest, minutes, seconds, tenths)?;
    Ok(clock)
}

/// `oh nine`, `o five`, `zero four`
fn zero_unit<'t>(input: Words<'t>) -> Read<'t, u32> {
    let zero = super::cell::sense(|sense| match sense {
        Sense::Number(0) | Sense::SoundsLike(0) => Some(()),
        _ => None,
    });
    preceded(zero, |input| number_word(input, |value| (1..10).contains(&value))).parse(input)
}

/// `point five`
fn said_parts<'t>(input: Words<'t>) -> Read<'t, (u32, u8)> {
    let point = concept(Concept::Point);
    let digit = |input: Words<'t>| number_word(input, |value| value < 10);
    let (rest, first) = preceded(point, digit).parse(input)?;
    match opt(digit).parse(rest)? {
        (rest, Some(second)) => Ok((rest, (first * 10 + second, 2))),
        (rest, None) => Ok((rest, (first, 1))),
    }
}

/// A unit of time behind a figure: how many hundredths one is.
pub fn time_unit<'t>(input: Words<'t>) -> Read<'t, u32> {
    let quote = alt((map(glued_mark('"'), |()| 100), map(glued_mark('\''), |()| 6000)));
    let word = super::cell::sense(|sense| match sense {
        Sense::Unit(UnitWord::Second) => Some(100),
        Sense::Unit(UnitWord::Minute) => Some(6000),
        Sense::Unit(UnitWord::Hour) => Some(360_000),
        _ => None,
    });
    alt((quote, word)).parse(input)
}

/// A length of time with its unit: `45 min`, `20"`, `half an hour`, `1h05`, `an
/// hour and a half`, `three quarters of an hour`.
pub fn span<'t>(input: Words<'t>) -> Read<'t, Centis> {
    alt((hour_and_minutes, portion_of_hour, hours_and_half, with_unit)).parse(input)
}

fn centis<'t>(input: Words<'t>, rest: Words<'t>, hundredths: u32) -> Read<'t, Centis> {
    match Centis::new(hundredths) {
        Ok(time) => Ok((rest, time)),
        Err(_) => no(input),
    }
}

fn with_unit<'t>(input: Words<'t>) -> Read<'t, Centis> {
    let article = map(alt((word("an"), word("one"), word("un"), word("una"))), |()| (100, 1));
    let couple = map(sounds_like, |value| (value * 100, 1));
    let (rest, (whole, _)) =
        alt((decimal, article, verify(couple, |(value, _)| *value > 100))).parse(input)?;
    let (rest, each) = preceded(opt(mark('-')), time_unit).parse(rest)?;
    let hundredths = u64::from(whole) * u64::from(each) / 100;
    centis(input, rest, u32::try_from(hundredths).unwrap_or(0))
}

/// A number in hundredths of itself, and how many decimals were typed.
pub fn decimal<'t>(input: Words<'t>) -> Read<'t, (u32, u8)> {
    let (rest, figure) =
        alt((parted, in_digits, map(spelled, |value| Figure::Whole { value, places: 0 })))
            .parse(input)?;
    match figure {
        Figure::Whole { value, .. } => Ok((rest, (value.saturating_mul(100), 0))),
        Figure::Parted { whole, parts, places, .. } => {
            Ok((rest, (whole * 100 + if places == 1 { parts * 10 } else { parts }, places)))
        }
        Figure::Clock(_) => no(input),
    }
}

/// `1h05`, `1 hr 10`, `2 hours 15 mins`
fn hour_and_minutes<'t>(input: Words<'t>) -> Read<'t, Centis> {
    let hour = alt((unit(UnitWord::Hour), glued_word(&["h"])));
    let (rest, hours) = terminated(how_many_hours, hour).parse(input)?;
    let minutes = alt((map(digits(1, 2), |(value, _)| value), |input| {
        number_word(input, |value| (5..60).contains(&value))
    }));
    let (rest, and) = opt(concept(Concept::And)).parse(rest)?;
    let (rest, minutes) = verify(minutes, |value| *value < 60).parse(rest)?;
    let (rest, unit) = opt(alt((unit(UnitWord::Minute), glued_word(&["m"])))).parse(rest)?;
    // `1 hora y 48 largos`, `una hora y 20x50`: two things.
    let more = |sense| matches!(sense, Sense::Unit(_)).then_some(());
    let crossed = alt((word("x"), mark('*'))).parse(rest).is_ok();
    match unit.is_none() && (and.is_some() || super::cell::sense(more)(rest).is_ok() || crossed) {
        true => no(input),
        false => centis(input, rest, (hours * 60 + minutes) * 6000),
    }
}

/// `1`, `two`, `una`.
fn how_many_hours<'t>(input: Words<'t>) -> Read<'t, u32> {
    alt((
        map(digits(1, 2), |(value, _)| value),
        below_hundred,
        map(alt((word("an"), word("una"))), |()| 1),
    ))
    .parse(input)
}

/// `half an hour`, `quarter of an hour`, `three quarters of an hour`
fn portion_of_hour<'t>(input: Words<'t>) -> Read<'t, Centis> {
    let half = map(concept(Concept::Half), |()| 30);
    let quarters = pair(number_or_digit(3), concept(Concept::Quarter));
    let three = map(quarters, |_| 45);
    let quarter = map(concept(Concept::Quarter), |()| 15);
    let little = alt((concept(Concept::Of), concept(Concept::Article)));
    let (rest, minutes) = alt((three, half, quarter)).parse(input)?;
    let (rest, _) = opt(little).parse(rest)?;
    let (rest, _) = opt(concept(Concept::Article)).parse(rest)?;
    let (rest, ()) = unit(UnitWord::Hour)(rest)?;
    centis(input, rest, minutes * 6000)
}

/// `an hour and a half`, `una hora y media`
fn hours_and_half<'t>(input: Words<'t>) -> Read<'t, Centis> {
    let (rest, hours) = terminated(opt(how_many_hours), unit(UnitWord::Hour)).parse(input)?;
    let (rest, _) = pair(concept(Concept::And), opt(concept(Concept::Article))).parse(rest)?;
    let half = map(concept(Concept::Half), |()| 180_000);
    let quarter = map(concept(Concept::Quarter), |()| 90_000);
    let (rest, more) = alt((half, quarter)).parse(rest)?;
    centis(input, rest, hours.unwrap_or(1) * 360_000 + more)
}

/// This number, in a digit or a word.
fn number_or_digit<'t>(wanted: u32) -> impl FnMut(Words<'t>) -> Read<'t, ()> {
    move |input| {
        let digit = map(verify(digits(1, 1), move |(value, _)| *value == wanted), |_| ());
        let said = map(move |input| number_word(input, |value| value == wanted), |_| ());
        alt((digit, said)).parse(input)
    }
}
