//! A reading in one line that a swimmer could check: `heron: test {distance:
//! 200, time: 3:12}`. Made from the tree's own JSON, so no field can hide.

use lapwing::message::{Reading, Statement};
use lapwing::units::Centis;
use serde_json::Value;

/// The lines that stand below a text in the corpus.
pub fn lines(reading: &Reading) -> Vec<String> {
    match reading {
        Reading::Understood(message) => {
            message.statements.iter().map(|one| format!("= {}", statement(one))).collect()
        }
        Reading::Unsure { options, asks, .. } => {
            let asks = serde_json::to_value(asks).unwrap();
            let mut lines = vec![format!("? {}", doubt(&asks))];
            for option in options {
                let said: Vec<String> = option.message.statements.iter().map(statement).collect();
                lines.push(format!("{} -> {}", option.word, said.join("; ")));
            }
            lines
        }
        Reading::NotUnderstood { understood, rest, example } => {
            let mut lines: Vec<String> =
                understood.iter().map(|one| format!("= {}", statement(one))).collect();
            lines.push(format!("! {rest}"));
            lines.push(format!("try {example}"));
            lines
        }
    }
}

fn doubt(value: &Value) -> String {
    let mut fields = value.as_object().unwrap().clone();
    let name = fields.remove("doubt").unwrap();
    match fields.is_empty() {
        true => plain(&name),
        false => format!("{} {}", plain(&name), object(&fields)),
    }
}

/// One statement.
pub fn statement(statement: &Statement) -> String {
    let kind = serde_json::to_value(&statement.kind).unwrap();
    let said = match kind.as_object().and_then(|one| one.iter().next()) {
        None => plain(&kind),
        Some((name, value)) => format!("{name} {}", shown(name, value)).trim_end().to_owned(),
    };
    match &statement.who {
        Some(who) => format!("{who}: {said}"),
        None => said,
    }
}

fn plain(value: &Value) -> String {
    value.as_str().map_or_else(|| value.to_string(), str::to_owned)
}

fn time(value: &Value) -> String {
    Centis::new(u32::try_from(value.as_u64().unwrap()).unwrap()).unwrap().short()
}

fn object(fields: &serde_json::Map<String, Value>) -> String {
    let absent = |name: &str, value: &Value| {
        let quiet = ["meet", "shortened", "open_water", "skip_round", "all_but"].contains(&name);
        value.is_null() || value.as_array().is_some_and(Vec::is_empty) || (quiet && *value == false)
    };
    let shown: Vec<String> = fields
        .iter()
        .filter(|(name, value)| !absent(name, value))
        .map(|(name, value)| format!("{name}: {}", self::shown(name, value)))
        .collect();
    if shown.is_empty() { String::new() } else { format!("{{{}}}", shown.join(", ")) }
}

fn shown(name: &str, value: &Value) -> String {
    match (name, value) {
        ("rest" | "target" | "duration" | "sum" | "time" | "splits", Value::Number(_)) => {
            time(value)
        }
        ("send_off", Value::Number(seconds)) => time(&Value::from(seconds.as_u64().unwrap() * 100)),
        ("rpe", Value::Number(tenths)) => format!("{}", tenths.as_f64().unwrap() / 10.0),
        ("days", Value::Number(day)) => weekday(day.as_u64().unwrap()).to_owned(),
        (_, Value::Object(fields)) => special(fields).unwrap_or_else(|| object(fields)),
        ("slashed" | "day_month" | "slashed_year", Value::Array(all)) => {
            all.iter().map(plain).collect::<Vec<_>>().join("/")
        }
        (_, Value::Array(all)) => {
            let each: Vec<String> = all.iter().map(|one| shown(name, one)).collect();
            format!("[{}]", each.join(", "))
        }
        (_, Value::Null) => if name == "times" { "x" } else { "" }.to_owned(),
        (_, other) => plain(other),
    }
}

fn weekday(day: u64) -> &'static str {
    ["mon", "tue", "wed", "thu", "fri", "sat", "sun"][usize::try_from(day).unwrap() - 1]
}

/// Lengths, times and days, as people write them.
fn special(fields: &serde_json::Map<String, Value>) -> Option<String> {
    if let (Some(amount), Some(unit)) = (fields.get("amount"), fields.get("unit")) {
        return Some(format!("{amount}{}", unit.as_str().unwrap_or_default()));
    }
    if let (Some(readings), Some(tenths)) = (fields.get("readings"), fields.get("tenths")) {
        let times: Vec<String> = readings.as_array()?.iter().map(time).collect();
        let mark = if *tenths == Value::Bool(true) { " tenths" } else { "" };
        return Some(format!("{}{mark}", times.join(" or ")));
    }
    let (name, value) = fields.iter().next().filter(|_| fields.len() == 1)?;
    match (name.as_str(), value) {
        ("on", Value::Number(day)) => Some(weekday(day.as_u64()?).to_owned()),
        ("last", Value::Number(day)) => Some(format!("last {}", weekday(day.as_u64()?))),
        ("slashed" | "slashed_year" | "day_month", value) => Some(shown(name, value)),
        ("full", value) => Some(plain(value)),
        ("item" | "rounds", value) => Some(format!("{name} {}", shown(name, value))),
        ("descend" | "ascend", value) => {
            Some(format!("{name} {}", shown("", value)).trim().to_owned())
        }
        _ => None,
    }
}
