//! After a repair: where a squad's snapshot holds what its messages no longer do,
//! what it is known to be is stated in its stream, so that it doesn't hang on the
//! snapshot alone.

use jiff::Timestamp;

use super::room::Room;
use super::{OpenError, letter, streams};
use crate::journal::{Entry, Journal, SledJournal, StreamId};

/// States what the squads are known to be of whose messages some were lost; gives
/// their streams. Blocks.
///
/// # Errors
/// The journal can't be read or written.
pub fn state_what_was_lost(journal: &SledJournal) -> Result<Vec<StreamId>, OpenError> {
    let mut stated = Vec::new();
    for stream in journal.streams()? {
        let Some(id) = streams::squad_of(&stream) else { continue };
        let snapshot = journal.snapshot_whatever_is_lost(&stream)?;
        if !misses_any(journal, &stream, snapshot.through)? {
            continue;
        }
        let room = Room::load_from(journal, &id, &snapshot)?;
        let at = room.squad.as_of.unwrap_or(Timestamp::UNIX_EPOCH);
        let body = letter::stated(&room.parts()?)?;
        journal.append(Entry { stream: stream.clone(), key: None, at, body }).wait()?;
        // The snapshot may end at a number that is given out again now.
        let room = Room::load_anew(journal, &id)?;
        let through = room.number;
        journal.checkpoint(&stream, None, through, room.parts()?)?;
        stated.push(stream);
    }
    Ok(stated)
}

/// True where a stream lacks entries up to a number.
fn misses_any(journal: &SledJournal, stream: &StreamId, through: u64) -> Result<bool, OpenError> {
    let mut next = 1;
    for placed in journal.entries_of(stream, 0) {
        let number = placed?.tip.number;
        if number > through || number > next {
            break;
        }
        next = number + 1;
    }
    Ok(next <= through)
}
