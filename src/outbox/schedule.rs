//! When to try again. Pure: knows instants, no clock.

use std::time::Duration;

use jiff::fmt::rfc2822::DateTimeParser;
use jiff::{SignedDuration, Timestamp};
use sha2::{Digest, Sha256};

/// How long to wait before each try, in seconds: at once, then 5 s, 5 min,
/// 30 min, 2 h, 5 h, 10 h, 14 h, 20 h, 24 h. Source: Standard Webhooks 1.0.0,
/// "Retry schedule".
pub const DELAYS: [u64; 10] =
    [0, 5, 5 * 60, 30 * 60, 2 * HOUR, 5 * HOUR, 10 * HOUR, 14 * HOUR, 20 * HOUR, 24 * HOUR];

const HOUR: u64 = 3600;

/// Up to so many hundredths of the delay are added, so that letters that
/// failed together don't come back together. Ours.
const JITTER: u64 = 20;

/// A receiver may have asked for longer than the delay: half an hour of that is
/// heeded over a start. Ours.
const LONGEST_ASKED: Duration = Duration::from_secs(30 * 60);

/// The longest that a receiver's `Retry-After` is heeded: the longest delay.
const LONGEST: Duration = Duration::from_secs(24 * HOUR);

/// How long after the first try of an alarm's letter the next ones come, in
/// seconds; then one each [`CRY_EVERY`]. Ours.
const CRIES: [u64; 4] = [1, 3, 10, LAST_CRY];
const LAST_CRY: u64 = 30;

/// How often an alarm's letter is tried after that.
const CRY_EVERY: Duration = Duration::from_secs(60);

/// How long there is at least between the end of one try of an alarm's letter
/// and the beginning of the next.
const BREATH: Duration = Duration::from_secs(1);

/// When to try an alarm's letter again, on one way, after so many failed tries:
/// `first` is when its first try there began, `last` when the last one ended.
pub(super) fn next_cry(first: Duration, last: Duration, failed: u32) -> Duration {
    let nth = usize::try_from(failed.saturating_sub(1)).unwrap_or(usize::MAX);
    let after = match CRIES.get(nth) {
        Some(seconds) => Duration::from_secs(*seconds),
        None => {
            let more = failed.saturating_sub(CRIES.len() as u32);
            Duration::from_secs(LAST_CRY) + CRY_EVERY * more
        }
    };
    // Tries between, for a sign of life, push none further away than that.
    (first + after).min(last + CRY_EVERY).max(last + BREATH)
}

/// Not later than this is a letter that failed so often tried again.
pub(super) fn latest_try(failed: u32, now: Timestamp) -> Option<Timestamp> {
    let delay = DELAYS.get(usize::try_from(failed).ok()?)?;
    later(now, Duration::from_secs(delay + delay * JITTER / 100).max(LONGEST_ASKED))
}

/// When to try a letter again after so many failed tries, `None` after the
/// last. Not before `asked`, if the receiver asked for that.
pub(super) fn next_try(
    id: &str,
    failed: u32,
    now: Timestamp,
    asked: Option<Duration>,
) -> Option<Timestamp> {
    let delay = *DELAYS.get(usize::try_from(failed).ok()?)?;
    let delay = Duration::from_secs(delay) + jitter(id, failed, delay);
    later(now, delay.max(asked.unwrap_or_default()))
}

/// The instant that lies so much after `now`.
pub(super) fn later(now: Timestamp, wait: Duration) -> Option<Timestamp> {
    now.checked_add(SignedDuration::try_from(wait).ok()?).ok()
}

/// How long a `Retry-After` asks to wait: seconds, or a date (RFC 9110,
/// section 10.2.3); no longer than a day.
pub(super) fn retry_after(field: &str, now: Timestamp) -> Option<Duration> {
    let field = field.trim();
    let wait = if field.bytes().all(|byte| byte.is_ascii_digit()) && !field.is_empty() {
        // More digits than fit are longer than a day as well.
        field.parse().map_or(LONGEST, Duration::from_secs)
    } else {
        let until = DateTimeParser::new().parse_timestamp(field).ok()?;
        Duration::try_from(until.duration_since(now)).unwrap_or_default()
    };
    Some(wait.min(LONGEST))
}

/// A share of the delay that is the same for the same try of the same letter.
fn jitter(id: &str, failed: u32, delay: u64) -> Duration {
    let digest = Sha256::new().chain_update(id).chain_update(failed.to_be_bytes()).finalize();
    let share = digest.first_chunk::<4>().map_or(0, |bytes| u64::from(u32::from_be_bytes(*bytes)));
    let most_ms = delay * 1000 * JITTER / 100;
    Duration::from_millis(most_ms * share / u64::from(u32::MAX))
}

#[cfg(test)]
mod tests {
    use super::*;

    const NOW: Timestamp = Timestamp::UNIX_EPOCH;

    /// Standard Webhooks 1.0.0 names the sum: 75 h 35 min 5 s.
    #[test]
    fn the_schedule_is_the_specifications() {
        assert_eq!(DELAYS.iter().sum::<u64>(), (75 * 60 + 35) * 60 + 5);
        assert_eq!(DELAYS.len(), 10);
    }

    #[test]
    fn each_wait_is_the_delay_and_at_most_a_fifth_more() {
        for failed in 1..10_u32 {
            let delay = DELAYS[failed as usize] as f64;
            let waits: Vec<f64> = (0..200)
                .map(|letter| next_try(&format!("out-{letter}"), failed, NOW, None).unwrap())
                .map(|next| next.duration_since(NOW).as_secs_f64())
                .collect();
            assert!(waits.iter().all(|&wait| wait >= delay && wait <= delay * 1.2));
            let mean = waits.iter().sum::<f64>() / 200.0;
            assert!((mean / delay - 1.1).abs() < 0.02, "{mean} for {delay}");
        }
        assert_eq!(next_try("out-1", 10, NOW, None), None);
        assert_eq!(next_try("out-1", 3, NOW, None), next_try("out-1", 3, NOW, None));
    }

    #[test]
    fn an_alarm_is_tried_at_1_3_10_30_s_and_then_each_minute() {
        let at = Duration::from_secs;
        let (first, mut last, mut tries) = (at(100), at(100), Vec::new());
        for failed in 1..9 {
            last = next_cry(first, last, failed);
            tries.push((last - first).as_secs());
        }
        assert_eq!(tries, [1, 3, 10, 30, 90, 150, 210, 270]);
        // A slow one is not tried again before it has ended.
        assert_eq!(next_cry(first, at(110), 1), at(111));
    }

    #[test]
    fn a_receiver_may_ask_for_longer_but_not_for_shorter() {
        let asked = |wait| next_try("out-1", 2, NOW, Some(Duration::from_secs(wait)));
        assert_eq!(asked(0), next_try("out-1", 2, NOW, None));
        assert_eq!(asked(4000).unwrap().as_second(), 4000);
    }

    /// The date is RFC 9110's own example, section 10.2.3.
    #[test]
    fn retry_after_is_seconds_or_a_date() {
        let now: Timestamp = "1999-12-31T23:58:59Z".parse().unwrap();
        let wait = |field| retry_after(field, now).map(|wait| wait.as_secs());
        assert_eq!(wait("120"), Some(120));
        assert_eq!(wait("Fri, 31 Dec 1999 23:59:59 GMT"), Some(60));
        assert_eq!(wait("Fri, 31 Dec 1999 23:00:00 GMT"), Some(0));
        assert_eq!(wait("99999999999999999999999"), Some(24 * HOUR));
        assert_eq!(wait("Thu, 31 Dec 2099 23:59:59 GMT"), Some(24 * HOUR));
        for none in ["", "soon", "-5", "1.5"] {
            assert_eq!(wait(none), None, "{none}");
        }
    }
}
