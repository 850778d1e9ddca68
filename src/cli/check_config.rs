//! `lapwing check-config`: whether a server would start with these settings.

use std::fs;

use super::arguments::{Serve, Shared};
use super::console::{print, warn};
use super::run::Outcome;
use super::settings::Settings;
use super::{channels, keys, listening};
use crate::control::DataFolder;

/// Tells what the settings come to, or all that is wrong with them. What a server
/// makes at its start is not made here, and one that runs is no hindrance.
pub async fn run(shared: &Shared, serve: &Serve) -> Outcome {
    let settings = Settings::for_server(shared, serve)?;
    let mut wrong = Vec::new();
    wrong.extend(unfit_folder(&settings.data));
    wrong.extend(listening::try_out(&settings.listen, "--listen").await.err());
    if let Some(metrics) = &settings.metrics {
        wrong.extend(listening::try_out(metrics, "--metrics").await.err());
    }
    // An address that wants TLS needs certificates to trust.
    let homeserver = channels::homeserver(&settings)?;
    let token = keys::plain_token(&settings.data)?;
    let (inlets, chats) = (channels::inlets(&settings, token)?, channels::chats(&settings)?);
    let (_, ways_out) = channels::routes(&settings, keys::spare_secrets, homeserver.as_ref())?;
    if !wrong.is_empty() {
        return Err(wrong.join("\n").into());
    }
    print(format_args!("data: {}", settings.data.path().display()))?;
    if let Some(database) = settings.data.database() {
        print(format_args!("journal: {database}"))?;
    }
    print(format_args!("listen: {}", settings.listen))?;
    for gateway in &settings.gateways {
        let does = match (&gateway.take, &gateway.send) {
            (Some(_), Some(_)) => "takes and sends",
            (Some(_), None) => "takes",
            (None, _) => "sends",
        };
        print(format_args!("gateway {}: {does} texts", gateway.name))?;
    }
    for chat in &settings.chats {
        let reaches = if chat.send.is_some() { ", reaches its people alone" } else { "" };
        print(format_args!("chat {}: takes messages{reaches}", chat.name))?;
    }
    if let Some(matrix) = &settings.matrix {
        print(format_args!("matrix: {}", matrix.account.user_id()))?;
    }
    let outbox = settings.outbox.as_ref().and_then(|to| to.url.host_str());
    print(format_args!("outbox: {}", outbox.unwrap_or("no address, texts to others wait")))?;
    if settings.data.rules().exists() {
        print(format_args!("rules: {}", settings.data.rules().display()))?;
    }
    if ways_out.is_empty() {
        warn("texts to others go nowhere: alerts can't go");
    }
    channels::guessable(&inlets, &chats).for_each(warn);
    Ok(())
}

/// Why a server could not keep its data there.
fn unfit_folder(data: &DataFolder) -> Option<String> {
    let path = data.path();
    // The folder itself where it is there, else the nearest one that is.
    let found = path.ancestors().find_map(|place| {
        let place = if place.as_os_str().is_empty() { ".".as_ref() } else { place };
        Some((place.to_owned(), fs::metadata(place).ok()?))
    });
    let (place, what) = found?;
    let shown = place.display();
    if !what.is_dir() {
        return Some(format!("{shown} is no folder: name another with --data"));
    }
    let writable =
        rustix::fs::access(&place, rustix::fs::Access::WRITE_OK | rustix::fs::Access::EXEC_OK);
    writable.err().map(|refused| {
        format!("{shown} can't be written ({refused}): name another folder with --data")
    })
}
