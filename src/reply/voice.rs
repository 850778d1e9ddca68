//! What every language must be able to say.

use super::english::English;
use super::phrases::{Answers, People, Results, Statements};
use super::spanish::Spanish;
use super::*;
use crate::language::Language;

/// A language's words for every reply. A reply is lines, the most important
/// first, so that what does not fit can wait; each stays in the GSM alphabet.
pub trait Voice: Answers + People + Results + Statements {
    /// Words for any outcome.
    fn lines(&self, outcome: &Outcome) -> Vec<String> {
        match outcome {
            Outcome::Caution(reply) => self.caution(reply),
            Outcome::Done(reply) => self.done(reply),
            Outcome::Help(reply) => self.help(reply),
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

    /// The last line of a reply of which more waits.
    fn more_hint(&self) -> &'static str;
<<<<<<< HEAD
    /// A statement in words, for what was understood of a text.
    fn statement(&self, statement: &Statement) -> String;
    /// What a session is for, as a title.
    fn title(&self, purpose: Purpose) -> String;
    /// A drill's cue, by its id.
    fn cue(&self, drill: &str) -> String;

    /// What a coach is told unasked.
    fn alert(&self, alert: &Alert) -> String;
    /// A caution.
    fn caution(&self, reply: &CautionReply) -> Vec<String>;
    /// A session reported.
    fn done(&self, reply: &DoneReply) -> Vec<String>;
    /// Help.
    fn help(&self, reply: &HelpReply) -> Vec<String>;
    /// Something that could not be read.
    fn not_understood(&self, reply: &NotUnderstoodReply) -> Vec<String>;
    /// Something done.
    fn ok(&self, reply: &OkReply) -> Vec<String>;
    /// A week.
    fn plan(&self, reply: &PlanReply) -> Vec<String>;
    /// A predicted time.
    fn prediction(&self, reply: &PredictionReply) -> Vec<String>;
    /// What a prediction rests on.
    fn prediction_basis(&self, prediction: &Prediction) -> String;
    /// A question.
    fn question(&self, reply: &QuestionReply) -> Vec<String>;
    /// Something not done.
    fn refused(&self, reply: &RefusedReply) -> Vec<String>;
    /// A session.
    fn session(&self, reply: &SessionReply) -> Vec<String>;
    /// A set reported.
    fn set(&self, reply: &SetReply) -> Vec<String>;
    /// The squad.
    fn squad(&self, reply: &SquadReply) -> Vec<String>;
    /// One swimmer.
    fn swimmer(&self, reply: &SwimmerReply) -> Vec<String>;
    /// Times to hold.
    fn targets(&self, reply: &TargetsReply) -> Vec<String>;
    /// A test.
    fn test(&self, reply: &TestReply) -> Vec<String>;
=======
>>>>>>> a94cb9b (Speak Spanish, and tell every language's replies in one order)
}

/// The voice that speaks a language.
pub fn voice(language: Language) -> &'static dyn Voice {
    match language {
        Language::English => &English,
        Language::Spanish => &Spanish,
    }
}
