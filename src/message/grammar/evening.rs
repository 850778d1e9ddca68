//! Section 7 of the grammar: the coach's evening, its timetable and its people.

use nom::Parser;
use nom::branch::alt;
use nom::character::complete::satisfy;
use nom::combinator::{map, opt, value};
use nom::multi::{many0, many1};
use nom::sequence::{preceded, terminated};

use super::commands::{swap_part, week_kind};
use super::lexical::{
    clock, clock_range, count, course, date, duration, length, name, number, text, time,
};
use super::reports::result;
use super::sets::send_off;
use crate::message::SquadFilter;
use crate::message::combinators::{
    Parsed, after, digits, each_after_space, one_of, space, whole, word,
};
use crate::message::syntax::{Extent, Figure, Item, Said, Verb};

/// `squad = "squad" [ SP filter ] [ SP date ]`
pub fn squad(input: &str) -> Parsed<'_, Said> {
    let which = (opt(preceded(space, filter)), opt(preceded(space, date)));
    map(preceded(word("squad"), which), |(which, on)| {
        Said::Command(Verb::Squad, which.map(Item::Filter).into_iter().chain(on).collect())
    })
    .parse(input)
}

/// `filter = "overdue" / "hurt" / "silent" / "improving" / "fading" / "pace" / "expected" / "owed" / "races"`
pub fn filter(input: &str) -> Parsed<'_, SquadFilter> {
    one_of(&[
        ("overdue", SquadFilter::Overdue),
        ("hurt", SquadFilter::Hurt),
        ("silent", SquadFilter::Silent),
        ("improving", SquadFilter::Improving),
        ("fading", SquadFilter::Fading),
        ("pace", SquadFilter::Pace),
        ("expected", SquadFilter::Expected),
        ("owed", SquadFilter::Owed),
        ("races", SquadFilter::Races),
    ])
    .parse(input)
}

/// `lanes = "lanes" [ SP 1*2DIGIT [ SP date ] ]`
pub fn lanes(input: &str) -> Parsed<'_, Vec<Item>> {
    let number = map(whole(digits(1, 2)), |(lanes, _)| Item::Lanes(Some(lanes)));
    let counted = (preceded(space, number), opt(preceded(space, date)));
    map(preceded(word("lanes"), opt(counted)), |counted| match counted {
        None => vec![Item::Lanes(None)],
        Some((lanes, on)) => [Some(lanes), on].into_iter().flatten().collect(),
    })
    .parse(input)
}

/// `test-night = "test-night" *( SP swap-part )`
pub fn test_night(input: &str) -> Parsed<'_, Said> {
    let parts = preceded(word("test-night"), each_after_space(swap_part));
    map(parts, |parts| Said::Command(Verb::TestNight, parts)).parse(input)
}

/// `apart = ( "apart" / "together" ) SP name 1*( SP name )`
pub fn apart(input: &str) -> Parsed<'_, Said> {
    let verb = one_of(&[("apart", Verb::Apart), ("together", Verb::Together)]);
    map((verb, preceded(space, name), many1(preceded(space, name))), |(verb, first, rest)| {
        Said::Command(verb, std::iter::once(first).chain(rest).map(Item::Name).collect())
    })
    .parse(input)
}

/// `here = "here" [ SP ( everyone / names ) ] [ SP date ]`
pub fn here(input: &str) -> Parsed<'_, Said> {
    let who = opt(preceded(space, alt((everyone, names))));
    let said = (preceded(word("here"), who), opt(preceded(space, date)));
    map(said, |(who, on)| {
        Said::Command(Verb::Here, who.unwrap_or_default().into_iter().chain(on).collect())
    })
    .parse(input)
}

/// `everyone = "all" [ SP "but" SP names ]`
pub fn everyone(input: &str) -> Parsed<'_, Vec<Item>> {
    let but = opt(preceded(space, after("but", names)));
    map(preceded(word("all"), but), |but| {
        let mut all = vec![Item::Everyone];
        all.extend(but.unwrap_or_default());
        all
    })
    .parse(input)
}

/// `absent = "absent" SP names [ SP date ]`
pub fn absent(input: &str) -> Parsed<'_, Said> {
    let said = (after("absent", names), opt(preceded(space, date)));
    map(said, |(names, on)| Said::Command(Verb::Absent, names.into_iter().chain(on).collect()))
        .parse(input)
}

/// `names = name *( SP name )`
pub fn names(input: &str) -> Parsed<'_, Vec<Item>> {
    map((name, each_after_space(name)), |(first, rest)| {
        std::iter::once(first).chain(rest).map(Item::Name).collect()
    })
    .parse(input)
}

/// `tell = "tell" SP ( "all" / name ) SP text`
pub fn tell(input: &str) -> Parsed<'_, Said> {
    let to = alt((value(Item::Everyone, word("all")), map(name, Item::Name)));
    map((after("tell", to), preceded(space, text)), |(to, text)| {
        Said::Command(Verb::Tell, vec![to, Item::Text(text)])
    })
    .parse(input)
}

/// `note = "note" SP [ name SP ] text`
pub fn note(input: &str) -> Parsed<'_, Said> {
    let about = (opt(terminated(name, space)), text);
    map(after("note", about), |(who, text)| {
        Said::Command(
            Verb::Note,
            who.map(Item::Name).into_iter().chain([Item::Text(text)]).collect(),
        )
    })
    .parse(input)
}

/// `focus = "focus" SP [ name SP ] text`
pub fn focus(input: &str) -> Parsed<'_, Said> {
    let about = (opt(terminated(name, space)), text);
    map(after("focus", about), |(who, text)| {
        Said::Command(
            Verb::Focus,
            who.map(Item::Name).into_iter().chain([Item::Text(text)]).collect(),
        )
    })
    .parse(input)
}

/// `attend = ( "in" / "out" ) [ SP date ]`
pub fn attend(input: &str) -> Parsed<'_, Said> {
    let coming = one_of(&[("in", Verb::In), ("out", Verb::Out)]);
    map((coming, opt(preceded(space, date))), |(verb, on)| {
        Said::Command(verb, on.into_iter().collect())
    })
    .parse(input)
}

/// `late = "late" SP 1*3DIGIT [ SP date ]`
pub fn late(input: &str) -> Parsed<'_, Said> {
    let minutes = map(whole(digits(1, 3)), |(minutes, _)| Item::Minutes(minutes));
    map((after("late", minutes), opt(preceded(space, date))), |(minutes, on)| {
        Said::Command(Verb::Late, [Some(minutes), on].into_iter().flatten().collect())
    })
    .parse(input)
}

/// `slot = "slot" *( SP slot-part )`
pub fn slot(input: &str) -> Parsed<'_, Said> {
    let parts = preceded(word("slot"), many0(preceded(space, slot_part)));
    map(parts, |parts| Said::Command(Verb::Slot, parts.into_iter().flatten().collect()))
        .parse(input)
}

/// `slot-part = date / clock-range / clock / duration / course / lanes / time / length / number`
pub fn slot_part(input: &str) -> Parsed<'_, Vec<Item>> {
    let one = alt((
        date,
        clock_range,
        map(whole(clock), Item::Clock),
        duration,
        map(course, Item::Course),
    ));
    let figures = alt((
        map(time, Item::Figure),
        map(length, Item::Length),
        map(number, |(amount, _)| Item::Length(Extent { amount, unit: None })),
    ));
    alt((map(one, |item| vec![item]), lanes, map(figures, |item| vec![item]))).parse(input)
}

/// `shut = "shut" 1*( SP date )`
pub fn shut(input: &str) -> Parsed<'_, Said> {
    let days = preceded(word("shut"), many1(preceded(space, date)));
    map(days, |days| Said::Command(Verb::Shut, days)).parse(input)
}

/// `reopen = "reopen" 1*( SP date )`
pub fn reopen(input: &str) -> Parsed<'_, Said> {
    let days = preceded(word("reopen"), many1(preceded(space, date)));
    map(days, |days| Said::Command(Verb::Reopen, days)).parse(input)
}

/// `lane-results = "lane" SP DIGIT [ SP ( length / number ) SP "test" ] 1*( SP result )`
pub fn lane_results(input: &str) -> Parsed<'_, Said> {
    let digit = whole(satisfy(|c| c.is_ascii_digit()));
    let lane = map(digit, |digit| Item::Lane(digit.to_digit(10).unwrap_or_default()));
    let far = alt((length, map(number, |(amount, _)| Extent { amount, unit: None })));
    let tested = opt(map(preceded(space, terminated(far, (space, word("test")))), Item::Length));
    let results = map(many1(preceded(space, result)), Item::Held);
    map((after("lane", lane), tested, results), |(lane, tested, results)| {
        let parts = [Some(lane), tested, Some(results)];
        Said::Command(Verb::LaneResults, parts.into_iter().flatten().collect())
    })
    .parse(input)
}

/// `cut = ( left / ends / lane / make / skip ) *( SP ( left / ends / lane / make / skip / send-off ) )`
pub fn cut(input: &str) -> Parsed<'_, Said> {
    let first = alt((left, ends, lane, make, skip));
    let further = many0(preceded(space, alt((left, ends, lane, make, skip, send_off))));
    map((first, further), |(first, mut rest)| {
        rest.insert(0, first);
        Said::Command(Verb::Cut, rest)
    })
    .parse(input)
}

/// `ends = "ends" SP ( clock / time / number )`
pub fn ends(input: &str) -> Parsed<'_, Item> {
    let bare = map(number, |(amount, _)| (amount / 100, amount % 100));
    let read = |figure| match figure {
        Figure::Clock { minutes, seconds, hundredths: None } => (minutes, seconds),
        Figure::Dotted { whole, decimals, places: 2 } => (whole, decimals),
        // No time of day: refused where its meaning is read.
        _ => (99, 99),
    };
    let at = alt((whole(clock), map(time, read), bare));
    map(after("ends", at), |(hour, minute)| Item::Ends(hour, minute)).parse(input)
}

/// `left = "left" SP 1*3DIGIT`
pub fn left(input: &str) -> Parsed<'_, Item> {
    map(after("left", whole(digits(1, 3))), |(minutes, _)| Item::Left(minutes)).parse(input)
}

/// `lane = "lane" SP ( DIGIT / "any" / "all" )`
pub fn lane(input: &str) -> Parsed<'_, Item> {
    let digit = whole(satisfy(|c| c.is_ascii_digit()));
    let number = map(digit, |digit| Item::Lane(digit.to_digit(10).unwrap_or_default()));
    let any = value(Item::AnyLane, word("any"));
    after("lane", alt((number, any, value(Item::AllLanes, word("all"))))).parse(input)
}

/// `make = "make" SP count`
pub fn make(input: &str) -> Parsed<'_, Item> {
    map(after("make", whole(count)), Item::Make).parse(input)
}

/// `skip = "skip"`
pub fn skip(input: &str) -> Parsed<'_, Item> {
    value(Item::Skip, word("skip")).parse(input)
}

/// `hold = "hold" SP [ name SP ] week-kind`
pub fn hold(input: &str) -> Parsed<'_, Said> {
    let whom = (opt(terminated(name, space)), week_kind);
    map(after("hold", whom), |(who, week)| {
        Said::Command(
            Verb::Hold,
            who.map(Item::Name).into_iter().chain([Item::Week(week)]).collect(),
        )
    })
    .parse(input)
}

/// `release = "release" [ SP name ]`
pub fn release(input: &str) -> Parsed<'_, Said> {
    let who = opt(preceded(space, name));
    map(preceded(word("release"), who), |who| {
        Said::Command(Verb::Release, who.map(Item::Name).into_iter().collect())
    })
    .parse(input)
}
