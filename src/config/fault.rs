//! What is wrong with the settings.

use std::fmt;
use std::path::{Path, PathBuf};

/// One thing that is wrong.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fault {
    /// The file's line, from 1, where the fault is in one.
    pub line: Option<usize>,
    /// Where to mend it.
    pub place: Place,
    /// What is wrong, without any secret.
    pub what: String,
}

/// Where a fault is to be mended.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Place {
    /// In the file: no command of ours runs with it.
    File,
    /// In the environment, which only a server needs.
    Environment,
}

/// All that is wrong, in the order of the lines.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Faults {
    file: Option<PathBuf>,
    faults: Vec<Fault>,
}

impl Faults {
    /// Faults of this file.
    pub(super) fn of(file: &Path, mut faults: Vec<Fault>) -> Faults {
        faults.sort_by_key(|fault| fault.line);
        Faults { file: Some(file.to_owned()), faults }
    }

    /// Adds a fault that is in no file: in a flag, or in the environment.
    pub fn add(&mut self, place: Place, what: impl fmt::Display) {
        self.faults.push(Fault { line: None, place, what: what.to_string() });
    }

    /// Passes where nothing is wrong.
    ///
    /// # Errors
    /// The faults.
    pub fn none(self) -> Result<(), Faults> {
        if self.faults.is_empty() { Ok(()) } else { Err(self) }
    }

    /// Those to be mended at this place.
    pub fn only(mut self, place: Place) -> Faults {
        self.faults.retain(|fault| fault.place == place);
        self
    }

    /// The faults one by one.
    pub fn iter(&self) -> std::slice::Iter<'_, Fault> {
        self.faults.iter()
    }
}

impl fmt::Display for Faults {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (at, fault) in self.faults.iter().enumerate() {
            if at > 0 {
                writeln!(out)?;
            }
            match (&self.file, fault.line) {
                (Some(file), Some(line)) => write!(out, "{}, line {line}: ", file.display())?,
                (Some(file), None) if fault.place == Place::File => {
                    write!(out, "{}: ", file.display())?;
                }
                _ => {}
            }
            out.write_str(&fault.what)?;
        }
        Ok(())
    }
}

impl std::error::Error for Faults {}
