//! What a journal costs in a folder and in a database, in one run: by hand, in release.

use std::sync::Mutex;
use std::sync::atomic::{AtomicBool, AtomicU64, Ordering};
use std::thread;
use std::time::{Duration, Instant};

use super::*;

use crate::home::{Database, Folder, Home};

/// For how long each is written to.
const SPAN: Duration = Duration::from_secs(5);

/// How many entries a second so many threads append, and how long half and all but one
/// in a hundred wait.
fn measured(journal: &dyn Journal, threads: u64) -> (f64, Duration, Duration) {
    let (over, numbers) = (AtomicBool::new(false), AtomicU64::new(0));
    let waited = Mutex::new(Vec::new());
    thread::scope(|scope| {
        for thread in 0..threads {
            let (over, numbers, waited) = (&over, &numbers, &waited);
            scope.spawn(move || {
                let mut mine = Vec::new();
                while !over.load(Ordering::Relaxed) {
                    let id = format!("{threads}-{}", numbers.fetch_add(1, Ordering::Relaxed));
                    let stream = StreamId(format!("s/{thread}"));
                    let begun = Instant::now();
                    let entry = Entry { stream, ..keyed(&id, &[7; 600]) };
                    journal.append(entry).wait().unwrap();
                    mine.push(begun.elapsed());
                }
                waited.lock().unwrap().extend(mine);
            });
        }
        thread::sleep(SPAN);
        over.store(true, Ordering::Relaxed);
    });
    let mut waited = waited.into_inner().unwrap();
    waited.sort_unstable();
    let at = |share: usize| waited[waited.len() * share / 100];
    (waited.len() as f64 / SPAN.as_secs_f64(), at(50), at(99))
}

#[test]
#[ignore = "by hand, with PostgreSQL's server: it takes half a minute, and figures of a busy machine say little"]
fn figures_of_a_folder_and_a_server() {
    let (folder, database) = (Folder::new(), Database::new());
    for threads in [1, 16, 64] {
        for (what, journal) in [("folder", folder.open()), ("database", database.open())] {
            let (rate, half, most) = measured(journal.as_ref(), threads);
            println!("{what}, {threads} threads: {rate:.0}/s, p50 {half:.1?}, p99 {most:.1?}");
            journal.close();
        }
    }
}
