//! What is known of what was asked, field by field.

use serde_json::{Value, json};

use super::answers;
use super::evening::hour;
use crate::coaching::evening::Position;
use crate::reply::*;

/// The `result` of an answer to a question: `about` says of what.
pub fn known(known: &Known, voice: Voice) -> Value {
    match known {
        Known::NextTest { who, due } => {
            let (on, distance) = match due {
                TestDue::Called { on, distance } => (Some(on), Some(*distance)),
                TestDue::From { on, distance, .. } => (Some(on), *distance),
                TestDue::First | TestDue::Waits => (None, None),
            };
            json!({
                "kind": "ok",
                "about": "next_test",
                "swimmer": who,
                "on": on,
                "distance": distance.map(|far| far.amount()),
                "unit": distance.map(|far| far.unit()),
            })
        }
        Known::LaneOf { who, on, lane } => json!({
            "kind": "ok", "about": "lane", "swimmer": who, "on": on, "lane": lane,
        }),
        Known::Lanes { on, lanes } => json!({
            "kind": "ok",
            "about": "lane",
            "on": on,
            "lanes": lanes.iter().map(|(lane, swimmers)| {
                json!({ "lane": lane, "swimmers": swimmers })
            }).collect::<Vec<_>>(),
        }),
        Known::Swum(swum) => json!({
            "kind": "ok",
            "about": "swum",
            "swimmer": swum.who,
            "from": swum.from.to_string(),
            "to": swum.to.to_string(),
            "sessions": swum.sessions,
            "distance_m": swum.metres,
            "sets": swum.sets,
            "tests": swum.tests,
        }),
        Known::Evening { night, .. } => json!({
            "kind": "ok",
            "about": "evening",
            "starts": night.starts,
            "ends": night.ends,
            "shut": night.shut,
        }),
        Known::Results { on, lines } => json!({
            "kind": "ok",
            "about": "results",
            "on": on,
            "lines": lines.iter().map(result_line).collect::<Vec<_>>(),
        }),
        Known::Standing(reply) => json!({
            "kind": "ok",
            "about": "standing",
            "left_min": reply.left_min,
            "lanes": reply.lanes.iter().map(|lane| stands(lane, voice)).collect::<Vec<_>>(),
        }),
        Known::Told(answer) => answers::answer(answer),
        Known::Not(unknown) => json!({
            "kind": "ok",
            "about": match unknown {
                Unknown::Lanes { .. } => "lane",
                Unknown::Results { .. } => "results",
                Unknown::Set { .. } => "set",
                Unknown::TestNight => "next_test",
                Unknown::Night { .. } => "evening",
            },
            "known": false,
        }),
    }
}

fn result_line(line: &ResultLine) -> Value {
    match &line.what {
        Swam::Test(trial, before) => json!({
            "swimmer": line.who,
            "distance": trial.distance.amount(),
            "unit": trial.distance.unit(),
            "stroke": trial.stroke,
            "time_s": trial.time.seconds(),
            "before_s": before.map(|before| before.seconds()),
        }),
        Swam::Set { count, distance, held, times } => json!({
            "swimmer": line.who,
            "count": count,
            "distance": distance.amount(),
            "unit": distance.unit(),
            "held": held,
            "times_s": times.iter().map(|time| time.map(|t| t.seconds())).collect::<Vec<_>>(),
        }),
    }
}

fn stands(lane: &LaneStanding, voice: Voice) -> Value {
    let (line, number) = match &lane.position {
        Some(Position::Swimming { line, number, .. }) => {
            (Some(repeat_shorthand(line, voice)), Some(number))
        }
        _ => (None, None),
    };
    json!({
        "lane": lane.lane,
        "swims": line,
        "number": number,
        "over": lane.position == Some(Position::Over),
        "ends": lane.ends.map(hour),
    })
}
