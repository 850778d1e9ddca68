//! Which words are for those on deck, of somebody who is not one of them.

use super::view::View;
use crate::history::Right;
use crate::message::{Kind, Statement};

/// Who `tell coach …` is for.
pub const COACH: &str = "coach";

/// True for words that are for those on deck, of somebody who is not one of them.
pub fn is_for_deck(view: &View<'_>, statement: &Statement) -> bool {
    let to_coach = statement.who.as_ref().is_some_and(|who| who.as_str() == COACH);
    matches!(statement.kind, Kind::Tell { .. })
        && !view.may(Right::Broadcast)
        && (to_coach || view.confirmed)
}
