//! How long we wait for what, and for how many at once there is room.

use std::time::Duration;

use rustix::process::{Resource, getrlimit};

use super::Places;

/// How long we wait for what, and for how many at once there is room.
#[derive(Debug, Clone, Copy)]
pub struct Limits {
    /// For the next request on an open connection to begin.
    pub head: Duration,
    /// For a request that has begun to be whole, head and body.
    pub half: Duration,
    /// For the whole of a request's body.
    pub body: Duration,
    /// For the service to answer; a gateway gives up after 15 to 30 s.
    pub answer: Duration,
    /// For requests under way when we are told to stop.
    pub drain: Duration,
    /// How many connections may be open at once.
    pub places: Places,
    /// How many messages may be under way at once.
    pub under_way: usize,
}

impl Default for Limits {
    fn default() -> Limits {
        Limits {
            head: Duration::from_secs(60),
            half: Duration::from_secs(12),
            body: Duration::from_secs(10),
            answer: Duration::from_secs(20),
            drain: Duration::from_secs(8),
            places: Places::within(open_files()),
            under_way: 1024,
        }
    }
}

/// How many files this process may have open.
pub fn open_files() -> u64 {
    getrlimit(Resource::Nofile).current.unwrap_or(u64::MAX)
}
