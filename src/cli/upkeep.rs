//! `lapwing check`, `backup` and `restore`: looking after the journal.

use std::path::Path;

use super::console::print;
use super::run::Outcome;
use crate::control::{Access, DataFolder, Store};

/// Tells what is in the journal, and fails if anything is wrong with it.
pub async fn check(folder: &DataFolder) -> Outcome {
    require_data(folder)?;
    let found = Access::gain_store(folder).await?.check().await?;
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
    Err(format!("{} faults in {}", found.faults, folder.path().display()).into())
}

/// Copies the journal into `to`.
pub async fn backup(folder: &DataFolder, to: &Path) -> Outcome {
    require_data(folder)?;
    let copied = Access::gain_store(folder).await?.backup(to).await?;
    print(format_args!("{} entries copied to {}", copied.entries, to.display()))?;
    Ok(())
}

/// Fills the folder's journal, which must be empty, from `from`.
pub async fn restore(folder: &DataFolder, from: &Path) -> Outcome {
    let store = Store::take(folder).await?;
    let copied = store.restore(from).await;
    store.close().await?;
    let entries = copied?.entries;
    print(format_args!("{entries} entries restored to {}", folder.path().display()))?;
    Ok(())
}

/// To look after data is not to make an empty folder of them.
pub(super) fn require_data(folder: &DataFolder) -> Outcome {
    if folder.journal().is_dir() {
        return Ok(());
    }
    Err(format!("there are no data in {}", folder.path().display()).into())
}
