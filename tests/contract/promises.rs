//! What an answer promises, checked from its JSON alone.

use lapwing::units::Course;
use serde_json::Value;

/// Critical pace as the last test's answer gave it.
pub struct Critical {
    pub per_100_s: Option<f64>,
}

impl Critical {
    pub fn none() -> Critical {
        Critical { per_100_s: None }
    }
}

fn number(value: &Value) -> f64 {
    value.as_f64().unwrap()
}

/// The test's own figures: even pace, targets, and the one-test estimate of
/// 200 in T: 100 (2^1.095 - 1) T / 200, with 1.05 and 1.15 as its band.
pub fn keeps_test(test: &Value, time: f64, course: Course, whose: &str) -> Critical {
    let time = (time * 10.0).round() / 10.0;
    assert!((number(&test["time_s"]) - time).abs() < 0.005, "{whose}: {test}");
    assert!((number(&test["even_pace_per_100_s"]) - time / 2.0).abs() < 0.006, "{whose}");
    assert_eq!(test["course"], course.name());
    for target in test["targets"].as_array().unwrap() {
        let even = time * number(&target["distance"]) / 200.0;
        assert!((number(&target["time_s"]) - even).abs() < 0.006, "{whose}: {target}");
        assert!(number(&target["send_off_s"]) > number(&target["time_s"]), "{whose}: {target}");
    }
    let critical = &test["critical_speed"];
    if critical["basis"] == "one_test" {
        for (field, exponent) in
            [("per_100_s", 1.095_f64), ("low_per_100_s", 1.05), ("high_per_100_s", 1.15)]
        {
            let pace = (2f64.powf(exponent) - 1.0) * time / 2.0;
            assert!((number(&critical[field]) - pace).abs() < 0.02, "{whose}: {critical}");
        }
    }
    Critical { per_100_s: critical["per_100_s"].as_f64() }
}

/// Sums, lengths, send-offs, order of parts, shares, minutes, levels.
pub fn keeps_session(
    session: &Value,
    course: Course,
    minutes: u32,
    critical: &Critical,
    whose: &str,
) {
    assert_eq!(session["kind"], "session", "{whose}: {session}");
    let blocks = session["blocks"].as_array().unwrap();
    assert_eq!(blocks.first().unwrap()["part"], "warm_up", "{whose}");
    assert_eq!(blocks.last().unwrap()["part"], "swim_down", "{whose}");
    let (mut distance, mut hundredths) = (0u64, 0.0);
    let mut by_level = [0u64; 6];
    for block in blocks {
        let rounds = block["rounds"].as_u64().unwrap();
        for repeat in block["repeats"].as_array().unwrap() {
            let count = rounds * repeat["count"].as_u64().unwrap();
            let length = repeat["distance"].as_u64().unwrap();
            assert_eq!(length % u64::from(course.length().unwrap()), 0, "{whose}: {repeat}");
            distance += count * length;
            by_level[repeat["level"].as_u64().unwrap() as usize] += count * length;
            let target = repeat["target_s"].as_f64();
            let send_off = repeat["send_off_s"].as_f64();
            if let (Some(target), Some(send_off)) = (target, send_off) {
                assert!(target < send_off, "{whose}: {repeat}");
            }
            let each = send_off.unwrap_or_else(|| {
                target.unwrap_or(0.0) + repeat["rest_s"].as_f64().unwrap_or(0.0)
            });
            hundredths += count as f64 * each;
            keeps_level(repeat, critical, whose);
        }
    }
    assert_eq!(session["distance"].as_u64().unwrap(), distance, "{whose}: {session}");
    let shares = session["level_share"].as_object().unwrap();
    let sum: f64 = shares.values().map(number).sum();
    assert!((sum - 1.0).abs() < 0.01, "{whose}: {sum}");
    for (level, amount) in by_level.iter().enumerate().skip(1) {
        let share = number(&shares[&level.to_string()]);
        assert!((share - *amount as f64 / distance as f64).abs() < 0.001, "{whose}: {shares:?}");
    }
    let duration = number(&session["duration_s"]);
    assert!(duration <= f64::from(minutes) * 60.0, "{whose}: {duration} s in {minutes} min");
    let change_overs = number(&session["change_over_s"]);
    assert!((duration - hundredths - change_overs).abs() < 1.0, "{whose}: {session}");
}

/// A free repeat without equipment is as fast, in percent of critical speed,
/// as its level says (easy up to 88, steady to 95, threshold to 100, hard to
/// 105, sprint above); a percent of play for targets in whole seconds.
fn keeps_level(repeat: &Value, critical: &Critical, whose: &str) {
    let (Some(critical), Some(target)) = (critical.per_100_s, repeat["target_s"].as_f64()) else {
        return;
    };
    let kit = repeat["equipment"].as_array().is_some_and(|kit| !kit.is_empty());
    if repeat["stroke"] != "free" || kit {
        return;
    }
    let percent = critical / (target * 100.0 / number(&repeat["distance"])) * 100.0;
    let (low, high) = match repeat["level"].as_u64().unwrap() {
        1 => (0.0, 88.0),
        2 => (88.0, 95.0),
        3 => (95.0, 100.0),
        4 => (100.0, 105.0),
        _ => (105.0, 200.0),
    };
    let play = 100.0 / target.max(10.0) * 0.6 + 0.1;
    assert!(
        percent >= low - play && percent <= high + play,
        "{whose}: {percent:.1} % at level {}: {repeat}",
        repeat["level"]
    );
}

/// Seven local days, whole sessions, the sum of them.
pub fn keeps_plan(plan: &Value, course: Course, starts: &str, critical: &Critical, whose: &str) {
    assert_eq!(plan["kind"], "plan", "{whose}: {plan}");
    let week = &plan["weeks"][0];
    assert_eq!(week["starts"], starts, "{whose}");
    let mut sum = 0;
    let first: jiff::civil::Date = starts.parse().unwrap();
    let mut hard_days: Vec<jiff::civil::Date> = Vec::new();
    for session in week["sessions"].as_array().unwrap() {
        keeps_session(session, course, 60, critical, whose);
        sum += session["distance"].as_u64().unwrap();
        let on: jiff::civil::Date = session["on"].as_str().unwrap().parse().unwrap();
        assert!((0..7).contains(&(on - first).get_days()), "{whose}: {on}");
        if hardness(session) >= 3 {
            hard_days.push(on);
        }
    }
    assert_eq!(week["distance"].as_u64().unwrap(), sum, "{whose}");
    for pair in hard_days.windows(2) {
        assert!((pair[1] - pair[0]).get_days() > 1, "{whose}: hard days {hard_days:?}");
    }
}

/// At most three normal or hard weeks in a row; such a week at most 1.15 times
/// the largest such among the four before.
pub fn keeps_weeks(weeks: &[Value], whose: &str) {
    let loads = |week: &Value| week["kind"] == "normal" || week["kind"] == "hard";
    for four in weeks.windows(4) {
        assert!(!four.iter().all(loads), "{whose}: four in a row");
    }
    let (last, before) = weeks.split_last().unwrap();
    let largest = before
        .iter()
        .rev()
        .take(4)
        .filter(|week| loads(week))
        .map(|week| number(&week["distance"]))
        .fold(0.0, f64::max);
    if loads(last) && largest > 0.0 {
        let distance = number(&last["distance"]);
        assert!(distance <= 1.15 * largest + 1e-9, "{whose}: {distance} after {largest}");
    }
}

/// The highest level of a session.
pub fn hardness(session: &Value) -> u64 {
    session["blocks"]
        .as_array()
        .unwrap()
        .iter()
        .flat_map(|block| block["repeats"].as_array().unwrap())
        .map(|repeat| repeat["level"].as_u64().unwrap())
        .max()
        .unwrap_or(0)
}
