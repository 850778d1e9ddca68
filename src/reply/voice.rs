//! What every language must be able to say.

use super::english::English;
use super::phrases::{
    Answers, Belongings, Boards, Captures, Gates, Glances, Lanes, Results, Statements,
};
use super::spanish::Spanish;
use super::*;
use crate::language::Language;

/// A language's words for every reply. A reply is lines, the most important
/// first, so that what does not fit can wait; each stays in the GSM alphabet.
pub trait Voice:
    Answers + Belongings + Boards + Captures + Gates + Glances + Lanes + Results + Statements
{
    /// Words for any outcome.
    fn lines(&self, outcome: &Outcome) -> Vec<String> {
        match outcome {
            Outcome::Captured(outcomes) => self.captured(outcomes),
            Outcome::Compared(cards) => self.compared(cards),
            Outcome::Caution(reply) => self.caution(reply),
            Outcome::Done(reply) => self.done(reply),
            Outcome::Evening(reply) => self.evening(reply),
            Outcome::Help(reply) => self.help(reply),
            Outcome::Kept(reply) => self.kept(reply),
            Outcome::Lanes(reply) => self.lanes(reply),
            Outcome::Mixed(outcomes) => {
                outcomes.iter().flat_map(|outcome| self.lines(outcome)).collect()
            }
            Outcome::NotUnderstood(reply) => self.not_understood(reply),
            Outcome::Ok(reply) => self.ok(reply),
            Outcome::Plan(reply) => self.plan(reply),
            Outcome::Prediction(reply) => self.prediction(reply),
            Outcome::Question(reply) => self.question(reply),
            Outcome::Refused(reply) => self.refused(reply),
            Outcome::Session(reply) => self.session(reply),
            Outcome::Set(reply) => self.set(reply),
            Outcome::Squad(reply) => self.squad(reply),
            Outcome::Swimmer(reply) => self.swimmer(reply),
            Outcome::Targets(reply) => self.targets(reply),
            Outcome::Test(reply) => self.test(reply),
        }
    }

    /// What of an outcome may wait without a word of it where there is no room.
    fn asides(&self, outcome: &Outcome) -> Vec<String> {
        match outcome {
            Outcome::Evening(reply) => self.evening_asides(reply),
            Outcome::Lanes(reply) => self.lanes_asides(reply),
            Outcome::Ok(OkReply::TestNight(reply)) => self.test_night_asides(reply),
            Outcome::Ok(OkReply::Register(reply)) => {
                reply.lanes.iter().flat_map(|lanes| self.lanes_changed(lanes)).collect()
            }
            Outcome::Mixed(outcomes) => {
                outcomes.iter().flat_map(|outcome| self.asides(outcome)).collect()
            }
            _ => Vec::new(),
        }
    }

    /// The last line of a reply of which more waits.
    fn more_hint(&self) -> &'static str;

    /// What a room hears where the sender got the answer alone.
    fn answered_privately(&self) -> &'static str;
}

/// The voice that speaks a language.
pub fn voice(language: Language) -> &'static dyn Voice {
    match language {
        Language::English => &English,
        Language::Spanish => &Spanish,
    }
}
