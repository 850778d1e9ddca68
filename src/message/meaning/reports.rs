//! A report taken apart: how one is, and each swim with what belongs to it.

use super::{
    Outcome, Trouble, about, days, deeds, feelings, meets, results, sets, together, trials,
};
use crate::message::syntax::{Figure, Item, Piece, Repeat, RoundsItem, TypedDay};
use crate::message::{Day, Fix, Kind, Name, Slot, Statement};
use crate::units::{Course, Rpe};

/// What a report says, of `who` where a name stood first.
pub fn report(who: Option<&Name>, mut items: Vec<Item>) -> Outcome<Vec<Statement>> {
    if let ([only], None) = (items.as_slice(), who)
        && let Some(word) = choice(only)
    {
        return Ok(vec![about(None, Kind::Choose { word })]);
    }
    if let [Item::Day(TypedDay::Named(Day::Today))] = items.as_slice() {
        // `tonight`
        return Ok(vec![about(who, Kind::Tonight)]);
    }
    if let Some(fix) = begun(&items) {
        return Ok(vec![about(who, Kind::Fix(fix))]);
    }
    if let Some(meet) = meets::meet(&items)? {
        return Ok(vec![about(who, meet)]);
    }
    let feelings = feelings::take(who, &mut items);
    items = tidy(items);
    if !feelings.is_empty() && items == [Item::Day(TypedDay::Named(Day::Today))] {
        items.clear();
    }
    let swum = if items.is_empty() { Ok(Vec::new()) } else { swum(who, items) };
    together([swum, Ok(feelings)])
}

/// `dive`, `from the blocks, at a meet`: how the last test began and where it was,
/// and no more.
fn begun(items: &[Item]) -> Option<Fix> {
    let mut fix = Fix::default();
    for item in items {
        match item {
            Item::Begin(start) if fix.start.is_none() => fix.start = Some(*start),
            Item::Meet if !fix.meet => fix.meet = true,
            Item::Comma => {}
            _ => return None,
        }
    }
    (fix.start.is_some() || fix.meet).then_some(fix)
}

/// Commas only between items.
fn tidy(items: Vec<Item>) -> Vec<Item> {
    let mut out: Vec<Item> = Vec::with_capacity(items.len());
    for item in items {
        if item != Item::Comma || !matches!(out.last(), None | Some(Item::Comma)) {
            out.push(item);
        }
    }
    if out.last() == Some(&Item::Comma) {
        out.pop();
    }
    out
}

/// The one word that may answer a question.
fn choice(item: &Item) -> Option<String> {
    let word = match item {
        Item::Stroke(stroke) => stroke.to_string(),
        Item::Course(course) => course.to_string(),
        Item::Length(extent) => {
            format!("{}{}", extent.amount, extent.unit.map_or("", |unit| unit.name()))
        }
        Item::Test => "test".to_owned(),
        Item::Mile => "mile".to_owned(),
        Item::Miss => "x".to_owned(),
        Item::Minutes(minutes) => format!("{minutes}min"),
        Item::Figure(figure) => figure.to_string(),
        _ => return None,
    };
    Some(word)
}

fn swum(who: Option<&Name>, items: Vec<Item>) -> Outcome<Vec<Statement>> {
    if sets::is_set(&items) || sets::lists_swims(&items) {
        return Ok(vec![about(who, Kind::Set(sets::typed(&items)?))]);
    }
    if let Some(slot) = slot(&items)? {
        return Ok(vec![about(who, Kind::Slot(slot))]);
    }
    let mut was_test = false;
    let shared = leading_day(&items);
    together(segments(items).into_iter().map(|mut segment| {
        let owner = segment.iter().find_map(|item| match item {
            Item::Name(name) => Some(name.clone()),
            _ => None,
        });
        let who = owner.as_ref().or(who);
        segment.retain(|item| !matches!(item, Item::Name(_) | Item::Comma));
        let rating = rating_of_test(&mut segment);
        if was_test && trials::lacks_only_the_word(&segment) {
            segment.push(Item::Test);
        }
        was_test = segment.contains(&Item::Test);
        if !segment.iter().any(|item| matches!(item, Item::Day(_))) {
            segment.extend(shared.clone());
        }
        let rated = rating.map(|rpe| about(who, deeds::rated(rpe)));
        together([one(who, segment), Ok(rated.into_iter().collect())])
    }))
}

/// The effort told beside a test rates the session, not the swim.
fn rating_of_test(segment: &mut Vec<Item>) -> Option<Rpe> {
    let (at, tenths) = segment.iter().enumerate().find_map(|(at, item)| match item {
        Item::Rpe(tenths) => Some((at, *tenths)),
        _ => None,
    })?;
    if !segment.contains(&Item::Test) {
        return None;
    }
    let rating = results::rpe(tenths).ok()?;
    segment.remove(at);
    Some(rating)
}

/// What one swim, session or absence comes to.
fn one(who: Option<&Name>, segment: Vec<Item>) -> Outcome<Vec<Statement>> {
    let segment = without_rounds(segment);
    let has = |wanted: fn(&Item) -> bool| segment.iter().any(wanted);
    if has(|item| matches!(item, Item::Repeat(_))) {
        results::set_result(who, &segment)
    } else if has(|item| *item == Item::Test) {
        trials::test(who, &segment)
    } else if has(|item| *item == Item::Missed) {
        deeds::missed(who, &segment)
    } else if deeds::is_done(&segment) {
        deeds::done(who, &segment)
    } else if trials::lacks_only_the_word(&segment) {
        trials::test_or_session(who, &segment)
    } else if sets::is_swims(&segment) {
        Ok(vec![about(who, Kind::Set(sets::typed(&segment)?))])
    } else {
        Err(Trouble::Senseless)
    }
}

/// Results of rounds of one repeat are those of all its repeats: the times of
/// `2x(4x50 on 1:00)` are eight.
fn without_rounds(segment: Vec<Item>) -> Vec<Item> {
    let tells = |item: &Item| {
        matches!(item, Item::Held(_) | Item::Average(_) | Item::Made(_) | Item::Figure(_))
    };
    let [Item::Rounds(RoundsItem { times, pieces, .. }), after @ ..] = segment.as_slice() else {
        return segment;
    };
    match pieces.as_slice() {
        [Piece::Swim(how)] if after.iter().any(tells) => {
            let all = how.iter().map(|item| match item {
                Item::Repeat(one) => {
                    Item::Repeat(Repeat { count: one.count.saturating_mul(*times), ..*one })
                }
                other => other.clone(),
            });
            all.chain(after.iter().cloned()).collect()
        }
        _ => segment,
    }
}

/// A day said before any swim holds for all of them.
fn leading_day(items: &[Item]) -> Option<Item> {
    items
        .iter()
        .take_while(|item| !is_far(item) && !matches!(item, Item::Figure(_)))
        .find(|item| matches!(item, Item::Day(_)))
        .cloned()
}

/// `thu 50m`: another pool that day.
fn slot(items: &[Item]) -> Outcome<Option<Slot>> {
    let mut slot = Slot::default();
    for item in items {
        match item {
            Item::Day(day) => match days::weekday(days::day(*day)?) {
                Ok(weekday) => slot.days.push(weekday),
                Err(day) => slot.on = Some(day),
            },
            Item::Course(course) => slot.course = Some(*course),
            Item::Length(extent) if slot.course.is_none() => slot.course = course(*extent),
            Item::Comma => {}
            _ => return Ok(None),
        }
    }
    slot.days.sort_by_key(|day| day.to_monday_one_offset());
    slot.days.dedup();
    let whole = slot.course.is_some() && (slot.on.is_some() || !slot.days.is_empty());
    Ok(whole.then_some(slot))
}

/// A length of pool, where a distance can be one.
pub fn course(extent: crate::message::syntax::Extent) -> Option<Course> {
    use crate::units::Unit;
    match (extent.amount, extent.unit?) {
        (25, Unit::Metre) => Some(Course::Short25m),
        (50, Unit::Metre) => Some(Course::Long50m),
        (25, Unit::Yard) => Some(Course::Short25yd),
        _ => None,
    }
}

fn is_far(item: &Item) -> bool {
    matches!(
        item,
        Item::Repeat(_) | Item::Rounds(_) | Item::Length(_) | Item::Lengths(_) | Item::Mile
    )
}

/// True for what may say how far.
pub fn is_far_or_figure(item: &Item) -> bool {
    is_far(item) || matches!(item, Item::Figure(_))
}

/// What a segment has so far.
#[derive(Default)]
struct Seen {
    far: bool,
    repeat: bool,
    time: bool,
    test: bool,
    done: bool,
}

/// Cuts a report where a second distance, time or deed begins the next swim.
fn segments(items: Vec<Item>) -> Vec<Vec<Item>> {
    let mut all: Vec<Vec<Item>> = vec![Vec::new()];
    let mut seen = Seen::default();
    let mut was_comma = false;
    for (at, item) in items.iter().enumerate() {
        let after_comma = std::mem::replace(&mut was_comma, *item == Item::Comma);
        let part = items.iter().skip(at).take_while(|item| **item != Item::Comma);
        let complete = seen.far && (seen.time || seen.done);
        let brings_figures =
            || part.clone().any(|item| is_far(item) || matches!(item, Item::Figure(_)));
        let begins_deed = || {
            let deed = |item: &Item| {
                matches!(
                    item,
                    Item::Test | Item::Done | Item::Minutes(_) | Item::Sport(_) | Item::Missed
                )
            };
            part.clone().any(deed)
        };
        let cuts = match item {
            _ if after_comma && seen.repeat && seen.time && begins_deed() => true,
            Item::Repeat(_) | Item::Rounds(_) | Item::Mile => seen.far,
            Item::Length(extent) => seen.far && course(*extent).is_none(),
            Item::Test => seen.test,
            Item::Done | Item::Sport(_) => seen.done || (seen.test && seen.time),
            Item::Missed => !seen.repeat && seen.far,
            Item::Figure(Figure::Number { value, .. }) => {
                let far = value.is_multiple_of(25) && *value > 0;
                !seen.repeat && seen.far && seen.time && (far || after_comma)
            }
            Item::Figure(_) => {
                let next_far = match items.get(at + 1) {
                    Some(Item::Figure(Figure::Number { .. })) => true,
                    Some(next) => is_far(next),
                    None => false,
                };
                !seen.repeat && seen.time && (after_comma || next_far)
            }
            Item::Comma => false,
            _ => after_comma && complete && brings_figures() && !seen.repeat,
        };
        if cuts && all.last().is_some_and(|segment| !segment.is_empty()) {
            all.push(Vec::new());
            seen = Seen::default();
        }
        match item {
            Item::Repeat(_) | Item::Rounds(_) => (seen.far, seen.repeat) = (true, true),
            Item::Length(_) | Item::Lengths(_) | Item::Mile => seen.far = true,
            Item::Figure(Figure::Number { .. }) if !seen.far => seen.far = true,
            Item::Figure(_) | Item::Took(_) | Item::Held(_) | Item::Average(_) | Item::Made(_) => {
                seen.time = true
            }
            Item::Test => seen.test = true,
            Item::Done | Item::Sport(_) => seen.done = true,
            _ => {}
        }
        if let Some(segment) = all.last_mut() {
            segment.push(item.clone());
        }
    }
    merge(all)
}

/// Puts what brings nothing of its own back to the swim before it.
fn merge(all: Vec<Vec<Item>>) -> Vec<Vec<Item>> {
    let mut out: Vec<Vec<Item>> = Vec::with_capacity(all.len());
    for segment in all {
        let own = segment.iter().any(|item| match item {
            Item::Length(extent) => course(*extent).is_none(),
            Item::Figure(_) | Item::Repeat(_) | Item::Rounds(_) => true,
            Item::Mile | Item::Lengths(_) => true,
            Item::Test | Item::Done | Item::Sport(_) | Item::Missed | Item::Short => true,
            _ => false,
        });
        match out.last_mut() {
            Some(before) if !own => before.extend(segment),
            _ => out.push(segment),
        }
    }
    out
}
