//! Threads for what no request waits for: snapshots, erasing, backups, checks.
//!
//! Where the machine has more to do than it can, they give way: on Linux a thread has a
//! priority of its own. They hold locks of the service for moments only, and are lowered
//! so little that whoever waits for one of those does not wait long.

use std::io;
use std::thread::{Builder, JoinHandle};

#[cfg(target_os = "linux")]
use rustix::process::{getpriority_process, setpriority_process};

/// How much more such a thread gives way than others: beside one of them it gets a
/// quarter of a core (ours).
#[cfg(target_os = "linux")]
const GIVES_WAY: i32 = 5;
/// A thread that gives way wholly.
#[cfg(target_os = "linux")]
const MOST: i32 = 19;

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
        work()
    })
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

#[cfg(all(test, target_os = "linux"))]
mod tests {
    use super::*;

    #[test]
    fn only_such_a_thread_gives_way() {
        let before = getpriority_process(None).unwrap();
        let lowered = begin("aside", || getpriority_process(None).unwrap()).unwrap();
        assert_eq!(lowered.join().unwrap(), (before + GIVES_WAY).min(MOST));
        assert_eq!(getpriority_process(None).unwrap(), before);
    }
}
