//! Sets and sessions swum.

use serde_json::{Value, json};

use super::trials::rounded;
use crate::reply::*;
use crate::units::Centis;

pub(super) fn set(reply: &SetReply) -> Value {
    let feedback = &reply.feedback;
    let analysis = feedback.analysis.as_ref();
    let change = &feedback.change;
    let shape = feedback.shape.as_ref();
    json!({
        "kind": "set",
        "swimmer": reply.swimmer,
        "repeats": reply.set.count,
        "distance": reply.set.distance.amount(),
        "unit": reply.set.distance.unit(),
        "target_s": reply.set.target.map(Centis::seconds),
        "held": analysis.map(|analysis| analysis.held),
        "missed": analysis.map(|analysis| analysis.missed),
        "mean_s": shape.map(|shape| rounded(shape.mean.get(), 2)),
        "fade_s_per_repeat": shape
            .and_then(|shape| shape.fade)
            .map(|fade| rounded(fade.get(), 2)),
        "first_lost": analysis.and_then(|analysis| analysis.first_lost),
        "change": {
            "what": change.what,
            "repeats": change.set.count,
            "send_off_s": change.set.send_off.map(|send_off| send_off.seconds()),
            "rest_s": change.set.rest.map(Centis::seconds),
            "target_s": change.set.target.map(Centis::seconds),
        },
        "rules": feedback.rules,
    })
}

pub(super) fn done(reply: &DoneReply) -> Value {
    json!({
        "kind": "done",
        "swimmer": reply.swimmer,
        "distance": reply.distance.map(|distance| distance.amount()),
        "unit": reply.distance.map(|distance| distance.unit()),
        "duration_s": reply.duration.map(Centis::seconds),
        "rpe": reply.rpe.map(|rpe| rpe.value()),
        "on": reply.on,
        "load": reply.load,
        "week_distance": reply.week.map(|week| week.amount()),
    })
}
