//! Parts of the body and the aches beside them: whose they are, and what only looks like one.

use crate::reading::frame::Clause;
use crate::reading::frame::candidate::Candidate;
use crate::reading::health::{Sign, Signs};
use crate::reading::lexicon::{Concept, Sense};
use crate::reading::piece::{Item, Piece};

/// How many pieces lie at most between a part of the body and its pain.
const NEAR: usize = 7;

/// Said of the sender, or of whom the stretch names: no one else of the family
/// stands before it, and it is not denied.
pub fn is_theirs(c: &Clause<'_, '_>, at: usize) -> bool {
    let kin = Signs::of(&[Sign::Kin, Sign::Child]);
    let ward = c.sit.guardian;
    // `the little one has chickenpox`, `wee ones got nits`
    let little = c.pieces[at.saturating_sub(6)..at].array_windows::<2>().any(|pair| {
        matches!(pair[0].text, "little" | "wee" | "youngest" | "eldest" | "oldest")
            && pair[1].text.starts_with("one")
    });
    // `… brought a bug home and now i've got it`
    let caught = || {
        let typed = c.typed(at, c.len()).to_lowercase();
        ["got it", "have it", "caught it", "lo tengo yo"].iter().any(|one| typed.contains(one))
    };
    let others = (little || of_another(c, at)) && !ward && !caught()
        || c.pieces[at.saturating_sub(5)..at].iter().any(|piece| {
            let signs = piece.signs;
            signs.meets(kin) && !(ward && signs.has(Sign::Child))
        });
    let before = &c.pieces[at.saturating_sub(4)..at];
    let joined = before.iter().rposition(|piece| {
        piece.means(Concept::And) || piece.means(Concept::But) || piece.means(Concept::Then)
    });
    let mut before = before.iter().skip(joined.map_or(0, |joined| joined + 1));
    let denied = before.any(|piece| {
        [Concept::Not, Concept::Didnt, Concept::Without].iter().any(|one| piece.means(*one))
            || matches!(piece.text, "no" | "never" | "sin" | "nunca" | "ni")
    });
    !others && !denied
}

/// `someone was sick in lane 4`, `my sister in leeds has got covid`, `bub's sick`: said of the
/// one whom the verb before it belongs to.
fn of_another(c: &Clause<'_, '_>, at: usize) -> bool {
    const NEAR: usize = 2;
    if !c.people().is_empty() {
        return false;
    }
    let parts = |piece: &Piece<'_>| {
        piece.is_apart()
            || [Concept::And, Concept::But, Concept::Because].iter().any(|one| piece.means(*one))
    };
    let before = &c.pieces[..at];
    let from = before.iter().rposition(parts).map_or(0, |border| border + 1);
    let stretch = before.get(from..).unwrap_or_default();
    // A word that we don't know, with its verb drawn into it.
    let drawn = |place: usize, piece: &Piece<'_>| {
        let typed = c.typed(place, place + 1).to_lowercase();
        matches!(piece.item, Item::Unknown) && (typed.ends_with("'s") || typed.ends_with("’s"))
    };
    if at > from && stretch.last().is_some_and(|last| drawn(at - 1, last)) {
        return true;
    }
    let is = |piece: &Piece<'_>| {
        piece.means(Concept::Is) || matches!(piece.text, "has" | "had" | "got" | "esta" | "tiene")
    };
    let verbs = stretch.iter().rev().skip_while(|piece| !is(piece)).take_while(|piece| is(piece));
    let verb = stretch.iter().rposition(is).map(|last| (last + 1).saturating_sub(verbs.count()));
    let Some((subject, behind)) = verb.and_then(|verb| stretch.split_at_checked(verb)) else {
        return false;
    };
    let mine = |piece: &Piece<'_>| piece.signs.has(Sign::Me) && !piece.means(Concept::My);
    let other =
        |piece: &Piece<'_>| piece.signs.has(Sign::Other) && !piece.signs.has(Sign::Authority);
    subject.iter().any(other)
        && !subject.iter().any(mine)
        && !behind.iter().any(mine)
        && behind.iter().filter(|piece| !is(piece)).count() <= NEAR
}

pub fn is_ache(c: &Clause<'_, '_>, at: usize) -> bool {
    let piece = &c.pieces[at];
    let hurts = Signs::of(&[Sign::Swell, Sign::Numb]);
    // `la rodilla mala`
    let bad = matches!(
        piece.text,
        "mal" | "mala" | "malo" | "fastidiada" | "fastidiado" | "tocada" | "tocado"
    ) && at > 0
        && body(&c.pieces[at - 1]).is_some();
    // `knackered. legs gone`: tired, where no part of the body stands just before it.
    let gave = gave_way(c, at);
    let tired = piece.means(Concept::Tired)
        && !c.pieces[at.saturating_sub(2)..at].iter().any(|before| body(before).is_some());
    let aches = piece.means(Concept::Pain) && !tired
        || bad
        || gave
        || piece.item != Item::Picture && piece.signs.meets(hurts) && piece.text != "asleep";
    // `legs are gone` is tired, `gone` by itself nothing.
    let gone = piece.text == "gone"
        && !c.pieces[..at].iter().rev().take(2).any(|before| {
            body(before).is_some_and(|place| !matches!(place, "leg" | "arm" | "stomach"))
        });
    aches && !gone
}

/// `then calf went.`, `his knee popped again`, `done her back in`: what a part of the body did,
/// or what somebody did to theirs, without a word of pain.
fn gave_way(c: &Clause<'_, '_>, at: usize) -> bool {
    let here = c.pieces[at].text;
    if !matches!(
        here,
        "went"
            | "goes"
            | "popped"
            | "pinged"
            | "twinged"
            | "seized"
            | "locked"
            | "tightened"
            | "in"
            | "out"
    ) {
        return false;
    }
    let text = |back: usize| at.checked_sub(back).map_or("", |place| c.pieces[place].text);
    let part = |back: usize| at.checked_sub(back).is_some_and(|at| body(&c.pieces[at]).is_some());
    let own = |text: &str| matches!(text, "my" | "her" | "his" | "their" | "the" | "me" | "ma");
    if matches!(here, "in" | "out") {
        let did = matches!(text(3), "done" | "did" | "put" | "doing" | "threw" | "thrown" | "does");
        return part(1) && own(text(2)) && did;
    }
    let ends = c.at(at + 1).is_none_or(|next| {
        matches!(next.item, Item::Mark(_) | Item::Line | Item::Picture)
            || matches!(next.text, "again" | "up" | "on" | "at" | "after" | "halfway" | "from")
    });
    let owned = own(text(2)) || !matches!(text(1), "back" | "backs");
    ends && owned && part(1)
}

/// The parts of the body that a stretch names.
pub fn places<'a>(c: &'a Clause<'_, '_>) -> impl Iterator<Item = (usize, &'static str)> + 'a {
    let named = c.pieces.iter().enumerate().filter_map(|(at, piece)| Some((at, body(piece)?)));
    named.filter(|(at, _)| !is_no_part(c, *at) && is_theirs(c, *at))
}

/// The part of the body that a piece names.
pub fn body(piece: &Piece<'_>) -> Option<&'static str> {
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
    if is_of_a_thing(c, at) {
        return true;
    }
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
                || matches!(next.text, "to" | "in" | "on" | "from" | "at") && !gave_way(c, at + 1)
        })
}

/// `neck of the bottle`, `foot of the pool`: what is no part of a body, as what stands behind
/// `of the` is none, and it is nobody's. English alone: `la rodilla de la caída` hurts.
fn is_of_a_thing(c: &Clause<'_, '_>, at: usize) -> bool {
    let text = |place: usize| c.at(place).map_or("", |piece| piece.text);
    if text(at + 1) != "of" || !matches!(text(at + 2), "the" | "a") {
        return false;
    }
    let owned = at > 0 && matches!(text(at - 1), "my" | "her" | "his" | "their" | "ma" | "me");
    // `arm of the girl in lane 2`, `ball of the foot`, `side of the right knee`
    let bodily = |place: usize| {
        c.at(place).is_some_and(|piece| {
            body(piece).is_some()
                || piece.signs.meets(Signs::of(&[
                    Sign::Slight,
                    Sign::Other,
                    Sign::Child,
                    Sign::Kin,
                ]))
                || matches!(piece.item, Item::Person(_))
        })
    };
    !owned && c.at(at + 3).is_some() && !bodily(at + 3) && !bodily(at + 4)
}

/// Each part of the body that has a pain near it, once.
pub fn pains(places: &[(usize, &'static str)], aches: &[usize]) -> Vec<(usize, &'static str)> {
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

/// A part of the body with a feeling that is no pain by name.
pub fn strange(
    c: &Clause<'_, '_>,
    places: &[(usize, &'static str)],
) -> Option<(usize, &'static str)> {
    let odd = (0..c.len()).find(|at| {
        let piece = &c.pieces[*at];
        piece.signs.has(Sign::Strange) && is_theirs(c, *at)
    })?;
    let near = places.iter().min_by_key(|(at, _)| at.abs_diff(odd))?;
    (near.0.abs_diff(odd) <= 4).then_some(*near)
}

/// Words round a pain that say no more than it does.
pub fn explain(c: &Clause<'_, '_>, candidate: &mut Candidate, aches: &[usize]) {
    aches.iter().for_each(|at| candidate.used[*at] = true);
    candidate.used.mark(c.pieces, |piece| {
        piece.signs.has(Sign::Slight)
            || piece.means(Concept::Pain)
            || matches!(piece.item, Item::Span(_) | Item::Day(_)) && c.len() <= 9
    });
}

/// True where nothing but one part of the body stands.
pub fn is_alone(c: &Clause<'_, '_>) -> bool {
    let says = |piece: &&Piece<'_>| {
        !matches!(piece.item, Item::Mark(_) | Item::Picture | Item::Line | Item::Person(_))
            && !piece.signs.has(Sign::Slight)
            && !matches!(piece.text, "my" | "the" | "her" | "his" | "and" | "but" | "la" | "el")
    };
    c.pieces.iter().filter(says).count() == 1
}
