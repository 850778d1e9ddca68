//! A result put right that the text itself names: by its day, or by whose it was.

use super::clue::{figures, is_denied, mark};
use crate::message::{Day, Fix, Kind};
use crate::reading::frame::candidate::Candidate;
use crate::reading::frame::clause::typed;
use crate::reading::frame::{Clause, mood};
use crate::reading::lexicon::{Concept, Hint};
use crate::reading::piece::{Far, Figure, Item, Piece};
use crate::reading::situation::Role;
use crate::units::{Centis, Stroke};

/// `lo del lunes no fueron 3.12 sino 3.21`, `the 3:12 on monday was actually 3:15`: the time
/// of a day that is named, beside the one that is known or denied.
pub fn of_day(c: &Clause<'_, '_>) -> Option<Candidate> {
    if c.sit.role == Role::Coach || !c.people().is_empty() {
        return None;
    }
    let (day, on) = c.pieces.iter().enumerate().find_map(|(at, piece)| match piece.item {
        Item::Day(named) => Some((at, c.past(named)?)),
        _ => None,
    })?;
    let times: Vec<_> = figures(c)
        .into_iter()
        .filter_map(|(at, figure)| {
            Some((at, c.time(figure, 200, Stroke::Free, c.sit.own())?, figure.has_tenths()))
        })
        .collect();
    // Both the wrong one and the right one are named: nothing else is meant.
    let [first, second] = times[..] else { return None };
    if on == Day::Today {
        return None;
    }
    let known = |time: Centis| {
        c.sit.own().is_some_and(|own| own.bests.iter().any(|(.., best)| *best == time))
    };
    let corrects = c.has_any(&[Concept::Sorry, Concept::Instead]);
    let (_, time, tenths) = match (is_denied(c, first.0), is_denied(c, second.0)) {
        (true, false) => second,
        (false, true) => first,
        _ if known(first.1) && !known(second.1) => second,
        _ if known(second.1) && !known(first.1) && corrects => first,
        _ if corrects => first,
        _ => return None,
    };
    let mut candidate = Candidate::new("correct", c.len());
    mark(c, &mut candidate);
    candidate.used[day] = true;
    times.iter().for_each(|(at, ..)| candidate.used[*at] = true);
    let fix = Fix { time: Some(typed(time, tenths)), on: Some(on), ..Fix::default() };
    Some(candidate.says(Kind::Fix(fix)).at_cost(0.3))
}

/// `the 2 58 for teal was 2 55`, `heron's 200 on monday went down as 3:12, ought to be 3:14`,
/// and of one's own `my 3:12 the other day was actually 3:13`: the time that is on record, and
/// what it should be.
pub fn of_record(c: &Clause<'_, '_>) -> Option<Candidate> {
    const LONGEST: usize = 18;
    let coach = c.sit.role == Role::Coach;
    let people = c.people();
    let (known, who) = match (people.as_slice(), coach) {
        ([one], true) => (c.sit.people.get(*one)?, c.name(*one)),
        ([], false) => (c.sit.own()?, None),
        _ => return None,
    };
    if mood::is_question(c) || c.len() > LONGEST || c.len() != c.all.len() {
        return None;
    }
    let named = c.pieces.iter().enumerate().find_map(|(at, piece)| match piece.item {
        Item::Plural(value) | Item::Far(Far::Of(value, _)) => Some((at, value)),
        Item::Figure(Figure::Whole { value, .. })
            if matches!(value, 50 | 100 | 200 | 400 | 800 | 1500) =>
        {
            Some((at, value))
        }
        _ => None,
    });
    let far = named.map(|(_, far)| far);
    let times: Vec<(usize, Figure)> =
        figures(c).into_iter().filter(|(at, _)| named.is_none_or(|(far, _)| far != *at)).collect();
    let [first, second] = times[..] else { return None };
    let best = |figure: Figure| {
        known.bests.iter().find(|(distance, _, time)| {
            far.is_none_or(|far| far == *distance) && figure.times().contains(time)
        })
    };
    let (old, new) = match (best(first.1), best(second.1)) {
        (Some(old), None) => (old, second),
        // What stands behind is the wrong one only where it is denied.
        (None, Some(old)) if is_denied(c, second.0) => (old, first),
        _ => return None,
    };
    let (distance, stroke, was) = *old;
    let time = c.time(new.1, distance, stroke, Some(known))?;
    // `teal 2:58, actually 2:55` is of one swim that is told now: what is on record is spoken
    // of as something known.
    let at = if new.0 == first.0 { second.0 } else { first.0 };
    let known_as = c.pieces.part(0, at).last().is_some_and(|piece| {
        piece.means(Concept::My)
            || matches!(
                piece.text,
                "the" | "that" | "this" | "my" | "as" | "el" | "la" | "ese" | "mi" | "los"
            )
    });
    let now = c.pieces.iter().any(|piece| match piece.item {
        Item::Day(named) => c.past(named) == Some(Day::Today),
        _ => false,
    });
    let told = !coach && c.sit.before.iter().any(|said| said.kind.is_swum());
    if !known_as || now || told {
        return None;
    }
    // `teal went from 2:58 to 2:55` is a new time.
    let corrects = c.has_any(&[Concept::Sorry, Concept::Instead, Concept::Didnt]);
    let is = c
        .pieces
        .part(0, new.0)
        .last()
        .is_some_and(|piece| piece.means(Concept::AuxBe) || piece.means(Concept::Refers));
    if !corrects && !is {
        return None;
    }
    let on = c.pieces.iter().find_map(|piece| match piece.item {
        Item::Day(named) => c.past(named),
        _ => None,
    });
    let mut candidate = Candidate::new("correct", c.len());
    candidate.used.mark(c.pieces, |piece| !piece.is_of_health());
    let fix = Fix {
        time: Some(typed(time, new.1.has_tenths())),
        instead: Some(typed(was, false)),
        was: who,
        on,
        distance: Some(crate::message::Length { amount: distance, unit: None }),
        ..Fix::default()
    };
    Some(candidate.says(Kind::Fix(fix)).at_cost(0.1))
}

/// A coach's `teal was 2:56 not 2:59`, `scratch kite's 200`.
pub fn of_coach(c: &Clause<'_, '_>) -> Option<Candidate> {
    let [one] = c.people()[..] else { return None };
    let denies = [Concept::Sorry, Concept::Instead, Concept::Didnt];
    if !c.has_any(&denies) || mood::is_question(c) {
        return None;
    }
    let known = c.sit.people.get(one)?;
    let distance = c.pieces.iter().find_map(|piece| match piece.item {
        Item::Plural(value) => Some(value),
        Item::Figure(Figure::Whole { value, .. })
            if matches!(value, 50 | 100 | 200 | 400 | 800 | 1500) =>
        {
            Some(value)
        }
        Item::Far(Far::Of(value, _)) => Some(value),
        _ => None,
    });
    let far = distance.or(c.sit.tested).unwrap_or(200);
    let stroke = c.stroke().unwrap_or(Stroke::Free);
    let mut times: Vec<(usize, Centis, bool)> = figures(c)
        .into_iter()
        .filter_map(|(at, figure)| {
            Some((at, c.time(figure, far, stroke, Some(known))?, figure.has_tenths()))
        })
        .collect();
    // `that 200 was wrong, 3:05 not 3:15`: beside two times the distance is none.
    let is_far = |at: usize| matches!(c.pieces[at].item, Item::Figure(figure) if figure.whole() == Some(far));
    if times.len() > 2 {
        times.retain(|(at, ..)| !is_far(*at));
    }
    let (_, time, tenths) = right_of(c, &times)?;
    if times.len() < 2
        && !c.pieces.iter().any(|piece| piece.means(Concept::Sorry) && piece.text != "not")
    {
        return None;
    }
    let on = c.pieces.iter().find_map(|piece| match piece.item {
        Item::Day(named) => c.past(named),
        _ => None,
    });
    let night = c.sit.swum_on();
    let on = on.or_else(|| (night != c.sit.today).then_some(Day::Full(night)));
    let mut candidate = Candidate::new("correct", c.len());
    mark(c, &mut candidate);
    times.iter().for_each(|(at, ..)| candidate.used[*at] = true);
    candidate.used.mark(c.pieces, |piece| matches!(
            piece.item,
            Item::Day(_) | Item::Person(_) | Item::Plural(_) | Item::Far(_)
        ) || matches!(piece.item, Item::Figure(Figure::Whole { value, .. }) if Some(value) == distance)
            || piece.means(Concept::Test));
    let instead = times.iter().find(|(at, ..)| is_denied(c, *at));
    let fix = Fix {
        time: Some(typed(time, tenths)),
        instead: instead.map(|(_, time, tenths)| typed(*time, *tenths)),
        was: Some(known.name.clone()),
        on,
        distance: Some(crate::message::Length { amount: far, unit: None }),
        ..Fix::default()
    };
    Some(candidate.says(Kind::Fix(fix)).at_cost(0.1))
}

/// Which of the times is right: what is denied isn't, and of two what `it was` tells goes
/// before what somebody `put`; else the last is the better word.
fn right_of(c: &Clause<'_, '_>, times: &[(usize, Centis, bool)]) -> Option<(usize, Centis, bool)> {
    const NEAR: usize = 3;
    let mut open = times.iter().filter(|(at, ..)| !is_denied(c, *at));
    let [first, second] = times else { return open.next().copied() };
    if is_denied(c, first.0) || is_denied(c, second.0) {
        return open.next().copied();
    }
    let before = |at: usize, says: &dyn Fn(&Piece<'_>) -> bool| {
        let before = c.pieces.part(at.saturating_sub(NEAR), at);
        let own = before.iter().rev().take_while(|piece| !matches!(piece.item, Item::Figure(_)));
        own.into_iter().any(says)
    };
    let was = |at: usize| before(at, &|piece| piece.means(Concept::AuxBe));
    let put = |at: usize| before(at, &|piece| Hint::PutDown.is(piece.text));
    let first_is_right = put(second.0) && !put(first.0) || was(first.0) && !was(second.0);
    Some(if first_is_right { *first } else { *second })
}
