//! The other end of the letters: takes them all, and keeps what came in which order.

use std::collections::{BTreeMap, BTreeSet};
use std::io::{BufRead, BufReader, Read, Write};
use std::net::{TcpListener, TcpStream};
use std::sync::{Arc, Mutex};
use std::thread;
use std::time::Instant;

/// One letter as it came.
#[derive(Debug, Clone)]
pub struct Got {
    pub id: String,
    pub to: String,
    pub body: String,
    pub at: Instant,
}

/// Takes letters until the tests end.
pub struct Receiver {
    pub url: String,
    got: Arc<Mutex<Vec<Got>>>,
}

impl Receiver {
    pub fn begin() -> Receiver {
        let listener = TcpListener::bind("127.0.0.1:0").unwrap();
        let url = format!("http://{}/", listener.local_addr().unwrap());
        let got = Arc::<Mutex<Vec<Got>>>::default();
        let theirs = Arc::clone(&got);
        thread::spawn(move || {
            for stream in listener.incoming() {
                let (stream, got) = (stream.unwrap(), Arc::clone(&theirs));
                // Whoever hangs up in the middle has sent nothing.
                thread::spawn(move || while take_one(&stream, &got).is_some() {});
            }
        });
        Receiver { url, got }
    }

    /// What came, in the order of coming.
    pub fn got(&self) -> Vec<Got> {
        self.got.lock().unwrap().clone()
    }

    /// Asserts that the letters to everybody came in the order in which they were written,
    /// and that what came again came under its own id with its own words.
    pub fn verify(&self) {
        assert!(!self.got().is_empty());
        let mut bodies: BTreeMap<String, String> = BTreeMap::new();
        let mut firsts: BTreeMap<String, Vec<(u64, u64)>> = BTreeMap::new();
        for Got { id, to, body, .. } in self.got() {
            match bodies.get(&id) {
                Some(first) => assert_eq!(*first, body, "{id}"),
                None => {
                    firsts.entry(to).or_default().push(number_of(&id));
                    bodies.insert(id, body);
                }
            }
        }
        for (to, came) in firsts {
            let mut written = came.clone();
            written.sort_unstable();
            assert_eq!(came, written, "to {to}");
            let once: BTreeSet<_> = came.iter().collect();
            assert_eq!(once.len(), came.len(), "two ids for one letter to {to}");
        }
    }
}

/// `out-17-0-5d0e…`: which reply of which message it is.
fn number_of(id: &str) -> (u64, u64) {
    let mut words = id.split('-').skip(1).map(|word| word.parse().unwrap_or(0));
    (words.next().unwrap(), words.next().unwrap())
}

fn take_one(mut stream: &TcpStream, got: &Mutex<Vec<Got>>) -> Option<()> {
    let mut lines = BufReader::new(stream);
    let (mut id, mut length) = (String::new(), 0);
    loop {
        let mut line = String::new();
        if lines.read_line(&mut line).ok()? == 0 {
            return None;
        }
        let line = line.trim().to_lowercase();
        if line.is_empty() {
            break;
        }
        if let Some(value) = line.strip_prefix("webhook-id: ") {
            value.clone_into(&mut id);
        } else if let Some(value) = line.strip_prefix("content-length: ") {
            length = value.parse().ok()?;
        }
    }
    let mut body = vec![0; length];
    lines.read_exact(&mut body).ok()?;
    if !id.is_empty() {
        let body = String::from_utf8(body).ok()?;
        let read: serde_json::Value = serde_json::from_str(&body).ok()?;
        let to = read["data"]["to"].as_str()?.to_owned();
        got.lock().unwrap().push(Got { id, to, body, at: Instant::now() });
    }
    stream.write_all(b"HTTP/1.1 200 OK\r\ncontent-length: 0\r\nconnection: close\r\n\r\n").ok()?;
    None
}
