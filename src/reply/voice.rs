//! Who speaks: one language, with words for every reply.

use super::*;
use crate::language::Language;

/// Speaks a language. A reply is lines, the most important first, so that what does
/// not fit can wait; each stays in the GSM alphabet.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Voice {
    pub(super) language: Language,
}

/// The voice that speaks a language.
pub const fn voice(language: Language) -> Voice {
    Voice { language }
}

impl Voice {
    /// Words for any outcome.
    pub fn lines(self, outcome: &Outcome) -> Vec<String> {
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
    pub fn asides(self, outcome: &Outcome) -> Vec<String> {
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
    pub const fn more_hint(self) -> &'static str {
        match self.language {
            Language::English => "Text MORE for the rest.",
            Language::Spanish => "Escribe SIGUE para el resto.",
        }
    }

    /// What a room hears where the sender got the answer alone.
    pub const fn answered_privately(self) -> &'static str {
        match self.language {
            Language::English => "Answered privately.",
            Language::Spanish => "Contestado en privado.",
        }
    }
}
