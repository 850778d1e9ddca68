//! What is told of a night's lanes, sorted: alike together, the main set apart.
//!
//! Knows no words of any language.

use crate::session::{Block, Part, Repeat, Session};
use crate::units::{Level, Stroke};

/// One more under what it is of, once.
pub(super) fn put(lines: &mut Vec<(String, Vec<String>)>, what: String, one: String) {
    match lines.iter_mut().find(|(known, _)| *known == what) {
        Some((_, all)) if all.contains(&one) => {}
        Some((_, all)) => all.push(one),
        None => lines.push((what, vec![one])),
    }
}

/// The same line but for whose time it is to hold.
pub(super) fn alike(one: &Repeat, other: &Repeat) -> bool {
    let untimed = |line: &Repeat| Repeat { target: None, level: Level::Easy, ..line.clone() };
    untimed(one) == untimed(other)
}

/// Lanes with the same words, in their order.
pub(super) fn alike_by(
    each: impl Iterator<Item = (u8, String)>,
    named: impl Fn(&[u8]) -> String,
) -> Vec<(String, String)> {
    let mut alike: Vec<(Vec<u8>, String)> = Vec::new();
    for (lane, what) in each {
        match alike.iter_mut().find(|(_, known)| *known == what) {
            Some((same, _)) => same.push(lane),
            None => alike.push((vec![lane], what)),
        }
    }
    alike.into_iter().map(|(lanes, what)| (named(&lanes), what)).collect()
}

/// What a session is for: of its main blocks those that ask for more than easy
/// swimming, else all.
pub(super) fn mains_of(session: &Session) -> Vec<&Block> {
    let is_main = |block: &&Block| matches!(block.part, Part::Main | Part::Test);
    let asks = |block: &&Block| block.repeats.iter().any(|line| line.level > Level::Easy);
    let mains: Vec<&Block> = session.blocks.iter().filter(is_main).collect();
    match mains.iter().any(asks) {
        true => mains.into_iter().filter(asks).collect(),
        false => mains,
    }
}

/// What a main block asks more than easy swimming for; what is swum in rounds stands
/// whole.
pub(super) fn asked_of(block: &Block) -> Block {
    // Kick, drills and kit are worth a word, easy or not.
    let asks = |line: &&Repeat| {
        let plain = matches!(line.stroke, Stroke::Free | Stroke::Choice);
        line.level > Level::Easy || !plain || !line.equipment.is_empty()
    };
    match block.rounds == 1 && block.repeats.iter().any(|line| asks(&line)) {
        true => {
            let repeats = block.repeats.iter().filter(asks).cloned().collect();
            Block { repeats, ..block.clone() }
        }
        false => block.clone(),
    }
}

/// Parts and distances of what goes round that, in the order swum.
pub(super) fn round_mains(session: &Session) -> Vec<(Part, u32)> {
    let mains = mains_of(session);
    let one = |block: &Block| {
        let asked = if mains.contains(&block) { asked_of(block).amount() } else { 0 };
        (block.part, block.amount() - asked)
    };
    session.blocks.iter().map(one).filter(|(_, far)| *far > 0).collect()
}
