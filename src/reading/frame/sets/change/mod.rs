//! Changes to the set that is known: fewer or more, another send-off, another main
//! part, something added or left out, for all, for a lane, for one.

mod added;
mod counted;
mod each_lane;
mod end_of_evening;
mod lane_count;
mod lanes_and_names;
mod move_on;
mod part_of_it;
mod replaced;
mod sent_off;
mod warm_up_or_swim_down;

use added::added;
use counted::counted;
use each_lane::each_lane;
use end_of_evening::left;
pub use lane_count::lanes_on;
use move_on::flow;
use part_of_it::part_of_it;
use replaced::replaced;
use sent_off::sent_off;
use warm_up_or_swim_down::ends;

use crate::reading::frame::Clause;
use crate::reading::frame::candidate::Candidate;
use crate::reading::frame::mood::{is_question, is_request};
use crate::reading::lexicon::Concept;
use crate::reading::piece::{Figure, Item, Piece};
use crate::reading::situation::Role;

/// Reads a stretch of a coach's as a change to the set.
pub fn change(c: &Clause<'_, '_>) -> Vec<Candidate> {
    if c.sit.role != Role::Coach {
        return vec![];
    }
    let Some(set) = &c.sit.set else { return vec![] };
    let Some(main) = set.main() else { return vec![] };
    // `could lane 3 go to 1:15 and lane 4 to 1:25?` asks for both.
    let asked_for = is_request(c) || is_request(&c.whole());
    let asks = is_question(c) && (!c.has(Concept::Can) && !asked_for || asks_whether_made(c));
    if asks || ends_in_doubt(c) {
        return vec![];
    }
    let mut read = Vec::new();
    read.extend(each_lane(c, main));
    read.extend(replaced(c, main));
    read.extend(ends(c));
    read.extend(added(c, main));
    read.extend(counted(c, main));
    read.extend(sent_off(c, main));
    read.extend(part_of_it(c, main));
    read.extend(flow(c));
    read.extend(left(c));
    read
}

/// `can lane 3 even make 1:05`: whether they are able to, and nothing to be changed.
fn asks_whether_made(c: &Clause<'_, '_>) -> bool {
    const MAKE: [&str; 13] = [
        "make", "manage", "hold", "handle", "cope", "hit", "reach", "beat", "llega", "llegan",
        "aguanta", "aguantan", "llegar",
    ];
    let time = |piece: &Piece<'_>| {
        matches!(piece.item, Item::Figure(figure) if figure.is_marked())
            || matches!(piece.item, Item::Each(_) | Item::Figure(Figure::Parted { .. }))
    };
    let little = |piece: &&Piece<'_>| matches!(piece.text, "with" | "a" | "the" | "los" | "el");
    let made = |at: usize| {
        let behind = at + 1 + c.pieces.part(at + 1, c.len()).iter().take_while(little).count();
        MAKE.contains(&c.pieces[at].text) && c.at(behind).is_some_and(time)
    };
    (0..c.len()).any(made)
}

/// `half of lane 4 doing breaststroke is that ok`
fn ends_in_doubt(c: &Clause<'_, '_>) -> bool {
    const LAST: usize = 3;
    (c.len().saturating_sub(LAST)..c.len()).any(|at| c.typed(at, at + 1) == "is that")
}
