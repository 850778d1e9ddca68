//! What the machine did in each second of a load: the server's memory, and how much others
//! took. Whoever measures an answer's time on a machine that is not theirs alone measures
//! those too.

use std::sync::atomic::{AtomicBool, Ordering};
use std::thread;
use std::time::{Duration, Instant};

use super::server::{Child, cpu_s};

/// Where others take more than so much of a core the machine was not ours alone: the
/// system's own threads take about a twentieth.
const OTHERS: f64 = 0.15;

/// One of them.
pub struct Second {
    from: Instant,
    until: Instant,
    /// The server's memory at its end, in KiB.
    pub kib: u64,
    /// How much of a core neither the server took in it nor this process.
    others: f64,
}

impl Second {
    /// True where others took a good part of a core.
    pub fn is_shared(&self) -> bool {
        self.others > OTHERS
    }

    /// From when to when.
    pub fn span(&self) -> (Instant, Instant) {
        (self.from, self.until)
    }
}

/// All seconds until it has ended, one at the least.
pub fn each_second(child: &Child, ended: &AtomicBool) -> Vec<Second> {
    let mut all = Vec::new();
    let mut before = (Instant::now(), others_s(child));
    while all.is_empty() || !ended.load(Ordering::Relaxed) {
        thread::sleep(Duration::from_secs(1));
        let now = (Instant::now(), others_s(child));
        let others = (now.1 - before.1) / (now.0 - before.0).as_secs_f64();
        all.push(Second { from: before.0, until: now.0, kib: child.resident_kib(), others });
        before = now;
    }
    all
}

/// The seconds of CPU that all but the server and this process have used.
fn others_s(child: &Child) -> f64 {
    let stat = std::fs::read_to_string("/proc/stat").unwrap();
    let ticks = |line: &str| -> Vec<u64> {
        line.split_whitespace().skip(1).map(|word| word.parse().unwrap()).collect()
    };
    let all = ticks(stat.lines().next().unwrap());
    // At work by itself, politely and in the kernel, for interrupts, and for other machines.
    let busy: u64 = [0, 1, 2, 5, 6, 7].iter().map(|at| all[*at]).sum();
    // Linux counts hundredths.
    busy as f64 / 100.0 - child.cpu_s() - cpu_s("self")
}
