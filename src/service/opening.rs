//! Opening a squad: its id, its code, its first event.

use jiff::tz::TimeZone;
use jiff::{Span, Timestamp};

use super::{Failure, NewSafeguards, NewSquad};
use crate::digest;
use crate::history::{Event, Role};

/// Letters and digits that are not taken for one another.
const CODE_LETTERS: &[u8; 32] = b"ABCDEFGHJKLMNPQRSTUVWXYZ23456789";
/// How many of them make a code: 32^8 codes, more than can be tried.
const CODE_LENGTH: usize = 8;

/// The event that opens `squad`, with a new code.
///
/// # Errors
/// [`Failure::Refused`] for an empty name, an address that is none, or a time
/// zone that is not known; [`Failure::Unavailable`] without randomness.
pub(super) fn opened(squad: NewSquad, now: Timestamp) -> Result<Event, Failure> {
    let name = named(&squad.name)?;
    if squad.coach.is_empty() || squad.coach.len() > 128 {
        return Err(Failure::Refused("the coach's address has 1 to 128 characters".into()));
    }
    if TimeZone::get(&squad.timezone).is_err() {
        return Err(Failure::Refused(format!("`{}` is no time zone", squad.timezone)));
    }
    let expires = match squad.expires_days {
        None => None,
        Some(days) => {
            let hours = Span::new().try_hours(i64::from(days) * 24);
            let until = hours.and_then(|hours| now.checked_add(hours));
            Some(until.map_err(|_| Failure::Refused("the code would last too long".into()))?)
        }
    };
    Ok(Event::SquadOpened {
        name,
        coach: squad.coach,
        timezone: squad.timezone,
        course: squad.course,
        code: code()?,
        expires,
        minors: squad.minors,
        ready: squad.ready,
    })
}

/// What a squad is called by these words.
///
/// # Errors
/// [`Failure::Refused`] where they can't be a name.
pub(super) fn named(words: &str) -> Result<String, Failure> {
    let name = words.trim().to_owned();
    if name.is_empty() || name.chars().count() > 60 {
        return Err(Failure::Refused("a squad's name has 1 to 60 characters".into()));
    }
    if name.chars().any(char::is_control) {
        return Err(Failure::Refused("a squad's name has no control characters".into()));
    }
    Ok(name)
}

/// The events that say who looks after the squad's people.
///
/// # Errors
/// [`Failure::Refused`] where the coach is to be welfare officer.
pub(super) fn safeguarded(safeguards: NewSafeguards, coach: &str) -> Result<Vec<Event>, Failure> {
    let NewSafeguards { welfare, deputy, helpline, keep_years } = safeguards;
    let officers: Vec<String> = welfare.into_iter().chain(deputy).collect();
    if officers.iter().any(|officer| officer == coach) {
        let why = "the welfare officer must be someone other than the coach";
        return Err(Failure::Refused(why.to_owned()));
    }
    let officer = |address| Event::RoleGiven { address, role: Role::WelfareOfficer, called: None };
    Ok(officers
        .into_iter()
        .map(officer)
        .chain(helpline.map(|text| Event::HelplineSet { text }))
        .chain(keep_years.map(|years| Event::RecordsKept { years }))
        .collect())
}

/// A new join code.
fn code() -> Result<String, Failure> {
    Ok(random()?.into_iter().map(code_letter).collect())
}

/// The letter of a code that a byte stands for.
#[expect(clippy::indexing_slicing, reason = "there are 32 of them")]
pub(super) fn code_letter(byte: u8) -> char {
    char::from(CODE_LETTERS[usize::from(byte % 32)])
}

/// A new squad id.
pub(super) fn id() -> Result<String, Failure> {
    Ok(digest::hex(&random()?))
}

fn random() -> Result<[u8; CODE_LENGTH], Failure> {
    let mut bytes = [0; CODE_LENGTH];
    getrandom::fill(&mut bytes).map_err(|_| Failure::Unavailable)?;
    Ok(bytes)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn squad(name: &str, expires_days: Option<u32>) -> NewSquad {
        NewSquad { expires_days, ..NewSquad::of_grown_ups(name, "+15550100") }
    }

    #[test]
    fn what_a_squad_may_be_called_and_how_long_its_code_lasts() {
        let now: Timestamp = "2026-03-02T12:00:00Z".parse().unwrap();
        assert!(opened(squad("Dusk", Some(30)), now).is_ok());
        for wrong in ["", "  ", "Du\u{7}sk", "Du\nsk", "Du\u{1b}[31msk"] {
            assert!(
                matches!(opened(squad(wrong, None), now), Err(Failure::Refused(_))),
                "{wrong:?}"
            );
        }
        for days in [5_000_000, u32::MAX] {
            let refused = opened(squad("Dusk", Some(days)), now);
            assert!(matches!(refused, Err(Failure::Refused(_))), "{days}");
        }
    }
}
