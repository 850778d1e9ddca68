//! `lapwing outbox`: what is not delivered, and trying it again.

use std::fmt;

use super::arguments::{Outbox, OutboxAction};
use super::console::{Harmless, print};
use super::run::Outcome;
use super::settings::Settings;
use super::upkeep::require_data;
use crate::control::{Access, Owner};
use crate::service::{LetterState, Undelivered};

/// How many of an address's last characters anybody may see.
const SHOWN: usize = 3;

/// Lists what is not delivered, or has it tried again.
pub async fn run(settings: &Settings, asked: Outbox) -> Outcome {
    require_data(&settings.data)?;
    let access = Access::gain(&settings.data, settings.clock).await?;
    let done = match asked.action {
        None => list(&access, asked.show).await,
        Some(OutboxAction::Retry(retry)) => match access.retry_letters(retry.id).await {
            Ok(count) => Ok(print(format_args!("{count} to be tried again"))?),
            Err(failed) => Err(failed.into()),
        },
    };
    access.close().await;
    done
}

async fn list(access: &Access<Owner>, show: bool) -> Outcome {
    let letters = access.undelivered().await?;
    for letter in &letters {
        print(Line { letter, show })?;
    }
    let dead = letters.iter().filter(|letter| matches!(letter.state, LetterState::Dead(_))).count();
    print(format_args!("{} waiting, {dead} dead", letters.len() - dead))?;
    Ok(())
}

struct Line<'a> {
    letter: &'a Undelivered,
    show: bool,
}

impl fmt::Display for Line<'_> {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Undelivered { number, to, tries, why, state } = self.letter;
        let to = if self.show { to.clone() } else { masked(to) };
        write!(out, "{number} to {} ", Harmless(&to))?;
        match state {
            LetterState::Waiting(None) => write!(out, "waiting for its turn")?,
            LetterState::Waiting(Some(next)) => write!(out, "waiting until {next:.0}")?,
            LetterState::Dead(at) => write!(out, "dead since {at:.0}")?,
        }
        if *tries > 0 {
            write!(out, ", tries: {tries}")?;
        }
        why.iter().try_for_each(|why| write!(out, ", {}", Harmless(why)))
    }
}

/// The last characters of an address, so that whoever knows it can tell it.
fn masked(address: &str) -> String {
    let length = address.chars().count();
    // Of a short one, that would be too much.
    let shown = SHOWN.min(length / 2);
    let tail: String = address.chars().skip(length - shown).collect();
    format!("…{tail}")
}

#[cfg(test)]
mod tests {
    use super::masked;

    #[test]
    fn of_an_address_only_the_end_is_seen() {
        assert_eq!(masked("+15550101"), "…101");
        assert_eq!(masked("wren"), "…en");
        assert_eq!(masked("w"), "…");
    }
}
