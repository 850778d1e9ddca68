//! Whom a question is about, and what is known as an answer.

use crate::desk::decision::view::View;
use crate::history::Right;
use crate::message::Statement;
use crate::reply::{Known, OkReply, Outcome};

/// True where one swimmer is asked about: the one named, or the sender. Who runs the
/// evening and swims in no lane asks about all.
pub fn is_of_one(view: &View<'_>, statement: &Statement) -> bool {
    statement.who.is_some() || view.me().is_some() || !view.may(Right::SeeSquad)
}

/// What is known, as the answer.
pub fn known(known: Known) -> Outcome {
    Outcome::Ok(OkReply::Known(known))
}
