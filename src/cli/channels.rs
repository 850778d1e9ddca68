//! From the settings to the ways in and out that a server opens.

use std::sync::Arc;

use super::keys::{KeyError, Source};
use super::run::Failed;
use super::settings::Settings;
use crate::config::{ChatConfig, GatewayConfig, MatrixConfig};
use crate::hidden::Hidden;
use crate::http::{Chat, Inlet, Limit, PlainToken};
use crate::matrix::{Homeserver, Letters};
use crate::outbox::{self, Carrier, Patience, Routes, Signed};
use crate::signing::Secret;

/// The ways in of plain gateways: the one that is always there, and those of
/// gateways with names of their own.
///
/// # Errors
/// A gateway's token can't be one.
pub fn inlets(settings: &Settings, token: PlainToken) -> Result<Vec<Inlet>, Failed> {
    let mut inlets = vec![Inlet::plain(token)];
    for gateway in &settings.gateways {
        inlets.extend(inlet(gateway)?);
    }
    Ok(inlets)
}

fn inlet(gateway: &GatewayConfig) -> Result<Option<Inlet>, Failed> {
    let Some(take) = &gateway.take else { return Ok(None) };
    let unfit = |unfit| format!("gateway {}: {unfit}", gateway.name);
    let token = take.token.reveal().parse().map_err(unfit)?;
    let limit = take.limit.map(Limit::per_minute).map(Arc::new);
    Ok(Some(Inlet::named(&gateway.name, token, take.fields.clone(), limit)))
}

/// The ways in of chat servers.
///
/// # Errors
/// A chat's token can't be one.
pub fn chats(settings: &Settings) -> Result<Vec<Chat>, Failed> {
    settings.chats.iter().map(chat).collect()
}

fn chat(chat: &ChatConfig) -> Result<Chat, Failed> {
    let token = |word: &Hidden| {
        let unfit = |unfit| format!("chat {}: {unfit}", chat.name);
        word.reveal().parse().map_err(unfit)
    };
    Ok(Chat {
        name: chat.name.clone(),
        token: token(&chat.token)?,
        direct_token: chat.direct_token.as_ref().map(token).transpose()?,
        called: chat.called.clone(),
        also_called: chat.send.as_ref().map(|send| send.hook.words()).unwrap_or_default(),
        reaches: chat.send.is_some(),
    })
}

/// The ways in whose token might be guessed, each with what to do about it.
pub fn guessable<'a>(inlets: &'a [Inlet], chats: &'a [Chat]) -> impl Iterator<Item = String> {
    let inlets = inlets.iter().map(|one| (&*one.channel, &one.token));
    let chats = chats.iter().map(|one| (one.name.as_str(), &one.token));
    inlets.chain(chats).filter(|(_, token)| token.is_short()).map(|(name, _)| {
        format!(
            "the token of {name} is short: whoever guesses it texts as anybody; make one of 16 \
             characters or more, say by `openssl rand -hex 16`"
        )
    })
}

/// The homeserver, asked as our account.
///
/// # Errors
/// Its address wants TLS and the system has no certificates to trust.
pub fn homeserver(settings: &Settings) -> Result<Option<Arc<Homeserver>>, Failed> {
    let Some(MatrixConfig { destination, account }) = &settings.matrix else { return Ok(None) };
    let http = outbox::client(destination, Patience::default())?;
    Ok(Some(Homeserver::new(http, destination.url.clone(), account.clone())))
}

/// The ways out for texts to others than the sender, and a line about each for
/// people. `secrets` gives those that the outbox signs with.
///
/// # Errors
/// The outbox's secrets are unfit, or an address wants TLS and the system has
/// no certificates to trust.
pub fn routes(
    settings: &Settings,
    secrets: impl FnOnce() -> Result<(Vec<Secret>, Source), KeyError>,
    homeserver: Option<&Arc<Homeserver>>,
) -> Result<(Routes, Vec<String>), Failed> {
    let mut routes = Routes::default();
    let mut told = vec![];
    if let Some(destination) = &settings.outbox {
        let (secrets, source) = secrets()?;
        told.push(format!("secret: {source}"));
        let carrier = Carrier::new(destination.clone(), Signed(secrets), Patience::default())?;
        routes = routes.and("", carrier);
    }
    for gateway in &settings.gateways {
        let Some(send) = &gateway.send else { continue };
        told.push(format!("to {}* by gateway {}", send.to, gateway.name));
        let carrier =
            Carrier::new(send.destination.clone(), send.gateway.clone(), Patience::default())?;
        routes = routes.and(&send.to, carrier);
    }
    for chat in &settings.chats {
        let Some(send) = &chat.send else { continue };
        let prefix = Chat::prefix(&chat.name);
        told.push(format!("to {prefix}* by chat {}", chat.name));
        let carrier =
            Carrier::new(send.destination.clone(), send.hook.clone(), Patience::default())?;
        routes = routes.and(&prefix, carrier);
    }
    if let (Some(matrix), Some(homeserver)) = (&settings.matrix, homeserver) {
        told.push("to @* and rooms by Matrix".to_owned());
        let letters = Letters(Arc::clone(homeserver));
        let carrier = Carrier::new(matrix.destination.clone(), letters, Patience::default())?;
        // People and rooms.
        routes = routes.and("@", Arc::clone(&carrier)).and("!", carrier);
    }
    Ok((routes, told))
}
