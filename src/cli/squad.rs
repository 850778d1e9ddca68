//! `lapwing squad`.

use super::arguments::SquadAdd;
use super::console::{note, print};
use super::run::Outcome;
use super::settings::Settings;
use crate::control::Access;
use crate::service::{NewSafeguards, NewSquad, Opening};

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
    let closed = squad.minors && asked.welfare.is_none();
    let safeguards = NewSafeguards {
        welfare: asked.welfare,
        deputy: asked.deputy,
        helpline: asked.helpline,
        keep_years: asked.keep_records,
    };
    let access = Access::gain(&settings.data, settings.clock).await?;
    let added = access.add_squad(Opening { squad, safeguards }).await;
    access.close().await;
    let added = added?;
    print(format_args!("squad {}\njoin {}", added.id, added.code))?;
    if closed {
        note(
            "minors swim in it: nobody can join until it has a welfare officer; give --welfare \
             ADDRESS, or let the coach text WELFARE OFFICER and the number",
        );
    }
    Ok(())
}
