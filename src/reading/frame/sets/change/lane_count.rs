//! How many lanes there are, and lanes drawn anew.

use crate::message::{Day, Kind, Name, Slot, Statement};
use crate::reading::frame::Clause;
use crate::reading::frame::candidate::Candidate;
use crate::reading::frame::clause::lane_count;
use crate::reading::frame::mood::is_question;
use crate::reading::lexicon::Concept;
use crate::reading::piece::{Figure, Item, Piece};
use crate::reading::situation::{Phase, Role};

/// `how would you split them over 3 lanes`, `redo the lanes`, `lanes without swift`: the
/// lanes drawn anew.
pub fn drawn_anew(c: &Clause<'_, '_>) -> Option<Candidate> {
    if c.sit.role != Role::Coach || !c.has(Concept::Lane) || !c.has(Concept::Divide) {
        return None;
    }
    let without = c.find(Concept::Without);
    let people = c.people();
    if without.is_none() && !people.is_empty() {
        return None;
    }
    let mut candidate = Candidate::new("lanes", c.len());
    candidate.used.fill(true);
    let count = lane_count(c).map(|(_, count)| count);
    let names: Vec<Name> = people.into_iter().filter_map(|person| c.name(person)).collect();
    if !names.is_empty() {
        let kind = Kind::Absent { names, on: None };
        candidate.says.push(Statement { who: None, kind });
    }
    Some(candidate.says(Kind::Lanes { count }).at_cost(0.3))
}

/// `3 lanes tonight not 4`, `got a fifth lane`, `they took a lane from us`.
pub fn lanes_on(c: &Clause<'_, '_>) -> Vec<Candidate> {
    if let Some(drawn) = drawn_anew(c) {
        return vec![drawn];
    }
    if c.sit.role != Role::Coach || is_question(c) || !c.people().is_empty() {
        return vec![];
    }
    let mut candidate = Candidate::new("lanes", c.len());
    let lane_word = c
        .pieces
        .iter()
        .any(|piece| piece.means(Concept::Lane) || matches!(piece.item, Item::Lanes(_)));
    if !lane_word
        || c.pieces.iter().any(|piece| matches!(piece.item, Item::Repeat(..) | Item::Far(_)))
    {
        return vec![];
    }
    let count = c.pieces.array_windows::<2>().find_map(|pair| match (&pair[0].item, &pair[1]) {
        (
            Item::Figure(Figure::Whole { value: value @ 1..=10, .. })
            | Item::Ordinal(value @ 2..=10),
            lane,
        ) if lane.means(Concept::Lane) => u8::try_from(*value).ok(),
        _ => None,
    });
    // `lanes 3 only tonight`
    let count = count.or_else(|| {
        let first = c.pieces.first()?;
        let (Item::Lanes(bits), true) = (first.item, c.at(1)?.means(Concept::Only)) else {
            return None;
        };
        let many = c.typed(0, 1).to_lowercase().starts_with("lanes") && bits.count_ones() == 1;
        many.then(|| u8::try_from(bits.trailing_zeros()).ok()).flatten()
    });
    candidate.used.mark(c.pieces, |piece| {
        piece.means(Concept::Lane)
            || matches!(piece.item, Item::Lanes(_) | Item::Day(_))
            || piece.means(Concept::Lost)
            || piece.means(Concept::Gained)
            || piece.means(Concept::Only)
            || piece.means(Concept::Not)
            || piece.means(Concept::KitHave)
            || matches!(piece.item, Item::Figure(Figure::Whole { value, .. }) if value <= 10)
            || matches!(piece.item, Item::Ordinal(_) | Item::Span(_))
    });
    let on = c.pieces.iter().find_map(|piece| match piece.item {
        Item::Day(named) => c.coming(named),
        _ => None,
    });
    // `only 3 lanes tonight`, said before it begins, is of the night as of any other.
    let ahead = on
        .is_some_and(|on| on != Day::Today || c.has(Concept::Only) && c.sit.phase != Phase::During);
    if let Some(count) = count {
        // `both sessions next week are only 3 lanes`
        let nights: Vec<Day> = c.pieces.iter().flat_map(|piece| c.nights_of(piece)).collect();
        if nights.len() > 1 {
            for night in nights {
                let slot = Slot { lanes: Some(count), on: Some(night), ..Slot::default() };
                candidate = candidate.says(Kind::Slot(slot));
            }
            return vec![candidate.at_cost(0.5)];
        }
        if ahead {
            let slot = Slot { lanes: Some(count), on, ..Slot::default() };
            return vec![candidate.says(Kind::Slot(slot)).at_cost(0.5)];
        }
        return vec![candidate.says(Kind::Lanes { count: Some(count) }).at_cost(0.5)];
    }
    // `got l4 back`
    let back = c.pieces.array_windows::<2>().find_map(|pair| match pair[0].item {
        Item::Lanes(bits) if bits.count_ones() == 1 && pair[1].means(Concept::Gained) => {
            u8::try_from(bits.trailing_zeros()).ok()
        }
        _ => None,
    });
    if let (Some(lane), true) = (back, c.len() <= 7) {
        let count = u8::try_from(c.sit.lanes.len()).map_or(lane, |lanes| lanes.max(lane));
        return vec![candidate.says(Kind::Lanes { count: Some(count) }).at_cost(0.5)];
    }
    // `they've just shut lane 1 on us`
    let one = |piece: &Piece<'_>| matches!(piece.item, Item::Lanes(bits) if bits.count_ones() == 1);
    let shut = c.has(Concept::Shut) && c.pieces.iter().any(one) && c.sit.phase == Phase::During;
    if (c.has(Concept::Lost) || shut) && c.len() <= 12 {
        let left = u8::try_from(c.sit.lanes.len()).ok().filter(|lanes| *lanes > 1);
        let kind = match left {
            Some(lanes) => Kind::Lanes { count: Some(lanes - 1) },
            None => Kind::LaneGone,
        };
        return vec![candidate.says(kind).at_cost(0.6)];
    }
    vec![]
}
