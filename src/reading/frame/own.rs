//! What people say of themselves: kit, limits, days, minutes, goals, races.

use jiff::civil::Time;

use super::Clause;
use super::candidate::Candidate;
use super::clause::{stroke_of, typed};
use crate::message::{Day, Doubt, Kind, Limits, Name, ProfileChange, Wants};
use crate::reading::lexicon::{Concept, Sense, UnitWord};
use crate::reading::piece::{Far, Figure, Item, Named};
use crate::reading::situation::Role;
use crate::session::Limit;
use crate::units::{Course, Equipment, Stroke, Unit};

/// Reads a stretch as what the sender, or the one a coach names, owns, can't or may
/// not do, and wants.
pub fn read(c: &Clause<'_, '_>) -> Vec<Candidate> {
    let people = c.people();
    if people.len() > 1 || super::mood::is_question(c) {
        return vec![];
    }
    let coach = c.sit.role == Role::Coach;
    let who: Option<Name> = match people.as_slice() {
        [one] if Some(*one) != c.sit.me => c.name(*one),
        _ => None,
    };
    if who.is_some() && !coach || coach && who.is_none() {
        return vec![];
    }
    let readers: [fn(&Clause<'_, '_>, &mut Candidate) -> Option<Kind>; 9] =
        [barred, kit, quiet, able, race, goal, week, pool, units];
    let mut read = Vec::new();
    let mut begun = Candidate::new("own", c.len());
    for (at, piece) in c.pieces.iter().enumerate() {
        begun.used[at] |= matches!(piece.item, Item::Person(_));
    }
    for reader in readers {
        let mut candidate = begun.clone();
        if let Some(kind) = reader(c, &mut candidate) {
            read.push(candidate.says_of(who.clone(), kind).at_cost(0.5));
        }
    }
    read
}

fn uses(c: &Clause<'_, '_>, candidate: &mut Candidate, concepts: &[Concept]) {
    for (at, piece) in c.pieces.iter().enumerate() {
        candidate.used[at] |= concepts.iter().any(|one| piece.means(*one));
    }
}

fn all_kit(c: &Clause<'_, '_>, candidate: &mut Candidate) -> Vec<(usize, Equipment)> {
    let mut all = Vec::new();
    for (at, piece) in c.pieces.iter().enumerate() {
        if let Some(kit) = piece.sense(|sense| match sense {
            Sense::Kit(kit) => Some(*kit),
            _ => None,
        }) {
            all.push((at, kit));
            candidate.used[at] = true;
        }
    }
    all
}

fn results(c: &Clause<'_, '_>) -> bool {
    c.pieces.iter().any(|piece| matches!(piece.item, Item::Repeat(..) | Item::Each(_) | Item::Far(_)) || matches!(piece.item, Item::Figure(figure) if figure.is_marked() || figure.whole().is_some_and(|value| value > 24)))
}

/// `got fins now`, `lost my paddles`, `I have a buoy and a board but no fins`.
fn kit(c: &Clause<'_, '_>, candidate: &mut Candidate) -> Option<Kind> {
    if results(c) || c.sit.role == Role::Coach {
        return None;
    }
    let kit = all_kit(c, candidate);
    if kit.is_empty() {
        return None;
    }
    let lacks = |at: usize| {
        (at.saturating_sub(3)..at).any(|before| {
            let piece = &c.pieces[before];
            piece.means(Concept::KitLack) && !matches!(piece.text, "got" | "have")
                || matches!(piece.text, "no" | "sin")
                || piece.means(Concept::Not)
        }) || c.at(at + 1).is_some_and(|next| matches!(next.text, "no" | "broke" | "snapped"))
    };
    let has = c.has(Concept::KitHave);
    uses(
        c,
        candidate,
        &[Concept::KitHave, Concept::KitLack, Concept::Not, Concept::Without, Concept::New],
    );
    let (lacking, owned): (Vec<_>, Vec<_>) = kit.into_iter().partition(|(at, _)| lacks(*at));
    let names =
        |list: Vec<(usize, Equipment)>| list.into_iter().map(|(_, kit)| kit).collect::<Vec<_>>();
    if lacking.is_empty() && !has {
        return None;
    }
    let (have, lack) = (names(owned), names(lacking));
    Some(Kind::Limits(Limits::KitChanged { have, lack }))
}

/// `no fly please`, `no tumble turns`, `can't do breast kick`, `finch no paddles`.
fn barred(c: &Clause<'_, '_>, candidate: &mut Candidate) -> Option<Kind> {
    if results(c) {
        return None;
    }
    let coach = c.sit.role == Role::Coach;
    let avoids = c.find(Concept::Avoid)?;
    if !coach
        && c.has_any(&[Concept::KitLack])
        && c.pieces
            .iter()
            .any(|piece| matches!(piece.text, "lost" | "broke" | "snapped" | "forgot" | "payday"))
    {
        return None;
    }
    let mut what = Vec::new();
    for (at, piece) in c.pieces.iter().enumerate() {
        let limit = if piece.means(Concept::Tumble) {
            Some(Limit::TumbleTurns)
        } else if piece.means(Concept::Dives) {
            Some(Limit::Dives)
        } else if piece.means(Concept::BreastKick) {
            Some(Limit::BreastKick)
        } else if coach
            && let Some(kit) = piece.sense(|sense| match sense {
                Sense::Kit(kit) => Some(*kit),
                _ => None,
            })
        {
            Some(Limit::Kit(kit))
        } else {
            stroke_of(piece)
                .filter(|stroke| !matches!(stroke, Stroke::Free | Stroke::Choice | Stroke::Drill))
                .map(Limit::Stroke)
        };
        if let Some(limit) = limit.filter(|_| at > avoids || at + 3 > avoids) {
            what.push(limit);
            candidate.used[at] = true;
        }
    }
    if what.is_empty() {
        return None;
    }
    uses(c, candidate, &[Concept::Avoid, Concept::Cant, Concept::Not, Concept::Maybe]);
    Some(Kind::Limits(Limits::Barred { what, all: false }))
}

/// `don't be messaging me before 9`.
fn quiet(c: &Clause<'_, '_>, candidate: &mut Candidate) -> Option<Kind> {
    let texts = c.find(Concept::Texting)?;
    if !c.has_any(&[Concept::Not, Concept::Didnt, Concept::Wont])
        && !c.pieces.iter().any(|piece| matches!(piece.text, "no" | "stop"))
    {
        return None;
    }
    let before = c.find(Concept::Before)?;
    let (hour, minute) = c.pieces[before..].iter().find_map(|piece| match piece.item {
        Item::TimeOfDay(hour, minute) => Some((hour, minute)),
        Item::Figure(figure) => figure.day_time(),
        _ => None,
    })?;
    candidate.used[texts..].fill(true);
    let from = Time::new(i8::try_from(hour).ok()?, i8::try_from(minute).ok()?, 0, 0).ok()?;
    Some(Kind::Quiet { from })
}

/// `longest I can go is 6 lengths`, `nothing over 1200 for now`.
fn able(c: &Clause<'_, '_>, candidate: &mut Candidate) -> Option<Kind> {
    let far = c.pieces.iter().enumerate().find_map(|(at, piece)| match piece.item {
        Item::Far(far) => Some((at, c.length(far)?)),
        Item::Figure(Figure::Whole { value, .. }) if value >= 400 => {
            Some((at, crate::message::Length { amount: value, unit: None }))
        }
        _ => None,
    });
    let (at, far) = far?;
    if c.has(Concept::Max) && far.amount >= 400 {
        uses(c, candidate, &[Concept::Max]);
        candidate.used[at] = true;
        return Some(Kind::Ability { unbroken: None, most: Some(far) });
    }
    let stop = c
        .pieces
        .iter()
        .any(|piece| matches!(piece.text, "stop" | "stopping" | "rest" | "breather" | "parar"));
    if c.has(Concept::Able) || stop && c.has_any(&[Concept::Can, Concept::Only]) {
        uses(c, candidate, &[Concept::Able, Concept::Can, Concept::Only, Concept::Stopped]);
        candidate.used[at] = true;
        return Some(Kind::Ability { unbroken: Some(far), most: None });
    }
    None
}

/// The distance, stroke and time that a wish names.
fn wished(
    c: &Clause<'_, '_>,
    candidate: &mut Candidate,
) -> (Option<crate::message::Length>, Option<Stroke>, Option<Figure>) {
    let (mut far, mut time) = (None, None);
    for (at, piece) in c.pieces.iter().enumerate() {
        match piece.item {
            Item::Far(one) if far.is_none() => {
                far = c.length(one);
                candidate.used[at] = true;
            }
            Item::Figure(figure) => {
                let distance = figure.whole().filter(|value| {
                    matches!(
                        value,
                        50 | 100
                            | 200
                            | 400
                            | 500
                            | 750
                            | 800
                            | 1000
                            | 1500
                            | 1650
                            | 1900
                            | 3000
                            | 5000
                    )
                });
                if let (Some(amount), true) = (distance, far.is_none()) {
                    far = Some(crate::message::Length { amount, unit: None });
                } else if time.is_none() {
                    // `sub 27 for the 1500` is in minutes.
                    let minutes = figure
                        .whole()
                        .filter(|value| *value < 60 && far.is_none_or(|far| far.amount >= 600));
                    time =
                        Some(minutes.map_or(figure, |value| Figure::Whole {
                            value: value * 100,
                            places: 4,
                        }));
                } else {
                    continue;
                }
                candidate.used[at] = true;
            }
            Item::Span(span) if time.is_none() && span.seconds() >= 60.0 => {
                time =
                    Some(Figure::Whole { value: (span.seconds() / 60.0) as u32 * 100, places: 4 });
                candidate.used[at] = true;
            }
            _ => {}
        }
    }
    let stroke = c.stroke();
    for (at, piece) in c.pieces.iter().enumerate() {
        candidate.used[at] |= stroke_of(piece).is_some();
    }
    (far, stroke, time)
}

/// `race 1500 on 18 april`, `entered a 200 free in may`, `got a 1.5k ocean swim on the 22nd`.
fn race(c: &Clause<'_, '_>, candidate: &mut Candidate) -> Option<Kind> {
    if c.sit.role == Role::Coach {
        return None;
    }
    let named = c.has_any(&[Concept::Enter, Concept::Race, Concept::Meet]);
    let (at, day) = c.pieces.iter().enumerate().find_map(|(at, piece)| match piece.item {
        Item::Day(named) => Some((at, named)),
        _ => None,
    })?;
    let ahead = c.coming(day)?;
    let is_ahead = match day {
        Named::Day(
            Day::DayMonth(..) | Day::Slashed(..) | Day::Full(_) | Day::SlashedYear(..),
            _,
        )
        | Named::OfMonth(_)
        | Named::Month(_) => true,
        Named::Day(Day::On(_), _) => named,
        _ => false,
    };
    let (far, _, time) = wished(c, candidate);
    let distance = far?;
    let wants = c.has_any(&[Concept::Want, Concept::Goal]);
    if !(is_ahead && (named || wants || distance.amount >= 750) && c.past(day) != Some(Day::Today))
    {
        return None;
    }
    if c.has_any(&[Concept::Swam, Concept::Done]) && !named {
        return None;
    }
    candidate.used[at] = true;
    uses(
        c,
        candidate,
        &[
            Concept::Enter,
            Concept::Race,
            Concept::Meet,
            Concept::Want,
            Concept::Goal,
            Concept::Under,
            Concept::KitHave,
        ],
    );
    if let Named::Month(_) = day {
        return None;
    }
    let goal = time
        .and_then(|figure| c.time(figure, distance.amount, Stroke::Free, c.sit.own()))
        .map(|time| typed(time, false));
    Some(Kind::Race { distance, on: ahead, goal })
}

/// `want to go under 3:00 for the 200`.
fn goal(c: &Clause<'_, '_>, candidate: &mut Candidate) -> Option<Kind> {
    if !c.has_any(&[Concept::Want, Concept::Goal]) || c.sit.role == Role::Coach {
        return None;
    }
    let (far, stroke, time) = wished(c, candidate);
    let distance = far?;
    let time = c.time(time?, distance.amount, stroke.unwrap_or(Stroke::Free), c.sit.own())?;
    uses(
        c,
        candidate,
        &[Concept::Want, Concept::Goal, Concept::Under, Concept::Until, Concept::Done],
    );
    let mut by = None;
    for (at, piece) in c.pieces.iter().enumerate() {
        if let Item::Day(named) = piece.item {
            candidate.used[at] = true;
            by = by.or(c.last_of(named));
        }
    }
    Some(Kind::Goal { distance, stroke, time: typed(time, false), by })
}

/// `can only do wednesdays`, `3 days a week`, `45 min max`, `mon wed fri mornings`.
fn week(c: &Clause<'_, '_>, candidate: &mut Candidate) -> Option<Kind> {
    if results(c)
        && !c.pieces.iter().any(|piece| matches!(piece.item, Item::Figure(_) | Item::TimeOfDay(..)))
        || c.sit.role == Role::Coach
    {
        return None;
    }
    let mut days = Vec::new();
    let mut plural = false;
    for (at, piece) in c.pieces.iter().enumerate() {
        if let Item::Day(Named::Day(Day::On(weekday), _)) = piece.item {
            days.push(weekday);
            plural |= piece.is_every_week();
            candidate.used[at] = true;
        }
    }
    let minutes = c.pieces.iter().enumerate().find_map(|(at, piece)| match piece.item {
        Item::Span(time) if (900.0..=14_400.0).contains(&time.seconds()) => {
            candidate.used[at] = true;
            u16::try_from((time.seconds() / 60.0) as u32).ok()
        }
        _ => None,
    });
    let can = c.has_any(&[Concept::Can, Concept::Only, Concept::Max])
        || c.pieces.iter().any(|piece| matches!(piece.text, "works" | "suits"));
    let sessions =
        c.pieces.windows(3).find_map(|three| match (&three[0].item, &three[1], &three[2]) {
            (Item::Figure(Figure::Whole { value: value @ 1..=9, .. }), unit, per)
                if (unit.is(Sense::Unit(UnitWord::Day))
                    || unit.means(Concept::Session)
                    || unit.means(Concept::Times)
                    || unit.means(Concept::Swam))
                    && matches!(per.text, "a" | "per" | "por" | "a la") =>
            {
                u8::try_from(*value).ok()
            }
            _ => None,
        });
    if let Some(sessions) = sessions {
        for (at, piece) in c.pieces.iter().enumerate() {
            candidate.used[at] |= matches!(piece.item, Item::Figure(_))
                || piece.is(Sense::Unit(UnitWord::Day))
                || piece.is(Sense::Unit(UnitWord::Week))
                || piece.means(Concept::Session)
                || piece.means(Concept::Can);
        }
        return Some(Kind::Profile(ProfileChange {
            sessions: Some(sessions),
            minutes,
            ..ProfileChange::default()
        }));
    }
    uses(
        c,
        candidate,
        &[Concept::Can, Concept::Only, Concept::Max, Concept::Session, Concept::Swam],
    );
    let week = days.len() >= 2 && can || days.len() == 1 && plural && can;
    if !days.is_empty() && week {
        let minutes = minutes.or_else(|| window(c, candidate));
        return Some(Kind::Profile(ProfileChange { days, minutes, ..ProfileChange::default() }));
    }
    let today =
        c.pieces.iter().any(|piece| matches!(piece.item, Item::Day(Named::Day(Day::Today, _))));
    if days.is_empty()
        && minutes.is_some()
        && (c.has(Concept::Max) || can)
        && c.len() <= 8
        && !today
    {
        return Some(Kind::Profile(ProfileChange { minutes, ..ProfileChange::default() }));
    }
    None
}

/// `5.45 to 7`, `6 to 7am`: minutes between two times of day.
fn window(c: &Clause<'_, '_>, candidate: &mut Candidate) -> Option<u16> {
    let mut times = Vec::new();
    for (at, piece) in c.pieces.iter().enumerate() {
        let time = match piece.item {
            Item::TimeOfDay(hour, minute) => Some((hour, minute)),
            Item::Figure(figure) => figure.day_time(),
            _ => None,
        };
        if let Some((hour, minute)) = time {
            times.push(u16::from(hour) * 60 + u16::from(minute));
            candidate.used[at] = true;
        }
    }
    let [from, to] = times[..] else { return None };
    to.checked_sub(from).filter(|minutes| (15..=240).contains(minutes))
}

/// `my pool is 50m`, `using the 50m pool from april`.
fn pool(c: &Clause<'_, '_>, candidate: &mut Candidate) -> Option<Kind> {
    if c.sit.role == Role::Coach
        || !c.has(Concept::Water)
        || c.has_any(&[Concept::Shut, Concept::Swam, Concept::Done])
    {
        return None;
    }
    let course = c.pieces.iter().enumerate().find_map(|(at, piece)| {
        let course = match piece.item {
            Item::Far(Far::Of(50, unit)) if unit != Some(Unit::Yard) => Some(Course::Long50m),
            Item::Far(Far::Of(25, Some(Unit::Yard))) => Some(Course::Short25yd),
            Item::Far(Far::Of(25, _)) => Some(Course::Short25m),
            _ => piece.sense(|sense| match sense {
                Sense::Course(course) => Some(*course),
                _ => None,
            }),
        };
        course.inspect(|_| candidate.used[at] = true)
    })?;
    uses(c, candidate, &[Concept::My, Concept::Water]);
    Some(Kind::Profile(ProfileChange { course: Some(course), ..ProfileChange::default() }))
}

/// `yards please`, `say it in metres`.
fn units(c: &Clause<'_, '_>, candidate: &mut Candidate) -> Option<Kind> {
    let unit = c.pieces.iter().enumerate().find_map(|(at, piece)| {
        piece.sense(|sense| match sense {
            Sense::Unit(UnitWord::Metre) => Some((at, Unit::Metre)),
            Sense::Unit(UnitWord::Yard) => Some((at, Unit::Yard)),
            _ => None,
        })
    });
    let speaks = c.has_any(&[Concept::In, Concept::Give, Concept::Tell])
        || c.pieces
            .iter()
            .any(|piece| matches!(piece.text, "distances" | "units" | "use" | "usa" | "unidades"));
    let (at, unit) = unit.filter(|_| {
        speaks
            && c.len() <= 8
            && !c.pieces.iter().any(|piece| matches!(piece.item, Item::Figure(_) | Item::Far(_)))
    })?;
    candidate.used[at] = true;
    Some(Kind::Profile(ProfileChange { units: Some(unit), ..ProfileChange::default() }))
}

/// A goal or a race without its distance, time or day: asks.
pub fn unfinished(c: &Clause<'_, '_>) -> Vec<Candidate> {
    let raced = c.has_any(&[Concept::Enter]) && c.has_any(&[Concept::Race, Concept::Meet]);
    if !raced || c.sit.role == Role::Coach || super::mood::is_question(c) {
        return vec![];
    }
    let mut candidate = Candidate::new("race", c.len());
    if race(c, &mut candidate).is_some() {
        return vec![];
    }
    candidate.used.fill(true);
    vec![candidate.asking(Doubt::Missing { wants: Wants::Distance }, vec![]).at_cost(1.2)]
}
