//! Whom a statement names in a list.

use super::{Kind, Name};

/// The list of names that a statement holds, borrowed as the statement is.
macro_rules! listed {
    ($kind:expr, $none:expr) => {
        match $kind {
            Kind::Here { names, .. }
            | Kind::Absent { names, .. }
            | Kind::Apart { names, .. }
            | Kind::Compare { names } => names,
            Kind::SwapResults { names, .. } => names,
            _ => $none,
        }
    };
}

impl Kind {
    /// Every swimmer in a list of names.
    pub fn names(&self) -> &[Name] {
        listed!(self, &[])
    }

    /// Every swimmer in a list of names, to be put right.
    pub fn names_mut(&mut self) -> &mut [Name] {
        listed!(self, &mut [])
    }
}
