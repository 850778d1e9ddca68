//! What a minor without a guardian, or anybody of a squad that is not open yet, is
//! answered in place of what they asked for.

use serde_json::Value;

use crate::desk::decision::desk::Desk;
use crate::desk::decision::refusing::{refused, unread};
use crate::desk::decision::view::View;
use crate::history::{AgeGroup, Role};
use crate::message::{Concern, Kind, Message, Reading, Statement};
use crate::reply::{CareRefusal, Outcome, RefusedWhy, Unread};

/// What a minor is answered who has no guardian here yet, or is too young to
/// text themselves, and every swimmer of a squad that is not open yet; `None` where
/// they are answered as anybody is. Words of danger and harm never come this far.
pub fn gate(
    desk: &mut Desk<'_>,
    text: &str,
    concerns: &[Concern],
) -> Option<(Vec<Value>, Outcome)> {
    let swims = desk.member().is_some_and(|member| member.role == Role::Swimmer);
    let closed = desk.squad.is_closed() && swims;
    let swimmer = match desk.minor_sender() {
        None if closed => desk.swimmer(desk.me()?)?,
        minor => minor?,
    };
    let group = desk.age_group(swimmer);
    let agreed = swimmer.guard.as_ref().is_some_and(|guard| guard.agreed.is_some());
    if agreed && group == AgeGroup::Older && !closed {
        return None;
    }
    // What is told in private has an answer of its own, and so has what we set nobody.
    let own_answer = |concern: &Concern| {
        use Concern::{Afraid, BreathHold, Clinician, Easing, Gentle, Low, MaySwim};
        matches!(concern, Afraid | BreathHold | Clinician | Easing | Gentle | Low | MaySwim)
    };
    if concerns.iter().any(own_answer) {
        return None;
    }
    let born = swimmer.born.at(desk.now()).is_some();
    let rest = desk.statements_of(text);
    let whole = match desk.parse(text) {
        Reading::Understood(Message { statements }) => statements,
        Reading::NotUnderstood { .. } | Reading::Unsure { .. } => vec![],
    };
    // Still heard: what hurts, how old they are, and that they want to leave.
    let stays = |one: &Statement| match &one.kind {
        Kind::Pain(_) | Kind::Ill { .. } | Kind::Forget | Kind::Help { .. } | Kind::Join { .. } => {
            true
        }
        Kind::Profile(change) => change.born.is_some(),
        Kind::Yes | Kind::No => desk.open_question().is_some(),
        _ => false,
    };
    let mut statements: Vec<Statement> = rest.into_iter().filter(stays).collect();
    // Nobody here is asked back: what may hurt is taken to.
    if statements.is_empty() {
        statements = desk.what_may_ail(text);
    }
    if statements.iter().any(|one| matches!(one.kind, Kind::Yes | Kind::No)) {
        return None;
    }
    if !statements.is_empty() {
        return Some(desk.apply(&Message { statements }));
    }
    if closed {
        return Some((vec![], *refused("no_officer", RefusedWhy::Care(CareRefusal::NoOfficer))));
    }
    // None of it is done, but whoever answers for them may read what it was.
    desk.read = whole;
    // Whoever may have written of something grave is not told to ask their parents.
    if agreed && desk.read.is_empty() && !is_of_training(desk, text) {
        return Some((vec![], unread(Unread::Unsaid)));
    }
    let why = match (born, agreed) {
        (false, _) => CareRefusal::AskBirthYear,
        (true, false) => CareRefusal::AskParent,
        (true, true) => CareRefusal::ParentTexts,
    };
    Some((vec![], *refused("guardian", RefusedWhy::Care(why))))
}

/// True of a text that tells what was swum or asks for figures or sessions, surely or with a
/// question, and nothing else. Who does not come may have a reason of their own.
fn is_of_training(view: &View<'_>, text: &str) -> bool {
    let swum = |one: &Statement| {
        matches!(one.kind, Kind::Test(_) | Kind::TimedTest(_) | Kind::SetResult(_) | Kind::Done(_))
    };
    let asked = |one: &Statement| {
        matches!(
            one.kind,
            Kind::Compare { .. }
                | Kind::Best
                | Kind::Trend
                | Kind::Log
                | Kind::Next(_)
                | Kind::Tonight
                | Kind::Targets { .. }
        )
    };
    let plain = |one: &Statement| swum(one) || asked(one);
    let all = |said: &Message| !said.statements.is_empty() && said.statements.iter().all(plain);
    match view.reading_of(text).into_reading() {
        Some(Reading::Understood(said)) => all(&said),
        Some(Reading::Unsure { options, .. }) => {
            !options.is_empty() && options.iter().all(|option| all(&option.message))
        }
        _ => false,
    }
}
