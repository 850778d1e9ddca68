//! `lapwing outbox`: what is not delivered, and trying it again.

use std::fmt;

use super::arguments::{Outbox, OutboxAction, OutboxShow};
use super::asking::asked_of;
use super::console::{Harmless, print, print_json};
use super::run::Outcome;
use super::settings::Settings;
use crate::service::{LetterSeen, LetterState, Undelivered};

/// How many of an address's last characters anybody may see.
const SHOWN: usize = 3;

/// Lists what is not delivered, or has it tried again.
pub async fn run(settings: &Settings, asked: Outbox) -> Outcome {
    match asked.action {
        None => {
            let letters = asked_of(settings, async |access| access.undelivered().await).await?;
            match asked.listing.json {
                true => list_json(letters, asked.show),
                false => list(&letters, asked.show),
            }
        }
        Some(OutboxAction::Show(one)) => show(settings, one).await,
        Some(OutboxAction::Retry(retry)) => {
            let again = asked_of(settings, async |access| access.retry_letters(retry.id).await);
            let count = again.await?;
            print(format_args!("{count} to be tried again"))?;
            Ok(())
        }
    }
}

fn list(letters: &[Undelivered], show: bool) -> Outcome {
    for letter in letters {
        print(Line { letter, show })?;
    }
    let dead = letters.iter().filter(|letter| matches!(letter.state, LetterState::Dead(_))).count();
    print(format_args!("{} waiting, {dead} dead", letters.len() - dead))?;
    Ok(())
}

fn list_json(mut letters: Vec<Undelivered>, show: bool) -> Outcome {
    if !show {
        letters.iter_mut().for_each(|letter| letter.to = masked(&letter.to));
    }
    print_json(&letters)?;
    Ok(())
}

/// Shows one letter whole: whoever asks for it by its number may read it all.
async fn show(settings: &Settings, asked: OutboxShow) -> Outcome {
    let letter = asked_of(settings, async |access| access.letter(asked.id).await).await?;
    if asked.listing.json {
        print_json(&letter)?;
        return Ok(());
    }
    let LetterSeen { number, id, to, room, written, alarm, text, undelivered } = &letter;
    let alarm = if *alarm { ", an alarm" } else { "" };
    print(format_args!("letter {number}{alarm}, webhook-id {id}"))?;
    match room {
        Some(room) => print(format_args!("to room {}", Harmless(room)))?,
        None => print(format_args!("to {}", Harmless(to)))?,
    }
    print(format_args!("written {written:.0}, {}", letter.standing()))?;
    if let Some(Undelivered { tries: tries @ 1.., why, .. }) = undelivered {
        let why = why.as_deref().unwrap_or("it is not known why");
        print(format_args!("tries: {tries}, the last one failed: {}", Harmless(why)))?;
    }
    print(format_args!("\n{}", Harmless(text)))?;
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
