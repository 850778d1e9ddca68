//! Plans that wait for the coach's yes, as JSON.

use serde_json::{Value, json};

use super::result::with;
use crate::reply::*;

/// What waits or was answered, as fields of an `ok`.
pub(super) fn approval(reply: &ApprovalReply) -> Value {
    match reply {
        ApprovalReply::Wish { wanted, answered } => {
            with(answers(answered), [("wanted", json!(wanted))])
        }
        ApprovalReply::List { wanted, waiting } => json!({
            "kind": "ok",
            "wanted": wanted,
            "waiting": self::waiting(waiting),
        }),
        ApprovalReply::Given(answered) => answers(answered),
        ApprovalReply::SentBack { who, told } => {
            json!({ "kind": "ok", "sent_back": [who], "untold": if *told { vec![] } else { vec![who] } })
        }
        ApprovalReply::Waits { .. } => json!({ "kind": "ok", "waits": true }),
        ApprovalReply::ToSwimmer(_) => json!({ "kind": "ok" }),
    }
}

/// One entry a plan that waits.
pub(super) fn waiting(lines: &[WaitingLine]) -> Vec<Value> {
    let line = |line: &WaitingLine| {
        json!({
            "swimmer": line.who,
            "distance": line.distance.amount(),
            "unit": line.distance.unit(),
            "sessions": line.sessions,
            "hard": line.hard,
        })
    };
    lines.iter().map(line).collect()
}

fn answers(answered: &Answered) -> Value {
    json!({
        "kind": "ok",
        "approved": answered.given,
        "lowered": answered.lowered,
        "untold": answered.untold,
        "stopped": answered.stopped,
    })
}
