//! Connections that begin a request and never end it, a thousand at all times.

use std::io::Write;
use std::net::TcpStream;
use std::sync::atomic::{AtomicBool, Ordering};
use std::thread;
use std::time::{Duration, Instant};

use super::server::Child;

/// How many there are.
const SLOW: usize = 1_000;
/// So long each lasts, before the server has hung up on it; …
const LASTS: Duration = Duration::from_secs(8);
/// … where each goes its own way, so many times as long, at random.
const OWN_WAY: std::ops::Range<f64> = 0.5..1.4;
/// They are begun within so long, so that even at first they don't come all at once.
const BEGIN: Duration = Duration::from_secs(2);
/// How often it is looked for those whose time is up.
const LOOK: Duration = Duration::from_millis(5);

/// When they are made anew.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Slow {
    /// Each at a moment of its own, as a thousand are who know nothing of each other.
    Apart,
    /// All in one moment. For some tens of milliseconds this process, which makes them, and
    /// the server, which takes them, have more to do together than two cores can.
    InStep,
}

impl Slow {
    /// For the table.
    pub fn words(self) -> &'static str {
        match self {
            Slow::Apart => "each anew at a moment of its own",
            Slow::InStep => "all anew in one moment",
        }
    }

    /// Begins a thousand requests and ends none, over and over; gives how many were begun.
    pub fn keep_up(self, child: &Child, ended: &AtomicBool) -> usize {
        let first = Instant::now();
        let mut open: Vec<(Instant, Option<TcpStream>)> =
            (0..SLOW).map(|at| (first + self.begins(at), None)).collect();
        let mut made = 0;
        while !ended.load(Ordering::Relaxed) {
            thread::sleep(LOOK);
            let now = Instant::now();
            let mut over: Vec<_> = open.iter_mut().filter(|(until, _)| *until <= now).collect();
            over.iter_mut().for_each(|one| one.1 = None);
            over.iter_mut().for_each(|one| **one = (now + self.lasts(), begun(child)));
            made += over.len();
        }
        made
    }

    fn begins(self, at: usize) -> Duration {
        match self {
            Slow::Apart => BEGIN.mul_f64(at as f64 / SLOW as f64),
            Slow::InStep => Duration::ZERO,
        }
    }

    fn lasts(self) -> Duration {
        match self {
            Slow::Apart => LASTS.mul_f64(rand::random_range(OWN_WAY)),
            Slow::InStep => LASTS,
        }
    }
}

/// One that is begun.
fn begun(child: &Child) -> Option<TcpStream> {
    let mut stream = TcpStream::connect(&child.address).ok()?;
    stream.write_all(b"POST /v1/messages HTTP/1.1\r\nhost: a\r\ncontent-le").ok()?;
    Some(stream)
}
