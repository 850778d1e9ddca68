//! `lapwing simulate`: the rules of coaching on whole seasons.

use std::io::Write;

use jiff::civil::date;

use super::arguments::Simulate;
use super::run::Outcome;
use crate::simulation::compare;

/// Prints the adaptive and the fixed plan side by side.
pub async fn run(asked: Simulate) -> Outcome {
    let from = date(2026, 1, 5);
    let work = move || compare(asked.swimmers, asked.weeks, asked.seed, from);
    let comparison = tokio::task::spawn_blocking(work).await?;
    write!(std::io::stdout(), "{comparison}")?;
    Ok(())
}
