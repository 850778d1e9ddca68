//! From what the grammar read to statements: what a figure can mean, which
//! number is the distance, whether counts and sums agree.
//!
//! Knows nothing of who swims or when; what it cannot settle becomes a doubt
//! with its possible answers, never a guess.

mod commands;
mod days;
mod deeds;
mod evening;
mod feelings;
mod figures;
mod reports;
mod results;
mod sets;
mod trials;

use super::syntax::{Capture, Item, Said, Sentence};
use super::{Doubt, Kind, Name, Statement};

/// What a statement comes to.
pub type Outcome<T> = Result<T, Trouble>;

/// Why a statement doesn't stand as it is.
#[derive(Debug, Clone, PartialEq)]
pub enum Trouble {
    /// It stands once a word is said: each with what it then says.
    Doubt(Doubt, Vec<(String, Vec<Statement>)>),
    /// Well formed, and nothing that anyone could mean.
    Senseless,
}

/// What one statement says.
pub fn sentence(sentence: Sentence) -> Outcome<Vec<Statement>> {
    let who = sentence.who;
    match sentence.said {
        None => Ok(vec![Statement { who, kind: Kind::Swimmer }]),
        Some(Said::Report(items)) => reports::report(who.as_ref(), items),
        Some(Said::Command(verb, parts)) => commands::command(who, verb, parts),
    }
}

/// What a list of names says: the shared part with each one's own.
pub fn capture(capture: &Capture) -> Outcome<Vec<Statement>> {
    let mut all = Vec::new();
    for (name, own) in &capture.entries {
        let mut items: Vec<Item> = capture.shared.clone();
        items.extend(own.iter().cloned());
        all.extend(reports::report(Some(name), items)?);
    }
    Ok(all)
}

/// The same said of someone, or of the sender.
fn about(who: Option<&Name>, kind: Kind) -> Statement {
    Statement { who: who.cloned(), kind }
}
