//! Each outcome's `result`.

use serde_json::{Value, json};

use super::drawn::lanes;
use super::evening;
use super::ok::ok;
use super::people::{row, swimmer};
use super::session::{plan, session_json};
use super::swum::{done, set};
use super::trials::{critical, kept, prediction, targets, test, trial_short};
use crate::reply::*;

/// The outcome as the contract's `result`; `voice` words what it must.
pub fn result(outcome: &Outcome, voice: Voice) -> Value {
    match outcome {
        Outcome::Compared(cards) => json!({
            "kind": "ok",
            "swimmers": cards.iter().map(swimmer).collect::<Vec<_>>(),
        }),
        Outcome::Caution(reply) => caution(reply, voice),
        Outcome::Done(reply) => done(reply),
        Outcome::Evening(reply) => evening::evening(reply, voice),
        Outcome::Help(reply) => {
            json!({ "kind": "help", "text": voice.help(reply).join("\n") })
        }
        Outcome::Kept(reply) => kept(reply, voice),
        Outcome::Lanes(reply) => lanes(reply),
        Outcome::Mixed(outcomes) | Outcome::Captured(outcomes) => {
            let results = outcomes.iter().map(|one| result(one, voice)).collect();
            with(json!({ "kind": "mixed" }), [("results", results)])
        }
        Outcome::NotUnderstood(reply) => json!({
            "kind": "not_understood",
            "example": reply.example,
            "understood_text": reply.understood,
            "rest": match &reply.rest {
                Unread::Words(words) | Unread::Prose { words, .. } => Value::from(words.clone()),
                _ => Value::Null,
            },
        }),
        Outcome::Ok(reply) => ok(reply, voice),
        Outcome::Plan(reply) => plan(reply, voice),
        Outcome::Prediction(reply) => prediction(reply, voice),
        Outcome::Question(reply) => json!({
            "kind": "question",
            "asks": voice.question(reply).join(" "),
            "options": reply.options,
            "until": reply.until.to_string(),
        }),
        Outcome::Refused(reply) => json!({
            "kind": "refused",
            "rule": reply.rule,
            "reason": voice.refused(reply).join(" "),
        }),
        Outcome::Session(reply) => {
            let session = session_json(&reply.session, voice);
            match reply.lane {
                Some(lane) => with(session, [("lane", json!(lane))]),
                None => session,
            }
        }
        Outcome::Set(reply) => set(reply),
        Outcome::Squad(reply) => json!({
            "kind": "squad",
            "squad": reply.squad,
            "swimmers": reply.swimmers.iter().map(row).collect::<Vec<_>>(),
            "night": reply.night.as_ref().map(|night| json!({
                "on": night.on,
                "in": night.coming.len(),
                "late": night.coming.iter().filter(|(_, late)| late.is_some()).count(),
                "out": night.out.len(),
                "unsaid": night.unsaid.len(),
            })),
        }),
        Outcome::Swimmer(reply) => swimmer(reply),
        Outcome::Targets(reply) => json!({
            "kind": "targets",
            "from": trial_short(&reply.trial),
            "course": reply.trial.course,
            "targets": targets(&reply.targets),
            "critical_speed": critical(&reply.critical),
        }),
        Outcome::Test(reply) => test(reply, voice),
    }
}

/// An object with more fields, moved into it: `json!` would write each value that stands
/// in another anew.
pub(super) fn with<const N: usize>(mut object: Value, more: [(&str, Value); N]) -> Value {
    if let Value::Object(fields) = &mut object {
        fields.extend(more.map(|(name, value)| (name.to_owned(), value)));
    }
    object
}

fn caution(reply: &CautionReply, voice: Voice) -> Value {
    let about = match &reply.kind {
        CautionKind::Danger { .. } | CautionKind::Beside { .. } | CautionKind::Stopped => "stop",
        CautionKind::DoneToday => "done_today",
        CautionKind::Pain { .. } => "pain",
        CautionKind::Ill { .. } => "ill",
        CautionKind::Welfare { .. } => "welfare",
        CautionKind::Effort => "effort",
        CautionKind::OpenWater => "open_water",
        CautionKind::BreathHold => "breath_hold",
        CautionKind::Easing
        | CautionKind::Gentle
        | CautionKind::Low { .. }
        | CautionKind::Afraid
        | CautionKind::Clinician => "private",
        CautionKind::MaySwim { .. } => "clinician",
        CautionKind::WhereHelpIs { .. } => "help",
        CautionKind::Dive => "dive",
        CautionKind::Alone => "alone",
        CautionKind::EverybodyOut { .. } => "everybody_out",
    };
    let caution =
        json!({ "kind": "caution", "about": about, "text": voice.caution(reply).join(" ") });
    match &reply.kind {
        CautionKind::Danger { danger, .. } | CautionKind::Beside { danger, .. } => {
            with(caution, [("danger", json!(danger.name()))])
        }
        _ => caution,
    }
}
