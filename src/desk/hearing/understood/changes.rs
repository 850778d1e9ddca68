//! The fields of a change to the set in force: `cut` where the contract's fields tell all of
//! it, else `change`.

use serde_json::json;

use super::fields::Fields;
use super::words::strings;
use crate::message::{Edit, EditWhat, SetItem, SetPiece, TypedSet};
use crate::session::Scope;
use crate::units::SendOff;

/// One entry for each lane of a `cut`, and one for all that is more than that.
pub fn entries(edits: &[Edit]) -> Vec<(&'static str, Fields)> {
    let mut entries = Vec::new();
    let mut more: Vec<&Edit> = Vec::new();
    for edit in edits {
        let Some(fields) = as_cut(edit) else {
            more.push(edit);
            continue;
        };
        let lanes: Vec<Option<u8>> = match edit.lanes.as_slice() {
            [] => vec![None],
            lanes => lanes.iter().copied().map(Some).collect(),
        };
        for lane in lanes {
            entries.push(("cut", fields.clone().with("lane", lane)));
        }
    }
    if !more.is_empty() {
        entries.push(("change", Fields::default().with("edits", json!(more))));
    }
    entries
}

/// What becomes of the main set or of what is left, in the fields of a `cut`.
fn as_cut(edit: &Edit) -> Option<Fields> {
    if !matches!(edit.scope, Scope::Main | Scope::Rest) {
        return None;
    }
    let none = Fields::default();
    let fields = match &edit.what {
        EditWhat::Count(count) => none.with("count", *count),
        EditWhat::SendOff(send_off) => none.with("send_off_s", send_off.seconds()),
        EditWhat::Rest(rest) => none.with("rest_s", rest.seconds()),
        EditWhat::Instead(set) => one_item(only(set)?),
        _ => return None,
    };
    Some(match edit.names.as_slice() {
        [] => fields,
        [one] => fields.with("who", one.to_string()),
        names => fields.with("who", strings(names)),
    })
}

/// The one thing that is swum instead, where it is but one.
fn only(set: &TypedSet) -> Option<&SetItem> {
    match set.lines.as_slice() {
        [line] => match line.pieces.as_slice() {
            [SetPiece::Item(item)] => Some(item),
            _ => None,
        },
        _ => None,
    }
}

fn one_item(item: &SetItem) -> Fields {
    Fields::default()
        .with("count", item.count)
        .with("distance", item.distance.amount)
        .with("send_off_s", item.send_off.map(SendOff::seconds))
        .with("rest_s", item.rest.map(|rest| rest.seconds()))
        .with("stroke", item.stroke.map(|stroke| stroke.name()))
}
