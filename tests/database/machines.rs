//! Machines that serve from one database: one at a time, the next when that is gone.

use std::collections::BTreeMap;
use std::io::{Read, Write};
use std::net::TcpStream;
use std::path::Path;
use std::sync::Mutex;
use std::sync::atomic::{AtomicBool, Ordering};
use std::thread;
use std::time::{Duration, Instant};

use rustix::process::Signal;

use crate::machine;
use crate::program::{Running, lapwing, printed};
use crate::server::{Server, server};

/// How long an answer may take: longer than the program gives one.
const PATIENCE: Duration = Duration::from_secs(30);

fn serve(folder: &Path, journal: &str) -> Running {
    Running::start(machine(folder, journal, &["serve", "--listen", "127.0.0.1:0"]))
}

/// What a server answers: its status and its body; none where it says nothing whole.
fn ask(port: u16, request: &str) -> Option<(u16, String)> {
    let mut stream = TcpStream::connect(("127.0.0.1", port)).ok()?;
    stream.set_read_timeout(Some(PATIENCE)).ok()?;
    stream.write_all(request.as_bytes()).ok()?;
    let mut said = String::new();
    stream.read_to_string(&mut said).ok()?;
    let status = said.split(' ').nth(1)?.parse().ok()?;
    let (_, body) = said.split_once("\r\n\r\n")?;
    Some((status, body.to_owned()))
}

pub fn get(port: u16, path: &str) -> Option<u16> {
    let request = format!("GET {path} HTTP/1.1\r\nhost: a\r\nconnection: close\r\n\r\n");
    ask(port, &request).map(|(status, _)| status)
}

/// What a text is answered, once it is stored.
pub fn text(port: u16, id: &str, from: &str, words: &str) -> Option<String> {
    let request = format!(
        "POST /v1/plain/wren-7?id={id}&from=%2B{from} HTTP/1.1\r\nhost: a\r\nconnection: close\r\n\
         content-type: text/plain\r\ncontent-length: {}\r\n\r\n{words}",
        words.len()
    );
    ask(port, &request).filter(|(status, _)| *status == 200).map(|(_, body)| body)
}

/// A squad with a coach and three swimmers.
pub fn squad(folder: &Path, journal: &str) {
    let added = ["squad", "add", "Dusk", "--coach", "+15550100", "--ready"];
    printed(machine(folder, journal, &added));
}

/// Writers go on texting until it is over, each text until it is answered; gives every
/// answer by its id.
pub fn text_until(over: &AtomicBool, port: &Mutex<u16>) -> BTreeMap<String, String> {
    thread::scope(|scope| {
        let writers: Vec<_> = (0..3)
            .map(|writer| {
                scope.spawn(move || {
                    let mut told = BTreeMap::new();
                    'texts: for number in 0.. {
                        let id = format!("gw-{writer}-{number}");
                        loop {
                            if over.load(Ordering::Relaxed) {
                                break 'texts;
                            }
                            let port = *port.lock().unwrap();
                            if let Some(answer) =
                                text(port, &id, "15550100", &format!("add wren{writer}x{number}"))
                            {
                                told.insert(id, answer);
                                break;
                            }
                            thread::sleep(Duration::from_millis(20));
                        }
                    }
                    told
                })
            })
            .collect();
        writers.into_iter().flat_map(|writer| writer.join().unwrap()).collect()
    })
}

/// Ends the writers, even where an assertion ends the test.
pub struct Ends<'a>(pub &'a AtomicBool);

impl Drop for Ends<'_> {
    fn drop(&mut self) {
        self.0.store(true, Ordering::Relaxed);
    }
}

/// Every answer is given again under its id, and nothing is stored twice.
pub fn verify(server: &Server, database: &str, port: u16, told: &BTreeMap<String, String>) {
    for (id, answer) in told {
        let number = id.trim_start_matches("gw-").replace('-', "x");
        let again = text(port, id, "15550100", &format!("add wren{number}"));
        assert_eq!(again.as_ref(), Some(answer), "{id}");
    }
    let counted = "select count(*), count(distinct key) from lapwing.log where key is not null";
    let counted = server.sql(database, counted);
    let (all, distinct) = counted.split_once('|').unwrap();
    assert_eq!(all, distinct);
    assert!(distinct.parse::<usize>().unwrap() >= told.len(), "{counted}");
}

#[test]
#[ignore = "wants PostgreSQL's server"]
fn a_machine_takes_the_place_of_one_that_was_killed() {
    let folders: Vec<_> = (0..3).map(|_| tempfile::tempdir().unwrap()).collect();
    let url = server().new_address();
    squad(folders[0].path(), &url);
    let mut serving = serve(folders[0].path(), &url);
    let (over, port) = (AtomicBool::new(false), Mutex::new(serving.port()));
    let told = thread::scope(|scope| {
        let writers = scope.spawn(|| text_until(&over, &port));
        let ends = Ends(&over);
        for folder in [&folders[1], &folders[2]] {
            let waits = scope.spawn(|| serve(folder.path(), &url));
            thread::sleep(Duration::from_secs(2));
            assert!(!waits.is_finished(), "two serve at once");
            let killed = Instant::now();
            serving.child.kill().unwrap();
            serving = waits.join().unwrap();
            println!("served again after {:?}", killed.elapsed());
            *port.lock().unwrap() = serving.port();
            thread::sleep(Duration::from_secs(1));
        }
        drop(ends);
        writers.join().unwrap()
    });
    assert!(told.len() > 30, "{}", told.len());
    println!("{} texts", told.len());
    verify(server(), url.rsplit('/').next().unwrap(), serving.port(), &told);
    let checked = printed(machine(folders[0].path(), &url, &["check"]));
    assert!(checked.ends_with("sound\n"), "{checked}");
    // Told to stop, one that waits ends too.
    let mut waits =
        machine(folders[0].path(), &url, &["serve", "--listen", "127.0.0.1:0"]).spawn().unwrap();
    thread::sleep(Duration::from_secs(1));
    let id = rustix::process::Pid::from_child(&waits);
    rustix::process::kill_process(id, Signal::TERM).unwrap();
    assert!(waits.wait().unwrap().success());
    serving.stopped();
}

/// Returns once a machine that stood still knows that another serves.
pub fn until_away(port: u16) {
    let until = Instant::now() + Duration::from_secs(30);
    while get(port, "/ready") == Some(200) {
        assert!(Instant::now() < until, "two serve");
        thread::sleep(Duration::from_millis(50));
    }
}

/// One that stands still holds the lock and answers nobody: another takes its place, and
/// it adds nothing once it goes on.
#[test]
#[ignore = "wants PostgreSQL's server"]
fn a_machine_takes_the_place_of_one_that_stands_still() {
    let folders: Vec<_> = (0..2).map(|_| tempfile::tempdir().unwrap()).collect();
    let url = server().new_address();
    squad(folders[0].path(), &url);
    let first = serve(folders[0].path(), &url);
    let told = text(first.port(), "gw-0-0", "15550100", "add wren0x0").unwrap();
    let second = thread::scope(|scope| {
        let waits = scope.spawn(|| serve(folders[1].path(), &url));
        thread::sleep(Duration::from_secs(1));
        first.signal(Signal::STOP);
        waits.join().unwrap()
    });
    first.signal(Signal::CONT);
    until_away(first.port());
    assert_eq!(text(first.port(), "gw-0-1", "15550100", "add wren0x1"), None);
    assert!(text(second.port(), "gw-0-2", "15550100", "add wren0x2").is_some());
    let told = BTreeMap::from([("gw-0-0".to_owned(), told)]);
    verify(server(), url.rsplit('/').next().unwrap(), second.port(), &told);
    // It serves again once the other has gone.
    second.stopped();
    let until = Instant::now() + Duration::from_secs(30);
    while get(first.port(), "/ready") != Some(200) {
        assert!(Instant::now() < until, "it stays away");
        thread::sleep(Duration::from_millis(100));
    }
    assert!(text(first.port(), "gw-0-3", "15550100", "add wren0x3").is_some());
    first.stopped();
}

#[test]
#[ignore = "wants PostgreSQL's server"]
fn a_database_that_is_away_is_told_and_waited_for() {
    let folder = tempfile::tempdir().unwrap();
    let server = Server::begin("");
    let url = server.new_address();
    squad(folder.path(), &url);
    let serving = serve(folder.path(), &url);
    let (over, port) = (AtomicBool::new(false), Mutex::new(serving.port()));
    let told = thread::scope(|scope| {
        let writers = scope.spawn(|| text_until(&over, &port));
        let ends = Ends(&over);
        thread::sleep(Duration::from_secs(1));
        server.crash();
        let until = Instant::now() + Duration::from_secs(30);
        while get(serving.port(), "/ready") != Some(503) {
            assert!(Instant::now() < until, "it is ready without a database");
            thread::sleep(Duration::from_millis(100));
        }
        assert_eq!(get(serving.port(), "/health"), Some(200));
        server.start();
        while get(serving.port(), "/ready") != Some(200) {
            assert!(Instant::now() < until + Duration::from_secs(30), "it stays away");
            thread::sleep(Duration::from_millis(100));
        }
        thread::sleep(Duration::from_secs(1));
        drop(ends);
        writers.join().unwrap()
    });
    assert!(told.len() > 10, "{}", told.len());
    verify(&server, "squads0", serving.port(), &told);
    serving.stopped();
    let again = printed(lapwing(folder.path(), &["check", "--journal", &url]));
    assert!(again.ends_with("sound\n"), "{again}");
}
