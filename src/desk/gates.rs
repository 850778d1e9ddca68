//! What keeps somebody out of the water, and what is held back because of it:
//! praise, times to hold, plans.

use jiff::{Timestamp, ToSpan};

use super::bench::{Desk, Stopped};
use super::offices::{office_letter, turned_down};
use crate::coaching;
use crate::message::{Kind, Name, Statement};
use crate::profile::{Event, QuestionKept, Right, Swimmer, TroubleKind};
use crate::reply::{Asks, KeptReply, OfficeLetter, OfficeRefusal, Out, Outcome, QuestionReply};

/// Whole days without training after a sick stomach at the least (public-health notices
/// on pools: 48 hours).
const CLEAR_DAYS_STOMACH: i64 = 2;

impl Desk<'_> {
    /// What keeps a swimmer out now.
    pub fn out(&self, swimmer: &Swimmer) -> Option<Out> {
        let now = self.now();
        if swimmer.is_stopped(now) {
            return Some(Out::Stopped);
        }
        let ill = |kind: &TroubleKind| matches!(kind, TroubleKind::Ill { .. });
        let mut open = swimmer.open_troubles(now).filter(|kept| ill(&kept.what.kind));
        if open.any(|kept| kept.what.closed.is_none()) {
            return Some(Out::Ill);
        }
        let until = swimmer.clear_until(now)?;
        Some(Out::Clearing(self.squad.local_day(until)))
    }

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
            self.tell(Right::BeWarned, &office_letter(&letter));
        }
        let out = Some(out).filter(|_| !said);
        Outcome::Kept(KeptReply { who, other, out, result: Box::new(outcome) })
    }

    /// Until when the clear days last that a swimmer's word begins now: by the open
    /// illness that wants most of them. All others end with her word.
    pub fn clear_days(&self, swimmer: &Swimmer) -> Vec<(u64, Timestamp)> {
        let ends = |days: i64| {
            let day = self.today.checked_add((days + 1).days()).ok()?;
            self.squad.zone().to_timestamp(day.at(0, 0, 0, 0)).ok()
        };
        let book = self.asked.book;
        let open = swimmer.open_troubles(self.now()).filter(|kept| kept.what.closed.is_none());
        let clear: Option<(u64, Timestamp)> = open
            .filter_map(|kept| {
                let TroubleKind::Ill { fever, stomach } = kept.what.kind else { return None };
                let days = match (fever, stomach) {
                    (false, true) => coaching::clear_days(book, false).max(CLEAR_DAYS_STOMACH),
                    (fever, _) => coaching::clear_days(book, fever),
                };
                Some((kept.cause, ends(days)?))
            })
            .max_by_key(|(_, until)| *until);
        clear.into_iter().collect()
    }

    /// Holds back whatever is to be swum while somebody's question about danger
    /// is not answered: she is asked again, and another is told why.
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

    /// True if whoever texts for a swimmer was asked whether anybody is in danger,
    /// and has not said, however long ago.
    pub fn is_asked_of_danger(&self, who: &Name) -> bool {
        let address = self.squad.address_of(who);
        address.is_some_and(|address| self.asked_of_danger(address).is_some())
    }

    /// What an address was asked of danger and has not answered.
    pub fn asked_of_danger(&self, address: &str) -> Option<&QuestionKept> {
        let member = self.squad.members.get(address)?;
        member.question.iter().chain(&member.waiting).find(|one| one.asks_of_danger())
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
