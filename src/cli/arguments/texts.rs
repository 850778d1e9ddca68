//! The commands that bring texts, show how they are read, or look after those that
//! go out.

use clap::{Args, Subcommand};

use super::Clock;
use super::squads::{Listing, Which};
use super::words::{address, message_id, room};
use crate::service::LetterNumber;

/// Who texts from the terminal.
#[derive(Debug, Clone, Args)]
pub struct Chat {
    /// The address to text as
    #[arg(long = "as", value_name = "ADDRESS", value_parser = address)]
    pub from: String,
    /// The group chat to text in
    #[arg(long, value_name = "ROOM", value_parser = room)]
    pub room: Option<String>,
    /// Show how each text is read, before its answer
    #[arg(long)]
    pub reading: bool,
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

/// One text to show the reading of.
#[derive(Debug, Clone, Args)]
pub struct ReadText {
    /// The text; several words need no quotes
    #[arg(required = true)]
    pub text: Vec<String>,
    /// Read it as this person's, with all that is known when they text: a name or an address of the
    /// squad. Without this it is read as that of a swimmer, heron, of whom nothing is known, and no data are needed
    #[arg(long = "as", value_name = "NAME")]
    pub from: Option<String>,
    /// Which squad.
    #[command(flatten)]
    pub which: Which,
    /// How it is printed.
    #[command(flatten)]
    pub listing: Listing,
}

/// What to do with texts that are not delivered.
#[derive(Debug, Clone, Args)]
pub struct Outbox {
    /// List whole addresses, not only their last 3 characters
    #[arg(long)]
    pub show: bool,
    /// How they are printed.
    #[command(flatten)]
    pub listing: Listing,
    /// What to do with them; they are listed if nothing is said.
    #[command(subcommand)]
    pub action: Option<OutboxAction>,
}

/// What to do with texts that are not delivered.
#[derive(Debug, Clone, Subcommand)]
pub enum OutboxAction {
    /// Show one whole: its words, to whom, and what became of each try
    Show(OutboxShow),
    /// Try one again at once and from the beginning, or all of them
    Retry(Retry),
}

/// Which one to show.
#[derive(Debug, Clone, Copy, Args)]
pub struct OutboxShow {
    /// Its number as listed, or its `webhook-id`
    pub id: LetterNumber,
    /// How it is printed.
    #[command(flatten)]
    pub listing: Listing,
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
