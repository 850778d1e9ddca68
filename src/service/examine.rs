//! Whether what is stored makes sense: every record read, every squad folded, and
//! that compared with its snapshot. The journal's own check knows only bytes.

use super::letter::Logged;
use super::room::{Room, from_part};
use super::{OpenError, parts, streams};
use crate::background;
use crate::history::{Squad, Swimmer};
use crate::journal::{Checked, Journal, JournalError, Part, Restored, State, StreamId};

/// Checks a journal, and what it holds.
///
/// # Errors
/// Only where nothing could be checked: what is wrong is in the answer.
pub fn examine(journal: &dyn Journal) -> Result<Checked, JournalError> {
    let mut checked = journal.check()?;
    // Of what is damaged, what can be read was read.
    if journal.state() != State::Writable && !checked.is_sound() {
        return Ok(checked);
    }
    for stream in journal.streams()? {
        let read = match streams::squad_of(&stream) {
            Some(id) => Room::load_anew(journal, &id).and_then(|folded| {
                let loaded = Room::load(journal, &id)?;
                Ok((folded.number == loaded.number && folded.squad == loaded.squad)
                    || journal.tip(&stream)?.is_none_or(|tip| tip.number != folded.number))
            }),
            None => read_all(journal, &stream).map(|()| true),
        };
        match read {
            Ok(true) => {}
            Ok(false) if checked.lost > 0 => {}
            Ok(false) => checked.fault(format!("the snapshot of `{stream}` is not its entries")),
            Err(error) => checked.fault(format!("`{stream}`: {error}")),
        }
    }
    for part in journal.snapshot(&StreamId::all())?.parts {
        if let Err(error) = parts::is_one(&part) {
            checked.fault(error.to_string());
        }
    }
    Ok(checked)
}

fn read_all(journal: &dyn Journal, stream: &StreamId) -> Result<(), OpenError> {
    for placed in journal.entries_of(stream, 0) {
        Logged::read(&placed?.entry.body)?;
        background::rest();
    }
    Ok(())
}

/// Whether what is to be restored can be read back.
///
/// # Errors
/// In words, if it can't.
pub fn makes_sense(restored: Restored<'_>) -> Result<(), String> {
    let told = |error: &dyn std::fmt::Display| error.to_string();
    match restored {
        Restored::Entry(placed) => Logged::read(&placed.entry.body)
            .map(drop)
            .map_err(|error| format!("entry {}: {error}", placed.place)),
        Restored::Part(stream, part) if *stream == StreamId::all() => {
            parts::is_one(part).map_err(|error| told(&error))
        }
        Restored::Part(_, part) => part_of_squad(part).map_err(|error| told(&error)),
    }
}

/// Whether a part of a squad's snapshot can be read.
///
/// # Errors
/// It can't.
pub(super) fn part_of_squad(part: &Part) -> Result<(), OpenError> {
    match part.name.starts_with("swimmer/") {
        true => from_part::<Swimmer>(part).map(drop),
        false => from_part::<Squad>(part).map(drop),
    }
}
