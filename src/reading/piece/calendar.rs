//! Days, dates and times of day.

use jiff::civil::Weekday;
use nom::Parser;
use nom::branch::alt;
use nom::combinator::{map, opt, verify};
use nom::sequence::{pair, preceded, terminated};

use super::cell::{
    Read, Words, concept, digits, glued_digits, glued_mark, glued_word, mark, no, sense, word,
};
use super::feast::Feast;
use super::number::below_hundred;
use crate::message::Day;
use crate::reading::lexicon::{Concept, Sense, UnitWord};

/// Which of the weekdays of that name.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Which {
    /// `mon`
    Plain,
    /// `next mon`
    Next,
    /// `last mon`
    Last,
}

/// A day named, before the clock says which.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Named {
    /// `tonight`, `tue`, `18 april`, `20/12`
    Day(Day, Which),
    /// `the 20th`: of this month or the next.
    OfMonth(u8),
    /// `3 days ago`, `in two weeks`: so many days from today.
    From(i32),
    /// `next week`, `this week`, `the weekend`: by its first day, as so many weeks
    /// from this one.
    Week(i32),
    /// `week of the 16th`, `w/c 16 march`: the week that holds a day of the month, of
    /// this month or the next where none is said.
    WeekOf(u8, Option<u8>),
    /// `april`
    Month(u8),
    /// `the end of may`
    EndOf(u8),
    /// `easter`, `boxing day`
    Feast(Feast),
}

/// A day, in any of its shapes.
pub fn day<'t>(input: Words<'t>) -> Read<'t, Named> {
    alt((
        feast,
        end_of_month,
        full,
        day_month,
        month_day,
        slashed,
        dotted,
        weekday,
        ago,
        ahead,
        week_of,
        week,
        of_month,
        late_of_month,
        near,
        month,
    ))
    .parse(input)
}

fn plain(day: Day) -> Named {
    Named::Day(day, Which::Plain)
}

/// `easter`, `good friday`, `christmas`
fn feast<'t>(input: Words<'t>) -> Read<'t, Named> {
    sense(|sense| match sense {
        Sense::Feast(feast) => Some(Named::Feast(feast)),
        _ => None,
    })(input)
}

/// `end of may`, `the end of june`
fn end_of_month<'t>(input: Words<'t>) -> Read<'t, Named> {
    map(preceded(concept(Concept::EndOf), month_word), Named::EndOf).parse(input)
}

/// `tonight`, `yesterday`, `the day after tomorrow`
fn near<'t>(input: Words<'t>) -> Read<'t, Named> {
    sense(|sense| match sense {
        Sense::Day(day @ (Day::Today | Day::Yesterday | Day::Tomorrow)) => Some(plain(day)),
        Sense::Word(Concept::DayAfterTomorrow) => Some(Named::From(2)),
        Sense::Word(Concept::DayBeforeYesterday) => Some(Named::From(-2)),
        _ => None,
    })(input)
}

fn weekday_word<'t>(input: Words<'t>) -> Read<'t, Weekday> {
    sense(|sense| match sense {
        Sense::Day(Day::On(weekday)) => Some(weekday),
        _ => None,
    })(input)
}

/// `mon`, `next wed`, `last tue`, `wed 18 march`, `mon 16th`
fn weekday<'t>(input: Words<'t>) -> Read<'t, Named> {
    let begins = alt((concept(Concept::Article), concept(Concept::This)));
    let (behind_article, article) = opt(begins).parse(input)?;
    let which = alt((
        map(concept(Concept::Next), |()| Which::Next),
        map(concept(Concept::Last), |()| Which::Last),
    ));
    let (rest, which) = opt(which).parse(behind_article)?;
    let (rest, weekday) = weekday_word(rest)?;
    let (rest, _) = opt(concept(Concept::DayPart)).parse(rest)?;
    let date = preceded(
        opt(pair(opt(concept(Concept::Article)), opt(word("dia")))),
        alt((full, day_month, month_day, slashed, of_month_number)),
    );
    if let Ok((rest, Named::Day(day, _))) = preceded(opt(mark(',')), date).parse(rest) {
        return Ok((rest, plain(day)));
    }
    // `mon 16`; `el lunes 9`, which no hour follows without `a las`.
    let spanish = article.is_some() && input.0.first().is_some_and(|cell| cell.token.text == "el");
    if let Ok((rest, of_month)) = of_month_bare(rest, if spanish { 1 } else { 13 }) {
        return Ok((rest, of_month));
    }
    // `el lunes pasado`, `el lunes que viene`: in Spanish the coming one.
    let after = alt((
        map(concept(Concept::Last), |()| Which::Last),
        map(concept(Concept::Next), |()| Which::Plain),
    ));
    let behind = opt(after).parse(rest)?;
    match behind {
        (rest, Some(said)) if spanish && which.is_none() => {
            Ok((rest, Named::Day(Day::On(weekday), said)))
        }
        _ => Ok((rest, Named::Day(Day::On(weekday), which.unwrap_or(Which::Plain)))),
    }
}

/// `mon 16`: the day of the month behind its weekday.
fn of_month_bare<'t>(input: Words<'t>, least: u32) -> Read<'t, Named> {
    let (rest, (value, _)) =
        verify(digits(1, 2), |(value, _)| (1..=31).contains(value)).parse(input)?;
    let follows_time = opt(alt((glued_mark(':'), glued_mark('.')))).parse(rest)?.1.is_some();
    let bare = rest.0.first().is_none_or(|next| !next.token.glued);
    let named = rest
        .0
        .first()
        .is_none_or(|next| next.senses.iter().all(|found| !matches!(found.sense, Sense::Unit(_))));
    match !follows_time && bare && named && value >= least {
        true => Ok((rest, Named::OfMonth(u8::try_from(value).unwrap_or(1)))),
        false => no(input),
    }
}

/// `2026-11-20`
fn full<'t>(input: Words<'t>) -> Read<'t, Named> {
    let (rest, ((year, _), ((month, _), (day, _)))) = pair(
        digits(4, 4),
        pair(
            preceded(glued_mark('-'), glued_digits(2, 2)),
            preceded(glued_mark('-'), glued_digits(2, 2)),
        ),
    )
    .parse(input)?;
    let date = jiff::civil::Date::new(
        i16::try_from(year).unwrap_or(0),
        i8::try_from(month).unwrap_or(0),
        i8::try_from(day).unwrap_or(0),
    );
    match date {
        Ok(date) => Ok((rest, plain(Day::Full(date)))),
        Err(_) => no(input),
    }
}

fn month_word<'t>(input: Words<'t>) -> Read<'t, u8> {
    sense(|sense| match sense {
        Sense::Month(month) => Some(month),
        _ => None,
    })(input)
}

fn day_number<'t>(input: Words<'t>) -> Read<'t, u8> {
    let digits = map(digits(1, 2), |(value, _)| value);
    let number = terminated(alt((digits, below_hundred)), opt(ordinal_end));
    let (rest, value) = verify(number, |value| (1..=31).contains(value)).parse(input)?;
    Ok((rest, u8::try_from(value).unwrap_or(1)))
}

fn ordinal_end<'t>(input: Words<'t>) -> Read<'t, ()> {
    glued_word(&["st", "nd", "rd", "th", "o", "a"]).parse(input)
}

/// `18 april`, `18th of april`, `18 de abril`
fn day_month<'t>(input: Words<'t>) -> Read<'t, Named> {
    let of = opt(concept(Concept::Of));
    let the = opt(concept(Concept::Article));
    let (rest, (day, month)) =
        pair(preceded(the, day_number), preceded(of, month_word)).parse(input)?;
    Ok((rest, plain(Day::DayMonth(day, month))))
}

/// `april 18`, `june 14th`
fn month_day<'t>(input: Words<'t>) -> Read<'t, Named> {
    let (rest, (month, day)) =
        pair(month_word, preceded(opt(word("the")), day_number)).parse(input)?;
    // `may 200`: no date. A time of day is none either.
    match rest.0.first().is_some_and(|next| {
        next.token.glued
            && !next.token.is_mark(',')
            && !next.token.is_mark('.')
            && !next.token.is_mark('!')
            && !next.token.is_mark('?')
    }) {
        true => no(input),
        false => Ok((rest, plain(Day::DayMonth(day, month)))),
    }
}

/// `20/11`, `20/11/2026`
fn slashed<'t>(input: Words<'t>) -> Read<'t, Named> {
    let number =
        |from: u8| verify(digits(1, 2), move |(value, _)| (u32::from(from)..=31).contains(value));
    let second = preceded(
        glued_mark('/'),
        verify(glued_digits(1, 2), |(value, _)| (1..=31).contains(value)),
    );
    let (rest, ((first, _), (second, _))) = pair(number(1), second).parse(input)?;
    let (rest, year) =
        opt(preceded(glued_mark('/'), alt((glued_digits(4, 4), glued_digits(2, 2)))))
            .parse(rest)?;
    let small = |value: u32| u8::try_from(value).unwrap_or(1);
    let day = match year {
        None => Day::Slashed(small(first), small(second)),
        Some((year, places)) => {
            let year = if places == 2 { 2000 + year } else { year };
            Day::SlashedYear(small(first), small(second), i16::try_from(year).unwrap_or(0))
        }
    };
    Ok((rest, plain(day)))
}

/// `16.3.`, `9.3.2026`: day and month with points, the last one included.
fn dotted<'t>(input: Words<'t>) -> Read<'t, Named> {
    let day = verify(digits(1, 2), |(value, _)| (1..=31).contains(value));
    let month = preceded(
        glued_mark('.'),
        verify(glued_digits(1, 2), |(value, _)| (1..=12).contains(value)),
    );
    let (rest, ((day, day_places), (month, month_places))) =
        pair(day, terminated(month, glued_mark('.'))).parse(input)?;
    let (rest, year) = opt(alt((glued_digits(4, 4), glued_digits(2, 2)))).parse(rest)?;
    // `4.04.` at the end of a sentence is a time.
    if year.is_none() && day_places < month_places {
        return no(input);
    }
    Ok((
        rest,
        plain(Day::DayMonth(u8::try_from(day).unwrap_or(1), u8::try_from(month).unwrap_or(1))),
    ))
}

/// `the 20th`, `the 9th`, `el 23`, `el dia 14`
fn of_month<'t>(input: Words<'t>) -> Read<'t, Named> {
    alt((behind_el, behind_the)).parse(input)
}

fn behind_the<'t>(input: Words<'t>) -> Read<'t, Named> {
    let article = alt((word("the"), word("on")));
    preceded(article, of_month_number).parse(input)
}

/// `el 23`, `el dia 14`, `del 10`, `al 24`: without an ending; no date before a
/// figure's mark or unit, nor `el 25 en 18`.
fn behind_el<'t>(input: Words<'t>) -> Read<'t, Named> {
    let article = alt((word("el"), word("del"), word("al"), word("este")));
    let (rest, (day, value)) =
        pair(preceded(article, opt(word("dia"))), digits(1, 2)).parse(input)?;
    let (value, _) = value;
    let (rest, _) = opt(ordinal_end).parse(rest)?;
    let counted = |cell: &super::cell::Cell<'_>| {
        cell.token.glued
            && matches!(cell.token.text, ":" | "." | "," | "'" | "\"" | "/" | "%")
            && rest.0.get(1).is_some_and(|next| next.token.glued && next.token.value().is_some())
            || cell.token.glued && matches!(cell.token.text, "'" | "\"" | "%")
            || cell
                .senses
                .iter()
                .any(|found| matches!(found.sense, Sense::Unit(_) | Sense::Stroke(_)))
            || cell.token.text == "x"
            || value == 25 && matches!(cell.token.text, "en" | "a")
    };
    let is_figure = day.is_none() && rest.0.first().is_some_and(counted);
    match (1..=31).contains(&value) && !is_figure {
        true => Ok((rest, Named::OfMonth(u8::try_from(value).unwrap_or(1)))),
        false => no(input),
    }
}

/// `14th` without an article: so many repeats there hardly are.
fn late_of_month<'t>(input: Words<'t>) -> Read<'t, Named> {
    let (rest, named) = of_month_number(input)?;
    match named {
        Named::OfMonth(13..) => Ok((rest, named)),
        _ => no(input),
    }
}

/// `20th`
fn of_month_number<'t>(input: Words<'t>) -> Read<'t, Named> {
    let value = verify(digits(1, 2), |(value, _)| (1..=31).contains(value));
    let (rest, (value, _)) = terminated(value, ordinal_end).parse(input)?;
    Ok((rest, Named::OfMonth(u8::try_from(value).unwrap_or(1))))
}

/// `3 days ago`, `hace dos dias`, `two weeks ago`
fn ago<'t>(input: Words<'t>) -> Read<'t, Named> {
    let (rest, days) =
        alt((terminated(days_long, concept(Concept::Ago)), preceded(word("hace"), days_long)))
            .parse(input)?;
    Ok((rest, Named::From(-days)))
}

/// `in 2 weeks`, `in three days`, `en dos semanas`
fn ahead<'t>(input: Words<'t>) -> Read<'t, Named> {
    let (rest, days) = preceded(concept(Concept::Within), days_long).parse(input)?;
    Ok((rest, Named::From(days)))
}

/// `2 weeks`, `three days`, `a fortnight`: in days.
pub fn days_long<'t>(input: Words<'t>) -> Read<'t, i32> {
    let count = alt((
        map(digits(1, 3), |(value, _)| value),
        below_hundred,
        map(alt((word("a"), word("an"), word("un"), word("una"), word("the"))), |()| 1),
        map(alt((word("couple"),)), |()| 2),
        super::number::sounds_like,
    ));
    let unit = sense(|sense| match sense {
        Sense::Unit(UnitWord::Day) => Some(1),
        Sense::Unit(UnitWord::Week) => Some(7),
        Sense::Unit(UnitWord::Fortnight) => Some(14),
        Sense::Unit(UnitWord::Month) => Some(30),
        _ => None,
    });
    let (rest, (count, each)) = pair(count, unit).parse(input)?;
    match i32::try_from(count).ok().and_then(|count| count.checked_mul(each)) {
        Some(days @ 1..=3660) => Ok((rest, days)),
        _ => no(input),
    }
}

/// `next week`, `this week`, `last week`, `the weekend`
fn week<'t>(input: Words<'t>) -> Read<'t, Named> {
    let which = || {
        alt((
            map(alt((concept(Concept::Next), word("otra"))), |()| 1),
            map(concept(Concept::This), |()| 0),
            map(concept(Concept::Last), |()| -1),
        ))
    };
    let week = || super::cell::unit(UnitWord::Week);
    let the = || opt(concept(Concept::Article));
    let before = terminated(preceded(the(), which()), week());
    // `la semana que viene`, `la semana pasada`
    let behind = preceded(pair(word("la"), week()), which());
    // `the week after next`
    let after_next =
        map(pair(preceded(the(), week()), pair(word("after"), concept(Concept::Next))), |_| 2);
    let (rest, which) = alt((after_next, before, behind)).parse(input)?;
    Ok((rest, Named::Week(which)))
}

/// `week of the 16th`, `wk commencing 9 march`, `w/c 16/3`, `la semana del 16`
fn week_of<'t>(input: Words<'t>) -> Read<'t, Named> {
    let week = preceded(opt(concept(Concept::Article)), super::cell::unit(UnitWord::Week));
    let of = alt((concept(Concept::Of), word("commencing"), word("beginning"), word("starting")));
    let short = alt((word("wc"), map(pair(word("w"), pair(mark('/'), word("c"))), |_| ())));
    let english = preceded(
        alt((map(pair(week, of), |_| ()), short)),
        preceded(opt(word("the")), alt((day_month, month_day, of_month_number))),
    );
    let spanish = preceded(pair(word("la"), super::cell::unit(UnitWord::Week)), behind_el);
    match alt((english, spanish)).parse(input)? {
        (rest, Named::Day(Day::DayMonth(day, month), _)) => {
            Ok((rest, Named::WeekOf(day, Some(month))))
        }
        (rest, Named::OfMonth(day)) => Ok((rest, Named::WeekOf(day, None))),
        _ => no(input),
    }
}

/// `in april`, `april`
fn month<'t>(input: Words<'t>) -> Read<'t, Named> {
    let (rest, month) = month_word(input)?;
    // `may` and `march` are also other words.
    let is_other =
        matches!(input.0.first().map(|cell| cell.token.text), Some("may" | "march" | "mar"));
    match is_other {
        true => no(input),
        false => Ok((rest, Named::Month(month))),
    }
}

/// A time of day in words or with its mark: `7pm`, `half 7`, `quarter to 8`, `ten
/// to seven`, `19:30h`, `las 7`. A bare figure may be one too; the statement says.
pub fn time_of_day<'t>(input: Words<'t>) -> Read<'t, (u8, u8)> {
    alt((half_past, quarter, minutes_to, with_half_day, at_las, hour_and, before_las)).parse(input)
}

/// `las 7`, `a las siete y media`, `tipo 7 y cuarto`, `las 8 menos diez`.
fn at_las<'t>(input: Words<'t>) -> Read<'t, (u8, u8)> {
    let mut begins = pair(opt(concept(Concept::At)), alt((word("las"), word("la"))));
    let (rest, _) = begins.parse(input)?;
    if let Ok(found) = alt((with_half_day, hour_and)).parse(rest) {
        return Ok(found);
    }
    let (rest, hour) = hour(rest)?;
    let point = alt((glued_mark(':'), glued_mark('.')));
    let minutes = preceded(point, verify(glued_digits(2, 2), |(value, _)| *value < 60));
    let (rest, minutes) = opt(minutes).parse(rest)?;
    // `las 8 a 48`, `las 4 series`: repeats.
    let counts = |sense| match sense {
        Sense::Unit(_) => Some(()),
        Sense::Word(
            Concept::Reps
            | Concept::Set
            | Concept::First
            | Concept::Last
            | Concept::SetTime
            | Concept::Of,
        ) => Some(()),
        _ => None,
    };
    match minutes.is_none() && (sense(counts)(rest).is_ok() || word("en")(rest).is_ok()) {
        true => no(input),
        false => time(input, rest, hour, minutes.map_or(0, |(value, _)| value)),
    }
}

/// `7 y media`, `siete y cuarto`, `8 menos cuarto`, `7 y veinte`.
fn hour_and<'t>(input: Words<'t>) -> Read<'t, (u8, u8)> {
    let (rest, hour) = hour(input)?;
    let (rest, before) =
        alt((map(word("menos"), |()| true), map(word("y"), |()| false))).parse(rest)?;
    let small = alt((map(digits(2, 2), |(value, _)| value), below_hundred));
    let mut minutes = alt((
        map(word("media"), |()| 30),
        map(word("cuarto"), |()| 15),
        verify(small, |value| matches!(value, 5 | 10 | 20 | 25)),
    ));
    let (rest, minutes) = minutes.parse(rest)?;
    match before {
        true => time(input, rest, (hour + 23) % 24, 60 - minutes),
        false => time(input, rest, hour, minutes),
    }
}

/// `cuarto para las 8`, `20 para las siete`.
fn before_las<'t>(input: Words<'t>) -> Read<'t, (u8, u8)> {
    let minutes =
        alt((map(word("cuarto"), |()| 15), map(digits(1, 2), |(value, _)| value), below_hundred));
    let (rest, minutes) =
        verify(minutes, |value| matches!(value, 5 | 10 | 15 | 20 | 25)).parse(input)?;
    let to = pair(alt((word("para"), word("pa"))), alt((word("las"), word("la"))));
    let (rest, hour) = preceded(to, hour).parse(rest)?;
    time(input, rest, (hour + 23) % 24, 60 - minutes)
}

fn hour<'t>(input: Words<'t>) -> Read<'t, u32> {
    let number = alt((map(digits(1, 2), |(value, _)| value), below_hundred));
    verify(number, |hour| (1..=24).contains(hour)).parse(input)
}

fn at(hour: u32, minute: u32) -> Option<(u8, u8)> {
    Some((u8::try_from(hour % 24).ok()?, u8::try_from(minute).ok()?))
}

fn time<'t>(input: Words<'t>, rest: Words<'t>, hour: u32, minute: u32) -> Read<'t, (u8, u8)> {
    match at(hour, minute) {
        Some(time) => Ok((rest, time)),
        None => no(input),
    }
}

/// `half 7`, `half past seven`; Spanish says the half behind the hour.
fn half_past<'t>(input: Words<'t>) -> Read<'t, (u8, u8)> {
    let half = pair(word("half"), opt(word("past")));
    let (rest, hour) = preceded(half, hour).parse(input)?;
    let counted = rest
        .0
        .first()
        .is_some_and(|next| next.senses.iter().any(|found| matches!(found.sense, Sense::Unit(_))));
    match counted {
        true => no(input),
        false => time(input, rest, hour, 30),
    }
}

/// `quarter to 8`, `quarter past seven`
fn quarter<'t>(input: Words<'t>) -> Read<'t, (u8, u8)> {
    let (rest, ()) = preceded(opt(word("a")), concept(Concept::Quarter)).parse(input)?;
    let (rest, before) =
        alt((map(word("to"), |()| true), map(word("past"), |()| false))).parse(rest)?;
    let (rest, hour) = hour(rest)?;
    if before { time(input, rest, (hour + 23) % 24, 45) } else { time(input, rest, hour, 15) }
}

/// `ten to seven`, `20 past 7`
fn minutes_to<'t>(input: Words<'t>) -> Read<'t, (u8, u8)> {
    let minutes = alt((map(digits(1, 2), |(value, _)| value), below_hundred));
    let (rest, minutes) =
        verify(minutes, |value| matches!(value, 5 | 10 | 20 | 25)).parse(input)?;
    let (rest, before) =
        alt((map(word("to"), |()| true), map(word("past"), |()| false))).parse(rest)?;
    let (rest, hour) = hour(rest)?;
    if before {
        time(input, rest, (hour + 23) % 24, 60 - minutes)
    } else {
        time(input, rest, hour, minutes)
    }
}

/// `7pm`, `6.30 am`, `19:30h`, `7 o clock`
fn with_half_day<'t>(input: Words<'t>) -> Read<'t, (u8, u8)> {
    let (rest, (hour, _)) = verify(digits(1, 2), |(value, _)| *value < 25).parse(input)?;
    let point = alt((glued_mark(':'), glued_mark('.')));
    let (rest, minute) =
        opt(preceded(point, verify(glued_digits(2, 2), |(value, _)| *value < 60))).parse(rest)?;
    let minute = minute.map_or(0, |(value, _)| value);
    // `19:30h`, `19 hs`
    let hours = |input: Words<'t>| match hour >= 13 || minute > 0 && hour >= 5 {
        true => super::cell::unit(UnitWord::Hour)(input),
        false => no(input),
    };
    let mut half = alt((
        map(concept(Concept::Morning), |()| Some(false)),
        map(concept(Concept::Afternoon), |()| Some(true)),
        map(alt((word("oclock"), map(pair(word("o"), word("clock")), |_| ()), hours)), |()| None),
    ));
    let (rest, half) = half.parse(rest)?;
    let hour = match half {
        Some(true) if hour < 12 => hour + 12,
        Some(false) if hour == 12 => 0,
        _ => hour,
    };
    time(input, rest, hour, minute)
}
