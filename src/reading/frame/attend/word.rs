//! What a single word of a part says of coming.

use super::days::clock_behind;
use super::group::Says;
use super::part::Part;
use crate::reading::frame::Clause;
use crate::reading::lexicon::{Concept, Hint};
use crate::reading::piece::{Item, Named, Piece};
use crate::reading::situation::Role;

/// A word of denial close before a place, with no more than its verbs between: `will not be
/// able to come`.
fn negates(c: &Clause<'_, '_>, at: usize) -> bool {
    let helps = |piece: &Piece<'_>| {
        piece.means(Concept::To)
            || matches!(piece.text, "be" | "able" | "get" | "poder" | "voy" | "going")
    };
    let helping = c.pieces[..at].iter().rev().take_while(|piece| helps(piece)).count();
    let at = at - helping;
    (at.saturating_sub(3)..at).any(|before| {
        c.at(before).is_some_and(|piece| {
            [Concept::Not, Concept::Cant, Concept::Didnt, Concept::Wont]
                .iter()
                .any(|one| piece.means(*one))
        })
    })
}

/// True where `in` or `there` closes what is said: `in Donegal`, `there isn't` don't.
fn ends_here(next: Option<&Piece<'_>>) -> bool {
    let Some(next) = next else { return true };
    match next.item {
        Item::Chatter | Item::Unknown => false,
        // `in her cap`
        Item::Word if matches!(next.text, "her" | "his" | "their") => false,
        Item::Word => ![Concept::Article, Concept::Is, Concept::Aux, Concept::AuxBe, Concept::My]
            .iter()
            .any(|one| next.means(*one)),
        Item::Day(Named::Month(_)) => false,
        _ => true,
    }
}

/// `tradie coming at six`, `my parents are coming over`: of nobody who swims here.
fn is_of_others(c: &Clause<'_, '_>, at: usize) -> bool {
    let aux = [Concept::Is, Concept::Will, Concept::Aux, Concept::AuxBe];
    let subject = (0..at).rev().find(|before| {
        let piece = &c.pieces[*before];
        !aux.iter().any(|one| piece.means(*one)) || matches!(piece.item, Item::Chatter)
    });
    let Some(subject) = subject else { return false };
    let owned = subject > 0
        && [Concept::My, Concept::Article].iter().any(|one| c.pieces[subject - 1].means(*one));
    match c.pieces[subject].item {
        Item::Unknown => subject == 0 || owned,
        Item::Chatter => owned,
        _ => false,
    }
}

/// Takes a word; true if it is understood.
pub fn word(
    c: &Clause<'_, '_>,
    at: usize,
    piece: &Piece<'_>,
    part: &mut Part,
    register: bool,
    backed: bool,
) -> bool {
    let means = |concept: Concept| piece.means(concept);
    let negated = at > 0 && negates(c, at);
    // `full house`: all, and here.
    if means(Concept::Everyone) && means(Concept::Here) && c.sit.role == Role::Coach {
        part.group.everyone = true;
    }
    let group = &mut part.group;
    let is_out = group.says.contains(&Says::Out);
    let mut say = |says: Says, strength: u8| {
        if !group.says.contains(&says) {
            group.says.push(says);
        }
        group.strength = group.strength.max(strength);
        true
    };
    if means(Concept::Late) {
        return say(Says::Late(None), 3);
    }
    if means(Concept::LeaveEarly) {
        if let Some((time, _)) = clock_behind(c, at) {
            return say(Says::Leaves(Some(time)), 3);
        }
        if c.has(Concept::Early) || register && piece.at.1 - piece.at.0 > 1 {
            return say(Says::Leaves(None), 2);
        }
    }
    // `teal left 1930`, `finch must go at 19:45`, `plover gone`: from a coach.
    if register && at > 0 && !c.people().is_empty() {
        let goes = matches!(piece.text, "left" | "go" | "goes" | "going" | "gone");
        let after_person = matches!(c.pieces[at - 1].item, Item::Person(_));
        match clock_behind(c, at) {
            Some((time, _)) if goes => return say(Says::Leaves(Some(time)), 3),
            None if piece.text == "gone" && after_person && ends_here(c.at(at + 1)) => {
                return say(Says::Leaves(None), 2);
            }
            _ => {}
        }
    }
    if means(Concept::Maybe) {
        // `might not make it` says what of, `maybe` doesn't.
        return say(Says::Maybe, u8::from(piece.at.1 - piece.at.0 > 2));
    }
    if means(Concept::Arrive) && !c.people().is_empty() {
        return say(Says::In, 1);
    }
    if means(Concept::Away) && !means(Concept::Back) {
        return say(Says::Away, 2);
    }
    let missing = register || c.sit.role == Role::Coach && backed && !c.people().is_empty();
    // `15 min late, start without me`: nobody stays away who says when they come.
    let coming = [Concept::Late, Concept::Come, Concept::Arrive];
    let comes_late = coming.into_iter().any(|one| c.among_all.has(one));
    let out = means(Concept::Out)
        || means(Concept::DontWait) && !comes_late
        || missing && means(Concept::Absent);
    // `took 8 secs off`, `take finch's off`: of a time.
    let taken = piece.text == "off"
        && c.pieces[..at].iter().any(|before| {
            matches!(before.item, Item::Span(_) | Item::Figure(_)) || Hint::TakesOff.is(before.text)
        });
    // `running late, got a drop off first`
    let perhaps_out =
        means(Concept::PerhapsOut) && !taken && !(piece.text == "off" && c.has(Concept::Late));
    let turned = negated
        && (means(Concept::Come)
            || means(Concept::PerhapsCome)
            || register && means(Concept::Here));
    if out || perhaps_out && backed || turned {
        return say(Says::Out, if out { 3 } else { 2 });
    }
    // `no practice monday for me`: from a swimmer it is their own.
    let none = means(Concept::Shut) && piece.text.starts_with("no ");
    if none && c.sit.role == Role::Swimmer && backed {
        return say(Says::Out, 2);
    }
    // `going to be in lisbon`: somewhere else.
    let elsewhere = means(Concept::Come) && piece.text.ends_with(" in") && !ends_here(c.at(at + 1));
    // `next week I am in Poland`
    let stays = piece.text == "in"
        && at > 0
        && [Concept::Me, Concept::Is, Concept::AuxBe]
            .iter()
            .any(|one| c.pieces[at - 1].means(*one))
        && c.sit.role == Role::Swimmer;
    if (stays || elsewhere) && c.at(at + 1).is_some_and(|next| next.item == Item::Unknown) {
        return say(Says::Away, if stays { 2 } else { 1 });
    }
    let comes = means(Concept::Come) && !elsewhere || register && means(Concept::Here);
    let perhaps = means(Concept::PerhapsCome) && backed && ends_here(c.at(at + 1))
        || means(Concept::YesWord) && !c.people().is_empty();
    if (comes || perhaps) && !is_out && !negated && !is_of_others(c, at) {
        return say(Says::In, if comes { 2 } else { 1 });
    }
    if means(Concept::Back) && !is_out {
        let day = c.pieces[at + 1..].iter().take(4).any(|next| matches!(next.item, Item::Day(_)));
        let named =
            c.sit.role != Role::Coach || !c.people().is_empty() || c.person_before().is_some();
        if named && (day || piece.at.1 - piece.at.0 > 1) {
            return say(Says::Back, 1);
        }
    }
    if means(Concept::Everyone) && c.sit.role == Role::Coach {
        group.everyone = true;
        return true;
    }
    if means(Concept::Rest) && c.sit.role == Role::Coach {
        group.others = true;
        return true;
    }
    if means(Concept::Except) {
        part.excepted = true;
        return true;
    }
    // `ni lunes ni miercoles`, `and not monday either` deny once more what was denied.
    let as_well = c
        .pieces
        .iter()
        .any(|piece| matches!(piece.text, "ni" | "nor" | "neither" | "either" | "tampoco"));
    part.denied |= means(Concept::Not) && !as_well;
    part.good |= means(Concept::Good) || means(Concept::YesWord);
    [
        Concept::Undo,
        Concept::Sorry,
        Concept::Will,
        Concept::Session,
        Concept::Cant,
        Concept::Not,
        Concept::Wont,
        Concept::Only,
        Concept::Come,
        Concept::PerhapsCome,
        Concept::Here,
        Concept::Until,
        Concept::Good,
        Concept::She,
        Concept::He,
        Concept::They,
        Concept::Is,
    ]
    .iter()
    .any(|one| means(*one))
}
