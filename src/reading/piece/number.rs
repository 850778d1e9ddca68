//! Numbers in digits and in words.

use nom::Parser;
use nom::branch::alt;
use nom::combinator::{map, not, opt, verify};
use nom::sequence::{pair, preceded, terminated};

use super::sensed_token::{Read, Words, digits, glued_digits, glued_mark, no, sense, word};
use crate::reading::lexicon::Sense;

/// A whole number, in digits with or without a mark for thousands, or in words.
pub fn whole<'t>(input: Words<'t>) -> Read<'t, u32> {
    alt((thousands, map(digits(1, 6), |(value, _)| value), spelled)).parse(input)
}

/// `1,200`, `2.000`: digits in threes.
pub fn thousands<'t>(input: Words<'t>) -> Read<'t, u32> {
    let mark = alt((glued_mark(','), glued_mark('.')));
    let parted =
        pair(verify(digits(1, 2), |(value, _)| *value > 0), preceded(mark, glued_digits(3, 3)));
    let not_more = not(pair(glued_mark('.'), glued_digits(1, 9)));
    map(terminated(parted, not_more), |((first, _), (second, _))| first * 1000 + second)
        .parse(input)
}

/// `forty eight`, `two hundred`, `sixteen hundred`, `two thousand`, `ten`,
/// `mil quinientos`.
pub fn spelled<'t>(input: Words<'t>) -> Read<'t, u32> {
    let (rest, thousands) = opt(in_thousands).parse(input)?;
    let (rest, hundreds) = opt(in_hundreds).parse(rest)?;
    match (thousands, hundreds) {
        (None, None) => below_hundred(rest),
        (thousands, hundreds) => {
            let more = terminated(preceded(word("and"), below_hundred), not(multiplier));
            let joined = verify(more, |more| *more > 10);
            let (rest, more) = opt(alt((joined, lengths_more))).parse(rest)?;
            Ok((rest, thousands.unwrap_or(0) + hundreds.unwrap_or(0) + more.unwrap_or(0)))
        }
    }
}

/// `two hundred fifty`, `doscientos cincuenta`: no joining word before what only
/// makes a longer distance of it. `two hundred forty` may be a 200 in 40-odd.
fn lengths_more<'t>(input: Words<'t>) -> Read<'t, u32> {
    let more = verify(below_hundred, |more| matches!(more, 25 | 50 | 75));
    terminated(more, not(alt((multiplier, below_hundred)))).parse(input)
}

fn in_thousands<'t>(input: Words<'t>) -> Read<'t, u32> {
    let (rest, count) = opt(alt((below_hundred, sounds_like))).parse(input)?;
    let (rest, _) = number_word(rest, |value| value == 1000)?;
    Ok((rest, count.unwrap_or(1) * 1000))
}

fn in_hundreds<'t>(input: Words<'t>) -> Read<'t, u32> {
    let counted = |input: Words<'t>| {
        let few = verify(map(digits(1, 2), |(value, _)| value), |value| (1..=15).contains(value));
        let (rest, count) = opt(alt((below_hundred, sounds_like, few))).parse(input)?;
        let (rest, _) = number_word(rest, |value| value == 100)?;
        Ok((rest, count.unwrap_or(1) * 100))
    };
    let single = |input: Words<'t>| number_word(input, |value| (200..1000).contains(&value));
    // `ciento veinte`: a hundred that always goes on.
    let open = map(preceded(word("ciento"), below_hundred), |more| 100 + more);
    alt((open, counted, single)).parse(input)
}

/// `hundred`, `thousand`.
fn multiplier<'t>(input: Words<'t>) -> Read<'t, u32> {
    number_word(input, |value| value == 100 || value == 1000)
}

/// `seven`, `fifteen`, `forty`, `forty eight`, `cuarenta y ocho`.
pub fn below_hundred<'t>(input: Words<'t>) -> Read<'t, u32> {
    let (rest, first) = number_word(input, |value| value < 100)?;
    if first < 20 || first % 10 != 0 {
        return Ok((rest, first));
    }
    let unit = preceded(opt(word("y")), |input| number_word(input, |unit| (1..10).contains(&unit)));
    let (rest, unit) = opt(unit).parse(rest)?;
    Ok((rest, first + unit.unwrap_or(0)))
}

/// One word for a number that `fits`.
pub fn number_word<'t>(input: Words<'t>, fits: impl Fn(u32) -> bool) -> Read<'t, u32> {
    sense(|sense| match sense {
        Sense::Number(value) if fits(value) => Some(value),
        _ => None,
    })(input)
}

/// `won` for `one`: to be taken for a number only where one must stand.
pub fn sounds_like<'t>(input: Words<'t>) -> Read<'t, u32> {
    match sense(|sense| match sense {
        Sense::SoundsLike(value) => Some(value),
        _ => None,
    })(input)
    {
        Ok((rest, value)) if value > 0 => Ok((rest, value)),
        _ => no(input),
    }
}
