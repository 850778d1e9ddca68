//! Who each stretch of a text tells of: a person, several or a lane, and the pieces about them.

use crate::reading::frame::Clause;
use crate::reading::lexicon::Concept;
use crate::reading::piece::{Item, Piece, Used};

/// Someone, or several, and the pieces that tell of them.
#[derive(Debug, Clone)]
pub struct Entry {
    /// Their places in the roster.
    pub people: Vec<usize>,
    /// The first piece that tells of them.
    pub from: usize,
    /// The first piece that no longer does.
    pub to: usize,
}

/// True for a figure that counts nothing: a time, or a distance.
pub fn may_be_time(piece: &Piece<'_>) -> bool {
    matches!(piece.item, Item::Figure(figure) if figure.whole().is_none_or(|value| value > 20))
}

/// Each person or group with the stretch that tells of them.
pub fn entries(c: &Clause<'_, '_>, used: &mut Used) -> Option<Vec<Entry>> {
    let mut groups: Vec<(Vec<usize>, usize, usize)> = Vec::new();
    let mut at = 0;
    while at < c.len() {
        match c.pieces[at].item {
            Item::Person(person) => {
                let from = at;
                let mut people = vec![person];
                used[at] = true;
                at += 1;
                loop {
                    let next = c.pieces.after(at, |piece| {
                        piece.means(Concept::And)
                            || matches!(piece.item, Item::Mark(',' | '&' | '+' | '/'))
                    });
                    match c.at(next).map(|piece| piece.item) {
                        // `finch & teal, finch 2:50`: said again, it begins anew.
                        Some(Item::Person(other)) if !people.contains(&other) => {
                            people.push(other);
                            used[next] = true;
                            at = next + 1;
                        }
                        _ => break,
                    }
                }
                groups.push((people, from, at));
            }
            Item::Lanes(lanes) => {
                used[at] = true;
                let is_person = |piece: &Piece<'_>| matches!(piece.item, Item::Person(_));
                let close = c.pieces[at + 1..].iter().take(3).any(is_person);
                // `lane 1 averages on the 50s: swift 37, finch 38`
                let colon =
                    c.pieces[at + 1..].array_windows::<2>().find(|pair| is_person(&pair[1]));
                let headed = colon.is_some_and(|pair| pair[0].item == Item::Mark(':'));
                let followed = close || headed;
                if !followed {
                    let people: Vec<usize> = (1..=20u32)
                        .filter(|lane| lanes & (1 << lane) != 0)
                        .filter_map(|lane| c.sit.lanes.get(lane as usize - 1))
                        .flatten()
                        .copied()
                        .collect();
                    if !people.is_empty() {
                        groups.push((people, at, at + 1));
                    }
                }
                at += 1;
            }
            _ => at += 1,
        }
    }
    let (named, first, _) = groups.first()?;
    // `lane 4 62 64 68 robin plover puffin`: whose they are stands behind.
    if let [(_, lane, from), (people, to, _)] = groups.as_slice()
        && matches!(c.pieces[*lane].item, Item::Lanes(_))
    {
        let times = c.pieces[*from..*to].iter().filter(|piece| may_be_time(piece)).count();
        if times > 1 && times == people.len() {
            return Some(vec![Entry { people: people.clone(), from: *from, to: *to }]);
        }
    }
    // `312 heron 258 teal`: the time stands before its name.
    let timed = |piece: &Piece<'_>| matches!(piece.item, Item::Figure(figure) if figure.whole().is_none_or(|value| value < 1000 && !is_heading(value)));
    let before = *first > 0 && timed(&c.pieces[first - 1]);
    let ends =
        groups.last().is_some_and(|(_, _, to)| c.pieces[*to..].iter().all(|piece| !timed(piece)));
    let each_before = groups.iter().all(|(_, from, _)| *from > 0 && timed(&c.pieces[*from - 1]));
    let run = c.pieces[..*first].iter().filter(|piece| timed(piece)).count();
    if before && ends && groups.len() == 1 && named.len() == run && run > 1 {
        // `3:31 3:42 3:57 dunnock wren lark`
        let from = c.pieces[..*first].iter().position(timed).unwrap_or(0);
        return Some(vec![Entry { people: named.clone(), from, to: *first }]);
    }
    if before && ends && each_before {
        let mut entries = Vec::new();
        for (people, from, _) in groups {
            entries.push(Entry { people, from: from - 1, to: from });
        }
        return Some(entries);
    }
    let mut entries = Vec::new();
    for (place, (people, _, to)) in groups.iter().enumerate() {
        let end = groups.get(place + 1).map_or(c.len(), |(_, from, _)| *from);
        entries.push(Entry { people: people.clone(), from: *to, to: end });
    }
    Some(entries)
}

/// True for a number that heads a list of times as their distance.
pub const fn is_heading(value: u32) -> bool {
    matches!(value, 25 | 50 | 100 | 200 | 400 | 800 | 500 | 1000 | 1500)
}
