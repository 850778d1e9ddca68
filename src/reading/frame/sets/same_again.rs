//! The set that is known, once more on another evening: `same again monday`, `el lunes lo
//! mismo pero con 10`.

use super::change::base;
use super::writer::{WrittenPart, lines};
use crate::message::{Day, Kind, TypedSet};
use crate::reading::frame::Clause;
use crate::reading::frame::candidate::Candidate;
use crate::reading::frame::mood;
use crate::reading::lexicon::Concept;
use crate::reading::piece::{Figure, Item, Piece};
use crate::reading::situation::{Phase, Role};
use crate::units::SendOff;

/// Reads a stretch of a coach's as the set that is known on another day, with at most
/// another count and another send-off of its main part.
pub fn read(c: &Clause<'_, '_>) -> Vec<Candidate> {
    let asks = mood::is_question(c) && !mood::is_request(c);
    let same = c.has_any(&[Concept::Same, Concept::Again]);
    if c.sit.role != Role::Coach || asks || !same || !c.people().is_empty() {
        return vec![];
    }
    again(c).into_iter().collect()
}

fn again(c: &Clause<'_, '_>) -> Option<Candidate> {
    let set = c.sit.set.as_ref()?;
    let main = set.main()?;
    let day = c.pieces.iter().find_map(|piece| ahead(c, piece))?;
    let (mut count, mut send_off) = (None, None);
    for (at, piece) in c.pieces.iter().enumerate() {
        match piece.item {
            Item::Span(time) if send_off.is_none() => {
                send_off = Some(SendOff::new(time.seconds() as u32).ok()?);
            }
            Item::Figure(figure) if figure.is_marked() || sends_off(c, at) => {
                let usual = f64::from(main.send_off.map_or(60, SendOff::seconds));
                let near = |seconds: f64| (0.6..=2.2).contains(&(seconds / usual));
                let times = figure.times().into_iter();
                let time = times.map(|time| time.seconds()).find(|time| near(*time))?;
                if send_off.replace(SendOff::new(time as u32).ok()?).is_some() {
                    return None;
                }
            }
            Item::Figure(Figure::Whole { value: value @ 2..=40, .. }) if count.is_none() => {
                count = Some(value);
            }
            Item::Figure(_)
            | Item::Far(_)
            | Item::Repeat(..)
            | Item::Each(_)
            | Item::Range(..)
            | Item::Lanes(_) => return None,
            _ => {}
        }
    }
    let mut whole = base(c);
    let place = set.lines.iter().position(|line| line == main)?;
    if let Some(WrittenPart::One(swim)) = whole.get_mut(place) {
        swim.count = count.unwrap_or(swim.count);
        swim.send_off = send_off.or(swim.send_off);
    }
    let mut candidate = Candidate::new("same again", c.len());
    candidate.used.fill(true);
    let set = TypedSet { on: Some(day), lines: lines(whole)?, lanes: vec![] };
    Some(candidate.says(Kind::Set(set)).at_cost(0.6))
}

/// An evening to come that is not this one.
fn ahead(c: &Clause<'_, '_>, piece: &Piece<'_>) -> Option<Day> {
    let Item::Day(named) = piece.item else { return None };
    let day = c.coming(named)?;
    let date = c.date_of(day)?;
    let tonight = day == Day::Today || date == c.sit.today && c.sit.phase != Phase::After;
    (date >= c.sit.today && !tonight).then_some(Day::Full(date))
}

/// True of a figure behind a word for sending off.
fn sends_off(c: &Clause<'_, '_>, at: usize) -> bool {
    let before = at.checked_sub(1).and_then(|before| c.at(before));
    before.is_some_and(|piece| {
        [Concept::On, Concept::Off, Concept::SetTime].iter().any(|one| piece.means(*one))
    })
}
