//! Repeats: of the set in force, or of one that the text names.

use super::slots::{Slots, count_of};
use crate::message::{Kind, Length, SetResult, Statement, TypedTime};
use crate::reading::frame::{Spec, solve};
use crate::reading::likely::Stands;
use crate::reading::piece::{Item, Piece};
use crate::units::{Centis, SendOff, Stroke};

/// The repeats of the set in force, or of one that the text names: their times, one for
/// all, or how many were made.
pub fn of_one(slots: &mut Slots<'_, '_, '_>) -> Option<Vec<Statement>> {
    let c = slots.c;
    let who = slots.who()?;
    let repeat = slots.take(|_, piece| match piece.item {
        Item::Repeat(count, far) => Some((u16::try_from(count).ok()?, c.length(far)?)),
        _ => None,
    });
    let line = c.sit.set.as_ref().and_then(|set| set.main());
    let far = slots.distance().filter(|_| repeat.is_none());
    let few = |count: u32| u16::try_from(count).ok().filter(|count| (1..=200).contains(count));
    let number = slots.count_as(Stands::Count).and_then(few);
    let (count, distance, of_line) = match (repeat, line) {
        (Some((count, distance)), _) => (count, distance, None),
        (None, Some(line)) => {
            let own = Length { amount: line.distance, unit: None };
            let count = u16::try_from(line.count).ok()?;
            (number.unwrap_or(count), far.unwrap_or(own), Some(line))
        }
        (None, None) => (number?, far?, None),
    };
    let stroke = c.stroke().or(of_line.map(|line| line.stroke));
    let spec = Spec {
        count: Some(u32::from(count)),
        distance: distance.amount,
        stroke: stroke.unwrap_or(Stroke::Free),
        target: of_line.and_then(|line| line.target),
        send_off: of_line.and_then(|line| line.send_off),
        whose: c.subject(),
        so_far: false,
    };
    // `first 4 on 48, then 50 50 51 53`: what comes out to all of them.
    let solved = solve(c, &spec, spec.send_off, &[Some(u32::from(count))]);
    let solved = solved.and_then(|solved| solved.times(spec.target));
    let swum = slots.places(Stands::Swum);
    let times: Vec<TypedTime> = swum
        .iter()
        .filter_map(|at| {
            slots.time_of(*at, distance.amount, stroke.unwrap_or(Stroke::Free), c.subject())
        })
        .collect();
    // A time that nobody swims so far is of something else: `smashed it, 3 08`.
    if times.len() < swum.len() {
        return None;
    }
    swum.iter().for_each(|at| slots.used[*at] = true);
    let made = slots.count_as(Stands::Made).and_then(few);
    let lost = slots.count_as(Stands::Lost).and_then(few);
    let (count, made, times) = match times.as_slice() {
        [_, _, ..] if let Some(solved) = solved => (count, None, solved),
        [] => {
            let made = made.or(count.checked_sub(lost.unwrap_or(0)))?;
            (count, Some(made.min(count)), vec![])
        }
        [one] => (count, None, vec![Some(one.clone()); usize::from(count)]),
        many => {
            (few(u32::try_from(many.len()).ok()?)?, None, times.into_iter().map(Some).collect())
        }
    };
    let send_off = slots.take_as(Stands::SendOff, |_, piece| seconds(piece));
    let rest = slots.take_as(Stands::Rest, |_, piece| match piece.item {
        Item::Span(time) => Some(time),
        _ => seconds(piece).and_then(|rest| Centis::from_seconds(f64::from(rest)).ok()),
    });
    let rpe = slots.effort();
    let of = made.filter(|made| *made < count).map(|_| count);
    let on = slots.past_day();
    let kit: Vec<_> = c.pieces.iter().filter_map(Piece::kit).collect();
    Some(vec![Statement {
        who,
        kind: Kind::SetResult(SetResult {
            stroke,
            send_off: send_off
                .and_then(|it| SendOff::new(it).ok())
                .or(of_line.and_then(|line| line.send_off)),
            rest,
            target: of_line.and_then(|line| line.target),
            times,
            made,
            of,
            on,
            rpe,
            equipment: kit,
            ..SetResult::new(count, distance)
        }),
    }])
}

/// Of a coach: what each one named swam of the set in force, by the times that follow.
pub fn of_many(slots: &mut Slots<'_, '_, '_>) -> Option<Vec<Statement>> {
    let c = slots.c;
    let line = c.sit.set.as_ref().and_then(|set| set.main())?;
    let distance = Length { amount: line.distance, unit: None };
    let people = slots.places(Stands::Whom);
    let told = |at: usize| {
        [Stands::Swum, Stands::Made, Stands::Lost].iter().any(|it| slots.stands(at, *it))
    };
    let of = |(number, at): (usize, &usize)| -> Vec<usize> {
        let end = people.get(number + 1).copied().unwrap_or(c.len());
        (*at..end).filter(|at| told(*at)).collect()
    };
    let mut figures: Vec<Vec<usize>> = people.iter().enumerate().map(of).collect();
    // `robin and plover about 1:05`: what stands behind the last is of all who have nothing.
    let mut behind: Vec<usize> = Vec::new();
    for own in figures.iter_mut().rev() {
        if own.is_empty() {
            own.clone_from(&behind);
        } else {
            behind.clone_from(own);
        }
    }
    let mut says = Vec::new();
    for (at, figures) in people.iter().zip(figures) {
        let Some(Item::Person(person)) = c.at(*at).map(|piece| piece.item) else { continue };
        let known = c.sit.people.get(person);
        let time = |at: &usize| {
            slots
                .stands(*at, Stands::Swum)
                .then(|| slots.time_of(*at, line.distance, line.stroke, known))
                .flatten()
        };
        let times: Vec<TypedTime> = figures.iter().filter_map(time).collect();
        let all = u16::try_from(line.count).ok()?;
        let few = |as_what: Stands| {
            let at = figures.iter().find(|at| slots.stands(**at, as_what))?;
            u16::try_from(count_of(c.at(*at)?)?).ok().filter(|few| *few <= all)
        };
        let made = few(Stands::Made).or_else(|| all.checked_sub(few(Stands::Lost)?));
        let result = match (times.as_slice(), made) {
            ([], None) => continue,
            ([], made) => SetResult { made, of: Some(all), ..SetResult::new(all, distance) },
            // `kite 44`: each of them.
            ([one], None) => SetResult {
                times: vec![Some(one.clone()); usize::from(all)],
                ..SetResult::new(all, distance)
            },
            (times, _) => {
                let count = u16::try_from(times.len()).ok()?;
                let times = times.iter().cloned().map(Some).collect();
                SetResult { times, ..SetResult::new(count, distance) }
            }
        };
        let result = SetResult { stroke: Some(line.stroke), send_off: line.send_off, ..result };
        says.push(Statement { who: c.name(person), kind: Kind::SetResult(result) });
    }
    for (at, piece) in c.pieces.iter().enumerate() {
        slots.used[at] |= matches!(piece.item, Item::Person(_)) || slots.stands(at, Stands::Swum);
    }
    (!says.is_empty()).then_some(says)
}

/// A figure as seconds: `1:10`, `65`, `130`.
fn seconds(piece: &Piece<'_>) -> Option<u32> {
    match piece.item {
        Item::Figure(figure) | Item::Each(figure) => {
            let times = figure.times();
            times
                .iter()
                .map(|time| time.seconds().round() as u32)
                .find(|it| (10..=900).contains(it))
        }
        Item::Span(time) => Some(time.seconds().round() as u32),
        _ => None,
    }
}
