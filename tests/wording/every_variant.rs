//! No variant goes unread: a new one fails here until there is a sample of it, and so
//! does each case that is worded by itself.

use lapwing::coaching::{Realism, RefusalReason};
use lapwing::reply::*;
use lapwing::swim::critical_speed::Basis;
use strum::VariantNames;

use super::statements::kinds;
use super::{answers, care, offices, parts, questions, samples};

/// Asserts that the values hold each of their type's variants.
fn holds_every<'a, T>(values: impl IntoIterator<Item = &'a T>)
where
    T: VariantNames + 'a,
    &'static str: From<&'a T>,
{
    let seen: Vec<&str> = values.into_iter().map(Into::into).collect();
    let left: Vec<_> = T::VARIANTS.iter().filter(|one| !seen.contains(*one)).collect();
    assert!(left.is_empty(), "no sample of {left:?}");
}

/// Asserts that a value is of each case.
macro_rules! holds_cases {
    ($values:expr, $($case:pat),+ $(,)?) => {{
        let values: Vec<_> = $values.into_iter().collect();
        $(assert!(
            values.iter().any(|value| matches!(value, $case)),
            "no sample of {}", stringify!($case)
        );)+
    }};
}

#[test]
fn outcomes() {
    holds_every(&samples::outcomes().into_iter().map(|(_, outcome)| outcome).collect::<Vec<_>>());
}

#[test]
fn acknowledgements() {
    use OkReply as O;
    holds_every(&samples::oks());
    holds_cases!(
        samples::oks(),
        O::Joined { ask_readiness: true, questions: true, .. },
        O::Joined { ask_readiness: true, questions: false, .. },
        O::Joined { ask_readiness: false, .. },
        O::Away { from: None, .. },
        O::Away { from: Some(_), .. },
        O::Remarked { of: None, .. },
        O::Remarked { of: Some(_), .. },
        O::Able { of: None, .. },
        O::Able { of: Some(_), .. },
        O::Tired { of: None },
        O::Tired { of: Some(_) },
        O::Better { from: Some(_) },
        O::Better { from: None },
        O::Pinned { lane: Some(_), .. },
        O::Pinned { lane: None, .. },
        O::Parted { apart: true, .. },
        O::Parted { apart: false, .. },
        O::NamesInRooms { shown: true },
        O::NamesInRooms { shown: false },
        O::Released { on_word: true, .. },
        O::Released { on_word: false, .. },
        O::ReadinessAnswered { clear: true },
        O::ReadinessAnswered { clear: false },
    );
    holds_every(&samples::withdrawn());
    holds_every(&samples::settings());
}

#[test]
fn answers_to_questions() {
    use Known as K;
    let all = questions::known();
    holds_every(&all);
    let told = answers::answers();
    holds_every(&told);
    let came: Vec<Coming> = told
        .iter()
        .filter_map(|one| match one {
            Answer::Came { what, .. } => Some(*what),
            _ => None,
        })
        .collect();
    holds_every(&came);
    let not = all.iter().filter_map(|known| match known {
        K::Not(unknown) => Some(unknown),
        _ => None,
    });
    holds_every(not);
    let due = all.iter().filter_map(|known| match known {
        K::NextTest { due, .. } => Some(due),
        _ => None,
    });
    holds_every(due.clone());
    holds_cases!(
        due,
        TestDue::From { now: true, .. },
        TestDue::From { now: false, distance: None, .. },
        TestDue::From { now: false, distance: Some(_), .. },
    );
    holds_cases!(
        all,
        K::NextTest { who: None, .. },
        K::NextTest { who: Some(_), .. },
        K::Evening { next: None, of_day: false, .. },
        K::Evening { next: None, of_day: true, .. },
        K::Evening { next: Some(_), .. },
        K::Not(Unknown::Results { on: None }),
        K::Not(Unknown::Results { on: Some(_) }),
        K::Not(Unknown::Night { on: None, .. }),
        K::Not(Unknown::Night { on: Some(_), .. }),
    );
}

#[test]
fn cautions() {
    use CautionKind as C;
    let all = samples::cautions();
    holds_every(all.iter().map(|caution| &caution.kind));
    holds_cases!(
        all,
        CautionReply { kind: C::Danger { call: None, .. }, about: None },
        CautionReply { kind: C::Danger { call: None, .. }, about: Some(_) },
        CautionReply { kind: C::Danger { call: Some(_), .. }, about: None },
        CautionReply { kind: C::Danger { call: Some(_), .. }, about: Some(_) },
        CautionReply { kind: C::Low { helpline: None, .. }, .. },
        CautionReply { kind: C::Low { helpline: Some(_), .. }, .. },
        CautionReply { kind: C::MaySwim { worries: true }, .. },
        CautionReply { kind: C::MaySwim { worries: false }, .. },
        CautionReply { kind: C::Beside { unnamed: true, .. }, .. },
        CautionReply { kind: C::Beside { unnamed: false, .. }, .. },
        CautionReply { kind: C::Stopped, about: None },
        CautionReply { kind: C::Stopped, about: Some(_) },
        CautionReply { kind: C::Pain { level: Some(0..=2), again: false, .. }, .. },
        CautionReply { kind: C::Pain { level: None | Some(3..=5), again: false, .. }, .. },
        CautionReply { kind: C::Pain { level: Some(6..), again: false, .. }, .. },
        CautionReply { kind: C::Pain { again: true, .. }, .. },
        CautionReply { kind: C::Ill { stomach: true, .. }, .. },
        CautionReply { kind: C::Ill { fever: true, .. }, .. },
        CautionReply { kind: C::Ill { stomach: false, fever: false, .. }, .. },
        CautionReply { kind: C::Welfare { officer: true, .. }, .. },
        CautionReply { kind: C::Welfare { officer: false, .. }, .. },
    );
}

#[test]
fn questions_and_refusals() {
    let asked = samples::questions();
    holds_every(asked.iter().map(|question| &question.asks));
    holds_cases!(
        asked.iter().map(|question| &question.asks),
        Asks::NoTexts { away_until: None },
        Asks::NoTexts { away_until: Some(_) },
    );
    holds_every(&samples::doubts());
    let refusals = samples::refusals();
    holds_every(refusals.iter().map(|refused| &refused.why));
    holds_cases!(
        refusals.iter().map(|refused| &refused.why),
        RefusedWhy::NightShut { next: None, .. },
        RefusedWhy::NightShut { next: Some(_), .. },
    );
    let coaching = refusals.iter().filter_map(|refused| match &refused.why {
        RefusedWhy::Coaching(reason) => Some(reason),
        _ => None,
    });
    holds_every::<RefusalReason>(coaching);
    let unread = samples::unread();
    holds_every(unread.iter().map(|reply| &reply.rest));
    holds_cases!(
        unread.iter().map(|reply| (&reply.rest, reply.understood.is_empty())),
        (Unread::Prose { call: None, .. }, _),
        (Unread::Prose { call: Some(_), .. }, _),
        (Unread::Words(_), true),
        (Unread::Words(_), false),
    );
}

#[test]
fn help() {
    let why = samples::why();
    holds_every(samples::helps().iter().chain([&why]).chain(&samples::why_main()));
}

#[test]
fn results() {
    let tests = samples::tests();
    holds_every(tests.iter().map(|test| &test.critical.basis));
    holds_cases!(
        tests.iter().map(|test| (test.critical.basis, test.test_next)),
        (Basis::None, None),
        (Basis::None, Some(_)),
    );
    let predictions = samples::predictions();
    holds_every(predictions.iter().map(|reply| &reply.prediction.reach));
    let goals = predictions
        .iter()
        .map(|reply| reply.race.as_ref().map(|(_, outlook)| outlook.goal.map(|goal| goal.verdict)));
    assert!(goals.clone().any(|goal| goal.is_none()), "no prediction without a race");
    assert!(goals.clone().flatten().any(|goal| goal.is_none()), "no race without a goal");
    let verdicts: Vec<Realism> = goals.flatten().flatten().collect();
    holds_every(&verdicts);
}

#[test]
fn people() {
    let rows = &samples::squads()[0].swimmers;
    holds_every(rows.iter().map(|row| &row.trend));
    holds_every(rows.iter().flat_map(|row| &row.flags));
}

#[test]
fn lanes() {
    let all = samples::lanes();
    holds_every(all.iter().flat_map(|reply| &reply.relaxed));
    holds_cases!(
        all.iter().map(|reply| (reply.advice.is_some(), reply.moved.is_empty())),
        (true, _),
        (false, true),
        (false, false),
    );
    holds_cases!(
        all.iter().map(|reply| (reply.stopped.len(), reply.careful.is_empty())),
        (0, true),
        (0, false),
        (1, _),
        (2.., _),
    );
}

#[test]
fn sessions_and_weeks() {
    let everything = parts::session_of_everything();
    holds_every(everything.blocks.iter().map(|block| &block.part));
    holds_every(samples::plans().iter().map(|plan| &plan.kind));
}

#[test]
fn statements() {
    use lapwing::message::Kind;
    holds_every(&kinds());
    holds_cases!(kinds(), Kind::NamesInRooms { shown: true }, Kind::NamesInRooms { shown: false });
}

#[test]
fn belongings() {
    use Belonging as B;
    holds_every(&samples::belongings());
    holds_cases!(
        samples::belongings(),
        B::Invited { name: Some(_), .. },
        B::Invited { name: None, .. },
        B::GuestAdded { guess: Some(_), code: Some(_), .. },
        B::GuestAdded { guess: None, .. },
    );
}

#[test]
fn care_and_offices() {
    holds_every(&care::done());
    holds_every(&care::refusals());
    holds_every(&care::letters());
    holds_every(&offices::done());
    holds_every(&offices::refusals());
    holds_every(&offices::letters());
}
