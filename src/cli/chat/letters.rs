//! The letters that come for whoever chats: shown as they arrive, also while a line
//! is being typed. What is shown counts as delivered to nobody.

use std::sync::{Arc, Mutex, PoisonError};
use std::time::Duration;

use jiff::Timestamp;
use tokio_util::sync::CancellationToken;

use super::terminal::Printer;
use crate::cli::arguments::Chat;
use crate::cli::console::{FAINT, Harmless, print, styled};
use crate::control::{Access, Owner};
use crate::service::{Arrival, Waiting};

/// How often it is looked whether there is one.
const LOOK: Duration = Duration::from_millis(500);

/// Whose letters are shown, and which were.
pub struct Post {
    to: String,
    room: Option<String>,
    state: Mutex<State>,
}

struct State {
    /// Up to which place in the log all were shown; none before the first look.
    through: Option<u64>,
    /// Those that wait for the morning.
    later: Vec<Arrival>,
    printer: Option<Printer>,
}

/// Somebody who looks for them as long as a line holds.
pub struct Watch {
    /// The line.
    pub access: Arc<Access<Owner>>,
    /// The letters.
    pub post: Arc<Post>,
}

impl Post {
    /// Letters for whoever chats.
    pub fn new(asked: &Chat, printer: Option<Printer>) -> Arc<Post> {
        let state = State { through: None, later: vec![], printer };
        let (to, room) = (asked.from.clone(), asked.room.clone());
        Arc::new(Post { to, room, state: Mutex::new(state) })
    }

    /// Passes over what was written before the chat began.
    pub async fn begin(&self, access: &Access<Owner>) {
        if self.with(|state| state.through.is_some()) {
            return;
        }
        let arrived = access.arrived(&self.waiting()).await;
        let through = arrived.map(|arrived| arrived.through).ok();
        self.with(|state| state.through = through);
    }

    fn waiting(&self) -> Waiting {
        let after = self.with(|state| state.through);
        Waiting { to: self.to.clone(), room: self.room.clone(), after }
    }

    fn with<T>(&self, change: impl FnOnce(&mut State) -> T) -> T {
        change(&mut self.state.lock().unwrap_or_else(PoisonError::into_inner))
    }
}

impl Watch {
    /// Shows letters until told to stop. While nobody can tell of any, none are
    /// missed: they are shown later.
    pub async fn run(self, stopping: CancellationToken) {
        loop {
            if let Ok(arrived) = self.access.arrived(&self.post.waiting()).await {
                let now = Timestamp::now();
                self.post.with(|state| {
                    state.through = Some(arrived.through);
                    state.later.extend(arrived.letters);
                    let is_due = |one: &mut Arrival| one.due.is_none_or(|due| due <= now);
                    let due: Vec<Arrival> = state.later.extract_if(.., is_due).collect();
                    due.iter().for_each(|letter| state.show(letter));
                });
            }
            tokio::select! {
                () = stopping.cancelled() => return,
                () = tokio::time::sleep(LOOK) => {}
            }
        }
    }
}

impl State {
    /// A terminal that is gone is no reason to stop.
    fn show(&mut self, letter: &Arrival) {
        let line = styled(FAINT, format_args!("arrived: {}", Harmless(&letter.text))).to_string();
        let _ = match &mut self.printer {
            Some(printer) => printer.print(format!("{line}\n")).map_err(std::io::Error::other),
            None => print(line),
        };
    }
}
