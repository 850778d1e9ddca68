//! Who comes, who goes, who runs the squad.

use super::figures::{length, typed_time};
use super::{Outcome, Trouble};
use crate::message::syntax::{Extent, Figure, Item, Verb};
use crate::message::{Guess, Kind, Name, People, Statement};

/// An address has at least so many digits where it is a telephone number.
const LEAST_DIGITS: usize = 5;
/// The longest address, as everywhere.
const LONGEST_ADDRESS: usize = 128;

/// The statement that a verb about people makes.
pub fn command(who: Option<Name>, verb: Verb, parts: &[Item]) -> Outcome<Vec<Statement>> {
    let said = match (verb, parts) {
        (Verb::Invite, [Item::Text(to), rest @ ..]) => invite(to, rest)?,
        (Verb::HandOver, [Item::Name(to)]) => People::HandOver { to: to.clone() },
        (Verb::Remove, [Item::Name(name)]) => People::Remove { name: name.clone() },
        (Verb::Add, [Item::Name(name), rest @ ..]) => {
            People::Add { name: name.clone(), guess: guess(rest)? }
        }
        (Verb::Claim, [Item::Code(code)]) => People::Claim { code: code.clone() },
        (Verb::Leave, []) => People::Leave,
        (Verb::Squads, []) => People::Squads,
        _ => return Err(Trouble::Senseless),
    };
    // Only leaving is said of someone else.
    if who.is_some() && said != People::Leave {
        return Err(Trouble::Senseless);
    }
    Ok(vec![Statement { who, kind: Kind::People(said) }])
}

fn invite(to: &str, rest: &[Item]) -> Outcome<People> {
    let digits = to.chars().filter(char::is_ascii_digit).count();
    let is_address = digits >= LEAST_DIGITS || to.contains([':', '@']);
    if !is_address || to.len() > LONGEST_ADDRESS || to.contains(char::is_whitespace) {
        return Err(Trouble::Senseless);
    }
    let office = rest.iter().find_map(|item| match item {
        Item::Office(office) => Some(*office),
        _ => None,
    });
    let name = rest.iter().find_map(|item| match item {
        Item::Name(name) => Some(name.clone()),
        _ => None,
    });
    Ok(People::Invite { to: to.to_owned(), office, name })
}

/// `2:20` for 100, `200 4:40`.
fn guess(parts: &[Item]) -> Outcome<Option<Guess>> {
    let far = |item: &Item| match item {
        Item::Length(extent) => Some(*extent),
        Item::Figure(Figure::Number { value, .. }) => Some(Extent { amount: *value, unit: None }),
        _ => None,
    };
    match parts {
        [] => Ok(None),
        [Item::Figure(time)] => Ok(Some(Guess { distance: None, time: typed_time(*time)? })),
        [distance, Item::Figure(time)] | [Item::Figure(time), distance @ Item::Length(_)] => {
            let distance = length(far(distance).ok_or(Trouble::Senseless)?)?;
            Ok(Some(Guess { distance: Some(distance), time: typed_time(*time)? }))
        }
        _ => Err(Trouble::Senseless),
    }
}
