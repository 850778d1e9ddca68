//! Whom a statement names in a list.

use super::{Kind, Name};

impl Kind {
    /// Every swimmer in a list of names.
    pub fn names(&self) -> &[Name] {
        match self {
            Kind::Here { names, .. }
            | Kind::Absent { names, .. }
            | Kind::Apart { names, .. }
            | Kind::Compare { names } => names,
            Kind::SwapResults { names, .. } => names,
            _ => &[],
        }
    }

    /// Every swimmer in a list of names, to be put right.
    pub fn names_mut(&mut self) -> &mut [Name] {
        match self {
            Kind::Here { names, .. }
            | Kind::Absent { names, .. }
            | Kind::Apart { names, .. }
            | Kind::Compare { names } => names,
            Kind::SwapResults { names, .. } => names,
            _ => &mut [],
        }
    }
}
