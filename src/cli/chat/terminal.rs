//! Where a chat's lines come from.

use std::io::{self, IsTerminal};
use std::path::{Path, PathBuf};

use anstream::{AutoStream, ColorChoice};
use rustyline::config::Configurer;
use rustyline::error::ReadlineError;
use rustyline::{Config, DefaultEditor, ExternalPrinter};

use crate::cli::console::{OWN, note, styled};

/// Lines kept from one chat to the next.
const HISTORY: usize = 500;

/// Prints above the line that is being typed.
pub type Printer = Box<dyn ExternalPrinter + Send>;

/// Where the lines come from.
pub struct Terminal {
    editor: DefaultEditor,
    prompt: String,
    history: PathBuf,
}

impl Terminal {
    /// The terminal, with the lines that were typed before.
    ///
    /// # Errors
    /// It can't be used, or those lines can't be read.
    pub fn open(history: &Path, from: &str) -> Result<Terminal, ReadlineError> {
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

    /// What prints above the line that is being typed; none where nobody types.
    pub fn printer(&mut self) -> Option<Printer> {
        let printer = self.editor.create_external_printer().ok()?;
        Some(Box::new(printer))
    }

    /// The next line that says anything; `None` at the end.
    ///
    /// # Errors
    /// The terminal failed.
    pub fn next_line(&mut self) -> Result<Option<String>, ReadlineError> {
        loop {
            match self.editor.readline(&self.prompt) {
                Ok(line) if line.trim().is_empty() => {}
                Ok(line) => return Ok(Some(line)),
                Err(ReadlineError::Eof | ReadlineError::Interrupted) => return Ok(None),
                Err(failed) => return Err(failed),
            }
        }
    }

    /// Keeps what was typed for the next chat.
    pub fn keep_history(&mut self) {
        // What a script pipes in is no history of anybody's.
        if io::stdin().is_terminal()
            && let Err(failed) = self.editor.save_history(&self.history)
        {
            note(format_args!("lapwing: the lines typed were not kept: {failed}"));
        }
    }
}
