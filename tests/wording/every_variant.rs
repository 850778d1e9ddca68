//! No variant goes unread: a new one does not compile here until it is named,
//! and fails until there is a sample of it.

use lapwing::coaching::{Change, Realism, RefusalReason, WeekKind};
use lapwing::message::{Doubt, Kind};
use lapwing::reply::*;
use lapwing::session::{Part, Purpose};
use lapwing::swim::critical_speed::Basis;
use lapwing::swim::prediction::Reach;

use super::parts::session_of_everything;
use super::questions;
use super::samples;
use super::statements::kinds;

/// Asserts that the values hold each of the patterns, which are all there are.
macro_rules! holds_every {
    ($values:expr, $($variant:pat),+ $(,)?) => {{
        let mut left = vec![$(stringify!($variant)),+];
        for value in $values {
            let seen = match value { $($variant => stringify!($variant)),+ };
            left.retain(|one| *one != seen);
        }
        assert!(left.is_empty(), "no sample of {left:?}");
    }};
}

#[test]
fn outcomes() {
    use Outcome as O;
    holds_every!(
        samples::outcomes().iter().map(|(_, outcome)| outcome),
        O::Captured(_),
        O::Compared(_),
        O::Caution(_),
        O::Done(_),
        O::Evening(_),
        O::Help(_),
        O::Kept(_),
        O::Lanes(_),
        O::Mixed(_),
        O::NotUnderstood(_),
        O::Ok(_),
        O::Plan(_),
        O::Prediction(_),
        O::Question(_),
        O::Refused(_),
        O::Session(_),
        O::Set(_),
        O::Squad(_),
        O::Swimmer(_),
        O::Targets(_),
        O::Test(_),
    );
}

#[test]
fn acknowledgements() {
    use OkReply as O;
    holds_every!(
        &samples::oks(),
        O::Joined { ask_readiness: true, questions: true, .. },
        O::Joined { ask_readiness: true, questions: false, .. },
        O::Joined { ask_readiness: false, .. },
        O::Profile(_),
        O::Belonging(_),
        O::Care(_),
        O::Office(_),
        O::Undone { .. },
        O::Fixed { .. },
        O::Begun(_),
        O::Entered(_),
        O::Leg { .. },
        O::Meet(_),
        O::Entries(_),
        O::Moved { .. },
        O::Timetable(_),
        O::Shut(_),
        O::ResultsSwapped { .. },
        O::Told { .. },
        O::Attend(_),
        O::Board { .. },
        O::Register(_),
        O::SetChanged(_),
        O::LanesChanged(_),
        O::SetFixed(_),
        O::HeatOf(_),
        O::NotTonight { .. },
        O::Missed { .. },
        O::Away { from: None, .. },
        O::Away { .. },
        O::Remarked { of: None, .. },
        O::Remarked { .. },
        O::Able { of: None, .. },
        O::Able { .. },
        O::Tired { of: None },
        O::Tired { .. },
        O::Known(_),
        O::NotKnown,
        O::GivenToDeck,
        O::Better { from: Some(_) },
        O::Better { from: None },
        O::Swapped { .. },
        O::Race { .. },
        O::Noted { .. },
        O::Pinned { lane: Some(_), .. },
        O::Pinned { lane: None, .. },
        O::TestNight(_),
        O::Weekly(_),
        O::Approval(_),
        O::Limits(_),
        O::OwnTargets(_),
        O::Parted { apart: true, .. },
        O::Parted { apart: false, .. },
        O::NamesInRooms { shown: true },
        O::NamesInRooms { shown: false },
        O::Held { .. },
        O::Released { on_word: true, .. },
        O::Released { on_word: false, .. },
        O::ReadinessAnswered { clear: true },
        O::ReadinessAnswered { clear: false },
        O::ContactKept,
        O::ClearanceNoted,
        O::More { .. },
        O::Greeting,
        O::Thanks,
        O::EverybodyOut { .. },
        O::LeftAlone,
        O::Forgotten,
        O::OptedOut,
        O::OptedIn,
        O::Silent,
    );
    use Withdrawn as W;
    holds_every!(
        &samples::withdrawn(),
        W::Test(_),
        W::Set(_),
        W::Session(_),
        W::Register(_),
        W::SquadSet(_),
        W::PutRight(_),
        W::SetPutRight(_),
        W::SetChange(_),
        W::Lanes(_),
        W::Shut(_),
        W::Night(_),
        W::Timetable,
        W::Digest,
        W::Note,
        W::Change
    );
    holds_every!(
        &samples::settings(),
        Set::Course(_),
        Set::Days(_),
        Set::Sessions(_),
        Set::Minutes(_),
        Set::Born(_),
        Set::Language(_),
        Set::Units(_),
    );
}

#[test]
fn answers_to_questions() {
    use Known as K;
    let all = questions::known();
    holds_every!(
        &all,
        K::NextTest { who: None, .. },
        K::NextTest { .. },
        K::LaneOf { .. },
        K::Lanes { .. },
        K::Swum(_),
        K::Evening { next: None, of_day: false, .. },
        K::Evening { next: None, .. },
        K::Evening { .. },
        K::Results { .. },
        K::Standing(_),
        K::Not(Unknown::Lanes { .. }),
        K::Not(Unknown::Results { on: None }),
        K::Not(Unknown::Results { .. }),
        K::Not(Unknown::Set { .. }),
        K::Not(Unknown::TestNight),
        K::Not(Unknown::Night { on: None, .. }),
        K::Not(Unknown::Night { .. }),
    );
    let due = all.iter().filter_map(|known| match known {
        K::NextTest { due, .. } => Some(due),
        _ => None,
    });
    use TestDue as T;
    holds_every!(
        due,
        T::Called { .. },
        T::From { now: true, .. },
        T::From { distance: None, .. },
        T::From { .. },
        T::First,
        T::Waits,
    );
}

#[test]
fn cautions() {
    use CautionKind as C;
    holds_every!(
        &samples::cautions(),
        CautionReply { kind: C::Danger { call: None, .. }, about: None },
        CautionReply { kind: C::Danger { call: None, .. }, about: Some(_) },
        CautionReply { kind: C::Danger { call: Some(_), .. }, about: None },
        CautionReply { kind: C::Danger { call: Some(_), .. }, about: Some(_) },
        CautionReply { kind: C::Low { helpline: None, .. }, .. },
        CautionReply { kind: C::Low { helpline: Some(_), .. }, .. },
        CautionReply { kind: C::Clinician, .. },
        CautionReply { kind: C::Easing, .. },
        CautionReply { kind: C::Gentle, .. },
        CautionReply { kind: C::MaySwim { .. }, .. },
        CautionReply { kind: C::Dive, .. },
        CautionReply { kind: C::Alone, .. },
        CautionReply { kind: C::Beside { unnamed: true, .. }, .. },
        CautionReply { kind: C::Beside { unnamed: false, .. }, .. },
        CautionReply { kind: C::DoneToday, .. },
        CautionReply { kind: C::Stopped, about: None },
        CautionReply { kind: C::Stopped, about: Some(_) },
        CautionReply { kind: C::Pain { level: Some(0..=2), .. }, .. },
        CautionReply { kind: C::Pain { level: None | Some(3..=5), .. }, .. },
        CautionReply { kind: C::Pain { again: true, .. }, .. },
        CautionReply { kind: C::Ill { stomach: true, .. }, .. },
        CautionReply { kind: C::Ill { fever: true, .. }, .. },
        CautionReply { kind: C::Ill { .. }, .. },
        CautionReply { kind: C::Welfare { officer: true, .. }, .. },
        CautionReply { kind: C::Welfare { officer: false, .. }, .. },
        CautionReply { kind: C::Effort, .. },
        CautionReply { kind: C::OpenWater, .. },
        CautionReply { kind: C::BreathHold, .. },
        CautionReply { kind: C::Pain { .. }, .. },
    );
}

#[test]
fn questions_and_refusals() {
    use Asks as A;
    holds_every!(
        samples::questions().iter().map(|question| &question.asks),
        A::Doubt(_),
        A::AnyDanger,
        A::Implausible { .. },
        A::Impossible { .. },
        A::TwoReadings { .. },
        A::ImpossiblePair { .. },
        A::PassOn,
        A::TellAll { .. },
        A::Of { .. },
        A::WhoIs { .. },
        A::WhoElse { .. },
        A::Readiness { .. },
        A::Forget,
        A::NoTexts { away_until: None },
        A::NoTexts { away_until: Some(_) },
        A::Leave { .. },
        A::Remove { .. },
        A::TakeBack { .. },
        A::AnotherPerson { .. },
        A::WhichPerson,
        A::SayWho { .. },
        A::WhichSquad,
    );
    use Doubt as D;
    holds_every!(
        &samples::doubts(),
        D::Spelling { .. },
        D::Mile,
        D::Figure { .. },
        D::TestOrSession,
        D::Splits { .. },
        D::TimesCount { .. },
        D::Digits { .. },
        D::Meant { .. },
        D::Missing { .. },
    );
    use RefusalReason as R;
    use RefusedWhy as W;
    holds_every!(
        samples::refusals().iter().map(|refused| &refused.why),
        W::Coaching(R::Stopped),
        W::Coaching(R::TooShort { .. }),
        W::Coaching(R::NotHarder),
        W::Coaching(R::NotPlanned),
        W::Office(_),
        W::CoachOnly,
        W::HealthOtherwise,
        W::NobodyReads,
        W::NotAMember,
        W::NotASwimmer,
        W::BadCode,
        W::NameTaken,
        W::AlreadyIn,
        W::SquadFull,
        W::ManyAskedIn,
        W::LastCoach,
        W::NotOnDeck { .. },
        W::Future { .. },
        W::NoNight { .. },
        W::NightShut { next: None, .. },
        W::NightShut { next: Some(_), .. },
        W::Unlikely { .. },
        W::NoSet,
        W::NoBoard,
        W::NoSetYet,
        W::NoLane { .. },
        W::LaneOrder { .. },
        W::NoMainSet,
        W::NamesOfMinors,
        W::NoRounds,
        W::NotLaned { .. },
        W::LaneCount,
        W::NobodyThere,
        W::NobodyToTest,
        W::Nothing,
        W::NoTest,
        W::NoQuestion,
        W::Distance,
        W::NotYet,
        W::Weekly(_),
        W::Approval(_),
        W::CoachLimit,
        W::SquadLimit { .. },
        W::LimitsFree,
        W::SetNames { .. },
        W::Private,
        W::Care(_),
    );
    use Unread as U;
    holds_every!(
        samples::unread().iter().map(|reply| (&reply.rest, reply.understood.is_empty())),
        (U::Empty, _),
        (U::TooLong, _),
        (U::NotText, _),
        (U::Unsaid, _),
        (U::Prose { call: None, .. }, _),
        (U::Prose { call: Some(_), .. }, _),
        (U::Words(_), true),
        (U::Words(_), false),
    );
}

#[test]
fn help() {
    use HelpReply as H;
    use Topic as T;
    holds_every!(
        samples::helps().iter().chain([&samples::why()]).chain(&samples::why_main()),
        H::Swimmer,
        H::Coach,
        H::Stranger,
        H::OptedOut,
        H::Room,
        H::Why { .. },
        H::Topic(T::Test),
        H::Topic(T::Set),
        H::Topic(T::Done),
        H::Topic(T::Plan),
        H::Topic(T::Pain),
        H::Topic(T::Profile),
        H::Topic(T::Squad),
        H::Topic(T::Register),
        H::Topic(T::Lanes),
        H::Topic(T::Evening),
        H::Topic(T::Timetable),
        H::Topic(T::Results),
        H::Topic(T::TestNight),
        H::Topic(T::People),
        H::Topic(T::Fix),
    );
}

#[test]
fn results() {
    use Change as C;
    holds_every!(
        samples::sets().iter().map(|set| set.feedback.change.what),
        C::FasterTarget,
        C::FewerRepeats,
        C::LongerSendOff,
        C::MoreRepeats,
        C::Rest,
        C::Retest,
        C::Same,
        C::ShorterSendOff,
        C::SlowerStart,
    );
    let bases = samples::tests();
    holds_every!(
        bases.iter().map(|test| (test.critical.basis, test.test_next)),
        (Basis::None, None),
        (Basis::None, Some(_)),
        (Basis::OneTest, _),
        (Basis::Curve, _),
    );
    holds_every!(
        samples::predictions().iter().map(|reply| reply.prediction.reach),
        Reach::Within,
        Reach::Beyond(_),
    );
    holds_every!(
        samples::predictions().iter().map(|reply| {
            reply.race.as_ref().map(|(_, outlook)| outlook.goal.map(|goal| goal.verdict))
        }),
        None,
        Some(None),
        Some(Some(Realism::Likely)),
        Some(Some(Realism::Possible)),
        Some(Some(Realism::FarOff)),
    );
}

#[test]
fn people() {
    holds_every!(
        samples::squads()[0].swimmers.iter().map(|row| row.trend),
        Trend::Up,
        Trend::Flat,
        Trend::Down,
        Trend::Unknown,
    );
    holds_every!(
        samples::squads()[0].swimmers.iter().flat_map(|row| row.flags.clone()),
        Flag::Overdue,
        Flag::Hurt,
        Flag::Silent,
    );
}

#[test]
fn lanes() {
    use lapwing::coaching::lanes::Shortfall as S;
    let all = samples::lanes();
    holds_every!(
        all.iter().flat_map(|reply| &reply.relaxed),
        S::NoLane { .. },
        S::TooMany { .. },
        S::LaneFull { .. },
        S::Apart { .. },
        S::Room { .. },
        S::Lapped { .. },
    );
    holds_every!(
        all.iter().map(|reply| (reply.advice.is_some(), reply.moved.is_empty())),
        (true, _),
        (false, true),
        (false, false),
    );
    holds_every!(
        all.iter().map(|reply| (reply.stopped.len(), reply.careful.is_empty())),
        (0, true),
        (0, false),
        (1, _),
        (_, _),
    );
}

#[test]
fn sessions_and_weeks() {
    use Purpose as P;
    holds_every!(
        samples::PURPOSES,
        P::Endurance,
        P::PaceHolding,
        P::Race,
        P::RaceRehearsal,
        P::Return,
        P::Speed,
        P::Technique,
        P::Test,
        P::Threshold,
    );
    holds_every!(
        session_of_everything().blocks.iter().map(|block| block.part),
        Part::WarmUp,
        Part::Drill,
        Part::Build,
        Part::Test,
        Part::Recovery,
        Part::Main,
        Part::SwimDown,
    );
    holds_every!(
        samples::plans().iter().map(|plan| plan.kind),
        WeekKind::Easy,
        WeekKind::Normal,
        WeekKind::Hard,
        WeekKind::Taper,
        WeekKind::Return,
    );
}

#[test]
fn statements() {
    use Kind as K;
    holds_every!(
        &kinds(),
        K::Test(_),
        K::TimedTest(_),
        K::SetResult(_),
        K::Done(_),
        K::Missed { .. },
        K::Ill { .. },
        K::Better,
        K::Away { .. },
        K::Pain(_),
        K::Faint,
        K::Plan(_),
        K::Next(_),
        K::Swap { .. },
        K::SwapResults { .. },
        K::Shorter,
        K::Easier,
        K::Harder,
        K::Again,
        K::More,
        K::Targets { .. },
        K::OwnTargets { .. },
        K::Predict { .. },
        K::Race { .. },
        K::Trend,
        K::Best,
        K::Tonight,
        K::Board,
        K::Log,
        K::Swimmer,
        K::Compare { .. },
        K::Profile(_),
        K::Squad { .. },
        K::Entry(_),
        K::Entries,
        K::RelayLeg(_),
        K::Meet { .. },
        K::Lanes { .. },
        K::TestNight { .. },
        K::Regular(_),
        K::Approval(_),
        K::Limits(_),
        K::Pin { .. },
        K::Apart { .. },
        K::Here { .. },
        K::Absent { .. },
        K::Tell { .. },
        K::Note { .. },
        K::Focus { .. },
        K::Attend { .. },
        K::Slot(_),
        K::Shut { .. },
        K::Reopen { .. },
        K::LaneGone,
        K::LaneResults(_),
        K::Cut(_),
        K::Hold { .. },
        K::Release,
        K::Welfare,
        K::Set(_),
        K::Join { .. },
        K::Fix(_),
        K::Help { .. },
        K::People(_),
        K::Undo,
        K::Yes,
        K::No,
        K::Why,
        K::Stop,
        K::Start,
        K::Forget,
        K::Choose { .. },
        K::Ask(_),
        K::Leaves { .. },
        K::Maybe { .. },
        K::Back { .. },
        K::Tired,
        K::Goal { .. },
        K::Ability { .. },
        K::Quiet { .. },
        K::Restate { .. },
        K::Move { .. },
        K::SwapLanes { .. },
        K::LaneOrder { .. },
        K::DrawnAs { .. },
        K::Change(_),
        K::Gap { .. },
        K::NamesInRooms { shown: true },
        K::NamesInRooms { shown: false },
        K::LaneOf { .. },
    );
}

#[test]
fn belongings() {
    use Belonging as B;
    holds_every!(
        &samples::belongings(),
        B::Invited { name: Some(_), .. },
        B::Invited { name: None, .. },
        B::Declined,
        B::InAs { .. },
        B::NeedsName { .. },
        B::HandedOver { .. },
        B::Left { .. },
        B::Removed { .. },
        B::GuestAdded { guess: Some(_), code: Some(_), .. },
        B::GuestAdded { .. },
        B::Squads { .. },
        B::Taken { .. },
    );
}
