//! What is shown of work that takes long: on stderr, on a terminal, once two
//! seconds have passed.

use std::io::{self, IsTerminal};
use std::time::Duration;

use indicatif::{ProgressBar, ProgressDrawTarget, ProgressStyle};
use tokio::task::JoinHandle;

use super::console;

/// What ends sooner is not shown.
const PATIENCE: Duration = Duration::from_secs(2);

/// How often it is drawn anew.
const TICK: Duration = Duration::from_millis(120);

/// Work under way; it is shown no more once this is dropped.
pub struct Progress {
    bar: ProgressBar,
    showing: JoinHandle<()>,
}

impl Progress {
    /// Work of which it is not known how much there is.
    pub fn of(what: &'static str) -> Progress {
        Progress::begin(ProgressBar::no_length().with_message(what), "{spinner} {msg} {elapsed}")
    }

    /// Work in so many steps.
    pub fn in_steps(what: &'static str, steps: u64) -> Progress {
        let bar = ProgressBar::new(steps).with_message(what);
        Progress::begin(bar, "{spinner} {msg} [{bar:30}] {pos} of {len}, {eta} left")
    }

    fn begin(bar: ProgressBar, template: &str) -> Progress {
        bar.set_draw_target(ProgressDrawTarget::hidden());
        let style = ProgressStyle::with_template(template);
        bar.set_style(style.unwrap_or_else(|_| ProgressStyle::default_spinner()));
        let shown = bar.clone();
        let showing = tokio::spawn(async move {
            if !io::stderr().is_terminal() || console::is_quiet() {
                return;
            }
            tokio::time::sleep(PATIENCE).await;
            shown.set_draw_target(ProgressDrawTarget::stderr());
            shown.enable_steady_tick(TICK);
        });
        Progress { bar, showing }
    }

    /// What says that a step is done, from any thread.
    pub fn step(&self) -> impl Fn() + Send + Sync + use<> {
        let bar = self.bar.clone();
        move || bar.inc(1)
    }
}

impl Drop for Progress {
    fn drop(&mut self) {
        self.showing.abort();
        self.bar.finish_and_clear();
    }
}

/// Does work that may take long, and shows that it goes on.
pub async fn shown<T>(what: &'static str, work: impl Future<Output = T>) -> T {
    let _progress = Progress::of(what);
    work.await
}
