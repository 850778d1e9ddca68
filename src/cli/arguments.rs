//! Every command with its arguments.

use std::num::NonZeroU32;
use std::path::PathBuf;

use clap::{Args, Parser, Subcommand};

use crate::brought::List;
use crate::clock::ClockMode;
use crate::config::BoardUrl;
use crate::message::Name;
use crate::profile::SquadId;
use crate::service::LetterNumber;
use crate::taken::File;
use crate::units::Course;

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
#[derive(Debug, Clone, Args)]
pub struct Shared {
    /// The folder with the data [default: ./lapwing-data; ./lapwing-demo for the demo, which
    /// takes no other unless told so by this flag]
    #[arg(long, global = true, env = "LAPWING_DATA", value_name = "DIR")]
    pub data: Option<PathBuf>,
    /// A TOML file with any of: data, listen, limit, clock, and tables for the ways in and out; flags and environment go before it
    #[arg(long, global = true, env = "LAPWING_CONFIG", value_name = "FILE")]
    pub config: Option<PathBuf>,
}

/// What to do.
#[derive(Debug, Subcommand)]
pub enum Command {
    /// Serve: take messages over HTTP until told to stop
    Serve(Serve),
    /// Serve an invented squad with a history, to try
    Demo(Serve),
    /// Squads
    #[command(subcommand)]
    Squad(Squad),
    /// Text as a swimmer or a coach, from this terminal
    Chat(Chat),
    /// Sign one text and post it to a server
    Send(Send),
    /// Texts to others than the sender that are not delivered yet
    Outbox(Outbox),
    /// Print a squad's or one swimmer's history as a file that other programs read
    Export(Export),
    /// Bring a table of tests or members into a squad: whole, or not at all with every fault listed
    Import(Import),
    /// Try the rules of coaching on simulated swimmers, beside a plan that hears nothing
    Simulate(Simulate),
    /// Read the whole journal and tell what is wrong in it
    Check,
    /// Read the settings of a server, with the secrets they name, and tell all that is wrong in them
    CheckConfig(Serve),
    /// Matrix
    #[command(subcommand)]
    Matrix(Matrix),
    /// Copy the journal into a file, beside a running server too; the keys are not in it
    Backup(BackupFile),
    /// Fill an empty data folder from such a file
    Restore(BackupFile),
    /// Mend a damaged journal from what can be read of it and of backups, and say what is gone
    Repair(Repair),
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

/// What to do with squads.
#[derive(Debug, Subcommand)]
pub enum Squad {
    /// Open a squad; prints its id and the code to join by
    Add(SquadAdd),
}

/// A squad to open.
#[derive(Debug, Clone, Args)]
pub struct SquadAdd {
    /// Its name
    pub name: String,
    /// The coach's address: the number or handle that the coach texts from
    #[arg(long, value_name = "ADDRESS", value_parser = address)]
    pub coach: String,
    /// Its time zone, as in Europe/London
    #[arg(long, value_name = "ZONE", default_value = "UTC")]
    pub timezone: String,
    /// The pool it swims in
    #[arg(long, value_name = "25m|50m|25yd", default_value = "25m", value_parser = pool)]
    pub course: Course,
    /// Days after which the code no longer works; without this it always works
    #[arg(long, value_name = "DAYS", value_parser = clap::value_parser!(u32).range(1..))]
    pub expires: Option<u32>,
    /// Minors swim in it: whoever gives no birth year counts as one
    #[arg(long)]
    pub minors: bool,
    /// The welfare officer's address: told, and nobody else, when someone writes of harm or fear.
    /// With --minors nobody can join until there is one
    #[arg(long, value_name = "ADDRESS", value_parser = address)]
    pub welfare: Option<String>,
    /// Who stands in for the welfare officer
    #[arg(long, value_name = "ADDRESS", value_parser = address, requires = "welfare")]
    pub deputy: Option<String>,
    /// The helpline told to whoever writes of harm or fear
    #[arg(long, value_name = "TEXT")]
    pub helpline: Option<String>,
    /// Years for which accident and welfare records are kept [default: 7]
    #[arg(long, value_name = "YEARS", value_parser = clap::value_parser!(u16).range(1..=75))]
    pub keep_records: Option<u16>,
    /// The club has screened its members: no readiness questions after joining
    #[arg(long)]
    pub ready: bool,
}

/// Who texts from the terminal.
#[derive(Debug, Clone, Args)]
pub struct Chat {
    /// The address to text as
    #[arg(long = "as", value_name = "ADDRESS", value_parser = address)]
    pub from: String,
    /// The group chat to text in
    #[arg(long, value_name = "ROOM", value_parser = room)]
    pub room: Option<String>,
    /// What counts as now.
    #[command(flatten)]
    pub clock: Clock,
}

/// One text to send.
#[derive(Debug, Clone, Args)]
pub struct Send {
    /// The sender's address
    #[arg(long, value_name = "ADDRESS", value_parser = address)]
    pub from: String,
    /// The text; several words need no quotes
    #[arg(required = true)]
    pub text: Vec<String>,
    /// The server
    #[arg(long, env = "LAPWING_URL", default_value = "http://127.0.0.1:7373")]
    pub url: reqwest::Url,
    /// The message's id; a new one is made if none is given
    #[arg(long, value_parser = message_id)]
    pub id: Option<String>,
    /// The group chat it is said in
    #[arg(long, value_parser = room)]
    pub room: Option<String>,
    /// When it was sent, as 2026-03-02T19:05:00Z
    #[arg(long, value_name = "INSTANT")]
    pub sent_at: Option<jiff::Timestamp>,
}

/// What to do with texts that are not delivered.
#[derive(Debug, Clone, Args)]
pub struct Outbox {
    /// List whole addresses, not only their last 3 characters
    #[arg(long)]
    pub show: bool,
    /// What to do with them; they are listed if nothing is said.
    #[command(subcommand)]
    pub action: Option<OutboxAction>,
}

/// What to do with texts that are not delivered.
#[derive(Debug, Clone, Subcommand)]
pub enum OutboxAction {
    /// Try one again at once and from the beginning, or all of them
    Retry(Retry),
}

/// Which ones to try again.
#[derive(Debug, Clone, Args)]
#[group(required = true, multiple = false)]
pub struct Retry {
    /// Its number as listed, or its `webhook-id`
    pub id: Option<LetterNumber>,
    /// All of them
    #[arg(long)]
    pub all: bool,
}

/// Which file, and whose.
#[derive(Debug, Clone, Args)]
pub struct Export {
    /// members.csv, tests.csv, sets.csv, sessions.csv, attendance.csv, everything.jsonl or calendar.ics
    pub file: File,
    /// Of which squad, by its id [default: the only one]
    #[arg(long, value_name = "ID", value_parser = squad)]
    pub squad: Option<SquadId>,
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
    /// Into which squad, by its id [default: the only one]
    #[arg(long, value_name = "ID", value_parser = squad)]
    pub squad: Option<SquadId>,
}

/// What to mend a journal from.
#[derive(Debug, Clone, Args)]
pub struct Repair {
    /// Take from this backup too what the journal no longer has
    #[arg(long, value_name = "BACKUP")]
    pub from: Vec<PathBuf>,
}

/// A backup.
#[derive(Debug, Clone, Args)]
pub struct BackupFile {
    /// The backup
    pub file: PathBuf,
}

fn address(word: &str) -> Result<String, crate::http::fields::NotAField> {
    crate::http::fields::address(word).map(str::to_owned)
}

fn squad(word: &str) -> Result<SquadId, std::convert::Infallible> {
    Ok(SquadId(word.to_owned()))
}

fn name(word: &str) -> Result<Name, String> {
    Name::new(word).map_err(|unfit| unfit.to_string())
}

fn message_id(word: &str) -> Result<String, crate::http::fields::NotAField> {
    crate::http::fields::message_id(word).map(str::to_owned)
}

fn room(word: &str) -> Result<String, crate::http::fields::NotAField> {
    crate::http::fields::room_id(word).map(str::to_owned)
}

fn pool(word: &str) -> Result<Course, String> {
    match word.parse() {
        Ok(Course::OpenWater) => Err("a squad's home is a pool: 25m, 50m or 25yd".to_owned()),
        Ok(course) => Ok(course),
        Err(_) => Err("give 25m, 50m or 25yd".to_owned()),
    }
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
