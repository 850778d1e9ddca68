//! The servers, each a process of its own: this program again.

use std::io::{BufRead, BufReader, Read};
use std::net::SocketAddr;
use std::process::{Command, Stdio};
use std::sync::Arc;

use axum::Router;
use axum::body::Bytes;
use axum::extract::State;
use axum::http::{HeaderMap, StatusCode};
use axum::routing::{get, post};
use axum::serve::ListenerExt;
use jiff::Timestamp;
use jiff::tz::TimeZone;
use lapwing::clock::{ClockMode, WallClock};
use lapwing::http::{self, Door, Limits, Neighbours, Reception};
use lapwing::journal::{Journal, PostgresJournal, SledJournal};
use lapwing::service::{Body, Incoming, NewSquad, Service};
use lapwing::signing::{Secret, sign};
use rustix::process::{Pid, Signal, kill_process};
use tokio::net::TcpListener;
use tokio_util::sync::CancellationToken;

use super::nothing::Nothing;

pub const SECRET: &str = "whsec_MfKQ9r8GKYqrTwjUPD8ILPZIo2LaLaSw";

/// What serves.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// Checks the signature, reads the JSON, answers 200.
    Bare,
    /// The service on a journal that costs nothing.
    Free,
    /// The service as it is.
    Real,
    /// The service on a journal in a database, which others may serve from too.
    Shared,
    /// The same where the others know how to reach it: each squad's texts go to one.
    Neighbours,
}

/// A server that runs.
pub struct Child {
    child: std::process::Child,
    pub address: String,
    pub swimmers: usize,
}

impl Child {
    /// Starts it, with so many squads of so many swimmers.
    pub fn start(kind: Kind, squads: usize, swimmers: usize) -> Child {
        Child::start_on(kind, squads, swimmers, "")
    }

    /// The same on a journal in a database, filled where it is empty.
    pub fn start_on(kind: Kind, squads: usize, swimmers: usize, journal: &str) -> Child {
        let mut child = Command::new(std::env::current_exe().unwrap())
            .args(["serve", &format!("{kind:?}"), &squads.to_string(), &swimmers.to_string()])
            .arg(journal)
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .spawn()
            .unwrap();
        let mut address = String::new();
        BufReader::new(child.stdout.take().unwrap()).read_line(&mut address).unwrap();
        Child::new(child, address.trim().to_owned(), squads * swimmers)
    }

    /// One that listens there.
    pub fn new(child: std::process::Child, address: String, swimmers: usize) -> Child {
        Child { child, address, swimmers }
    }

    /// How much memory it holds, in KiB.
    pub fn resident_kib(&self) -> u64 {
        let path = format!("/proc/{}/status", self.child.id());
        let status = std::fs::read_to_string(path).unwrap();
        let line = status.lines().find(|line| line.starts_with("VmRSS")).unwrap();
        line.split_whitespace().nth(1).unwrap().parse().unwrap()
    }

    /// The seconds of CPU that it has used.
    pub fn cpu_s(&self) -> f64 {
        cpu_s(&self.child.id().to_string())
    }
}

/// The seconds of CPU that a process has used, by its number or `self`.
pub fn cpu_s(process: &str) -> f64 {
    let stat = std::fs::read_to_string(format!("/proc/{process}/stat")).unwrap();
    let fields: Vec<&str> = stat.rsplit(')').next().unwrap().split_whitespace().collect();
    let ticks: u64 = [11, 12].iter().map(|at| fields[*at].parse::<u64>().unwrap()).sum();
    // Linux counts hundredths.
    ticks as f64 / 100.0
}

impl Drop for Child {
    fn drop(&mut self) {
        // It ends with its standard input; the program itself when it is told to.
        match self.child.stdin.take() {
            Some(input) => drop(input),
            None => {
                let id = Pid::from_child(&self.child);
                let _ = kill_process(id, Signal::TERM);
            }
        }
        let _ = self.child.wait();
    }
}

/// Serves until standard input ends.
pub fn serve(words: &[String]) {
    let number = |at: usize| words[at].parse().unwrap();
    let runtime = tokio::runtime::Runtime::new().unwrap();
    let folder = tempfile::tempdir_in("target").unwrap();
    let secret: Secret = SECRET.parse().ok().unwrap();
    runtime.block_on(async {
        let listener = TcpListener::bind("127.0.0.1:0").await.unwrap();
        let address = listener.local_addr().unwrap();
        let (limits, stopping) = (Limits::default(), CancellationToken::new());
        let router = match words[0].as_str() {
            "Bare" => Router::new().route("/v1/messages", post(bare)).with_state(secret),
            kind => {
                let journal: Arc<dyn Journal> = match kind {
                    "Free" => Arc::new(Nothing::default()),
                    "Shared" | "Neighbours" => {
                        let url = words[3].parse().unwrap();
                        Arc::new(PostgresJournal::open(url, Arc::new(WallClock)).unwrap())
                    }
                    _ => Arc::new(SledJournal::open(folder.path().join("journal")).unwrap()),
                };
                let is_empty = journal.last().is_none();
                let service = Service::open(journal, Arc::new(WallClock), ClockMode::Wall).unwrap();
                service.show_boards_at(&format!("http://{address}"));
                if is_empty {
                    fill(&service, number(1), number(2)).await;
                }
                let (theirs, leading) = (Arc::clone(&service), Arc::clone(&service));
                let again = Router::new().route(
                    "/again",
                    get(move || async move { theirs.decided_again().to_string() }),
                );
                let reception = Reception::new(service, limits, stopping.clone());
                let door = Door {
                    reception: match kind {
                        "Neighbours" => reception.with_neighbours(neighbours(&address)),
                        _ => reception,
                    },
                    secrets: [secret].into(),
                    inlets: [].into(),
                    chats: [].into(),
                    limit: None,
                    clock: Arc::new(WallClock),
                };
                leading.lead();
                http::router(door).merge(again)
            }
        };
        let listener = listener.tap_io(|stream| stream.set_nodelay(true).unwrap());
        tokio::spawn(http::serve(listener, router, limits, stopping));
        println!("{address}");
        let ended = tokio::task::spawn_blocking(|| std::io::stdin().read_to_end(&mut Vec::new()));
        let _ = ended.await;
    });
}

fn neighbours(address: &SocketAddr) -> Neighbours {
    Neighbours::reached_at(&format!("http://{address}"), Arc::new(WallClock)).unwrap()
}

async fn bare(State(secret): State<Secret>, headers: HeaderMap, body: Bytes) -> StatusCode {
    let word = |name: &str| headers.get(name).and_then(|value| value.to_str().ok()).unwrap_or("");
    let at = word("webhook-timestamp").parse().ok().and_then(|s| Timestamp::from_second(s).ok());
    let signed = at.map(|at| sign(&secret, word("webhook-id").as_bytes(), at, &body));
    let read: Result<serde_json::Value, _> = serde_json::from_slice(&body);
    match (signed, read) {
        (Some(signed), Ok(_)) if signed == word("webhook-signature") => StatusCode::OK,
        _ => StatusCode::UNAUTHORIZED,
    }
}

/// A time zone in which it is day, so that there is an evening of today at this hour.
pub fn zone() -> &'static str {
    match Timestamp::now().to_zoned_datetime(TimeZone::UTC).hour() {
        5..=21 => "UTC",
        // Twelve hours ahead.
        _ => "Etc/GMT-12",
    }
}

/// So many squads of so many swimmers, each with a test.
pub async fn fill(service: &Arc<Service>, squads: usize, swimmers: usize) {
    let mut filling = tokio::task::JoinSet::new();
    for squad in 0..squads {
        let service = Arc::clone(service);
        filling.spawn(async move { fill_one(&service, squad, swimmers).await });
    }
    while let Some(filled) = filling.join_next().await {
        filled.unwrap();
    }
}

async fn fill_one(service: &Arc<Service>, squad: usize, swimmers: usize) {
    let squad_here = NewSquad {
        timezone: zone().to_owned(),
        ..NewSquad::of_grown_ups(format!("Dusk {squad}"), format!("coach{squad}"))
    };
    let added = service.add_squad(squad_here).await.unwrap();
    for swimmer in 0..swimmers {
        let number = squad * swimmers + swimmer;
        for text in [format!("join {} heron{number}", added.code), "200 test 3:12".into()] {
            let incoming = Incoming {
                channel: "chat".into(),
                id: None,
                from: format!("swimmer{number}"),
                room: None,
                sent_at: None,
                body: Body::Text(text),
            };
            service.receive(incoming).await.unwrap();
        }
    }
}
