//! The gist of a text: what its words make likely, with whatever figures, days and people
//! fit into that, in whichever order they stand.
//!
//! Frames know how things are said; the gist knows only what a statement of each kind
//! needs. Nothing of it is kept without a question: it stands for the texts that no frame was
//! written for, and for what a text may say otherwise.

mod coming;
mod evening;
mod one_changed;
mod repeats;
mod slots;
mod statements;
mod swum;
mod timed;

use crate::message::Statement;
use crate::reading::frame::Clause;
use crate::reading::likely::{Class, Telling};
use crate::reading::piece::Used;
pub use coming::says_whether;
pub use one_changed::{CORRECTING, anew};
use slots::Slots;
use statements::statements;
pub use timed::lone as lone_time;

/// What a text may say, and how likely its words make that.
#[derive(Debug, Clone, PartialEq)]
pub struct Gist {
    /// All that it says.
    pub says: Vec<Statement>,
    /// How likely, 0 to 1.
    pub odds: f32,
    /// A figure, a day or somebody stands for a part of it.
    pub stands: bool,
}

/// As many of the likeliest tellings are looked at.
const MOST: usize = 6;

/// What a text may say, the likeliest first, each reading once. What is told alike by
/// several is as likely as all of them.
pub fn gists(whole: &Clause<'_, '_>) -> Vec<Gist> {
    let mut all: Vec<Gist> = Vec::new();
    for (tells, odds) in whole.likely.tellings(whole).iter().take(MOST) {
        let Some((says, stands)) = told(whole, tells) else { continue };
        match all.iter_mut().find(|one| one.says == says) {
            Some(known) => known.odds += odds,
            None => all.push(Gist { says, odds: *odds, stands }),
        }
    }
    all.sort_by(|one, other| other.odds.total_cmp(&one.odds));
    all
}

/// How likely it is that a text tells nothing to keep and asks nothing.
pub fn chat_odds(whole: &Clause<'_, '_>) -> f32 {
    let chat = |one: &&(Vec<Telling>, f32)| one.0 == [Telling::Nothing];
    whole.likely.tellings(whole).iter().find(chat).map_or(0.0, |one| one.1)
}

/// What a text surely tells of these kinds, by its likeliest telling; nothing where none is
/// `least` likely, or it tells of no such kind.
pub fn surely(
    whole: &Clause<'_, '_>,
    least: f32,
    of: impl Fn(Class) -> bool,
) -> Option<Vec<Statement>> {
    let (tells, odds) = whole.likely.tellings(whole).first()?;
    if *odds < least || !tells.iter().any(|one| one.class().is_some_and(&of)) {
        return None;
    }
    let (mut says, _) = told(whole, tells)?;
    says.retain(|one| Class::of(&one.kind).is_some_and(&of));
    (!says.is_empty()).then_some(says)
}

/// What a text says of one kind by pieces of which nothing else was made; nothing where
/// none of them speaks of it.
pub fn beside(whole: &Clause<'_, '_>, used: Used, class: Class) -> Option<Vec<Statement>> {
    let telling = Telling::of(class, !coming::stays(whole))?;
    let mut slots = Slots::beside(whole, &[telling], used);
    let before = slots.used.clone();
    let says = statements(&mut slots, telling)?;
    let taken = slots.used.iter().zip(before.iter()).any(|(now, before)| *now && !*before);
    let free = whole.pieces.iter().zip(before.iter()).filter(|(_, used)| !**used);
    let speaks = coming::is_of(class) && free.map(|(piece, _)| piece).any(coming::speaks);
    (taken || speaks).then_some(says)
}

/// All that a text tells, each with what is its own, and whether a piece stands for any of it;
/// nothing where one of them can't be made, or nothing is told.
fn told(whole: &Clause<'_, '_>, tells: &[Telling]) -> Option<(Vec<Statement>, bool)> {
    let mut slots = Slots::of(whole, tells);
    let mut says = Vec::new();
    // What needs figures takes them first.
    let mut tells = tells.to_vec();
    tells.sort_by_key(|one| std::cmp::Reverse(hunger(*one)));
    for one in tells {
        says.extend(statements(&mut slots, one)?);
    }
    let stands = slots.used.iter().any(|used| *used);
    (!says.is_empty()).then_some((says, stands))
}

/// How many figures a kind wants, roughly.
const fn hunger(telling: Telling) -> u8 {
    match telling {
        Telling::SetResult | Telling::Set | Telling::Here | Telling::Absent => 4,
        Telling::Test | Telling::Race => 3,
        Telling::Done | Telling::Pain | Telling::Change | Telling::Move => 2,
        Telling::In | Telling::Out | Telling::Away | Telling::Missed | Telling::Slot => 1,
        _ => 0,
    }
}
