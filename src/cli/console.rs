//! What we say in the terminal, and the log.

use std::fmt::{self, Display};
use std::io::{self, IsTerminal, Write};

use anstyle::{AnsiColor, Style};
use tracing_subscriber::EnvFilter;

/// What is logged if `RUST_LOG` doesn't say.
const LOGGED: &str = "warn,lapwing=info";

/// The style of what matters most in a line.
pub const BOLD: Style = Style::new().bold();

/// The style of the one who types.
pub const OWN: Style = AnsiColor::Cyan.on_default().bold();

/// The style of what goes to others.
pub const FAINT: Style = Style::new().dimmed();

/// Sends the log to stderr, at the level in `RUST_LOG`.
pub fn log_to_stderr() {
    let filter = EnvFilter::try_from_default_env().unwrap_or_else(|_| EnvFilter::new(LOGGED));
    let coloured = io::stderr().is_terminal() && std::env::var_os("NO_COLOR").is_none();
    // It fails where a log is set already: then that one stays.
    let _ = tracing_subscriber::fmt()
        .with_env_filter(filter)
        .with_writer(io::stderr)
        .with_ansi(coloured)
        .try_init();
}

/// Says a line to whoever started us, on stderr. That nobody listens is no
/// reason to stop.
pub fn note(line: impl Display) {
    let _ = writeln!(anstream::stderr().lock(), "{line}");
}

/// Prints a line of what was asked for, on stdout, coloured if it is a
/// terminal.
///
/// # Errors
/// Nobody reads it.
pub fn print(line: impl Display) -> io::Result<()> {
    let mut out = anstream::stdout().lock();
    writeln!(out, "{line}")?;
    out.flush()
}

/// Words in a style.
pub fn styled(style: Style, words: impl Display) -> impl Display {
    format!("{style}{words}{style:#}")
}

/// Words that others wrote, safe in a terminal: without the controls that
/// would move its cursor or change its title.
pub struct Harmless<'a>(pub &'a str);

impl Display for Harmless<'_> {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        for letter in self.0.chars() {
            let shown = letter == '\n' || !letter.is_control();
            write!(out, "{}", if shown { letter } else { char::REPLACEMENT_CHARACTER })?;
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_words_move_the_cursor() {
        let shown = Harmless("så\n\u{1b}[2Jx\r\u{9b}").to_string();
        assert_eq!(shown, "så\n\u{fffd}[2Jx\u{fffd}\u{fffd}");
    }
}
