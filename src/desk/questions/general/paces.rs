//! What a time is for each piece, what so much for each comes to, how many lengths that is.

use super::many::usual_test;
use super::times::aimed;
use super::told;
use super::whom::one;
use crate::desk::decision::desk::Desk;
use crate::desk::decision::refusing::Stopped;
use crate::desk::decision::resolve;
use crate::desk::decision::view::View;
use crate::desk::known::trials::{bests_of, trials};
use crate::desk::questions::swimmer::other;
use crate::message::{Length, Of, Question};
use crate::reading::frame::fits;
use crate::reply::{Answer, Outcome};
use crate::swim::Trial;
use crate::swim::conversion::{Method, convert};
use crate::units::{Centis, Course, Distance, Stroke, Unit};

/// The pieces that a pace is told for.
const PIECES: [u32; 3] = [25, 50, 100];

/// `what do i need per 50 for 3:10`, `whats that per 50`
pub fn pace(desk: &mut Desk<'_>, asked: &Question) -> Result<Option<Outcome>, Stopped> {
    let named = matches!(&asked.of, Of::Named(_));
    // Whoever swims in no lane asks by figures alone.
    let swims = named || desk.me().is_some();
    let swimmer = if swims { one(desk, asked)? } else { None };
    let course = desk.me().map_or(desk.squad.course, |me| desk.course_of(me));
    let (distance, time, best, who) = match (&swimmer, asked.times.is_empty()) {
        (Some((who, swimmer)), true) => {
            let Some(last) = last_told(desk, swimmer) else { return Ok(None) };
            (last.distance, last.time, None, Some(who.clone()))
        }
        (Some((who, swimmer)), false) => {
            // The distance that is named may be the piece: `through 100 in, to break 3:10`.
            let whole = Question { length: None, ..asked.clone() };
            let of_best = aimed(desk, swimmer, asked).or_else(|| aimed(desk, swimmer, &whole));
            match of_best {
                Some((best, to)) => (best.distance, to, Some(best.time), Some(who.clone())),
                None => match by_figures(asked, course) {
                    Some((distance, time)) => (distance, time, None, None),
                    None => return Ok(None),
                },
            }
        }
        (None, _) => match by_figures(&of_usual(desk, asked), course) {
            Some((distance, time)) => (distance, time, None, None),
            None => return Ok(None),
        },
    };
    let piece = |piece: &u32| *piece < distance.amount() && piece.is_multiple_of(pool(course));
    let small = |piece: &u32| *piece > 25 || distance.amount() <= 100;
    let each = |piece: u32| {
        let share = f64::from(piece) / f64::from(distance.amount());
        Some((piece, Centis::from_seconds(time.seconds() * share).ok()?.to_tenth()))
    };
    let pieces = PIECES.into_iter().filter(piece).filter(small).filter_map(each).collect();
    let who = who.and_then(|who| other(desk, who));
    let best = best.filter(|best| *best != time);
    Ok(Some(told(Answer::Pace { who, distance, time, pieces, best })))
}

fn pool(course: Course) -> u32 {
    course.length().unwrap_or(25)
}

/// `whats my 3:12 in yards`: the time that is named, or the best, in the other pool.
pub fn converted(desk: &mut Desk<'_>, asked: &Question) -> Result<Option<Outcome>, Stopped> {
    let named = matches!(&asked.of, Of::Named(_));
    let swimmer = if named || desk.me().is_some() { one(desk, asked)? } else { None };
    let own = desk.me().map_or(desk.squad.course, |me| desk.course_of(me));
    let Some(to) = asked.pool else { return Ok(None) };
    let from = match own.unit() == to.unit() {
        false => own,
        true if to.unit() == Unit::Metre => Course::Short25yd,
        true => Course::Short25m,
    };
    let bests: Vec<Trial> = swimmer
        .as_ref()
        .map(|(_, swimmer)| bests_of(trials(swimmer, desk)))
        .unwrap_or_default()
        .into_iter()
        .filter(|best| asked.length.is_none_or(|one| one.amount == best.distance.amount()))
        .filter(|best| asked.stroke.is_none_or(|stroke| stroke == best.stroke))
        .collect();
    let given = asked.times.iter().flatten();
    let near = |time: &Centis| {
        let ratio = |best: &&Trial| (best.time.seconds() / time.seconds()).ln().abs();
        let best = bests.iter().min_by(|one, other| ratio(one).total_cmp(&ratio(other)));
        best.filter(|best| ratio(best) < NEAR).map(|best| (best.distance.amount(), *time))
    };
    let swum = |best: &Trial| (best.distance.amount(), best.time);
    // Whose time it is was not said, where it is a figure alone.
    let (amount, time) = match given.clone().find_map(near) {
        Some(found) => found,
        None if asked.times.is_empty() => {
            let usual = bests.iter().find(|best| Some(best.distance.amount()) == usual_test(desk));
            let Some(found) = usual.or(bests.last()).map(swum) else { return Ok(None) };
            found
        }
        None => match by_figures(&of_usual(desk, asked), from) {
            Some((distance, time)) => (distance.amount(), time),
            None => return Ok(None),
        },
    };
    let stroke = asked.stroke.unwrap_or(Stroke::Free);
    let Ok(distance) = Distance::new(amount, from.unit()) else { return Ok(None) };
    let there = convert(distance, time, stroke, from, to, Method::TurnRule);
    let who = swimmer.and_then(|(who, _)| other(desk, who));
    Ok(there.map(|there| {
        told(Answer::Converted { who, from: (distance, from), time, to: (there, to) })
    }))
}

/// How near to a best a time is that may be one over its distance, as a logarithm (ours).
const NEAR: f64 = 0.35;

/// The last of their tests, where it was told today.
fn last_told(view: &View<'_>, swimmer: &crate::history::Swimmer) -> Option<Trial> {
    trials(swimmer, view).last().filter(|last| last.on == view.evening())
}

/// The same of the distance that the squad is tested over, where only a piece is named:
/// `what does 2:50 work out at per 100`.
fn of_usual(view: &View<'_>, asked: &Question) -> Question {
    let usual = usual_test(view).filter(|usual| {
        asked.piece.is_none() && asked.length.is_none_or(|one| one.amount < *usual)
    });
    let length = usual.map(|amount| Length { amount, unit: None });
    Question { length: length.or(asked.length), ..asked.clone() }
}

/// The distance and the time by themselves, where somebody swims that.
fn by_figures(asked: &Question, course: Course) -> Option<(Distance, Centis)> {
    let distance = resolve::distance(asked.length?, course)?;
    let swims = |time: &&Centis| {
        fits(**time, distance.amount(), course, asked.stroke.unwrap_or(Stroke::Free), None)
    };
    let time = asked.times.iter().flatten().find(swims)?;
    Some((distance, *time))
}

/// `48 for each 50 in a 200, what does that come to`
pub fn sum(asked: &Question) -> Option<Outcome> {
    let (piece, whole) = (asked.piece?.amount, asked.length?.amount);
    let [each] = asked.times.as_slice() else { return None };
    let each = *each.first()?;
    if piece == 0 || piece >= whole || !whole.is_multiple_of(piece) {
        return None;
    }
    let total = Centis::new(each.hundredths().checked_mul(whole / piece)?).ok()?;
    Some(told(Answer::Sum { piece, each, distance: whole, total }))
}

/// `how many laps is a 1650`
pub fn lengths(desk: &mut Desk<'_>, asked: &Question) -> Option<Outcome> {
    let course = desk.me().map_or(desk.squad.course, |me| desk.course_of(me));
    let (length, of) = (asked.length?, course.length()?);
    let unit = length.unit.unwrap_or(course.unit());
    let whole = unit == course.unit() && length.amount.is_multiple_of(of);
    whole.then(|| {
        let (distance, lengths) = (length.amount, length.amount / of);
        told(Answer::Lengths { distance, unit, lengths, course })
    })
}
