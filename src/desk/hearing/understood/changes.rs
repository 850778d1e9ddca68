//! The fields of a change to the set in force: those of the contract's `cut` where they tell
//! all of it, else its edits.

use serde_json::json;

use super::fields::Fields;
use super::words::strings;
use crate::message::{Edit, EditWhat, SetItem, SetPiece, TypedSet};
use crate::session::Scope;
use crate::units::SendOff;

/// One entry for each lane, or for all, where the contract's fields tell all that becomes of
/// it there; else one with the edits.
pub fn entries(edits: &[Edit]) -> Vec<Fields> {
    // What is changed for the same lanes and swimmers is one.
    let mut alike: Vec<Vec<&Edit>> = Vec::new();
    for edit in edits {
        let same = |of: &&mut Vec<&Edit>| {
            of.iter().any(|one| one.lanes == edit.lanes && one.names == edit.names)
        };
        match alike.iter_mut().find(same) {
            Some(of) => of.push(edit),
            None => alike.push(vec![edit]),
        }
    }
    alike.iter().flat_map(|edits| of_the_same(edits)).collect()
}

/// The entries of what is changed for the same lanes and swimmers.
fn of_the_same(edits: &[&Edit]) -> Vec<Fields> {
    let Some(first) = edits.first() else { return vec![] };
    let told: Option<Vec<Fields>> = edits.iter().map(|edit| as_cut(edit)).collect();
    let each_lane = told.is_some();
    let fields = match told {
        Some(told) => told.into_iter().fold(Fields::default(), Fields::merge),
        None => Fields::default().with("edits", json!(edits)),
    };
    let fields = match first.names.as_slice() {
        [] => fields,
        [one] => fields.with("who", one.to_string()),
        names => fields.with("who", strings(names)),
    };
    match first.lanes.as_slice() {
        [] => vec![fields],
        [_, _, ..] if !each_lane => vec![fields],
        lanes => lanes.iter().map(|lane| fields.clone().with("lane", *lane)).collect(),
    }
}

/// What becomes of the main set or of what is left, in the fields of a `cut`.
fn as_cut(edit: &Edit) -> Option<Fields> {
    if !matches!(edit.scope, Scope::Main | Scope::Rest) {
        return None;
    }
    let none = Fields::default();
    Some(match &edit.what {
        EditWhat::Count(count) => none.with("count", *count),
        EditWhat::SendOff(send_off) => none.with("send_off_s", send_off.seconds()),
        EditWhat::Rest(rest) => none.with("rest_s", rest.seconds()),
        EditWhat::Instead(set) => one_item(only(set)?),
        _ => return None,
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
