//! Questions in the sender's own words: answered from what is known; what isn't
//! is told by its name, or offered to be passed on.
//!
//! Whoever asks is told no more than the command for it would show.

mod about;
pub mod evening;
mod general;
pub mod help;
pub mod results;
pub mod swimmer;

use self::about::is_of_one;
use super::squad::passing_on;
use crate::desk::decision::desk::Desk;
use crate::desk::decision::refusing::Stopped;
use crate::message::{About, Ask, Statement};
use crate::reply::Outcome;

/// A question: answered from what is known, or told that it isn't.
pub fn ask(desk: &mut Desk<'_>, statement: &Statement, ask: &Ask) -> Result<Outcome, Stopped> {
    match &ask.about {
        About::NextTest => swimmer::next_test(desk, statement),
        About::Swum { since, until } if is_of_one(desk, statement) => {
            match swimmer::swum(desk, statement, *since, *until)? {
                Some(swum) => Ok(swum),
                None => passing_on::offer(desk, statement, &ask.text),
            }
        }
        About::Lane { lane } => evening::lane(desk, statement, *lane),
        About::Evening { on } => evening::when(desk, *on),
        About::Turnout { on, absent } => evening::turnout(desk, *on, *absent),
        About::Standing { lane } => evening::standing(desk, statement, *lane),
        About::Results { on, .. } => results::results(desk, statement, *on),
        About::SetOf { on } => evening::set_of(desk, statement, *on),
        About::Parts(question) => match general::answer(desk, statement, question)? {
            Some(answer) => Ok(answer),
            None => passing_on::offer(desk, statement, &ask.text),
        },
        About::Swum { .. } | About::Stored | About::Us | About::Other => {
            passing_on::offer(desk, statement, &ask.text)
        }
    }
}
