//! Pain, illness, tiredness and their end: whose, where, and whether it is now.

use super::Clause;
use super::candidate::Candidate;
use crate::message::{Illness, Kind, Name, Pain, Statement};
use crate::reading::health::{Sign, Signs};
use crate::reading::lexicon::{Concept, Sense};
use crate::reading::piece::{Figure, Item, Piece};
use crate::reading::rank::borders;
use crate::reading::situation::Role;

/// How many pieces lie at most between a part of the body and its pain.
const NEAR: usize = 7;

/// Reads a stretch as pain, illness, tiredness or their end.
pub fn read(c: &Clause<'_, '_>) -> Vec<Candidate> {
    let Some(who) = whose(c) else { return vec![] };
    if is_history(c) {
        return vec![];
    }
    let mut candidate = Candidate::new("health", c.len());
    for (at, piece) in c.pieces.iter().enumerate() {
        candidate.used[at] |= matches!(piece.item, Item::Person(_));
    }
    let places: Vec<(usize, &'static str)> = places(c).collect();
    let aches: Vec<usize> = (0..c.len()).filter(|at| is_ache(c, *at) && is_hers(c, *at)).collect();
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
            candidate.used[place] |=
                piece.sense(|sense| matches!(sense, Sense::Illness(_)).then_some(())).is_some();
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

/// Pain and illness of every part of a text: what is never dropped.
pub fn complaints(whole: &Clause<'_, '_>) -> Vec<Statement> {
    let borders = borders(whole.pieces);
    let mut told: Vec<Statement> = Vec::new();
    for span in 1..=2 {
        for ends in borders.windows(span + 1) {
            let (from, to) = (ends[0], ends[span]);
            let stretch = Clause { pieces: &whole.pieces[from..to], offset: from, ..*whole };
            let says = read(&stretch).into_iter().filter(|one| one.asks.is_none());
            for statement in says.flat_map(|one| one.says) {
                let known = |one: &Statement| match (&one.kind, &statement.kind) {
                    (Kind::Pain(one), Kind::Pain(other)) => one.place == other.place,
                    (Kind::Ill { .. }, Kind::Ill { .. }) => true,
                    _ => false,
                };
                let grave = matches!(statement.kind, Kind::Pain(_) | Kind::Ill { .. });
                if grave && !told.iter().any(known) {
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

/// The signs of the words of health that a piece may be.
const fn signs(_: &Clause<'_, '_>, piece: &Piece<'_>) -> Signs {
    piece.signs
}

/// `broke my arm when i was 12`: of years ago.
fn is_history(c: &Clause<'_, '_>) -> bool {
    c.pieces.windows(4).any(|four| {
        let [when, i, was, age] = four else { return false };
        when.means(Concept::When)
            && i.means(Concept::Me)
            && was.text == "was"
            && matches!(age.item, Item::Figure(Figure::Whole { value: 2..=60, .. }))
    })
}

/// Said of the sender, or of whom the stretch names: no one else of the family
/// stands before it, and it is not denied.
fn is_hers(c: &Clause<'_, '_>, at: usize) -> bool {
    let kin = Signs::of(&[Sign::Kin, Sign::Child]);
    let ward = c.sit.guardian;
    let others = c.pieces[at.saturating_sub(5)..at].iter().any(|piece| {
        let signs = signs(c, piece);
        signs.meets(kin) && !(ward && signs.has(Sign::Child))
    });
    let before = &c.pieces[at.saturating_sub(4)..at];
    let joined = before.iter().rposition(|piece| {
        piece.means(Concept::And) || piece.means(Concept::But) || piece.means(Concept::Then)
    });
    let before = &before[joined.map_or(0, |joined| joined + 1)..];
    let denied = before.iter().any(|piece| {
        [Concept::Not, Concept::Didnt, Concept::Without].iter().any(|one| piece.means(*one))
            || matches!(piece.text, "no" | "never" | "sin" | "nunca" | "ni")
    });
    !others && !denied
}

fn is_ache(c: &Clause<'_, '_>, at: usize) -> bool {
    let piece = &c.pieces[at];
    let hurts = Signs::of(&[Sign::Swell, Sign::Numb]);
    // `la rodilla mala`
    let bad = matches!(
        piece.text,
        "mal" | "mala" | "malo" | "fastidiada" | "fastidiado" | "tocada" | "tocado"
    ) && at > 0
        && body(&c.pieces[at - 1]).is_some();
    // `knackered. legs gone`: tired, where no part of the body stands just before it.
    let tired = piece.means(Concept::Tired)
        && !c.pieces[at.saturating_sub(2)..at].iter().any(|before| body(before).is_some());
    let aches = piece.means(Concept::Pain) && !tired
        || bad
        || piece.item != Item::Picture && signs(c, piece).meets(hurts) && piece.text != "asleep";
    // `legs are gone` is tired, `gone` by itself nothing.
    let gone = piece.text == "gone"
        && !c.pieces[..at].iter().rev().take(2).any(|before| {
            body(before).is_some_and(|place| !matches!(place, "leg" | "arm" | "stomach"))
        });
    aches && !gone
}

/// The parts of the body that a stretch names.
fn places<'a>(c: &'a Clause<'_, '_>) -> impl Iterator<Item = (usize, &'static str)> + 'a {
    let named = c.pieces.iter().enumerate().filter_map(|(at, piece)| Some((at, body(piece)?)));
    named.filter(|(at, _)| !is_no_part(c, *at) && is_hers(c, *at))
}

fn body(piece: &Piece<'_>) -> Option<&'static str> {
    piece.sense(|sense| match sense {
        Sense::Body(place) => Some(*place),
        _ => None,
    })
}

/// `100 back 1:52` is a stroke, `back monday` a return: the part of the body has
/// somebody it belongs to, or its pain beside it.
fn is_no_part(c: &Clause<'_, '_>, at: usize) -> bool {
    let piece = &c.pieces[at];
    let many = piece.at.1 - piece.at.0 > 1;
    if many || !matches!(piece.text, "back" | "backs" | "espalda" | "pecho" | "arch" | "sole") {
        return false;
    }
    let owned = at > 0
        && matches!(
            c.pieces[at - 1].text,
            "my" | "her"
                | "his"
                | "the"
                | "your"
                | "ma"
                | "me"
                | "bad"
                | "sore"
                | "upper"
                | "lower"
                | "mi"
                | "la"
                | "su"
                | "el"
                | "dodgy"
                | "their"
        );
    let hurts =
        (at + 1..c.len().min(at + 4)).any(|next| is_ache(c, next)) || at > 0 && is_ache(c, at - 1);
    !(owned || hurts)
        || c.at(at + 1).is_some_and(|next| {
            matches!(next.item, Item::Figure(_) | Item::Day(_))
                || matches!(next.text, "to" | "in" | "on" | "from" | "at")
        })
}

/// Each part of the body that has a pain near it, once.
fn pains(places: &[(usize, &'static str)], aches: &[usize]) -> Vec<(usize, &'static str)> {
    let mut hurts: Vec<(usize, &'static str)> = Vec::new();
    for ache in aches {
        // Their nearest: a part is named just before its pain, or behind it.
        let near = |(at, _): &&(usize, &str)| at.abs_diff(*ache) * 2 + usize::from(at > ache);
        let Some(found) = places.iter().min_by_key(near) else { break };
        let known = hurts.iter().any(|(_, place)| *place == found.1);
        if found.0.abs_diff(*ache) <= NEAR && !known {
            hurts.push(*found);
        }
    }
    hurts
}

/// A word for what is over, where it is that of pain or illness.
fn over(
    c: &Clause<'_, '_>,
    places: &[(usize, &str)],
    aches: &[usize],
    ill: Option<(usize, Option<Illness>)>,
) -> Option<usize> {
    if let Some(past) = ill.and_then(|(at, _)| is_past(c, at)) {
        return Some(past);
    }
    if let Some(settled) = is_settled(c, places) {
        return Some(settled);
    }
    let better = c.find(Concept::Better)?;
    let piece = &c.pieces[better];
    let told = !places.is_empty() || ill.is_some();
    let plain = matches!(
        piece.text,
        "better" | "recovered" | "mejor" | "recuperado" | "recuperada" | "curado" | "curada"
    ) || piece.at.1 - piece.at.0 > 1;
    let behind = aches.iter().all(|at| *at < better) && ill.is_none_or(|(at, _)| at < better);
    let denied = !is_hers(c, better);
    // A coach's `better` is mostly of what was swum.
    let longest = if c.sit.role == Role::Coach { 3 } else { 6 };
    ((told || c.len() <= longest) && behind && (told || plain) && !denied).then_some(better)
}

/// `the shoulder thing is gone`, `knee is fine again`: a pain told of that is no more.
fn is_settled(c: &Clause<'_, '_>, places: &[(usize, &str)]) -> Option<usize> {
    // `legs are gone` is tired.
    let [(at, _)] =
        *places.iter().filter(|(_, place)| !matches!(*place, "leg" | "arm")).collect::<Vec<_>>()
    else {
        return None;
    };
    (at + 1..c.len()).find(|place| {
        let piece = &c.pieces[*place];
        let next = c.at(place + 1);
        // `his shoulder's gone` is hurt; a trouble that is gone is over.
        let trouble = c.pieces[at + 1..*place].iter().any(|piece| {
            matches!(
                piece.text,
                "thing" | "pain" | "ache" | "issue" | "problem" | "niggle" | "soreness" | "cramp"
            )
        });
        let gone = trouble
            && matches!(piece.text, "gone" | "settled" | "cleared" | "disappeared" | "vanished");
        let well = piece.means(Concept::Good)
            && next.is_some_and(|next| next.means(Concept::Again) || next.text == "now");
        (gone || well) && is_hers(c, *place)
    })
}

/// `the right one`, `more like a 5 going downstairs`, `el derecho`: more about the pain that the
/// sender told of last.
fn same_pain(
    c: &Clause<'_, '_>,
    places: &[(usize, &str)],
    candidate: &Candidate,
) -> Option<Candidate> {
    let [Statement { who, kind: Kind::Pain(told) }] = c.sit.before.as_slice() else { return None };
    let whole = c.len() == c.all.len();
    // `right not left` puts it right.
    // `actually more like a 3` is of now.
    // `sorry meant a 6` is how strong; `right not left` is which.
    let corrects = c.has_any(&[Concept::Sorry, Concept::Instead])
        && !c.has(Concept::About)
        && lone_level(c).is_none();
    if !whole || corrects || !places.is_empty() || !c.people().is_empty() {
        return None;
    }
    let level = last_rating(c, 0)
        .filter(|(at, _)| {
            *at > 0 && !matches!(c.pieces[at - 1].item, Item::Figure(_)) || c.len() <= 3
        })
        .or_else(|| lone_level(c));
    let side = c.pieces.iter().position(is_side);
    if level.is_none() && side.is_none() {
        return None;
    }
    let mut candidate = candidate.clone();
    for (at, piece) in c.pieces.iter().enumerate() {
        let plain = matches!(piece.item, Item::Word | Item::Chatter | Item::Day(_) | Item::Span(_));
        candidate.used[at] |= plain && !piece.means(Concept::Not) && !piece.means(Concept::Come);
    }
    for at in level.map(|(at, _)| at).into_iter().chain(side) {
        candidate.used[at] = true;
    }
    let level = level.map(|(_, level)| level).or(told.level);
    let kind = Kind::Pain(Pain { place: told.place.clone(), level });
    let says = vec![Statement { who: who.clone(), kind }];
    Some(candidate.says(Kind::Restate { says, changed: 0 }).at_cost(-0.3))
}

/// `4 now`: the only figure of a short text behind a pain.
fn lone_level(c: &Clause<'_, '_>) -> Option<(usize, u8)> {
    const LONGEST: usize = 12;
    let figures: Vec<(usize, u32)> = c
        .pieces
        .iter()
        .enumerate()
        .filter_map(|(at, piece)| match piece.item {
            Item::Figure(figure) => Some((at, figure.whole().unwrap_or(u32::MAX))),
            Item::Far(_) | Item::Repeat(..) | Item::Each(_) => Some((at, u32::MAX)),
            _ => None,
        })
        .collect();
    match figures[..] {
        [(at, level @ 0..=10)] if c.len() <= LONGEST => Some((at, u8::try_from(level).ok()?)),
        _ => None,
    }
}

/// Which side, or which part of it.
fn is_side(piece: &Piece<'_>) -> bool {
    matches!(
        piece.text,
        "left"
            | "right"
            | "inside"
            | "outside"
            | "inner"
            | "outer"
            | "front"
            | "derecho"
            | "derecha"
            | "izquierdo"
            | "izquierda"
            | "izq"
            | "der"
            | "dcho"
            | "dcha"
    )
}

/// `back from flu`, `was ill sunday, fine since yesterday`: an illness at a place that is
/// over, and the piece that says so.
fn is_past(c: &Clause<'_, '_>, at: usize) -> Option<usize> {
    let back = (at.saturating_sub(2)..at).find(|place| {
        let piece = &c.pieces[*place];
        let from = |piece: &Piece<'_>| matches!(piece.text, "from" | "after");
        piece.means(Concept::Back)
            && (piece.at.1 - piece.at.0 > 1 || c.at(place + 1).is_some_and(from))
    });
    if back.is_some() {
        return back;
    }
    let was = c.pieces[at.saturating_sub(3)..at]
        .iter()
        .any(|piece| matches!(piece.text, "was" | "were" | "been" | "estuve" | "estaba"));
    let well = (at + 1..c.len()).find(|place| c.pieces[*place].means(Concept::Good))?;
    let since = c.pieces[well..].iter().any(|piece| {
        matches!(piece.text, "since" | "now" | "again" | "ahora" | "ya")
            || piece.means(Concept::Again)
    });
    (was && since && is_hers(c, well)).then_some(well)
}

/// The illness that a piece names, where it is the sender's and now.
fn illness(c: &Clause<'_, '_>, at: usize) -> Option<Option<Illness>> {
    let piece = &c.pieces[at];
    let what = piece.sense(|sense| match sense {
        Sense::Illness(what) => Some(*what),
        _ => None,
    })?;
    if is_ache(c, at) && at > 0 && body(&c.pieces[at - 1]).is_some() {
        return None;
    }
    let idiom = c.at(at + 1).is_some_and(|next| matches!(next.text, "of" | "water"));
    // `a cold`, and not the cold of the water.
    let had = |piece: &Piece<'_>| {
        matches!(
            piece.text,
            "a" | "my"
                | "got"
                | "have"
                | "full"
                | "stinking"
                | "bit"
                | "heavy"
                | "bad"
                | "had"
                | "with"
                | "caught"
                | "this"
                | "has"
                | "of"
                | "colds"
        )
    };
    let chilled = piece.text == "cold"
        && piece.at.1 - piece.at.0 == 1
        && !c.pieces[at.saturating_sub(3)..at].iter().any(had);
    (is_hers(c, at) && !is_will(c, at) && !idiom && !chilled).then_some(what)
}

/// Verbs behind `ill` that make it `I'll`.
pub fn is_will(c: &Clause<'_, '_>, at: usize) -> bool {
    c.pieces[at].text == "ill"
        && c.at(at + 1).is_some_and(|next| {
            signs(c, next).has(Sign::Will)
                || next.means(Concept::Come)
                || next.means(Concept::LeaveEarly)
                || next.means(Concept::Out)
        })
}

/// A part of the body with a feeling that is no pain by name.
fn strange(c: &Clause<'_, '_>, places: &[(usize, &'static str)]) -> Option<(usize, &'static str)> {
    let odd = (0..c.len()).find(|at| {
        let piece = &c.pieces[*at];
        signs(c, piece).has(Sign::Strange) && is_hers(c, *at)
    })?;
    let near = places.iter().min_by_key(|(at, _)| at.abs_diff(odd))?;
    (near.0.abs_diff(odd) <= 4).then_some(*near)
}

/// Words round a pain that say no more than it does.
fn explain(c: &Clause<'_, '_>, candidate: &mut Candidate, aches: &[usize]) {
    aches.iter().for_each(|at| candidate.used[*at] = true);
    for (at, piece) in c.pieces.iter().enumerate() {
        candidate.used[at] |= signs(c, piece).has(Sign::Slight)
            || piece.means(Concept::Pain)
            || matches!(piece.item, Item::Span(_) | Item::Day(_)) && c.len() <= 9;
    }
}

/// True where nothing but one part of the body stands.
fn is_alone(c: &Clause<'_, '_>) -> bool {
    let says = |piece: &&Piece<'_>| {
        !matches!(piece.item, Item::Mark(_) | Item::Picture | Item::Line | Item::Person(_))
            && !signs(c, piece).has(Sign::Slight)
            && !matches!(piece.text, "my" | "the" | "her" | "his" | "and" | "but" | "la" | "el")
    };
    c.pieces.iter().filter(says).count() == 1
}

/// How strong: `4`, `7/10`, `its like a 6`. The figure stands by its pain, and counts no
/// repeats; of several the last is that of now.
fn level(c: &Clause<'_, '_>, candidate: &mut Candidate) -> Option<u8> {
    let (at, level) = last_rating(c, 0)?;
    candidate.used[at] = true;
    Some(level)
}

/// The last figure from a place on that says how strong something is, and where.
/// Where a text says what it was before, what it is now counts: `a 6, it was a 4 on monday`.
fn last_rating(c: &Clause<'_, '_>, from: usize) -> Option<(usize, u8)> {
    let was = |at: usize| {
        let before = &c.pieces[at.saturating_sub(2)..at];
        before.iter().any(|piece| matches!(piece.text, "was" | "era" | "were"))
    };
    let mut ratings = (from..c.len()).rev().filter_map(|at| Some((at, rating(c, at)?)));
    ratings.clone().find(|(at, _)| !was(*at)).or_else(|| ratings.next())
}

/// True where nothing follows in the text, or only a doubt: `, 3 maybe`.
fn closes(c: &Clause<'_, '_>, at: usize) -> bool {
    let behind = c.all.get(c.offset + at + 1..).unwrap_or_default();
    behind.iter().all(|piece| piece.means(Concept::Maybe) || matches!(piece.item, Item::Mark(_)))
}

/// True where a part of the text ends with this piece.
fn ends_part(c: &Clause<'_, '_>, at: usize) -> bool {
    closes(c, at) || c.all.get(c.offset + at + 1).is_some_and(Piece::is_apart)
}

/// The figure at a place, where it says how strong something is.
fn rating(c: &Clause<'_, '_>, at: usize) -> Option<u8> {
    let before = at.checked_sub(1).map(|before| &c.pieces[before]);
    let by_pain = before.is_some_and(|before| {
        is_ache(c, at - 1)
            || body(before).is_some()
            || [Concept::Maybe, Concept::About].iter().any(|one| before.means(*one))
            || matches!(
                before.text,
                "a" | "level" | "is" | "was" | "its" | "say" | "un" | "nivel" | "now" | "maybe"
            )
            // `… but you did ask so 2`
            || before.means(Concept::Because) && closes(c, at)
            // `a dull ache down the side, 4`, `shoulder's sore. 6. i'll live`, `says 4`
            || (before.is_apart() || before.item == Item::Chatter) && ends_part(c, at)
    });
    let about = c.at(at + 1).is_some_and(|next| next.text == "ish");
    // `from a 5`, `from 5`: what it was.
    let was = (at.saturating_sub(2)..at).any(|before| {
        c.pieces[before].means(Concept::From) && (before + 1 == at || c.pieces[at - 1].text == "a")
    });
    if was {
        return None;
    }
    match c.pieces[at].item {
        Item::Rpe(tenths) => Some(tenths / 10),
        Item::OfAll(some, 10) if some <= 10 => u8::try_from(some).ok(),
        Item::Figure(Figure::Whole { value: value @ 0..=10, places: 1.. }) if by_pain || about => {
            u8::try_from(value).ok()
        }
        // `about a five`, `bout a six`
        Item::Figure(Figure::Whole { value: value @ 2..=10, places: 0 })
            if at > 0 && c.pieces[at - 1].text == "a" && closes(c, at) =>
        {
            u8::try_from(value).ok()
        }
        _ => None,
    }
}

/// `shoulder was a 3`, `knee fine, 0`: a part of the body with a figure for its pain.
fn rated(c: &Clause<'_, '_>, place: usize, candidate: &mut Candidate) -> Option<u8> {
    let swum = c.pieces.iter().any(|piece| {
        matches!(piece.item, Item::Repeat(..) | Item::Far(_) | Item::Each(_) | Item::Plural(_))
    });
    let none = (place + 1..c.len()).rev().find(|at| {
        matches!(c.pieces[*at].item, Item::Figure(Figure::Whole { value: 0, places: 1 }))
            && c.pieces[at - 1].item == Item::Mark(',')
    });
    if let Some(at) = none {
        candidate.used[at] = true;
        return Some(0);
    }
    let (at, level) = last_rating(c, place + 1).filter(|_| !swum)?;
    candidate.used[at] = true;
    Some(level)
}

fn tired(c: &Clause<'_, '_>, mut candidate: Candidate, who: Option<Name>) -> Vec<Candidate> {
    if let Some(at) = c.find(Concept::Tired) {
        let swum =
            c.pieces.iter().any(|piece| matches!(piece.item, Item::Far(_) | Item::Repeat(..)));
        if !swum && is_hers(c, at) {
            candidate.used[at] = true;
            for (place, piece) in c.pieces.iter().enumerate() {
                candidate.used[place] |= piece.means(Concept::Sleep)
                    || matches!(piece.item, Item::Span(_) | Item::Day(_));
            }
            return vec![candidate.says_of(who, Kind::Tired).at_cost(0.9)];
        }
    }
    // `slept 4 hours`; with a figure beside it the stretch says more than that.
    let spans = c.pieces.iter().any(|piece| matches!(piece.item, Item::Span(_)));
    let figures = c.pieces.iter().any(|piece| matches!(piece.item, Item::Figure(_)));
    if c.has(Concept::Sleep) && spans && !figures {
        candidate.used.fill(true);
        return vec![candidate.says_of(who, Kind::Tired).at_cost(0.9)];
    }
    vec![]
}
