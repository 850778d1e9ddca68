//! The squad's evening as the contract's JSON: a session with one entry a lane.

use jiff::civil::Time;
use serde_json::{Value, json};

use super::session::session_json;
use crate::coaching::evening::GivenUp;
use crate::reply::*;
use crate::session::{Repeat, Session};
use crate::units::Centis;

/// The night's set: the middle version as the session itself, all under `lanes`.
pub(super) fn evening(reply: &EveningReply, voice: Voice) -> Value {
    let Some(middle) = reply.lanes.get(reply.lanes.len() / 2) else { return Value::Null };
    let mut value = session_json(&middle.session, voice);
    // What one swimmer of a lane leaves out stays theirs.
    value["without"] = json!(reply.without);
    value["lanes"] = reply.lanes.iter().map(|one| lane(one, reply, voice)).collect();
    value["booked_s"] = json!(u32::from(reply.minutes) * 60);
    value
}

fn lane(lane: &LaneReply, reply: &EveningReply, voice: Voice) -> Value {
    let mut value = version(lane.lane, &lane.session, voice);
    if let Some(ends) = lane.ends {
        value["ends"] = json!(hour(ends));
    }
    if !reply.in_room {
        value["swimmers"] = json!(lane.swimmers);
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
        value["targets"] = targets.collect();
    }
    if let Some(too_long) = &lane.too_long {
        value["over_s"] = json!(too_long.by_s);
        value["fits_with"] = given_up(&too_long.without);
    }
    value
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
    let mut value = version(lane.lane, &lane.session, voice);
    for (name, ends) in [("ended", lane.was), ("ends", lane.now)] {
        match ends {
            Ends::At(time) => value[name] = json!(hour(time)),
            Ends::In(seconds) => value[format!("{name}_in_s")] = json!(seconds),
        }
    }
    value["given_up"] = given_up(&lane.given_up);
    value["fits"] = json!(lane.fits);
    value["keeps_purpose"] = json!(lane.keeps_purpose);
    value
}

/// A lane's session, whole.
fn version(lane: u8, session: &Session, voice: Voice) -> Value {
    let mut value = session_json(session, voice);
    value["lane"] = json!(lane);
    value
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
