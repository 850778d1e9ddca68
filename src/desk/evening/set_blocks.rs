//! A set in trade notation as blocks, in the contract's form: nested rounds
//! unrolled to one level, each item as it was written.

use serde_json::{Value, json};

use crate::desk::decision::resolve;
use crate::message::{SetItem, SetLine, SetPiece};
use crate::session::Part;
use crate::units::{Course, Equipment, Stroke};

/// One block a line, or a round of its own where rounds stand in a line.
pub fn blocks(lines: &[SetLine], course: Course) -> Vec<Value> {
    let mut all = Vec::new();
    for line in lines {
        let part = line.part.unwrap_or(Part::Main);
        let mut loose: Vec<&SetItem> = Vec::new();
        for piece in &line.pieces {
            match piece {
                SetPiece::Item(item) => loose.push(item),
                SetPiece::Rounds(rounds) => {
                    flush(&mut all, part, &mut loose, course);
                    let inside = flat(&rounds.pieces);
                    all.push(block(part, rounds.times, &inside, course));
                }
            }
        }
        flush(&mut all, part, &mut loose, course);
    }
    all
}

fn flush(all: &mut Vec<Value>, part: Part, loose: &mut Vec<&SetItem>, course: Course) {
    if !loose.is_empty() {
        all.push(block(part, 1, loose, course));
        loose.clear();
    }
}

/// The items of nested rounds, each as often as it is swum.
pub fn flat(pieces: &[SetPiece]) -> Vec<&SetItem> {
    pieces
        .iter()
        .flat_map(|piece| match piece {
            SetPiece::Item(item) => vec![item],
            SetPiece::Rounds(rounds) => {
                let inside = flat(&rounds.pieces);
                (0..rounds.times).flat_map(|_| inside.clone()).collect()
            }
        })
        .collect()
}

fn block(part: Part, rounds: u16, items: &[&SetItem], course: Course) -> Value {
    json!({
        "part": part,
        "rounds": rounds,
        "repeats": items.iter().map(|item| repeat(item, course)).collect::<Vec<_>>(),
    })
}

fn repeat(item: &SetItem, course: Course) -> Value {
    let unit = resolve::distance(item.distance, course).map(|distance| distance.unit().name());
    let mut repeat = json!({
        "count": item.count,
        "distance": item.distance.amount,
        "unit": unit,
        "stroke": item.stroke.unwrap_or(Stroke::Free),
        "target_s": item.target.map(|time| time.seconds()),
        "send_off_s": item.send_off.map(|send_off| send_off.seconds()),
        "rest_s": item.rest.map(|time| time.seconds()),
        "level": item.level,
        "equipment": item.equipment.iter().map(|kit: &Equipment| kit.name()).collect::<Vec<_>>(),
        "cue": item.comment,
    });
    if let (Some(test), Value::Object(fields)) = (item.pace_of, &mut repeat) {
        fields.insert("pace_of".into(), test.amount.into());
    }
    repeat
}
