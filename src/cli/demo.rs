//! `lapwing demo`: an invented squad, to try.

use std::fs;
use std::io::ErrorKind;
use std::sync::Arc;

use super::console::{BOLD, note, styled};
use super::run::Outcome;
use super::serve::Server;
use super::settings::Settings;
use crate::control::{DataFolder, write_private};
use crate::service::{Body, Incoming, NewSquad, Service};
use crate::units::Course;

/// Where the demo keeps its data: never where real ones may be.
const DATA: &str = "./lapwing-demo";

/// The address of the invented coach.
const COACH: &str = "+15550100";

/// The address of an invented swimmer.
const SWIMMER: &str = "+15550101";

/// What the marker says while the squad is being invented.
const BEGUN: &str = "begun";

/// What it says once the squad is there.
const READY: &str = "ready";

/// The same settings in the demo's own folder. Only a flag moves it: a folder
/// that the environment or a file names for real data stays untouched.
pub fn in_own_folder(settings: Settings, told_by_flag: bool) -> Settings {
    if told_by_flag { settings } else { Settings { data: DataFolder::new(DATA), ..settings } }
}

/// Serves it until told to stop.
pub async fn run(settings: Settings) -> Outcome {
    let fresh = is_fresh(&settings.data)?;
    let server = Server::open(&settings).await?;
    if fresh {
        invent(server.service()).await?;
        write_private(&settings.data.demo(), READY)?;
    }
    let title = styled(BOLD, "Lapwing's demo: an invented squad.");
    note(format_args!("{title} Its data are in {}.", server.folder()));
    server.tell_keys();
    let plain = format!("{}{}", server.url()?, server.plain_path());
    for (who, from, text) in
        [("a swimmer", SWIMMER, "200 test 3:12"), ("the coach", COACH, "squad")]
    {
        let curl = format!("curl '{plain}' --data-urlencode 'from={from}' -d 'text={text}'");
        note(format_args!("\nAs {who}:\n  {}", styled(BOLD, curl)));
    }
    note("");
    server.serve().await
}

/// Whether the squad is still to be invented. One whose invention was cut off
/// is thrown away; data that no demo made are left alone.
fn is_fresh(folder: &DataFolder) -> Result<bool, Box<dyn std::error::Error + Send + Sync>> {
    let _claim = folder.claim()?;
    let marker = match fs::read_to_string(folder.demo()) {
        Ok(words) => Some(words),
        Err(gone) if gone.kind() == ErrorKind::NotFound => None,
        Err(failed) => return Err(failed.into()),
    };
    let made = folder.journal().exists();
    match marker.as_deref().map(str::trim) {
        Some(READY) => return Ok(!made),
        Some(_) if made => fs::remove_dir_all(folder.journal())?,
        None if made => {
            let folder = folder.path().display();
            return Err(format!("{folder} holds data that are no demo's; name another").into());
        }
        _ => {}
    }
    write_private(&folder.demo(), BEGUN)?;
    Ok(true)
}

/// Opens the squad and lets a swimmer join it.
async fn invent(service: &Arc<Service>) -> Outcome {
    let squad = NewSquad {
        name: "Dusk".to_owned(),
        coach: COACH.to_owned(),
        timezone: "UTC".to_owned(),
        course: Course::Short25m,
        expires_days: None,
        minors: false,
        ready: true,
    };
    let added = service.add_squad(squad).await?;
    let join = Incoming {
        channel: "chat",
        id: None,
        from: SWIMMER.to_owned(),
        room: None,
        sent_at: None,
        body: Body::Text(format!("join {} heron", added.code)),
    };
    service.receive(join).await?;
    Ok(())
}
