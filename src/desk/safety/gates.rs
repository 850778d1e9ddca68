//! What is held back while somebody is out of the water or may be in danger: praise,
//! times to hold, plans.

use crate::desk::decision::desk::Desk;
use crate::desk::decision::refusing::{Stopped, turned_down};
use crate::history::{Event, Right};
use crate::message::{Kind, Statement};
use crate::reply::{Asks, KeptReply, OfficeLetter, OfficeRefusal, Out, Outcome, QuestionReply};

impl Desk<'_> {
    /// A result of someone who is out is kept and no more: the stop comes first,
    /// and the coach is told.
    pub fn kept_while_out(&mut self, outcome: Outcome, other: bool) -> Outcome {
        let (who, repeat) = match &outcome {
            Outcome::Test(test) => (test.swimmer.clone(), test.repeat),
            Outcome::Set(set) => (set.swimmer.clone(), set.repeat),
            Outcome::Done(done) => (done.swimmer.clone(), done.repeat),
            _ => return outcome,
        };
        let out = self.swimmer(&who).and_then(|swimmer| self.out(swimmer));
        let Some(out) = out.filter(|_| !repeat) else { return outcome };
        // Whoever says in the same text what is wrong is answered to that.
        let said = self
            .events
            .iter()
            .any(|event| matches!(event, Event::TroubleOpened { who: whose, .. } if *whose == who));
        if !said {
            let stopped = out == Out::Stopped;
            let letter = OfficeLetter::ResultWhileOut { who: who.clone(), stopped };
            self.tell(Right::BeWarned, |voice| voice.office_letter(&letter));
        }
        let out = Some(out).filter(|_| !said);
        Outcome::Kept(KeptReply { who, other, out, result: Box::new(outcome) })
    }

    /// Holds back whatever is to be swum while somebody's question about danger
    /// is not answered: they are asked again, and another is told why.
    pub fn danger_first(&mut self, statement: &Statement) -> Result<(), Stopped> {
        if !sets_something(&statement.kind) {
            return Ok(());
        }
        let who = statement.who.clone().or_else(|| self.me().cloned());
        let Some(who) = who else { return Ok(()) };
        if !self.is_asked_of_danger(&who) {
            return Ok(());
        }
        let own = statement.who.is_none() || self.is_mine(&who);
        if own && let Some(again) = self.ask_of_danger_again() {
            return Err(Box::new(again));
        }
        let why = OfficeRefusal::DangerUnanswered { who };
        Err(turned_down("danger_unanswered", why))
    }

    fn ask_of_danger_again(&mut self) -> Option<Outcome> {
        let asked = self.asked_of_danger(self.asked.from)?.clone();
        let reply = QuestionReply {
            asks: Asks::AnyDanger,
            options: asked.choices.iter().map(|choice| choice.word.clone()).collect(),
            until: self.question_until(),
        };
        self.ask(&reply, asked.choices);
        Some(Outcome::Question(reply))
    }
}

/// True for what answers with something to swim.
fn sets_something(kind: &Kind) -> bool {
    matches!(
        kind,
        Kind::Plan(_)
            | Kind::Next(_)
            | Kind::Tonight
            | Kind::Shorter
            | Kind::Easier
            | Kind::Harder
            | Kind::Again
            | Kind::Targets { .. }
            | Kind::Swap { .. }
    )
}
