//! Who comes, who doesn't, and until when.

use crate::message::{Kind, Statement};
use crate::reading::frame::{Clause, minutes_late};
use crate::reading::lexicon::Concept;
use crate::reading::likely::{Class, Stands};
use crate::reading::piece::{Item, Piece};
use crate::reading::situation::Role;

use super::slots::{Slots, count_of};

/// Words of which one turns a text about coming into one about staying away.
const STAYING: [Concept; 12] = [
    Concept::Cant,
    Concept::Wont,
    Concept::Not,
    Concept::No,
    Concept::Didnt,
    Concept::Out,
    Concept::PerhapsOut,
    Concept::Absent,
    Concept::Away,
    Concept::MissedSwim,
    Concept::Skip,
    Concept::Without,
];

/// True of a text in which a word tells of staying away.
pub fn stays(c: &Clause<'_, '_>) -> bool {
    c.has_any(&STAYING)
}

/// True of the kinds that tell who comes.
pub const fn is_of(class: Class) -> bool {
    matches!(class, Class::Attend | Class::Register)
}

/// True of a piece that tells of coming or not.
pub fn speaks(piece: &Piece<'_>) -> bool {
    piece.means(Concept::Come) || STAYING.iter().any(|one| piece.means(*one))
}

/// True of a text that says by a word whether somebody comes.
pub fn says_whether(c: &Clause<'_, '_>) -> bool {
    c.has_any(&STAYING) || c.has_any(&[Concept::Come, Concept::PerhapsCome, Concept::Late])
}

/// In or out, on each day named.
pub fn attend(slots: &mut Slots<'_, '_, '_>, coming: bool) -> Option<Vec<Statement>> {
    let c = slots.c;
    let coach = c.sit.role == Role::Coach;
    let who: Vec<_> = match slots.take_people() {
        names if names.is_empty() && !coach => vec![None],
        names if coach && !names.is_empty() => names.into_iter().map(Some).collect(),
        _ if coach => return None,
        // Of somebody else a swimmer says nothing that counts.
        names if !names.is_empty() && !c.has_any(&[Concept::Me, Concept::We]) => return None,
        _ => vec![None],
    };
    let late_min = slots
        .take_as(Stands::Late, |_, piece| match piece.item {
            Item::Span(time) => Some((time.seconds() / 60.0) as u16),
            _ => u16::try_from(count_of(piece)?).ok(),
        })
        .or_else(|| minutes_late(c).filter(|_| c.has(Concept::Late)))
        .filter(|minutes| coming && (1..=120).contains(minutes));
    let days = match slots.coming_days(Stands::On) {
        days if days.is_empty() => vec![None],
        days => days.into_iter().map(Some).collect(),
    };
    let each = who.iter().flat_map(|who| {
        days.iter().map(|on| Statement {
            who: who.clone(),
            kind: Kind::Attend { coming, late_min, on: *on },
        })
    });
    Some(each.collect())
}

/// Away until a day, from another where one is named.
pub fn away(slots: &mut Slots<'_, '_, '_>) -> Option<Vec<Statement>> {
    let who = slots.who()?;
    let from = slots.coming_days(Stands::On).first().copied();
    let until = slots.coming_days(Stands::Until).last().copied();
    let (from, until) = match (from, until) {
        (from, Some(until)) => (from, until),
        (Some(until), None) => (None, until),
        (None, None) => return None,
    };
    Some(vec![Statement { who, kind: Kind::Away { from, until } }])
}

/// A coach's register: who is here, or not.
pub fn register(slots: &mut Slots<'_, '_, '_>, missing: bool) -> Option<Vec<Statement>> {
    let c = slots.c;
    if c.sit.role != Role::Coach {
        return None;
    }
    let names = slots.take_people();
    let on = slots.past_day();
    if names.is_empty() {
        return None;
    }
    let kind = match c.has(Concept::Everyone) && c.has_any(&[Concept::Except, Concept::But]) {
        true => Kind::Here { names, all_but: true, on },
        false if missing => Kind::Absent { names, on },
        false => Kind::Here { names, all_but: false, on },
    };
    Some(vec![Statement { who: None, kind }])
}
