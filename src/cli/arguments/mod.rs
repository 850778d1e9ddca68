//! Every command with its arguments.

use std::num::NonZeroU32;
use std::path::PathBuf;

use clap::{ArgAction, Args, Parser, Subcommand};
use clap_complete::Shell;

use self::words::name;
use crate::clock::ClockMode;
use crate::config::BoardUrl;
use crate::export::File;
use crate::import::List;
use crate::message::Name;

mod squads;
mod texts;
mod words;

pub use squads::{
    Listing, Squad, SquadAdd, SquadCode, SquadRemove, SquadRename, SquadStaff, StaffAction,
    StaffRemove, Which,
};
pub use texts::{Chat, Outbox, OutboxAction, OutboxShow, ReadText, Send};

/// A swim squad's coaching assistant by text message.
///
/// Without a command it serves an invented squad: `lapwing demo`.
#[derive(Debug, Parser)]
#[command(name = "lapwing", version)]
pub struct Arguments {
    /// What every command takes.
    #[command(flatten)]
    pub shared: Shared,
    /// What to do.
    #[command(subcommand)]
    pub command: Option<Command>,
}

/// What every command takes.
#[derive(Debug, Clone, Default, Args)]
pub struct Shared {
    /// The folder with the data [default: ./lapwing-data; ./lapwing-demo for the demo, which
    /// takes no other unless told so by this flag]
    #[arg(long, global = true, env = "LAPWING_DATA", value_name = "DIR")]
    pub data: Option<PathBuf>,
    /// A TOML file with any of: data, journal, listen, limit, clock, and tables for the ways in and out; flags and environment go before it
    #[arg(long, global = true, env = "LAPWING_CONFIG", value_name = "FILE")]
    pub config: Option<PathBuf>,
    /// The PostgreSQL database that holds the journal, as postgres://USER@HOST/DATABASE; its password is in LAPWING_JOURNAL_PASSWORD [default: none, it is in the data folder]
    #[arg(long, global = true, env = "LAPWING_JOURNAL", value_name = "URL")]
    pub journal: Option<String>,
    /// Say nothing but what was asked for, warnings and errors
    #[arg(short, long, global = true, conflicts_with = "verbose")]
    pub quiet: bool,
    /// Log more; twice, all there is
    #[arg(short, long, global = true, action = ArgAction::Count)]
    pub verbose: u8,
}

/// What to do.
#[derive(Debug, Subcommand)]
pub enum Command {
    /// Serve: take messages over HTTP until told to stop
    Serve(Serve),
    /// Serve an invented squad with a history, to try
    Demo(Serve),
    /// Squads: open, list, rename and close them, their codes and staff
    #[command(subcommand)]
    Squad(Squad),
    /// Text as a swimmer or a coach, from this terminal
    Chat(Chat),
    /// Sign one text and post it to a server
    Send(Send),
    /// Show how a text is read: its pieces, what they could mean, and what is done; stores nothing
    Read(ReadText),
    /// Texts to others than the sender that are not delivered yet
    Outbox(Outbox),
    /// Print a squad's or one swimmer's history as a file that other programs read
    Export(Export),
    /// Bring a table of tests or members into a squad: whole, or not at all with every fault listed
    Import(Import),
    /// List the rules of coaching, each with its number, range and source
    Rules(Rules),
    /// Try the rules of coaching on simulated swimmers, beside a plan that hears nothing
    Simulate(Simulate),
    /// Read the whole journal and tell what is wrong in it
    Check,
    /// Read the settings of a server, its rules and the secrets they name, and tell all that is wrong in them
    CheckConfig(Serve),
    /// Matrix
    #[command(subcommand)]
    Matrix(Matrix),
    /// Copy the journal into a file, beside a running server too; the keys are not in it
    Backup(BackupTo),
    /// Fill an empty data folder from such a file
    Restore(BackupFile),
    /// Mend a damaged journal from what can be read of it and of backups, and say what is gone
    Repair(Repair),
    /// Make the tables of the journal's database, or bring them up to date
    Prepare(Prepare),
    /// Print what a shell completes these commands by
    Completions(Completions),
    /// Print which version this is, of the program and of what it stores
    Version(Listing),
}

/// Which rules to list.
#[derive(Debug, Clone, Args)]
pub struct Rules {
    /// Only this one
    pub rule: Option<String>,
    /// How they are printed.
    #[command(flatten)]
    pub listing: Listing,
}

/// Whom to simulate, and for how long.
#[derive(Debug, Clone, Copy, Args)]
pub struct Simulate {
    /// How many swimmers
    #[arg(long, default_value_t = 100, value_name = "NUMBER")]
    pub swimmers: u32,
    /// How many weeks
    #[arg(long, default_value_t = 52, value_name = "NUMBER", value_parser = clap::value_parser!(u16).range(1..=520))]
    pub weeks: u16,
    /// Where the dice begin
    #[arg(long, default_value_t = 1, value_name = "NUMBER")]
    pub seed: u64,
}

/// How to serve.
#[derive(Debug, Clone, Default, Args)]
pub struct Serve {
    /// Where to listen [default: 127.0.0.1:7373]
    #[arg(long, env = "LAPWING_LISTEN", value_name = "ADDR:PORT")]
    pub listen: Option<String>,
    /// Messages that one sender may bring over HTTP in a minute [default: as many as they like]
    #[arg(long, env = "LAPWING_LIMIT", value_name = "NUMBER")]
    pub limit: Option<NonZeroU32>,
    /// Where texts to others than the sender are brought, signed [default: nowhere, they wait]
    #[arg(long, env = "LAPWING_OUTBOX_URL", value_name = "URL", hide_env_values = true)]
    pub outbox_url: Option<String>,
    /// How addresses of squads' pages begin, as browsers see us [default: the address listened on]
    #[arg(long, env = "LAPWING_BOARD_URL", value_name = "URL")]
    pub board_url: Option<BoardUrl>,
    /// Where the other machines over the same database reach this one; then each squad's texts go
    /// to one of them [default: nowhere, each answers what it is sent]
    #[arg(long, env = "LAPWING_NEIGHBOUR_URL", value_name = "URL")]
    pub neighbour_url: Option<BoardUrl>,
    /// Where a monitor may fetch figures, at /metrics [default: nowhere]
    #[arg(long, env = "LAPWING_METRICS", value_name = "ADDR:PORT")]
    pub metrics: Option<String>,
    /// What counts as now.
    #[command(flatten)]
    pub clock: Clock,
}

/// What counts as now.
#[derive(Debug, Clone, Copy, Default, Args)]
pub struct Clock {
    /// What counts as now: the time of arrival, or what a message says of itself [default: wall]
    #[arg(long, env = "LAPWING_CLOCK", value_name = "wall|message")]
    pub clock: Option<ClockMode>,
}

/// What to do with Matrix.
#[derive(Debug, Subcommand)]
pub enum Matrix {
    /// Print the file by which the homeserver gets to know this server; both tokens are in it
    Registration(Registration),
}

/// What the homeserver is to know.
#[derive(Debug, Clone, Args)]
pub struct Registration {
    /// Where the homeserver reaches this server [default: http:// and the address it listens on]
    #[arg(long, value_name = "URL")]
    pub url: Option<String>,
}

/// Which file, and whose.
#[derive(Debug, Clone, Args)]
pub struct Export {
    /// members.csv, tests.csv, sets.csv, sessions.csv, attendance.csv, everything.jsonl or calendar.ics
    pub file: File,
    /// Which squad.
    #[command(flatten)]
    pub which: Which,
    /// Of this swimmer alone, with what they said of themselves and their health
    #[arg(long, value_name = "NAME", value_parser = name)]
    pub swimmer: Option<Name>,
}

/// What to bring in, and into which squad.
#[derive(Debug, Clone, Args)]
pub struct Import {
    /// What it lists: tests or members
    pub list: List,
    /// A CSV file with the columns that `lapwing export` gives; `-` for what is piped in
    pub file: PathBuf,
    /// Which squad.
    #[command(flatten)]
    pub which: Which,
}

/// What to mend a journal from.
#[derive(Debug, Clone, Args)]
pub struct Repair {
    /// Take from this backup too what the journal no longer has
    #[arg(long, value_name = "BACKUP")]
    pub from: Vec<PathBuf>,
}

/// Who is to serve from the database.
#[derive(Debug, Clone, Args)]
pub struct Prepare {
    /// Print the rights that this role needs to serve, as SQL to be run by whoever owns the tables
    #[arg(long, value_name = "ROLE")]
    pub role: Option<String>,
}

/// A backup to make.
#[derive(Debug, Clone, Args)]
pub struct BackupTo {
    /// The file to write
    pub file: PathBuf,
    /// Write over the file if it is there
    #[arg(long)]
    pub force: bool,
}

/// A backup.
#[derive(Debug, Clone, Args)]
pub struct BackupFile {
    /// The backup
    pub file: PathBuf,
}

/// For which shell.
#[derive(Debug, Clone, Copy, Args)]
pub struct Completions {
    /// The shell
    pub shell: Shell,
}

#[cfg(test)]
mod tests {
    use clap::CommandFactory;

    use super::*;

    #[test]
    fn the_arguments_are_sound() {
        Arguments::command().debug_assert();
    }
}
