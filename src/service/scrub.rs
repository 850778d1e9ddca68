//! What is left of a stated squad once one of its swimmers is forgotten: wherever
//! she stands in it, in whatever field, she goes.

use serde_json::Value;

use crate::journal::Part;
use crate::profile::Gone;

/// The parts without her.
pub(super) fn scrubbed(parts: Vec<Part>, gone: &Gone) -> Vec<Part> {
    let hers = format!("swimmer/{}", gone.who);
    let others = parts.into_iter().filter(|part| part.name != hers);
    let less = others.map(|part| match serde_json::from_slice(&part.bytes) {
        Ok(mut value) => {
            scrub(&mut value, gone);
            Part { bytes: value.to_string().into_bytes(), ..part }
        }
        // What is no data is nobody's to keep either.
        Err(_) => Part { bytes: Vec::new(), ..part },
    });
    less.collect()
}

fn scrub(value: &mut Value, gone: &Gone) {
    let hers = |word: &str| word == gone.who.as_str() || gone.is_hers(word);
    let is_hers = |value: &Value| value.as_str().is_some_and(hers);
    match value {
        Value::String(text) if gone.is_named_in(text) => text.clear(),
        Value::Array(all) => {
            all.retain(|one| !is_hers(one));
            all.iter_mut().for_each(|one| scrub(one, gone));
        }
        Value::Object(fields) => {
            fields.retain(|name, one| !hers(name) && !is_hers(one));
            fields.values_mut().for_each(|one| scrub(one, gone));
        }
        _ => {}
    }
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::*;
    use crate::message::Name;
    use crate::profile::Event;

    #[test]
    fn she_goes_from_lists_maps_and_words() {
        let mut gone = Gone::new(Name::new("heron").unwrap());
        let (address, name) = ("+1555".to_owned(), Name::new("heron").unwrap());
        gone.note(1, &Event::Joined { address, name });
        let head = json!({
            "members": { "+1555": { "name": "heron" }, "+1556": { "name": "teal" } },
            "claims": { "AB": "heron", "CD": "wren" },
            "lanes": [{ "swimmers": ["heron", "teal"] }],
            "note": "behind heron",
        });
        let part = |name: &str, value: &Value| Part {
            name: name.into(),
            bytes: value.to_string().into_bytes(),
        };
        let parts = vec![part("head", &head), part("swimmer/heron", &json!({}))];
        let less = scrubbed(parts, &gone);
        let left = json!({
            "members": { "+1556": { "name": "teal" } },
            "claims": { "CD": "wren" },
            "lanes": [{ "swimmers": ["teal"] }],
            "note": "",
        });
        assert_eq!(less, vec![part("head", &left)]);
    }
}
