//! Lanes as they are drawn, and the heats of a test night.

use serde_json::{Value, json};

use crate::coaching::lanes::LaneDrawn;
use crate::coaching::test_night::{Heat, counter, minutes};
use crate::reply::*;
use crate::units::Centis;

pub(super) fn lanes(reply: &LanesReply) -> Value {
    let lane = |lane: &LaneDrawn| {
        json!({
            "lane": lane.lane,
            "swimmers": lane.swimmers.iter().map(|one| &one.name).collect::<Vec<_>>(),
            "gap_s": lane.gap.seconds(),
            "send_offs": lane
                .send_offs
                .iter()
                .map(|one| {
                    json!({
                        "distance": one.distance.amount(),
                        "send_off_s": one.send_off.seconds(),
                    })
                })
                .collect::<Vec<_>>(),
        })
    };
    json!({
        "kind": "lanes",
        "on": reply.on,
        "lanes": reply.lanes.iter().map(lane).collect::<Vec<_>>(),
        "moved": reply
            .moved
            .iter()
            .map(|one| json!({ "swimmer": one.name, "from": one.from, "to": one.to }))
            .collect::<Vec<_>>(),
        "focus": reply
            .focus
            .iter()
            .map(|(who, focus)| json!({ "swimmer": who, "text": focus }))
            .collect::<Vec<_>>(),
    })
}

/// The heats; who swims easy instead is for the words alone.
pub(super) fn test_night(reply: &TestNightReply) -> Value {
    let heat = |(at, heat): (usize, &Heat)| {
        let places = heat.places.iter().enumerate().map(|(place, one)| {
            json!({
                "swimmer": one.name,
                "lane": one.lane,
                "expected_s": one.expected.map(Centis::seconds),
                "counted_by": counter(&reply.heats, at, place).map(|other| &other.name),
            })
        });
        json!({ "minutes": heat.minutes, "swimmers": places.collect::<Vec<_>>() })
    };
    json!({
        "kind": "ok",
        "on": reply.on,
        "distance": reply.distance.amount(),
        "unit": reply.distance.unit(),
        "minutes": minutes(&reply.heats),
        "heats": reply.heats.iter().enumerate().map(heat).collect::<Vec<_>>(),
        "even_200": reply.soon.iter().map(|(swims, name)| json!({ "swimmer": name, "after_swims": swims })).collect::<Vec<_>>(),
        "owed": reply.owed,
        "catch_up": reply.catch_up,
    })
}
