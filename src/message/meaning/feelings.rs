//! How one is: pain with its place and level, illness, faintness, words of harm.

use super::about;
use crate::message::syntax::{Figure, Item};
use crate::message::{Illness, Kind, Name, Pain, Statement};
use crate::units::Stroke;

/// Where no place was said.
const UNSAID: &str = "body";

/// Takes what is said of one's state out of `items`, as statements.
pub fn take(who: Option<&Name>, items: &mut Vec<Item>) -> Vec<Statement> {
    let mut statements = Vec::new();
    let mut left = Vec::with_capacity(items.len());
    let mut at = 0;
    while let Some((item, ahead)) = items.get(at..).and_then(<[Item]>::split_first) {
        let length = run(item, ahead);
        if length > 0 {
            // `chest pain`: the pain is the faintness, and has no place of its own.
            let beside = |item: Option<&Item>| matches!(item, Some(Item::Faint | Item::Welfare));
            let of_faintness =
                (at > 0 && beside(items.get(at - 1))) || beside(items.get(at + length));
            let run = items.iter().skip(at).take(length);
            pains(who, run, of_faintness, &mut statements);
            at += length;
            continue;
        }
        let kind = match item {
            Item::Illness(what) => Some(Kind::Ill { what: *what }),
            Item::Better => Some(Kind::Better),
            Item::Faint => Some(Kind::Faint),
            Item::Welfare => Some(Kind::Welfare),
            _ => None,
        };
        match kind {
            // Whoever is named there, it goes the sender's own way.
            Some(Kind::Welfare) => statements.push(about(None, Kind::Welfare)),
            Some(kind) => statements.push(about(who, kind)),
            None => left.push(item.clone()),
        }
        at += 1;
    }
    *items = left;
    statements
}

/// One illness of each swimmer, told in several words: `ill, fever` is a fever.
/// A stomach stands beside a fever, for each keeps them out in its own way.
pub fn one_illness(statements: &mut Vec<Statement>) {
    let weight = |what: &Option<Illness>| match what {
        None => 0,
        Some(Illness::Cold) => 1,
        Some(Illness::Fever | Illness::Stomach) => 2,
    };
    let mut kept: Vec<Statement> = Vec::with_capacity(statements.len());
    for statement in statements.drain(..) {
        let Kind::Ill { what } = &statement.kind else {
            kept.push(statement);
            continue;
        };
        let same = kept.iter_mut().find_map(|one| match &mut one.kind {
            Kind::Ill { what: other }
                if one.who == statement.who
                    && (other == what || weight(other) < 2 || weight(what) < 2) =>
            {
                Some(other)
            }
            _ => None,
        });
        match same {
            Some(other) if weight(what) > weight(other) => *other = *what,
            Some(_) => {}
            None => kept.push(statement),
        }
    }
    *statements = kept;
}

/// How many items from the first on speak of pain; commas inside count.
fn run(first: &Item, ahead: &[Item]) -> usize {
    let names_pain = |item: &Item| matches!(item, Item::Pain | Item::Body(_));
    let is_back = |item: &Item| matches!(item, Item::Stroke(Stroke::Back));
    if !(names_pain(first) || is_back(first) && ahead.first() == Some(&Item::Pain)) {
        return 0;
    }
    let mut has_place = matches!(first, Item::Body(_));
    let mut has_level = false;
    let mut length = 1;
    for (at, item) in ahead.iter().enumerate() {
        let belongs = names_pain(item)
            || (is_back(item) && !has_place)
            || (!has_level && level(item).is_some());
        let comma_inside =
            *item == Item::Comma && !has_level && ahead.get(at + 1).is_some_and(names_pain);
        has_level |= level(item).is_some();
        has_place |= matches!(item, Item::Body(_));
        if !belongs && !comma_inside {
            break;
        }
        length += 1;
    }
    length
}

/// `4` and `4/10` as a level of pain.
fn level(item: &Item) -> Option<u8> {
    match item {
        Item::Figure(Figure::Number { value: level @ 0..=10, .. })
        | Item::Fraction(level @ 0..=10, 10) => u8::try_from(*level).ok(),
        _ => None,
    }
}

fn pains<'a>(
    who: Option<&Name>,
    run: impl Iterator<Item = &'a Item> + Clone,
    of_faintness: bool,
    statements: &mut Vec<Statement>,
) {
    let level = run.clone().find_map(level);
    let mut places: Vec<&str> = Vec::new();
    for item in run {
        let place = match item {
            Item::Body(place) => *place,
            Item::Stroke(Stroke::Back) => "back",
            _ => continue,
        };
        if !places.contains(&place) {
            places.push(place);
        }
    }
    if places.is_empty() && !of_faintness {
        places.push(UNSAID);
    }
    for place in places {
        statements.push(about(who, Kind::Pain(Pain { place: place.to_owned(), level })));
    }
}
