//! The whole file.

use std::fs;
use std::num::NonZeroU32;
use std::path::{Path, PathBuf};

use super::table::{Pages, Table};
use super::{
    BoardUrl, ChatConfig, Environment, Fault, Faults, GatewayConfig, MatrixConfig, Outbox, Place,
};
use crate::clock::ClockMode;
use crate::journal::DatabaseUrl;

/// What a settings file says.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Config {
    /// The data folder.
    pub data: Option<PathBuf>,
    /// The database that holds the journal.
    pub journal: Option<DatabaseUrl>,
    /// Where to listen.
    pub listen: Option<String>,
    /// Where a monitor may fetch figures.
    pub metrics: Option<String>,
    /// How many messages a sender may bring in a minute.
    pub limit: Option<NonZeroU32>,
    /// What counts as now.
    pub clock: Option<ClockMode>,
    /// `[board]`.
    pub board: Option<BoardUrl>,
    /// `[outbox]`.
    pub outbox: Outbox,
    /// Every `[[gateway]]`.
    pub gateways: Vec<GatewayConfig>,
    /// Every `[[chat]]`.
    pub chats: Vec<ChatConfig>,
    /// `[matrix]`.
    pub matrix: Option<MatrixConfig>,
}

/// A file as far as it could be read, and what is wrong with it.
#[derive(Debug, Default)]
pub struct Read {
    /// What could be read.
    pub config: Config,
    /// All that couldn't.
    pub faults: Faults,
}

impl Config {
    /// Reads a file, with the secrets that it names in this environment.
    pub fn read(file: &Path, environment: &Environment) -> Read {
        match fs::read_to_string(file) {
            Ok(text) => Config::of(file, &text, environment),
            Err(unread) => {
                let fault = Fault { line: None, place: Place::File, what: unread.to_string() };
                Read { config: Config::default(), faults: Faults::of(file, vec![fault]) }
            }
        }
    }

    fn of(file: &Path, text: &str, environment: &Environment) -> Read {
        let pages = Pages::new(text, environment);
        let config = pages.read(Config::fields);
        Read { config, faults: Faults::of(file, pages.into_faults()) }
    }

    fn fields(table: &mut Table<'_, '_>) -> Config {
        Config {
            data: table.value("data"),
            journal: table.word("journal", str::parse),
            listen: table.value("listen"),
            metrics: table.value("metrics"),
            limit: table.value("limit"),
            clock: table.word("clock", str::parse),
            board: table.inside("board", BoardUrl::read).flatten(),
            outbox: table.inside("outbox", Outbox::read).unwrap_or_default(),
            gateways: gateways(table),
            chats: chats(table),
            matrix: table.inside("matrix", MatrixConfig::read).flatten(),
        }
    }
}

/// Names and tokens tell gateways apart.
fn gateways(table: &mut Table<'_, '_>) -> Vec<GatewayConfig> {
    let all: Vec<_> = table.each("gateway", GatewayConfig::read).into_iter().flatten().collect();
    for (at, one) in all.iter().enumerate() {
        let token = |one: &GatewayConfig| one.take.as_ref().map(|take| take.token.clone());
        let mut before = all.iter().take(at);
        if before.clone().any(|other| other.name == one.name) {
            table.fault("gateway", format_args!("two are called {}", one.name));
        }
        if token(one).is_some() && before.any(|other| token(other) == token(one)) {
            table.fault("gateway", format_args!("{} has another one's token", one.name));
        }
    }
    all
}

/// Names tell chats apart.
fn chats(table: &mut Table<'_, '_>) -> Vec<ChatConfig> {
    let all: Vec<_> = table.each("chat", ChatConfig::read).into_iter().flatten().collect();
    for (at, one) in all.iter().enumerate() {
        if all.iter().take(at).any(|other| other.name == one.name) {
            table.fault("chat", format_args!("two are called {}", one.name));
        }
    }
    all
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(text: &str) -> Read {
        Config::of(Path::new("l.toml"), text, &Environment::of([]))
    }

    /// What is wrong, one fault a line.
    fn faults(text: &str) -> String {
        read(text).faults.to_string()
    }

    #[test]
    fn every_fault_is_told_at_once_with_its_line() {
        let said = faults(
            "listen = 80\ndate = \"x\"\nclock = \"sundial\"\nlimti = 3\n\n\
             [outbox]\nurl = \"gopher://a\"\nlimit = 0\nallow = true\n",
        );
        let lines: Vec<&str> = said.lines().collect();
        let expected = [
            (1, "`listen`"),
            (2, "`date`"),
            (3, "`sundial`"),
            (4, "is it `limit`?"),
            (7, "`outbox.url`"),
            (8, "`outbox.limit`"),
            (9, "is it `allow_private`?"),
        ];
        assert_eq!(lines.len(), expected.len(), "{said}");
        for (line, (number, words)) in lines.iter().zip(expected) {
            assert!(line.starts_with(&format!("l.toml, line {number}: ")), "{line}");
            assert!(line.contains(words), "{line} should say {words}");
        }
    }

    #[test]
    fn what_is_no_toml_is_told_with_its_line_and_hides_nothing() {
        let said = faults("data = \"/srv\"\nlisten = \nlimit = 0\n");
        assert!(said.contains("line 2") && said.contains("line 3"), "{said}");
    }

    #[test]
    fn tables_have_the_shape_they_should() {
        assert!(faults("outbox = 3\n").contains("[outbox]"));
        assert_eq!(faults(""), "");
        assert_eq!(read("[outbox]\n").config, Config::default());
    }

    #[test]
    fn a_file_that_is_not_there_is_a_fault() {
        let read = Config::read(Path::new("/nowhere/l.toml"), &Environment::of([]));
        assert!(read.faults.to_string().starts_with("/nowhere/l.toml: "));
    }
}
