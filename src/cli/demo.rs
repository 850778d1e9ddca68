//! `lapwing demo`: an invented squad, to try.

use std::fs;
use std::io::ErrorKind;

use jiff::tz::TimeZone;

use super::console::{BOLD, note, styled};
use super::run::Outcome;
use super::serve::Server;
use super::settings::Settings;
use crate::clock::{Clock, ClockMode, WallClock};
use crate::control::{DataFolder, Owner, write_private};
use crate::demo;

/// Where the demo keeps its data: never where real ones may be.
const DATA: &str = "./lapwing-demo";

/// What the marker says while the squad is being invented.
const BEGUN: &str = "begun";

/// What it says once the squad is there.
const READY: &str = "ready";

/// The same settings in the demo's own folder. Only a flag moves it: a folder
/// that the environment or a file names for real data stays untouched. What an
/// invented squad says goes to nobody.
pub fn in_own_folder(settings: Settings, told_by_flag: bool) -> Settings {
    let data = if told_by_flag { settings.data } else { DataFolder::new(DATA) };
    Settings { data, outbox: None, gateways: vec![], ..settings }
}

/// Serves it until told to stop.
pub async fn run(settings: Settings) -> Outcome {
    let fresh = is_fresh(&settings.data)?;
    if fresh {
        invent(&settings.data).await?;
        write_private(&settings.data.demo(), READY)?;
    }
    let server = Server::open(&settings).await?;
    let title = styled(BOLD, "Lapwing's demo: an invented squad.");
    note(format_args!("{title} Its data are in {}.", server.folder()));
    server.tell_keys();
    let plain = format!("{}{}", server.url()?, server.plain_path());
    for (who, from, text) in
        [("heron, a swimmer", demo::SWIMMER, "200 test 3:12"), ("the coach", demo::COACH, "squad")]
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

/// Lets the squad text its history, each text as of its own day.
async fn invent(folder: &DataFolder) -> Outcome {
    note(format_args!("Inventing a squad with {} weeks of history ...", demo::WEEKS));
    let owner = Owner::take(folder, ClockMode::Message).await?;
    let today = WallClock.now().to_zoned_datetime(TimeZone::UTC).date();
    let invented = demo::prepare(owner.service(), today).await;
    owner.close().await;
    Ok(invented?)
}
