//! Answers to questions that were taken apart, field by field.

use serde_json::{Value, json};

use crate::message::Pick;
use crate::reply::*;
use crate::swim::Trial;

/// The `result` of an answer: `about` says of what.
pub fn answer(answer: &Answer) -> Value {
    match answer {
        Answer::Gap { who, best, to, .. } => json!({
            "kind": "ok", "about": "gap", "swimmer": who, "best": trial(best),
            "to_s": to.seconds(), "off_s": best.time.less(*to).map_or(0.0, |by| by.seconds()),
        }),
        Answer::Pace { who, distance, time, pieces, best } => json!({
            "kind": "ok", "about": "pace", "swimmer": who, "distance": distance.amount(),
            "unit": distance.unit(), "time_s": time.seconds(),
            "best_s": best.map(|best| best.seconds()),
            "pieces": pieces.iter().map(|(piece, each)| {
                json!({ "distance": piece, "time_s": each.seconds() })
            }).collect::<Vec<_>>(),
        }),
        Answer::Sum { piece, each, distance, total } => json!({
            "kind": "ok", "about": "sum", "piece": piece, "each_s": each.seconds(),
            "distance": distance, "time_s": total.seconds(),
        }),
        Answer::Converted { who, from, time, to } => json!({
            "kind": "ok", "about": "converted", "swimmer": who, "distance": from.0.amount(),
            "unit": from.0.unit(), "time_s": time.seconds(), "course": from.1.name(),
            "to": {
                "distance": to.0.distance.amount(), "unit": to.0.distance.unit(),
                "time_s": to.0.time.seconds(), "course": to.1.name(),
                "method": to.0.method.name(),
            },
        }),
        Answer::Versus { who, last, before, best } => json!({
            "kind": "ok", "about": "versus", "swimmer": who, "last": trial(last),
            "before": before.as_ref().map(trial), "best": best.as_ref().map(trial),
        }),
        Answer::LastSwum { who, on, days, trial: swum } => json!({
            "kind": "ok", "about": "last_swum", "swimmer": who, "on": on, "days": days,
            "test": swum.as_ref().map(trial),
        }),
        Answer::Never { who, distance, from, to, .. } => json!({
            "kind": "ok", "about": "results", "swimmer": who, "distance": distance,
            "from": from, "to": to, "known": false,
        }),
        Answer::Ranked { pick, distance, on, below, lines, of } => json!({
            "kind": "ok", "about": "ranked", "distance": distance, "on": on, "of": of,
            "pick": match pick {
                Pick::Quickest => "quickest",
                Pick::Slowest => "slowest",
                Pick::Better => "better",
                Pick::Worse => "worse",
                Pick::Under => "under",
                Pick::Closest => "closest",
            },
            "below_s": below.map(|below| below.seconds()),
            "lines": lines.iter().map(|line| json!({
                "swimmer": line.who, "time_s": line.time.seconds(),
                "before_s": line.before.map(|before| before.seconds()),
            })).collect::<Vec<_>>(),
        }),
        Answer::Mean { of, count, distance, mean, on } => json!({
            "kind": "ok", "about": "mean", "count": count, "distance": distance,
            "mean_s": mean.seconds(), "on": on,
            "swimmer": match of { MeanOf::One(who) => who.as_ref(), _ => None },
            "lane": match of { MeanOf::Lane(lane) => Some(*lane), _ => None },
        }),
        Answer::Were { on, here, absent } => json!({
            "kind": "ok", "about": "count", "on": on, "here": here, "absent": absent,
        }),
        Answer::Turnouts { from, to, nights } => json!({
            "kind": "ok", "about": "count", "from": from, "to": to,
            "nights": nights.iter().map(|(on, here)| json!({ "on": on, "here": here }))
                .collect::<Vec<_>>(),
        }),
        Answer::Coming { on, coming, unsaid, out } => json!({
            "kind": "ok", "about": "count", "on": on, "coming": coming, "unsaid": unsaid,
            "out": out,
        }),
        Answer::Came { who, on, what } => json!({
            "kind": "ok", "about": "came", "swimmer": who, "on": on,
            "what": match what {
                Coming::There => "there",
                Coming::NotThere => "absent",
                Coming::Unmarked => "unmarked",
                Coming::In => "in",
                Coming::Perhaps => "perhaps",
                Coming::Out => "out",
                Coming::Unsaid => "unsaid",
            },
        }),
        Answer::LastThere { who, on } => json!({
            "kind": "ok", "about": "last_there", "swimmer": who,
            "on": on.map(|(on, _)| on), "days": on.map(|(_, days)| days),
        }),
        Answer::SquadSwum { from, to, metres, sessions, swimmers } => json!({
            "kind": "ok", "about": "swum", "from": from, "to": to, "distance_m": metres,
            "sessions": sessions, "swimmers": swimmers,
        }),
        Answer::Total { on, lanes } => json!({
            "kind": "ok", "about": "total", "on": on,
            "lanes": lanes.iter().map(|line| json!({
                "lane": line.lane, "distance": line.amount, "unit": line.unit,
                "minutes": line.minutes, "ends": line.ends,
            })).collect::<Vec<_>>(),
        }),
        Answer::Hold { on, lines } => json!({
            "kind": "ok", "about": "hold", "on": on,
            "lines": lines.iter().map(held).collect::<Vec<_>>(),
        }),
        Answer::Rest { lines } => json!({
            "kind": "ok", "about": "rest",
            "lines": lines.iter().map(held).collect::<Vec<_>>(),
        }),
        Answer::Kit { on, asked, kit } => json!({
            "kind": "ok", "about": "kit", "on": on, "asked": asked, "equipment": kit,
        }),
        Answer::Room { count, distance, on, takes_s, left_s, .. } => json!({
            "kind": "ok", "about": "room", "count": count, "distance": distance,
            "send_off_s": on.seconds(), "takes_s": takes_s, "left_s": left_s,
        }),
        Answer::TestOn { on, called } => json!({
            "kind": "ok", "about": "next_test", "on": called.map(|(on, _)| on),
            "distance": called.map(|(_, far)| far.amount()),
            "asked_on": on, "is_on": called.is_some_and(|(called, _)| called == *on),
        }),
        Answer::Lengths { distance, unit, lengths, course } => json!({
            "kind": "ok", "about": "lengths", "distance": distance, "unit": unit,
            "lengths": lengths, "course": course.name(),
        }),
        Answer::Stored { says } => json!({
            "kind": "ok", "about": "stored",
            "stored": says.iter().map(ToString::to_string).collect::<Vec<_>>(),
        }),
        Answer::Goal { who, race } => json!({
            "kind": "ok", "about": "goal", "swimmer": who,
            "on": race.as_ref().map(|race| race.on),
            "distance": race.as_ref().map(|race| race.distance.amount()),
            "goal_s": race.as_ref().and_then(|race| race.goal).map(|goal| goal.seconds()),
        }),
    }
}

fn trial(trial: &Trial) -> Value {
    json!({
        "distance": trial.distance.amount(), "unit": trial.distance.unit(),
        "stroke": trial.stroke, "course": trial.course.name(), "time_s": trial.time.seconds(),
        "on": trial.on,
    })
}

fn held(line: &HoldLine) -> Value {
    json!({
        "lane": line.lane, "swimmer": line.who, "count": line.count, "distance": line.distance,
        "target_s": line.hold.map(|hold| hold.seconds()),
        "send_off_s": line.on.map(|on| on.seconds()),
    })
}
