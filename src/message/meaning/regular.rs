//! The texts that come every week.

use super::evening::time_of_day;
use super::trials::once;
use super::{Outcome, Trouble, days};
use crate::message::syntax::{Item, Verb};
use crate::message::{Kind, Name, Regular, Statement};

/// The statement that `digest` or `weekly` and its parts make.
pub fn command(who: Option<Name>, verb: Verb, parts: &[Item]) -> Outcome<Vec<Statement>> {
    let said = match (verb, parts) {
        (Verb::Digest, []) => Regular::Digest,
        (Verb::Digest, [Item::Switch(wanted)]) => Regular::DigestWanted { wanted: *wanted },
        (Verb::Digest, parts) => when(parts)?,
        (Verb::WeeklyNote, []) => Regular::Note,
        (Verb::WeeklyNote, [Item::Switch(wanted)]) => Regular::NoteWanted { wanted: *wanted },
        _ => return Err(Trouble::Senseless),
    };
    // The digest is nobody's in particular.
    if who.is_some() && verb == Verb::Digest {
        return Err(Trouble::Senseless);
    }
    Ok(vec![Statement { who, kind: Kind::Regular(said) }])
}

fn when(parts: &[Item]) -> Outcome<Regular> {
    let (mut day, mut at) = (None, None);
    for part in parts {
        match part {
            Item::Day(typed) => {
                let weekday = days::weekday(days::day(*typed)?);
                once(&mut day, weekday.map_err(|_| Trouble::Senseless)?)?;
            }
            other => once(&mut at, time_of_day(other)?.ok_or(Trouble::Senseless)?)?,
        }
    }
    Ok(Regular::digest_at(day, at))
}
