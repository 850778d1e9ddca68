//! The count of who comes, on the evening of a squad night.

use jiff::Timestamp;
use jiff::civil::{Date, Time, time};

use super::hours::QUIET;
use super::whom::Whom;
use crate::desk::evening::attend;
use crate::history::{Night, Squad};
use crate::reply::{Outcome, SquadReply};

/// When the count is due (ours: before the coach leaves for the pool).
pub const COUNT: Time = time(17, 0, 0, 0);

/// The night of today whose count may still be told at `now`, and whether its
/// time has come: from five in the afternoon until the night begins, or until
/// the quiet hours where those are earlier.
fn ahead(squad: &Squad, now: Timestamp) -> Option<(Night, bool)> {
    let local = now.to_zoned_datetime(squad.zone());
    let night = squad.night(local.date(), now)?;
    let until = night.starts.map_or(QUIET, |starts| starts.min(QUIET));
    (local.time() < until).then_some((night, local.time() >= COUNT))
}

/// Whoever runs the evening. An assistant is told where they asked for it.
fn told(squad: &Squad) -> impl Iterator<Item = &String> {
    squad.members.iter().filter(|(_, member)| member.hears_counts()).map(|(address, _)| address)
}

/// Those who may still be told today.
pub fn claims(squad: &Squad, now: Timestamp) -> Vec<String> {
    match ahead(squad, now) {
        Some(_) => told(squad).cloned().collect(),
        None => Vec::new(),
    }
}

/// Those for whom it is due at `now`: nobody where no swimmer has said whether
/// they come.
pub fn whom(squad: &Squad, now: Timestamp) -> Vec<Whom> {
    let Some((night, true)) = ahead(squad, now) else { return Vec::new() };
    let on = night.on;
    if !squad.swimmers.values().any(|swimmer| swimmer.says_of(on, now).is_some()) {
        return Vec::new();
    }
    told(squad).map(|to| Whom { to: to.clone(), who: None, on }).collect()
}

/// Who comes on the night.
pub fn count(squad: &Squad, on: Date, now: Timestamp) -> Outcome {
    Outcome::Squad(SquadReply {
        squad: squad.name.clone(),
        swimmers: vec![],
        filter: None,
        night: Some(attend::night(squad, on, now)),
    })
}
