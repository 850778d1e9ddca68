//! Plans that wait for the coach's yes.

use super::{Sessions, Words};
use crate::message::Name;
use crate::reply::{Answered, ApprovalRefusal, ApprovalReply, PlanLetter, WaitingLine};

/// What a language says of plans that wait.
pub trait Approvals: Sessions + Words {
    /// Plans wait from now on, or no longer.
    fn plans_wait(&self, wanted: bool) -> &'static str;
    /// How many wait, and what to text.
    fn how_many_wait(&self, number: usize) -> String;
    /// None waits; and whether any would.
    fn none_waits(&self, wanted: bool) -> &'static str;
    /// One that waits, in a list that says so.
    fn waiting_line(&self, who: &str, distance: &str, sessions: usize, hard: usize) -> String;
    /// Before such lines where the list is of more.
    fn waits_for_yes(&self, line: &str) -> String;
    /// Whose went out.
    fn went_out(&self, names: &str) -> String;
    /// Whose was lowered first.
    fn were_lowered(&self, names: &str) -> String;
    /// Who can't be told by text.
    fn not_told(&self, names: &str) -> String;
    /// Whose wait on, as they may not swim.
    fn wait_on(&self, names: &str) -> String;
    /// A plan was sent back.
    fn was_sent_back(&self, who: &str, told: bool) -> String;
    /// The sender's own plan waits.
    fn yours_waits(&self, planned: bool) -> &'static str;
    /// Before her plan, once it goes out.
    fn coach_says_yes(&self, lowered: bool) -> &'static str;
    /// Her plan was sent back.
    fn yours_sent_back(&self, planned: bool) -> &'static str;
    /// The yes to her plan was taken back.
    fn yours_waits_again(&self) -> &'static str;
    /// Why it was not done.
    fn approval_refusal(&self, why: &ApprovalRefusal) -> String;

    /// Whatever is said about them.
    fn approval(&self, reply: &ApprovalReply) -> Vec<String> {
        match reply {
            ApprovalReply::Wish { wanted, answered } => {
                let mut lines = vec![self.plans_wait(*wanted).to_owned()];
                lines.extend(self.answered(answered));
                lines
            }
            ApprovalReply::List { wanted, waiting } if waiting.is_empty() => {
                vec![self.none_waits(*wanted).to_owned()]
            }
            ApprovalReply::List { waiting, .. } => {
                let mut lines = vec![self.how_many_wait(waiting.len())];
                lines.extend(waiting.iter().map(|one| format!("{}.", self.waiting(one))));
                lines
            }
            ApprovalReply::Given(answered) => self.answered(answered),
            ApprovalReply::SentBack { who, told } => vec![self.was_sent_back(who.as_str(), *told)],
            ApprovalReply::Waits { planned } => vec![self.yours_waits(*planned).to_owned()],
            ApprovalReply::ToHer(PlanLetter::Given { plan, lowered }) => {
                let mut lines = vec![self.coach_says_yes(*lowered).to_owned()];
                lines.extend(self.plan(plan));
                lines
            }
            ApprovalReply::ToHer(PlanLetter::SentBack { planned }) => {
                vec![self.yours_sent_back(*planned).to_owned()]
            }
            ApprovalReply::ToHer(PlanLetter::WaitsAgain) => {
                vec![self.yours_waits_again().to_owned()]
            }
        }
    }

    /// `heron: 2400m, 3 sessions, 1 hard`
    fn waiting(&self, line: &WaitingLine) -> String {
        let distance = line.distance.to_string();
        self.waiting_line(line.who.as_str(), &distance, line.sessions, line.hard)
    }

    /// What became of those that waited, what needs looking at first.
    fn answered(&self, answered: &Answered) -> Vec<String> {
        let said = |names: &[Name], said: &dyn Fn(&str) -> String| {
            let listed: Vec<&str> = names.iter().map(Name::as_str).collect();
            (!names.is_empty()).then(|| said(&listed.join(", ")))
        };
        let lines = [
            said(&answered.stopped, &|names| self.wait_on(names)),
            said(&answered.given, &|names| self.went_out(names)),
            said(&answered.lowered, &|names| self.were_lowered(names)),
            said(&answered.untold, &|names| self.not_told(names)),
        ];
        lines.into_iter().flatten().collect()
    }
}
