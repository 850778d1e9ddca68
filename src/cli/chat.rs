//! `lapwing chat`: a terminal as a phone.

use std::io::{self, IsTerminal};
use std::path::{Path, PathBuf};
use std::sync::Arc;

use anstream::{AutoStream, ColorChoice};
use rustyline::config::Configurer;
use rustyline::error::ReadlineError;
use rustyline::{Config, DefaultEditor};
use tokio::task::{JoinHandle, block_in_place};
use tokio_util::sync::CancellationToken;

use super::arguments::Chat;
use super::console::{FAINT, Harmless, OWN, note, print, styled};
use super::run::Outcome;
use super::settings::Settings;
use crate::control::{Access, AccessError, ClientError, Owner, Typed};
use crate::http::{Limits, Reception};
use crate::service::{Answer, Spoken, Via};

/// Lines kept from one chat to the next.
const HISTORY: usize = 500;

/// Reads lines and prints what is answered, until the input ends.
pub async fn run(settings: &Settings, asked: Chat) -> Outcome {
    settings.data.make()?;
    let mut terminal = Terminal::open(&settings.data.chat_history(), &asked.from)?;
    let mut line = Line::dial(settings).await?;
    let outcome = converse(settings, &asked, &mut terminal, &mut line).await;
    terminal.keep_history();
    line.hang_up().await;
    outcome
}

async fn converse(
    settings: &Settings,
    asked: &Chat,
    terminal: &mut Terminal,
    line: &mut Line,
) -> Outcome {
    while let Some(text) = block_in_place(|| terminal.next_line())? {
        let typed = Typed { from: asked.from.clone(), room: asked.room.clone(), text };
        let mut answer = line.access.receive(typed.clone()).await;
        if matches!(answer, Err(AccessError::Client(ClientError::Absent))) {
            // The process that owned the folder has ended; nothing was sent.
            *line = Line::dial(settings).await?;
            answer = line.access.receive(typed).await;
        }
        match answer {
            Ok(answer) => show(&answer)?,
            Err(failed) => note(format_args!("lapwing: {failed}")),
        }
    }
    Ok(())
}

/// Access for as long as a chat lasts. Where we own the folder, other commands
/// reach it through us.
struct Line {
    access: Access<Owner>,
    stopping: CancellationToken,
    listening: Option<JoinHandle<()>>,
}

impl Line {
    async fn dial(settings: &Settings) -> Result<Line, Box<dyn std::error::Error + Send + Sync>> {
        let access = Access::gain(&settings.data, settings.clock).await?;
        let stopping = CancellationToken::new();
        let listening = match &access {
            Access::Beside(_) => None,
            Access::Own(owner) => {
                let service = Arc::clone(owner.service());
                let reception = Reception::new(service, Limits::default(), stopping.clone());
                Some(owner.listen(reception)?)
            }
        };
        Ok(Line { access, stopping, listening })
    }

    async fn hang_up(self) {
        self.stopping.cancel();
        if let Some(listening) = self.listening
            && let Err(broken) = listening.await
        {
            tracing::error!(%broken, "the control socket broke");
        }
        self.access.close().await;
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

/// Where the lines come from.
struct Terminal {
    editor: DefaultEditor,
    prompt: String,
    history: PathBuf,
}

impl Terminal {
    fn open(history: &Path, from: &str) -> Result<Terminal, ReadlineError> {
        let mut editor = DefaultEditor::with_config(Config::default())?;
        editor.set_max_history_size(HISTORY)?;
        editor.set_auto_add_history(true);
        if history.exists() {
            editor.load_history(history)?;
        }
        let coloured = AutoStream::choice(&io::stdout()) != ColorChoice::Never;
        let prompt = if coloured {
            format!("{} ", styled(OWN, format_args!("{from}>")))
        } else {
            format!("{from}> ")
        };
        Ok(Terminal { editor, prompt, history: history.to_owned() })
    }

    /// The next line that says anything; `None` at the end.
    fn next_line(&mut self) -> Result<Option<String>, ReadlineError> {
        loop {
            match self.editor.readline(&self.prompt) {
                Ok(line) if line.trim().is_empty() => {}
                Ok(line) => return Ok(Some(line)),
                Err(ReadlineError::Eof | ReadlineError::Interrupted) => return Ok(None),
                Err(failed) => return Err(failed),
            }
        }
    }

    fn keep_history(&mut self) {
        // What a script pipes in is no history of anybody's.
        if io::stdin().is_terminal()
            && let Err(failed) = self.editor.save_history(&self.history)
        {
            note(format_args!("lapwing: the lines typed were not kept: {failed}"));
        }
    }
}
