//! The texts that come every week as JSON.

use serde_json::{Value, json};

use super::approval;
use super::evening::hour;
use crate::reply::*;
use crate::units::weekday_word;

/// What was told or wished, as fields of an `ok`.
pub(super) fn weekly(reply: &WeeklyReply) -> Value {
    match reply {
        WeeklyReply::Digest(digest) => json!({
            "kind": "ok",
            "from": digest.from.to_string(),
            "to": digest.to.to_string(),
            "came": digest
                .came
                .iter()
                .map(|(who, days)| json!({ "swimmer": who, "days": days }))
                .collect::<Vec<_>>(),
            "tests": digest.tests.len(),
            "open": digest.open.iter().map(|(who, _)| who).collect::<Vec<_>>(),
            "waiting": approval::waiting(&digest.waiting),
            "improving": digest.improving,
            "fading": digest.fading,
            "silent": digest.silent,
            "overdue": digest.overdue,
            "due_next": digest.due_next,
            "nights": digest.nights.iter().map(|(on, _)| on.to_string()).collect::<Vec<_>>(),
        }),
        WeeklyReply::Note(note) => json!({
            "kind": "ok",
            "from": note.from.to_string(),
            "to": note.to.to_string(),
            "days": note.days,
            "distance_m": note.metres,
            "tests": note.tests.len(),
            "focus": note.focus,
            "next_night": note.next_night.map(|(on, _)| on.to_string()),
        }),
        WeeklyReply::DigestWish { wanted, day, at, .. }
        | WeeklyReply::NoteWish { wanted, day, at } => json!({
            "kind": "ok",
            "wanted": wanted,
            "day": weekday_word(*day),
            "at": hour(*at),
        }),
    }
}
