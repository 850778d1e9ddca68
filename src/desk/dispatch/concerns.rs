//! What is answered with care though nobody is in danger: breath-holding,
//! dives, swims alone, questions that only a clinician answers.

use serde_json::{Value, json};

use crate::desk::decision::desk::Desk;
use crate::desk::decision::questions_back::ask_yes;
use crate::desk::safety::welfare;
use crate::history::{Event, Right, TroubleKind};
use crate::message::{Concern, Doubt, Kind, Matter, Message, Statement};
use crate::reading::health::Alarms;
use crate::reply::{Asks, CautionKind, CautionReply, OkReply, Outcome};

/// Answers a text with concerns, and what else it says; `None` for others.
pub fn answer(desk: &mut Desk<'_>, text: &str, alarms: &Alarms) -> Option<(Vec<Value>, Outcome)> {
    let mut concerns = alarms.concerns.clone();
    if concerns.is_empty() {
        return None;
    }
    // `just found out` is nobody's absence.
    let ours = |one: &Statement| one.who.as_ref().is_none_or(|who| desk.is_ours(who));
    let said: Vec<Statement> = desk.statements_of(text).into_iter().filter(ours).collect();
    let told = said.iter().any(|one| one.kind.ails());
    let worries = alarms.unwell || told;
    let says_what = !said.is_empty() && said.iter().all(|one| is_of_swimming(&one.kind));
    let may_release = desk.may(Right::Release);
    let is_note = |one: &Statement| matches!(one.kind, Kind::Note { .. } | Kind::Hold { .. });
    let notes = may_release
        && desk.named_in(text).is_some()
        && desk.what_may_be_told(text).iter().any(is_note);
    // `doctor says fine to swim from monday` tells, and asks nothing.
    let cleared = concerns.contains(&Concern::Cleared);
    concerns.retain(|concern| match concern {
        Concern::MaySwim => !cleared,
        Concern::Cleared => !may_release && desk.swims(),
        // `50 test 31.2 from a dive` is a result, `next open water` has its own.
        Concern::Alone | Concern::Dive | Concern::OpenWater => !says_what,
        // Beside what was swum a medicine is not talked of; a question may be about it.
        // What a coach tells of somebody else is for the coach to act on.
        Concern::Clinician => said.iter().all(|one| one.kind.only_answers()) && !notes,
        // A coach's words about somebody else's fear are for the coach to act on.
        Concern::Afraid => !may_release,
        _ => true,
    });
    if concerns.is_empty() {
        return None;
    }
    let (mut read, mut outcomes): (Vec<Value>, Vec<Outcome>) =
        concerns.iter().map(|concern| one(desk, *concern, worries)).unzip();
    let message = Message { statements: beside(said.clone()) };
    if !message.statements.is_empty() {
        let (more, outcome) = desk.apply(&message);
        read.extend(more);
        match outcome {
            Outcome::Mixed(several) | Outcome::Captured(several) => outcomes.extend(several),
            single => outcomes.push(single),
        }
    }
    // What they told in private is nobody's question.
    let asks =
        !told && !desk.private && !outcomes.iter().any(|one| matches!(one, Outcome::Question(_)));
    let mut may_say = if asks { desk.what_may_ail(text) } else { vec![] };
    if asks && may_say.is_empty() && said.iter().all(|one| one.kind.only_answers()) {
        let told = desk.what_may_be_told(text);
        may_say = if beside(told.clone()) == told { told } else { vec![] };
    }
    if !may_say.is_empty() {
        let asks = Asks::Doubt(Doubt::Meant { says: may_say.clone() });
        outcomes.push(*ask_yes(desk, asks, &Message { statements: may_say }));
    }
    Some((read, Outcome::of_all(outcomes)))
}

/// A question about health that names nothing we know: who can answer it, and what to do
/// if anything is wrong.
pub fn may_swim(desk: &mut Desk<'_>) -> (Vec<Value>, Outcome) {
    // Words that nobody who needs care uses get no word of an ambulance.
    let worries = desk.cares;
    let (read, outcome) = one(desk, Concern::MaySwim, worries);
    (vec![read], outcome)
}

/// The answer to a text that may want care though nothing says why, with where help is
/// before it: alone where nothing was read, as an example of a swim would mock. Not where
/// the text is answered with care anyway, or one is asked what it means.
pub fn with_where_help_is(desk: &mut Desk<'_>, outcome: Outcome) -> Outcome {
    let answered = |one: &Outcome| matches!(one, Outcome::Caution(_) | Outcome::Question(_));
    let ails = desk.events.iter().any(|event| matches!(event, Event::TroubleOpened { .. }));
    if !desk.cares || ails || outcome.parts().iter().any(answered) {
        return outcome;
    }
    let kind = CautionKind::WhereHelpIs { call: desk.squad.emergency_number() };
    let help = Outcome::Caution(CautionReply { kind, about: None });
    match outcome {
        Outcome::NotUnderstood(_) => {
            desk.private = true;
            help
        }
        Outcome::Mixed(several) => Outcome::Mixed([vec![help], several].concat()),
        one => Outcome::Mixed(vec![help, one]),
    }
}

/// What an adult tells of their own swimming beside words of harm or despair: `1300 tonight`,
/// `not coming`. Only their coach sees it, and never the words.
pub fn beside_harm(desk: &Desk<'_>, text: &str) -> Vec<Statement> {
    if desk.minor_sender().is_some() || !desk.swims() {
        return vec![];
    }
    let told = |one: &Statement| {
        one.who.is_none() && (one.kind.is_swum() || matches!(one.kind, Kind::Attend { .. }))
    };
    desk.statements_of(text).into_iter().filter(told).collect()
}

/// What else the text says and is done all the same: what was swum, who comes, and
/// what hurts. Nothing is set or lifted.
fn beside(mut said: Vec<Statement>) -> Vec<Statement> {
    said.retain(|one| {
        is_of_swimming(&one.kind) && !matches!(one.kind, Kind::Next(_) | Kind::Race { .. })
            || matches!(
                one.kind,
                Kind::Pain(_)
                    | Kind::Ill { .. }
                    | Kind::Attend { .. }
                    | Kind::Away { .. }
                    | Kind::Missed { .. }
                    | Kind::Here { .. }
                    | Kind::Absent { .. }
            )
    });
    said
}

/// What was swum or is to be.
fn is_of_swimming(kind: &Kind) -> bool {
    matches!(
        kind,
        Kind::Test(_)
            | Kind::TimedTest(_)
            | Kind::SetResult(_)
            | Kind::Done(_)
            | Kind::RelayLeg(_)
            | Kind::Next(_)
            | Kind::Race { .. }
    )
}

/// One concern's answer; `worries` where the text names what may be a sign of danger.
fn one(desk: &mut Desk<'_>, concern: Concern, worries: bool) -> (Value, Outcome) {
    let (read, kind) = match concern {
        Concern::Cleared => {
            return (json!({ "kind": "cleared", "stores": true }), cleared(desk));
        }
        Concern::Easing => {
            desk.private = true;
            desk.matter = Some(Matter::Clinician);
            // Of several on one telephone nobody need say which.
            for who in desk.all_of_me() {
                desk.record(Event::TroubleOpened { who, trouble: TroubleKind::Eased });
            }
            ("private", CautionKind::Easing)
        }
        Concern::Gentle => {
            desk.private = true;
            desk.matter = Some(Matter::Food);
            welfare::tell_of_minor(desk, Matter::Food);
            ("private", CautionKind::Gentle)
        }
        Concern::Low => {
            desk.private = true;
            let kind = CautionKind::Low {
                call: desk.squad.emergency_number(),
                helpline: desk.squad.safe.helpline.clone(),
            };
            ("private", kind)
        }
        Concern::Afraid => {
            desk.private = true;
            ("private", CautionKind::Afraid)
        }
        // These are of swimming, whatever else the text says.
        concern if is_of_the_pool(concern) && desk.matter.is_none() => {
            desk.matter = Some(Matter::Swimming);
            return one(desk, concern, worries);
        }
        Concern::BreathHold => ("breath_hold", CautionKind::BreathHold),
        Concern::Clinician => {
            desk.private = true;
            ("private", CautionKind::Clinician)
        }
        Concern::MaySwim => ("may_swim", CautionKind::MaySwim { worries }),
        Concern::Dive => ("dive", CautionKind::Dive),
        Concern::Alone => ("alone", CautionKind::Alone),
        Concern::OpenWater => ("open_water", CautionKind::OpenWater),
    };
    let stores = kind == CautionKind::Easing;
    let read = json!({ "kind": read, "stores": stores });
    (read, Outcome::Caution(CautionReply { kind, about: None }))
}

fn is_of_the_pool(concern: Concern) -> bool {
    use Concern::{Alone, BreathHold, Dive, OpenWater};
    matches!(concern, Alone | BreathHold | Dive | OpenWater)
}

/// Their word that a clinician has cleared them is kept and told; it lifts
/// nothing.
fn cleared(desk: &mut Desk<'_>) -> Outcome {
    let Some(who) = desk.me().cloned() else { return desk.say_who() };
    desk.record(Event::ClearanceSaid { who: who.clone() });
    let stopped = desk.swimmer(&who).is_some_and(|swimmer| swimmer.is_stopped(desk.now()));
    desk.tell(Right::Release, |voice| voice.cleared_alert(&who, stopped));
    Outcome::Ok(OkReply::ClearanceNoted { stopped })
}
