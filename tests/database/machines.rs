//! Machines that serve from one database, what they are told, and what must be so
//! afterwards.

use std::collections::BTreeMap;
use std::fs;
use std::io::{Read, Write};
use std::net::TcpStream;
use std::path::Path;
use std::process::Command;
use std::sync::Mutex;
use std::sync::atomic::{AtomicBool, Ordering};
use std::thread;
use std::time::{Duration, Instant};

use crate::program::printed;
use crate::receiver::Receiver;
use crate::server::Server;
use crate::{machine, replay};

/// How long an answer may take: longer than the program gives one.
pub const PATIENCE: Duration = Duration::from_secs(30);

/// How many write at once.
const WRITERS: usize = 6;

/// A machine that serves; its letters go to `outbox`.
pub fn serving(folder: &Path, journal: &str, outbox: &Receiver, port: u16) -> Command {
    let settings = "[outbox]\nallow_private = true\nlimit = 1000000\n";
    fs::write(folder.join("l.toml"), settings).unwrap();
    let listen = format!("127.0.0.1:{port}");
    let mut command =
        machine(folder, journal, &["serve", "--config", "l.toml", "--listen", &listen]);
    command
        .env("LAPWING_OUTBOX_SECRET", "whsec_MfKQ9r8GKYqrTwjUPD8ILPZIo2LaLaSw")
        .env("LAPWING_OUTBOX_URL", &outbox.url);
    command
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

fn got(port: u16, path: &str) -> Option<(u16, String)> {
    let request = format!("GET {path} HTTP/1.1\r\nhost: a\r\nconnection: close\r\n\r\n");
    ask(port, &request)
}

pub fn get(port: u16, path: &str) -> Option<u16> {
    got(port, path).map(|(status, _)| status)
}

pub fn body(port: u16, path: &str) -> Option<String> {
    got(port, path).map(|(_, body)| body)
}

/// The status of what JSON is answered.
pub fn post(port: u16, path: &str, headers: &str, json: &str) -> Option<u16> {
    let request = format!(
        "POST {path} HTTP/1.1\r\nhost: a\r\nconnection: close\r\n{headers}\
         content-type: application/json\r\ncontent-length: {}\r\n\r\n{json}",
        json.len()
    );
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

/// Two squads, each with a coach; a machine that isn't there opens them.
pub fn squads(folder: &Path, journal: &str) -> [String; 2] {
    ["Dusk", "Dawn"].map(|name| {
        let coach = format!("+1555010{}", usize::from(name == "Dawn"));
        let added = ["squad", "add", name, "--coach", &coach, "--ready"];
        let said = printed(machine(folder, journal, &added));
        said.lines().last().unwrap().strip_prefix("join ").unwrap().to_owned()
    })
}

/// So many swimmers join each squad, at one machine and another.
pub fn join(codes: &[String; 2], ports: &[u16], swimmers: usize) {
    for (squad, code) in codes.iter().enumerate() {
        let off =
            text(ports[0], &format!("gw-off-{squad}"), &format!("1555010{squad}"), "digest off");
        assert!(off.is_some());
        for swimmer in 0..swimmers {
            let id = format!("gw-joins-{squad}-{swimmer}");
            let words = format!("join {code} heron{swimmer}");
            let port = ports[swimmer % ports.len()];
            let told = text(port, &id, &format!("15550{}0{squad}", 2 + swimmer), &words);
            assert!(told.is_some());
        }
    }
}

/// What a writer texts, from where: two are coaches, the others swim.
fn words(writer: usize, number: usize) -> (String, String) {
    let squad = writer % 2;
    match writer / 2 {
        0 if number.is_multiple_of(2) => {
            (format!("1555010{squad}"), format!("add wren{writer}x{number}"))
        }
        0 => (format!("1555010{squad}"), format!("tell all: number {number}")),
        swimmer => {
            let from = format!("15550{}0{squad}", 1 + swimmer);
            let (seconds, tenths) = (9 + number % 7, number * 13 % 100);
            (from, format!("200 test 3:{seconds:02}.{tenths:02}"))
        }
    }
}

/// Writers go on texting until it is over, each text until it is answered, at whichever
/// machine is next; gives every answer by its writer and its number.
fn text_until(over: &AtomicBool, ports: &Mutex<Vec<u16>>) -> BTreeMap<(usize, usize), String> {
    thread::scope(|scope| {
        let writers: Vec<_> = (0..WRITERS)
            .map(|writer| {
                scope.spawn(move || {
                    let mut told = BTreeMap::new();
                    let mut tries = writer;
                    'texts: for number in 0.. {
                        let (from, words) = words(writer, number);
                        loop {
                            if over.load(Ordering::Relaxed) {
                                break 'texts;
                            }
                            let port = {
                                let ports = ports.lock().unwrap();
                                ports[tries % ports.len()]
                            };
                            tries += 1;
                            let id = format!("gw-{writer}-{number}");
                            if let Some(answer) = text(port, &id, &from, &words) {
                                told.insert((writer, number), answer);
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

/// What was told and answered while something happens to machines that are texted all the
/// time, one of those at the open ports after another.
pub fn texted_during(
    open: &Mutex<Vec<u16>>,
    happens: impl FnOnce(),
) -> BTreeMap<(usize, usize), String> {
    let over = AtomicBool::new(false);
    thread::scope(|scope| {
        let writers = scope.spawn(|| text_until(&over, open));
        let ends = Ends(&over);
        happens();
        drop(ends);
        writers.join().unwrap()
    })
}

/// Ends the writers, even where an assertion ends the test.
struct Ends<'a>(&'a AtomicBool);

impl Drop for Ends<'_> {
    fn drop(&mut self) {
        self.0.store(true, Ordering::Relaxed);
    }
}

/// Every answer is given again under its id, by whichever machine, and nothing is stored
/// twice; every answer is the one that what was stored before it implies; the chain is
/// whole, and the letters came as they were written.
pub fn verify(
    (server, journal): (&Server, &str),
    ports: &[u16],
    told: &BTreeMap<(usize, usize), String>,
    outbox: &Receiver,
) {
    for ((writer, number), answer) in told {
        let (from, words) = words(*writer, *number);
        let port = ports[(writer + number) % ports.len()];
        let again = text(port, &format!("gw-{writer}-{number}"), &from, &words);
        assert_eq!(again.as_ref(), Some(answer), "{writer}-{number} at {port}");
    }
    let counted = "select count(*), count(distinct key) from lapwing.log where key is not null";
    let counted = server.sql(journal.rsplit('/').next().unwrap(), counted);
    let (all, distinct) = counted.split_once('|').unwrap();
    assert_eq!(all, distinct);
    assert!(distinct.parse::<usize>().unwrap() >= told.len(), "{counted}");
    assert!(replay::verify(journal) >= told.len());
    outbox.verify();
    let folder = tempfile::tempdir().unwrap();
    let checked = printed(machine(folder.path(), journal, &["check"]));
    assert!(checked.ends_with("sound\n"), "{checked}");
}

/// Returns once a machine can store what it is told.
pub fn until_ready(port: u16) {
    let until = Instant::now() + Duration::from_secs(60);
    while get(port, "/ready") != Some(200) {
        assert!(Instant::now() < until, "{port} stays away");
        thread::sleep(Duration::from_millis(50));
    }
}
