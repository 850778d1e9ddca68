//! Pain, illness, tiredness and their end: whose, where, and whether it is now.

mod body;
mod ill;
mod level;
mod over;
mod same;

use super::Clause;
use super::candidate::Candidate;
use crate::message::{Kind, Name, Pain, Statement};
use crate::reading::health::{Sign, Signs};
use crate::reading::lexicon::{Concept, Sense};
use crate::reading::piece::{Figure, Item, Piece, borders};
use crate::reading::situation::Role;
pub use body::{body, is_theirs};
use body::{explain, is_ache, is_alone, pains, places, strange};
use ill::{illness, tired};
pub use level::is_of_something_else;
use level::{last_rating, level, rated};
use over::over;
use same::same_pain;

/// Reads a stretch as pain, illness, tiredness or their end.
pub fn read(c: &Clause<'_, '_>) -> Vec<Candidate> {
    let Some(who) = whose(c) else { return vec![] };
    if is_history(c) {
        return vec![];
    }
    let mut candidate = Candidate::new("health", c.len());
    candidate.used.mark(c.pieces, |piece| matches!(piece.item, Item::Person(_)));
    let places: Vec<(usize, &'static str)> = places(c).collect();
    let aches: Vec<usize> =
        (0..c.len()).filter(|at| is_ache(c, *at) && is_theirs(c, *at)).collect();
    let ill = (0..c.len()).find_map(|at| Some((at, illness(c, at)?)));
    // `shoulder better today, down to a 2 from 5`: less, and not over.
    let lessened =
        matches!(places[..], [_]) && last_rating(c, 0).is_some_and(|(_, level)| level > 0);
    if let Some(over) = over(c, &places, &aches, ill).filter(|_| !lessened) {
        candidate.used[over] = true;
        let told = places.iter().map(|(at, _)| *at).chain(aches).chain(ill.map(|(at, _)| at));
        told.for_each(|at| candidate.used[at] = true);
        return vec![candidate.says_of(who, Kind::Better).at_cost(0.5)];
    }
    let hurts = pains(&places, &aches);
    if !hurts.is_empty() {
        let level = level(c, &mut candidate);
        explain(c, &mut candidate, &aches);
        for (at, place) in &hurts {
            candidate.used[*at] = true;
            let level = level.filter(|_| hurts.len() == 1);
            let pain = Kind::Pain(Pain { place: (*place).to_owned(), level });
            candidate = candidate.says_of(who.clone(), pain);
        }
        if let Some((at, what)) = ill {
            candidate.used[at] = true;
            candidate = candidate.says_of(who, Kind::Ill { what });
        }
        return vec![candidate.at_cost(0.3)];
    }
    if let Some(same) = same_pain(c, &places, &candidate) {
        return vec![same];
    }
    if let [(at, place)] = places[..]
        && let Some(level) = rated(c, at, &mut candidate)
    {
        candidate.used[at] = true;
        for (place, piece) in c.pieces.iter().enumerate() {
            let little = [
                Concept::Is,
                Concept::Good,
                Concept::Better,
                Concept::Maybe,
                Concept::About,
                Concept::Down,
                Concept::From,
            ];
            candidate.used[place] |= little.iter().any(|one| piece.means(*one));
        }
        let kind = match level {
            0 => Kind::Better,
            level => Kind::Pain(Pain { place: place.to_owned(), level: Some(level) }),
        };
        return vec![candidate.says_of(who, kind).at_cost(0.5)];
    }
    // `la rodilla otra vez`, `my knee again`
    if let ([(at, place), ..], true) = (places.as_slice(), c.has(Concept::Again))
        && c.pieces[at + 1..].iter().take(2).any(|piece| piece.means(Concept::Again))
        && is_named_bare(c, *at)
    {
        candidate.used[*at] = true;
        for (place, piece) in c.pieces.iter().enumerate() {
            candidate.used[place] |= piece.means(Concept::Again);
        }
        return vec![
            candidate
                .says_of(who, Kind::Pain(Pain { place: (*place).to_owned(), level: None }))
                .at_cost(0.6),
        ];
    }
    // `skipping tonight, hip`: the place alone says why.
    if let ([(at, place)], true) = (places.as_slice(), is_alone(c))
        && !matches!(*place, "leg" | "hand" | "arm" | "head" | "face" | "eye" | "chest" | "skin")
        && c.offset > 0
    {
        candidate.used[*at] = true;
        let pain = Kind::Pain(Pain { place: (*place).to_owned(), level: None });
        return vec![candidate.says_of(who, pain).at_cost(-0.6)];
    }
    if let Some((at, what)) = ill {
        candidate.used[at] = true;
        for (place, piece) in c.pieces.iter().enumerate() {
            candidate.used[place] |= piece.illness().is_some();
        }
        return vec![candidate.says_of(who, Kind::Ill { what }).at_cost(0.4)];
    }
    if let Some((at, place)) = strange(c, &places) {
        candidate.used[at] = true;
        let pain = Kind::Pain(Pain { place: place.to_owned(), level: None });
        let says = vec![Statement { who, kind: pain }];
        return vec![candidate.asking_whether(says).at_cost(0.9)];
    }
    if let Some(cramp) = aches.iter().find(|at| c.pieces[**at].text.starts_with("cramp")) {
        candidate.used[*cramp] = true;
        let pain = Kind::Pain(Pain { place: "muscle".to_owned(), level: None });
        return vec![candidate.says_of(who, pain).at_cost(0.5)];
    }
    tired(c, candidate, who)
}

/// True where a part of the body is named as one's own or by itself, and not by what it does:
/// `my knee again`, and not `sinking legs again`.
fn is_named_bare(c: &Clause<'_, '_>, at: usize) -> bool {
    let Some(before) = at.checked_sub(1).and_then(|before| c.at(before)) else { return true };
    !matches!(before.item, Item::Word | Item::Unknown)
        || before.signs.meets(Signs::of(&[Sign::Slight, Sign::Me, Sign::Other]))
        || before.senses.iter().any(|sense| matches!(sense, Sense::Word(_)))
        || matches!(
            before.text,
            "the" | "her" | "his" | "la" | "el" | "mi" | "su" | "upper" | "lower"
        )
}

/// Pain and illness of every part of a text: what is never dropped.
pub fn complaints(whole: &Clause<'_, '_>) -> Vec<Statement> {
    let borders = borders(whole.pieces);
    let mut told: Vec<Statement> = Vec::new();
    for span in 1..=2 {
        for ends in borders.windows(span + 1) {
            let [from, .., to] = ends else { continue };
            let stretch = whole.part(*from, *to);
            let says = read(&stretch).into_iter().filter(|one| one.asks.is_none());
            for statement in says.flat_map(|one| one.says) {
                let known = |one: &Statement| match (&one.kind, &statement.kind) {
                    (Kind::Pain(one), Kind::Pain(other)) => one.place == other.place,
                    (Kind::Ill { .. }, Kind::Ill { .. }) => true,
                    _ => false,
                };
                if statement.kind.ails() && !told.iter().any(known) {
                    told.push(statement);
                }
            }
        }
    }
    told
}

/// Whom a stretch is about: the one it names, or the sender; nothing where that is
/// somebody the sender does not speak for.
fn whose(c: &Clause<'_, '_>) -> Option<Option<Name>> {
    let people = c.people();
    let own: Vec<usize> = c.sit.me.into_iter().collect();
    if c.sit.role != Role::Coach {
        return (people.is_empty() || people == own).then_some(None);
    }
    match people.as_slice() {
        [one] if Some(*one) == c.sit.me => Some(None),
        [one] => Some(c.name(*one)),
        // `heron messaged, shoulder still sore`
        [] => c.person_before().map(|person| c.name(person)).or_else(|| c.sit.me.map(|_| None)),
        _ => None,
    }
}

/// `broke my arm when i was 12`: of years ago.
fn is_history(c: &Clause<'_, '_>) -> bool {
    // `broke my wrist in 2011`, and nothing of today.
    let year = |piece: &Piece<'_>| {
        let last = c.sit.today.year() - 1;
        matches!(piece.item, Item::Figure(Figure::Whole { value, places: 4 })
            if i16::try_from(value).is_ok_and(|value| (1950..=last).contains(&value)))
    };
    let past = c.pieces.array_windows().any(|[into, of]| into.text == "in" && year(of));
    let now = c.pieces.iter().any(|piece| {
        matches!(piece.text, "now" | "again" | "today" | "tonight" | "worse")
            || matches!(piece.item, Item::Day(_))
    });
    if past && !now {
        return true;
    }
    c.pieces.array_windows().any(|[when, i, was, age]| {
        when.means(Concept::When)
            && i.means(Concept::Me)
            && was.text == "was"
            && matches!(age.item, Item::Figure(Figure::Whole { value: 2..=60, .. }))
    })
}
