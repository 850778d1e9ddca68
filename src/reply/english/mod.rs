//! Lapwing in English: short, warm, exact, and in the GSM alphabet.

mod answers;
mod care;
mod people;
mod results;
mod sessions;
mod statements;
mod words;

use super::voice::Voice;
use super::*;
use crate::message::Statement;
use crate::session::Purpose;
use crate::swim::prediction::Prediction;

/// Speaks English.
pub struct English;

impl Voice for English {
    fn more_hint(&self) -> &'static str {
        "Text MORE for the rest."
    }

    fn statement(&self, statement: &Statement) -> String {
        statements::statement(statement)
    }

    fn title(&self, purpose: Purpose) -> String {
        words::purpose(purpose).to_owned()
    }

    fn cue(&self, drill: &str) -> String {
        words::cue(drill)
    }

    fn alert(&self, alert: &Alert) -> String {
        care::alert(alert)
    }

    fn caution(&self, reply: &CautionReply) -> Vec<String> {
        care::caution(reply)
    }

    fn done(&self, reply: &DoneReply) -> Vec<String> {
        results::done(reply)
    }

    fn help(&self, reply: &HelpReply) -> Vec<String> {
        answers::help(reply)
    }

    fn not_understood(&self, reply: &NotUnderstoodReply) -> Vec<String> {
        answers::not_understood(reply)
    }

    fn ok(&self, reply: &OkReply) -> Vec<String> {
        answers::ok(reply)
    }

    fn plan(&self, reply: &PlanReply) -> Vec<String> {
        sessions::plan(reply)
    }

    fn prediction(&self, reply: &PredictionReply) -> Vec<String> {
        results::prediction(reply)
    }

    fn prediction_basis(&self, prediction: &Prediction) -> String {
        results::prediction_basis(prediction)
    }

    fn question(&self, reply: &QuestionReply) -> Vec<String> {
        answers::question(reply)
    }

    fn refused(&self, reply: &RefusedReply) -> Vec<String> {
        answers::refused(reply)
    }

    fn session(&self, reply: &SessionReply) -> Vec<String> {
        sessions::session(reply)
    }

    fn set(&self, reply: &SetReply) -> Vec<String> {
        results::set(reply)
    }

    fn squad(&self, reply: &SquadReply) -> Vec<String> {
        people::squad(reply)
    }

    fn swimmer(&self, reply: &SwimmerReply) -> Vec<String> {
        people::swimmer(reply)
    }

    fn targets(&self, reply: &TargetsReply) -> Vec<String> {
        results::targets(reply)
    }

    fn test(&self, reply: &TestReply) -> Vec<String> {
        results::test(reply)
    }
}
