//! Threads for what no request waits for: snapshots, erasing, backups, checks.
//!
//! Where the machine has more to do than it can, they give way. On Linux a thread has a
//! priority of its own, and theirs is lower. Priority alone is not enough where they are
//! at work all the time: they share the disk and the processor's memory too. So while
//! requests come they work for moments, and stand still for some times as long.
//! They hold locks of the service for moments only, and whoever waits for one of those
//! leaves the processor to them.

use std::cell::Cell;
use std::io;
use std::sync::OnceLock;
use std::sync::atomic::{AtomicU64, Ordering};
use std::thread::{self, Builder, JoinHandle};
use std::time::{Duration, Instant};

#[cfg(target_os = "linux")]
use rustix::process::{getpriority_process, setpriority_process};

/// How much more such a thread gives way than others: wholly, as one that gets a part of a
/// busy core keeps answers waiting (99 of 100 within 16 ms rather than 34, over ten minutes
/// at half load).
#[cfg(target_os = "linux")]
const GIVES_WAY: i32 = 19;
/// A thread that gives way wholly.
#[cfg(target_os = "linux")]
const MOST: i32 = 19;

/// So long such a thread works while requests come, …
const STINT: Duration = Duration::from_millis(1);
/// … and so many times as long as it did it stands still then (ours: a tenth of a core,
/// which two at half load have to spare).
const RESTS: u32 = 9;
/// It never stands still for longer, however long one step took.
const LONGEST_REST: Duration = Duration::from_millis(100);
/// Requests come as long as the latest is no older than that.
const LATELY: Duration = Duration::from_millis(50);

/// When the latest request came, in microseconds since somebody first asked; 0 before.
static LATEST: AtomicU64 = AtomicU64::new(0);

thread_local! {
    /// Since when this thread has worked without a rest, where it is one of these.
    static WORKS: Cell<Option<Instant>> = const { Cell::new(None) };
}

/// Begins such a thread.
///
/// # Errors
/// There is none to be had.
pub fn begin<T: Send + 'static>(
    name: &str,
    work: impl FnOnce() -> T + Send + 'static,
) -> io::Result<JoinHandle<T>> {
    Builder::new().name(name.to_owned()).spawn(move || {
        give_way();
        WORKS.set(Some(Instant::now()));
        work()
    })
}

/// Tells such threads that a request has come.
pub fn heard() {
    LATEST.store(now(), Ordering::Relaxed);
}

/// Long work says by this, after each small step, that it may stand still: on such a
/// thread it does, for a moment, where it has worked for one and requests come. Nothing
/// may be held that a request waits for.
pub fn rest() {
    let Some(since) = WORKS.get() else { return };
    let worked = since.elapsed();
    if worked < STINT {
        return;
    }
    if let Some(rest) = rest_after(worked, since_heard()) {
        thread::sleep(rest);
    }
    WORKS.set(Some(Instant::now()));
}

/// Whether requests come at the moment.
pub fn requests_come() -> bool {
    since_heard().is_some_and(|since| since < LATELY)
}

/// Does something without a rest, since somebody waits for it.
pub fn at_once<T>(work: impl FnOnce() -> T) -> T {
    let since = WORKS.take();
    let done = work();
    WORKS.set(since);
    done
}

/// How long whoever has worked so long stands still, where the latest request came so
/// long ago.
fn rest_after(worked: Duration, since_heard: Option<Duration>) -> Option<Duration> {
    let requests_come = since_heard.is_some_and(|since| since < LATELY);
    (requests_come && worked >= STINT).then(|| (worked * RESTS).min(LONGEST_REST))
}

fn since_heard() -> Option<Duration> {
    let latest = LATEST.load(Ordering::Relaxed);
    (latest > 0).then(|| Duration::from_micros(now().saturating_sub(latest)))
}

/// Microseconds since somebody first asked, and one.
fn now() -> u64 {
    static BEGUN: OnceLock<Instant> = OnceLock::new();
    let passed = BEGUN.get_or_init(Instant::now).elapsed().as_micros();
    u64::try_from(passed).unwrap_or(u64::MAX).saturating_add(1)
}

/// Lowers the priority of this thread alone.
#[cfg(target_os = "linux")]
fn give_way() {
    // Without a number they are of whoever calls, which on Linux is a thread.
    let lowered = getpriority_process(None)
        .and_then(|usual| setpriority_process(None, (usual + GIVES_WAY).min(MOST)));
    if let Err(error) = lowered {
        tracing::debug!(%error, "a thread beside the messages keeps its priority");
    }
}

/// Elsewhere a priority is the whole process's.
#[cfg(not(target_os = "linux"))]
fn give_way() {}

#[cfg(test)]
mod tests {
    use super::*;

    #[cfg(target_os = "linux")]
    #[test]
    fn only_such_a_thread_gives_way() {
        let before = getpriority_process(None).unwrap();
        let lowered = begin("aside", || getpriority_process(None).unwrap()).unwrap();
        assert_eq!(lowered.join().unwrap(), (before + GIVES_WAY).min(MOST));
        assert_eq!(getpriority_process(None).unwrap(), before);
    }

    #[test]
    fn only_such_a_thread_rests_and_not_in_haste() {
        assert!(WORKS.get().is_none());
        let works = || WORKS.get().is_some();
        let aside = begin("aside", move || (works(), at_once(works), works()));
        assert_eq!(aside.unwrap().join().unwrap(), (true, false, true));
    }

    #[test]
    fn it_rests_where_requests_come_and_it_has_worked() {
        let lately = Some(LATELY / 2);
        assert_eq!(rest_after(STINT, lately), Some(STINT * RESTS));
        assert_eq!(rest_after(STINT / 2, lately), None);
        assert_eq!(rest_after(STINT, Some(LATELY)), None);
        assert_eq!(rest_after(STINT, None), None);
        assert_eq!(rest_after(LONGEST_REST, lately), Some(LONGEST_REST));
    }

    #[test]
    fn what_was_heard_is_known() {
        heard();
        assert!(since_heard().is_some());
    }
}
