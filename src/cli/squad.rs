//! `lapwing squad`.

use super::arguments::SquadAdd;
use super::console::print;
use super::run::Outcome;
use super::settings::Settings;
use crate::control::Access;
use crate::service::NewSquad;

/// Opens a squad and prints its id and join code, each on a line.
pub async fn add(settings: &Settings, asked: SquadAdd) -> Outcome {
    let squad = NewSquad {
        name: asked.name,
        coach: asked.coach,
        timezone: asked.timezone,
        course: asked.course,
        expires_days: asked.expires,
        minors: asked.minors,
        ready: asked.ready,
    };
    let access = Access::gain(&settings.data, settings.clock).await?;
    let added = access.add_squad(squad).await;
    access.close().await;
    let added = added?;
    print(format_args!("squad {}\njoin {}", added.id, added.code))?;
    Ok(())
}
