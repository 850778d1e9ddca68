//! The pen: the line over which the one process writes that has the lock, and the
//! statement by which it adds to the log.

use std::collections::HashMap;
use std::path::PathBuf;
use std::sync::Arc;

use tokio_postgres::Statement;
use tokio_postgres::types::ToSql;
use tokio_postgres_rustls::MakeRustlsConnect;

use super::DatabaseUrl;
use super::batch::{Batch, Row};
use super::line::{Line, Trouble, Use};
use super::schema;
use crate::clock::Clock;
use crate::journal::high_water::Reach;
use crate::journal::{JournalError, Mark, StreamId};

/// Names the lock of the process that writes: `lapw` in ASCII, and a number.
const LOCK: (i32, i32) = (0x6c61_7077, 2);

/// Cuts the line of whoever has the lock and has not looked after it for ten seconds, five
/// times as long as it should be (ours): its process or its machine stands still.
const FREE: &str = "
    select pg_terminate_backend(pid) from pg_locks join pg_stat_activity using (pid)
    where locktype = 'advisory' and classid = $1::int4::oid and objid = $2::int4::oid
        and objsubid = 2 and granted
        and database = (select oid from pg_database where datname = current_database())
        and state = 'idle' and state_change < clock_timestamp() - interval '10 s'";

/// Counts whoever takes to writing, so that whoever wrote before can't any more, and
/// waits until all that was stored before is on the standbys.
const TAKE: &str = "update lapwing.head set epoch = epoch + 1 returning place, mark, epoch";

/// Who writes, and what time it is there.
const LOOK: &str = "select epoch, extract(epoch from clock_timestamp())::bigint from lapwing.head";

/// By how many seconds our clock and the database's may differ (ours): what is due, and
/// who is to be asked what when, goes by ours.
const CLOCKS_APART: u64 = 30;

/// Moves the end of the log from where it was known to be, and only then adds to it.
const APPEND: &str = "
    with moved as (
        update lapwing.head set place = $4, mark = $5
        where place = $1 and mark = $2 and epoch = $3 returning place
    ), added as (
        insert into lapwing.log (place, stream, number, key, at, frame)
        select * from unnest($6::bigint[], $7::bytea[], $8::bigint[], $9::bytea[],
            $10::bigint[], $11::bytea[]) where exists (select from moved)
    ), known as (
        insert into lapwing.stream (name, number, place, mark)
        select * from unnest($12::bytea[], $13::bigint[], $14::bigint[], $15::bytea[])
            where exists (select from moved)
        on conflict (name) do update
            set number = excluded.number, place = excluded.place, mark = excluded.mark
    )
    select count(*) from moved";

/// Whoever has it may write.
pub(super) struct Pen {
    line: Line,
    append: Statement,
    /// Which of those that took to writing this is.
    pub epoch: i64,
    clock: Arc<dyn Clock>,
    /// Where the log ended when it was taken.
    pub end: Reach,
}

impl Pen {
    /// Takes the lock and makes or changes the tables if need be.
    ///
    /// # Errors
    /// Another process writes, no server takes writes, or it keeps nothing for sure; or
    /// its clock is not ours.
    pub(super) async fn take(
        url: DatabaseUrl,
        tls: MakeRustlsConnect,
        clock: Arc<dyn Clock>,
    ) -> Result<Pen, Trouble> {
        let mut line = Line::open(&url, tls, Use::Writing).await?;
        let locked =
            line.client.query_one("select pg_try_advisory_lock($1, $2)", &[&LOCK.0, &LOCK.1]);
        if !line.within(locked).await?.get::<_, bool>(0) {
            let freed = line.client.query(FREE, &[&LOCK.0, &LOCK.1]);
            if !line.within(freed).await?.is_empty() {
                tracing::warn!("whoever wrote to the journal had stopped: its lock is freed");
            }
            let journal = PathBuf::from(url.to_string());
            return Err(Trouble::Refused(JournalError::Locked(journal)));
        }
        let safe = line.client.query_one("select current_setting('fsync')::boolean", &[]);
        if !line.within(safe).await?.get::<_, bool>(0) {
            let why = format!("{url} runs with `fsync` off: what it keeps, a power cut may take");
            return Err(Trouble::Refused(JournalError::Storage(why)));
        }
        schema::prepare(&mut line, &url).await?;
        let taken = line.within(line.client.query_one(TAKE, &[])).await?;
        let append = line.within(line.client.prepare(APPEND)).await?;
        let end = Reach { place: place_of(taken.get(0)), mark: mark_of(taken.get(1))? };
        let pen = Pen { line, append, epoch: taken.get(2), clock, end };
        pen.look().await?;
        Ok(pen)
    }

    /// Passes while nobody else has taken to writing, and the database's clock is ours.
    ///
    /// # Errors
    /// The line is gone, another process writes, or one of the clocks is wrong.
    pub(super) async fn look(&self) -> Result<(), Trouble> {
        let row = self.line.within(self.line.client.query_one(LOOK, &[])).await?;
        let refused = |why: String| Err(Trouble::Refused(JournalError::Storage(why)));
        if row.get::<_, i64>(0) != self.epoch {
            return refused("another process has taken to writing".into());
        }
        // Half seconds are the way there and back.
        let off = self.clock.now().as_second() - row.get::<_, i64>(1);
        match off.unsigned_abs() {
            0..=2 => Ok(()),
            seconds @ 3..=CLOCKS_APART => {
                tracing::warn!(seconds, "this machine's clock and the database's are apart");
                Ok(())
            }
            seconds => refused(format!(
                "this machine's clock is {seconds} s {} the database's: one of them is wrong",
                if off > 0 { "ahead of" } else { "behind" }
            )),
        }
    }

    /// Cuts its line: it can't be written with any more.
    pub(super) fn cut(&self) {
        self.line.cut();
    }

    /// How far each stream goes, by its tag.
    ///
    /// # Errors
    /// The line is gone.
    pub(super) async fn numbers(&self) -> Result<HashMap<u64, u64>, Trouble> {
        let asked = self.line.client.query("select name, number from lapwing.stream", &[]);
        let rows = self.line.long(asked).await?;
        let tip = |row: &tokio_postgres::Row| {
            let name = String::from_utf8_lossy(row.get(0)).into_owned();
            (StreamId(name).tag(), place_of(row.get(1)))
        };
        Ok(rows.iter().map(tip).collect())
    }

    /// Adds to the log. On return it is durable; false where the log ended elsewhere
    /// or another process has taken to writing: then nothing was added.
    ///
    /// # Errors
    /// The line is gone, and it may have been added; or the database refuses it.
    pub(super) async fn append(self: Arc<Self>, batch: Arc<Batch>) -> Result<bool, Trouble> {
        let Batch { from, to, rows, tips } = batch.as_ref();
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
        let values: [&(dyn ToSql + Sync); 15] = [
            &old_place,
            &old_mark,
            &self.epoch,
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
