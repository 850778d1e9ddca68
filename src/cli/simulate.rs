//! `lapwing simulate`: the rules of coaching on whole seasons.

use std::io::Write;

use jiff::civil::date;

use super::arguments::Simulate;
use super::console::note;
use super::progress::Progress;
use super::run::Outcome;
use super::settings::Settings;
use crate::control::rulebook;
use crate::simulation::{Trials, compare};

/// Prints the adaptive and the fixed plan side by side, by the numbers in the data
/// folder where there are any.
pub async fn run(settings: &Settings, asked: Simulate) -> Outcome {
    let book = rulebook(&settings.data)?;
    if settings.data.rules().exists() {
        note(format_args!(
            "by the numbers in {}; what counts as broken is by the usual ones",
            settings.data.rules().display()
        ));
    }
    let Simulate { swimmers, weeks, seed } = asked;
    let trials = Trials { swimmers, weeks, seed, from: date(2026, 1, 5) };
    let progress = Progress::in_steps("swimmers", swimmers.into());
    let step = progress.step();
    let work = move || compare(&book, trials, step);
    let comparison = tokio::task::spawn_blocking(work).await?;
    drop(progress);
    write!(std::io::stdout(), "{comparison}")?;
    Ok(())
}
