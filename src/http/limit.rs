//! How many messages one sender may bring in a minute, where that is limited.

use std::num::NonZeroU32;
use std::sync::atomic::{AtomicUsize, Ordering};

use axum::http::StatusCode;
use governor::clock::{Clock, DefaultClock};
use governor::{DefaultKeyedRateLimiter, Quota, RateLimiter};

use super::Problem;

/// Those remembered at least before the ones that have been quiet are looked for.
/// Ours.
const REMEMBERED: usize = 4096;

/// A limit for each sender, or each gateway, by itself: so many at once, and as
/// many again spread over each minute.
pub struct Limit {
    limiter: DefaultKeyedRateLimiter<String>,
    /// Those who have been quiet are forgotten once so many are remembered: twice
    /// those that were left the last time, so that it is seldom gone through them.
    look_at: AtomicUsize,
}

impl Limit {
    /// A limit of this many messages a minute.
    pub fn per_minute(messages: NonZeroU32) -> Limit {
        let limiter = RateLimiter::keyed(Quota::per_minute(messages));
        Limit { limiter, look_at: AtomicUsize::new(REMEMBERED) }
    }

    /// Counts one message of this sender's or gateway's.
    ///
    /// # Errors
    /// 429 where it is one too many, with the seconds until one would pass.
    pub fn admit(&self, from: &str) -> Result<(), Problem> {
        if self.limiter.len() > self.look_at.load(Ordering::Relaxed) {
            self.limiter.retain_recent();
            let next = (2 * self.limiter.len()).max(REMEMBERED);
            self.look_at.store(next, Ordering::Relaxed);
        }
        self.limiter.check_key(&from.to_owned()).map_err(|early| {
            let wait = early.wait_time_from(DefaultClock::default().now());
            Problem::new(StatusCode::TOO_MANY_REQUESTS, "too many messages from there")
                .retried_after(wait)
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_sender_has_a_limit_of_its_own() {
        let limit = Limit::per_minute(NonZeroU32::new(2).unwrap());
        let admitted = |from| limit.admit(from).map_err(|refused| refused.status().as_u16());
        assert_eq!([admitted("heron"), admitted("heron")], [Ok(()), Ok(())]);
        assert_eq!(admitted("heron"), Err(429));
        assert_eq!(admitted("teal"), Ok(()));
    }
}
