//! Putting other entries in the place of some, a page at a time, while others read
//! and write.

use std::sync::Arc;
use std::sync::atomic::Ordering;

use super::line::Use;
use super::reading::{self, Whose};
use super::shared::Shared;
use crate::journal::contract::Change;
use crate::journal::error::damaged;
use crate::journal::frame::{self, Frame};
use crate::journal::{Entry, JournalError, StreamId};

/// What stands in the place of the entry with this mark, by columns.
#[derive(Default)]
struct Instead {
    places: Vec<i64>,
    marks: Vec<Vec<u8>>,
    keys: Vec<Option<Vec<u8>>>,
    ats: Vec<i64>,
    frames: Vec<Vec<u8>>,
}

const PUT: &str = "
    update lapwing.log set key = instead.key, at = instead.at, frame = instead.frame
    from unnest($1::bigint[], $2::bytea[], $3::bytea[], $4::bigint[], $5::bytea[])
        as instead(place, mark, key, at, frame)
    where log.place = instead.place and substring(log.frame from 65 for 16) = instead.mark";

/// Whether we may clean the tables.
const MAY_CLEAN: &str = "select pg_has_role(relowner, 'usage') from pg_class
    where oid = 'lapwing.log'::regclass";

/// See [`Journal::revise`](crate::journal::Journal::revise).
pub(super) fn revise(
    shared: &Shared,
    streams: &[StreamId],
    change: &mut Change<'_>,
) -> Result<(), JournalError> {
    if shared.what_for() == Use::Reading {
        return Err(JournalError::ReadOnly(READING.to_owned()));
    }
    let whose = Whose::These(streams.to_vec());
    let mut after = 0;
    loop {
        let frames = reading::page(shared, &whose, after)?;
        if frames.is_empty() {
            break;
        }
        let mut instead = Instead::default();
        for bytes in &frames {
            let frame = frame::read(bytes).map_err(damaged)?;
            after = frame.head.place;
            let placed = frame.entry().map_err(damaged)?;
            if placed.entry.stream == StreamId::all() {
                continue;
            }
            if let Some(entry) = change(&placed)? {
                frame::fits(&entry)?;
                if entry.stream != placed.entry.stream {
                    return Err(damaged("an entry can't go to another stream"));
                }
                instead.put(frame, &entry);
            }
        }
        instead.write(shared)?;
    }
    drop_snapshots(shared, streams)?;
    clean(shared)
}

/// Why nothing is written where it was opened to be read.
pub(super) const READING: &str = "it was opened to be read";

impl Instead {
    fn put(&mut self, frame: Frame<'_>, entry: &Entry) {
        let mut bytes = Vec::new();
        frame::write_changed(&mut bytes, frame.head, entry);
        self.places.push(frame.head.place.cast_signed());
        self.marks.push(frame.head.mark.0.to_vec());
        self.keys.push(entry.key.as_ref().map(|key| key.digest().to_vec()));
        self.ats.push(entry.at.as_second());
        self.frames.push(bytes);
    }

    fn write(self, shared: &Shared) -> Result<(), JournalError> {
        if self.places.is_empty() {
            return Ok(());
        }
        let instead = Arc::new(self);
        let put = shared.ask(move |line| {
            let instead = Arc::clone(&instead);
            async move {
                let Instead { places, marks, keys, ats, frames } = instead.as_ref();
                line.long(line.client.execute(PUT, &[places, marks, keys, ats, frames])).await
            }
        });
        put.map(drop)
    }
}

/// Drops the streams' snapshots, and says that what others have folded holds what was
/// erased. Whoever erases sees to his own.
fn drop_snapshots(shared: &Shared, streams: &[StreamId]) -> Result<(), JournalError> {
    const DROP: &str = "with parts as (delete from lapwing.part where stream = any($1)),
        gone as (delete from lapwing.snapshot where stream = any($1))
        update lapwing.head set revised = revised + 1 returning revised";
    let names: Vec<Vec<u8>> = streams.iter().map(|one| one.0.clone().into_bytes()).collect();
    let known = shared.revised.load(Ordering::Acquire);
    let dropped = shared.ask(move |line| {
        let names = names.clone();
        async move { line.long(line.client.query_one(DROP, &[&names])).await }
    })?;
    // Where somebody else erased too, that is still to be learnt.
    if dropped.get::<_, i64>(0) == known + 1 {
        shared.revised.store(known + 1, Ordering::Release);
    }
    Ok(())
}

/// Has the database clean away the old forms of what was changed, where we may; it
/// does so by itself some time later.
fn clean(shared: &Shared) -> Result<(), JournalError> {
    let may = shared
        .ask(|line| async move { line.within(line.client.query_one(MAY_CLEAN, &[])).await })?;
    if !may.get::<_, bool>(0) {
        tracing::info!("old forms of what was erased are left for the database to clean away");
        return Ok(());
    }
    let cleaned = shared.ask(|line| async move {
        line.long(line.client.batch_execute("vacuum lapwing.log, lapwing.part, lapwing.snapshot"))
            .await
    });
    if let Err(error) = cleaned {
        tracing::warn!(%error, "old forms of what was erased are left for the database to clean away");
    }
    Ok(())
}
