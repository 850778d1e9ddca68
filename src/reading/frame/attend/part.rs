//! One part of a stretch: whom and which days it names, and its word of coming.

use super::days::{clock_behind, days, late_by};
use super::group::{Group, Says};
use super::until;
use crate::message::Day;
use crate::reading::frame::Clause;
use crate::reading::lexicon::{Concept, Hint};
use crate::reading::piece::{Item, Named, Piece, Used};
use crate::reading::situation::{Phase, Role};

/// A part, and how it stands to the one before.
#[derive(Debug, Clone, Default)]
pub struct Part {
    /// What it says, of whom and when.
    pub group: Group,
    /// `not the monday`
    pub denied: bool,
    /// `wednesday ok`
    pub good: bool,
    /// `bar puffin`
    pub excepted: bool,
    /// `all but puffin`
    pub everyone_else: bool,
    /// `lark is only just getting changed`: something of somebody, and no word of coming.
    pub told: bool,
}

/// The parts of a stretch, in order.
pub fn parts(c: &Clause<'_, '_>, used: &mut Used) -> Vec<Part> {
    let yesterday = |piece: &Piece<'_>| matches!(piece.item, Item::Day(named) if c.past(named) == Some(Day::Yesterday));
    let register = c.sit.role == Role::Coach
        && (c.sit.phase == Phase::During
            || c.pieces.iter().any(yesterday)
            || super::statement::was_there(c));
    let mut borders = vec![0];
    for at in 1..c.len() {
        if parts_at(c, at) {
            borders.push(at);
        }
    }
    borders.push(c.len());
    borders.dedup();
    let mut parts = Vec::new();
    for pair in borders.array_windows::<2>() {
        let stretch = c.part(pair[0], pair[1]);
        let mut here = Used::none(stretch.len());
        parts.push(one(&stretch, register, &mut here));
        for (mark, here) in used[pair[0]..pair[1]].iter_mut().zip(&here) {
            *mark = *here;
        }
    }
    parts
}

/// True where a new part begins.
fn parts_at(c: &Clause<'_, '_>, at: usize) -> bool {
    let behind = matches!(
        c.pieces[at - 1].item,
        Item::Mark('.' | ',' | ';' | '!' | '(' | ')') | Item::Line | Item::Picture
    );
    let here = &c.pieces[at];
    // `not the monday`, behind what was said of another day or person.
    let denied = here.means(Concept::Not)
        && c.pieces[at + 1..]
            .iter()
            .take(3)
            .find(|piece| !piece.means(Concept::Article) && !piece.means(Concept::On))
            .is_some_and(|piece| matches!(piece.item, Item::Day(_) | Item::Person(_)))
        && c.pieces[..at].iter().any(|piece| matches!(piece.item, Item::Day(_) | Item::Person(_)));
    behind
        || denied
        || here.means(Concept::And)
        || here.means(Concept::But)
        || here.means(Concept::Except)
        || here.means(Concept::Then)
        || here.means(Concept::Because)
}

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

fn one(c: &Clause<'_, '_>, register: bool, used: &mut Used) -> Part {
    let mut part = Part::default();
    // `out 6 weeks`, `out for a month`
    let long = until::span(c).is_some_and(|(at, _)| {
        !c.has(Concept::If) && c.pieces[at.saturating_sub(3)..at].iter().any(|p| p.text == "out")
    });
    let backed = c.len() <= 3
        || long
        || c.pieces.iter().any(|piece| matches!(piece.item, Item::Day(_) | Item::Person(_)));
    for (at, piece) in c.pieces.iter().enumerate() {
        match piece.item {
            Item::Day(named) => {
                if let Some(day) = c.coming(named) {
                    if !bounds(c, at) && is_joined(c, at) {
                        part.group.days.extend(days(c, at, named, day));
                    }
                    used[at] = true;
                }
            }
            Item::Person(person) => {
                part.group.people.push(person);
                used[at] = true;
            }
            _ => used[at] |= word(c, at, piece, &mut part, register, backed),
        }
    }
    // `off to my daughter's in Calgary`: a faint word of coming yields to a clear one.
    let says = &mut part.group.says;
    if says.iter().any(|one| matches!(one, Says::Away | Says::Back)) {
        says.retain(|one| *one != Says::In);
    }
    if let Some((minutes, place)) = late_by(c, &part.group.says) {
        part.group.says.retain(|one| !matches!(one, Says::Late(_)));
        part.group.says.push(Says::Late(Some(minutes)));
        part.group.strength = part.group.strength.max(2);
        used[place] = true;
    }
    until::until(c, &mut part.group, used);
    // `out tonight, stuck at work til 8`: why, and no more.
    for (pair, used) in c.pieces.array_windows::<2>().zip(used.iter_mut().skip(1)) {
        *used |= pair[0].means(Concept::Until)
            && matches!(pair[1].item, Item::Figure(_) | Item::TimeOfDay(..));
    }
    if part.group.says.is_empty()
        && let Some(coming) = day_alone(c)
    {
        part.group.says.push(if coming { Says::In } else { Says::Out });
        part.group.strength = 2;
        used.fill(true);
    }
    part.everyone_else = register
        && part.excepted
        && c.pieces.iter().any(|piece| {
            piece.means(Concept::Except)
                && matches!(piece.text, "all but" | "everyone but" | "todos menos")
        });
    part.told = part.group.says.is_empty() && tells_of_one(c);
    let opening = crate::reading::frame::mood::opening(c);
    let first = c.at(opening);
    // `no plover no puffin`, `so no monday or wed`
    let names_behind = match c.at(opening + 1).map(|piece| piece.item) {
        Some(Item::Person(_)) => true,
        Some(Item::Day(_)) => c.sit.role == Role::Swimmer,
        _ => false,
    };
    if part.group.says.is_empty()
        && names_behind
        && first.is_some_and(|piece| piece.means(Concept::Without) || piece.means(Concept::Not))
    {
        part.group.says.push(Says::Out);
        part.group.strength = 2;
        for (at, piece) in c.pieces.iter().enumerate() {
            used[at] |= piece.means(Concept::Without) || piece.means(Concept::Not);
        }
    }
    part
}

/// A person and what they are or do, in words of which none is about coming.
fn tells_of_one(c: &Clause<'_, '_>) -> bool {
    const WORDS: usize = 2;
    let person = c.pieces.iter().position(|piece| matches!(piece.item, Item::Person(_)));
    person.is_some_and(|at| {
        let is = |piece: &Piece<'_>| piece.means(Concept::Is) || piece.means(Concept::AuxBe);
        let behind = c.pieces.part(at + 1, c.len());
        behind.first().is_some_and(is)
            && behind.iter().filter(|piece| piece.item == Item::Chatter).count() >= WORDS
    })
}

/// `con fiebre desde anoche`, `exams til the 20th so only weds`: a day that says since
/// when or how long, and is none that anybody comes on.
fn bounds(c: &Clause<'_, '_>, at: usize) -> bool {
    let before = c.pieces[..at].iter().rev().find(|piece| !piece.means(Concept::Article));
    // `dead legs from monday`, but `from the 6th to the 9th`
    let from = |piece: &Piece<'_>| {
        piece.text == "from"
            && !c.has(Concept::Until)
            && !c.has(Concept::To)
            && !c.has(Concept::Away)
    };
    before.is_some_and(|piece| {
        piece.means(Concept::Until) || matches!(piece.text, "since" | "desde") || from(piece)
    })
}

/// `cant come tonight got a deadline tomorrow`: behind words of something else, a further day
/// without a joining word is of that.
fn is_joined(c: &Clause<'_, '_>, at: usize) -> bool {
    let earlier = (0..at).rev().find(|place| matches!(c.pieces[*place].item, Item::Day(_)));
    let Some(earlier) = earlier else { return true };
    let joins = |piece: &Piece<'_>| {
        piece.means(Concept::And)
            || piece.means(Concept::Or)
            || matches!(piece.item, Item::Mark(_))
            || matches!(piece.text, "ni" | "nor" | "but" | "not")
    };
    let between = &c.pieces[earlier + 1..at];
    between.iter().any(joins)
        || !between.iter().any(|piece| matches!(piece.item, Item::Chatter | Item::Unknown))
}

/// `el miercoles si`, `lunes no`: a day and its yes or no behind it, and no more.
fn day_alone(c: &Clause<'_, '_>) -> Option<bool> {
    let mut says = None;
    let mut day = false;
    for piece in c.pieces {
        match piece.item {
            Item::Day(_) if says.is_none() => day = true,
            Item::Mark(_) | Item::Picture | Item::Line => {}
            _ if day && says.is_none() && piece.means(Concept::YesWord) => says = Some(true),
            _ if day && says.is_none() && piece.means(Concept::Not) => says = Some(false),
            _ if [Concept::And, Concept::But, Concept::Then, Concept::Idiom]
                .iter()
                .any(|one| piece.means(*one)) => {}
            _ => return None,
        }
    }
    says
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
fn word(
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
    if stays && c.at(at + 1).is_some_and(|next| next.item == Item::Unknown) {
        return say(Says::Away, 2);
    }
    if elsewhere && c.at(at + 1).is_some_and(|next| next.item == Item::Unknown) {
        return say(Says::Away, 1);
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
