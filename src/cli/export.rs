//! `lapwing export`: a file to take along, on stdout.

use std::io::Write;

use super::arguments::Export;
use super::asking::asked_of;
use super::run::Outcome;
use super::settings::Settings;
use crate::service::Taking;

/// Prints the file as it is.
pub async fn run(settings: &Settings, asked: Export) -> Outcome {
    let Export { file, which, swimmer } = asked;
    let taking = Taking { squad: which.squad, swimmer, file: file.name().to_owned() };
    let taken = asked_of(settings, async |access| access.take_along(&taking).await).await?;
    let mut out = std::io::stdout().lock();
    out.write_all(taken.as_bytes())?;
    out.flush()?;
    Ok(())
}
