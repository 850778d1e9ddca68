//! Every kind of request by name; a new one needs a row in the table.

use jiff::civil::date;
use lapwing::language::Language;
use lapwing::message::{Approval, Kind, Message, Name, People, Reading, Regular, parse};
use lapwing::reading::situation::{Known, Line, Phase, Role, SetInForce};
use lapwing::reading::{Decision, Situation, read};
use lapwing::units::Stroke;
use strum::VariantNames;

/// All of them that a text can be alone; a bare word that answers a question is none,
/// and what puts the text before right is none. Those of several rights count apart.
pub fn all() -> Vec<&'static str> {
    let whole = ["Approval", "Choose", "People", "Regular", "Restate"];
    let kinds = Kind::VARIANTS.iter().filter(|kind| !whole.contains(kind));
    kinds.chain(APART).chain(People::VARIANTS).copied().collect()
}

const APART: &[&str] = &["ApprovalOption", "Approve", "Digest", "WeeklyNote"];

/// The kinds of request in a text: in our own notation, in a coach's own words, or in
/// a swimmer's.
pub fn of_text(text: &str) -> Vec<&'static str> {
    let strict = match parse(text, Language::English) {
        Reading::Understood(Message { statements }) => statements,
        _ => vec![],
    };
    let free = [Role::Coach, Role::Swimmer].map(|role| match read(text, &dusk(role)) {
        Decision::Take { says, .. } => says,
        Decision::Ask { options, .. } => options.into_iter().flat_map(|(_, says)| says).collect(),
        Decision::Nothing => vec![],
    });
    strict.iter().chain(free.iter().flatten()).map(|one| of(&one.kind)).collect()
}

/// The squad of the table, as far as a text's kind hangs on it.
fn dusk(role: Role) -> Situation {
    let known = |name: &str| Known { name: Name::new(name).unwrap(), bests: vec![] };
    let line = Line {
        count: 8,
        distance: 50,
        stroke: Stroke::Free,
        send_off: None,
        target: None,
        main: true,
    };
    Situation {
        role,
        people: ["heron", "siskin", "dunnock", "wren", "plover"].map(known).to_vec(),
        me: Some(0),
        phase: Phase::During,
        set: Some(SetInForce { on: date(2026, 3, 4), lines: vec![line] }),
        ..Situation::default()
    }
}

fn of(kind: &Kind) -> &'static str {
    match kind {
        Kind::Regular(Regular::Note | Regular::NoteWanted { .. }) => "WeeklyNote",
        Kind::Regular(_) => "Digest",
        Kind::Approval(Approval::Wanted { .. }) => "ApprovalOption",
        Kind::Approval(_) => "Approve",
        Kind::People(people) => people.into(),
        kind => kind.into(),
    }
}
