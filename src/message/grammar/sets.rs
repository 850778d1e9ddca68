//! The rules of `grammar/set.abnf`: repeats, rounds and how they are swum.

use nom::Parser;
use nom::branch::alt;
use nom::bytes::complete::tag;
use nom::combinator::{map, opt, value};
use nom::multi::many0;
use nom::sequence::{preceded, terminated};

use super::lexical::{count, equipment, figure, length, number, stroke, text, unit};
use crate::message::Effort;
use crate::message::combinators::{
    Parsed, after, bracketed, digits, list, literal, one_of, space, whole, word,
};
use crate::message::syntax::{Extent, Item, Piece, Repeat, RoundsItem};
use crate::session::Part;
use crate::units::Level;

/// `rounds = opening SP pieces SP ")" [ SP rest ]`
pub fn rounds(input: &str) -> Parsed<'_, RoundsItem> {
    bracketed(pieces, input)
}

/// `opening = 1*2DIGIT "x("`
pub fn opening(input: &str) -> Parsed<'_, u32> {
    whole(map((digits(1, 2), literal("x(")), |((times, _), ())| times)).parse(input)
}

/// `pieces = piece *( [ SP "," ] SP piece )`
pub fn pieces(input: &str) -> Parsed<'_, Vec<Piece>> {
    list(piece).parse(input)
}

/// `piece = second-rounds / swim`
pub fn piece(input: &str) -> Parsed<'_, Piece> {
    alt((map(second_rounds, Piece::Rounds), swim)).parse(input)
}

/// `second-rounds = opening SP second-pieces SP ")" [ SP rest ]`
pub fn second_rounds(input: &str) -> Parsed<'_, RoundsItem> {
    bracketed(second_pieces, input)
}

/// `second-pieces = second-piece *( [ SP "," ] SP second-piece )`
pub fn second_pieces(input: &str) -> Parsed<'_, Vec<Piece>> {
    list(second_piece).parse(input)
}

/// `second-piece = third-rounds / swim`
pub fn second_piece(input: &str) -> Parsed<'_, Piece> {
    alt((map(third_rounds, Piece::Rounds), swim)).parse(input)
}

/// `third-rounds = opening SP third-pieces SP ")" [ SP rest ]`
pub fn third_rounds(input: &str) -> Parsed<'_, RoundsItem> {
    bracketed(third_pieces, input)
}

/// `third-pieces = third-piece *( [ SP "," ] SP third-piece )`
pub fn third_pieces(input: &str) -> Parsed<'_, Vec<Piece>> {
    list(third_piece).parse(input)
}

/// `third-piece = fourth-rounds / swim`
pub fn third_piece(input: &str) -> Parsed<'_, Piece> {
    alt((map(fourth_rounds, Piece::Rounds), swim)).parse(input)
}

/// `fourth-rounds = opening SP fourth-pieces SP ")" [ SP rest ]`
pub fn fourth_rounds(input: &str) -> Parsed<'_, RoundsItem> {
    bracketed(fourth_pieces, input)
}

/// `fourth-pieces = swim *( [ SP "," ] SP swim )`
pub fn fourth_pieces(input: &str) -> Parsed<'_, Vec<Piece>> {
    list(swim).parse(input)
}

/// `swim = ( repeat / length / number ) *( [ SP "," ] SP manner )`
pub fn swim(input: &str) -> Parsed<'_, Piece> {
    let bare = map(number, |(amount, _)| Item::Length(Extent { amount, unit: None }));
    let far = alt((map(repeat, Item::Repeat), map(length, Item::Length), bare));
    let how = many0(preceded((opt(tag(" ,")), space), manner));
    map((far, how), |(far, mut how)| {
        how.insert(0, far);
        Piece::Swim(how)
    })
    .parse(input)
}

/// `repeat = count "x" 1*6DIGIT [ unit ]`
pub fn repeat(input: &str) -> Parsed<'_, Repeat> {
    let shape = (count, preceded(literal("x"), digits(1, 6)), opt(unit));
    whole(map(shape, |(count, (amount, _), unit)| Repeat {
        count,
        extent: Extent { amount, unit },
    }))
    .parse(input)
}

/// `manner = stroke / equipment / level / effort / send-off / rest / target / remark`
pub fn manner(input: &str) -> Parsed<'_, Item> {
    let tokens = alt((map(stroke, Item::Stroke), map(equipment, Item::Equipment), level, effort));
    alt((tokens, send_off, rest, target, remark)).parse(input)
}

/// `send-off = "on" SP figure`
pub fn send_off(input: &str) -> Parsed<'_, Item> {
    map(after("on", figure), Item::SendOff).parse(input)
}

/// `rest = "rest" SP figure`
pub fn rest(input: &str) -> Parsed<'_, Item> {
    map(after("rest", figure), Item::Rest).parse(input)
}

/// `target = "target" SP ( test-pace / figure )`
pub fn target(input: &str) -> Parsed<'_, Item> {
    let aim = alt((map(test_pace, Item::TestPace), map(figure, Item::Target)));
    map(after("target", aim), |aim| aim).parse(input)
}

/// `test-pace = ( length / number ) SP "pace"`
pub fn test_pace(input: &str) -> Parsed<'_, Extent> {
    let bare = map(number, |(amount, _)| Extent { amount, unit: None });
    terminated(alt((length, bare)), (space, word("pace"))).parse(input)
}

/// `level = "easy" / "steady" / "threshold" / "hard" / "sprint"`
pub fn level(input: &str) -> Parsed<'_, Item> {
    let table = &[
        ("easy", Level::Easy),
        ("steady", Level::Steady),
        ("threshold", Level::Threshold),
        ("hard", Level::Hard),
        ("sprint", Level::Sprint),
    ];
    map(one_of(table), Item::Level).parse(input)
}

/// `effort = ordered / "build" / "negative" / "even" / "best-average" / "im-order"`
pub fn effort(input: &str) -> Parsed<'_, Item> {
    let table = &[
        ("build", Effort::Build),
        ("negative", Effort::NegativeSplit),
        ("even", Effort::Even),
        ("best-average", Effort::BestAverage),
        ("im-order", Effort::ImOrder),
    ];
    map(alt((ordered, one_of(table))), Item::Effort).parse(input)
}

/// `ordered = ( "descend" / "ascend" ) [ SP span ]`
pub fn ordered(input: &str) -> Parsed<'_, Effort> {
    let falling = alt((value(true, word("descend")), value(false, word("ascend"))));
    map((falling, opt(preceded(space, span))), |(falling, over)| match falling {
        true => Effort::Descend(over),
        false => Effort::Ascend(over),
    })
    .parse(input)
}

/// `span = "1-" 1*2DIGIT`
pub fn span(input: &str) -> Parsed<'_, u8> {
    let last = whole(digits(1, 2));
    // Two digits always fit.
    map(preceded(literal("1-"), last), |(last, _)| u8::try_from(last).unwrap_or(u8::MAX))
        .parse(input)
}

/// `part = "warm-up:" / "drill:" / "build:" / "test:" / "recovery:" / "main:" / "swim-down:"`
pub fn part(input: &str) -> Parsed<'_, Item> {
    let table = &[
        ("warm-up:", Part::WarmUp),
        ("drill:", Part::Drill),
        ("build:", Part::Build),
        ("test:", Part::Test),
        ("recovery:", Part::Recovery),
        ("main:", Part::Main),
        ("swim-down:", Part::SwimDown),
    ];
    map(one_of(table), Item::Part).parse(input)
}

/// `remark = text`
pub fn remark(input: &str) -> Parsed<'_, Item> {
    map(text, Item::Remark).parse(input)
}
