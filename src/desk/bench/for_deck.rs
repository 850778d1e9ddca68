//! Which words are for those on deck, of somebody who is not one of them.

use super::desk::Desk;
use crate::message::{Kind, Statement};
use crate::profile::Right;

/// Who `tell coach …` is for.
pub const COACH: &str = "coach";

/// True for words that are for those on deck, of somebody who is not one of them.
pub fn is_for_deck(desk: &Desk<'_>, statement: &Statement) -> bool {
    let to_coach = statement.who.as_ref().is_some_and(|who| who.as_str() == COACH);
    matches!(statement.kind, Kind::Tell { .. })
        && !desk.may(Right::Broadcast)
        && (to_coach || desk.confirmed)
}
