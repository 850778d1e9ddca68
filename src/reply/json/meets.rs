//! Meets and their entries.

use serde_json::{Value, json};

use crate::reply::*;

pub(super) fn meet(reply: &MeetReply) -> Value {
    json!({
        "on": reply.on,
        "course": reply.course,
        "entries": reply.lines.iter().map(entry_line).collect::<Vec<_>>(),
    })
}

pub(super) fn entry_line(line: &EntryLine) -> Value {
    let shown = line.time.shown();
    json!({
        "swimmer": line.who,
        "distance": line.distance.amount(),
        "unit": line.distance.unit(),
        "stroke": line.stroke,
        "entry_time_s": shown.map(|(time, _)| time.seconds()),
        "estimate": shown.is_some_and(|(_, estimate)| estimate),
    })
}
