//! Who comes, who does not, late, early, away, back: of oneself, or a coach's word
//! of others; and the register of an evening under way.
//!
//! A stretch is read in parts, each with at most one word of coming or not; people
//! and days that stand alone go with the part before or behind.

mod days;
mod group;
mod join;
mod part;
mod statement;
mod until;
mod word;

use super::Clause;
use super::candidate::Candidate;
use crate::message::{Day, Doubt, Kind, Statement, Wants};
use crate::reading::lexicon::{Concept, Hint};
use crate::reading::piece::{Item, Piece, Used};
use crate::reading::situation::Role;
use group::{Group, Says};
use join::groups;
use statement::statements;

pub use days::days_in;

/// Reads a stretch as who comes.
pub fn read(c: &Clause<'_, '_>) -> Vec<Candidate> {
    let coach = c.sit.role == Role::Coach;
    let own = |person: &usize| Some(*person) == c.sit.me;
    let people = c.people();
    let meant = if coach && people.is_empty() { meant_before(c) } else { None };
    let of_nobody = coach && people.is_empty() && meant.is_none() && !c.has(Concept::Everyone);
    if super::mood::is_question(c) || of_nobody || takes_back(c) {
        return vec![];
    }
    // `no pude ir, se canceló el tren`: what is over, and another frame's.
    let days = c.pieces.iter().any(|piece| matches!(piece.item, Item::Day(_)));
    if !coach && c.has(Concept::MissedSwim) && !days {
        return vec![];
    }
    let mut used = Used::none(c.len());
    let parts = part::parts(c, &mut used);
    let Some(mut groups) = groups(c, parts) else { return vec![] };
    // `i wrote robin absent but she was present`: only the last of it is so.
    if coach && groups.len() > 1 && was_put_down(c) {
        groups.remove(0);
    }
    // `no se si llego hoy, te confirmo`: one doubt in two ways.
    let mut doubted = false;
    groups.retain(|group| {
        let bare = group.says == [Says::Maybe] && group.days.is_empty() && group.people.is_empty();
        let again = bare && doubted;
        doubted |= group.says.contains(&Says::Maybe);
        !again
    });
    if !coach {
        // A swimmer speaks for no other.
        if groups.iter().any(|group| group.everyone || !group.except.is_empty()) {
            return vec![];
        }
        for (at, piece) in c.pieces.iter().enumerate() {
            if let Item::Person(person) = piece.item {
                used[at] &= own(&person);
            }
        }
        // `me and lark are both out`: of oneself, and of whom only they or a coach may say so.
        let both = both(c);
        groups.iter_mut().for_each(|group| group.people.clone_from(&both));
        for (at, piece) in c.pieces.iter().enumerate() {
            used[at] |= matches!(piece.item, Item::Person(one) if both.contains(&one));
        }
    }
    if let Some(person) = meant {
        let bare = groups.iter_mut().filter(|group| group.people.is_empty() && !group.everyone);
        bare.for_each(|group| group.people.push(person));
    }
    // `cant get there til 7.20`: late, and not out.
    if let [group] = groups.as_mut_slice()
        && group.says == [Says::Out]
        && let Some(until) = c.find(Concept::Until)
        && c.part(0, until).pieces.last().is_some_and(|last| last.means(Concept::Out))
        && let Some((minutes, place)) = days::late_by(&c.part(until + 1, c.len()), &[Says::In])
    {
        group.says = vec![Says::Late(Some(minutes))];
        group.until = None;
        let end = (until + place + 3).min(c.len());
        used[until..end].fill(true);
    }
    // `running late, 7.20ish`
    for group in &mut groups {
        let late = group.says.contains(&Says::Late(None))
            || c.has(Concept::Arrive) && group.says == [Says::In];
        if late && let Some((minutes, place)) = days::late_by(c, &group.says) {
            group.says.retain(|one| !matches!(one, Says::Late(None) | Says::In));
            group.says.push(Says::Late(Some(minutes)));
            used[place] = true;
        }
    }
    take_day_before(c, &mut groups);
    let says = statements(c, &groups);
    if says.is_empty() {
        return vec![];
    }
    let mut candidate = Candidate::new("attend", c.len());
    candidate.used = used;
    mark_reason(c, &mut candidate);
    candidate.says = says;
    if let Some(at) = better(c).filter(|_| !coach) {
        candidate.used[at] = true;
        candidate.says.insert(0, Statement { who: None, kind: Kind::Better });
    }
    let doubt = groups.iter().any(|group| group.says.contains(&Says::Maybe));
    vec![candidate.at_cost(if doubt { 0.7 } else { 0.4 })]
}

/// `i wrote`, `i put` somebody down, and a `but` behind it.
fn was_put_down(c: &Clause<'_, '_>) -> bool {
    let first = c.pieces.iter().position(|piece| Hint::Marked.is(piece.text));
    first.is_some_and(|first| c.pieces[first..].iter().any(|piece| piece.means(Concept::But)))
}

/// `me and lark`, `wren and I`: whoever writes, and the one beside them; nobody where they
/// write of themselves alone.
fn both(c: &Clause<'_, '_>) -> Vec<usize> {
    let own = |at: usize| {
        c.at(at).is_some_and(|piece| {
            piece.means(Concept::Me) || matches!(piece.text, "i" | "myself" | "yo")
        })
    };
    let person = |at: usize| match c.at(at)?.item {
        Item::Person(one) => Some(one),
        _ => None,
    };
    let joined =
        (1..c.len()).filter(|at| c.pieces.get(*at).is_some_and(|one| one.means(Concept::And)));
    let other = joined.into_iter().find_map(|and| {
        let before = and.checked_sub(1)?;
        let (first, second) = (person(before), person(and + 1));
        first.filter(|_| own(and + 1)).or(second.filter(|_| own(before)))
    });
    match (c.sit.me, other) {
        (Some(me), Some(other)) if me != other => vec![me, other],
        _ => vec![],
    }
}

/// `forget it, timer started late`, behind a time: why it is taken back.
fn takes_back(c: &Clause<'_, '_>) -> bool {
    c.all.first().is_some_and(|first| first.means(Concept::Undo))
        && c.sit.before.iter().any(|said| said.kind.is_swum())
}

/// By how many minutes a stretch says that somebody comes late: `quarter past`, `7.20`.
pub fn minutes_late(c: &Clause<'_, '_>) -> Option<u16> {
    days::late_by(c, &[Says::In]).map(|(minutes, _)| minutes)
}

/// `kite had his scan, consultant says out 6 weeks`, `teal texted, she is out`: whom a
/// coach's text named last before this stretch.
fn meant_before(c: &Clause<'_, '_>) -> Option<usize> {
    let speaks = c.has_any(&[Concept::She, Concept::He]) || until::span(c).is_some();
    speaks.then(|| c.person_before())?
}

/// `my son is ill so im out`: why, and not of whoever writes.
fn mark_reason(c: &Clause<'_, '_>, candidate: &mut Candidate) {
    let ill = |piece: &Piece<'_>| piece.illness().is_some();
    let Some(whose) = c.find(Concept::My) else { return };
    let near = c.pieces.iter().skip(whose + 2).take(3).position(ill);
    if let Some(near) = near
        && matches!(c.pieces[whose + 1].item, Item::Chatter | Item::Unknown)
    {
        candidate.used[whose..=whose + 2 + near].fill(true);
    }
}

/// `feeling loads better, back tonight`: the place of `better`, where one feels it.
fn better(c: &Clause<'_, '_>) -> Option<usize> {
    let at = c.find(Concept::Better)?;
    let feels = |piece: &Piece<'_>| Hint::Feels.is(piece.text);
    let long = c.pieces[at].at.1 - c.pieces[at].at.0 > 1;
    let near = c.pieces[at.saturating_sub(3)..at].iter().any(feels);
    let denied = c.pieces[at.saturating_sub(3)..at].iter().any(|piece| {
        piece.means(Concept::Not) || piece.means(Concept::Didnt) || piece.means(Concept::If)
    });
    ((near || long) && !denied).then_some(at)
}

/// What the sender said last of coming, and of which day.
fn said_before(c: &Clause<'_, '_>) -> Option<(bool, Option<Day>)> {
    match c.sit.before.as_slice() {
        [Statement { who: None, kind: Kind::Attend { coming, on, .. } }] => Some((*coming, *on)),
        _ => None,
    }
}

/// `can make it after all`: on the day that was last spoken of.
fn take_day_before(c: &Clause<'_, '_>, groups: &mut [Group]) {
    let Some((coming, Some(day))) = said_before(c) else { return };
    for group in groups.iter_mut().filter(|group| group.days.is_empty()) {
        let turns = group.says.contains(&if coming { Says::Out } else { Says::In });
        if turns && group.people.is_empty() && group.until.is_none() {
            group.days.push(day);
        }
    }
}

/// `actually no`, `can now`, behind what was said of coming.
pub fn turned(c: &Clause<'_, '_>) -> Vec<Candidate> {
    let Some((coming, on)) = said_before(c) else { return vec![] };
    let plain = c.pieces.iter().all(|piece| {
        super::mood::is_opening(piece)
            || [
                Concept::Not,
                Concept::Cant,
                Concept::Wont,
                Concept::Can,
                Concept::YesWord,
                Concept::Me,
                Concept::Idiom,
                Concept::Will,
                Concept::It,
                Concept::Undo,
            ]
            .iter()
            .any(|one| piece.means(*one))
    });
    let no = c.has_any(&[Concept::Not, Concept::Cant, Concept::Wont]);
    let yes = c.has_any(&[Concept::Can, Concept::YesWord, Concept::Will]) && !no;
    if !plain || !(coming && no || !coming && yes) {
        return vec![];
    }
    let mut candidate = Candidate::new("turned", c.len());
    candidate.used.fill(true);
    vec![candidate.says(Kind::Attend { coming: !coming, late_min: None, on }).at_cost(0.6)]
}

/// `running late`, with nothing to say by how much: asks.
pub fn unsure(c: &Clause<'_, '_>) -> Vec<Candidate> {
    if takes_back(c) {
        return vec![];
    }
    if c.sit.role == Role::Coach || !c.has(Concept::Late) || c.len() > 6 {
        return vec![];
    }
    let late = c.pieces.iter().any(|piece| matches!(piece.item, Item::Figure(_) | Item::Span(_)));
    if late {
        return vec![];
    }
    let mut candidate = Candidate::new("late", c.len());
    candidate.used.fill(true);
    vec![candidate.asking(Doubt::Missing { wants: Wants::HowLate }, vec![]).at_cost(0.9)]
}
