//! Sections 2 to 4 of the grammar: what was swum, its results, how one is.

use nom::Parser;
use nom::branch::alt;
use nom::bytes::complete::tag;
use nom::character::complete::char;
use nom::combinator::{map, opt, value};
use nom::multi::many0;
use nom::sequence::preceded;

use super::lexical::{
    at_name, count, course, day, duration, equipment, figure, fraction, length, lengths, mile,
    name, stroke,
};
use super::sets::{effort, level, part, remark, repeat, rest, rounds, send_off, target};
use crate::message::combinators::{
    Parsed, after, digits, further_item, list, one_of, space, whole, with_commas, word,
};
use crate::message::syntax::{Capture, Figure, Item, Made};
use crate::message::{Illness, Name, Sport};
use crate::units::Start;

/// `report = item *( [ SP "," ] SP item / SP at-name )`
pub fn report(input: &str) -> Parsed<'_, Vec<Item>> {
    let owner = map(preceded(space, at_name), |name| (false, Item::Name(name)));
    map((item, many0(alt((further_item, owner)))), with_commas).parse(input)
}

/// `capture = items SP ":" SP entry *( [ SP "," ] SP entry )`
pub fn capture(input: &str) -> Parsed<'_, Capture> {
    map((items, preceded(tag(" : "), list(entry))), |(shared, entries)| Capture { shared, entries })
        .parse(input)
}

/// `entry = name SP items`
pub fn entry(input: &str) -> Parsed<'_, (Name, Vec<Item>)> {
    (name, preceded(space, items)).parse(input)
}

/// `items = item *( [ SP "," ] SP item )`
pub fn items(input: &str) -> Parsed<'_, Vec<Item>> {
    map((item, many0(further_item)), with_commas).parse(input)
}

/// `item = quantity / quality / effect / deed / condition`
pub fn item(input: &str) -> Parsed<'_, Item> {
    // Only quantities begin with a digit, and few of them with anything else.
    match input.starts_with(|c: char| c.is_ascii_digit()) {
        true => quantity(input),
        false => {
            let in_words = alt((lengths, map(day, Item::Day), mile));
            alt((in_words, quality, effect, deed, condition)).parse(input)
        }
    }
}

/// `quantity = rounds / repeat / length / lengths / duration / day / mile / fraction / figure`
pub fn quantity(input: &str) -> Parsed<'_, Item> {
    alt((
        map(rounds, Item::Rounds),
        map(repeat, Item::Repeat),
        map(length, Item::Length),
        lengths,
        duration,
        map(day, Item::Day),
        mile,
        map(fraction, |(first, second)| Item::Fraction(first, second)),
        map(figure, Item::Figure),
    ))
    .parse(input)
}

/// `quality = stroke / course / begin / meet / equipment / level / effort / part / remark`
pub fn quality(input: &str) -> Parsed<'_, Item> {
    alt((
        map(stroke, Item::Stroke),
        map(course, Item::Course),
        begin,
        meet,
        map(equipment, Item::Equipment),
        level,
        effort,
        part,
        remark,
    ))
    .parse(input)
}

/// `effect = took / held / miss / average / made / splits / rpe / heart-rate / strokes / send-off / rest / target`
pub fn effect(input: &str) -> Parsed<'_, Item> {
    let list = alt((took, held, value(Item::Miss, miss), average, made, splits));
    alt((list, rpe, heart_rate, strokes, send_off, rest, target)).parse(input)
}

/// `deed = test / done / short / missed / sport`
pub fn deed(input: &str) -> Parsed<'_, Item> {
    alt((test, done, short, missed, sport)).parse(input)
}

/// `condition = pain / body / illness / better / faint / welfare`
pub fn condition(input: &str) -> Parsed<'_, Item> {
    alt((pain, body, illness, better, faint, welfare)).parse(input)
}

/// `test = "test"`
pub fn test(input: &str) -> Parsed<'_, Item> {
    value(Item::Test, word("test")).parse(input)
}

/// `done = "done"`
pub fn done(input: &str) -> Parsed<'_, Item> {
    value(Item::Done, word("done")).parse(input)
}

/// `short = "short"`
pub fn short(input: &str) -> Parsed<'_, Item> {
    value(Item::Short, word("short")).parse(input)
}

/// `missed = "missed"`
pub fn missed(input: &str) -> Parsed<'_, Item> {
    value(Item::Missed, word("missed")).parse(input)
}

/// `meet = "meet"`
pub fn meet(input: &str) -> Parsed<'_, Item> {
    value(Item::Meet, word("meet")).parse(input)
}

/// `begin = "push" / "dive" / "water"`
pub fn begin(input: &str) -> Parsed<'_, Item> {
    let table = &[("push", Start::Push), ("dive", Start::Dive), ("water", Start::Water)];
    map(one_of(table), Item::Begin).parse(input)
}

/// `sport = "run" / "ride" / "gym" / "sport"`
pub fn sport(input: &str) -> Parsed<'_, Item> {
    let table =
        &[("run", Sport::Run), ("ride", Sport::Ride), ("gym", Sport::Gym), ("sport", Sport::Other)];
    map(one_of(table), Item::Sport).parse(input)
}

/// `took = "took" SP figure`
pub fn took(input: &str) -> Parsed<'_, Item> {
    map(after("took", figure), Item::Took).parse(input)
}

/// `held = "held" SP result *( [ SP "," ] SP result )`
pub fn held(input: &str) -> Parsed<'_, Item> {
    map(after("held", list(result)), Item::Held).parse(input)
}

/// `result = figure / miss`
pub fn result(input: &str) -> Parsed<'_, Option<Figure>> {
    alt((map(figure, Some), miss)).parse(input)
}

/// `miss = "x"`
pub fn miss(input: &str) -> Parsed<'_, Option<Figure>> {
    value(None, word("x")).parse(input)
}

/// `average = "avg" SP figure`
pub fn average(input: &str) -> Parsed<'_, Item> {
    map(after("avg", figure), Item::Average).parse(input)
}

/// `made = "made" SP ( fraction / "all" / count )`
pub fn made(input: &str) -> Parsed<'_, Item> {
    let how_many = alt((
        map(fraction, |(made, of)| Made::Of(made, of)),
        value(Made::All, word("all")),
        map(whole(count), Made::Some),
    ));
    map(after("made", how_many), Item::Made).parse(input)
}

/// `splits = "splits" SP figure *( [ SP "," ] SP figure )`
pub fn splits(input: &str) -> Parsed<'_, Item> {
    map(after("splits", list(figure)), Item::Splits).parse(input)
}

/// `rpe = "rpe" SP 1*2DIGIT [ "." DIGIT ]`
pub fn rpe(input: &str) -> Parsed<'_, Item> {
    let rating = whole((digits(1, 2), opt(preceded(char('.'), digits(1, 1)))));
    map(after("rpe", rating), |((units, _), tenths)| {
        Item::Rpe(units * 10 + tenths.map_or(0, |(tenths, _)| tenths))
    })
    .parse(input)
}

/// `heart-rate = "hr" SP 2*3DIGIT`
pub fn heart_rate(input: &str) -> Parsed<'_, Item> {
    map(after("hr", whole(digits(2, 3))), |(beats, _)| Item::HeartRate(beats)).parse(input)
}

/// `strokes = "strokes" SP 1*2DIGIT`
pub fn strokes(input: &str) -> Parsed<'_, Item> {
    map(after("strokes", whole(digits(1, 2))), |(strokes, _)| Item::Strokes(strokes)).parse(input)
}

/// `pain = "pain"`
pub fn pain(input: &str) -> Parsed<'_, Item> {
    value(Item::Pain, word("pain")).parse(input)
}

/// `body = "shoulder" / "elbow" / "wrist" / "hand" / "arm" / "neck" / "head" / "ear" / "rib" / "hip" / "groin" / "thigh" / "knee" / "calf" / "ankle" / "foot" / "leg" / "low-back"`
pub fn body(input: &str) -> Parsed<'_, Item> {
    let table = &[
        ("shoulder", "shoulder"),
        ("elbow", "elbow"),
        ("wrist", "wrist"),
        ("hand", "hand"),
        ("arm", "arm"),
        ("neck", "neck"),
        ("head", "head"),
        ("ear", "ear"),
        ("rib", "rib"),
        ("hip", "hip"),
        ("groin", "groin"),
        ("thigh", "thigh"),
        ("knee", "knee"),
        ("calf", "calf"),
        ("ankle", "ankle"),
        ("foot", "foot"),
        ("leg", "leg"),
        ("low-back", "back"),
    ];
    map(one_of(table), Item::Body).parse(input)
}

/// `illness = "ill" / "cold" / "fever" / "stomach"`
pub fn illness(input: &str) -> Parsed<'_, Item> {
    let table = &[
        ("ill", None),
        ("cold", Some(Illness::Cold)),
        ("fever", Some(Illness::Fever)),
        ("stomach", Some(Illness::Stomach)),
    ];
    map(one_of(table), Item::Illness).parse(input)
}

/// `better = "better"`
pub fn better(input: &str) -> Parsed<'_, Item> {
    value(Item::Better, word("better")).parse(input)
}

/// `faint = "faint"`
pub fn faint(input: &str) -> Parsed<'_, Item> {
    value(Item::Faint, word("faint")).parse(input)
}

/// `welfare = "welfare"`
pub fn welfare(input: &str) -> Parsed<'_, Item> {
    value(Item::Welfare, word("welfare")).parse(input)
}
