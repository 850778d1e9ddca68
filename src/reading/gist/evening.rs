//! A coach's evening: lanes, changes of the set, the timetable, words to and about people.

use crate::message::{Edit, EditWhat, Kind, Scope, Slot, Statement};
use crate::reading::likely::Stands;
use crate::reading::piece::{Item, Piece};
use crate::units::SendOff;

use super::slots::Slots;

/// A question about one, two or all.
pub fn squad(slots: &mut Slots<'_, '_, '_>) -> Option<Vec<Statement>> {
    let mut names = slots.take_people();
    Some(match names.len() {
        0 => vec![Statement { who: None, kind: Kind::Squad { filter: None, on: None } }],
        1 => vec![Statement { who: names.pop(), kind: Kind::Swimmer }],
        _ => vec![Statement { who: None, kind: Kind::Compare { names } }],
    })
}

/// The lanes that a text names, as they come.
fn lanes(slots: &mut Slots<'_, '_, '_>) -> Vec<u8> {
    let pieces = slots.c.pieces;
    for (at, piece) in pieces.iter().enumerate() {
        slots.used[at] |= matches!(piece.item, Item::Lanes(_));
    }
    let mut lanes: Vec<u8> = pieces.iter().flat_map(Piece::lanes).collect();
    lanes.dedup();
    lanes
}

/// People to a lane.
pub fn moves(slots: &mut Slots<'_, '_, '_>) -> Option<Vec<Statement>> {
    let names = slots.take_people();
    let lane = lanes(slots).pop()?;
    let kind = Kind::Move { names: (!names.is_empty()).then_some(names)?, lane: Some(lane), by: 0 };
    Some(vec![Statement { who: None, kind }])
}

/// Another send-off, or another count, of the set or of some lanes.
pub fn change(slots: &mut Slots<'_, '_, '_>) -> Option<Vec<Statement>> {
    let c = slots.c;
    let main = c.sit.set.as_ref()?.main()?;
    let lanes = lanes(slots);
    let names = slots.take_people();
    let (shortest, longest) = main
        .send_off
        .map_or((30, 600), |send_off| (send_off.seconds() * 6 / 10, send_off.seconds() * 2));
    let send_off = slots.take_as(Stands::SendOff, |_, piece| match piece.item {
        Item::Figure(figure) => figure
            .times()
            .into_iter()
            .map(|time| time.seconds().round() as u32)
            .find(|seconds| (shortest..=longest).contains(seconds)),
        _ => None,
    });
    let what = match send_off.and_then(|seconds| SendOff::new(seconds).ok()) {
        Some(send_off) => EditWhat::SendOff(send_off),
        None => {
            let few =
                |count: u32| u16::try_from(count).ok().filter(|count| (1..=40).contains(count));
            let lost = slots.count_as(Stands::Lost).and_then(few);
            let left = lost.and_then(|lost| u16::try_from(main.count).ok()?.checked_sub(lost));
            let count = slots.count_as(Stands::Count).and_then(few);
            match count.or(left) {
                Some(count) => EditWhat::Count(count),
                None => EditWhat::More(slots.count_as(Stands::Extra).and_then(few)?),
            }
        }
    };
    let edit = Edit { scope: Scope::Main, lanes, names, what };
    Some(vec![Statement { who: None, kind: Kind::Change(vec![edit]) }])
}

/// How many lanes there are.
pub fn lane_count(slots: &mut Slots<'_, '_, '_>) -> Option<u8> {
    let count = slots.count_as(Stands::Count).or_else(|| slots.count_as(Stands::Lane))?;
    u8::try_from(count).ok().filter(|count| (1..=12).contains(count))
}

/// A night at another hour.
pub fn slot(slots: &mut Slots<'_, '_, '_>) -> Option<Vec<Statement>> {
    let (hour, minute) = slots.take(|_, piece| match piece.item {
        Item::TimeOfDay(hour, minute) => Some((hour, minute)),
        Item::Figure(figure) => {
            figure.day_time().filter(|_| figure.whole().is_none_or(|value| value >= 100))
        }
        _ => None,
    })?;
    let hour = if (1..=9).contains(&hour) { hour + 12 } else { hour };
    let starts = jiff::civil::Time::new(i8::try_from(hour).ok()?, i8::try_from(minute).ok()?, 0, 0);
    let on = slots.coming_days(Stands::On).first().copied().unwrap_or(crate::message::Day::Today);
    let slot = Slot { starts: Some(starts.ok()?), on: Some(on), ..Slot::default() };
    Some(vec![Statement { who: None, kind: Kind::Slot(slot) }])
}

/// Nights that are none.
pub fn shut(slots: &mut Slots<'_, '_, '_>) -> Option<Vec<Statement>> {
    let days = slots.coming_days(Stands::On).into_iter();
    let says =
        days.map(|on| Statement { who: None, kind: Kind::Shut { days: vec![], on: Some(on) } });
    let says: Vec<Statement> = says.collect();
    (!says.is_empty()).then_some(says)
}

/// A remark on somebody.
pub fn note(slots: &mut Slots<'_, '_, '_>) -> Option<Vec<Statement>> {
    let who = Some(slots.who()??);
    slots.used.fill(true);
    let text = slots.c.typed(0, slots.c.len()).to_owned();
    Some(vec![Statement { who, kind: Kind::Note { text } }])
}

/// Words to all, or to the one named.
pub fn tell(slots: &mut Slots<'_, '_, '_>) -> Option<Vec<Statement>> {
    let mut names = slots.take_people();
    let who = if names.len() == 1 { names.pop() } else { None };
    slots.used.fill(true);
    let text = slots.c.typed(0, slots.c.len()).to_owned();
    Some(vec![Statement { who, kind: Kind::Tell { text } }])
}
