//! What is wrong in a table, and where.

use std::fmt;

use serde::{Deserialize, Serialize};

/// Something that is wrong.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub struct Fault {
    /// The line of the file, counted from 1.
    pub line: u64,
    /// The column it is in; none where it is the whole line.
    pub column: Option<String>,
    /// Why it will not do.
    pub why: String,
}

impl Fault {
    /// A fault of a whole line.
    pub fn of_line(line: u64, why: impl Into<String>) -> Fault {
        Fault { line, column: None, why: why.into() }
    }

    /// A fault in a column of a line.
    pub fn of_column(line: u64, column: &str, why: impl Into<String>) -> Fault {
        Fault { line, column: Some(column.to_owned()), why: why.into() }
    }
}

/// `line 3, time_s: "3.x" is no time`
impl fmt::Display for Fault {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(out, "line {}", self.line)?;
        if let Some(column) = &self.column {
            write!(out, ", {column}")?;
        }
        write!(out, ": {}", self.why)
    }
}
