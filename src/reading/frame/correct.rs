//! What was said last, put right: by the field that is named, or taken back.

use super::Clause;
use super::candidate::Candidate;
use super::clause::{stroke_of, typed};
use super::results::narrative::{Slot, Spec, tell};
use crate::message::{Day, Done, Fix, Kind, SetResult, Statement, Test, TypedTime};
use crate::reading::lexicon::{Concept, Sense, UnitWord};
use crate::reading::piece::{Far, Figure, Item, Named, Piece};
use crate::reading::situation::Role;
use crate::units::{Centis, Equipment, Rpe, Stroke, Unit};

/// Reads a stretch as a correction of what the sender said last.
pub fn read(c: &Clause<'_, '_>) -> Vec<Candidate> {
    if c.sit.role == Role::Coach
        && let Some(fixed) = of_coach(c)
    {
        return vec![fixed];
    }
    if super::mood::is_question(c) {
        return vec![];
    }
    if let Some(undone) = undone(c) {
        return vec![undone];
    }
    if let Some(fixed) = of_day(c).or_else(|| of_another(c)) {
        return vec![fixed];
    }
    let before = &c.sit.before;
    let loose = loosely(c);
    let evoked = c.has_any(&[Concept::Sorry, Concept::Instead, Concept::Not])
        || starts_with_star(c)
        || refers(c)
        || kit(c).is_some()
        || yards(c)
        || lasted(c)
        || c.has(Concept::Splits);
    if before.is_empty() || !evoked && c.len() > 6 {
        return loose.into_iter().collect();
    }
    let cost = if evoked { 0.2 } else { 1.2 };
    let mut read = Vec::from_iter(loose);
    for (changed, said) in before.iter().enumerate().rev() {
        let mut candidate = Candidate::new("correct", c.len());
        mark(c, &mut candidate);
        let Some(kind) = changed_kind(c, &said.kind, &mut candidate) else { continue };
        excuse(c, &mut candidate);
        let mut says = before.clone();
        says[changed] = Statement { who: said.who.clone(), kind };
        read.push(candidate.says(Kind::Restate { says, changed }).at_cost(cost));
        break;
    }
    read
}

/// `corrijo prom 48.8, el último fue 52`, `it was seven, my daughter counted`: a whole text
/// that a figure of the last statement could be put right by, whatever else it says. It is
/// asked about.
fn loosely(c: &Clause<'_, '_>) -> Option<Candidate> {
    const LONGEST: usize = 14;
    let [said] = c.sit.before.as_slice() else { return None };
    let whole = c.len() == c.all.len() && c.len() <= LONGEST;
    let others = c.pieces.iter().any(|piece| {
        matches!(piece.item, Item::Repeat(..) | Item::Far(_) | Item::Person(_) | Item::Lanes(_))
            || [Concept::Pain, Concept::Test].iter().any(|one| piece.means(*one))
    });
    if !whole || others || !figures(c).iter().any(|(_, figure)| figure.whole() != Some(0)) {
        return None;
    }
    let mut candidate = Candidate::new("correct", c.len());
    let kind = changed_kind(c, &said.kind, &mut candidate)?;
    for (at, piece) in c.pieces.iter().enumerate() {
        candidate.used[at] |= !matches!(piece.item, Item::Figure(_) | Item::Each(_))
            || piece.text.chars().all(char::is_alphabetic);
    }
    let says = vec![Statement { who: said.who.clone(), kind }];
    let restated = Statement { who: None, kind: Kind::Restate { says, changed: 0 } };
    Some(candidate.asking_whether(vec![restated]).at_cost(1.4))
}

fn starts_with_star(c: &Clause<'_, '_>) -> bool {
    let star = |piece: &Piece<'_>| piece.item == Item::Mark('*');
    c.pieces.first().is_some_and(star) || c.pieces.last().is_some_and(star)
}

/// `that was …`, `it was …`, `last one was …`: about what was just said.
fn refers(c: &Clause<'_, '_>) -> bool {
    let first = super::mood::opening(c);
    c.at(first).is_some_and(|piece| piece.means(Concept::Refers))
        || c.has(Concept::Last) && c.len() <= 8
}

fn mark(c: &Clause<'_, '_>, candidate: &mut Candidate) {
    for (at, piece) in c.pieces.iter().enumerate() {
        candidate.used[at] |= [
            Concept::Sorry,
            Concept::Instead,
            Concept::Not,
            Concept::Didnt,
            Concept::Held,
            Concept::About,
        ]
        .iter()
        .any(|one| piece.means(*one));
    }
}

/// `7.15 sorry typing w one hand`: beside the word that puts a figure right, why it was
/// wrong says nothing more.
fn excuse(c: &Clause<'_, '_>, candidate: &mut Candidate) {
    let by_figure = figures(c).iter().any(|(figure, _)| {
        let near = figure.saturating_sub(3)..(figure + 4).min(c.len());
        c.pieces[near].iter().any(|piece| piece.means(Concept::Sorry))
    });
    if by_figure && c.len() <= 12 {
        for (at, piece) in c.pieces.iter().enumerate() {
            candidate.used[at] |= matches!(piece.item, Item::Chatter | Item::Unknown);
        }
    }
}

/// `sorry that was teal's time`, of a swimmer who speaks for no other: not theirs.
fn of_another(c: &Clause<'_, '_>) -> Option<Candidate> {
    let [other] = c.people()[..] else { return None };
    let owned = c.pieces.iter().any(|piece| piece.item == Item::Person(other) && piece.possessive);
    let swum = c
        .sit
        .before
        .iter()
        .any(|said| matches!(said.kind, Kind::Test(_) | Kind::SetResult(_) | Kind::Done(_)));
    let put_right = c.has(Concept::Sorry) && figures(c).is_empty() && c.len() <= 8;
    let mine = c.sit.role == Role::Swimmer && Some(other) != c.sit.me;
    if !(mine && owned && swum && put_right) {
        return None;
    }
    let mut candidate = Candidate::new("undo", c.len());
    candidate.used.fill(true);
    Some(candidate.says(Kind::Undo).at_cost(0.3))
}

/// `ignore that`, `delete that, they were my mates times`.
fn undone(c: &Clause<'_, '_>) -> Option<Candidate> {
    let at = c.find(Concept::Undo)?;
    let figures = c.pieces.iter().any(|piece| matches!(piece.item, Item::Figure(figure) if figure.is_marked() || figure.whole().is_some_and(|value| value >= 25)) || matches!(piece.item, Item::Each(_)));
    if figures && !c.sit.before.is_empty() || !c.people().is_empty() {
        return None;
    }
    let mut candidate = Candidate::new("undo", c.len());
    candidate.used[at] = true;
    Some(candidate.says(Kind::Undo).at_cost(0.3))
}

/// `lo del lunes no fueron 3.12 sino 3.21`: the time of a day that is named.
fn of_day(c: &Clause<'_, '_>) -> Option<Candidate> {
    if c.sit.role == Role::Coach || !c.people().is_empty() || !c.has(Concept::Sorry) {
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
    let (_, time, tenths) = times.iter().find(|(at, ..)| !is_denied(c, *at)).copied()?;
    // `teal no era 2.56, era 2.59`
    let one_denied = times.iter().any(|(at, ..)| is_denied(c, *at));
    if !one_denied && !c.has_any(&[Concept::Sorry, Concept::Instead]) {
        return None;
    }
    // Both the wrong one and the right one are named: nothing else is meant.
    if times.len() != 2 || on == Day::Today {
        return None;
    }
    let mut candidate = Candidate::new("correct", c.len());
    mark(c, &mut candidate);
    candidate.used[day] = true;
    times.iter().for_each(|(at, ..)| candidate.used[*at] = true);
    let fix = Fix { time: Some(typed(time, tenths)), on: Some(on), ..Fix::default() };
    Some(candidate.says(Kind::Fix(fix)).at_cost(0.3))
}

/// The statement with what the stretch changes of it.
fn changed_kind(c: &Clause<'_, '_>, kind: &Kind, candidate: &mut Candidate) -> Option<Kind> {
    let day = c.pieces.iter().enumerate().find_map(|(at, piece)| match piece.item {
        Item::Day(named) if !is_denied(c, at) => Some((at, named)),
        _ => None,
    });
    let stroke = c
        .pieces
        .iter()
        .enumerate()
        .find_map(|(at, piece)| Some((at, stroke_of(piece).filter(|_| !is_denied(c, at))?)));
    match kind {
        Kind::Test(test) => {
            let mut test = test.clone();
            let swum = test.stroke.unwrap_or(Stroke::Free);
            let whose = c.sit.own();
            let time = figures(c).into_iter().find_map(|(at, figure)| {
                let time = c.time(figure, test.distance.amount, swum, whose)?;
                let new = !is_denied(c, at)
                    && test.time.readings.first() != Some(&time)
                    && figure.whole() != Some(test.distance.amount);
                new.then_some((at, time, figure.has_tenths()))
            });
            if let Some((at, time, tenths)) = time {
                candidate.used[at] = true;
                c.pieces
                    .iter()
                    .enumerate()
                    .filter(|(_, piece)| matches!(piece.item, Item::Figure(_)))
                    .for_each(|(at, _)| candidate.used[at] = true);
                test.time = typed(time, tenths);
                test.splits.clear();
                return Some(Kind::Test(test));
            }
            if let Some((at, stroke)) = stroke.filter(|(_, stroke)| Some(*stroke) != test.stroke) {
                candidate.used[at] = true;
                c.pieces
                    .iter()
                    .enumerate()
                    .filter(|(_, piece)| stroke_of(piece).is_some())
                    .for_each(|(at, _)| candidate.used[at] = true);
                test.stroke = Some(stroke);
                return Some(Kind::Test(test));
            }
            if let Some(splits) = splits(c, &test) {
                candidate.used.fill(true);
                test.splits = splits;
                return Some(Kind::Test(test));
            }
            if let Some((at, course)) = course(c) {
                candidate.used[at] = true;
                test.course = Some(course);
                return Some(Kind::Test(test));
            }
            // `that was with fins`: swum, and no best.
            if let Some(kit) = kit(c) {
                candidate.used.fill(true);
                return Some(Kind::SetResult(with_kit(&test, kit)));
            }
            if yards(c) {
                candidate.used.fill(true);
                test.distance.unit = Some(Unit::Yard);
                test.course = None;
                return Some(Kind::Test(test));
            }
            if let Some(start) = c.pieces.iter().find_map(|piece| {
                piece.sense(|sense| match sense {
                    Sense::Start(start) => Some(*start),
                    _ => None,
                })
            }) {
                candidate.used.fill(true);
                test.start = Some(start);
                return Some(Kind::Test(test));
            }
            day_changed(c, day, candidate).map(|on| {
                test.on = Some(on);
                Kind::Test(test)
            })
        }
        Kind::SetResult(set) => set_changed(c, set, stroke, day, candidate),
        Kind::Done(done) => {
            if let Some(test) = timed(c, done, candidate) {
                return Some(Kind::Test(test));
            }
            let mut done = done.clone();
            if let Some(tenths) = effort(c) {
                candidate.used.fill(true);
                done.rpe = Rpe::from_tenths(tenths).ok();
                return Some(Kind::Done(done));
            }
            if let (Some(length), true) = (&mut done.distance, yards(c)) {
                candidate.used.fill(true);
                length.unit = Some(Unit::Yard);
                return Some(Kind::Done(done));
            }
            let old = done.distance.map(|length| length.amount);
            let far = c.pieces.iter().enumerate().find_map(|(at, piece)| {
                let amount = match piece.item {
                    Item::Far(far) => c.length(far)?.amount,
                    Item::Figure(Figure::Whole { value, .. }) if value >= 100 => value,
                    // `no 62`: lengths, as before.
                    Item::Figure(Figure::Whole { value, .. }) | Item::Ordinal(value)
                        if old.is_some_and(|old| {
                            old.is_multiple_of(c.sit.pool_length())
                                && old / c.sit.pool_length() < 3 * value
                                && value > 9
                        }) =>
                    {
                        value * c.sit.pool_length()
                    }
                    Item::Figure(Figure::Parted { whole, parts, places: 1, .. })
                        if old.is_some_and(|old| old >= 1000) =>
                    {
                        whole * 1000 + parts * 100
                    }
                    _ => return None,
                };
                (!is_denied(c, at) && Some(amount) != old).then_some((at, amount))
            });
            if let Some((at, amount)) = far.filter(|_| done.sport.is_none()) {
                candidate.used[at] = true;
                c.pieces
                    .iter()
                    .enumerate()
                    .filter(|(_, piece)| matches!(piece.item, Item::Figure(_) | Item::Far(_)))
                    .for_each(|(at, _)| candidate.used[at] = true);
                done.distance = Some(crate::message::Length {
                    amount,
                    unit: done.distance.and_then(|length| length.unit),
                });
                return Some(Kind::Done(done));
            }
            let took = c.pieces.iter().enumerate().find_map(|(at, piece)| match piece.item {
                Item::Span(time) if !is_denied(c, at) && Some(time) != done.duration => {
                    Some((at, time))
                }
                _ => None,
            });
            if let Some((at, time)) = took {
                candidate.used[at] = true;
                done.duration = Some(time);
                return Some(Kind::Done(done));
            }
            day_changed(c, day, candidate).map(|on| {
                done.on = Some(on);
                Kind::Done(done)
            })
        }
        Kind::Attend { coming: true, on, .. } if day.is_none() => {
            // `make that quarter to 8`
            let late_min = Some(super::attend::minutes_late(c)?);
            candidate.used.fill(true);
            Some(Kind::Attend { coming: true, late_min, on: *on })
        }
        Kind::Away { from, until } => {
            let (at, named) = day?;
            let said = c.coming(named)?;
            let far = |other: Option<Day>| {
                let (one, other) = (c.date_of(said)?, c.date_of(other?)?);
                Some(one.since(other).ok()?.get_days().abs())
            };
            candidate.used[at] = true;
            // The end that it is nearer to is the one that was wrong.
            let first =
                far(*from).is_some_and(|first| far(Some(*until)).is_none_or(|last| first < last));
            Some(match first {
                true => Kind::Away { from: Some(said), until: *until },
                false => Kind::Away { from: *from, until: said },
            })
        }
        Kind::Attend { coming, late_min, .. } => {
            let named = day.map(|(at, named)| {
                candidate.used[at] = true;
                named
            });
            let on = named.and_then(|named| c.coming(named))?;
            Some(Kind::Attend { coming: *coming, late_min: *late_min, on: Some(on) })
        }
        Kind::Pain(pain) => {
            let side = c.pieces.iter().any(|piece| {
                matches!(
                    piece.text,
                    "left" | "right" | "izquierdo" | "derecho" | "izquierda" | "derecha"
                )
            });
            (side && c.len() <= 8).then(|| {
                candidate.used.fill(true);
                Kind::Pain(pain.clone())
            })
        }
        _ => None,
    }
}

/// A day behind `not` is the one that it was not.
fn is_denied(c: &Clause<'_, '_>, at: usize) -> bool {
    at > 0
        && (1..=2.min(at)).any(|back| {
            let piece = &c.pieces[at - back];
            let denies = [Concept::Not, Concept::Didnt, Concept::Instead]
                .iter()
                .any(|one| piece.means(*one));
            denies && back == 1
                || piece.means(Concept::Instead) && piece.text == "instead"
                || back == 2 && matches!(piece.text, "not") && c.pieces[at - 1].senses.is_empty()
        })
        && !(at == 1 && matches!(c.pieces[0].text, "no" | "not"))
        || at > 1
            && c.pieces[at - 1].means(Concept::Instead)
            && !c.pieces[at - 1].means(Concept::Sorry)
}

fn day_changed(
    c: &Clause<'_, '_>,
    day: Option<(usize, Named)>,
    candidate: &mut Candidate,
) -> Option<Day> {
    let (at, named) = day?;
    let past = c.past(named)?;
    candidate.used[at] = true;
    c.pieces
        .iter()
        .enumerate()
        .filter(|(_, piece)| matches!(piece.item, Item::Day(_) | Item::Figure(_) | Item::Far(_)))
        .for_each(|(at, _)| candidate.used[at] = true);
    Some(past)
}

fn figures(c: &Clause<'_, '_>) -> Vec<(usize, Figure)> {
    let mut figures = Vec::new();
    let mut at = 0;
    while let Some(piece) = c.at(at) {
        match (c.minutes_apart(at), piece.item) {
            (Some(time), _) => {
                figures.push((at, time));
                at += 1;
            }
            (None, Item::Figure(figure) | Item::Each(figure)) => figures.push((at, figure)),
            _ => {}
        }
        at += 1;
    }
    figures
}

/// `did the 200 tonight`, and then `308`: what was swum was timed.
fn timed(c: &Clause<'_, '_>, done: &Done, candidate: &mut Candidate) -> Option<Test> {
    const FURTHEST: u32 = 1_500;
    let distance = done.distance.filter(|far| far.amount <= FURTHEST)?;
    if done.duration.is_some() || done.sport.is_some() {
        return None;
    }
    let figures = figures(c);
    let [(at, figure)] = figures.as_slice() else { return None };
    // `1600 actually` is how far.
    if figure.whole().is_some_and(|far| far >= 400 && far.is_multiple_of(50)) {
        return None;
    }
    let known = c.sit.own().filter(|known| !known.bests.is_empty())?;
    let time = c.time(*figure, distance.amount, Stroke::Free, Some(known))?;
    let apart = c.minutes_apart(*at).is_some();
    candidate.used[*at..=at + usize::from(apart)].fill(true);
    Some(Test {
        distance,
        time: typed(time, figure.has_tenths()),
        stroke: None,
        course: None,
        on: done.on,
        splits: vec![],
        start: None,
        meet: false,
    })
}

/// Splits named as such; of one alone, that of the first half: `the 50 split was 40`.
fn splits(c: &Clause<'_, '_>, test: &Test) -> Option<Vec<Centis>> {
    c.find(Concept::Splits)?;
    let whole = test.distance.amount;
    let is_distance = |figure: &Figure| {
        figure.whole().is_some_and(|far| far < whole && matches!(far, 25 | 50 | 100 | 200 | 400))
    };
    let (named, figures): (Vec<Figure>, Vec<Figure>) =
        figures(c).into_iter().map(|(_, figure)| figure).partition(is_distance);
    let times: Vec<Centis> =
        figures.into_iter().filter_map(|figure| figure.times().first().copied()).collect();
    let [half] = times.as_slice() else { return (times.len() > 1).then_some(times) };
    let of_half = named.iter().all(|far| far.whole().is_some_and(|far| far * 2 == whole));
    let total = test.time.readings.first()?;
    let rest = total.hundredths().checked_sub(half.hundredths()).filter(|_| of_half)?;
    Some(vec![*half, Centis::new(rest).ok()?])
}

fn course(c: &Clause<'_, '_>) -> Option<(usize, crate::units::Course)> {
    c.pieces.iter().enumerate().find_map(|(at, piece)| {
        let course = piece.sense(|sense| match sense {
            Sense::Course(course) => Some(*course),
            _ => None,
        });
        let by_length = match piece.item {
            Item::Far(Far::Of(50, _))
                if c.has(Concept::Water) || c.pieces.iter().any(|piece| piece.text == "pool") =>
            {
                Some(crate::units::Course::Long50m)
            }
            Item::Far(Far::Of(25, _)) if c.pieces.iter().any(|piece| piece.text == "pool") => {
                Some(crate::units::Course::Short25m)
            }
            _ => None,
        };
        Some((at, course.or(by_length)?))
    })
}

fn effort(c: &Clause<'_, '_>) -> Option<u8> {
    c.pieces.iter().find_map(|piece| match piece.item {
        Item::Rpe(tenths) => Some(tenths),
        Item::Figure(Figure::Whole { value: value @ 1..=10, .. })
            if c.len() <= 6 && figures(c).len() == 1 && c.minutes_apart(0).is_none() =>
        {
            u8::try_from(value * 10).ok()
        }
        _ => None,
    })
}

/// `last one was 50 not 51`, `the third was 1.54`, `*46`, `8x100`, `it was 5 not 6`.
fn set_changed(
    c: &Clause<'_, '_>,
    set: &SetResult,
    stroke: Option<(usize, Stroke)>,
    day: Option<(usize, Named)>,
    candidate: &mut Candidate,
) -> Option<Kind> {
    let mut set = set.clone();
    if let Some((count, Far::Of(amount, _))) = c.pieces.iter().find_map(|piece| match piece.item {
        Item::Repeat(count, far) => Some((count, far)),
        _ => None,
    }) && amount == set.distance.amount
        && c.len() <= 4
    {
        candidate.used.fill(true);
        return recount(set, count);
    }
    let spec = Spec {
        count: Some(u32::from(set.count)),
        distance: set.distance.amount,
        stroke: set.stroke.unwrap_or(Stroke::Free),
        target: set.target,
        send_off: set.send_off,
        whose: c.sit.own(),
        so_far: false,
    };
    let pieces = without_denied(c);
    let stretch = Clause { pieces: &pieces, ..*c };
    let told = tell(&stretch, spec);
    let swum: Vec<(usize, TypedTime)> = told
        .slots
        .iter()
        .enumerate()
        .filter_map(|(at, slot)| match slot {
            Slot::Swum(time, tenths) => Some((at, typed(*time, *tenths))),
            _ => None,
        })
        .collect();
    if !swum.is_empty()
        && !set.times.is_empty()
        && swum.len() < set.times.len()
        && c.has_any(&[Concept::Last, Concept::First])
            | c.pieces.iter().any(|piece| matches!(piece.item, Item::Ordinal(_)))
    {
        for (at, time) in swum {
            *set.times.get_mut(at)? = Some(time);
        }
        candidate.used.fill(true);
        return Some(Kind::SetResult(set));
    }
    if let Some((time, tenths)) = told.each.or(told.average).filter(|_| c.len() <= 6) {
        candidate.used.fill(true);
        set.times = vec![Some(typed(time, tenths)); usize::from(set.count)];
        return Some(Kind::SetResult(set));
    }
    if let Some((at, stroke)) = stroke {
        candidate.used[at] = true;
        c.pieces
            .iter()
            .enumerate()
            .filter(|(_, piece)| stroke_of(piece).is_some())
            .for_each(|(at, _)| candidate.used[at] = true);
        set.stroke = Some(stroke);
        return Some(Kind::SetResult(set));
    }
    if let Some(kit) = kit(c) {
        candidate.used.fill(true);
        set.equipment = kit;
        return Some(Kind::SetResult(set));
    }
    if told.rest.is_some() && told.rest != set.rest || told.send_off.is_some() {
        candidate.used.fill(true);
        set.rest = told.rest.or(set.rest);
        set.send_off = told.send_off.or(set.send_off);
        if let Some((time, tenths)) = told.average.or(told.each) {
            set.average = Some(typed(time, tenths));
            (set.made, set.of) = (None, None);
        }
        return Some(Kind::SetResult(set));
    }
    let count = figures(c).into_iter().find_map(|(at, figure)| {
        figure.whole().filter(|value| {
            (1..=40).contains(value) && *value != u32::from(set.count) && !is_denied(c, at)
        })
    });
    if let Some(count) = count.filter(|_| c.len() <= 14) {
        candidate.used.fill(true);
        return recount(set, count);
    }
    let (_, named) = day?;
    set.on = c.past(named);
    candidate.used.fill(true);
    Some(Kind::SetResult(set))
}

/// The kit that a short text names.
fn kit(c: &Clause<'_, '_>) -> Option<Vec<Equipment>> {
    let named = c.pieces.iter().filter_map(|piece| {
        piece.sense(|sense| match sense {
            Sense::Kit(kit) => Some(*kit),
            _ => None,
        })
    });
    let kit: Vec<Equipment> = named.collect();
    (!kit.is_empty() && c.len() <= 10 && !c.has(Concept::Without)).then_some(kit)
}

/// A timed swim with kit: one repeat of a set, which is nobody's best.
fn with_kit(test: &Test, kit: Vec<Equipment>) -> SetResult {
    SetResult {
        count: 1,
        distance: test.distance,
        stroke: test.stroke,
        send_off: None,
        rest: None,
        target: None,
        times: vec![Some(test.time.clone())],
        average: None,
        made: None,
        of: None,
        equipment: kit,
        rpe: None,
        heart_rate: None,
        strokes: None,
        on: test.on,
    }
}

/// `en 33 min`, `52 mins`: how long what was told of took, where that was not said.
fn lasted(c: &Clause<'_, '_>) -> bool {
    let open = matches!(c.sit.before.as_slice(), [Statement { kind: Kind::Done(done), .. }] if done.duration.is_none());
    let span = |piece: &Piece<'_>| matches!(piece.item, Item::Span(_));
    open && c.len() <= 6 && figures(c).is_empty() && c.pieces.iter().any(span)
}

/// `yards that is`, `eran yardas`
fn yards(c: &Clause<'_, '_>) -> bool {
    c.len() <= 10
        && figures(c).is_empty()
        && c.pieces.iter().any(|piece| piece.is(Sense::Unit(UnitWord::Yard)))
}

/// The same with another number of repeats: as many of the same time.
fn recount(mut set: SetResult, count: u32) -> Option<Kind> {
    let same = set.times.windows(2).all(|pair| pair[0] == pair[1]);
    if !same {
        return None;
    }
    set.count = u16::try_from(count).ok()?;
    if let Some(first) = set.times.first().cloned() {
        set.times = vec![first; count as usize];
    }
    Some(Kind::SetResult(set))
}

/// The pieces without what `not` denies.
fn without_denied<'t>(c: &Clause<'_, 't>) -> Vec<crate::reading::piece::Piece<'t>> {
    let mut kept = Vec::new();
    for (at, piece) in c.pieces.iter().enumerate() {
        let denied = matches!(piece.item, Item::Figure(_) | Item::Each(_))
            && is_denied(c, at)
            && kept.iter().any(|one: &crate::reading::piece::Piece<'_>| {
                matches!(one.item, Item::Figure(_) | Item::Each(_))
            });
        if !denied {
            kept.push(piece.clone());
        }
    }
    kept
}

/// A coach's `teal was 2:56 not 2:59`, `scratch kite's 200`.
fn of_coach(c: &Clause<'_, '_>) -> Option<Candidate> {
    let [one] = c.people()[..] else { return None };
    let denies = [Concept::Sorry, Concept::Instead, Concept::Didnt];
    if !c.has_any(&denies) || super::mood::is_question(c) {
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
    let times: Vec<(usize, Centis, bool)> = figures(c)
        .into_iter()
        .filter_map(|(at, figure)| {
            Some((at, c.time(figure, far, stroke, Some(known))?, figure.has_tenths()))
        })
        .collect();
    let (_, time, tenths) = times.iter().find(|(at, ..)| !is_denied(c, *at)).copied()?;
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
    for (at, piece) in c.pieces.iter().enumerate() {
        candidate.used[at] |= matches!(
            piece.item,
            Item::Day(_) | Item::Person(_) | Item::Plural(_) | Item::Far(_)
        ) || matches!(piece.item, Item::Figure(Figure::Whole { value, .. }) if Some(value) == distance)
            || piece.means(Concept::Test);
    }
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
