//! The squad's evening as the contract's JSON: a session with one entry a lane.

use jiff::civil::Time;
use serde_json::{Value, json};

use super::result::with;
use super::session::session_json;
use crate::coaching::evening::GivenUp;
use crate::reply::*;
use crate::session::{Repeat, Session};
use crate::units::Centis;

/// The night's set: the middle version as the session itself, all under `lanes`.
pub(super) fn evening(reply: &EveningReply, voice: Voice) -> Value {
    let Some(middle) = reply.lanes.get(reply.lanes.len() / 2) else { return Value::Null };
    let lanes = reply.lanes.iter().map(|one| lane(one, reply, voice));
    with(
        session_json(&middle.session, voice),
        [
            // What one swimmer of a lane leaves out stays theirs.
            ("without", json!(reply.without)),
            ("lanes", lanes.collect()),
            ("booked_s", json!(u32::from(reply.minutes) * 60)),
        ],
    )
}

fn lane(lane: &LaneReply, reply: &EveningReply, voice: Voice) -> Value {
    let mut value = version(lane.lane, &lane.session, voice);
    if let Some(ends) = lane.ends {
        value = with(value, [("ends", json!(hour(ends)))]);
    }
    if !reply.in_room {
        let targets = lane.targets.iter().map(|own| {
            let line = |line: &Repeat| {
                json!({
                    "count": line.count,
                    "distance": line.distance.amount(),
                    "target_s": line.target.map(Centis::seconds),
                    "level": line.level,
                })
            };
            let lines: Value = own.lines.iter().map(line).collect();
            json!({ "swimmer": own.swimmer, "repeats": lines })
        });
        value = with(value, [("swimmers", json!(lane.swimmers)), ("targets", targets.collect())]);
    }
    match &lane.too_long {
        None => value,
        Some(too_long) => {
            let without = given_up(&too_long.without);
            with(value, [("over_s", json!(too_long.by_s)), ("fits_with", without)])
        }
    }
}

/// Lanes that changed: who moved, and each lane as it is now.
pub(super) fn lanes_changed(reply: &LanesChangedReply) -> Value {
    let moved = reply.moved.iter().map(|(who, from, to)| {
        json!({
            "swimmer": who,
            "from": from.map(|lane| lane.number()),
            "to": to.map(|lane| lane.number()),
        })
    });
    let lanes = reply.lanes.iter().map(|lane| {
        let on = lane.line.as_ref().and_then(|line| line.send_off);
        let ends = match lane.now {
            Some(Ends::At(time)) => Some(hour(time)),
            _ => None,
        };
        json!({
            "lane": lane.lane,
            "swimmers": lane.swimmers,
            "send_off_s": on.map(|on| on.seconds()),
            "ends": ends,
        })
    });
    json!({
        "kind": "ok",
        "on": reply.on,
        "moved": moved.collect::<Vec<_>>(),
        "lanes": lanes.collect::<Vec<_>>(),
    })
}

/// A set changed on the way: each lane as it now is.
pub(super) fn changed(reply: &ChangedReply, voice: Voice) -> Value {
    let lanes = reply.lanes.iter().map(|lane| changed_lane(lane, voice));
    json!({ "kind": "ok", "on": reply.on, "lanes": lanes.collect::<Vec<_>>() })
}

fn changed_lane(lane: &LaneChange, voice: Voice) -> Value {
    let ended = match lane.was {
        Ends::At(time) => ("ended", json!(hour(time))),
        Ends::In(seconds) => ("ended_in_s", json!(seconds)),
    };
    let ends = match lane.now {
        Ends::At(time) => ("ends", json!(hour(time))),
        Ends::In(seconds) => ("ends_in_s", json!(seconds)),
    };
    with(
        version(lane.lane, &lane.session, voice),
        [
            ended,
            ends,
            ("given_up", given_up(&lane.given_up)),
            ("fits", json!(lane.fits)),
            ("keeps_purpose", json!(lane.keeps_purpose)),
        ],
    )
}

/// A lane's session, whole.
fn version(lane: u8, session: &Session, voice: Voice) -> Value {
    with(session_json(session, voice), [("lane", json!(lane))])
}

fn given_up(all: &[GivenUp]) -> Value {
    all.iter()
        .map(|one| {
            json!({
                "part": one.part,
                "distance": one.line.distance.amount(),
                "count": one.line.count,
                "left": one.left,
            })
        })
        .collect()
}

/// A time of day: `20:15`.
pub(super) fn hour(time: Time) -> String {
    time.strftime("%H:%M").to_string()
}
