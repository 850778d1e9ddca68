//! How many messages one sender may bring in a minute, where that is limited.

use std::num::NonZeroU32;

use axum::http::StatusCode;
use governor::clock::{Clock, DefaultClock};
use governor::{DefaultKeyedRateLimiter, Quota, RateLimiter};

use super::Problem;

/// Those remembered before the ones that have been quiet are forgotten. Ours.
const REMEMBERED: usize = 4096;

/// A limit for each sender, or each gateway, by itself: so many at once, and as
/// many again spread over each minute.
pub struct Limit(DefaultKeyedRateLimiter<String>);

impl Limit {
    /// A limit of this many messages a minute.
    pub fn per_minute(messages: NonZeroU32) -> Limit {
        Limit(RateLimiter::keyed(Quota::per_minute(messages)))
    }

    /// Counts one message of this sender's or gateway's.
    ///
    /// # Errors
    /// 429 where it is one too many, with the seconds until one would pass.
    pub fn admit(&self, from: &str) -> Result<(), Problem> {
        if self.0.len() > REMEMBERED {
            self.0.retain_recent();
        }
        self.0.check_key(&from.to_owned()).map_err(|early| {
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
