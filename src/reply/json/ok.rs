//! What was stored or done, where nothing more is shown of it.

use serde_json::{Value, json};

use super::approval;
use super::drawn::test_night;
use super::evening;
use super::known;
use super::meets::{entry_line, meet};
use super::result::with;
use super::trials::{rounded, targets};
use super::weekly;
use crate::reply::*;

pub(super) fn ok(reply: &OkReply, voice: Voice) -> Value {
    match reply {
        OkReply::Known(known) => known::known(known, voice),
        OkReply::SetChanged(reply) => evening::changed(reply, voice),
        OkReply::LanesChanged(reply) => evening::lanes_changed(reply),
        OkReply::Joined { name, squad, .. } => {
            json!({ "kind": "ok", "swimmer": name, "squad": squad })
        }
        OkReply::Attend(reply) => json!({
            "kind": "ok",
            "on": reply.on,
            "in": reply.coming,
            "late_min": reply.late_min,
        }),
        OkReply::Register(reply) => json!({
            "kind": "ok",
            "on": reply.on,
            "here": reply.here.len(),
            "absent": reply.absent.len(),
            "unmarked": reply.unmarked.len(),
        }),
        OkReply::TestNight(reply) => test_night(reply),
        OkReply::OwnTargets(reply) => json!({
            "kind": "ok",
            "swimmer": reply.who,
            "targets": targets(if reply.own.is_empty() { &reply.tested } else { &reply.own }),
            "from_test": reply.own.is_empty(),
        }),
        OkReply::Limits(reply) => json!({
            "kind": "ok",
            "limits": reply.limits,
            "equipment": reply.kit,
            "set_changed": reply.set_changed,
        }),
        OkReply::Entered(reply) => {
            let entry = [
                ("kind", json!("ok")),
                ("on", json!(reply.on)),
                ("course", json!(reply.course)),
                ("scratched", json!(reply.scratched)),
            ];
            with(entry_line(&reply.line), entry)
        }
        OkReply::Leg { who, leg } => json!({
            "kind": "ok",
            "swimmer": who,
            "relay_leg": leg.leg,
            "distance": leg.distance.amount(),
            "unit": leg.distance.unit(),
            "stroke": leg.stroke,
            "time_s": leg.time.seconds(),
        }),
        OkReply::Meet(reply) => json!({ "kind": "ok", "meets": [meet(reply)] }),
        OkReply::Entries(meets) => {
            json!({ "kind": "ok", "meets": meets.iter().map(meet).collect::<Vec<_>>() })
        }
        OkReply::Approval(reply) => approval::approval(reply),
        OkReply::Weekly(reply) => weekly::weekly(reply),
        OkReply::Belonging(done) => belonging(done),
        OkReply::Better { from: Some(from) } => json!({ "kind": "ok", "clear_until": from }),
        OkReply::Office(OfficeDone::CodeRenewed { code }) => json!({ "kind": "ok", "code": code }),
        OkReply::Office(OfficeDone::Staff(all)) => json!({
            "kind": "ok",
            "staff": all.iter().map(staff_line).collect::<Vec<_>>(),
        }),
        OkReply::Office(OfficeDone::CodeSent { .. }) => json!({ "kind": "ok", "waits": "confirm" }),
        OkReply::Undone { what } => json!({ "kind": "ok", "undone": what.len() }),
        _ => json!({ "kind": "ok" }),
    }
}

pub(super) fn staff_line(line: &StaffLine) -> Value {
    let role = line.role.map_or_else(|| json!("second_contact"), |role| json!(role));
    json!({ "role": role, "name": line.called, "address": line.address })
}

pub(super) fn belonging(done: &Belonging) -> Value {
    match done {
        Belonging::GuestAdded { name, guess, code } => json!({
            "kind": "ok",
            "swimmer": name,
            "guess_per_100_s": guess.map(|pace| rounded(pace.per_100_s(), 2)),
            "claim": code,
        }),
        Belonging::InAs { role, squad } => json!({ "kind": "ok", "squad": squad, "role": role }),
        Belonging::Squads { names, here } => json!({ "kind": "ok", "squads": names, "here": here }),
        Belonging::Taken { squad } => json!({ "kind": "ok", "squad": squad }),
        _ => json!({ "kind": "ok" }),
    }
}
