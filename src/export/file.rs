//! Which files there are, and each as text.

use jiff::Timestamp;
use serde::Serialize;
use strum::{Display, EnumString, IntoStaticStr, VariantArray};

use super::{ahead, calendar, kept, rows};
use crate::history::{Squad, Swimmer};
use crate::import::{MEMBERS, TESTS};
use crate::message::Name;
use crate::units::every;

/// A file that can be taken along.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[derive(Display, EnumString, IntoStaticStr, VariantArray)]
#[strum(parse_err_ty = NoSuchFile, parse_err_fn = no_such_file)]
pub enum File {
    /// Swimmers.
    #[strum(serialize = "members.csv")]
    Members,
    /// Timed tests.
    #[strum(serialize = "tests.csv")]
    Tests,
    /// Repeat sets with their times.
    #[strum(serialize = "sets.csv")]
    Sets,
    /// Sessions swum, and training out of the water.
    #[strum(serialize = "sessions.csv")]
    Sessions,
    /// Who said they would come, and who was seen.
    #[strum(serialize = "attendance.csv")]
    Attendance,
    /// All of it, a JSON object a line.
    #[strum(serialize = "everything.jsonl")]
    Everything,
    /// The nights ahead, races and one's own sessions.
    #[strum(serialize = "calendar.ics")]
    Calendar,
}

/// Whose history it is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Whose {
    /// Every swimmer's; nothing of anybody's health.
    Squad,
    /// One swimmer's own, whole.
    One(Name),
}

/// There is no file of that name.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("no file `{0}`; there are {all}", all = File::names())]
pub struct NoSuchFile(pub String);

fn no_such_file(name: &str) -> NoSuchFile {
    NoSuchFile(name.to_owned())
}

/// A row could not be written.
#[derive(Debug, thiserror::Error)]
pub enum NotWritten {
    /// As CSV.
    #[error("a row could not be written: {0}")]
    Csv(#[from] csv::Error),
    /// As JSON.
    #[error("a line could not be written: {0}")]
    Json(#[from] serde_json::Error),
}

impl File {
    /// All of them, as they are listed.
    pub const ALL: [File; File::VARIANTS.len()] = every(File::VARIANTS);

    /// Its name, by which it is asked for.
    pub fn name(self) -> &'static str {
        self.into()
    }

    /// Its media type: RFC 4180, RFC 5545; JSON Lines has none that is registered.
    pub const fn media_type(self) -> &'static str {
        match self {
            File::Everything => "application/x-ndjson",
            File::Calendar => "text/calendar; charset=utf-8",
            _ => "text/csv; charset=utf-8; header=present",
        }
    }

    fn names() -> String {
        File::ALL.map(File::name).join(", ")
    }
}

/// The file's text, by what is known at `now`; of nobody, it is a file without rows.
///
/// # Errors
/// A row could not be written.
pub fn written(
    squad: &Squad,
    whose: &Whose,
    file: File,
    now: Timestamp,
) -> Result<String, NotWritten> {
    let is_of = |swimmer: &&Swimmer| match whose {
        Whose::Squad => true,
        Whose::One(name) => swimmer.name == *name,
    };
    let swimmers: Vec<&Swimmer> =
        squad.swimmers.values().map(AsRef::as_ref).filter(is_of).collect();
    match file {
        File::Members => csv(MEMBERS, swimmers.iter().map(|one| rows::member(one))),
        File::Tests => csv(TESTS, swimmers.iter().flat_map(|one| rows::tests(one, now))),
        File::Sets => csv(rows::SETS, swimmers.iter().flat_map(|one| rows::sets(one, now))),
        File::Sessions => {
            csv(rows::SESSIONS, swimmers.iter().flat_map(|one| rows::sessions(one, now)))
        }
        File::Attendance => {
            csv(rows::ATTENDANCE, swimmers.iter().flat_map(|one| rows::attendance(one, now)))
        }
        File::Everything => kept::lines(squad, &swimmers, whose, now),
        File::Calendar => Ok(calendar::text(&ahead::events(squad, &swimmers, whose, now), now)),
    }
}

/// A table with its header, also where it has no rows; lines end as RFC 4180 says.
fn csv<R: Serialize>(header: &[&str], rows: impl Iterator<Item = R>) -> Result<String, NotWritten> {
    let mut writer = csv::WriterBuilder::new()
        .has_headers(false)
        .terminator(csv::Terminator::CRLF)
        .from_writer(Vec::new());
    writer.write_record(header)?;
    for row in rows {
        writer.serialize(row)?;
    }
    let bytes = writer.into_inner().map_err(|failed| csv::Error::from(failed.into_error()))?;
    Ok(String::from_utf8_lossy(&bytes).into_owned())
}
