//! What several swam, in one text of the coach's: `200s swift 2:46 finch 2:51`,
//! `heron 48 48 49, rook 50 50 51`, `lane 1 244 250 258`, `robin and lark both 3:59`.

mod entry;
mod heading;
mod repeats;
mod single;
mod timed;
mod told;

use crate::message::{Doubt, Statement, Wants};
use crate::reading::frame::candidate::Candidate;
use crate::reading::frame::{Clause, mood};
use crate::reading::lexicon::Concept;
use crate::reading::piece::{Item, Used};
use crate::reading::situation::{Phase, Role};
use entry::{Entry, entries, may_be_time};
use heading::{Heading, heading, next_heading};
use told::one;

/// Reads a stretch as what several swam; of a coach's text only.
pub fn read(c: &Clause<'_, '_>) -> Vec<Candidate> {
    if c.sit.role != Role::Coach || c.speaks_ahead() || mood::asked_behind(c) {
        return vec![];
    }
    // Before the evening, a lane has swum nothing: `l1 hold 44, l2 48`.
    let of_lanes = c.pieces.iter().any(|piece| matches!(piece.item, Item::Lanes(_)));
    let dated = c.all.iter().any(|piece| matches!(piece.item, Item::Day(_)));
    if c.sit.phase == Phase::Before && of_lanes && !dated {
        return vec![];
    }
    let mut used = Used::none(c.len());
    let Some(entries) = entries(c, &mut used) else { return vec![] };
    if let Some(asked) = whose_times(c, &entries) {
        return vec![asked];
    }
    let begins = entries.first().map_or(0, |entry| entry.from);
    let mut heading = heading(c, begins, &mut used);
    let mut candidate = Candidate::new("capture", c.len());
    let mut says: Vec<Statement> = Vec::new();
    let mut told_of = 0;
    for (place, entry) in entries.iter().enumerate() {
        let follows = place + 1 < entries.len();
        let next = follows.then(|| next_heading(c, entry)).flatten();
        let of = heading;
        let entry = match next {
            None => entry.clone(),
            Some((from, next)) => {
                used[from..entry.to].fill(true);
                heading = Heading { day: heading.day, ..next };
                Entry { to: from, ..entry.clone() }
            }
        };
        let Some(mut read) = one(c, &entry, &of, &says, &mut used) else { continue };
        told_of += 1;
        says.append(&mut read);
    }
    if says.is_empty() || told_of == 0 {
        return vec![];
    }
    candidate.used = used;
    candidate.says = says;
    let several = entries.len() > 1 || entries.iter().any(|entry| entry.people.len() > 1);
    vec![candidate.at_cost(if several { 0.2 } else { 0.45 })]
}

/// `lane 1 40 40 41 40`: several times of a lane of as many others: whose are they?
fn whose_times(c: &Clause<'_, '_>, entries: &[Entry]) -> Option<Candidate> {
    let doubtful = |entry: &Entry| {
        let lane = entry.people.len() > 1
            && entry.from > 0
            && matches!(c.pieces[entry.from - 1].item, Item::Lanes(_));
        let stretch = c.part(entry.from, entry.to);
        let times = stretch.pieces.iter().filter(|piece| may_be_time(piece)).count();
        let plain = stretch.pieces.iter().all(|piece| {
            matches!(piece.item, Item::Figure(_) | Item::Mark(_) | Item::Plural(_))
                || piece.means(Concept::All)
        });
        lane && plain && times > 2 && times != entry.people.len()
    };
    if !entries.iter().any(doubtful) {
        return None;
    }
    let mut candidate = Candidate::new("capture", c.len());
    candidate.used.fill(true);
    Some(candidate.asking(Doubt::Missing { wants: Wants::Whose }, vec![]).at_cost(0.5))
}

/// A list of times of several, with nobody's name: whose are they?
pub fn nameless(c: &Clause<'_, '_>) -> Vec<Candidate> {
    if c.sit.role != Role::Coach
        || !c.people().is_empty()
        || c.pieces.iter().any(|piece| matches!(piece.item, Item::Lanes(_)))
        // Of a text that writes a set the figures are send-offs.
        || c.all.iter().any(|piece| matches!(piece.item, Item::Repeat(..)))
    {
        return vec![];
    }
    let figures = c.pieces.iter().filter(|piece| matches!(piece.item, Item::Figure(figure) if figure.times().iter().any(|time| time.seconds() > 60.0)));
    if figures.count() < 3 {
        return vec![];
    }
    let mut candidate = Candidate::new("nameless", c.len());
    candidate.used.fill(true);
    vec![candidate.asking(Doubt::Missing { wants: Wants::Whose }, vec![]).at_cost(1.5)]
}
