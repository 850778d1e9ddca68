//! What people say of themselves: kit, limits, days, minutes, goals, races.

mod goal;
mod habits;
mod limits;
mod words;

use super::Clause;
use super::candidate::Candidate;
use crate::message::{Kind, Name};
use crate::reading::piece::Item;
use crate::reading::situation::Role;
use goal::{goal, race};
use habits::{pool, quiet, units, week};
use limits::{able, barred, kit};

pub use goal::unfinished;

/// Reads a stretch as what the sender, or the one a coach names, owns, can't or may
/// not do, and wants.
pub fn read(c: &Clause<'_, '_>) -> Vec<Candidate> {
    let people = c.people();
    if people.len() > 1 || super::mood::is_question(c) {
        return vec![];
    }
    let coach = c.sit.role == Role::Coach;
    let who: Option<Name> = match people.as_slice() {
        [one] if Some(*one) != c.sit.me => c.name(*one),
        _ => None,
    };
    if who.is_some() && !coach || coach && who.is_none() {
        return vec![];
    }
    let readers: [fn(&Clause<'_, '_>, &mut Candidate) -> Option<Kind>; 9] =
        [barred, kit, quiet, able, race, goal, week, pool, units];
    let mut read = Vec::new();
    let mut begun = Candidate::new("own", c.len());
    begun.used.mark(c.pieces, |piece| matches!(piece.item, Item::Person(_)));
    let mut candidate = begun.clone();
    for reader in readers {
        if let Some(kind) = reader(c, &mut candidate) {
            read.push(candidate.clone().says_of(who.clone(), kind).at_cost(0.5));
        }
        candidate.used.clone_from(&begun.used);
    }
    read
}
