//! The end of a message: the outcome worded, cut, and handed over.

use serde_json::Value;

use super::bench::Desk;
use super::{Decision, Say};
use crate::profile::Event;
use crate::reply::{self, CautionKind, OkReply, Outcome};

impl<'a> Desk<'a> {
    /// Words the outcome, keeps what does not fit for `more`, and hands all
    /// over.
    pub fn close(mut self, understood: Vec<Value>, outcome: Outcome) -> Decision {
        let voice = self.voice();
        let lines = match &outcome {
            Outcome::Mixed(outcomes) => {
                // What to do first comes first, whatever the order typed.
                let mut ordered = outcomes.clone();
                ordered.sort_by_key(|one| (!is_caution(one), !is_danger(one)));
                voice.lines(&Outcome::Mixed(ordered))
            }
            one => voice.lines(one),
        };
        let fitted = reply::fit(lines, PARTS, voice.more_hint());
        let waiting = self.member().is_some_and(|member| !member.more.is_empty());
        if !fitted.rest.is_empty() || waiting {
            let address = self.asked.from.to_owned();
            self.record(Event::MoreKept { address, lines: fitted.rest });
        }
        let mut said = std::mem::take(&mut self.to_others);
        // Whoever opted out is still heard, and told nothing but what she must
        // know: danger, how to come back, help.
        let quiet = self.is_opted_out() && !must_be_said(&outcome);
        if !fitted.text.is_empty() && !quiet {
            said.insert(0, Say { to: None, text: fitted.text });
        }
        Decision {
            result: reply::result(&outcome, voice),
            private: self.private,
            events: self.events,
            said,
            understood,
            outcome,
            squad: self.squad,
            touched: self.touched,
        }
    }
}

/// How many SMS parts a reply may have.
const PARTS: usize = 2;

fn is_danger(outcome: &Outcome) -> bool {
    use CautionKind::{Beside, Danger, Dizzy, HeadKnock};
    let Outcome::Caution(reply) = outcome else { return false };
    matches!(reply.kind, Danger | Beside { .. } | Dizzy | HeadKnock)
}

/// What even someone who opted out is told.
fn must_be_said(outcome: &Outcome) -> bool {
    match outcome {
        Outcome::Mixed(outcomes) => outcomes.iter().any(must_be_said),
        Outcome::Ok(OkReply::OptedOut | OkReply::OptedIn) | Outcome::Help(_) => true,
        outcome => is_caution(outcome),
    }
}

fn is_caution(outcome: &Outcome) -> bool {
    matches!(outcome, Outcome::Caution(reply) if reply.kind != CautionKind::Effort)
}
