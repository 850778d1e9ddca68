//! Which figure, day or person of a text each value of its label is.

use lapwing::reading::likely::{MayBe, Stands, Telling};
use serde_json::{Map, Value};

use super::label::Reading;

/// True of a reading that says of what day it is: what one stands for that doesn't is unknown.
pub fn is_dated(reading: &Reading) -> bool {
    let dated = |field: &String| matches!(Field::of(field), Some(Field::Dated(_)));
    reading.iter().any(|one| one.keys().any(dated))
}

/// What each piece stands for by one reading of a label, and what that tells; nothing where a
/// value stands nowhere in the text.
pub fn aligned(pieces: &[MayBe], reading: &Reading) -> Option<(Vec<Telling>, Vec<Stands>)> {
    let mut stands = vec![Stands::Aside; pieces.len()];
    let mut tells = Vec::new();
    for one in reading {
        tells.push(telling(one)?);
        // Of `48 49 50 49` none is the 50 m that they were swum over.
        let listed =
            one.get("times_s").is_some_and(|it| it.as_array().is_some_and(|it| it.len() > 1));
        let (first, then): (Vec<_>, Vec<_>) =
            one.iter().partition(|(field, _)| listed && *field == "times_s");
        for (field, value) in first.into_iter().chain(then) {
            let Some(field) = Field::of(field) else { continue };
            let values: Vec<&Value> = match value {
                // One time for all is said once.
                Value::Array(all) if all.windows(2).all(|two| two[0] == two[1]) => {
                    all.iter().take(1).collect()
                }
                Value::Array(all) => all.iter().collect(),
                one => vec![one],
            };
            let mut missing = 0;
            for value in &values {
                missing += usize::from(!place(pieces, &mut stands, field, value, one));
            }
            // Of several times some may be told together; what is usual isn't said.
            let some = values.len() > 1 && missing < values.len();
            if missing > 0 && !some && !field.is_usual(&values) {
                return None;
            }
        }
    }
    tells.sort_unstable();
    tells.dedup();
    Some((tells, stands))
}

/// What one statement of a label tells; nothing of a kind that we don't know.
pub fn telling(one: &Map<String, Value>) -> Option<Telling> {
    let kind = one["kind"].as_str()?.trim_start_matches('+');
    Telling::named(kind, one.get("in").and_then(Value::as_bool))
}

/// How many repeats the set of the contexts' evening has.
const EVENINGS: f64 = 8.0;

/// What a field's values are, and what stands for them.
#[derive(Clone, Copy)]
enum Field {
    Seconds(Stands),
    Counted(Stands),
    Dated(Stands),
    Person,
}

impl Field {
    fn of(name: &str) -> Option<Field> {
        Some(match name {
            "time_s" | "times_s" | "average_s" => Field::Seconds(Stands::Swum),
            "send_off_s" => Field::Seconds(Stands::SendOff),
            "rest_s" => Field::Seconds(Stands::Rest),
            "duration_s" => Field::Seconds(Stands::Lasts),
            "goal_s" => Field::Seconds(Stands::Goal),
            "distance" | "distances" => Field::Counted(Stands::Distance),
            "count" => Field::Counted(Stands::Count),
            "made" => Field::Counted(Stands::Made),
            "rpe" => Field::Counted(Stands::Effort),
            "level" => Field::Counted(Stands::Level),
            "minutes" | "minutes_left" => Field::Counted(Stands::Lasts),
            "late_min" => Field::Counted(Stands::Late),
            "lane" | "lanes" => Field::Counted(Stands::Lane),
            "on" => Field::Dated(Stands::On),
            "until" => Field::Dated(Stands::Until),
            "starts" => Field::Dated(Stands::Starts),
            "who" => Field::Person,
            _ => return None,
        })
    }

    /// True of what need not be said: today, all of the evening's set, 50s, a 200 test.
    fn is_usual(self, values: &[&Value]) -> bool {
        match (self, values) {
            (Field::Dated(_), [Value::String(day)]) => day == "2026-03-04",
            (Field::Counted(Stands::Count | Stands::Made), [one]) => one.as_f64() == Some(EVENINGS),
            (Field::Counted(Stands::Distance), [one]) => matches!(one.as_f64(), Some(50.0 | 200.0)),
            _ => values.is_empty() || values.iter().all(|one| one.is_null()),
        }
    }
}

/// The first free piece that may be this value, taken.
fn place(
    pieces: &[MayBe],
    stands: &mut [Stands],
    field: Field,
    value: &Value,
    of: &Map<String, Value>,
) -> bool {
    let near = |all: &[f64], one: f64| all.iter().any(|it| (it - one).abs() < 0.006);
    for (at, piece) in pieces.iter().enumerate() {
        if stands[at] != Stands::Aside {
            continue;
        }
        let found = match field {
            Field::Seconds(as_what) => value.as_f64().and_then(|one| {
                if near(&piece.joined, one) {
                    stands[at + 1] = Stands::Tail;
                    return Some(as_what);
                }
                near(&piece.seconds, one).then_some(as_what)
            }),
            Field::Counted(as_what) => value.as_f64().and_then(|one| {
                // A set that is changed has as many as the evening's of all contexts.
                let changed = as_what == Stands::Count && of["kind"] == "cut";
                let all = match as_what {
                    Stands::Made => of.get("of").and_then(Value::as_f64),
                    _ => changed.then_some(EVENINGS),
                };
                let is_rest = all.is_some_and(|all| near(&piece.counted, all - one));
                let is_more = changed && near(&piece.counted, one - EVENINGS);
                match near(&piece.counted, one) {
                    true => Some(as_what),
                    false if is_rest => Some(Stands::Lost),
                    false if is_more => Some(Stands::Extra),
                    false => None,
                }
            }),
            Field::Dated(as_what) => {
                value.as_str().filter(|day| piece.days.iter().any(|it| it == day)).map(|_| as_what)
            }
            Field::Person => (piece.name.is_some() && piece.name.as_deref() == value.as_str())
                .then_some(Stands::Whom),
        };
        if let Some(found) = found {
            stands[at] = found;
            return true;
        }
    }
    false
}
