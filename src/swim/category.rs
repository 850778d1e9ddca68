//! The two categories that races and their tables are kept in.

use serde::{Deserialize, Serialize};

/// A category of competition; needed only where a published table has one
/// column for each.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Category {
    /// Women's events.
    Women,
    /// Men's events.
    Men,
}
