//! `lapwing demo`: an invented squad, to try.

use std::fs;
use std::io::ErrorKind;

use jiff::tz::TimeZone;

use super::console::{BOLD, note, styled};
use super::run::{Failed, Outcome};
use super::serve::{Server, Signals};
use super::settings::Settings;
use crate::clock::{Clock, ClockMode, WallClock};
use crate::control::{DataFolder, Owner, write_private};
use crate::demo;
use crate::service::{Body, Incoming};

/// Where the demo keeps its data: never where real ones may be.
const DATA: &str = "./lapwing-demo";

/// What the marker says while the squad is being invented.
const BEGUN: &str = "begun";

/// What it begins with once the squad is there; its zone follows.
const READY: &str = "ready";

/// The same settings in the demo's own folder. Only a flag moves it: a folder or a
/// database that the environment or a file names for real data stays untouched. What an
/// invented squad says goes to nobody.
pub fn in_own_folder(settings: Settings, told_by_flag: bool) -> Settings {
    let data = if told_by_flag { settings.data } else { DataFolder::new(DATA) };
    let data = data.with_database(None);
    Settings { data, outbox: None, gateways: vec![], ..settings }
}

/// Serves it until told to stop.
pub async fn run(settings: Settings) -> Outcome {
    match is_there(&settings.data)? {
        None => invent(&settings.data).await?,
        Some(zone) => swim_again(&settings.data, &zone).await?,
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
    if let Some(board) = board(&server).await {
        note(format_args!("\nThe evening on one page:\n  {}", styled(BOLD, board)));
    }
    note("");
    server.serve(Signals::catch()?).await
}

/// The page that the coach's text opens.
async fn board(server: &Server) -> Option<String> {
    let incoming = Incoming {
        channel: "demo".into(),
        id: None,
        from: demo::COACH.to_owned(),
        room: None,
        sent_at: None,
        body: Body::Text("board".to_owned()),
    };
    let answer = server.service().receive(incoming).await.ok()?;
    let mut said = answer.replies.iter().flat_map(|reply| reply.text.split_whitespace());
    said.find(|word| word.starts_with("http")).map(str::to_owned)
}

/// The zone of the squad that is there; none where it is still to be invented. One
/// whose invention was cut off is thrown away; data that no demo made are left alone.
fn is_there(folder: &DataFolder) -> Result<Option<String>, Failed> {
    let _claim = folder.claim()?;
    let marker = match fs::read_to_string(folder.demo()) {
        Ok(words) => Some(words),
        Err(gone) if gone.kind() == ErrorKind::NotFound => None,
        Err(failed) => return Err(failed.into()),
    };
    let made = folder.journal().exists();
    let marker = marker.as_deref().map(str::trim);
    if let Some(zone) = marker.and_then(|marker| marker.strip_prefix(READY)).filter(|_| made) {
        return Ok(Some(zone.trim().to_owned()));
    }
    match marker {
        Some(_) if made => fs::remove_dir_all(folder.journal())?,
        None if made => {
            let folder = folder.path().display();
            return Err(format!("{folder} holds data that are no demo's; name another").into());
        }
        _ => {}
    }
    write_private(&folder.demo(), BEGUN)?;
    Ok(None)
}

/// Lets the squad text its history, each text as of its own instant, in the zone of
/// whoever looks.
async fn invent(folder: &DataFolder) -> Outcome {
    note(format_args!("Inventing a squad with {} weeks of history ...", demo::WEEKS));
    let owner = Owner::take(folder, ClockMode::Message).await?;
    let now = WallClock.now();
    let own = TimeZone::system();
    let zone = demo::zone(now, own.iana_name().unwrap_or("UTC"));
    let invented = demo::prepare(owner.service(), now, zone).await;
    owner.close().await;
    invented?;
    write_private(&folder.demo(), &format!("{READY} {zone}"))?;
    Ok(())
}

/// Lets the squad that is there swim an evening that is under way now.
async fn swim_again(folder: &DataFolder, zone: &str) -> Outcome {
    let owner = Owner::take(folder, ClockMode::Message).await?;
    let swum = demo::tonight(owner.service(), WallClock.now(), zone).await;
    owner.close().await;
    Ok(swum?)
}
