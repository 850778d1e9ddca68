//! The squad's evening as the contract's JSON: a session with one entry a lane.

use serde_json::{Value, json};

use super::json::session_json;
use super::voice::Voice;
use super::{ChangedReply, Ends, EveningReply, LaneChange, LaneReply, LanesChangedReply};
use crate::coaching::evening::GivenUp;
use crate::session::Session;
use crate::units::Centis;

/// The night's set: the middle version as the session itself, all under `lanes`.
pub(super) fn evening(reply: &EveningReply, voice: Voice) -> Value {
    let Some(middle) = reply.lanes.get(reply.lanes.len() / 2) else { return Value::Null };
    let mut value = session_json(&middle.session, voice);
    if let Value::Object(fields) = &mut value {
        let lanes = reply.lanes.iter().map(|one| lane(one, reply, voice));
        // What one swimmer of a lane leaves out is hers.
        fields.insert("without".into(), json!(reply.without));
        fields.insert("lanes".into(), lanes.collect());
        fields.insert("booked_s".into(), json!(u32::from(reply.minutes) * 60));
    }
    value
}

fn lane(lane: &LaneReply, reply: &EveningReply, voice: Voice) -> Value {
    let mut value = version(lane.lane, &lane.session, voice);
    if let Value::Object(fields) = &mut value {
        if let Some(ends) = lane.ends {
            fields.insert("ends".into(), json!(ends.strftime("%H:%M").to_string()));
        }
        if !reply.in_room {
            fields.insert("swimmers".into(), json!(lane.swimmers));
            let targets = lane.targets.iter().map(|own| {
                let lines = own.lines.iter().map(|line| {
                    json!({
                        "count": line.count,
                        "distance": line.distance.amount(),
                        "target_s": line.target.map(Centis::seconds),
                        "level": line.level,
                    })
                });
                json!({ "swimmer": own.swimmer, "repeats": lines.collect::<Vec<_>>() })
            });
            fields.insert("targets".into(), targets.collect());
        }
        if let Some(too_long) = &lane.too_long {
            fields.insert("over_s".into(), json!(too_long.by_s));
            fields.insert("fits_with".into(), given_up(&too_long.without));
        }
    }
    value
}

/// Lanes that are others now: who moved, and each lane that is another.
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
            Some(Ends::At(time)) => Some(time.strftime("%H:%M").to_string()),
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
        "on": reply.on.to_string(),
        "moved": moved.collect::<Vec<_>>(),
        "lanes": lanes.collect::<Vec<_>>(),
    })
}

/// A set changed on the way: each lane as it now is.
pub(super) fn changed(reply: &ChangedReply, voice: Voice) -> Value {
    let lanes = reply.lanes.iter().map(|lane| changed_lane(lane, voice));
    json!({ "kind": "ok", "on": reply.on.to_string(), "lanes": lanes.collect::<Vec<_>>() })
}

fn changed_lane(lane: &LaneChange, voice: Voice) -> Value {
    let mut value = version(lane.lane, &lane.session, voice);
    if let Value::Object(fields) = &mut value {
        let mut put = |name: &str, ends| match ends {
            Ends::At(time) => fields.insert(name.into(), json!(time.strftime("%H:%M").to_string())),
            Ends::In(seconds) => fields.insert(format!("{name}_in_s"), json!(seconds)),
        };
        put("ended", lane.was);
        put("ends", lane.now);
        fields.insert("given_up".into(), given_up(&lane.given_up));
        fields.insert("fits".into(), json!(lane.fits));
        fields.insert("keeps_purpose".into(), json!(lane.keeps_purpose));
    }
    value
}

/// A lane's session, whole.
fn version(lane: u8, session: &Session, voice: Voice) -> Value {
    let mut value = session_json(session, voice);
    if let Value::Object(fields) = &mut value {
        fields.insert("lane".into(), json!(lane));
    }
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
