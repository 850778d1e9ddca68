//! What the grammar's functions are put together from; none of these is a rule.
//!
//! In the normalised text every token ends at a space or at the end, so a token
//! is tried whole or not at all: that makes nom's first match the only match.

use nom::bytes::complete::{tag, take_while_m_n};
use nom::combinator::{map, map_opt, opt, peek};
use nom::error::{Error, ErrorKind};
use nom::multi::many0;
use nom::sequence::{preceded, terminated};
use nom::{Err, IResult, Parser};

use super::grammar::{item, opening, rest};
use super::syntax::{Item, Piece, RoundsItem};

/// What a rule's function gives back.
pub type Parsed<'a, T> = IResult<&'a str, T>;

/// SP
pub fn space(input: &str) -> Parsed<'_, &str> {
    tag(" ").parse(input)
}

/// The end of a token, without taking anything.
pub fn token_end(input: &str) -> Parsed<'_, ()> {
    match input.as_bytes().first() {
        None | Some(b' ') => Ok((input, ())),
        Some(_) => fail(input),
    }
}

/// `parser`, if it takes a whole token.
pub fn whole<'a, T>(
    parser: impl Parser<&'a str, Output = T, Error = Error<&'a str>>,
) -> impl Parser<&'a str, Output = T, Error = Error<&'a str>> {
    terminated(parser, peek(token_end))
}

/// `literal` in any case, as ABNF reads its strings.
pub fn literal<'a>(
    literal: &'static str,
) -> impl Parser<&'a str, Output = (), Error = Error<&'a str>> {
    move |input: &'a str| match input.split_at_checked(literal.len()) {
        Some((head, rest)) if head.eq_ignore_ascii_case(literal) => Ok((rest, ())),
        _ => fail(input),
    }
}

/// A whole token, in any case.
pub fn word<'a>(text: &'static str) -> impl Parser<&'a str, Output = (), Error = Error<&'a str>> {
    whole(literal(text))
}

/// One of the words of a table, and what it stands for.
pub fn one_of<'a, T: Clone + 'static>(
    table: &'static [(&'static str, T)],
) -> impl Parser<&'a str, Output = T, Error = Error<&'a str>> {
    move |input: &'a str| {
        // Tables are asked by the dozen: a token is short, and looked through by bytes.
        let end = input.bytes().position(|byte| byte == b' ').unwrap_or(input.len());
        let (token, rest) = input.split_at(end);
        match table.iter().find(|(word, _)| word.eq_ignore_ascii_case(token)) {
            Some((_, meaning)) => Ok((rest, meaning.clone())),
            None => fail(input),
        }
    }
}

/// `least` to `most` digits, and how many there were.
pub fn digits<'a>(
    least: usize,
    most: usize,
) -> impl Parser<&'a str, Output = (u32, u8), Error = Error<&'a str>> {
    map_opt(take_while_m_n(least, most, |c: char| c.is_ascii_digit()), |digits: &str| {
        Some((digits.parse().ok()?, u8::try_from(digits.len()).ok()?))
    })
}

/// A keyword, a space, and what must follow.
pub fn after<'a, T>(
    keyword: &'static str,
    parser: impl Parser<&'a str, Output = T, Error = Error<&'a str>>,
) -> impl Parser<&'a str, Output = T, Error = Error<&'a str>> {
    preceded((word(keyword), space), parser)
}

/// One or more, parted by a space or by a comma between spaces.
pub fn list<'a, T>(
    mut parser: impl FnMut(&'a str) -> Parsed<'a, T>,
) -> impl Parser<&'a str, Output = Vec<T>, Error = Error<&'a str>> {
    move |input: &'a str| {
        let (mut rest, first) = parser(input)?;
        let mut all = vec![first];
        loop {
            match preceded((opt(tag(" ,")), space), &mut parser).parse(rest) {
                Ok((after, one)) => {
                    rest = after;
                    all.push(one);
                }
                Err(Err::Error(_)) => return Ok((rest, all)),
                Err(error) => return Err(error),
            }
        }
    }
}

/// A space and one more, as often as there are.
pub fn each_after_space<'a, T>(
    parser: impl FnMut(&'a str) -> Parsed<'a, T>,
) -> impl Parser<&'a str, Output = Vec<T>, Error = Error<&'a str>> {
    many0(preceded(space, parser))
}

/// The hundredths that one or two digits after a point say.
pub const fn hundredths((digits, places): (u32, u8)) -> u32 {
    if places == 1 { digits * 10 } else { digits }
}

/// Nothing fits here.
pub fn fail<T>(input: &str) -> Parsed<'_, T> {
    Err(Err::Error(Error::new(input, ErrorKind::Fail)))
}

/// A space, or a comma between spaces, and one more item; true with a comma.
pub fn further_item(input: &str) -> Parsed<'_, (bool, Item)> {
    (map(opt(tag(" ,")), |comma| comma.is_some()), preceded(space, item)).parse(input)
}

/// Items in a row, the commas between them kept as items.
pub fn with_commas((first, rest): (Item, Vec<(bool, Item)>)) -> Vec<Item> {
    let mut all = vec![first];
    for (comma, item) in rest {
        if comma {
            all.push(Item::Comma);
        }
        all.push(item);
    }
    all
}

/// Rounds whose pieces, one level deeper, are `inner`.
pub fn bracketed<'a>(
    inner: impl FnMut(&'a str) -> Parsed<'a, Vec<Piece>>,
    input: &'a str,
) -> Parsed<'a, RoundsItem> {
    let mut inside = terminated(preceded(space, inner), tag(" )"));
    let (input, times) = opening(input)?;
    let (input, pieces) = inside.parse(input)?;
    let (input, ()) = peek(token_end).parse(input)?;
    let (input, rest) = opt(preceded(space, rest)).parse(input)?;
    let rest = match rest {
        Some(Item::Rest(figure)) => Some(figure),
        _ => None,
    };
    Ok((input, RoundsItem { times, pieces, rest }))
}
