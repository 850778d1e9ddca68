//! What is left of a stated squad once one of its swimmers is forgotten: wherever
//! they stand in it, in whatever field, they go.

use serde_json::Value;

use super::OpenError;
use super::examine::part_of_squad;
use crate::history::Gone;
use crate::journal::Part;

/// The parts without them.
///
/// # Errors
/// What is left of one can't be read.
pub(super) fn scrubbed(parts: Vec<Part>, gone: &Gone) -> Result<Vec<Part>, OpenError> {
    let theirs = format!("swimmer/{}", gone.who);
    parts.into_iter().filter(|part| part.name != theirs).map(|part| less(part, gone)).collect()
}

fn less(part: Part, gone: &Gone) -> Result<Part, OpenError> {
    let told = |error| OpenError::Snapshot { name: part.name.clone(), error };
    let mut value: Value = serde_json::from_slice(&part.bytes).map_err(told)?;
    let mut without = value.clone();
    scrub(&mut without, gone);
    let less = Part { bytes: without.to_string().into_bytes(), ..part.clone() };
    if part_of_squad(&less).is_ok() {
        return Ok(less);
    }
    // Something is nothing without its part of them, and goes as a whole.
    drop_what_names(&mut value, gone);
    scrub(&mut value, gone);
    let less = Part { bytes: value.to_string().into_bytes(), ..part };
    part_of_squad(&less).map(|()| less)
}

/// Drops every entry of a list that speaks of them, but what the club must keep, and
/// what waits for a code.
fn drop_what_names(value: &mut Value, gone: &Gone) {
    match value {
        Value::Array(all) => {
            all.retain(|one| !names(one, gone));
            all.iter_mut().for_each(|one| drop_what_names(one, gone));
        }
        Value::Object(fields) => {
            fields.retain(|name, one| name != "confirmation" || !names(one, gone));
            let kept = fields.iter_mut().filter(|(name, _)| *name != "records");
            kept.for_each(|(_, one)| drop_what_names(one, gone));
        }
        _ => {}
    }
}

fn names(value: &Value, gone: &Gone) -> bool {
    match value {
        Value::String(text) => text == gone.who.as_str() || gone.is_theirs(text),
        Value::Array(all) => all.iter().any(|one| names(one, gone)),
        Value::Object(fields) => fields.values().any(|one| names(one, gone)),
        _ => false,
    }
}

fn scrub(value: &mut Value, gone: &Gone) {
    let theirs = |word: &str| word == gone.who.as_str() || gone.is_theirs(word);
    let is_theirs = |value: &Value| value.as_str().is_some_and(theirs);
    match value {
        Value::String(text) if gone.is_named_in(text) => text.clear(),
        Value::Array(all) => {
            all.retain(|one| !is_theirs(one));
            all.iter_mut().for_each(|one| scrub(one, gone));
        }
        Value::Object(fields) => {
            fields.retain(|name, one| !theirs(name) && !is_theirs(one));
            fields.values_mut().for_each(|one| scrub(one, gone));
        }
        _ => {}
    }
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::*;
    use crate::history::{Event, Squad, SquadId};
    use crate::message::Name;

    fn heron() -> Gone {
        let mut gone = Gone::new(Name::new("heron").unwrap());
        let (address, name) = ("+1555".to_owned(), Name::new("heron").unwrap());
        gone.note(1, &Event::Joined { address, name });
        gone
    }

    /// The head of a squad with these fields, before and after.
    fn head(fields: &Value) -> (Value, Value) {
        let squad = Squad::unopened(SquadId("dusk".into()));
        let mut head = serde_json::to_value(squad).unwrap();
        for (name, value) in fields.as_object().unwrap() {
            head[name] = value.clone();
        }
        let part = |name: &str, value: &Value| Part {
            name: name.into(),
            bytes: value.to_string().into_bytes(),
        };
        let parts = vec![part("head", &head), part("swimmer/heron", &json!({}))];
        let less = scrubbed(parts, &heron()).unwrap();
        assert_eq!(less.len(), 1);
        (head, serde_json::from_slice(&less[0].bytes).unwrap())
    }

    #[test]
    fn she_goes_from_maps_and_words() {
        let claims = json!({ "AB": "heron", "CD": "wren" });
        let (mut before, after) = head(&json!({ "name": "behind heron", "claims": claims }));
        before["name"] = json!("");
        before["claims"] = json!({ "CD": "wren" });
        assert_eq!(after, before);
    }

    #[test]
    fn what_is_nothing_without_her_goes_whole() {
        let open = |address: &str| {
            let (at, until) = ("2026-03-02T18:00:00Z", "2026-03-03T06:00:00Z");
            json!({ "address": address, "token": "ab", "opened": at, "until": until })
        };
        let pending = json!({ "goes": { "address": "+1555" } });
        let until = "2026-03-02T19:00:00Z";
        let waits = json!({ "by": "+1556", "pending": pending, "digest": "cd", "until": until });
        let fields = json!({ "boards": [open("+1555"), open("+1556")], "confirmation": waits });
        let (mut before, after) = head(&fields);
        before["boards"] = json!([open("+1556")]);
        before.as_object_mut().unwrap().remove("confirmation");
        assert_eq!(after, before);
    }
}
