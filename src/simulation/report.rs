//! What a virtual swimmer texts: dated, and in the words of the trade.

use std::fmt;

use jiff::civil::Date;

use crate::session::Repeat;
use crate::units::{Centis, Distance, Rpe};

/// A text on its day.
#[derive(Debug, Clone, PartialEq)]
pub struct Dated {
    /// The day.
    pub on: Date,
    /// What it says.
    pub report: Report,
}

/// What a swimmer reports.
#[derive(Debug, Clone, PartialEq)]
pub enum Report {
    /// A test swum.
    Test {
        /// How far.
        distance: Distance,
        /// How long it took.
        time: Centis,
    },
    /// A set with its times.
    Set {
        /// The set as swum.
        set: Repeat,
        /// A time a repeat, none for a missed one.
        times: Vec<Option<Centis>>,
    },
    /// A session done.
    Done {
        /// How far.
        distance: Distance,
        /// How long, in minutes.
        minutes: u16,
        /// How hard it felt.
        rpe: Rpe,
    },
    /// A session missed.
    Missed,
    /// Ill.
    Ill {
        /// With fever.
        fever: bool,
    },
    /// Well again.
    Better,
    /// Pain.
    Pain {
        /// Where.
        place: &'static str,
        /// 0 to 10.
        level: u8,
    },
}

impl fmt::Display for Report {
    /// The text, as it would be sent.
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Report::Test { distance, time } => {
                write!(out, "{} test {}", distance.amount(), time.short())
            }
            Report::Set { set, times } => {
                write!(out, "{}x{}", set.count, set.distance.amount())?;
                if let Some(on) = set.send_off {
                    write!(out, " on {}", on.time().short())?;
                }
                write!(out, " held")?;
                for time in times {
                    match time {
                        Some(time) => write!(out, " {}", time.short())?,
                        None => write!(out, " x")?,
                    }
                }
                Ok(())
            }
            Report::Done { distance, minutes, rpe } => {
                write!(out, "done {} {}min rpe {}", distance.amount(), minutes, rpe.value())
            }
            Report::Missed => write!(out, "missed"),
            Report::Ill { fever: true } => write!(out, "ill fever"),
            Report::Ill { fever: false } => write!(out, "ill"),
            Report::Better => write!(out, "better"),
            Report::Pain { place, level } => write!(out, "pain {place} {level}"),
        }
    }
}
