//! `lapwing chat`: a terminal as a phone.

use std::io;
use std::sync::Arc;

use tokio::task::{JoinHandle, block_in_place};
use tokio_util::sync::{CancellationToken, DropGuard};

use super::arguments::Chat;
use super::console::{FAINT, Harmless, note, print, styled, warn};
use super::read::print_beside;
use super::run::{Failed, Outcome};
use super::settings::Settings;
use crate::control::{Access, AccessError, ClientError, Owner, Typed};
use crate::http::{Limits, Reception};
use crate::service::{Answer, Showing, Spoken, Via};

mod letters;
mod terminal;

use letters::{Post, Watch};
use terminal::Terminal;

/// Words that end a chat and are never sent. Said by text, either could mean to be
/// left alone for good.
const LEAVING: [&str; 2] = ["exit", "quit"];

/// Reads lines and prints what is answered, until the input ends.
pub async fn run(settings: &Settings, asked: Chat) -> Outcome {
    settings.data.make()?;
    let mut terminal = Terminal::open(&settings.data.chat_history(), &asked.from)?;
    let post = Post::new(&asked, terminal.printer());
    let mut line = Line::dial(settings, &post).await?;
    note(format_args!(
        "texting as {}; `exit`, `quit` or Ctrl-D leaves, and only `stop` opts out",
        asked.from
    ));
    let outcome = converse(settings, &asked, &mut terminal, &mut line, &post).await;
    terminal.keep_history();
    line.hang_up().await;
    outcome
}

async fn converse(
    settings: &Settings,
    asked: &Chat,
    terminal: &mut Terminal,
    line: &mut Line,
    post: &Arc<Post>,
) -> Outcome {
    while let Some(text) = block_in_place(|| terminal.next_line())? {
        if LEAVING.contains(&text.trim().to_lowercase().as_str()) {
            return Ok(());
        }
        if asked.reading {
            show_reading(line, asked, &text).await?;
        }
        let typed = Typed { from: asked.from.clone(), room: asked.room.clone(), text };
        let mut answer = line.access.receive(typed.clone()).await;
        if matches!(answer, Err(AccessError::Client(ClientError::Absent))) {
            // The process that owned the folder has ended; nothing was sent.
            let next = Line::dial(settings, post).await?;
            std::mem::replace(line, next).hang_up().await;
            answer = line.access.receive(typed).await;
        }
        match answer {
            Ok(answer) => show(&answer)?,
            Err(failed) => warn(format_args!("lapwing: {failed}")),
        }
    }
    Ok(())
}

/// How a text is read, before it is sent. Of somebody in no squad there is nothing
/// to show.
async fn show_reading(line: &Line, asked: &Chat, text: &str) -> Outcome {
    let showing = Showing { squad: None, from: asked.from.clone(), text: text.to_owned() };
    match line.access.shown(&showing).await {
        Ok(shown) => print_beside(&shown)?,
        Err(failed) => note(format_args!("no reading: {failed}")),
    }
    Ok(())
}

/// Access for as long as a chat lasts. Where we own the folder, other commands
/// reach it through us.
struct Line {
    access: Arc<Access<Owner>>,
    /// Ends what listens and watches.
    stopping: DropGuard,
    listening: Option<JoinHandle<()>>,
    watching: JoinHandle<()>,
}

impl Line {
    async fn dial(settings: &Settings, post: &Arc<Post>) -> Result<Line, Failed> {
        let access = Arc::new(Access::gain(&settings.data, settings.clock).await?);
        let stopping = CancellationToken::new();
        let listening = match &*access {
            Access::Beside(_) => None,
            Access::Own(owner) => {
                let service = Arc::clone(owner.service());
                let reception = Reception::new(service, Limits::default(), stopping.clone());
                Some(owner.listen(reception)?)
            }
        };
        // What was there before is not shown.
        post.begin(&access).await;
        let watch = Watch { access: Arc::clone(&access), post: Arc::clone(post) };
        let watching = tokio::spawn(watch.run(stopping.clone()));
        Ok(Line { access, stopping: stopping.drop_guard(), listening, watching })
    }

    async fn hang_up(self) {
        drop(self.stopping);
        for ended in self.listening.into_iter().chain([self.watching]) {
            if let Err(broken) = ended.await {
                tracing::error!(%broken, "a part of the chat broke");
            }
        }
        if let Some(access) = Arc::into_inner(self.access) {
            access.close().await;
        }
    }
}

fn show(answer: &Answer) -> io::Result<()> {
    for Spoken { to, room, via, text, .. } in &answer.replies {
        let text = Harmless(text);
        match via {
            Via::Answer => print(text)?,
            Via::Outbox => {
                let whom = room.as_ref().unwrap_or(to);
                print(styled(FAINT, format_args!("to {}: {text}", Harmless(whom))))?;
            }
        }
    }
    Ok(())
}
