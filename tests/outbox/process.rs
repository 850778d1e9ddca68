//! The program itself, killed while it delivers.

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;
use std::process::Command;
use std::sync::Arc;
use std::time::{Duration, Instant};

use lapwing::clock::WallClock;
use lapwing::signing::Secret;
use lapwing::tls::{self, Trust};
use rustix::process::Signal;

use super::peer::{Peer, Way};
use super::program::{Running, lapwing, printed, refused};

const SQUADS: usize = 6;
const LETTERS: usize = 300;
const PATIENCE: Duration = Duration::from_secs(60);

/// How many letters the program has under way at once: no more of them may
/// come twice after a kill.
const UNDER_WAY: usize = 8;

fn serve(folder: &Path, secret: &Secret, url: Option<&str>) -> Command {
    fs::write(
        folder.join("l.toml"),
        "listen = \"127.0.0.1:0\"\n[outbox]\nallow_private = true\nlimit = 1000000\n",
    )
    .unwrap();
    let mut command = lapwing(folder, &["serve", "--config", "l.toml"]);
    command.env("LAPWING_PLAIN_TOKEN", "wren-7").env("LAPWING_OUTBOX_SECRET", secret.reveal());
    command.envs(url.map(|url| ("LAPWING_OUTBOX_URL", url)));
    command
}

/// Opens the squads.
fn squads(folder: &Path) -> Vec<String> {
    (0..SQUADS)
        .map(|number| {
            let (name, coach) = (format!("Squad {number}"), format!("+1555{number:04}00"));
            let added =
                printed(lapwing(folder, &["squad", "add", &name, "--coach", &coach, "--ready"]));
            added.lines().last().unwrap().strip_prefix("join ").unwrap().to_owned()
        })
        .collect()
}

async fn say(http: &reqwest::Client, url: &str, number: usize, text: &str) {
    say_as(http, url, &format!("{number:04}01"), text).await;
}

async fn say_as(http: &reqwest::Client, url: &str, from: &str, text: &str) {
    let told = http
        .post(format!("{url}/v1/plain/wren-7?from=%2B1555{from}"))
        .header("content-type", "text/plain; charset=utf-8")
        .body(text.to_owned());
    assert!(told.send().await.unwrap().status().is_success());
}

/// So many ordinary letters to the squads' coaches in all: that somebody has
/// joined, and then bad pain.
async fn letters(url: &str, codes: &[String], letters: usize) {
    let http = tls::client(Trust::None).no_proxy().build().unwrap();
    for (number, code) in codes.iter().enumerate() {
        // Else there is a letter more for each from Sunday evening to Monday evening.
        say_as(&http, url, &format!("{number:04}00"), "digest off").await;
        say(&http, url, number, &format!("join {code} heron")).await;
    }
    for letter in codes.len()..letters {
        say(&http, url, letter % SQUADS, "200 test 3:12 shoulder hurts 7").await;
    }
}

async fn until(what: &str, mut come: impl FnMut() -> bool) {
    let begun = Instant::now();
    while !come() {
        assert!(begun.elapsed() < PATIENCE, "{what} does not come");
        tokio::time::sleep(Duration::from_millis(10)).await;
    }
}

fn waiting(folder: &Path) -> String {
    printed(lapwing(folder, &["outbox"])).lines().last().unwrap().to_owned()
}

/// Without an address all waits; with one it goes out; killed in the middle
/// three times, nothing is lost and no more comes twice than was under way.
#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn kills_lose_nothing() {
    let dir = tempfile::tempdir().unwrap();
    let secret = Secret::generate().unwrap();
    let codes = squads(dir.path());
    let mut server = Running::start(serve(dir.path(), &secret, None));
    assert!(server.said.contains("texts to others wait"), "{}", server.said);
    letters(&server.url, &codes, LETTERS).await;
    assert_eq!(waiting(dir.path()), format!("{LETTERS} waiting, 0 dead"));
    server.signal(Signal::KILL);
    server.end();

    let peer = Peer::start(&secret, Arc::new(WallClock), |_, _| Way::TakeLate).await;
    let mut killed = 0;
    for part in 1..=3 {
        let mut server = Running::start(serve(dir.path(), &secret, Some(&peer.url())));
        until("a quarter", || peer.seen().ids().len() >= part * LETTERS / 4).await;
        server.signal(Signal::KILL);
        server.end();
        killed += 1;
    }
    let mut server = Running::start(serve(dir.path(), &secret, Some(&peer.url())));
    until("the rest", || peer.seen().ids().len() == LETTERS).await;
    until("the end", || waiting(dir.path()) == "0 waiting, 0 dead").await;
    {
        let seen = peer.seen();
        let twice = seen.taken.len() - LETTERS;
        assert!(twice <= killed * UNDER_WAY, "{twice} came twice");
        assert!(seen.firsts().values().all(|places| places.is_sorted()));
        assert!(seen.firsts().values().all(|places| places.len() == LETTERS / SQUADS));
    }
    server.signal(Signal::TERM);
    assert_eq!(server.end().0, Some(0));
}

/// What is delivered after a backup goes out again from it, under the ids that
/// the other end knows.
#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn a_restored_backup_repeats_ids_and_invents_none() {
    let dir = tempfile::tempdir().unwrap();
    let secret = Secret::generate().unwrap();
    let codes = squads(dir.path());
    let mut server = Running::start(serve(dir.path(), &secret, None));
    letters(&server.url, &codes, 12).await;
    printed(lapwing(dir.path(), &["backup", "copy"]));
    server.signal(Signal::TERM);
    assert_eq!(server.end().0, Some(0));

    let peer = Peer::start(&secret, Arc::new(WallClock), |_, _| Way::Take(204)).await;
    printed(lapwing(dir.path(), &["restore", "copy", "--data", "other"]));
    for data in ["lapwing-data", "other"] {
        let mut command = serve(dir.path(), &secret, Some(&peer.url()));
        command.env("LAPWING_DATA", data);
        let _server = Running::start(command);
        let come = if data == "other" { 24 } else { 12 };
        until("all", || peer.seen().taken.len() == come).await;
    }
    let seen = peer.seen();
    let mut times: BTreeMap<&str, u32> = BTreeMap::new();
    seen.taken.iter().for_each(|got| *times.entry(&got.id).or_default() += 1);
    assert_eq!((times.len(), times.values().all(|&times| times == 2)), (12, true));
    let bodies: BTreeMap<&str, _> =
        seen.taken.iter().map(|got| (got.id.as_str(), &got.body)).collect();
    assert!(seen.taken.iter().all(|got| bodies[got.id.as_str()] == &got.body));
}

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn what_is_not_delivered_is_listed_and_tried_again() {
    let dir = tempfile::tempdir().unwrap();
    let secret = Secret::generate().unwrap();
    assert!(refused(lapwing(dir.path(), &["outbox"])).contains("no data"));
    let codes = squads(dir.path());
    let peer = Peer::start(&secret, Arc::new(WallClock), |_, tries| {
        if tries == 0 { Way::Refuse(503) } else { Way::Take(200) }
    })
    .await;
    let server = Running::start(serve(dir.path(), &secret, Some(&peer.url())));
    assert!(server.said.contains("LAPWING_OUTBOX_SECRET"), "{}", server.said);
    assert!(!server.said.contains(&secret.reveal()));
    letters(&server.url, &codes[..1], 1).await;
    until("a failure", || printed(lapwing(dir.path(), &["outbox"])).contains("503")).await;
    let listed = printed(lapwing(dir.path(), &["outbox"]));
    assert!(listed.contains("to …000 waiting until") && listed.contains("tries: 1"), "{listed}");
    assert!(!listed.contains("+1555") && !listed.contains("heron"), "{listed}");
    let shown = printed(lapwing(dir.path(), &["outbox", "--show"]));
    assert!(shown.contains("to +1555000000 waiting"), "{shown}");
    assert!(refused(lapwing(dir.path(), &["outbox", "retry", "9999-0"])).contains("9999-0"));
    let number = listed.split(' ').next().unwrap().to_owned();
    let again = printed(lapwing(dir.path(), &["outbox", "retry", &number]));
    assert_eq!(again, "1 to be tried again\n");
    until("the letter", || peer.seen().taken.len() == 1).await;
    until("the end", || waiting(dir.path()) == "0 waiting, 0 dead").await;
    drop(server);
    assert_eq!(waiting(dir.path()), "0 waiting, 0 dead");
    assert_eq!(
        printed(lapwing(dir.path(), &["outbox", "retry", "--all"])),
        "0 to be tried again\n"
    );
    for wrong in [&["outbox", "retry"][..], &["outbox", "retry", "1-0", "--all"]] {
        assert_eq!(lapwing(dir.path(), wrong).output().unwrap().status.code(), Some(2));
    }
}
