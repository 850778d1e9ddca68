//! Questions in the sender's own words.

use super::bench::{Desk, Stopped};
use crate::message::{Ask, Statement};
use crate::reply::{OkReply, Outcome};

/// A question: answered from what is known, or told that it isn't.
pub fn ask(desk: &mut Desk<'_>, statement: &Statement, ask: &Ask) -> Result<Outcome, Stopped> {
    let _ = (statement, ask);
    let _ = desk;
    Ok(Outcome::Ok(OkReply::NotKnown))
}
