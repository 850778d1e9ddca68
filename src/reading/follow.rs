//! A text that goes on from what the sender said last: `or wed` behind `won't be in
//! mon`, `took like 35 min` behind `swam 1.2k`.
//!
//! The last thing said is put before it in our own notation and the two are read as
//! one; what that adds, or changes, is what the text says.

use super::decide::{Decision, decide};
use super::frame::Clause;
use super::gist::{self, CORRECTING};
use super::lexicon::Concept;
use super::likely::Class;
use super::piece::{Item, Piece};
use super::rank::{Ranked, best};
use super::read::with_pieces;
use super::situation::Situation;
use crate::message::{Kind, Statement};

/// Pieces up to which a text may go on from another.
const LONGEST: usize = 14;

/// What may be left over in the two that could change what they say.
const RISKED: f32 = 1.0;

/// How likely the words must make it that something is put right, where none says so.
const FIX: f32 = 0.2;

/// Pieces up to which a figure alone may put one right: `46.7*`.
const BARE: usize = 3;

/// True for a text that says all of a swim, however little it is believed, so that
/// nothing goes on: `200 test 2:20`.
pub fn is_whole(text: &Clause<'_, '_>) -> bool {
    let figure = |piece: &Piece<'_>| matches!(piece.item, Item::Figure(_));
    text.has(Concept::Test) && text.pieces.iter().any(figure)
}

/// True for a text that is by far too long to go on from another, whatever was said
/// before: the two need not even be put together.
pub fn is_too_long(text: &Clause<'_, '_>) -> bool {
    // What was said is put before it in words, some of which may be one piece together.
    const TOGETHER: usize = 200;
    text.len() > LONGEST + TOGETHER
}

/// What a text says as the rest of what was said before; nothing where the two make
/// no sense together.
pub fn on(text: &str, sit: &Situation) -> Option<Decision> {
    let [said] = sit.before.as_slice() else { return None };
    let notation = untargeted(said).to_string();
    let alone = statements(&with_pieces(&notation, "", sit, best));
    let [alone] = alone.as_slice() else { return None };
    let longest = LONGEST + notation.split(' ').count();
    let (joined, decision) = with_pieces(&notation, text, sit, |whole: &Clause<'_, '_>| {
        let joined = (whole.len() <= longest).then(|| best(whole))?;
        let decision = decide(&joined, whole);
        Some((joined, decision))
    })?;
    // A figure or a negation left over means that it goes on from something else.
    if joined.left.risk > RISKED {
        return None;
    }
    let Decision::Take { says, .. } = decision else { return None };
    let is_new = |one: &&Statement| *one != alone && one.to_string() != notation;
    let more: Vec<Statement> = says.iter().filter(is_new).cloned().collect();
    match more.as_slice() {
        [] => None,
        // What was said stands, and this comes to it.
        added if added.len() < says.len() => Some(Decision::Take { says: more, rest: None }),
        // It is said anew, with more.
        [anew] if anew.who == alone.who && same_kind(&anew.kind, &alone.kind) => {
            let kind = Kind::Restate { says: more, changed: 0 };
            let says = vec![Statement { who: None, kind }];
            Some(Decision::Take { says, rest: None })
        }
        _ => None,
    }
}

/// A text whose one figure or day belongs where another stood in what was said before:
/// taken where a word says that it puts something right, else asked about.
pub fn anew(whole: &Clause<'_, '_>) -> Option<Decision> {
    let [said] = whole.sit.before.as_slice() else { return None };
    let corrects = whole.has_any(&CORRECTING);
    if !corrects && whole.likely.of(Class::Fix) < FIX && whole.len() > BARE {
        return None;
    }
    let anew = gist::anew(whole, said)?;
    let kind = match anew.kind {
        Kind::Undo => Kind::Undo,
        _ => Kind::Restate { says: vec![anew], changed: 0 },
    };
    let says = vec![Statement { who: None, kind }];
    Some(match corrects {
        true => Decision::Take { says, rest: None },
        false => Decision::ask_whether(says),
    })
}

/// A set's times without the target that stands before them in our notation, which
/// would be read as one more of them.
fn untargeted(said: &Statement) -> Statement {
    let mut said = said.clone();
    if let Kind::SetResult(set) = &mut said.kind {
        set.target = None;
    }
    said
}

fn statements(ranked: &Ranked) -> Vec<Statement> {
    ranked.parts.iter().flat_map(|part| part.says.clone()).collect()
}

fn same_kind(one: &Kind, other: &Kind) -> bool {
    std::mem::discriminant(one) == std::mem::discriminant(other)
}
