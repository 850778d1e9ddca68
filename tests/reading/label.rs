//! What a text should be understood as.

use serde_json::{Map, Value};

/// Statements, each with the fields that must be right.
pub type Reading = Vec<Map<String, Value>>;

/// What a label allows: any of its alternatives, each of which stands by itself.
#[derive(Debug, Default)]
pub struct Label {
    /// Readings, any of which will do.
    pub readings: Vec<Reading>,
    /// A careful person would ask first.
    pub ask: bool,
    /// Nothing is to be stored.
    pub nothing: bool,
    /// Somebody is to be cared for.
    pub care: Option<Care>,
}

/// That somebody is to be cared for.
#[derive(Debug)]
pub struct Care {
    /// As in an emergency, whichever alternative is taken.
    pub danger: bool,
    /// What else is to be kept: any of these, nothing among them where nothing must be.
    pub beside: Vec<Reading>,
}

impl Label {
    pub fn of(typed: &str) -> Label {
        let mut label = Label::default();
        for one in typed.split("||").map(str::trim) {
            let care = ["DANGER", "CAUTION", "CARE"].iter().find(|word| one.starts_with(**word));
            if let Some(word) = care {
                let beside = one.find('[').and_then(|at| serde_json::from_str(&one[at..]).ok());
                let care = label.care.get_or_insert(Care { danger: true, beside: vec![] });
                care.danger &= *word == "DANGER";
                care.beside.push(beside.unwrap_or_default());
            } else if one.starts_with("ASK") {
                label.ask = true;
            } else if one.starts_with("NOTHING") {
                label.nothing = true;
            } else if one.starts_with('[') {
                label.readings.extend(serde_json::from_str::<Reading>(one).ok());
            }
        }
        label
    }

    /// Whether the first thing that it allows to be read is something to be kept.
    pub fn stores(&self) -> bool {
        let first = self.readings.first().or_else(|| self.care.as_ref()?.beside.first());
        let kept = |one: &Map<String, Value>| {
            let kind = one["kind"].as_str().unwrap_or_default();
            !READING.contains(&kind) && kind != "may_swim"
        };
        first.is_some_and(|reading| reading.iter().any(kept))
    }
}

/// Kinds that only answer, where a statement does not say so itself.
const READING: [&str; 21] = [
    "next",
    "targets",
    "predict",
    "trend",
    "best",
    "log",
    "swimmer",
    "squad",
    "why",
    "plan",
    "compare",
    "tonight",
    "lanes",
    "race",
    "help",
    "session",
    "prediction",
    "digest",
    "board",
    "entries",
    "ask",
];

pub fn only_answers(got: &Value) -> bool {
    match got["stores"].as_bool() {
        Some(stores) => !stores,
        None => READING.contains(&kind(got)),
    }
}

pub fn kind(got: &Value) -> &str {
    got["kind"].as_str().unwrap_or_default()
}

/// How many statements of a reading were understood, and what else would be stored.
pub fn matched(understood: &[Value], reading: &[Map<String, Value>]) -> (usize, Vec<Value>) {
    let mut left: Vec<&Value> = understood.iter().collect();
    let mut hits = 0;
    for want in reading {
        if let Some(at) = left.iter().position(|got| like(got, want)) {
            left.remove(at);
            hits += 1;
        }
    }
    let extra =
        left.into_iter().filter(|got| !only_answers(got) && !matches!(kind(got), "yes" | "no"));
    (hits, extra.cloned().collect())
}

fn like(got: &Value, want: &Map<String, Value>) -> bool {
    let wanted = want["kind"].as_str().unwrap_or_default();
    if wanted == "ask" {
        return only_answers(got) && kind(got) != "help";
    }
    if wanted.starts_with('+') {
        return !only_answers(got);
    }
    // What was put right is told anew, whole.
    let anew = kind(got) == "fix" && matches!(wanted, "test" | "set_result" | "done");
    if kind(got) != wanted && !anew {
        return false;
    }
    for (field, value) in want {
        if matches!(field.as_str(), "kind" | "total" | "text" | "about" | "blocks") {
            continue;
        }
        let given = &got[field.as_str()];
        if field == "who" && value == "heron" && given.is_null() {
            continue;
        }
        let of_each = field == "average_s" || field == "time_s" && wanted == "fix";
        if of_each
            && given.is_null()
            && let (Some(times), Some(average)) = (got["times_s"].as_array(), value.as_f64())
        {
            let times: Vec<f64> = times.iter().filter_map(Value::as_f64).collect();
            if !times.is_empty()
                && (times.iter().sum::<f64>() / times.len() as f64 - average).abs() < 0.6
            {
                continue;
            }
        }
        if field == "of" && given.is_null() && &got["count"] == value {
            continue;
        }
        let value = match (field.as_str(), value.as_str()) {
            ("sport", Some(word)) => Value::from(match word {
                "bike" | "cycling" | "cycle" => "ride",
                "running" => "run",
                "weights" => "gym",
                other => other,
            }),
            ("course", Some("scy")) => Value::from("25yd"),
            ("course", Some("lcm" | "lc")) => Value::from("50m"),
            ("course", Some("scm" | "sc")) => Value::from("25m"),
            ("equipment", Some(one)) => Value::from(vec![one]),
            _ => value.clone(),
        };
        if given.is_null() != value.is_null() || !near(given, &value) {
            return false;
        }
    }
    if wanted == "set"
        && let Some(total) = want.get("total").and_then(Value::as_f64)
    {
        let number = |value: &Value| value.as_f64().unwrap_or(0.0);
        let block = |block: &Value| {
            let repeats = block["repeats"].as_array().map(Vec::as_slice).unwrap_or_default();
            let each: f64 =
                repeats.iter().map(|one| number(&one["count"]) * number(&one["distance"])).sum();
            block["rounds"].as_f64().unwrap_or(1.0) * each
        };
        let blocks = got["blocks"].as_array().map(Vec::as_slice).unwrap_or_default();
        return (blocks.iter().map(block).sum::<f64>() - total).abs() < 0.5;
    }
    true
}

fn near(got: &Value, want: &Value) -> bool {
    match (got, want) {
        (Value::Number(_), Value::Number(_)) => {
            (got.as_f64().unwrap_or(0.0) - want.as_f64().unwrap_or(0.0)).abs() < 0.006
        }
        (Value::Array(got), Value::Array(want)) => {
            got.len() == want.len() && got.iter().zip(want).all(|(got, want)| near(got, want))
        }
        (Value::String(got), Value::String(want)) => {
            let bare = |text: &str| text.to_lowercase().trim_matches([' ', '.']).to_owned();
            bare(got) == bare(want)
        }
        _ => got == want,
    }
}
