//! Tests, targets, critical speed and predictions.

use serde_json::{Value, json};

use super::result::{result, with};
use super::session::session_json;
use crate::reply::*;
use crate::swim::Trial;
use crate::swim::critical_speed::Estimate;
use crate::swim::even_pace::Target;
use crate::units::Pace;

pub(super) fn test(reply: &TestReply, voice: Voice) -> Value {
    let trial = &reply.trial;
    let next = reply.next.as_ref().map(|session| session_json(session, voice));
    let value = json!({
        "kind": "test",
        "swimmer": reply.swimmer,
        "distance": trial.distance.amount(),
        "unit": trial.distance.unit(),
        "course": trial.course,
        "stroke": trial.stroke,
        "time_s": trial.time.seconds(),
        "on": trial.on,
        "even_pace_per_100_s": rounded(Pace::of(trial.distance, trial.time).per_100_s(), 2),
        "personal_best": reply.personal_best,
    });
    let more = [
        ("targets", targets(&reply.targets).into()),
        ("critical_speed", critical(&reply.critical)),
        ("next", next.into()),
    ];
    with(value, more)
}

/// The result by its own kind, without what is not told to someone who is out.
pub(super) fn kept(reply: &KeptReply, voice: Voice) -> Value {
    let mut value = result(&reply.result, voice);
    if let Value::Object(fields) = &mut value {
        for (name, empty) in [
            ("targets", json!([])),
            ("personal_best", json!(false)),
            ("critical_speed", Value::Null),
            ("next", Value::Null),
            ("change", json!({ "what": "rest" })),
        ] {
            if let Some(field) = fields.get_mut(name) {
                *field = empty;
            }
        }
        fields.insert("kept_only".into(), json!(true));
    }
    value
}

pub(super) fn targets(targets: &[Target]) -> Vec<Value> {
    targets
        .iter()
        .map(|target| {
            json!({
                "distance": target.distance.amount(),
                "time_s": target.time.seconds(),
                "send_off_s": target.send_off.map(|send_off| send_off.seconds()),
            })
        })
        .collect()
}

pub(super) fn critical(estimate: &Estimate) -> Value {
    let pace = |pace: Option<Pace>| pace.map(|pace| rounded(pace.per_100_s(), 2));
    json!({
        "per_100_s": pace(estimate.pace()),
        "basis": estimate.basis,
        "low_per_100_s": pace(estimate.low()),
        "high_per_100_s": pace(estimate.high()),
        "linear": estimate.linear.as_ref().map(|line| json!({
            "per_100_s": pace(Some(line.pace)),
            "reserve_m": rounded(line.reserve.get(), 2),
        })),
    })
}

pub(super) fn prediction(reply: &PredictionReply, voice: Voice) -> Value {
    let prediction = &reply.prediction;
    json!({
        "kind": "prediction",
        "distance": prediction.distance.amount(),
        "unit": prediction.distance.unit(),
        "time_s": prediction.time.seconds(),
        "low_s": prediction.low.seconds(),
        "high_s": prediction.high.seconds(),
        "basis": voice.prediction_basis(prediction),
        "race": reply.race.as_ref().map(|(on, outlook)| json!({
            "on": on,
            "expected_s": outlook.expected.seconds(),
            "goal_s": outlook.goal.map(|goal| goal.time.seconds()),
            "goal_chance": outlook.goal.map(|goal| rounded(goal.chance, 2)),
            "splits_s": outlook.splits.iter().map(|split| split.time.seconds()).collect::<Vec<_>>(),
            "taper_from": outlook.taper_from,
        })),
    })
}

pub(super) fn trial_short(trial: &Trial) -> Value {
    json!({
        "distance": trial.distance.amount(),
        "unit": trial.distance.unit(),
        "stroke": trial.stroke,
        "course": trial.course,
        "time_s": trial.time.seconds(),
        "on": trial.on,
    })
}

/// A figure to so many decimals, for show.
pub(super) fn rounded(value: f64, decimals: i32) -> f64 {
    let scale = 10f64.powi(decimals);
    (value * scale).round() / scale
}
