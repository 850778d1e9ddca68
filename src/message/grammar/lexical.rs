//! Sections 8 to 10 of the grammar: names, days, figures, free text.

use jiff::civil::Weekday;
use nom::Parser;
use nom::branch::alt;
use nom::character::complete::{char, satisfy};
use nom::combinator::{map, map_opt, opt, recognize, value};
use nom::multi::{fold_many_m_n, fold_many1};
use nom::sequence::{delimited, preceded};

use crate::message::combinators::{
    Parsed, after, digits, each_after_space, hundredths, literal, one_of, whole, word,
};
use crate::message::syntax::{Extent, Figure, Item, TypedDay};
use crate::message::{Day, Name};
use crate::units::{Course, Equipment, Stroke, Unit};

/// `name = at-name / bare-name`
pub fn name(input: &str) -> Parsed<'_, Name> {
    alt((at_name, bare_name)).parse(input)
}

/// `at-name = "@" handle`
pub fn at_name(input: &str) -> Parsed<'_, Name> {
    preceded(char('@'), handle).parse(input)
}

/// `bare-name = "~" handle`
pub fn bare_name(input: &str) -> Parsed<'_, Name> {
    preceded(char('~'), handle).parse(input)
}

/// `handle = letter 1*19( letter / DIGIT / "-" / "_" )`
pub fn handle(input: &str) -> Parsed<'_, Name> {
    let digit = satisfy(|c| c.is_ascii_digit());
    let rest = alt((letter, digit, char('-'), char('_')));
    let shape = recognize((letter, fold_many_m_n(1, 19, rest, || (), |(), _| ())));
    whole(map_opt(shape, |word: &str| Name::new(word).ok())).parse(input)
}

/// `letter = ALPHA / %xDF-F6 / %xF8-FF / %x3B1-3C9 / %x430-44F / %x4E00-9FA5`
pub fn letter(input: &str) -> Parsed<'_, char> {
    satisfy(|c| {
        c.is_ascii_alphabetic()
            || matches!(c, '\u{DF}'..='\u{F6}' | '\u{F8}'..='\u{FF}' | '\u{3B1}'..='\u{3C9}'
                | '\u{430}'..='\u{44F}' | '\u{4E00}'..='\u{9FA5}')
    })
    .parse(input)
}

/// `date = day / fraction`
pub fn date(input: &str) -> Parsed<'_, Item> {
    let slashed = map(fraction, |(first, second)| Item::Day(TypedDay::Slashed { first, second }));
    alt((map(day, Item::Day), slashed)).parse(input)
}

/// `day = near-day / last-day / weekday / day-month / full-date / slashed-date`
pub fn day(input: &str) -> Parsed<'_, TypedDay> {
    let named = alt((near_day, last_day, map(weekday, Day::On)));
    alt((map(named, TypedDay::Named), day_month, full_date, slashed_date)).parse(input)
}

/// `near-day = "today" / "yesterday" / "tomorrow"`
pub fn near_day(input: &str) -> Parsed<'_, Day> {
    one_of(&[("today", Day::Today), ("yesterday", Day::Yesterday), ("tomorrow", Day::Tomorrow)])
        .parse(input)
}

/// `last-day = "last-" weekday`
pub fn last_day(input: &str) -> Parsed<'_, Day> {
    map(preceded(literal("last-"), weekday), Day::Last).parse(input)
}

/// `weekdays = weekday *( SP weekday )`
pub fn weekdays(input: &str) -> Parsed<'_, Vec<Weekday>> {
    map((weekday, each_after_space(weekday)), |(first, mut rest)| {
        rest.insert(0, first);
        rest
    })
    .parse(input)
}

/// `weekday = "mon" / "tue" / "wed" / "thu" / "fri" / "sat" / "sun"`
pub fn weekday(input: &str) -> Parsed<'_, Weekday> {
    one_of(&[
        ("mon", Weekday::Monday),
        ("tue", Weekday::Tuesday),
        ("wed", Weekday::Wednesday),
        ("thu", Weekday::Thursday),
        ("fri", Weekday::Friday),
        ("sat", Weekday::Saturday),
        ("sun", Weekday::Sunday),
    ])
    .parse(input)
}

/// `day-month = 1*2DIGIT month`
pub fn day_month(input: &str) -> Parsed<'_, TypedDay> {
    map((digits(1, 2), month), |((day, _), month)| TypedDay::DayMonth { day, month }).parse(input)
}

/// `month = "jan" / "feb" / "mar" / "apr" / "may" / "jun" / "jul" / "aug" / "sep" / "oct" / "nov" / "dec"`
pub fn month(input: &str) -> Parsed<'_, u8> {
    one_of(&[
        ("jan", 1),
        ("feb", 2),
        ("mar", 3),
        ("apr", 4),
        ("may", 5),
        ("jun", 6),
        ("jul", 7),
        ("aug", 8),
        ("sep", 9),
        ("oct", 10),
        ("nov", 11),
        ("dec", 12),
    ])
    .parse(input)
}

/// `full-date = 4DIGIT "-" 2DIGIT "-" 2DIGIT`
pub fn full_date(input: &str) -> Parsed<'_, TypedDay> {
    let shape =
        (digits(4, 4), preceded(char('-'), digits(2, 2)), preceded(char('-'), digits(2, 2)));
    whole(map(shape, |((year, _), (month, _), (day, _))| TypedDay::Full { year, month, day }))
        .parse(input)
}

/// `slashed-date = 1*2DIGIT "/" 1*2DIGIT "/" 4DIGIT`
pub fn slashed_date(input: &str) -> Parsed<'_, TypedDay> {
    let shape =
        (digits(1, 2), preceded(char('/'), digits(1, 2)), preceded(char('/'), digits(4, 4)));
    whole(map(shape, |((first, _), (second, _), (year, _))| TypedDay::SlashedYear {
        first,
        second,
        year,
    }))
    .parse(input)
}

/// `figure = time / number`
pub fn figure(input: &str) -> Parsed<'_, Figure> {
    let bare = map(number, |(value, digits)| Figure::Number { value, digits });
    alt((time, bare)).parse(input)
}

/// `time = hour-time / clock-time / second-time / dotted-time`
pub fn time(input: &str) -> Parsed<'_, Figure> {
    alt((hour_time, clock_time, second_time, dotted_time)).parse(input)
}

/// `hour-time = 1*2DIGIT ":" sixty ":" sixty [ decimals ]`
pub fn hour_time(input: &str) -> Parsed<'_, Figure> {
    let colon = || char(':');
    let shape = (digits(1, 2), preceded(colon(), sixty), preceded(colon(), sixty), opt(decimals));
    whole(map(shape, |((hours, _), minutes, seconds, decimals)| {
        let hundredths = decimals.map(hundredths);
        Figure::Hours { hours, minutes, seconds, hundredths }
    }))
    .parse(input)
}

/// `clock-time = 1*3DIGIT ":" sixty [ decimals ]`
pub fn clock_time(input: &str) -> Parsed<'_, Figure> {
    let shape = (digits(1, 3), preceded(char(':'), sixty), opt(decimals));
    whole(map(shape, |((minutes, _), seconds, decimals)| Figure::Clock {
        minutes,
        seconds,
        hundredths: decimals.map(hundredths),
    }))
    .parse(input)
}

/// `second-time = 1*5DIGIT [ decimals ] "s"`
pub fn second_time(input: &str) -> Parsed<'_, Figure> {
    let shape = (digits(1, 5), opt(decimals), literal("s"));
    whole(map(shape, |((seconds, _), decimals, ())| Figure::Seconds {
        seconds,
        hundredths: decimals.map(hundredths),
    }))
    .parse(input)
}

/// `dotted-time = 1*3DIGIT decimals`
pub fn dotted_time(input: &str) -> Parsed<'_, Figure> {
    whole(map((digits(1, 3), decimals), |((whole, _), (decimals, places))| Figure::Dotted {
        whole,
        decimals,
        places,
    }))
    .parse(input)
}

/// `decimals = "." 1*2DIGIT`
pub fn decimals(input: &str) -> Parsed<'_, (u32, u8)> {
    preceded(char('.'), digits(1, 2)).parse(input)
}

/// `sixty = %x30-35 DIGIT`
pub fn sixty(input: &str) -> Parsed<'_, u32> {
    let tens = satisfy(|c| ('0'..='5').contains(&c));
    map_opt(recognize((tens, satisfy(|c| c.is_ascii_digit()))), |digits: &str| digits.parse().ok())
        .parse(input)
}

/// `number = 1*6DIGIT`
pub fn number(input: &str) -> Parsed<'_, (u32, u8)> {
    whole(digits(1, 6)).parse(input)
}

/// `count = 1*3DIGIT`
pub fn count(input: &str) -> Parsed<'_, u32> {
    map(digits(1, 3), |(count, _)| count).parse(input)
}

/// `fraction = 1*2DIGIT "/" 1*2DIGIT`
pub fn fraction(input: &str) -> Parsed<'_, (u32, u32)> {
    let shape = (digits(1, 2), preceded(char('/'), digits(1, 2)));
    whole(map(shape, |((first, _), (second, _))| (first, second))).parse(input)
}

/// `length = 1*6DIGIT unit`
pub fn length(input: &str) -> Parsed<'_, Extent> {
    whole(map((digits(1, 6), unit), |((amount, _), unit)| Extent { amount, unit: Some(unit) }))
        .parse(input)
}

/// `unit = "m" / "yd"`
pub fn unit(input: &str) -> Parsed<'_, Unit> {
    alt((value(Unit::Metre, literal("m")), value(Unit::Yard, literal("yd")))).parse(input)
}

/// `mile = "mile"`
pub fn mile(input: &str) -> Parsed<'_, Item> {
    value(Item::Mile, word("mile")).parse(input)
}

/// `lengths = "lengths" SP 1*4DIGIT`
pub fn lengths(input: &str) -> Parsed<'_, Item> {
    map(after("lengths", whole(digits(1, 4))), |(count, _)| Item::Lengths(count)).parse(input)
}

/// `duration = 1*3DIGIT "min"`
pub fn duration(input: &str) -> Parsed<'_, Item> {
    whole(map((digits(1, 3), literal("min")), |((minutes, _), ())| Item::Minutes(minutes)))
        .parse(input)
}

/// `course = "pool-25m" / "pool-50m" / "pool-25yd" / "open"`
pub fn course(input: &str) -> Parsed<'_, Course> {
    one_of(&[
        ("pool-25m", Course::Short25m),
        ("pool-50m", Course::Long50m),
        ("pool-25yd", Course::Short25yd),
        ("open", Course::OpenWater),
    ])
    .parse(input)
}

/// `clock = 2DIGIT "h" sixty`
pub fn clock(input: &str) -> Parsed<'_, (u32, u32)> {
    map((digits(2, 2), literal("h"), sixty), |((hour, _), (), minute)| (hour, minute)).parse(input)
}

/// `clock-range = clock "-" clock`
pub fn clock_range(input: &str) -> Parsed<'_, Item> {
    whole(map((clock, preceded(char('-'), clock)), |(from, to)| Item::ClockRange(from, to)))
        .parse(input)
}

/// `stroke = "free" / "back" / "breast" / "fly" / "im" / "kick" / "pull" / "drill" / "choice"`
pub fn stroke(input: &str) -> Parsed<'_, Stroke> {
    one_of(&[
        ("free", Stroke::Free),
        ("back", Stroke::Back),
        ("breast", Stroke::Breast),
        ("fly", Stroke::Fly),
        ("im", Stroke::Im),
        ("kick", Stroke::Kick),
        ("pull", Stroke::Pull),
        ("drill", Stroke::Drill),
        ("choice", Stroke::Choice),
    ])
    .parse(input)
}

/// `equipment = "fins" / "paddles" / "buoy" / "board" / "snorkel"`
pub fn equipment(input: &str) -> Parsed<'_, Equipment> {
    one_of(&[
        ("fins", Equipment::Fins),
        ("paddles", Equipment::Paddles),
        ("buoy", Equipment::PullBuoy),
        ("board", Equipment::Board),
        ("snorkel", Equipment::Snorkel),
    ])
    .parse(input)
}

/// `text = DQUOTE 1*text-char DQUOTE`
pub fn text(input: &str) -> Parsed<'_, String> {
    let body = recognize(fold_many1(text_char, || (), |(), _| ()));
    whole(map(delimited(char('"'), body, char('"')), str::to_owned)).parse(input)
}

/// `text-char = %x20-21 / %x23-7E / %xA0-D7FF / %xE000-FFFD / %x10000-10FFFF`
pub fn text_char(input: &str) -> Parsed<'_, char> {
    satisfy(|c| {
        matches!(c, ' '..='!' | '#'..='~' | '\u{A0}'..='\u{D7FF}' | '\u{E000}'..='\u{FFFD}'
            | '\u{10000}'..='\u{10FFFF}')
    })
    .parse(input)
}
