//! Distances with their unit, and repeats of a distance.

use nom::Parser;
use nom::branch::alt;
use nom::combinator::{map, not, opt, verify};
use nom::sequence::{pair, preceded, terminated};

use super::figure::decimal;
use super::number::{sounds_like, spelled, thousands, whole};
use super::sensed_token::{Read, Words, concept, digits, glued_word, mark, no, sense, word};
use crate::reading::lex::Form;
use crate::reading::lexicon::{Concept, Sense, UnitWord};
use crate::units::Unit;

/// How far, as typed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Far {
    /// So many metres or yards, or of the pool's unit where none was typed.
    Of(u32, Option<Unit>),
    /// So many lengths of the pool.
    Lengths(u32),
    /// Hundredths of a mile.
    Miles(u32),
}

/// A distance with its unit: `200m`, `2k`, `1.5 km`, `40 lengths`, `a mile`.
pub fn far<'t>(input: Words<'t>) -> Read<'t, Far> {
    alt((miles, kilos, metres)).parse(input)
}

fn metres<'t>(input: Words<'t>) -> Read<'t, Far> {
    let (rest, amount) = whole(input)?;
    let (rest, found) = preceded(opt(mark('-')), counted).parse(rest)?;
    // `3m12` is a time.
    let read = input.0.len().saturating_sub(rest.0.len());
    let last = read.checked_sub(1).and_then(|last| input.0.get(last));
    let is_short = last.is_some_and(|last| last.token.text == "m");
    let glued = rest
        .0
        .first()
        .is_some_and(|next| next.token.glued && matches!(next.token.form, Form::Digits { .. }));
    if is_short && glued {
        return no(input);
    }
    match found {
        UnitWord::Metre => Ok((rest, Far::Of(amount, Some(Unit::Metre)))),
        UnitWord::Yard => Ok((rest, Far::Of(amount, Some(Unit::Yard)))),
        // `3 vueltas de 4x50`, `2 laps: ...`: rounds.
        UnitWord::Length if goes_round(rest) => no(input),
        UnitWord::Length => Ok((rest, Far::Lengths(amount))),
        _ => no(input),
    }
}

/// True where repeats follow, so that what was counted is rounds of them.
fn goes_round(input: Words<'_>) -> bool {
    let begins = alt((mark(':'), mark('('), concept(Concept::Of)));
    let figure = digits(1, 4);
    preceded(begins, figure).parse(input).is_ok() || mark('(')(input).is_ok()
}

fn counted<'t>(input: Words<'t>) -> Read<'t, UnitWord> {
    sense(|sense| match sense {
        Sense::Unit(unit @ (UnitWord::Metre | UnitWord::Yard | UnitWord::Length)) => Some(unit),
        _ => None,
    })(input)
}

fn kilos<'t>(input: Words<'t>) -> Read<'t, Far> {
    let kilo = || alt((super::sensed_token::unit(UnitWord::Kilo), glued_word(&["k"])));
    let heard = map(sounds_like, |value| (value * 100, 0));
    let half = map(concept(Concept::Half), |()| (50, 0));
    let (rest, (amount, _)) = terminated(alt((decimal, heard, half)), kilo()).parse(input)?;
    // `2 km y medio`, `a kilometre and a half`
    let and = pair(concept(Concept::And), opt(concept(Concept::Article)));
    let (rest, more) = opt(preceded(and, concept(Concept::Half))).parse(rest)?;
    let amount = amount + if more.is_some() { 50 } else { 0 };
    // `2k yards`
    let (rest, yards) = opt(super::sensed_token::unit(UnitWord::Yard)).parse(rest)?;
    let unit = if yards.is_some() { Unit::Yard } else { Unit::Metre };
    match amount {
        1..=100_000 => Ok((rest, Far::Of(amount * 10, Some(unit)))),
        _ => no(input),
    }
}

fn miles<'t>(input: Words<'t>) -> Read<'t, Far> {
    let mile = || super::sensed_token::unit(UnitWord::Mile);
    let half = map(pair(concept(Concept::Half), opt(concept(Concept::Article))), |_| (50, 0));
    let one = map(concept(Concept::Article), |()| (100, 0));
    let (rest, (amount, _)) = terminated(alt((decimal, half, one)), mile()).parse(input)?;
    match amount {
        1..=10_000 => Ok((rest, Far::Miles(amount))),
        _ => no(input),
    }
}

/// How many, and how far each: `8x50`, `8 x 50m`, `eight fifties`, `8 by 50`,
/// `10 of 50`, `4 x 4 lengths`, `100m x 6`.
pub fn repeat<'t>(input: Words<'t>) -> Read<'t, (u32, Far)> {
    alt((counted_first, far_first)).parse(input)
}

fn counted_first<'t>(input: Words<'t>) -> Read<'t, (u32, Far)> {
    let surely = alt((map(digits(1, 3), |(value, _)| value), spelled));
    // `for fifties` is no number of them, `for by fifty` is.
    let count = alt((map(surely, |count| (count, true)), map(sounds_like, |count| (count, false))));
    let (after_count, (count, sure)) =
        verify(count, |(count, _)| (1..=100).contains(count)).parse(input)?;
    let each = alt((
        far,
        map(plural, |value| Far::Of(value, None)),
        map(distance_number, |value| Far::Of(value, None)),
    ));
    let crossed = preceded(cross, each);
    // `eight fifties`, `8 50s`, `ten hundreds`, `three four hundreds`
    let of_them = preceded(
        opt(alt((concept(Concept::Of), concept(Concept::Article)))),
        map(plural, |value| Far::Of(value, None)),
    );
    let of_them = verify(of_them, |_| sure);
    let (rest, far) = alt((crossed, of_them)).parse(after_count)?;
    Ok((rest, (count, far)))
}

/// `x`, `*`, `by`, `times`, `lots of`, `of`, `de`, `por`
fn cross<'t>(input: Words<'t>) -> Read<'t, ()> {
    let counts = sense(|sense| match sense {
        Sense::Unit(UnitWord::Length) => Some(()),
        Sense::Word(Concept::Reps | Concept::Round | Concept::Set) => Some(()),
        _ => None,
    });
    alt((
        map(pair(concept(Concept::Times), opt(concept(Concept::Of))), |_| ()),
        mark('*'),
        concept(Concept::By),
        concept(Concept::Of),
        map(pair(counts, concept(Concept::Of)), |_| ()),
    ))
    .parse(input)
}

/// A number that is a distance of repeats.
fn distance_number<'t>(input: Words<'t>) -> Read<'t, u32> {
    let number = alt((thousands, map(digits(2, 4), |(value, _)| value), spelled));
    let (rest, value) = verify(number, |value| is_pool_distance(*value)).parse(input)?;
    // `2 x 50.3`: no distance.
    let (rest, ()) =
        not(pair(super::sensed_token::glued_mark('.'), super::sensed_token::glued_digits(1, 2)))
            .parse(rest)?;
    Ok((rest, value))
}

/// True for a number of metres or yards that a repeat may have.
pub const fn is_pool_distance(value: u32) -> bool {
    matches!(value, 10 | 12 | 15 | 20 | 33 | 66)
        || (value >= 25 && value <= 10_000 && value.is_multiple_of(5))
}

/// True for a number that is the distance of a race or of an open-water swim.
pub const fn is_raced(value: u32) -> bool {
    matches!(
        value,
        50 | 100 | 200 | 400 | 500 | 750 | 800 | 1000 | 1500 | 1650 | 1900 | 3000 | 5000
    )
}

/// `100m x 6`, `50 m x8`
fn far_first<'t>(input: Words<'t>) -> Read<'t, (u32, Far)> {
    let cross = alt((word("x"), mark('*')));
    let (rest, (far, (count, _))) =
        pair(terminated(metres, cross), verify(digits(1, 2), |(count, _)| *count > 0))
            .parse(input)?;
    Ok((rest, (count, far)))
}

/// `50s`, `fifties`, `100's`, `the two hundreds`: a distance more than once.
pub fn plural<'t>(input: Words<'t>) -> Read<'t, u32> {
    let quote = opt(super::sensed_token::glued_mark('\''));
    let in_digits =
        terminated(map(digits(2, 4), |(value, _)| value), pair(quote, glued_word(&["s"])));
    let said = sense(|sense| match sense {
        Sense::Plural(value) => Some(value),
        _ => None,
    });
    alt((verify(in_digits, |value| is_pool_distance(*value)), said, behind_los)).parse(input)
}

/// `los 50`, `los cien`, `los doscientos`: as Spanish says `the 50s`.
fn behind_los<'t>(input: Words<'t>) -> Read<'t, u32> {
    let number = alt((map(digits(2, 4), |(value, _)| value), spelled));
    let raced = verify(number, |value| {
        matches!(value, 25 | 50 | 75 | 100 | 150 | 200 | 250 | 300 | 400 | 500 | 600 | 800 | 1500)
    });
    let (rest, value) = preceded(word("los"), raced).parse(input)?;
    let counted = |sense| matches!(sense, Sense::Unit(_)).then_some(());
    let glued = rest.0.first().is_some_and(|next| {
        next.token.glued && !matches!(next.token.form, Form::Mark(',' | ';' | '!' | '?' | ')'))
    });
    match glued || sense(counted)(rest).is_ok() {
        true => no(input),
        false => Ok((rest, value)),
    }
}
