//! `lapwing squad` and what follows it.

use clap::{Args, Subcommand};

use super::words::{address, pool, squad};
use crate::history::SquadId;
use crate::units::Course;

/// What to do with squads.
#[derive(Debug, Subcommand)]
pub enum Squad {
    /// Open a squad; prints its id and the code to join by
    Add(SquadAdd),
    /// List the squads, with their codes and how many are in each
    List(Listing),
    /// Print the code that a squad is joined by
    Code(SquadCode),
    /// Give a squad another name
    Rename(SquadRename),
    /// List who holds an office in a squad, or take one from somebody
    Staff(SquadStaff),
    /// Close a squad for good: everybody leaves it, nothing joins or opens it any more
    Remove(SquadRemove),
}

/// How a list is printed.
#[derive(Debug, Clone, Copy, Default, Args)]
pub struct Listing {
    /// As JSON, for other programs
    #[arg(long)]
    pub json: bool,
}

/// Which squad is meant.
#[derive(Debug, Clone, Args)]
pub struct Which {
    /// Of which squad, by its id or its name [default: the only one]
    #[arg(long, value_name = "SQUAD", value_parser = squad)]
    pub squad: Option<SquadId>,
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

/// A squad's code.
#[derive(Debug, Clone, Args)]
pub struct SquadCode {
    /// Which squad.
    #[command(flatten)]
    pub which: Which,
    /// Make another one; the old one no longer works
    #[arg(long)]
    pub renew: bool,
}

/// A squad's new name.
#[derive(Debug, Clone, Args)]
pub struct SquadRename {
    /// Its new name
    pub name: String,
    /// Which squad.
    #[command(flatten)]
    pub which: Which,
}

/// Who holds an office.
#[derive(Debug, Clone, Args)]
#[command(args_conflicts_with_subcommands = true)]
pub struct SquadStaff {
    /// Which squad.
    #[command(flatten)]
    pub which: Which,
    /// How it is printed.
    #[command(flatten)]
    pub listing: Listing,
    /// What to do; they are listed if nothing is said.
    #[command(subcommand)]
    pub action: Option<StaffAction>,
}

/// What to do with those who hold an office.
#[derive(Debug, Clone, Subcommand)]
pub enum StaffAction {
    /// Take the office from somebody, and with it all that they may see
    Remove(StaffRemove),
}

/// Whose office ends.
#[derive(Debug, Clone, Args)]
pub struct StaffRemove {
    /// Where they text from
    #[arg(value_parser = address)]
    pub address: String,
    /// Which squad.
    #[command(flatten)]
    pub which: Which,
}

/// A squad to close.
#[derive(Debug, Clone, Args)]
pub struct SquadRemove {
    /// Which squad, by its id or its name
    #[arg(value_parser = squad)]
    pub squad: SquadId,
    /// Say that it is meant: this can't be taken back
    #[arg(long)]
    pub yes: bool,
    /// Erase every swimmer's history too, as if each had texted `forget me`; records of accidents
    /// and welfare stay
    #[arg(long)]
    pub erase: bool,
}
