//! One part of a stretch: whom and which days it names, and its word of coming.

use super::days::{days, late_by};
use super::group::{Group, Says};
use super::until;
use super::word::word;
use crate::message::Day;
use crate::reading::frame::Clause;
use crate::reading::lexicon::Concept;
use crate::reading::piece::{Item, Piece, Used};
use crate::reading::situation::{Phase, Role};

/// A part, and how it stands to the one before.
#[derive(Debug, Clone, Default)]
pub struct Part {
    /// What it says, of whom and when.
    pub group: Group,
    /// `not the monday`
    pub denied: bool,
    /// `wednesday ok`
    pub good: bool,
    /// `bar puffin`
    pub excepted: bool,
    /// `all but puffin`
    pub everyone_else: bool,
    /// `lark is only just getting changed`: something of somebody, and no word of coming.
    pub told: bool,
}

/// The parts of a stretch, in order.
pub fn parts(c: &Clause<'_, '_>, used: &mut Used) -> Vec<Part> {
    let yesterday = |piece: &Piece<'_>| matches!(piece.item, Item::Day(named) if c.past(named) == Some(Day::Yesterday));
    let register = c.sit.role == Role::Coach
        && (c.sit.phase == Phase::During
            || c.pieces.iter().any(yesterday)
            || super::statement::was_there(c));
    let mut borders = vec![0];
    for at in 1..c.len() {
        if parts_at(c, at) {
            borders.push(at);
        }
    }
    borders.push(c.len());
    borders.dedup();
    let mut parts = Vec::new();
    for pair in borders.array_windows::<2>() {
        let stretch = c.part(pair[0], pair[1]);
        let mut here = Used::none(stretch.len());
        parts.push(one(&stretch, register, &mut here));
        for (mark, here) in used[pair[0]..pair[1]].iter_mut().zip(&here) {
            *mark = *here;
        }
    }
    parts
}

/// True where a new part begins.
fn parts_at(c: &Clause<'_, '_>, at: usize) -> bool {
    let behind = matches!(
        c.pieces[at - 1].item,
        Item::Mark('.' | ',' | ';' | '!' | '(' | ')') | Item::Line | Item::Picture
    );
    let here = &c.pieces[at];
    // `not the monday`, behind what was said of another day or person.
    let denied = here.means(Concept::Not)
        && c.pieces[at + 1..]
            .iter()
            .take(3)
            .find(|piece| !piece.means(Concept::Article) && !piece.means(Concept::On))
            .is_some_and(|piece| matches!(piece.item, Item::Day(_) | Item::Person(_)))
        && c.pieces[..at].iter().any(|piece| matches!(piece.item, Item::Day(_) | Item::Person(_)));
    behind
        || denied
        || here.means(Concept::And)
        || here.means(Concept::But)
        || here.means(Concept::Except)
        || here.means(Concept::Then)
        || here.means(Concept::Because)
}

fn one(c: &Clause<'_, '_>, register: bool, used: &mut Used) -> Part {
    let mut part = Part::default();
    // `out 6 weeks`, `out for a month`
    let long = until::span(c).is_some_and(|(at, _)| {
        !c.has(Concept::If) && c.pieces[at.saturating_sub(3)..at].iter().any(|p| p.text == "out")
    });
    let backed = c.len() <= 3
        || long
        || c.pieces.iter().any(|piece| matches!(piece.item, Item::Day(_) | Item::Person(_)));
    for (at, piece) in c.pieces.iter().enumerate() {
        match piece.item {
            Item::Day(named) => {
                if let Some(day) = c.coming(named) {
                    if !bounds(c, at) && is_joined(c, at) {
                        part.group.days.extend(days(c, at, named, day));
                    }
                    used[at] = true;
                }
            }
            Item::Person(person) => {
                part.group.people.push(person);
                used[at] = true;
            }
            _ => used[at] |= word(c, at, piece, &mut part, register, backed),
        }
    }
    // `off to my daughter's in Calgary`: a faint word of coming yields to a clear one.
    let says = &mut part.group.says;
    if says.iter().any(|one| matches!(one, Says::Away | Says::Back)) {
        says.retain(|one| *one != Says::In);
    }
    if let Some((minutes, place)) = late_by(c, &part.group.says) {
        part.group.says.retain(|one| !matches!(one, Says::Late(_)));
        part.group.says.push(Says::Late(Some(minutes)));
        part.group.strength = part.group.strength.max(2);
        used[place] = true;
    }
    until::until(c, &mut part.group, used);
    // `out tonight, stuck at work til 8`: why, and no more.
    for (pair, used) in c.pieces.array_windows::<2>().zip(used.iter_mut().skip(1)) {
        *used |= pair[0].means(Concept::Until)
            && matches!(pair[1].item, Item::Figure(_) | Item::TimeOfDay(..));
    }
    if part.group.says.is_empty()
        && let Some(coming) = day_alone(c)
    {
        part.group.says.push(if coming { Says::In } else { Says::Out });
        part.group.strength = 2;
        used.fill(true);
    }
    part.everyone_else = register
        && part.excepted
        && c.pieces.iter().any(|piece| {
            piece.means(Concept::Except)
                && matches!(piece.text, "all but" | "everyone but" | "todos menos")
        });
    part.told = part.group.says.is_empty() && tells_of_one(c);
    let opening = crate::reading::frame::mood::opening(c);
    let first = c.at(opening);
    // `no plover no puffin`, `so no monday or wed`
    let names_behind = match c.at(opening + 1).map(|piece| piece.item) {
        Some(Item::Person(_)) => true,
        Some(Item::Day(_)) => c.sit.role == Role::Swimmer,
        _ => false,
    };
    if part.group.says.is_empty()
        && names_behind
        && first.is_some_and(|piece| piece.means(Concept::Without) || piece.means(Concept::Not))
    {
        part.group.says.push(Says::Out);
        part.group.strength = 2;
        for (at, piece) in c.pieces.iter().enumerate() {
            used[at] |= piece.means(Concept::Without) || piece.means(Concept::Not);
        }
    }
    part
}

/// A person and what they are or do, in words of which none is about coming.
fn tells_of_one(c: &Clause<'_, '_>) -> bool {
    const WORDS: usize = 2;
    let person = c.pieces.iter().position(|piece| matches!(piece.item, Item::Person(_)));
    person.is_some_and(|at| {
        let is = |piece: &Piece<'_>| piece.means(Concept::Is) || piece.means(Concept::AuxBe);
        let behind = c.pieces.part(at + 1, c.len());
        behind.first().is_some_and(is)
            && behind.iter().filter(|piece| piece.item == Item::Chatter).count() >= WORDS
    })
}

/// `con fiebre desde anoche`, `exams til the 20th so only weds`: a day that says since
/// when or how long, and is none that anybody comes on.
fn bounds(c: &Clause<'_, '_>, at: usize) -> bool {
    let before = c.pieces[..at].iter().rev().find(|piece| !piece.means(Concept::Article));
    // `dead legs from monday`, but `from the 6th to the 9th`
    let from = |piece: &Piece<'_>| {
        piece.text == "from"
            && !c.has(Concept::Until)
            && !c.has(Concept::To)
            && !c.has(Concept::Away)
    };
    before.is_some_and(|piece| {
        piece.means(Concept::Until) || matches!(piece.text, "since" | "desde") || from(piece)
    })
}

/// `cant come tonight got a deadline tomorrow`: behind words of something else, a further day
/// without a joining word is of that.
fn is_joined(c: &Clause<'_, '_>, at: usize) -> bool {
    let earlier = (0..at).rev().find(|place| matches!(c.pieces[*place].item, Item::Day(_)));
    let Some(earlier) = earlier else { return true };
    let joins = |piece: &Piece<'_>| {
        piece.means(Concept::And)
            || piece.means(Concept::Or)
            || matches!(piece.item, Item::Mark(_))
            || matches!(piece.text, "ni" | "nor" | "but" | "not")
    };
    let between = &c.pieces[earlier + 1..at];
    between.iter().any(joins)
        || !between.iter().any(|piece| matches!(piece.item, Item::Chatter | Item::Unknown))
}

/// `el miercoles si`, `lunes no`: a day and its yes or no behind it, and no more.
fn day_alone(c: &Clause<'_, '_>) -> Option<bool> {
    let mut says = None;
    let mut day = false;
    for piece in c.pieces {
        match piece.item {
            Item::Day(_) if says.is_none() => day = true,
            Item::Mark(_) | Item::Picture | Item::Line => {}
            _ if day && says.is_none() && piece.means(Concept::YesWord) => says = Some(true),
            _ if day && says.is_none() && piece.means(Concept::Not) => says = Some(false),
            _ if [Concept::And, Concept::But, Concept::Then, Concept::Idiom]
                .iter()
                .any(|one| piece.means(*one)) => {}
            _ => return None,
        }
    }
    says
}
