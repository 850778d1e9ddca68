//! What we say in the terminal, and the log.

use std::fmt::{self, Display};
use std::io::{self, IsTerminal, Write};
use std::sync::OnceLock;

use anstyle::{AnsiColor, Style};
use tracing_subscriber::EnvFilter;

/// How much is said beside what was asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Loudness {
    /// Warnings and errors.
    Quiet,
    /// What a person wants to know.
    Usual,
    /// More in the log: each request.
    More,
    /// All there is in the log.
    All,
}

/// How loud this process is; set once, at its start.
static LOUDNESS: OnceLock<Loudness> = OnceLock::new();

impl Loudness {
    /// As the flags say.
    pub const fn of(quiet: bool, verbose: u8) -> Loudness {
        match (quiet, verbose) {
            (true, _) => Loudness::Quiet,
            (false, 0) => Loudness::Usual,
            (false, 1) => Loudness::More,
            (false, _) => Loudness::All,
        }
    }

    /// What is logged.
    const fn logged(self) -> &'static str {
        match self {
            Loudness::Quiet => "error,lapwing=warn",
            Loudness::Usual => "warn,lapwing=info",
            Loudness::More => "warn,lapwing=debug",
            Loudness::All => "debug,lapwing=trace",
        }
    }
}

/// The style of what matters most in a line.
pub const BOLD: Style = Style::new().bold();

/// The style of the one who types.
pub const OWN: Style = AnsiColor::Cyan.on_default().bold();

/// The style of what goes to others.
pub const FAINT: Style = Style::new().dimmed();

/// Is as loud as that from now on, and sends the log to stderr: as loud, or where
/// no flag says so at the level in `RUST_LOG`.
pub fn begin(loudness: Loudness) {
    let loudness = *LOUDNESS.get_or_init(|| loudness);
    let told = EnvFilter::try_from_default_env().ok().filter(|_| loudness == Loudness::Usual);
    let filter = told.unwrap_or_else(|| EnvFilter::new(loudness.logged()));
    let coloured = io::stderr().is_terminal() && std::env::var_os("NO_COLOR").is_none();
    // It fails where a log is set already: then that one stays.
    let _ = tracing_subscriber::fmt()
        .with_env_filter(filter)
        .with_writer(io::stderr)
        .with_ansi(coloured)
        .try_init();
}

/// True if nothing but warnings and errors is to be said.
pub fn is_quiet() -> bool {
    LOUDNESS.get() == Some(&Loudness::Quiet)
}

/// Says a line to whoever started us, on stderr, unless it is to be quiet.
pub fn note(line: impl Display) {
    if !is_quiet() {
        warn(line);
    }
}

/// The same, however quiet it is to be. That nobody listens is no reason to stop.
pub fn warn(line: impl Display) {
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

/// Prints a value as JSON, for other programs.
///
/// # Errors
/// Nobody reads it.
pub fn print_json(value: &impl serde::Serialize) -> io::Result<()> {
    print(serde_json::to_string_pretty(value).map_err(io::Error::other)?)
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
