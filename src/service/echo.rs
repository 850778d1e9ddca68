//! What was said lately, to know our own words by when a chat brings them back
//! under whatever name.

use std::collections::VecDeque;
use std::time::Duration;

use super::{Service, Spoken};
use crate::digest;
use crate::service::world::lock;

/// How long a chat may take to bring our words back. Ours.
const REMEMBERED: Duration = Duration::from_secs(10 * 60);

/// How many texts are remembered at most.
const MOST: usize = 4096;

/// Digests of what was said, oldest first.
#[derive(Debug, Default)]
pub(super) struct Echo(VecDeque<(Duration, [u8; 16])>);

impl Echo {
    /// Remembers what is said now.
    pub fn note(&mut self, replies: &[Spoken], now: Duration) {
        let said = replies.iter().map(|reply| reply.text.trim()).filter(|text| !text.is_empty());
        self.0.extend(said.map(|text| (now, of(text))));
        let over = self.0.len().saturating_sub(MOST);
        self.0.drain(..over);
        while self.0.front().is_some_and(|(at, _)| now.saturating_sub(*at) > REMEMBERED) {
            self.0.pop_front();
        }
    }

    /// True if these are words of ours, and as fresh as that.
    pub fn holds(&self, text: &str, now: Duration) -> bool {
        let digest = of(text.trim());
        let fresh = |at: &Duration| now.saturating_sub(*at) <= REMEMBERED;
        self.0.iter().any(|(at, one)| *one == digest && fresh(at))
    }
}

impl Service {
    /// True if we said these very words lately, to whomever: a chat that brings
    /// them back, under whatever name, says nothing new.
    pub fn has_said(&self, text: &str) -> bool {
        lock(&self.echo).holds(text, self.clock.passed())
    }
}

fn of(text: &str) -> [u8; 16] {
    let digest = digest::of([text]);
    let mut short = [0; 16];
    short.iter_mut().zip(digest).for_each(|(to, byte)| *to = byte);
    short
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::service::Via;

    #[test]
    fn words_are_known_for_a_while_and_only_whole() {
        let mut echo = Echo::default();
        let said = Spoken::alone("chat:club:u1".into(), Via::Answer, "Stored: 200 in 3:12.".into());
        echo.note(&[said], Duration::ZERO);
        let later = Duration::from_secs(60);
        assert!(echo.holds(" Stored: 200 in 3:12.\n", later));
        assert!(!echo.holds("Stored: 200 in 3:12", later) && !echo.holds("", later));
        assert!(!echo.holds("Stored: 200 in 3:12.", Duration::from_secs(601)));
    }
}
