//! Reading entries: by place, by stream, by the message that left them.

use std::collections::VecDeque;
use std::sync::Arc;
use std::sync::atomic::Ordering;

use tokio_postgres::Row;
use tokio_postgres::types::ToSql;

use super::line::{Line, Trouble, Use};
use super::shared::Shared;
use crate::journal::error::damaged;
use crate::journal::{JournalError, MessageKey, Placed, StreamId, Tip, frame};

/// For how long a message's id is known, in seconds: fourteen days, and one more.
const KNOWN: i64 = 15 * 24 * 3600;

/// How many entries are read at a time, …
const PAGE: i64 = 500;
/// … unless the first of them are so many bytes already.
const PAGE_BYTES: i64 = 4 * 1024 * 1024;

/// Frames in the order of `by`, from one on, as many as make a page.
macro_rules! page {
    ($by:literal, $of:literal) => {
        concat!(
            "select frame from (select frame, ",
            $by,
            ",
                sum(length(frame)::bigint) over (order by ",
            $by,
            ") - length(frame) as before
                from lapwing.log where ",
            $of,
            " and ",
            $by,
            " > $1 order by ",
            $by,
            " limit $2) page
            where before < $3::bigint order by ",
            $by
        )
    };
}

/// All of the log.
const ALL: &str = page!("place", "true");
/// One stream's.
const OF_STREAM: &str = page!("number", "stream = $4 and number > 0");
/// Several streams', in the order of the log.
const OF_STREAMS: &str = page!("place", "stream = any($4)");

const FOUND: &str = "select frame from lapwing.log
    where key = $1 and at >= (select at from lapwing.log order by place desc limit 1) - $2
    order by place limit 1";

/// Whose entries are read.
#[derive(Debug, Clone)]
pub(super) enum Whose {
    /// All.
    Everybodys,
    /// A stream's, by their number in it.
    Streams(StreamId),
    /// Those of several streams, by their place.
    These(Vec<StreamId>),
}

/// Reads entry by entry, a page at a time.
pub(super) struct Reading<'a> {
    shared: &'a Shared,
    whose: Whose,
    after: u64,
    page: VecDeque<Placed>,
    failed: Option<JournalError>,
    ended: bool,
}

impl<'a> Reading<'a> {
    /// Those after a place, or after a number where they are one stream's.
    pub(super) fn of(shared: &'a Shared, whose: Whose, after: u64) -> Reading<'a> {
        Reading { shared, whose, after, page: VecDeque::new(), failed: None, ended: false }
    }

    fn turn(&mut self) -> Result<(), JournalError> {
        let read = page(self.shared, &self.whose, self.after)?;
        self.ended = read.is_empty();
        for frame in read {
            let placed = placed(&frame)?;
            self.after = match self.whose {
                Whose::Streams(_) => placed.tip.number,
                _ => placed.place.number(),
            };
            // What was lost before, and told of, is in no stream.
            if placed.entry.stream != StreamId::all() {
                self.page.push_back(placed);
            }
        }
        Ok(())
    }
}

impl Iterator for Reading<'_> {
    type Item = Result<Placed, JournalError>;

    fn next(&mut self) -> Option<Self::Item> {
        while self.page.is_empty() && !self.ended {
            if let Err(error) = self.turn() {
                self.ended = true;
                // What came before it was read whole.
                self.failed = Some(error);
            }
        }
        let placed = self.page.pop_front().map(Ok);
        placed.or_else(|| self.failed.take().map(Err))
    }
}

/// The next frames.
///
/// # Errors
/// The database isn't reached.
pub(super) fn page(
    shared: &Shared,
    whose: &Whose,
    after: u64,
) -> Result<Vec<Vec<u8>>, JournalError> {
    let after = after.cast_signed();
    let rows: Vec<Row> = match whose {
        Whose::Everybodys => shared.ask(move |line| async move {
            line.within(line.client.query(ALL, &[&after, &PAGE, &PAGE_BYTES])).await
        }),
        Whose::Streams(stream) => {
            let name = stream.0.clone().into_bytes();
            shared.ask(move |line| {
                let name = name.clone();
                async move {
                    let values: [&(dyn ToSql + Sync); 4] = [&after, &PAGE, &PAGE_BYTES, &name];
                    line.within(line.client.query(OF_STREAM, &values)).await
                }
            })
        }
        Whose::These(streams) => {
            let names: Vec<Vec<u8>> =
                streams.iter().map(|one| one.0.clone().into_bytes()).collect();
            shared.ask(move |line| {
                let names = names.clone();
                async move {
                    let values: [&(dyn ToSql + Sync); 4] = [&after, &PAGE, &PAGE_BYTES, &names];
                    line.within(line.client.query(OF_STREAMS, &values)).await
                }
            })
        }
    }?;
    Ok(rows.iter().map(|row| row.get(0)).collect())
}

/// The entry in a frame.
///
/// # Errors
/// It is not whole.
pub(super) fn placed(bytes: &[u8]) -> Result<Placed, JournalError> {
    frame::read(bytes).and_then(|frame| frame.entry()).map_err(damaged)
}

/// The entry at a place.
///
/// # Errors
/// The database isn't reached, or the entry isn't whole.
pub(super) fn entry(shared: &Shared, place: u64) -> Result<Option<Placed>, JournalError> {
    let place = place.cast_signed();
    let found = shared.ask(move |line| async move {
        let asked = "select frame from lapwing.log where place = $1";
        line.within(line.client.query_opt(asked, &[&place])).await
    })?;
    let found = found.map(|row| placed(row.get(0))).transpose()?;
    Ok(found.filter(|placed| placed.entry.stream != StreamId::all()))
}

/// The entry that a message left: one that is on the standbys too, where there are any.
///
/// # Errors
/// As [`entry`].
pub(super) fn find(shared: &Shared, key: &MessageKey) -> Result<Option<Placed>, JournalError> {
    let digest = key.digest().to_vec();
    let found = shared.ask(move |line| {
        let digest = digest.clone();
        async move { line.within(line.client.query_opt(FOUND, &[&digest, &KNOWN])).await }
    })?;
    let found = found.map(|row| placed(row.get(0))).transpose()?;
    if let Some(placed) = &found {
        make_sure_of(shared, placed.place.number())?;
    }
    Ok(found)
}

/// Returns once all up to a place is on the standbys: what another process wrote can be
/// read, where its line broke, before it is.
fn make_sure_of(shared: &Shared, place: u64) -> Result<(), JournalError> {
    const SURE: &str = "update lapwing.head set epoch = epoch + 1 returning place";
    if shared.what_for() == Use::Reading || shared.sure.load(Ordering::Acquire) >= place {
        return Ok(());
    }
    let sure = shared.ask(|line: Arc<Line>| async move {
        line.within(line.client.query_one(SURE, &[])).await
    })?;
    shared.sure.fetch_max(super::pen::place_of(sure.get(0)), Ordering::AcqRel);
    Ok(())
}

/// The names of all streams.
///
/// # Errors
/// The database isn't reached.
pub(super) fn streams(shared: &Shared) -> Result<Vec<StreamId>, JournalError> {
    let rows = shared.ask(|line: Arc<Line>| async move {
        line.long(line.client.query("select name from lapwing.stream", &[])).await
    })?;
    rows.iter().map(|row| name(row.get(0))).collect()
}

/// How far a stream goes, or the log.
///
/// # Errors
/// The database isn't reached.
pub(super) fn tip(shared: &Shared, stream: &StreamId) -> Result<Option<Tip>, JournalError> {
    let name = stream.0.clone().into_bytes();
    let asked = match *stream == StreamId::all() {
        true => "select place, mark from lapwing.head where place > 0 and $1 = ''::bytea",
        false => "select number, mark from lapwing.stream where name = $1",
    };
    let found = shared.ask(move |line| {
        let name = name.clone();
        async move { line.within(line.client.query_opt(asked, &[&name])).await }
    })?;
    let tip = |row: Row| {
        let mark = super::pen::mark_of(row.get(1)).map_err(Trouble::error)?;
        Ok(Tip { number: super::pen::place_of(row.get(0)), mark })
    };
    found.map(tip).transpose()
}

/// A stream's name as the database keeps it.
pub(super) fn name(bytes: &[u8]) -> Result<StreamId, JournalError> {
    let name = std::str::from_utf8(bytes).map_err(|_| damaged("a stream's name is not text"))?;
    Ok(StreamId(name.to_owned()))
}
