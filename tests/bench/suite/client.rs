//! The client: raw sockets, a thread a connection, each request signed.

use std::io::{Read, Write};
use std::net::TcpStream;
use std::sync::atomic::{AtomicU64, Ordering};
use std::thread;
use std::time::{Duration, Instant};

use jiff::Timestamp;
use lapwing::signing::{Secret, sign};

use super::server::{Child, SECRET};

/// What is sent.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Text {
    /// The same result again, under a new id: stores one event.
    Again,
    /// A session swum.
    Done,
    /// A test that was not swum before.
    Test,
    /// Sessions swum, and a test each fifth time.
    Mixed,
}

/// What a load came to.
pub struct Load {
    pub a_second: f64,
    pub server_us: f64,
    pub p50_ms: f64,
    pub p99_ms: f64,
    pub longest_ms: f64,
    /// When each answer was due and how long it took from then on, in the order of that.
    pub answers: Vec<(Instant, Duration)>,
}

static IDS: AtomicU64 = AtomicU64::new(0);

impl Text {
    /// What is typed.
    pub fn words(self, number: u64) -> String {
        match self {
            Text::Again => "200 test 3:12".to_owned(),
            Text::Done => format!(
                "done {} {}min rpe {}",
                1200 + number % 9 * 50,
                40 + number % 20,
                4 + number % 3
            ),
            Text::Mixed if number.is_multiple_of(5) => Text::Test.words(number),
            Text::Mixed => Text::Done.words(number),
            // A little about 3:12, never the same within a thousand.
            Text::Test => format!("200 test 3:{:02}.{:02}", 9 + number % 7, number * 13 % 100),
        }
    }

    /// What the answer to it must hold.
    pub fn is_answered(self, answer: &[u8]) -> bool {
        let holds = |words: &str| answer.windows(words.len()).any(|at| at == words.as_bytes());
        match self {
            Text::Again => holds("\"duplicate\":false"),
            Text::Done => holds("\"kind\":\"done\"") && holds("\"stores\":true"),
            Text::Test => holds("\"critical_speed\"") && holds("\"targets\""),
            Text::Mixed => Text::Done.is_answered(answer) || Text::Test.is_answered(answer),
        }
    }
}

/// As many as can be answered.
pub fn flat_out(child: &Child, text: Text, connections: usize, span: Duration) -> Load {
    load(&[child], text, connections, span, None)
}

/// The same of several servers, among which the connections are divided.
pub fn flat_out_at(children: &[&Child], text: Text, connections: usize, span: Duration) -> Load {
    load(children, text, connections, span, None)
}

/// So many a second at several servers, among which the connections are divided.
pub fn open_loop_at(
    children: &[&Child],
    text: Text,
    connections: usize,
    span: Duration,
    rate: f64,
) -> Load {
    load(children, text, connections, span, Some(rate))
}

/// So many a second, whatever becomes of those before; times are counted from when
/// each was to be sent.
pub fn open_loop(child: &Child, text: Text, connections: usize, span: Duration, rate: f64) -> Load {
    load(&[child], text, connections, span, Some(rate))
}

fn load(
    children: &[&Child],
    text: Text,
    connections: usize,
    span: Duration,
    rate: Option<f64>,
) -> Load {
    let gap = rate.map(|rate| Duration::from_secs_f64(connections as f64 / rate));
    let cpu_s = || children.iter().map(|child| child.cpu_s()).sum::<f64>();
    let (begun, cpu) = (Instant::now(), cpu_s());
    let mut answers: Vec<(Instant, Duration)> = thread::scope(|scope| {
        let threads: Vec<_> = (0..connections)
            .map(|connection| {
                // Not all at the same instant.
                let offset =
                    gap.unwrap_or_default().mul_f64(connection as f64 / connections as f64);
                let child = children[connection % children.len()];
                scope.spawn(move || {
                    one(child, text, connection, (begun + offset, begun + span), gap)
                })
            })
            .collect();
        threads.into_iter().flat_map(|thread| thread.join().unwrap()).collect()
    });
    let (took, cpu) = (begun.elapsed().as_secs_f64(), cpu_s() - cpu);
    answers.sort_unstable();
    let mut times: Vec<Duration> = answers.iter().map(|(_, took)| *took).collect();
    times.sort_unstable();
    Load {
        a_second: times.len() as f64 / took,
        server_us: cpu * 1e6 / times.len() as f64,
        p50_ms: within_ms(&times, 0.5),
        p99_ms: within_ms(&times, 0.99),
        longest_ms: within_ms(&times, 1.0),
        answers,
    }
}

/// How long such a share of times, which are sorted, took at most.
pub fn within_ms(times: &[Duration], share: f64) -> f64 {
    let at = (times.len().saturating_sub(1) as f64 * share) as usize;
    times.get(at).map_or(0.0, |time| time.as_secs_f64() * 1e3)
}

fn one(
    child: &Child,
    text: Text,
    connection: usize,
    (from, until): (Instant, Instant),
    gap: Option<Duration>,
) -> Vec<(Instant, Duration)> {
    let secret: Secret = SECRET.parse().ok().unwrap();
    let mut stream = TcpStream::connect(&child.address).unwrap();
    stream.set_nodelay(true).unwrap();
    // All at once: where sixty-four grow at the same time, it is the client that stops.
    let expected = gap.map_or(0.0, |gap| (until - from).as_secs_f64() / gap.as_secs_f64());
    let mut times = Vec::with_capacity(expected as usize + 1);
    let mut answer = Vec::new();
    let mut due = from;
    while due < until && Instant::now() < until {
        if gap.is_some() {
            thread::sleep(due.saturating_duration_since(Instant::now()));
        }
        let number = IDS.fetch_add(1, Ordering::Relaxed);
        let swimmer = (connection + number as usize / 64 * 64) % child.swimmers;
        let from = format!("swimmer{swimmer}");
        let request = request(&secret, number, &from, &text.words(number));
        let sent = if gap.is_some() { due } else { Instant::now() };
        stream.write_all(&request).unwrap();
        read_answer(&mut stream, &mut answer);
        times.push((sent, sent.elapsed()));
        assert!(answer.starts_with(b"HTTP/1.1 200"), "{}", String::from_utf8_lossy(&answer));
        let is_bare = answer.len() < 200;
        assert!(is_bare || text.is_answered(&answer), "{}", String::from_utf8_lossy(&answer));
        due = gap.map_or_else(Instant::now, |gap| due + gap);
    }
    times
}

/// What was answered.
pub struct Fetched {
    pub status: u16,
    pub body: Vec<u8>,
}

/// Sends one text.
pub fn say(child: &Child, from: &str, text: &str) -> Fetched {
    let secret: Secret = SECRET.parse().ok().unwrap();
    let number = IDS.fetch_add(1, Ordering::Relaxed);
    fetched(child, &request(&secret, number, from, text))
}

/// Asks for one page.
pub fn get(child: &Child, path: &str) -> Fetched {
    fetched(child, format!("GET {path} HTTP/1.1\r\nhost: a\r\n\r\n").as_bytes())
}

fn fetched(child: &Child, request: &[u8]) -> Fetched {
    let mut stream = TcpStream::connect(&child.address).unwrap();
    stream.set_nodelay(true).unwrap();
    stream.write_all(request).unwrap();
    let mut answer = Vec::new();
    read_answer(&mut stream, &mut answer);
    let head = answer.windows(4).position(|at| at == b"\r\n\r\n").unwrap();
    let status = std::str::from_utf8(&answer[9..12]).unwrap().parse().unwrap();
    Fetched { status, body: answer.split_off(head + 4) }
}

fn request(secret: &Secret, number: u64, from: &str, text: &str) -> Vec<u8> {
    let id = format!("b-{}-{number}", std::process::id());
    let body = format!(r#"{{"id":"{id}","from":"{from}","text":"{text}"}}"#);
    let now = Timestamp::now();
    format!(
        "POST /v1/messages HTTP/1.1\r\nhost: a\r\ncontent-type: application/json\r\n\
         webhook-id: {id}\r\nwebhook-timestamp: {}\r\nwebhook-signature: {}\r\n\
         content-length: {}\r\n\r\n{body}",
        now.as_second(),
        sign(secret, id.as_bytes(), now, body.as_bytes()),
        body.len()
    )
    .into_bytes()
}

fn read_answer(stream: &mut TcpStream, answer: &mut Vec<u8>) {
    answer.clear();
    let mut bytes = [0; 16 * 1024];
    loop {
        let read = stream.read(&mut bytes).unwrap();
        assert!(read > 0, "the server hung up");
        answer.extend_from_slice(&bytes[..read]);
        let Some(head) = answer.windows(4).position(|at| at == b"\r\n\r\n") else { continue };
        let text = String::from_utf8_lossy(&answer[..head]).to_lowercase();
        let length = text
            .split("content-length:")
            .nth(1)
            .map_or(0, |rest| rest.split("\r\n").next().unwrap().trim().parse().unwrap());
        if answer.len() >= head + 4 + length {
            return;
        }
    }
}
