//! The pen: a line to write over, with the statements that it takes to add to the log.
//!
//! An entry is added behind the end that its writer knew. Mostly that is one statement,
//! which moves the end from there or does nothing. Who was too late with it holds the end
//! for the next: he learns what others added, and adds his own before anybody else does.
//! Whoever stands still while he holds it is cut off by the server.

use std::collections::HashMap;
use std::sync::Arc;

use tokio::join;
use tokio_postgres::types::ToSql;
use tokio_postgres::{Row as Answer, Statement};
use tokio_postgres_rustls::MakeRustlsConnect;

use super::DatabaseUrl;
use super::batch::{Batch, Row};
use super::line::{Line, Trouble, Use};
use super::schema;
use crate::journal::high_water::Reach;
use crate::journal::{JournalError, Mark, StreamId};

/// Counts whoever opens a line to write over, and waits until all that was stored before
/// is on the standbys.
const TAKE: &str = "update lapwing.head set epoch = epoch + 1 returning place, mark, revised";

/// How things stand, what time it is there, and whether there is a snapshot of all that is
/// known apart from squads.
const LOOK: &str = "select place, mark, revised, extract(epoch from clock_timestamp())::bigint,
    exists (select from lapwing.snapshot where stream = ''::bytea) from lapwing.head";

/// What stands behind a place, as much as makes a page.
const NEWER: &str = "select frame from lapwing.log where place > $1 order by place limit 500";

/// How much that is.
pub(super) const PAGE: usize = 500;

/// Moves the end of the log from where it was known to be, and only then adds to it.
const APPEND: &str = "
    with moved as (
        update lapwing.head set place = $3, mark = $4
        where place = $1 and mark = $2 returning place
    ), added as (
        insert into lapwing.log (place, stream, number, key, at, frame)
        select * from unnest($5::bigint[], $6::bytea[], $7::bigint[], $8::bytea[],
            $9::bigint[], $10::bytea[]) where exists (select from moved)
    ), known as (
        insert into lapwing.stream (name, number, place, mark)
        select * from unnest($11::bytea[], $12::bigint[], $13::bigint[], $14::bytea[])
            where exists (select from moved)
        on conflict (name) do update
            set number = excluded.number, place = excluded.place, mark = excluded.mark
    )
    select count(*) from moved";

/// A line to write over.
pub(super) struct Pen {
    line: Line,
    append: Statement,
    look: Statement,
    hold: Statement,
    newer: Statement,
}

/// What was seen of the log.
pub(super) struct Seen {
    /// Where it ended.
    pub end: Reach,
    /// How often something in it was put in other words.
    pub revised: i64,
    /// What time it is there, in seconds.
    pub time: i64,
    /// There is a snapshot of all that is known apart from squads.
    pub pictured: bool,
    /// What stands behind the place that was asked for.
    pub frames: Vec<Vec<u8>>,
}

impl Pen {
    /// Opens one, and makes or changes the tables if need be.
    ///
    /// # Errors
    /// No server takes writes, or it keeps nothing for sure.
    pub(super) async fn open(url: DatabaseUrl, tls: MakeRustlsConnect) -> Result<Pen, Trouble> {
        let mut line = Line::open(&url, tls, Use::Writing).await?;
        let safe = line.client.query_one("select current_setting('fsync')::boolean", &[]);
        if !line.within(safe).await?.get::<_, bool>(0) {
            let why = format!("{url} runs with `fsync` off: what it keeps, a power cut may take");
            return Err(Trouble::Refused(JournalError::Storage(why)));
        }
        schema::prepare(&mut line, &url).await?;
        let append = line.within(line.client.prepare(APPEND)).await?;
        let look = line.within(line.client.prepare(LOOK)).await?;
        // Nobody moves the end until we let go of it.
        let hold = format!("{LOOK} for update");
        let hold = line.within(line.client.prepare(&hold)).await?;
        let newer = line.within(line.client.prepare(NEWER)).await?;
        let pen = Pen { line, append, look, hold, newer };
        pen.take().await?;
        Ok(pen)
    }

    /// Where the log ends, and how often something in it was put in other words. On
    /// return all that was stored before is on the standbys.
    ///
    /// # Errors
    /// The line is gone.
    pub(super) async fn take(&self) -> Result<(Reach, i64), Trouble> {
        let taken = self.line.within(self.line.client.query_one(TAKE, &[])).await?;
        Ok((Reach { place: place_of(taken.get(0)), mark: mark_of(taken.get(1))? }, taken.get(2)))
    }

    /// How far each stream goes, by its tag.
    ///
    /// # Errors
    /// The line is gone.
    pub(super) async fn numbers(&self) -> Result<HashMap<u64, u64>, Trouble> {
        let asked = self.line.client.query("select name, number from lapwing.stream", &[]);
        let rows = self.line.long(asked).await?;
        let tip = |row: &Answer| {
            let name = String::from_utf8_lossy(row.get(0)).into_owned();
            (StreamId(name).tag(), place_of(row.get(1)))
        };
        Ok(rows.iter().map(tip).collect())
    }

    /// How things stand, and what was added behind a place.
    ///
    /// # Errors
    /// The line is gone.
    pub(super) async fn look(self: Arc<Self>, after: u64) -> Result<Seen, Trouble> {
        let (line, after) = (&self.line, after.cast_signed());
        let behind: [&(dyn ToSql + Sync); 1] = [&after];
        let (look, newer) = join!(
            biased;
            line.within(line.client.query_one(&self.look, &[])),
            line.within(line.client.query(&self.newer, &behind)),
        );
        seen(&look?, &newer?)
    }

    /// The same, and holds the end where it is until something is
    /// [added](Self::append_held) or it is [let go](Self::let_go).
    ///
    /// # Errors
    /// The line is gone, and the end not held.
    pub(super) async fn hold(self: Arc<Self>, after: u64) -> Result<Seen, Trouble> {
        let (line, after) = (&self.line, after.cast_signed());
        let behind: [&(dyn ToSql + Sync); 1] = [&after];
        // Asked in this order, and answered in it.
        let (begun, held, newer) = join!(
            biased;
            line.within(line.client.batch_execute("begin")),
            line.within(line.client.query_one(&self.hold, &[])),
            line.within(line.client.query(&self.newer, &behind)),
        );
        begun?;
        seen(&held?, &newer?)
    }

    /// Lets go of the end.
    ///
    /// # Errors
    /// The line is gone, and with it what it held.
    pub(super) async fn let_go(self: Arc<Self>) -> Result<(), Trouble> {
        self.line.within(self.line.client.batch_execute("rollback")).await
    }

    /// Adds to the log. On return it is durable; false where the log ended elsewhere:
    /// then nothing was added.
    ///
    /// # Errors
    /// The line is gone, and it may have been added; or the database refuses it.
    pub(super) async fn append(self: Arc<Self>, batch: Arc<Batch>) -> Result<bool, Trouble> {
        self.add(&batch).await
    }

    /// The same while the end is held, which then is let go.
    ///
    /// # Errors
    /// As [`append`](Self::append).
    pub(super) async fn append_held(self: Arc<Self>, batch: Arc<Batch>) -> Result<bool, Trouble> {
        let client = &self.line.client;
        let (added, ended) =
            join!(biased; self.add(&batch), self.line.within(client.batch_execute("commit")));
        let added = added?;
        ended?;
        Ok(added)
    }

    async fn add(&self, batch: &Batch) -> Result<bool, Trouble> {
        let Batch { from, to, rows, tips } = batch;
        let column = |of: fn(&Row) -> i64| rows.iter().map(of).collect::<Vec<i64>>();
        let (places, numbers, ats) =
            (column(|row| row.place), column(|row| row.number), column(|row| row.at));
        let streams: Vec<&[u8]> = rows.iter().map(|row| row.stream.as_slice()).collect();
        let keys: Vec<Option<&[u8]>> = rows.iter().map(|row| row.key.as_deref()).collect();
        let frames: Vec<&[u8]> = rows.iter().map(|row| row.frame.as_slice()).collect();
        let names: Vec<&[u8]> = tips.keys().map(|stream| stream.0.as_bytes()).collect();
        let tip_numbers: Vec<i64> =
            tips.values().map(|(tip, _)| tip.number.cast_signed()).collect();
        let tip_places: Vec<i64> = tips.values().map(|(_, place)| place.cast_signed()).collect();
        let tip_marks: Vec<&[u8]> = tips.values().map(|(tip, _)| tip.mark.0.as_slice()).collect();
        let (old_place, old_mark) = (from.place.cast_signed(), from.mark.0.as_slice());
        let (new_place, new_mark) = (to.place.cast_signed(), to.mark.0.as_slice());
        let values: [&(dyn ToSql + Sync); 14] = [
            &old_place,
            &old_mark,
            &new_place,
            &new_mark,
            &places,
            &streams,
            &numbers,
            &keys,
            &ats,
            &frames,
            &names,
            &tip_numbers,
            &tip_places,
            &tip_marks,
        ];
        let moved = self.line.within(self.line.client.query_one(&self.append, &values)).await?;
        Ok(moved.get::<_, i64>(0) == 1)
    }
}

fn seen(head: &Answer, frames: &[Answer]) -> Result<Seen, Trouble> {
    Ok(Seen {
        end: Reach { place: place_of(head.get(0)), mark: mark_of(head.get(1))? },
        revised: head.get(2),
        time: head.get(3),
        pictured: head.get(4),
        frames: frames.iter().map(|row| row.get(0)).collect(),
    })
}

/// A place or number as the database keeps it.
pub(super) fn place_of(number: i64) -> u64 {
    number.cast_unsigned()
}

/// A mark as the database keeps it.
///
/// # Errors
/// It is none.
pub(super) fn mark_of(bytes: &[u8]) -> Result<Mark, Trouble> {
    let mark = bytes.try_into().map_err(|_| {
        Trouble::Refused(JournalError::Damaged("the database keeps a mark that is none".into()))
    })?;
    Ok(Mark(mark))
}
