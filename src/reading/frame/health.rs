//! Pain, illness, tiredness and their end: whose, where, and whether it is now.

use super::Clause;
use super::candidate::Candidate;
use crate::message::{Kind, Name, Pain};
use crate::reading::lexicon::{Concept, Sense};
use crate::reading::piece::{Figure, Item, Piece};
use crate::reading::situation::Role;

/// Words for people who are not of the squad: what they have is theirs.
const RELATIVES: &[&str] = &[
    "kid",
    "kids",
    "son",
    "sons",
    "daughter",
    "daughters",
    "child",
    "children",
    "baby",
    "wean",
    "weans",
    "mum",
    "mums",
    "mom",
    "moms",
    "dad",
    "dads",
    "wife",
    "wifes",
    "husband",
    "husbands",
    "partner",
    "partners",
    "girlfriend",
    "boyfriend",
    "nan",
    "nans",
    "gran",
    "grandad",
    "granny",
    "sister",
    "brother",
    "mate",
    "mates",
    "friend",
    "friends",
    "boss",
    "dog",
    "cat",
    "dogs",
    "cats",
    "toddler",
    "little",
    "youngest",
    "eldest",
    "mother",
    "father",
    "aunt",
    "uncle",
    "neighbour",
    "hijo",
    "hija",
    "hijos",
    "hijas",
    "nene",
    "nena",
    "mujer",
    "marido",
    "esposa",
    "esposo",
    "madre",
    "padre",
    "mama",
    "papa",
    "abuela",
    "abuelo",
    "hermana",
    "hermano",
    "novia",
    "novio",
    "perro",
    "gato",
    "pibe",
    "pibes",
    "bebe",
];

/// Verbs behind `ill` that make it `I'll`.
const WILL: &[&str] = &[
    "be",
    "come",
    "see",
    "try",
    "do",
    "go",
    "get",
    "have",
    "let",
    "make",
    "swim",
    "send",
    "bring",
    "take",
    "give",
    "text",
    "miss",
    "need",
    "just",
    "still",
    "probably",
    "not",
    "never",
    "definitely",
    "aim",
    "stick",
    "leave",
    "join",
    "start",
    "settle",
    "arrive",
    "pop",
    "drop",
    "put",
    "keep",
    "tell",
    "ask",
    "run",
    "work",
    "wait",
    "log",
    "post",
    "check",
    "say",
    "sort",
    "finish",
    "catch",
    "turn",
    "call",
    "find",
    "pay",
    "also",
    "only",
    "hopefully",
    "def",
    "defo",
    "prob",
    "test",
    "do",
    "stay",
    "head",
    "skip",
    "know",
    "confirm",
    "look",
    "move",
    "race",
    "rest",
    "shout",
    "report",
    "update",
    "say",
    "manage",
    "buy",
    "cycle",
    "walk",
    "drive",
    "want",
    "like",
    "sit",
];

/// True where `ill` says that somebody will.
pub fn is_will(c: &Clause<'_, '_>, at: usize) -> bool {
    c.pieces[at].text == "ill"
        && c.at(at + 1).is_some_and(|next| {
            WILL.contains(&next.text)
                || next.means(Concept::Come)
                || next.means(Concept::LeaveEarly)
                || next.means(Concept::Out)
        })
}

/// Reads a stretch as pain, illness, tiredness or their end.
pub fn read(c: &Clause<'_, '_>) -> Vec<Candidate> {
    let people = c.people();
    if !people.is_empty()
        && c.sit.role != Role::Coach
        && people != c.sit.me.into_iter().collect::<Vec<_>>()
    {
        return vec![];
    }
    let who: Option<Name> = match people.as_slice() {
        [one] if Some(*one) != c.sit.me => c.name(*one),
        _ => None,
    };
    if c.sit.role == Role::Coach && who.is_none() {
        return vec![];
    }
    let mut candidate = Candidate::new("health", c.len());
    for (at, piece) in c.pieces.iter().enumerate() {
        candidate.used[at] |= matches!(piece.item, Item::Person(_));
    }
    let others = |at: usize| {
        c.pieces[..at].iter().rev().take(4).any(|piece| RELATIVES.contains(&piece.text))
    };
    let negated = |at: usize| {
        c.pieces[at.saturating_sub(3)..at].iter().any(|piece| {
            [Concept::Not, Concept::Didnt, Concept::Without].iter().any(|one| piece.means(*one))
                || matches!(piece.text, "no" | "never" | "sin")
        })
    };
    let bodies: Vec<(usize, &'static str)> = c
        .pieces
        .iter()
        .enumerate()
        .filter_map(|(at, piece)| Some((at, body(piece)?)))
        .filter(|(at, _)| !is_stroke(c, *at))
        .collect();
    let pain = c
        .pieces
        .iter()
        .enumerate()
        .find(|(at, piece)| piece.means(Concept::Pain) && !others(*at) && !negated(*at))
        .map(|(at, _)| at);
    let better = c.find(Concept::Better);
    let ill = c.pieces.iter().enumerate().find_map(|(at, piece)| {
        let what = piece.sense(|sense| match sense {
            Sense::Illness(what) => Some(*what),
            _ => None,
        })?;
        let idiom = c.at(at + 1).is_some_and(|next| matches!(next.text, "of" | "water"));
        let cold_water = piece.text == "cold"
            && !c.pieces[..at].iter().any(|piece| {
                matches!(
                    piece.text,
                    "a" | "the" | "my" | "got" | "have" | "full" | "stinking" | "bit"
                )
            })
            && piece.at.1 - piece.at.0 == 1;
        (!others(at) && !negated(at) && !is_will(c, at) && !idiom && !cold_water)
            .then_some((at, what))
    });
    if let (Some(better), true) = (better, !bodies.is_empty() || c.len() <= 6)
        && pain.is_none_or(|pain| pain < better)
        && ill.is_none_or(|(at, _)| at < better)
        && (c.sit.role != Role::Coach || !bodies.is_empty() || ill.is_some() || c.len() <= 3)
        && (!bodies.is_empty()
            || ill.is_some()
            || c.at(better).is_some_and(|piece| {
                matches!(piece.text, "better" | "recovered" | "mejor" | "recuperado" | "recuperada")
                    || piece.at.1 - piece.at.0 > 1
            }))
    {
        candidate.used[better] = true;
        bodies.iter().for_each(|(at, _)| candidate.used[*at] = true);
        if let Some(pain) = pain {
            candidate.used[pain] = true;
        }
        if let Some((at, _)) = ill {
            candidate.used[at] = true;
        }
        return vec![candidate.says_of(who, Kind::Better).at_cost(0.5)];
    }
    if let Some(pain) = pain
        && let Some((at, place)) = bodies
            .iter()
            .min_by_key(|(at, _)| at.abs_diff(pain))
            .filter(|(at, _)| at.abs_diff(pain) <= 9)
        && !others(*at)
    {
        let level = level(c, &mut candidate);
        candidate.used[*at] = true;
        for (place, piece) in c.pieces.iter().enumerate() {
            candidate.used[place] |= piece.means(Concept::Pain)
                || matches!(
                    piece.text,
                    "left"
                        | "right"
                        | "both"
                        | "again"
                        | "bit"
                        | "izquierdo"
                        | "derecho"
                        | "izquierda"
                        | "derecha"
                        | "izq"
                        | "dcha"
                        | "otra"
                        | "vez"
                );
        }
        return vec![
            candidate
                .says_of(who, Kind::Pain(Pain { place: (*place).to_owned(), level }))
                .at_cost(0.3),
        ];
    }
    // `la rodilla otra vez`, `my knee again`
    if let ([(at, place), ..], true) = (bodies.as_slice(), c.has(Concept::Again))
        && c.pieces[at + 1..].iter().take(2).any(|piece| piece.means(Concept::Again))
        && !others(*at)
        && !negated(*at)
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
    if let ([(at, place)], true) = (bodies.as_slice(), alone(c))
        && *place != "leg"
        && *place != "hand"
        && c.offset > 0
    {
        candidate.used[*at] = true;
        return vec![
            candidate
                .says_of(who, Kind::Pain(Pain { place: (*place).to_owned(), level: None }))
                .at_cost(-0.6),
        ];
    }
    if let Some((at, what)) = ill {
        candidate.used[at] = true;
        for (place, piece) in c.pieces.iter().enumerate() {
            candidate.used[place] |=
                piece.sense(|sense| matches!(sense, Sense::Illness(_)).then_some(())).is_some();
        }
        return vec![candidate.says_of(who, Kind::Ill { what }).at_cost(0.4)];
    }
    if let Some(at) = c.find(Concept::Tired) {
        let figures =
            c.pieces.iter().any(|piece| matches!(piece.item, Item::Far(_) | Item::Repeat(..)));
        if !figures && !others(at) {
            candidate.used[at] = true;
            for (place, piece) in c.pieces.iter().enumerate() {
                candidate.used[place] |= piece.means(Concept::Sleep)
                    || matches!(piece.item, Item::Span(_) | Item::Day(_));
            }
            return vec![candidate.says_of(who, Kind::Tired).at_cost(0.9)];
        }
    }
    if c.has(Concept::Sleep) && c.pieces.iter().any(|piece| matches!(piece.item, Item::Span(_))) {
        candidate.used.fill(true);
        return vec![candidate.says_of(who, Kind::Tired).at_cost(0.9)];
    }
    vec![]
}

fn body(piece: &Piece<'_>) -> Option<&'static str> {
    piece.sense(|sense| match sense {
        Sense::Body(place) => Some(*place),
        _ => None,
    })
}

/// `100 back 1:52` is a stroke, `back monday` is a return.
fn is_stroke(c: &Clause<'_, '_>, at: usize) -> bool {
    let piece = &c.pieces[at];
    if !matches!(piece.text, "back" | "backs" | "espalda") || piece.at.1 - piece.at.0 > 1 {
        return false;
    }
    let before = at > 0
        && matches!(c.pieces[at - 1].item, Item::Figure(_) | Item::Far(_) | Item::Repeat(..));
    let after = c.at(at + 1).is_some_and(|next| {
        matches!(next.item, Item::Figure(_) | Item::Day(_))
            || matches!(next.text, "in" | "on" | "from" | "after" | "next" | "at" | "to")
    });
    before || after
}

/// True where nothing but one part of the body stands.
fn alone(c: &Clause<'_, '_>) -> bool {
    c.pieces
        .iter()
        .filter(|piece| {
            !matches!(piece.item, Item::Mark(_) | Item::Picture | Item::Line | Item::Person(_))
                && !matches!(
                    piece.text,
                    "my" | "the"
                        | "her"
                        | "his"
                        | "left"
                        | "right"
                        | "bad"
                        | "and"
                        | "but"
                        | "dodgy"
                        | "la"
                        | "el"
                )
        })
        .count()
        == 1
}

/// How strong: `4`, `7/10`.
fn level(c: &Clause<'_, '_>, candidate: &mut Candidate) -> Option<u8> {
    for (at, piece) in c.pieces.iter().enumerate() {
        let level = match piece.item {
            Item::Rpe(tenths) => Some(tenths / 10),
            Item::Figure(Figure::Whole { value: value @ 0..=10, places: 1.. }) => {
                u8::try_from(value).ok()
            }
            _ => None,
        };
        if level.is_some() {
            candidate.used[at] = true;
            return level;
        }
    }
    None
}
