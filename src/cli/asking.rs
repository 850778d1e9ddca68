//! What commands ask of whoever owns the data.

use super::progress::shown;
use super::run::Failed;
use super::settings::Settings;
use super::upkeep::require_data;
use crate::control::{Access, AccessError, Owner};

/// Asks whoever owns the data: the server where one runs, else ourselves for as long as it
/// takes. Where there are none yet, an empty folder is made.
pub async fn asked_of_new<T>(
    settings: &Settings,
    ask: impl AsyncFnOnce(&Access<Owner>) -> Result<T, AccessError>,
) -> Result<T, Failed> {
    let gained = Access::gain(&settings.data, settings.clock);
    let access = shown("opening the data folder", gained).await?;
    let answer = ask(&access).await;
    access.close().await;
    Ok(answer?)
}

/// The same of data that must be there.
pub async fn asked_of<T>(
    settings: &Settings,
    ask: impl AsyncFnOnce(&Access<Owner>) -> Result<T, AccessError>,
) -> Result<T, Failed> {
    require_data(&settings.data)?;
    asked_of_new(settings, ask).await
}
