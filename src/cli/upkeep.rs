//! `lapwing check`, `backup`, `restore`, `repair` and `prepare`: looking after the journal.

use std::path::{Path, PathBuf};

use super::arguments::BackupTo;
use super::console::{note, print};
use super::progress::shown;
use super::run::Outcome;
use crate::control::{Access, DataFolder, Store};
use crate::journal::{Lost, Missing, Repaired, grants};

/// Tells what is in the journal, and fails if anything is wrong with it.
pub async fn check(folder: &DataFolder) -> Outcome {
    require_data(folder)?;
    let access = shown("opening the journal", Access::gain_store(folder)).await?;
    let found = shown("checking the journal", access.check()).await?;
    for damage in &found.damage {
        print(damage)?;
    }
    let told =
        usize::try_from(found.faults).unwrap_or(usize::MAX).saturating_sub(found.damage.len());
    if told > 0 {
        print(format_args!("and {told} more"))?;
    }
    let (entries, bytes, parts) = (found.entries, found.bytes, found.parts);
    print(format_args!("{entries} entries ({bytes} bytes), {parts} snapshot parts"))?;
    if found.is_sound() {
        print("sound")?;
        return Ok(());
    }
    Err(format!("{} faults in {}", found.faults, folder.shown()).into())
}

/// Copies the journal into a file, which must not be there unless that is meant.
pub async fn backup(folder: &DataFolder, asked: BackupTo) -> Outcome {
    require_data(folder)?;
    let BackupTo { file: to, force } = asked;
    if !force && to.symlink_metadata().is_ok() {
        let file = to.display();
        return Err(format!("{file} is there already: name another file, or add --force").into());
    }
    let access = shown("opening the journal", Access::gain_store(folder)).await?;
    let copied = shown("copying the journal", access.backup(&to)).await?;
    print(format_args!("{} entries copied to {}", copied.entries, to.display()))?;
    let (kept, missing): (Vec<_>, Vec<_>) =
        beside(folder).into_iter().partition(|(file, _)| file.exists());
    for (file, what) in kept {
        note(format_args!("not in it: {}, {what}", file.display()));
    }
    if missing.iter().any(|(file, _)| *file == folder.secret()) {
        note("not in it: the secrets that are given in the environment");
    }
    Ok(())
}

/// What a server has beside its journal, and what each is.
fn beside(folder: &DataFolder) -> [(PathBuf, &'static str); 5] {
    [
        (folder.secret(), "the secret that messages are signed with"),
        (folder.outbox_secret(), "the secret that texts to others are signed with"),
        (folder.plain_token(), "the plain gateway's token"),
        (folder.rules(), "the coach's own numbers"),
        (folder.chat_history(), "the lines typed in `lapwing chat`"),
    ]
}

/// Fills the folder's journal, which must be empty, from `from`.
pub async fn restore(folder: &DataFolder, from: &Path) -> Outcome {
    let store = Store::take(folder).await?;
    let copied = shown("restoring", store.restore(from)).await;
    store.close().await?;
    let entries = copied?.entries;
    print(format_args!("{entries} entries restored to {}", folder.shown()))?;
    Ok(())
}

/// Makes the tables of the journal's database, and tells which rights a role needs.
pub async fn prepare(folder: &DataFolder, role: Option<String>) -> Outcome {
    if folder.database().is_none() {
        return Err("no database is named: say which with --journal".into());
    }
    shown("preparing the tables", Store::take(folder)).await?.close().await?;
    match role {
        Some(role) => print(grants(&role).trim_end())?,
        None => note(format_args!("the tables in {} are ready", folder.shown())),
    }
    Ok(())
}

/// Mends the folder's journal, and tells what is gone.
pub async fn repair(folder: &DataFolder, from: Vec<PathBuf>) -> Outcome {
    require_data(folder)?;
    let mended = shown("repairing", Store::repair(folder, from)).await?;
    let Repaired { entries, from_copies, lost, missing, kept } = &mended.repaired;
    print(format_args!("{entries} entries brought together, {from_copies} of them from backups"))?;
    for Lost { first, last, after, before } in lost {
        let when = match (after, before) {
            (Some(after), Some(before)) => format!(", between {after} and {before}"),
            (Some(after), None) => format!(", after {after}"),
            (None, Some(before)) => format!(", before {before}"),
            (None, None) => String::new(),
        };
        let count = last - first + 1;
        print(format_args!("gone: {count} entries, {first} to {last}{when}"))?;
    }
    for Missing { stream, first, last } in missing {
        let count = last - first + 1;
        print(format_args!("gone from `{stream}`: its messages {first} to {last} ({count})"))?;
    }
    for stream in &mended.stated {
        print(format_args!("`{stream}`: what they added up to is kept, from its snapshot"))?;
    }
    print(format_args!(
        "what was there is kept in {}; remove it once all is well: it may hold what was erased \
         since",
        kept.display()
    ))?;
    Ok(())
}

/// To look after data is not to make an empty folder of them.
pub(super) fn require_data(folder: &DataFolder) -> Outcome {
    if folder.knows_a_journal() {
        return Ok(());
    }
    Err(format!("there are no data in {}", folder.path().display()).into())
}
