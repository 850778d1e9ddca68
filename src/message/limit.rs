//! What is said of limits: what somebody can't or may not do, and of whom.

use serde::{Deserialize, Serialize};

use crate::session::Limit;
use crate::units::Equipment;

/// What is said of limits.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Limits {
    /// `no paddles`, `all no paddles`
    Barred {
        /// What.
        what: Vec<Limit>,
        /// For the whole squad.
        all: bool,
    },
    /// `paddles ok`, `all paddles ok`
    Allowed {
        /// What.
        what: Vec<Limit>,
        /// For the whole squad.
        all: bool,
    },
    /// `lost my snorkel`, `got fins now`, `a buoy and a board but no fins`: beside
    /// what there was.
    KitChanged {
        /// What is there now.
        have: Vec<Equipment>,
        /// What is not to hand.
        lack: Vec<Equipment>,
    },
    /// `kit fins board`: all the kit there is.
    Kit {
        /// Which.
        kit: Vec<Equipment>,
    },
}
