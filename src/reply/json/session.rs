//! Sessions and weeks of them.

use serde_json::{Map, Value, json};

use super::result::with;
use super::trials::rounded;
use crate::reply::*;
use crate::session::{Block, Cue, Repeat, Session};
use crate::units::Centis;

/// A session, whole.
pub fn session_json(session: &Session, voice: Voice) -> Value {
    let share: Map<String, Value> = session
        .level_share()
        .into_iter()
        .map(|(level, share)| (level.number().to_string(), json!(rounded(share, 4))))
        .collect();
    let mut value = json!({
        "kind": "session",
        "on": session.on,
        "title": voice.title(session.purpose),
        "distance": session.amount(),
        "unit": session.unit.name(),
        "duration_s": session.duration_s(),
        "change_over_s": session.change_over_s(),
        "rules": session.rules,
    });
    value = with(value, [("level_share", share.into()), ("blocks", blocks(session, voice).into())]);
    if let (Value::Object(fields), false) = (&mut value, session.without.is_empty()) {
        fields.insert("without".into(), json!(session.without));
    }
    value
}

/// A session's blocks.
pub(super) fn blocks(session: &Session, voice: Voice) -> Vec<Value> {
    let block = |block: &Block| {
        let repeats: Value = block.repeats.iter().map(|one| repeat(one, voice)).collect();
        with(json!({ "part": block.part, "rounds": block.rounds }), [("repeats", repeats)])
    };
    session.blocks.iter().map(block).collect()
}

pub(super) fn repeat(repeat: &Repeat, voice: Voice) -> Value {
    json!({
        "count": repeat.count,
        "distance": repeat.distance.amount(),
        "stroke": repeat.stroke,
        "target_s": repeat.target.map(Centis::seconds),
        "send_off_s": repeat.send_off.map(|send_off| send_off.seconds()),
        "rest_s": repeat.rest.map(Centis::seconds),
        "level": repeat.level,
        "equipment": repeat.equipment,
        "cue": repeat.cue.as_ref().map(|cue| match cue {
            Cue::Drill(id) => voice.cue(id),
            Cue::Coach(text) => text.clone(),
        }),
    })
}

pub(super) fn plan(reply: &PlanReply, voice: Voice) -> Value {
    let sessions = reply.sessions.iter().map(|session| session_json(session, voice)).collect();
    let week = json!({
        "starts": reply.starts.to_string(),
        "kind": reply.kind,
        "distance": reply.distance.amount(),
        "unit": reply.distance.unit(),
    });
    let weeks = vec![with(week, [("sessions", sessions)])];
    with(json!({ "kind": "plan", "rules": reply.rules }), [("weeks", weeks.into())])
}
