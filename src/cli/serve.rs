//! `lapwing serve`.

use std::io;
use std::num::NonZeroU32;
use std::sync::Arc;
use std::time::Duration;

use axum::serve::ListenerExt;
use tokio::net::TcpListener;
use tokio::signal::unix::{Signal, SignalKind, signal};
use tokio::task::JoinHandle;
use tokio::time::{Instant, timeout, timeout_at};
use tokio_util::sync::CancellationToken;

use super::channels;
use super::console::{note, warn};
use super::keys::{self, Keys};
use super::listening::{self, bind};
use super::run::{Failed, Outcome};
use super::settings::Settings;
use crate::clock::WallClock;
use crate::config::BoardUrl;
use crate::control::{self, Owner};
use crate::http::{self, Chat, Door, Inlet, Limit, Limits, Neighbours, Reception};
use crate::journal::State;
use crate::matrix::{self, Appservice, Homeserver};
use crate::outbox::{Courier, Routes, Siren};
use crate::service::Service;

/// How long the store may take to close once the last request has ended. With
/// [`Limits::drain`] this makes the 10 s that we promise.
const CLOSING: Duration = Duration::from_secs(2);

/// How many connections are promised.
const ENOUGH: usize = 1000;

/// Serves until SIGTERM or SIGINT.
pub async fn run(settings: &Settings) -> Outcome {
    let mut signals = Signals::catch()?;
    let server = tokio::select! {
        opened = Server::open(settings) => opened?,
        // The database may be away for a while.
        () = signals.next() => {
            note("stopping");
            return Ok(());
        }
    };
    note(format_args!("lapwing {} serves {}", env!("CARGO_PKG_VERSION"), server.folder()));
    server.tell_state();
    server.tell_places();
    server.tell_keys();
    server.tell_outbox();
    server.tell_pages(settings);
    server.serve(signals).await
}

/// A server with its store and its socket open, taking nothing yet.
pub struct Server {
    owner: Owner,
    keys: Keys,
    listener: TcpListener,
    metrics: Option<TcpListener>,
    folder: String,
    limit: Option<NonZeroU32>,
    neighbours: Option<Neighbours>,
    inlets: Vec<Inlet>,
    chats: Vec<Chat>,
    homeserver: Option<Arc<Homeserver>>,
    routes: Routes,
    ways_out: Vec<String>,
}

impl Server {
    /// Takes the data folder and the address.
    ///
    /// # Errors
    /// Another server has one of them, or the store can't be opened.
    pub async fn open(settings: &Settings) -> Result<Server, Failed> {
        let owner = control::own(&settings.data, settings.clock).await?;
        let keys = Keys::of(&settings.data)?;
        let homeserver = channels::homeserver(settings)?;
        let (routes, ways_out) = channels::routes(
            settings,
            || keys::outbox_secrets(&settings.data),
            homeserver.as_ref(),
        )?;
        let inlets = channels::inlets(settings, keys.token.0.clone())?;
        let chats = channels::chats(settings)?;
        let listener = bind(&settings.listen, "--listen").await?;
        let metrics = match &settings.metrics {
            Some(address) => Some(bind(address, "--metrics").await?),
            None => None,
        };
        let folder = settings.data.shown();
        let url = url_of(&listener)?;
        let pages = settings.board.as_ref().map_or(&*url, BoardUrl::as_str);
        owner.service().show_boards_at(pages);
        let neighbours = settings
            .neighbour
            .as_ref()
            .map(|url| Neighbours::reached_at(url.as_str(), Arc::new(WallClock)));
        let neighbours = neighbours.transpose()?;
        Ok(Server {
            owner,
            keys,
            listener,
            metrics,
            folder,
            limit: settings.limit,
            neighbours,
            inlets,
            chats,
            homeserver,
            routes,
            ways_out,
        })
    }

    /// The data folder, for people.
    pub fn folder(&self) -> &str {
        &self.folder
    }

    /// The service behind it.
    pub fn service(&self) -> &Arc<Service> {
        self.owner.service()
    }

    /// Its address, as a URL begins.
    ///
    /// # Errors
    /// The system doesn't know it.
    pub fn url(&self) -> io::Result<String> {
        url_of(&self.listener)
    }

    /// The path, under its address, at which plain gateways bring their texts;
    /// it holds the token.
    pub fn plain_path(&self) -> String {
        format!("/v1/plain/{}", self.keys.token.0.reveal())
    }

    /// Says so where nothing is stored.
    pub fn tell_state(&self) {
        if let State::ReadOnly(why) = self.service().state() {
            warn(format_args!("READ ONLY, nothing is stored: {why}"));
            warn("stop the server and run `lapwing repair`, with backups if there are any");
        }
    }

    /// Says how many may be connected, and where that is fewer than it should be.
    pub fn tell_places(&self) {
        let (files, places) = (http::open_files(), Limits::default().places);
        note(format_args!("{} connections at once ({files} files may be open)", places.all));
        if places.all < ENOUGH {
            warn("that is few: raise the limit of open files (ulimit -n, LimitNOFILE)");
        }
    }

    /// Says where the keys are kept.
    pub fn tell_keys(&self) {
        note(format_args!("signing secret: {}", self.keys.secrets.1));
        note(format_args!("plain gateway's token: {}", self.keys.token.1));
        channels::guessable(&self.inlets, &self.chats).for_each(warn);
    }

    /// Says whether texts to others than the sender go anywhere.
    pub fn tell_outbox(&self) {
        let waiting = self.service().letters_waiting();
        if self.ways_out.is_empty() {
            warn(format_args!(
                "outbox: no address. ALERTS CAN'T GO: nobody is told of danger, and texts to \
                 others wait, {waiting} so far. Name one with --outbox-url, or a [[gateway]] with \
                 a `send` in the settings file"
            ));
        } else {
            note(format_args!("outbox: {waiting} waiting, {}", self.ways_out.join(", ")));
        }
    }

    /// Says so where the addresses of pages would open on no telephone.
    pub fn tell_pages(&self, settings: &Settings) {
        if settings.board.is_none() && listening::is_everywhere(&self.listener) {
            warn(
                "pages: no address. What `board` and `trend` give begins as what is listened on, \
                 which opens nowhere. Name how others reach this server with --board-url \
                 https://squad.example.org",
            );
        }
    }

    /// Takes messages until told to stop, then ends what was begun.
    ///
    /// # Errors
    /// The control socket can't be had.
    pub async fn serve(self, mut signals: Signals) -> Outcome {
        let url = self.url()?;
        let (limits, stopping) = (Limits::default(), CancellationToken::new());
        let reception = Reception::new(Arc::clone(self.owner.service()), limits, stopping.clone());
        let reception = match self.neighbours {
            Some(neighbours) => reception.with_neighbours(neighbours),
            None => reception,
        };
        let control = self.owner.listen(reception.clone())?;
        let limit = self.limit.map(Limit::per_minute).map(Arc::new);
        let matrix = self.homeserver.map(|homeserver| {
            matrix::router(Appservice::new(homeserver, reception.clone(), limit.clone()))
        });
        if let Some(listener) = self.metrics {
            note(format_args!("figures at http://{}/metrics", listener.local_addr()?));
            let router = http::metrics_router(reception.clone());
            tokio::spawn(http::serve(listener, router, limits, stopping.clone()));
        }
        let door = Door {
            reception,
            secrets: self.keys.secrets.0.into(),
            inlets: self.inlets.into(),
            chats: self.chats.into(),
            clock: Arc::new(WallClock),
            limit,
        };
        let listener = self.listener.tap_io(|stream| {
            if let Err(refused) = stream.set_nodelay(true) {
                tracing::debug!(%refused, "a connection stays with delays");
            }
        });
        let paths = http::router(door).merge(matrix.unwrap_or_default());
        let public = http::serve(listener, paths, limits, stopping.clone());
        let public = tokio::spawn(public);
        let routes = Arc::new(self.routes);
        let courier = (!routes.is_empty()).then(|| {
            let service = Arc::clone(self.owner.service());
            let courier = Courier::new(service, Arc::new(WallClock), Arc::clone(&routes));
            tokio::spawn(courier.run(stopping.clone()))
        });
        // Without any way out it still says that nobody is reached.
        let siren = Siren::new(Arc::clone(self.owner.service()), Arc::new(WallClock), routes);
        let siren = tokio::spawn(siren.run(stopping.clone()));
        self.owner.service().lead();
        let unasked = Arc::clone(self.owner.service()).speak_unasked(stopping.clone());
        drop(tokio::spawn(unasked));
        note(format_args!("listening on {url}"));

        signals.next().await;
        note("stopping");
        stopping.cancel();
        tokio::select! {
            () = ended([public, control], courier.into_iter().chain([siren]), limits.drain) => {}
            () = signals.next() => note("stopping at once"),
        }
        if timeout(CLOSING, tokio::spawn(self.owner.close())).await.is_err() {
            tracing::warn!("the store took too long to close; what was answered is stored");
        }
        Ok(())
    }
}

fn url_of(listener: &TcpListener) -> io::Result<String> {
    Ok(format!("http://{}", listener.local_addr()?))
}

async fn ended(
    servers: [JoinHandle<()>; 2],
    couriers: impl Iterator<Item = JoinHandle<()>>,
    drain: Duration,
) {
    let deadline = Instant::now() + drain;
    for server in servers {
        if let Err(broken) = server.await {
            tracing::error!(%broken, "a server broke");
        }
    }
    for mut courier in couriers {
        match timeout_at(deadline, &mut courier).await {
            Ok(Ok(())) => {}
            Ok(Err(broken)) => tracing::error!(%broken, "the outbox broke"),
            // What is out is sent again at the next start, under the same id.
            Err(_) => courier.abort(),
        }
    }
}

/// The signals that tell us to stop.
pub struct Signals {
    terminate: Signal,
    interrupt: Signal,
}

impl Signals {
    /// From now on they end nothing by themselves.
    ///
    /// # Errors
    /// They can't be had.
    pub fn catch() -> io::Result<Signals> {
        Ok(Signals {
            terminate: signal(SignalKind::terminate())?,
            interrupt: signal(SignalKind::interrupt())?,
        })
    }

    async fn next(&mut self) {
        tokio::select! {
            _ = self.terminate.recv() => {}
            _ = self.interrupt.recv() => {}
        }
    }
}
