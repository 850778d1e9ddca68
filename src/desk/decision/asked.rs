//! What the desk is asked: a text, who sent it, and the instants that count.

use std::fmt;

use jiff::Timestamp;

use crate::coaching::Rulebook;
use crate::digest;
use crate::history::StrangersAsked;

/// A text, who sent it, and the instants that count.
#[derive(Debug, Clone, Copy)]
pub struct Asked<'a> {
    /// The sender's address.
    pub from: &'a str,
    /// The group chat it was said in, if any.
    pub room: Option<&'a str>,
    /// What was said.
    pub text: &'a str,
    /// What counts as now for all that it causes.
    pub now: Timestamp,
    /// The rules of coaching with the numbers in force.
    pub book: &'a Rulebook,
    /// The wall clock: what an open question expires by.
    pub wall: Timestamp,
    /// Where the squad's page can be seen, where there is a server for it.
    pub board: Option<&'a BoardDoor>,
    /// The squads that the sender is in, by name.
    pub squads: &'a [String],
    /// The text began with this squad's name, which is cut off.
    pub takes: bool,
    /// The sender wants no texts, whichever squad that was said to.
    pub opted_out: bool,
    /// The strangers whom squads wrote to unasked, so that none is written to too often.
    pub strangers_asked: &'a StrangersAsked,
    /// The place in the log of the message by which the sender raised an alarm, where it has
    /// reached nobody yet and no answer has told them so.
    pub unheard: Option<u64>,
    /// Letters go out: without that nobody can be called.
    pub calls: bool,
}

impl<'a> Asked<'a> {
    /// A text sent in private by somebody who is in no other squad and waits for
    /// nothing; set the fields that differ.
    pub const fn alone(
        from: &'a str,
        text: &'a str,
        now: Timestamp,
        book: &'a Rulebook,
        strangers_asked: &'a StrangersAsked,
    ) -> Asked<'a> {
        Asked {
            from,
            room: None,
            text,
            now,
            book,
            wall: now,
            board: None,
            squads: &[],
            takes: false,
            opted_out: false,
            strangers_asked,
            unheard: None,
            calls: true,
        }
    }
}

/// The address of the page that this message may open.
///
/// The token is handed in, as the instant is: the core draws nothing at random.
pub struct BoardDoor {
    /// How addresses of our server begin, without a slash at the end.
    pub base: String,
    /// What nobody can guess, made for this message.
    pub token: String,
}

impl BoardDoor {
    /// What is kept of a token.
    pub fn digest(token: &str) -> String {
        digest::hex(&digest::of(["board", token]))
    }
}

/// Whoever has the token has the page.
impl fmt::Debug for BoardDoor {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.debug_struct("BoardDoor").field("base", &self.base).finish_non_exhaustive()
    }
}
