//! The tables, and how they are made and changed.
//!
//! | table of `lapwing` | a row is |
//! | --- | --- |
//! | `meta` | which tables and which format of entries these are |
//! | `head` | the end of the log; `epoch` counts the lines that were opened to write over, `revised` how often something was erased |
//! | `log` | an entry as a frame, with what it is looked up by |
//! | `stream` | how far a stream goes |
//! | `snapshot`, `part` | how far a stream's snapshot goes; its parts |
//! | `machine` | one that serves, and how the others reach it |
//!
//! Changes are numbered and only added to; one that takes something away that the
//! version before needs comes a version later.

use std::path::PathBuf;

use tokio_postgres::Client;

use super::DatabaseUrl;
use super::line::{Line, Trouble};
use crate::journal::{FORMAT, JournalError};

/// What each change does, in their order.
const CHANGES: [&str; 3] = [include_str!("1.sql"), include_str!("2.sql"), include_str!("3.sql")];

/// Names our lock on changing the tables: `lapw` in ASCII, and a number.
const LOCK: (i32, i32) = (0x6c61_7077, 1);

/// Which tables there are.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Found {
    None,
    Changed { times: usize, format: u32 },
}

/// Makes the tables, or changes those of an earlier version.
///
/// # Errors
/// They are a later version's, or can't be made or changed.
pub(super) async fn prepare(line: &mut Line, url: &DatabaseUrl) -> Result<(), Trouble> {
    if is_known(found(line).await?, url)? {
        return Ok(());
    }
    let client: &mut Client = &mut line.client;
    let failed = |error: tokio_postgres::Error| {
        let said = error.as_db_error().map_or_else(|| error.to_string(), |it| it.message().into());
        let why = format!(
            "the tables in {url} can't be made or brought up to date: {said}; let a role do it \
             once that may"
        );
        Trouble::Refused(JournalError::Storage(why))
    };
    let change = client.transaction().await.map_err(failed)?;
    change
        .execute("select pg_advisory_xact_lock($1, $2)", &[&LOCK.0, &LOCK.1])
        .await
        .map_err(failed)?;
    // Another may have done it meanwhile.
    let there = change.query_one(IS_THERE, &[]).await.map_err(failed)?.get::<_, bool>(0);
    let done = match there {
        true => change.query_one(WHICH, &[]).await.map_err(failed)?.get::<_, i32>(0),
        false => 0,
    };
    for sql in CHANGES.iter().skip(usize::try_from(done).unwrap_or(usize::MAX)) {
        change.batch_execute(sql).await.map_err(failed)?;
    }
    let times = CHANGES.len() as i32;
    change.execute("update lapwing.meta set schema = $1", &[&times]).await.map_err(failed)?;
    change.commit().await.map_err(failed)
}

/// Whether there are tables, and of this version.
///
/// # Errors
/// They are another version's.
pub(super) async fn require(line: &Line, url: &DatabaseUrl) -> Result<(), Trouble> {
    match is_known(found(line).await?, url)? {
        true => Ok(()),
        false => Err(Trouble::Refused(JournalError::Storage(format!(
            "no journal of this version is in {url}"
        )))),
    }
}

/// What lets a role write the journal that may not change its tables, as SQL for
/// whoever owns them.
pub fn grants(role: &str) -> String {
    let role = format!("\"{}\"", role.replace('"', "\"\""));
    format!(
        "grant usage on schema lapwing to {role};\n\
         grant select on all tables in schema lapwing to {role};\n\
         grant insert, update on lapwing.log, lapwing.stream to {role};\n\
         grant update on lapwing.head to {role};\n\
         grant insert, update, delete on lapwing.snapshot, lapwing.part, \
         lapwing.machine to {role};\n"
    )
}

const IS_THERE: &str = "select to_regclass('lapwing.meta') is not null";
const WHICH: &str = "select schema, format from lapwing.meta";

async fn found(line: &Line) -> Result<Found, Trouble> {
    let there = line.within(line.client.query_one(IS_THERE, &[])).await?;
    if !there.get::<_, bool>(0) {
        return Ok(Found::None);
    }
    let row = line.within(line.client.query_one(WHICH, &[])).await?;
    let number = |at| u32::try_from(row.get::<_, i32>(at)).unwrap_or_default();
    Ok(Found::Changed { times: number(0) as usize, format: number(1) })
}

/// True for the tables that we know, false where there is something to be done.
fn is_known(found: Found, url: &DatabaseUrl) -> Result<bool, Trouble> {
    let newer = |found, known| {
        let folder = PathBuf::from(url.to_string());
        Err(Trouble::Refused(JournalError::Newer { folder, found, known }))
    };
    match found {
        Found::None => Ok(false),
        Found::Changed { format, .. } if format > FORMAT => newer(format, FORMAT),
        Found::Changed { times, .. } if times > CHANGES.len() => {
            newer(times as u32, CHANGES.len() as u32)
        }
        Found::Changed { times, .. } => Ok(times == CHANGES.len()),
    }
}
