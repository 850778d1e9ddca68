//! Changes to the set that is known: fewer or more, another send-off, another main
//! part, something added or left out, for all, for a lane, for one.

mod added;
mod another_lane;
mod counted;
mod each_lane;
mod end_of_evening;
mod for_some;
mod lane_count;
mod lanes_and_names;
mod line_changed;
mod line_meant;
mod move_on;
mod part_of_it;
mod reasons;
mod replaced;
mod rested;
mod sent_off;

use added::added;
pub use added::adds;
use another_lane::another_lane;
use counted::counted;
use each_lane::each_lane;
use end_of_evening::left;
use for_some::for_some;
pub use lane_count::lanes_on;
use line_changed::line_changed;
use move_on::flow;
use part_of_it::part_of_it;
pub use replaced::base;
use replaced::replaced;
use rested::rested;
use sent_off::sent_off;

use crate::reading::frame::Clause;
use crate::reading::frame::candidate::Candidate;
use crate::reading::frame::mood::{asks as asks_word, is_question, is_request};
use crate::reading::lexicon::{Concept, Hint};
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
    let asks = is_question(c) && !c.has(Concept::Can) && !asked_for;
    let proposed = proposes(c) && !asked_for;
    if asks && !proposed || is_question(c) && asks_whether_made(c) || ends_in_doubt(c) {
        return vec![];
    }
    let mut read = Vec::new();
    read.extend(each_lane(c, main));
    read.extend(replaced(c, main));
    read.extend(line_changed(c));
    read.extend(added(c, main));
    read.extend(counted(c, main));
    read.extend(sent_off(c, main));
    read.extend(for_some(c, main));
    read.extend(rested(c, main));
    read.extend(part_of_it(c, main));
    read.extend(flow(c));
    read.extend(left(c));
    read.extend(another_lane(c));
    match proposed {
        true => read.into_iter().map(|one| asked_whether(c, one)).collect(),
        false => read,
    }
}

/// `lane 4 are miles back, cut them to 6?`, `lane 2 make it easily, should i cut the rest`: a
/// change that is told, and asked about.
fn proposes(c: &Clause<'_, '_>) -> bool {
    // `should i cut the rest`; `it should be on 1:15` is told.
    let turned = c.pieces.array_windows::<2>().any(|[verb, who]| {
        let whom = [Concept::Me, Concept::We, Concept::They];
        matches!(verb.text, "should" | "shall") && whom.iter().any(|one| who.means(*one))
    });
    let joined = c
        .pieces
        .iter()
        .any(|piece| matches!(piece.text, "should" | "shall") && piece.at.1 - piece.at.0 > 1);
    let should = turned || joined;
    let marked = c.pieces.last().is_some_and(|last| last.item == Item::Mark('?'));
    let wished = [Concept::Want, Concept::Assign, Concept::Make, Concept::Cut, Concept::Give];
    !c.pieces.iter().any(asks_word) && (should || marked && c.has_any(&wished))
}

fn asked_whether(c: &Clause<'_, '_>, mut read: Candidate) -> Candidate {
    // `lads in lane 2 want it quicker`: how it is put says no more than that.
    read.used.mark(c.pieces, |piece| {
        let ways = [Concept::Trend, Concept::Fast, Concept::Slow, Concept::It];
        piece.item == Item::Chatter || ways.iter().any(|one| piece.means(*one))
    });
    let says = std::mem::take(&mut read.says);
    let cost = read.cost - ASKED;
    read.asking_whether(says).at_cost(cost)
}

/// How much less it costs to ask about what may be a question.
const ASKED: f32 = 0.6;

/// `can lane 3 even make 1:05`: whether they are able to, and nothing to be changed.
fn asks_whether_made(c: &Clause<'_, '_>) -> bool {
    let time = |piece: &Piece<'_>| {
        matches!(piece.item, Item::Figure(figure) if figure.is_marked())
            || matches!(piece.item, Item::Each(_) | Item::Figure(Figure::Parted { .. }))
    };
    let little = |piece: &&Piece<'_>| matches!(piece.text, "with" | "a" | "the" | "los" | "el");
    let made = |at: usize| {
        let behind = at + 1 + c.pieces.part(at + 1, c.len()).iter().take_while(little).count();
        Hint::Makes.is(c.pieces[at].text) && c.at(behind).is_some_and(time)
    };
    (0..c.len()).any(made)
}

/// `half of lane 4 doing breaststroke is that ok`
fn ends_in_doubt(c: &Clause<'_, '_>) -> bool {
    const LAST: usize = 3;
    (c.len().saturating_sub(LAST)..c.len()).any(|at| c.typed(at, at + 1) == "is that")
}
