//! How likely it is that a text's best reading is not what was meant.
//!
//! A second linear model, `grammar/weights/doubt.txt`, trained like the first from the
//! labelled texts (`tests/reading/train.rs`). It reads nothing: it says of a reading
//! that would be kept whether to keep it or to ask first, from what that leaves
//! unexplained, what it costs and who says it.

use std::sync::LazyLock;

use super::Class;
use super::feature::each_once;
use super::linear::PART;
use crate::message::Statement;
use crate::reading::decide::stores;
use crate::reading::frame::Clause;
use crate::reading::lexicon::{Fixed, Sense};
use crate::reading::piece::{Item, Piece};
use crate::reading::rank::{Part, Ranked};
use crate::reading::situation::{Phase, Role};

/// The odds, as a logarithm, that a reading is not what was meant.
pub fn doubt(ranked: &Ranked, says: &[Statement], whole: &Clause<'_, '_>) -> f32 {
    let features = features(ranked, says, whole);
    let weight = |feature: &String| WEIGHTS.get(feature.as_str()).copied().unwrap_or_default();
    let sum: f32 = features.iter().map(weight).sum();
    let bias = WEIGHTS.get("bias").copied().unwrap_or_default();
    sum / (features.len() as f32).sqrt() + bias
}

static WEIGHTS: LazyLock<Fixed<&'static str, f32>> = LazyLock::new(|| {
    let table = include_str!("../../../grammar/weights/doubt.txt");
    let row = |line: &'static str| {
        let (feature, weight) = line.rsplit_once('\t')?;
        Some((feature, weight.parse::<f32>().ok()? * PART))
    };
    table.lines().filter(|line| !line.starts_with('#')).filter_map(row).collect()
});

/// What the model looks at in a reading: each feature once.
pub fn features(ranked: &Ranked, says: &[Statement], whole: &Clause<'_, '_>) -> Vec<String> {
    let role = match whole.sit.role {
        Role::Coach => "coach",
        Role::Swimmer => "swimmer",
    };
    let phase = match whole.sit.phase {
        Phase::None => "free",
        Phase::Before => "before",
        Phase::During => "during",
        Phase::After => "after",
    };
    let mut all = vec![role.to_owned(), format!("{role} {phase}")];
    let mut kinds: Vec<&str> = Vec::new();
    for one in says.iter().filter(|one| stores(&one.kind)) {
        let kind = Class::of(&one.kind).map_or("other", Class::name);
        if !kinds.contains(&kind) {
            kinds.push(kind);
        }
        all.push(format!("{kind} {}", if one.who.is_some() { "named" } else { "own" }));
    }
    kinds.sort_unstable();
    for one in says.iter().filter(|one| stores(&one.kind)) {
        let Some(class) = Class::of(&one.kind) else { continue };
        below(&mut all, "odds", whole.likely.of(class));
        below(&mut all, &format!("odds {}", class.name()), whole.likely.of(class));
    }
    let told: Vec<Class> = says.iter().filter_map(|one| Class::of(&one.kind)).collect();
    if let Some((other, odds)) =
        whole.likely.ranked().into_iter().find(|(class, _)| !told.contains(class))
    {
        above(&mut all, "other odds", odds, ODDS);
        if odds > OTHER {
            all.push(format!("other {}", other.name()));
            all.extend(kinds.iter().map(|kind| format!("{kind} other {}", other.name())));
        }
    }
    for kind in &kinds {
        all.push(format!("says {kind}"));
        all.push(format!("{role} says {kind}"));
        all.push(format!("{phase} says {kind}"));
    }
    if kinds.len() > 1 {
        all.push(format!("says {}", kinds.join("+")));
    }
    above(&mut all, "statements", says.len() as f32, &[1.5, 2.5, 4.5]);
    above(&mut all, "left", ranked.left.cost, &[0.05, 0.15, 0.3, 0.5, 0.8, 1.2, 1.8, 2.6, 4.0]);
    above(&mut all, "risk", ranked.left.risk, &[0.1, 0.75, 1.3, 2.0, 3.0]);
    above(&mut all, "words", whole.pieces.len() as f32, &[4.5, 8.5, 13.5, 20.5]);
    for part in &ranked.parts {
        of_part(&mut all, part, whole, &kinds);
    }
    each_once(all)
}

/// Bounds of how likely the words make a kind.
const ODDS: &[f32] = &[0.03, 0.08, 0.15, 0.3, 0.5, 0.7, 0.85, 0.95];

/// How likely the words must make a kind that was not read, to speak for it.
const OTHER: f32 = 0.3;

/// One feature for each of those bounds that the odds are below.
fn below(all: &mut Vec<String>, name: &str, odds: f32) {
    all.extend(ODDS.iter().filter(|bound| odds < **bound).map(|one| format!("{name}<{one}")));
}

/// One feature for each bound that a figure is above.
fn above(all: &mut Vec<String>, name: &str, figure: f32, bounds: &[f32]) {
    all.extend(bounds.iter().filter(|bound| figure > **bound).map(|one| format!("{name}>{one}")));
}

fn of_part(all: &mut Vec<String>, part: &Part, whole: &Clause<'_, '_>, kinds: &[&str]) {
    match part.frame {
        Some(frame) => {
            all.push(format!("by {frame}"));
            for one in &part.says {
                all.push(format!(
                    "by {frame} {}",
                    Class::of(&one.kind).map_or("other", Class::name)
                ));
            }
            above(all, "cost", part.cost, &[0.6, 1.0, 1.4, 1.8, 2.4, 3.2]);
        }
        None => all.push("a stretch unread".to_owned()),
    }
    for (at, _) in (part.at.0..part.at.1).zip(part.used.iter()).filter(|(_, used)| !**used) {
        let piece = &whole.pieces[at];
        let Some(word) = word(piece) else { continue };
        all.push(format!("left {word}"));
        for kind in kinds {
            all.push(format!("{kind} left {word}"));
        }
        for sense in &piece.senses {
            if let Sense::Word(concept) = sense {
                all.push(format!("left ={concept:?}"));
            }
        }
    }
}

/// A piece as a word, or as the kind of what it is.
fn word(piece: &Piece<'_>) -> Option<String> {
    Some(match piece.item {
        Item::Mark('?') => "?".to_owned(),
        Item::Mark(_) | Item::Line | Item::Picture => return None,
        Item::Word | Item::Chatter | Item::Unknown => piece.text.to_owned(),
        item => {
            let whole = format!("{item:?}");
            let end = whole.find(|letter: char| !letter.is_alphanumeric()).unwrap_or(whole.len());
            format!("<{}>", whole[..end].to_lowercase())
        }
    })
}
