//! Reading everything once, to know that it can be read: each row's frame, what it
//! is looked up by, and what is said of the whole.

use std::collections::HashMap;

use tokio_postgres::Row;

use super::parts;
use super::pen::place_of;
use super::shared::Shared;
use crate::journal::frame::{self, Kind};
use crate::journal::{Checked, JournalError, Mark, Snapshot, StreamId};

/// Rows from a place on, as many as make a page.
const PAGE: &str = "
    select place, stream, number, key, at, frame from (
        select *, sum(length(frame)::bigint) over (order by place) - length(frame) as before
        from lapwing.log where place > $1 order by place limit 500
    ) page where before < 4194304 order by place";

const END: &str = "select place, mark from lapwing.head";
const TIPS: &str = "select name, number, place, mark from lapwing.stream";

/// What is said of a stream.
struct Said {
    name: Vec<u8>,
    number: i64,
    mark: Vec<u8>,
}

/// What was walked through so far.
#[derive(Default)]
struct Walked {
    checked: Checked,
    place: u64,
    mark: Mark,
    /// The number of the last entry of each stream.
    numbers: HashMap<Vec<u8>, i64>,
}

/// See [`Journal::check`](crate::journal::Journal::check).
pub(super) fn check(shared: &Shared) -> Result<Checked, JournalError> {
    // Said first: entries come in meanwhile.
    let end =
        shared.ask(|line| async move { line.within(line.client.query_one(END, &[])).await })?;
    let tips = shared.ask(|line| async move { line.long(line.client.query(TIPS, &[])).await })?;
    let mut said: HashMap<i64, Said> = tips.iter().map(said_of).collect();
    let mut walked = Walked::default();
    let mut at_end = Mark::default();
    let last = place_of(end.get(0));
    loop {
        let after = walked.place.cast_signed();
        let rows = shared.ask(move |line| async move {
            line.within(line.client.query(PAGE, &[&after])).await
        })?;
        if rows.is_empty() {
            break;
        }
        for row in &rows {
            walked.take(row, said.remove(&row.get::<_, i64>(0)));
            if walked.place == last {
                at_end = walked.mark;
            }
        }
    }
    let mut checked = walked.checked;
    if walked.place < last {
        checked.fault(format!("the log ends at entry {}, not at {last}", walked.place));
    } else if at_end.0 != *end.get::<_, &[u8]>(1) {
        checked.fault(format!("entry {last} is not the one that the log is said to end with"));
    }
    for Said { name, number, .. } in said.into_values() {
        let name = String::from_utf8_lossy(&name);
        checked.fault(format!("`{name}` is said to end at {number}, which is not in the log"));
    }
    check_snapshots(shared, &mut checked)?;
    Ok(checked)
}

fn said_of(row: &Row) -> (i64, Said) {
    (row.get(2), Said { name: row.get(0), number: row.get(1), mark: row.get(3) })
}

fn check_snapshots(shared: &Shared, checked: &mut Checked) -> Result<(), JournalError> {
    for stream in parts::pictured(shared)? {
        match fitting(shared, &stream)? {
            None => checked.fault(format!("the snapshot of `{stream}` does not fit the log")),
            Some(parts) => checked.parts += parts,
        }
    }
    Ok(())
}

/// How often a snapshot is looked for again that was there and is not: an erasure drops it,
/// and the next one is made meanwhile.
const LOOKS: usize = 3;

/// How many parts a stream's snapshot has, none where it was dropped since; nothing where
/// it does not fit the log.
fn fitting(shared: &Shared, stream: &StreamId) -> Result<Option<usize>, JournalError> {
    for _ in 0..LOOKS {
        let Snapshot { through, parts } = parts::snapshot(shared, stream)?;
        if through > 0 {
            return Ok(Some(parts.len()));
        }
        if !parts::pictured(shared)?.contains(stream) {
            return Ok(Some(0));
        }
    }
    Ok(None)
}

impl Walked {
    /// Takes the next row, of which it is said that it is the last of a stream.
    fn take(&mut self, row: &Row, last: Option<Said>) {
        let place = place_of(row.get(0));
        let next = self.place + 1;
        let follows = place == next;
        match place.saturating_sub(next) {
            0 => {}
            1 => self.checked.fault(format!("entry {next} is missing")),
            _ => self.checked.fault(format!("entries {next} to {} are missing", place - 1)),
        }
        self.place = place;
        if let Err(why) = self.look_at(row, follows, last) {
            self.checked.fault(format!("entry {place}: {why}"));
        }
    }

    fn look_at(&mut self, row: &Row, follows: bool, last: Option<Said>) -> Result<(), String> {
        let bytes: &[u8] = row.get(5);
        let before = std::mem::take(&mut self.mark);
        let frame = frame::read(bytes)?;
        let placed = frame.entry()?;
        self.mark = frame.head.mark;
        self.checked.bytes += bytes.len() as u64;
        let stream = placed.entry.stream.0.as_bytes();
        let (number, key) = (row.get::<_, i64>(2), row.get::<_, Option<&[u8]>>(3));
        if frame.head.kind == Kind::Lost {
            self.checked.lost += 1;
        } else {
            self.checked.entries += 1;
            let known = self.numbers.entry(stream.to_vec()).or_default();
            // Of what was lost it is not known of which stream it was.
            if number <= *known || (number > *known + 1 && self.checked.lost == 0) {
                let after = *known;
                self.checked
                    .fault(format!("`{}` goes from {after} to {number}", placed.entry.stream));
            }
            *self.numbers.entry(stream.to_vec()).or_default() = number;
        }
        if !frame.bears_its_mark() {
            return Err("not what its mark was made from".into());
        }
        // What follows a gap can't be compared with what isn't there.
        let gap = before == Mark::default() && self.place > 1;
        if follows && !gap && frame.head.before != before {
            return Err("it does not follow the one before it".into());
        }
        let digest = placed.entry.key.as_ref().map(|key| key.digest());
        let fits = frame.head.place == self.place
            && frame.head.number.cast_signed() == number
            && *row.get::<_, &[u8]>(1) == *stream
            && placed.entry.at.as_second() == row.get::<_, i64>(4)
            && key == digest.as_ref().map(<[u8; 16]>::as_slice);
        if !fits {
            return Err("it is not looked up by what it is".into());
        }
        let says = last.is_none_or(|said| {
            said.name == stream && said.number == number && said.mark == self.mark.0
        });
        if says {
            Ok(())
        } else {
            Err("it is not the one that its stream is said to end with".into())
        }
    }
}
