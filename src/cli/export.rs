//! `lapwing export`: a file to take along, on stdout.

use std::io::Write;

use super::arguments::Export;
use super::progress::reached;
use super::run::Outcome;
use super::settings::Settings;
use super::upkeep::require_data;
use crate::service::Taking;

/// Prints the file as it is.
pub async fn run(settings: &Settings, asked: Export) -> Outcome {
    require_data(&settings.data)?;
    let access = reached(settings).await?;
    let Export { file, which, swimmer } = asked;
    let taking = Taking { squad: which.squad, swimmer, file: file.name().to_owned() };
    let taken = access.take_along(&taking).await;
    access.close().await;
    let mut out = std::io::stdout().lock();
    out.write_all(taken?.as_bytes())?;
    out.flush()?;
    Ok(())
}
