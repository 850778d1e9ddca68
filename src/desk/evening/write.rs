//! The set of a night as its lanes swim it, from what it is written from: our
//! plan, or what the coach wrote.

use std::collections::BTreeMap;

use super::set_blocks::flat;
use super::tonight::Tonight;
use crate::coaching::Facts;
use crate::coaching::evening::{
    Hold, Night, NightWish, Swims, What, WrittenBlock, WrittenLine, changed, for_lane, for_night,
    line_in_question,
};
use crate::desk::decision::refusing::{Stopped, refusal, refused};
use crate::desk::decision::resolve;
use crate::desk::decision::view::View;
use crate::history::{LaneKept, SendOffSaid, SetSource};
use crate::message::{
    Effort, ForLanes, Name, PlanWish, Scope, SetItem, SetPiece, TypedSet, WeekKind,
};
use crate::reply::RefusedWhy;
use crate::session::{Part, Session};
use crate::units::{Course, Level, Stroke};

/// The session of each lane, by its number.
///
/// # Errors
/// Where the minutes hold no session, or a distance is no whole lengths.
pub fn sessions(
    view: &View<'_>,
    tonight: &Tonight,
    source: &SetSource,
) -> Result<BTreeMap<u8, Session>, Stopped> {
    match source {
        SetSource::Planned(wish) => planned(view, tonight, wish),
        SetSource::Written(set) => by_lane(view, tonight, set),
    }
}

/// The lanes that a session is written for: those that someone swims in.
fn swum(tonight: &Tonight) -> Vec<&LaneKept> {
    tonight.kept.swum().collect()
}

fn planned(
    view: &View<'_>,
    tonight: &Tonight,
    wish: &PlanWish,
) -> Result<BTreeMap<u8, Session>, Stopped> {
    let booking = tonight.booking;
    let lanes = swum(tonight);
    let facts: Vec<Vec<Facts>> =
        lanes.iter().map(|lane| view.facts_of(&lane.swimmers, &booking)).collect();
    let before: Vec<Session> = view
        .squad
        .sets_before(tonight.on, view.now())
        .into_iter()
        .filter_map(|evening| evening.middle().cloned())
        .collect();
    let called = view.squad.test_night_called(view.now());
    let night = Night {
        on: tonight.on,
        minutes: wish.minutes.unwrap_or(booking.minutes),
        course: booking.course,
        wish: match wish.week {
            Some(WeekKind::Easy) => NightWish::Easy,
            Some(WeekKind::Hard) => NightWish::Hard,
            Some(WeekKind::Normal) | None => NightWish::Any,
        },
        before: before.iter().collect(),
        lanes: facts.iter().map(|lane| lane.iter().collect()).collect(),
        gap: tonight.kept.gap,
        test: called.filter(|called| called.on == tonight.on).map(|called| called.what),
    };
    let sessions = for_night(view.asked.book, &night).map_err(refusal)?;
    Ok(lanes.iter().map(|lane| lane.lane.number()).zip(sessions).collect())
}

/// The coach's set as each lane of the night swims it.
fn by_lane(
    view: &View<'_>,
    tonight: &Tonight,
    set: &TypedSet,
) -> Result<BTreeMap<u8, Session>, Stopped> {
    let booking = tonight.booking;
    let written = written(set, booking.course)?;
    let lanes = swum(tonight).into_iter().filter_map(|lane| {
        let number = lane.lane.number();
        let session = tonight.with_swims(view, &lane.swimmers, |swims| {
            let session = for_lane(&written, swims, tonight.on)?;
            let own = set.lanes.iter().filter(|own| own.lanes.contains(&number));
            Some(own.fold(session, |session, own| of_lane(session, swims, own)))
        });
        Some((number, session?))
    });
    Ok(lanes.collect())
}

/// The set with what a lane swims otherwise of its main line.
fn of_lane(session: Session, swims: &Swims<'_>, own: &ForLanes) -> Session {
    let whats = [own.count.map(What::Count), own.send_off.map(What::SendOff)];
    whats.into_iter().flatten().fold(session, |session, what| {
        let otherwise = changed(&session, 0, swims, Scope::Main, &what);
        otherwise.map_or(session, |otherwise| otherwise.session)
    })
}

/// The send-offs that a coach's set says for some lanes alone.
pub fn said_for_lanes(tonight: &Tonight, set: &TypedSet) -> Vec<SendOffSaid> {
    let said = |own: &ForLanes, number: u8| {
        let kept = tonight.kept.lane(number)?;
        let line = line_in_question(kept.session.as_ref()?, 0)?;
        Some(SendOffSaid { lane: Some(kept.lane), distance: line.distance, on: own.send_off? })
    };
    let own = set.lanes.iter();
    own.flat_map(|own| own.lanes.iter().filter_map(|number| said(own, *number))).collect()
}

/// The send-offs that a coach's set says, for all lanes.
pub fn said_in(set: &TypedSet, course: Course) -> Vec<SendOffSaid> {
    let pieces = set.lines.iter().flat_map(|line| &line.pieces);
    let items = pieces.flat_map(|piece| match piece {
        SetPiece::Item(item) => vec![item],
        SetPiece::Rounds(rounds) => flat(&rounds.pieces),
    });
    let said = items.filter_map(|item| {
        let distance = resolve::distance(item.distance, course)?;
        Some(SendOffSaid { lane: None, distance, on: item.send_off? })
    });
    said.collect()
}

/// A swimmer whose handle stands in a set as if it were a cue: `400 heron 650` is a
/// mistyped result, and must not become everybody's set.
pub fn named_in(view: &View<'_>, set: &TypedSet) -> Option<Name> {
    let pieces = set.lines.iter().flat_map(|line| &line.pieces);
    let items = pieces.flat_map(|piece| match piece {
        SetPiece::Item(item) => vec![item],
        SetPiece::Rounds(rounds) => flat(&rounds.pieces),
    });
    let named = |comment: &String| Name::new(comment.trim()).ok();
    items
        .filter_map(|item| item.comment.as_ref().and_then(named))
        .find(|name| view.squad.swimmers.contains_key(name))
}

/// The set as blocks with gaps.
///
/// # Errors
/// A refusal for a distance that is no whole lengths of the pool.
pub fn written(set: &TypedSet, course: Course) -> Result<Vec<WrittenBlock>, Stopped> {
    let mut blocks: Vec<WrittenBlock> = Vec::new();
    for (part, piece) in with_parts(set) {
        let (rounds, rest, items) = match piece {
            SetPiece::Item(item) => (1, None, vec![item]),
            SetPiece::Rounds(rounds) => (rounds.times, rounds.rest, flat(&rounds.pieces)),
        };
        let lines: Vec<WrittenLine> =
            items.into_iter().map(|item| line(item, course)).collect::<Result<_, _>>()?;
        let joins = matches!(piece, SetPiece::Item(_));
        match blocks.last_mut().filter(|last| joins && last.part == part && last.rounds == 1) {
            Some(last) => last.lines.extend(lines),
            None => blocks.push(WrittenBlock { part, rounds, lines, rest }),
        }
    }
    Ok(blocks)
}

fn line(item: &SetItem, course: Course) -> Result<WrittenLine, Stopped> {
    let no_lengths = || refused("distance", RefusedWhy::Distance);
    let distance = resolve::distance(item.distance, course).filter(|one| one.fits(course));
    let hold = match (item.target, item.pace_of) {
        (Some(time), _) => Hold::Time(time),
        (None, Some(test)) => {
            Hold::TestPace(resolve::distance(test, course).ok_or_else(no_lengths)?)
        }
        (None, None) => Hold::AsLevel,
    };
    let best = item.effort.contains(&Effort::BestAverage);
    Ok(WrittenLine {
        count: item.count,
        distance: distance.ok_or_else(no_lengths)?,
        stroke: item.stroke.unwrap_or(Stroke::Free),
        send_off: item.send_off,
        rest: item.rest,
        hold,
        level: item.level.or(best.then_some(Level::Hard)),
        equipment: item.equipment.clone(),
        cue: item.comment.clone(),
    })
}

/// Each piece with its part: as named; else easy swims at the start are the warm-up,
/// those at the end the swim-down, drills are drills, and the rest is the main set.
fn with_parts(set: &TypedSet) -> Vec<(Part, &SetPiece)> {
    let pieces: Vec<(Option<Part>, &SetPiece)> = set
        .lines
        .iter()
        .flat_map(|line| line.pieces.iter().map(|piece| (line.part, piece)))
        .collect();
    let easy = |(part, piece): &&(Option<Part>, &SetPiece)| part.is_none() && is_easy(piece);
    let named = |part| pieces.iter().any(|one| one.0 == Some(part));
    // Where all is easy, the first is the warm-up and the last the swim-down.
    let most = match pieces.iter().all(|one| easy(&one)) {
        true => usize::from(pieces.len() > 1),
        false => pieces.len(),
    };
    let before = match named(Part::WarmUp) {
        true => 0,
        false => pieces.iter().take_while(easy).count().min(most),
    };
    let after = match named(Part::SwimDown) {
        true => 0,
        false => pieces.iter().skip(before).rev().take_while(easy).count().min(most),
    };
    let from = pieces.len() - after;
    pieces
        .iter()
        .enumerate()
        .map(|(at, (part, piece))| {
            let by_place = match piece {
                _ if at < before => Part::WarmUp,
                _ if at >= from => Part::SwimDown,
                SetPiece::Item(item) if item.stroke == Some(Stroke::Drill) => Part::Drill,
                SetPiece::Item(item)
                    if item.effort.contains(&Effort::Build) && item.target.is_none() =>
                {
                    Part::Build
                }
                _ => Part::Main,
            };
            (part.unwrap_or(by_place), *piece)
        })
        .collect()
}

/// Nothing in it asks for more than swimming.
fn is_easy(piece: &SetPiece) -> bool {
    let SetPiece::Item(item) = piece else { return false };
    let unsaid = item.level.is_none()
        && item.target.is_none()
        && item.pace_of.is_none()
        && item.send_off.is_none()
        && item.rest.is_none()
        && item.effort.is_empty()
        && item.equipment.is_empty();
    let whole = !matches!(item.stroke, Some(Stroke::Kick | Stroke::Drill | Stroke::Pull));
    item.level == Some(Level::Easy) || (unsaid && whole)
}
