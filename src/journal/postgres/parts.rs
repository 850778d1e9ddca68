//! Snapshots: a row a stream that says how far one goes, and a row a part.

use std::collections::BTreeMap;
use std::sync::Arc;
use std::sync::atomic::Ordering;

use tokio_postgres::types::ToSql;

use super::pen::place_of;
use super::reading;
use super::shared::Shared;
use crate::journal::error::damaged;
use crate::journal::frame::{self, LONGEST_NAME};
use crate::journal::snapshots::fit;
use crate::journal::{JournalError, Part, Snapshot, StreamId};

/// Everything of a snapshot in one step. `$4` is how far the one goes that it changes,
/// null where it takes the place of any; `$5` and `$6` are its parts, `$7` those that go.
/// Whoever doesn't know of the last erasure, `$8`, changes nothing: what was erased may be
/// in his parts.
const PUT: &str = "
    with based as (
        insert into lapwing.snapshot (stream, through, mark)
        select $1, $2, $3 where exists (select from lapwing.head where revised = $8) and (
            $4::bigint is null
            or exists (select from lapwing.snapshot where stream = $1 and through = $4))
        on conflict (stream) do update set through = excluded.through, mark = excluded.mark
            where $4::bigint is null or snapshot.through = $4
        returning stream
    ), gone as (
        delete from lapwing.part where stream = $1 and exists (select from based)
            and case when $4::bigint is null then name <> all($5) else name = any($7) end
    ), put as (
        insert into lapwing.part (stream, name, bytes)
        select $1, name, bytes from unnest($5::bytea[], $6::bytea[]) as part(name, bytes)
            where exists (select from based)
        on conflict (stream, name) do update set bytes = excluded.bytes
    )
    select count(*) from based";

/// A snapshot with its parts, and what is at its end in the log: found by an index in
/// either case, as all of the log would be read for one condition that holds both.
const GET: &str = "
    select snapshot.through, snapshot.mark, place.mark, part.name, part.bytes,
        coalesce(stream.number, 0)
    from lapwing.snapshot
    left join lateral (
        select substring(frame from 65 for 16) as mark from lapwing.log
        where snapshot.stream = ''::bytea and log.place = snapshot.through
        union all
        select substring(frame from 65 for 16) from lapwing.log
        where snapshot.stream <> ''::bytea and log.stream = snapshot.stream
            and log.number = snapshot.through and log.number > 0
    ) place on true
    left join lapwing.stream on stream.name = snapshot.stream
    left join lapwing.part on part.stream = snapshot.stream
    where snapshot.stream = $1 order by part.name";

/// See [`Journal::checkpoint`](crate::journal::Journal::checkpoint).
pub(super) fn checkpoint(
    shared: &Shared,
    of: &StreamId,
    from: Option<u64>,
    through: u64,
    parts: Vec<Part>,
) -> Result<(), JournalError> {
    frame::within("the name of a stream", of.0.len(), LONGEST_NAME)?;
    fit(&parts)?;
    let mark = mark_at(shared, of, through)?;
    // Of two by one name the later holds.
    let parts: BTreeMap<String, Vec<u8>> =
        parts.into_iter().map(|part| (part.name, part.bytes)).collect();
    let (gone, kept): (Vec<_>, Vec<_>) = parts.into_iter().partition(|(_, bytes)| bytes.is_empty());
    let gone: Vec<Vec<u8>> = gone.into_iter().map(|(name, _)| name.into_bytes()).collect();
    let (names, bytes): (Vec<_>, Vec<_>) =
        kept.into_iter().map(|(name, bytes)| (name.into_bytes(), bytes)).unzip();
    let asked = Arc::new((of.0.clone().into_bytes(), mark, names, bytes, gone));
    let base = from.map(u64::cast_signed);
    let revised = shared.revised.load(Ordering::Acquire);
    let put = shared.ask(move |line| {
        let asked = Arc::clone(&asked);
        async move {
            let (stream, mark, names, bytes, gone) = asked.as_ref();
            let through = through.cast_signed();
            let values: [&(dyn ToSql + Sync); 8] =
                [stream, &through, mark, &base, names, bytes, gone, &revised];
            line.long(line.client.query_one(PUT, &values)).await
        }
    })?;
    match (put.get::<_, i64>(0), from) {
        (0, Some(from)) => Err(JournalError::NoBase(from)),
        (0, None) => Err(JournalError::Moved),
        _ => Ok(()),
    }
}

/// The mark of a stream's entry of this number.
fn mark_at(shared: &Shared, of: &StreamId, number: u64) -> Result<Vec<u8>, JournalError> {
    let name = of.0.clone().into_bytes();
    let asked = match *of == StreamId::all() {
        true => {
            "select substring(frame from 65 for 16) from lapwing.log
            where place = $2 and $1 = ''::bytea"
        }
        false => {
            "select substring(frame from 65 for 16) from lapwing.log
            where stream = $1 and number = $2 and number > 0"
        }
    };
    let found = shared.ask(move |line| {
        let name = name.clone();
        async move {
            let wanted = number.cast_signed();
            line.within(line.client.query_opt(asked, &[&name, &wanted])).await
        }
    })?;
    if let Some(row) = found {
        return Ok(row.get(0));
    }
    let last = reading::tip(shared, of)?.map_or(0, |tip| tip.number);
    Err(JournalError::Ahead { through: number, last })
}

/// A stream's snapshot, if it has one that fits the log.
pub(super) fn snapshot(shared: &Shared, of: &StreamId) -> Result<Snapshot, JournalError> {
    let name = of.0.clone().into_bytes();
    let rows = shared.ask(move |line| {
        let name = name.clone();
        async move { line.long(line.client.query(GET, &[&name])).await }
    })?;
    let Some(first) = rows.first() else { return Ok(Snapshot::default()) };
    let through = place_of(first.get(0));
    let said: &[u8] = first.get(1);
    let fits = match first.get::<_, Option<&[u8]>>(2) {
        Some(there) => there == said,
        // What was lost since, and told of, may be in it all the same.
        None => place_of(first.get(5)) > through,
    };
    if !fits {
        tracing::warn!(stream = %of, "a snapshot does not fit the log, and is left out");
        return Ok(Snapshot::default());
    }
    let mut parts = Vec::new();
    for row in &rows {
        // Without a part there is one row, with none.
        let Some(name) = row.get::<_, Option<&[u8]>>(3) else { continue };
        let name = std::str::from_utf8(name).map_err(|_| damaged("a part's name is not text"))?;
        parts.push(Part { name: name.to_owned(), bytes: row.get(4) });
    }
    Ok(Snapshot { through, parts })
}

/// The streams that have a snapshot.
pub(super) fn pictured(shared: &Shared) -> Result<Vec<StreamId>, JournalError> {
    let rows = shared.ask(|line| async move {
        line.long(line.client.query("select stream from lapwing.snapshot", &[])).await
    })?;
    rows.iter().map(|row| reading::name(row.get(0))).collect()
}
