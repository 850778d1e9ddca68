//! What was said last, told anew with one thing changed: `eran 8 no 10`, `46.7*`,
//! `it's the 21st, they moved it`.

use crate::message::{Day, Kind, Length, SetResult, Statement, TypedTime};
use crate::reading::frame::{Clause, is_of_something_else, typed};
use crate::reading::lexicon::{Concept, Sense};
use crate::reading::piece::{Figure, Item, Piece};
use crate::reading::situation::Role;
use crate::reading::unexplained::unexplained;
use crate::units::{Centis, SendOff};

/// Pieces up to which a text may do nothing but put something right.
const LONGEST: usize = 14;

/// What may be left over that could change what is put right.
const RISKED: f32 = 0.5;

/// Words of which one says that something is put right.
pub const CORRECTING: [Concept; 5] =
    [Concept::Sorry, Concept::Instead, Concept::Not, Concept::No, Concept::Mean];

/// How far a time put right may be from the one before.
const LIKE: std::ops::RangeInclusive<f64> = 0.7..=1.4;

/// The statement that came before, with the one figure or day of the text in its place;
/// nothing where it fits none or several.
pub fn anew(c: &Clause<'_, '_>, said: &Statement) -> Option<Statement> {
    if c.len() > LONGEST {
        return None;
    }
    if let [one] = *c.people().as_slice() {
        return of_another(c, said, one);
    }
    if !c.people().is_empty() {
        return None;
    }
    let told: Vec<usize> = (0..c.len()).filter(|at| is_value(&c.pieces[*at])).collect();
    // `8 no 10`: what was said before is named again.
    let at = match *told.as_slice() {
        [one] => one,
        [one, other] if is_denied(c, other) && !is_denied(c, one) => one,
        [one, other] if is_denied(c, one) && !is_denied(c, other) => other,
        _ => return None,
    };
    let others = c
        .pieces
        .iter()
        .filter(|piece| !is_value(piece) && !CORRECTING.iter().any(|one| piece.means(*one)));
    // `200 im next` says more than another distance.
    if others.map(|piece| unexplained(piece).risk).sum::<f32>() > RISKED {
        return None;
    }
    let mut kind = said.kind.clone();
    put(c, at, &mut kind)?;
    (kind != said.kind).then(|| Statement { who: said.who.clone(), kind })
}

/// `no wait thats wrens`, `wrong one, its plover`: the same of somebody else. Who speaks for
/// nobody else takes it back.
fn of_another(c: &Clause<'_, '_>, said: &Statement, one: usize) -> Option<Statement> {
    const SHORT: usize = 9;
    let silent = |piece: &Piece<'_>| {
        matches!(piece.item, Item::Person(_))
            || !is_value(piece) && unexplained(piece).risk == 0.0
            || CORRECTING.iter().any(|one| piece.means(*one))
    };
    let refers = c.has_any(&CORRECTING) || c.has(Concept::Refers);
    if c.len() > SHORT || !refers || !c.pieces.iter().all(silent) {
        return None;
    }
    let who = c.name(one).filter(|who| Some(who) != said.who.as_ref())?;
    let mine = Some(one) == c.sit.me;
    match c.sit.role {
        Role::Coach => Some(Statement { who: Some(who), kind: said.kind.clone() }),
        Role::Swimmer if !mine && said.kind.is_swum() => {
            Some(Statement { who: None, kind: Kind::Undo })
        }
        Role::Swimmer => None,
    }
}

/// A figure, a distance, a span, a day, a part of the body.
fn is_value(piece: &Piece<'_>) -> bool {
    matches!(
        piece.item,
        Item::Figure(_)
            | Item::Each(_)
            | Item::Far(_)
            | Item::Span(_)
            | Item::Day(_)
            | Item::Plural(_)
    ) && piece.text != "a"
}

/// True behind `not`, `no`, `instead of`, `rather than`.
fn is_denied(c: &Clause<'_, '_>, at: usize) -> bool {
    let words = [Concept::Not, Concept::No, Concept::Instead, Concept::Didnt];
    at > 0 && words.iter().any(|one| c.pieces[at - 1].means(*one))
}

/// Puts the piece at a place where it belongs in a statement.
fn put(c: &Clause<'_, '_>, at: usize, kind: &mut Kind) -> Option<()> {
    let piece = &c.pieces[at];
    let whole = match piece.item {
        Item::Figure(figure) => figure.whole(),
        _ => None,
    };
    let day = |ahead: bool| -> Option<Day> {
        match piece.item {
            Item::Day(named) if ahead => c.coming(named),
            Item::Day(named) => c.past(named),
            _ => None,
        }
    };
    let length = match piece.item {
        Item::Far(far) => c.length(far),
        Item::Figure(Figure::Whole { value, .. }) if value >= 25 && value.is_multiple_of(25) => {
            Some(Length { amount: value, unit: None })
        }
        Item::Plural(amount) => Some(Length { amount, unit: None }),
        _ => None,
    };
    let minutes = match piece.item {
        Item::Span(time) if time.seconds() >= 60.0 => Some((time.seconds() / 60.0) as u16),
        _ => whole.and_then(|value| u16::try_from(value).ok()).filter(|value| *value <= 60),
    };
    match kind {
        Kind::Test(test) => {
            let known = *test.time.readings.first()?;
            if let Some(time) = like(piece, known) {
                test.time = time;
            } else if let Some(day) = day(false) {
                test.on = Some(day);
            } else {
                test.distance = length?;
            }
        }
        Kind::SetResult(set) => return put_in_set(c, at, whole, set),
        Kind::Done(done) => match (length.filter(|length| length.amount >= 100), day(false)) {
            (Some(length), _) => done.distance = Some(length),
            (None, Some(day)) => done.on = Some(day),
            (None, None) => match piece.item {
                Item::Span(time) => done.duration = Some(time),
                _ => return None,
            },
        },
        Kind::Attend { coming: true, late_min: late @ Some(_), .. } if day(true).is_none() => {
            *late = Some(minutes?);
        }
        Kind::Attend { on, .. } | Kind::Missed { on } | Kind::Back { on } => *on = Some(day(true)?),
        Kind::Away { until, .. } => *until = day(true)?,
        Kind::Race { distance, on, .. } => match (day(true), length) {
            (Some(day), _) => *on = day,
            (None, length) => *distance = length?,
        },
        Kind::Pain(pain) => match whole.filter(|it| *it <= 10 && !is_of_something_else(c, at)) {
            Some(level) => pain.level = u8::try_from(level).ok(),
            None => {
                pain.place = piece.sense(|sense| match sense {
                    Sense::Body(place) => Some((*place).to_owned()),
                    _ => None,
                })?;
            }
        },
        _ => return None,
    }
    Some(())
}

/// A figure as a time like the one that it puts right.
fn like(piece: &Piece<'_>, known: Centis) -> Option<TypedTime> {
    let (Item::Figure(figure) | Item::Each(figure)) = piece.item else { return None };
    let times = figure.times();
    let found =
        times.into_iter().find(|time| LIKE.contains(&(time.seconds() / known.seconds())))?;
    Some(typed(found, figure.has_tenths()))
}

/// Of a set: the time of one repeat or all, how many, or the send-off.
fn put_in_set(
    c: &Clause<'_, '_>,
    at: usize,
    whole: Option<u32>,
    set: &mut SetResult,
) -> Option<()> {
    let piece = &c.pieces[at];
    let timed = [Concept::SetTime, Concept::SendOffWord, Concept::On];
    let leaves = (at.saturating_sub(2)..at)
        .any(|before| timed.iter().any(|one| c.pieces[before].means(*one)))
        || c.has(Concept::SendOffWord);
    if leaves && let Some(known) = set.send_off {
        let (Item::Figure(figure) | Item::Each(figure)) = piece.item else { return None };
        let near = |time: &Centis| LIKE.contains(&(time.seconds() / f64::from(known.seconds())));
        let time = figure.times().into_iter().find(near)?;
        set.send_off = Some(SendOff::new(time.seconds().round() as u32).ok()?);
        return Some(());
    }
    let each = set.times.iter().flatten().next().or(set.average.as_ref());
    let known = each.and_then(|time| time.readings.first().copied()).or(set.target);
    if let Some(time) = known.and_then(|known| like(piece, known)) {
        match which(c, at, set.times.len()) {
            Some(place) => *set.times.get_mut(place)? = Some(time),
            None => {
                set.times.clear();
                set.average = Some(time);
            }
        }
        return Some(());
    }
    let count = whole.and_then(|count| u16::try_from(count).ok()).filter(|count| *count <= 40)?;
    match count < set.count {
        true => {
            set.made = Some(count);
            set.of = Some(set.count);
            if !set.times.is_empty() {
                set.times = set
                    .times
                    .iter()
                    .enumerate()
                    .map(|(place, time)| time.clone().filter(|_| place < usize::from(count)))
                    .collect();
            }
        }
        false => {
            set.count = count;
            set.made = set.made.map(|_| count);
            set.of = set.of.map(|_| count);
            if !set.times.is_empty() {
                return None;
            }
        }
    }
    Some(())
}

/// Which repeat a time is of, where a word beside it says so.
fn which(c: &Clause<'_, '_>, at: usize, count: usize) -> Option<usize> {
    c.pieces[..at].iter().rev().take(4).find_map(|piece| match piece.item {
        Item::Ordinal(number) => (number as usize).checked_sub(1).filter(|place| *place < count),
        _ if piece.means(Concept::Last) => count.checked_sub(1),
        _ if piece.means(Concept::First) => (count > 0).then_some(0),
        _ => None,
    })
}
