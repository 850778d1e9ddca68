//! Plans that wait for the coach's yes.

use serde::{Deserialize, Serialize};

/// What is said of plans that wait; whose stands before it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Approval {
    /// `approve plans on`, `approve plans off`
    Wanted {
        /// On.
        wanted: bool,
    },
    /// `squad waiting`: whose plans wait.
    Waiting,
    /// `approve all`
    All,
    /// `approve heron`
    Given,
    /// `approve heron no`
    SentBack,
}
