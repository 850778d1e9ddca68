//! Pages of the squad that are open, and to whom.
//!
//! Knows of a page's token its digest alone, and nothing of what the page shows.

use jiff::Timestamp;
use serde::{Deserialize, Serialize};

use super::{Squad, Touched};
use crate::language::Language;
use crate::message::Name;

/// How many of one address are open at a time: a telephone, a tablet, and two
/// that were mislaid (ours).
const OPEN_AT_ONCE: usize = 4;

/// A page that is open to one address.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct BoardOpen {
    /// Whose it is.
    pub address: String,
    /// Whose own it is; none for the squad's.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub of: Option<Name>,
    /// The digest of its token.
    pub token: String,
    /// What counted as now when it was asked for.
    pub opened: Timestamp,
    /// By the wall clock it is shut after this.
    pub until: Timestamp,
    /// The language it was asked for in.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub language: Option<Language>,
}

impl Squad {
    /// The page that this digest opens at `wall`, by the wall clock.
    pub fn board_open(&self, token: &str, wall: Timestamp) -> Option<&BoardOpen> {
        self.boards.iter().find(|open| open.token == token && wall < open.until)
    }

    pub(super) fn open_board(&mut self, open: BoardOpen) -> Touched {
        let theirs = |one: &BoardOpen| one.address == open.address;
        while self.boards.iter().filter(|one| theirs(one)).count() >= OPEN_AT_ONCE {
            let Some(oldest) = self.boards.iter().position(theirs) else { break };
            self.boards.remove(oldest);
        }
        self.boards.push(open);
        Touched::Head
    }

    /// Shuts what is open to an address.
    pub(super) fn shut_boards(&mut self, address: &str) {
        self.boards.retain(|open| open.address != address);
    }
}
