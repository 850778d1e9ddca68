//! Repeats that come to the set.

use super::lanes_and_names::{cuts, lanes, names_line};
use super::replaced::{base, mains, said};
use crate::message::{Cut, EditWhat, Kind, Scope, Statement};
use crate::reading::frame::Clause;
use crate::reading::frame::candidate::Candidate;
use crate::reading::frame::sets::writer::{WrittenPart, write};
use crate::reading::lexicon::Concept;
use crate::reading::piece::Item;
use crate::reading::situation::{Line, Phase};
use crate::session::Part;

/// `add another 4x50 same turnaround`, `stick 4x25 fly in before the swim down`.
pub fn added(c: &Clause<'_, '_>, main: &Line) -> Option<Candidate> {
    if !c.has_any(&[Concept::Add, Concept::Extra])
        && !c.pieces.iter().any(|piece| {
            matches!(
                piece.text,
                "after"
                    | "stick"
                    | "chuck"
                    | "throw"
                    | "despues"
                    | "agrega"
                    | "anade"
                    | "mete"
                    | "sumale"
            )
        })
    {
        return None;
    }
    let written = write(c);
    let swims = written.swims();
    let [first] = swims.as_slice() else { return None };
    let mut candidate = Candidate::new("change", c.len());
    let lanes = lanes(c, &mut candidate);
    for (at, piece) in c.pieces.iter().enumerate() {
        candidate.used[at] |= written.used[at]
            || !matches!(
                piece.item,
                Item::Figure(_) | Item::Repeat(..) | Item::Far(_) | Item::Person(_)
            );
    }
    if first.length.amount == main.distance
        && first.count > 1
        && first.is_bare()
        && c.sit.phase == Phase::During
    {
        let count = u16::try_from(main.count + first.count).ok()?;
        candidate.says = cuts(&lanes, |lane| Cut { lane, count: Some(count), ..Cut::default() });
        return Some(candidate.at_cost(0.4));
    }
    if first.count == 1 && !matches!(c.pieces[first.at].item, Item::Far(_) | Item::Figure(_)) {
        return None;
    }
    let parts = mains(written.parts.clone());
    let mut whole = base(c);
    let end = whole
        .iter()
        .rposition(
            |part| matches!(part, WrittenPart::One(swim) if swim.part == Some(Part::SwimDown)),
        )
        .unwrap_or(whole.len());
    let before_main = c.pieces.array_windows::<3>().any(|three| {
        three[0].text == "before" && (names_line(&three[1], main) || names_line(&three[2], main))
    });
    let place = if before_main {
        whole
            .iter()
            .position(
                |part| matches!(part, WrittenPart::One(swim) if swim.part == Some(Part::Main)),
            )
            .unwrap_or(end)
    } else {
        end
    };
    for (more, part) in parts.iter().enumerate() {
        whole.insert(place + more, part.clone());
    }
    let mut read = said(c, candidate, whole, EditWhat::Add, &parts, Scope::Rest)?;
    if let Some(Statement { kind: Kind::Change(edits), .. }) = read.says.first_mut() {
        edits.iter_mut().for_each(|edit| edit.lanes.clone_from(&lanes));
    }
    Some(read)
}
