//! What is told of who belongs and of offices, as outcomes.

use crate::reply::{Belonging, OfficeDone, OkReply, Outcome};

/// What was done about an office.
pub fn office_done(what: OfficeDone) -> Outcome {
    Outcome::Ok(OkReply::Office(what))
}

/// What was done about who belongs here.
pub fn belongs(what: Belonging) -> Outcome {
    Outcome::Ok(OkReply::Belonging(what))
}
