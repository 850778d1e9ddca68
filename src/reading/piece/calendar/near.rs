//! Days counted from today: `tonight`, `mon`, `3 days ago`, a feast.

use jiff::civil::Weekday;
use nom::Parser;
use nom::branch::alt;
use nom::combinator::{map, opt, verify};
use nom::sequence::{pair, preceded, terminated};

use super::date::{day_month, full, month_day, of_month_number, slashed};
use super::named::{Named, Which, plain};
use crate::message::Day;
use crate::reading::lexicon::{Concept, Sense, UnitWord};
use crate::reading::piece::number::{self, below_hundred};
use crate::reading::piece::sensed_token::{
    Read, Words, concept, digits, glued_mark, mark, no, sense, word,
};

/// `easter`, `good friday`, `christmas`
pub fn feast<'t>(input: Words<'t>) -> Read<'t, Named> {
    sense(|sense| match sense {
        Sense::Feast(feast) => Some(Named::Feast(feast)),
        _ => None,
    })(input)
}

/// `tonight`, `yesterday`, `the day after tomorrow`
pub fn near<'t>(input: Words<'t>) -> Read<'t, Named> {
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
pub fn weekday<'t>(input: Words<'t>) -> Read<'t, Named> {
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
    if let Ok((rest, named)) = preceded(opt(mark(',')), date).parse(rest) {
        return Ok((rest, named));
    }
    // `mon 16`; `el lunes 9`, which no hour follows without `a las`.
    let spanish = article.is_some() && input.0.first().is_some_and(|cell| cell.token.text == "el");
    if let Ok((rest, of_month)) = of_month_bare(rest, if spanish { 1 } else { 13 }) {
        return Ok((rest, of_month));
    }
    // `el lunes pasado`, `el lunes que viene`
    let after = alt((
        map(concept(Concept::Last), |()| Which::Last),
        map(concept(Concept::Next), |()| Which::Next),
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

/// `3 days ago`, `hace dos dias`, `two weeks ago`
pub fn ago<'t>(input: Words<'t>) -> Read<'t, Named> {
    let (rest, days) =
        alt((terminated(days_long, concept(Concept::Ago)), preceded(word("hace"), days_long)))
            .parse(input)?;
    Ok((rest, Named::From(-days)))
}

/// `in 2 weeks`, `in three days`, `en dos semanas`
pub fn ahead<'t>(input: Words<'t>) -> Read<'t, Named> {
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
        number::sounds_like,
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
