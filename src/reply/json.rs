//! The `result` of an answer, field by field as the outside contract names it.

use serde_json::{Map, Value, json};

use super::voice::Voice;
use super::*;
use crate::coaching::WeekKind;
use crate::coaching::lanes::LaneDrawn;
use crate::coaching::test_night::{Heat, counter, minutes};
use crate::profile::Before;
use crate::session::{Block, Cue, Repeat, Session};
use crate::swim::Trial;
use crate::swim::critical_speed::{Basis, Estimate};
use crate::swim::even_pace::Target;
use crate::units::{Centis, Pace};

/// The outcome as the contract's `result`; `voice` words what it must.
pub fn result(outcome: &Outcome, voice: Voice) -> Value {
    match outcome {
        Outcome::Compared(cards) => json!({
            "kind": "ok",
            "swimmers": cards.iter().map(swimmer).collect::<Vec<_>>(),
        }),
        Outcome::Caution(reply) => caution(reply, voice),
        Outcome::Done(reply) => done(reply),
        Outcome::Evening(reply) => evening_json::evening(reply, voice),
        Outcome::Help(reply) => {
            json!({ "kind": "help", "text": voice.help(reply).join("\n") })
        }
        Outcome::Kept(reply) => kept(reply, voice),
        Outcome::Lanes(reply) => lanes(reply),
        Outcome::Mixed(outcomes) | Outcome::Captured(outcomes) => {
            let results = outcomes.iter().map(|one| result(one, voice)).collect();
            with(json!({ "kind": "mixed" }), [("results", results)])
        }
        Outcome::NotUnderstood(reply) => json!({
            "kind": "not_understood",
            "example": reply.example,
            "understood_text": reply.understood,
            "rest": match &reply.rest {
                Unread::Words(words) | Unread::Prose { words, .. } => Value::from(words.clone()),
                _ => Value::Null,
            },
        }),
        Outcome::Ok(reply) => ok(reply, voice),
        Outcome::Plan(reply) => plan(reply, voice),
        Outcome::Prediction(reply) => prediction(reply, voice),
        Outcome::Question(reply) => json!({
            "kind": "question",
            "asks": voice.question(reply).join(" "),
            "options": reply.options,
            "until": reply.until.to_string(),
        }),
        Outcome::Refused(reply) => json!({
            "kind": "refused",
            "rule": reply.rule,
            "reason": voice.refused(reply).join(" "),
        }),
        Outcome::Session(reply) => {
            let mut value = session_json(&reply.session, voice);
            if let (Some(lane), Value::Object(fields)) = (reply.lane, &mut value) {
                fields.insert("lane".into(), json!(lane));
            }
            value
        }
        Outcome::Set(reply) => set(reply),
        Outcome::Squad(reply) => json!({
            "kind": "squad",
            "squad": reply.squad,
            "swimmers": reply.swimmers.iter().map(row).collect::<Vec<_>>(),
            "night": reply.night.as_ref().map(|night| json!({
                "on": night.on.to_string(),
                "in": night.coming.len(),
                "late": night.coming.iter().filter(|(_, late)| late.is_some()).count(),
                "out": night.out.len(),
                "unsaid": night.unsaid.len(),
            })),
        }),
        Outcome::Swimmer(reply) => swimmer(reply),
        Outcome::Targets(reply) => json!({
            "kind": "targets",
            "from": trial_short(&reply.trial),
            "course": reply.trial.course.name(),
            "targets": targets(&reply.targets),
            "critical_speed": critical(&reply.critical),
        }),
        Outcome::Test(reply) => test(reply, voice),
    }
}

/// An object with more fields, moved into it: `json!` would write each value that stands
/// in another anew.
fn with<const N: usize>(mut object: Value, more: [(&str, Value); N]) -> Value {
    if let Value::Object(fields) = &mut object {
        fields.extend(more.map(|(name, value)| (name.to_owned(), value)));
    }
    object
}

/// A session, whole.
pub fn session_json(session: &Session, voice: Voice) -> Value {
    let share: Map<String, Value> = session
        .level_share()
        .into_iter()
        .map(|(level, share)| (level.number().to_string(), json!(rounded(share, 4))))
        .collect();
    let mut value = json!({
        "kind": "session",
        "on": session.on.to_string(),
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
fn blocks(session: &Session, voice: Voice) -> Vec<Value> {
    let block = |block: &Block| {
        let repeats: Value = block.repeats.iter().map(|one| repeat(one, voice)).collect();
        with(json!({ "part": block.part, "rounds": block.rounds }), [("repeats", repeats)])
    };
    session.blocks.iter().map(block).collect()
}

fn repeat(repeat: &Repeat, voice: Voice) -> Value {
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

fn test(reply: &TestReply, voice: Voice) -> Value {
    let trial = &reply.trial;
    let next = reply.next.as_ref().map(|session| session_json(session, voice));
    let value = json!({
        "kind": "test",
        "swimmer": reply.swimmer,
        "distance": trial.distance.amount(),
        "unit": trial.distance.unit().name(),
        "course": trial.course.name(),
        "stroke": trial.stroke,
        "time_s": trial.time.seconds(),
        "on": trial.on.to_string(),
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
fn kept(reply: &KeptReply, voice: Voice) -> Value {
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

fn targets(targets: &[Target]) -> Vec<Value> {
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

fn critical(estimate: &Estimate) -> Value {
    let pace = |pace: Option<Pace>| pace.map(|pace| rounded(pace.per_100_s(), 2));
    json!({
        "per_100_s": pace(estimate.pace()),
        "basis": match estimate.basis {
            Basis::None => "none",
            Basis::OneTest => "one_test",
            Basis::Curve => "curve",
        },
        "low_per_100_s": pace(estimate.low()),
        "high_per_100_s": pace(estimate.high()),
        "linear": estimate.linear.as_ref().map(|line| json!({
            "per_100_s": pace(Some(line.pace)),
            "reserve_m": rounded(line.reserve.get(), 2),
        })),
    })
}

fn set(reply: &SetReply) -> Value {
    let feedback = &reply.feedback;
    let analysis = feedback.analysis.as_ref();
    let change = &feedback.change;
    let shape = feedback.shape.as_ref();
    json!({
        "kind": "set",
        "swimmer": reply.swimmer,
        "repeats": reply.set.count,
        "distance": reply.set.distance.amount(),
        "unit": reply.set.distance.unit().name(),
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

fn prediction(reply: &PredictionReply, voice: Voice) -> Value {
    let prediction = &reply.prediction;
    json!({
        "kind": "prediction",
        "distance": prediction.distance.amount(),
        "unit": prediction.distance.unit().name(),
        "time_s": prediction.time.seconds(),
        "low_s": prediction.low.seconds(),
        "high_s": prediction.high.seconds(),
        "basis": voice.prediction_basis(prediction),
        "race": reply.race.as_ref().map(|(on, outlook)| json!({
            "on": on.to_string(),
            "expected_s": outlook.expected.seconds(),
            "goal_s": outlook.goal.map(|goal| goal.time.seconds()),
            "goal_chance": outlook.goal.map(|goal| rounded(goal.chance, 2)),
            "splits_s": outlook.splits.iter().map(|split| split.time.seconds()).collect::<Vec<_>>(),
            "taper_from": outlook.taper_from.to_string(),
        })),
    })
}

fn done(reply: &DoneReply) -> Value {
    json!({
        "kind": "done",
        "swimmer": reply.swimmer,
        "distance": reply.distance.map(|distance| distance.amount()),
        "unit": reply.distance.map(|distance| distance.unit().name()),
        "duration_s": reply.duration.map(Centis::seconds),
        "rpe": reply.rpe.map(|rpe| rpe.value()),
        "on": reply.on.to_string(),
        "load": reply.load,
        "week_distance": reply.week.map(|week| week.amount()),
    })
}

fn plan(reply: &PlanReply, voice: Voice) -> Value {
    let sessions = reply.sessions.iter().map(|session| session_json(session, voice)).collect();
    let week = json!({
        "starts": reply.starts.to_string(),
        "kind": week_kind(reply.kind),
        "distance": reply.distance.amount(),
        "unit": reply.distance.unit().name(),
    });
    let weeks = vec![with(week, [("sessions", sessions)])];
    with(json!({ "kind": "plan", "rules": reply.rules }), [("weeks", weeks.into())])
}

fn lanes(reply: &LanesReply) -> Value {
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
        "on": reply.on.to_string(),
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
fn test_night(reply: &TestNightReply) -> Value {
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
        "on": reply.on.to_string(),
        "distance": reply.distance.amount(),
        "unit": reply.distance.unit().to_string(),
        "minutes": minutes(&reply.heats),
        "heats": reply.heats.iter().enumerate().map(heat).collect::<Vec<_>>(),
        "even_200": reply.soon.iter().map(|(swims, name)| json!({ "swimmer": name, "after_swims": swims })).collect::<Vec<_>>(),
        "owed": reply.owed,
        "catch_up": reply.catch_up.map(|on| on.to_string()),
    })
}

fn week_kind(kind: WeekKind) -> &'static str {
    match kind {
        WeekKind::Easy => "easy",
        WeekKind::Normal => "normal",
        WeekKind::Hard => "hard",
        WeekKind::Taper => "taper",
        WeekKind::Return => "return",
    }
}

fn caution(reply: &CautionReply, voice: Voice) -> Value {
    let about = match &reply.kind {
        CautionKind::Danger { .. } | CautionKind::Beside { .. } | CautionKind::Stopped => "stop",
        CautionKind::DoneToday => "done_today",
        CautionKind::Pain { .. } => "pain",
        CautionKind::Ill { .. } => "ill",
        CautionKind::Welfare { .. } => "welfare",
        CautionKind::Effort => "effort",
        CautionKind::OpenWater => "open_water",
        CautionKind::BreathHold => "breath_hold",
        CautionKind::Easing
        | CautionKind::Gentle
        | CautionKind::Low { .. }
        | CautionKind::Clinician => "private",
        CautionKind::MaySwim { .. } => "clinician",
        CautionKind::Dive => "dive",
        CautionKind::Alone => "alone",
    };
    let mut result =
        json!({ "kind": "caution", "about": about, "text": voice.caution(reply).join(" ") });
    if let CautionKind::Danger { danger, .. } | CautionKind::Beside { danger, .. } = &reply.kind {
        result["danger"] = json!(danger.name());
    }
    result
}

fn ok(reply: &OkReply, voice: Voice) -> Value {
    match reply {
        OkReply::Known(known) => super::known_json::known(known, voice),
        OkReply::SetChanged(reply) => evening_json::changed(reply, voice),
        OkReply::LanesChanged(reply) => evening_json::lanes_changed(reply),
        OkReply::Joined { name, squad, .. } => {
            json!({ "kind": "ok", "swimmer": name, "squad": squad })
        }
        OkReply::Attend(reply) => json!({
            "kind": "ok",
            "on": reply.on.to_string(),
            "in": reply.coming,
            "late_min": reply.late_min,
        }),
        OkReply::Register(reply) => json!({
            "kind": "ok",
            "on": reply.on.to_string(),
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
            "set_changed": reply.set_changed.map(|on| on.to_string()),
        }),
        OkReply::Entered(reply) => {
            let mut value = entry_line(&reply.line);
            if let Value::Object(fields) = &mut value {
                fields.insert("kind".into(), json!("ok"));
                fields.insert("on".into(), json!(reply.on.map(|on| on.to_string())));
                fields.insert("course".into(), json!(reply.course.name()));
                fields.insert("scratched".into(), json!(reply.scratched));
            }
            value
        }
        OkReply::Leg { who, leg } => json!({
            "kind": "ok",
            "swimmer": who,
            "relay_leg": leg.leg,
            "distance": leg.distance.amount(),
            "unit": leg.distance.unit().to_string(),
            "stroke": leg.stroke.name(),
            "time_s": leg.time.seconds(),
        }),
        OkReply::Meet(reply) => json!({ "kind": "ok", "meets": [meet(reply)] }),
        OkReply::Entries(meets) => {
            json!({ "kind": "ok", "meets": meets.iter().map(meet).collect::<Vec<_>>() })
        }
        OkReply::Approval(reply) => super::approval_json::approval(reply),
        OkReply::Weekly(reply) => super::weekly_json::weekly(reply),
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

fn staff_line(line: &StaffLine) -> Value {
    let role = line.role.map_or_else(|| json!("second_contact"), |role| json!(role));
    json!({ "role": role, "name": line.called, "address": line.address })
}

fn meet(reply: &MeetReply) -> Value {
    json!({
        "on": reply.on.map(|on| on.to_string()),
        "course": reply.course.name(),
        "entries": reply.lines.iter().map(entry_line).collect::<Vec<_>>(),
    })
}

fn entry_line(line: &EntryLine) -> Value {
    let shown = line.time.shown();
    json!({
        "swimmer": line.who,
        "distance": line.distance.amount(),
        "unit": line.distance.unit().to_string(),
        "stroke": line.stroke.name(),
        "entry_time_s": shown.map(|(time, _)| time.seconds()),
        "estimate": shown.is_some_and(|(_, estimate)| estimate),
    })
}

fn belonging(done: &Belonging) -> Value {
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

fn row(row: &SquadRow) -> Value {
    let guess = row.guest.and_then(|guest| guest.guess);
    json!({
        "swimmer": row.swimmer,
        "guest": row.guest.is_some(),
        "guess_per_100_s": guess.map(|pace| rounded(pace.per_100_s(), 2)),
        "last_test": row.last_test.as_ref().map(trial_short),
        "critical_per_100_s": row.critical_per_100_s.map(|pace| rounded(pace, 2)),
        "trend": match row.trend {
            Trend::Up => "up",
            Trend::Flat => "flat",
            Trend::Down => "down",
            Trend::Unknown => "unknown",
        },
        "trend_across_meet": row.trend_across,
        "flags": row.flags.iter().map(|flag| match flag {
            Flag::Overdue => "overdue",
            Flag::Hurt => "hurt",
            Flag::Silent => "silent",
        }).collect::<Vec<_>>(),
        "last_seen": row.last_seen.map(|day| day.to_string()),
        "open": row.open,
        "last_heard": row.last_heard.map(|day| day.to_string()),
    })
}

fn swimmer(reply: &SwimmerReply) -> Value {
    let mut value = row(&reply.row);
    if let Value::Object(fields) = &mut value {
        fields.insert("kind".into(), json!("swimmer"));
        fields
            .insert("bests".into(), reply.bests.iter().map(trial_short).collect::<Vec<_>>().into());
        fields.insert(
            "tests".into(),
            reply.latest.iter().map(trial_short).collect::<Vec<_>>().into(),
        );
        fields.insert("focus".into(), json!(reply.focus));
        if let Some(page) = &reply.page {
            fields.insert("page".into(), json!(page.url));
        }
        let race = reply.race.as_ref().map(|race| {
            json!({
                "distance": race.distance.amount(),
                "unit": race.distance.unit().name(),
                "on": race.on.to_string(),
            })
        });
        fields.insert("race".into(), json!(race));
        let notes =
            reply.notes.iter().map(|(on, text)| json!({ "on": on.to_string(), "text": text }));
        fields.insert("notes".into(), notes.collect::<Vec<_>>().into());
        let right = reply.put_right.iter().map(|(trial, right)| {
            let was = match &right.was {
                Before::Time(time) => json!({ "time_s": time.seconds() }),
                Before::Of(name) => json!({ "swimmer": name }),
            };
            json!({ "test": trial_short(trial), "was": was, "by": right.by, "on": right.on.to_string() })
        });
        fields.insert("put_right".into(), right.collect::<Vec<_>>().into());
    }
    value
}

fn trial_short(trial: &Trial) -> Value {
    json!({
        "distance": trial.distance.amount(),
        "unit": trial.distance.unit().name(),
        "stroke": trial.stroke,
        "course": trial.course.name(),
        "time_s": trial.time.seconds(),
        "on": trial.on.to_string(),
    })
}

/// A figure to so many decimals, for show.
fn rounded(value: f64, decimals: i32) -> f64 {
    let scale = 10f64.powi(decimals);
    (value * scale).round() / scale
}
