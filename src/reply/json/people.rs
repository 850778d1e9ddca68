//! One swimmer, alone and as a row of the squad.

use serde_json::{Value, json};

use super::result::with;
use super::trials::{rounded, trial_short};
use crate::history::Before;
use crate::reply::*;

pub(super) fn row(row: &SquadRow) -> Value {
    let guess = row.guest.and_then(|guest| guest.guess);
    json!({
        "swimmer": row.swimmer,
        "guest": row.guest.is_some(),
        "guess_per_100_s": guess.map(|pace| rounded(pace.per_100_s(), 2)),
        "last_test": row.last_test.as_ref().map(trial_short),
        "critical_per_100_s": row.critical_per_100_s.map(|pace| rounded(pace, 2)),
        "trend": row.trend,
        "trend_across_meet": row.trend_across,
        "flags": row.flags,
        "last_seen": row.last_seen,
        "open": row.open,
        "last_heard": row.last_heard,
    })
}

pub(super) fn swimmer(reply: &SwimmerReply) -> Value {
    let race = reply.race.as_ref().map(|race| {
        json!({
            "distance": race.distance.amount(),
            "unit": race.distance.unit(),
            "on": race.on,
        })
    });
    let notes = reply.notes.iter().map(|(on, text)| json!({ "on": on, "text": text }));
    let right = reply.put_right.iter().map(|(trial, right)| {
        let was = match &right.was {
            Before::Time(time) => json!({ "time_s": time.seconds() }),
            Before::Of(name) => json!({ "swimmer": name }),
        };
        json!({ "test": trial_short(trial), "was": was, "by": right.by, "on": right.on })
    });
    let card = with(
        row(&reply.row),
        [
            ("kind", json!("swimmer")),
            ("bests", reply.bests.iter().map(trial_short).collect()),
            ("tests", reply.latest.iter().map(trial_short).collect()),
            ("focus", json!(reply.focus)),
            ("race", json!(race)),
            ("notes", notes.collect()),
            ("put_right", right.collect()),
        ],
    );
    match &reply.page {
        Some(page) => with(card, [("page", json!(page.url))]),
        None => card,
    }
}
