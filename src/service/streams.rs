//! Which stream of the journal an entry belongs to.

use crate::digest;
use crate::history::SquadId;
use crate::journal::StreamId;

/// What streams of squads are called before the squad's id.
const SQUAD: &str = "s/";

/// The stream of a squad.
pub(super) fn of_squad(id: &SquadId) -> StreamId {
    StreamId(format!("{SQUAD}{}", id.0))
}

/// The squad whose stream it is, if it is one's.
pub(super) fn squad_of(stream: &StreamId) -> Option<SquadId> {
    stream.0.strip_prefix(SQUAD).map(|id| SquadId(id.to_owned()))
}

/// The stream of what somebody in no squad says.
pub(super) fn of_person(address: &str) -> StreamId {
    StreamId(format!("p/{}", short(address)))
}

/// The stream of what became of the letters in a lane.
pub(super) fn of_lane(lane: &str) -> StreamId {
    StreamId(format!("o/{}", short(lane)))
}

/// The stream of what became of all letters at once.
pub(super) fn of_lanes() -> StreamId {
    StreamId("o".to_owned())
}

/// Streams bear no address: their names stay when they are forgotten.
fn short(address: &str) -> String {
    digest::hex(&digest::of([address])[..16])
}
