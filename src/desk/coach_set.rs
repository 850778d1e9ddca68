//! A set in trade notation: the coach's for the squad, a swimmer's for herself.

use jiff::civil::Date;
use jiff::{Timestamp, ToSpan};

use super::bench::{Desk, Stopped, refused};
use super::evening::{Booking, Drawn};
use super::resolve;
use super::results::facts;
use super::sessions::refusal;
use super::set_blocks;
use crate::coaching::evening::{
    Hold, LaneSet, WrittenBlock, WrittenLine, for_lane, for_swimmer, shortened, swims_gently,
    with_own_targets,
};
use crate::coaching::is_hard;
use crate::message::{Effort, Name, SetItem, SetPiece, Statement, TypedSet};
use crate::profile::{Event, LaneKept, Right, SetSource, SquadSet};
use crate::reply::{
    CautionKind, EveningReply, LaneReply, Outcome, OwnTargets, RefusedWhy, SessionReply, TooLong,
};
use crate::session::{Part, Session};
use crate::units::{Course, Level, Stroke};

/// `set tue 4x50 easy, 8x50 on 1:15 hold 200 pace, 4x25 swim down`
pub fn set(desk: &mut Desk<'_>, statement: &Statement, set: &TypedSet) -> Result<Outcome, Stopped> {
    match statement.who.is_none() && desk.may(Right::RunEvening) {
        true => for_squad(desk, set),
        false => for_one(desk, statement, set),
    }
}

/// The coach's own set becomes the set of the night.
fn for_squad(desk: &mut Desk<'_>, set: &TypedSet) -> Result<Outcome, Stopped> {
    if let Some(name) = named_in(desk, set) {
        return Err(refused("set_names", RefusedWhy::SetNames { name }));
    }
    let on = night_of(desk, set)?;
    let booking = desk.booking(on);
    let lanes = by_lane(desk, on, &booking, set)?;
    Ok(put(desk, on, SetSource::Written(set.clone()), &booking, lanes))
}

/// A swimmer whose handle stands in a set as if it were a cue: `400 heron 650` is
/// a result that was put wrong, and must not become everybody's set.
fn named_in(desk: &Desk<'_>, set: &TypedSet) -> Option<Name> {
    let pieces = set.lines.iter().flat_map(|line| &line.pieces);
    let items = pieces.flat_map(|piece| match piece {
        SetPiece::Item(item) => vec![item],
        SetPiece::Rounds(rounds) => set_blocks::flat(&rounds.pieces),
    });
    let named = |comment: &String| Name::new(comment.trim()).ok();
    items
        .filter_map(|item| item.comment.as_ref().and_then(named))
        .find(|name| desk.squad.swimmers.contains_key(name))
}

/// The set as each lane of the night swims it.
///
/// # Errors
/// A refusal for a distance that is no whole lengths of the pool.
pub fn by_lane(
    desk: &Desk<'_>,
    on: Date,
    booking: &Booking,
    set: &TypedSet,
) -> Result<Vec<(Drawn, LaneSet)>, Stopped> {
    let written = written(set, booking.course)?;
    let lanes = desk.drawn(on).into_iter().filter_map(|drawn| {
        let facts = desk.facts_of(&drawn, booking.course);
        let lane = for_lane(&written, &facts.iter().collect::<Vec<_>>(), booking.course, on)?;
        Some((drawn, lane))
    });
    Ok(lanes.collect())
}

/// Puts a set in force for the night, and tells it by lanes.
pub fn put(
    desk: &mut Desk<'_>,
    on: Date,
    source: SetSource,
    booking: &Booking,
    lanes: Vec<(Drawn, LaneSet)>,
) -> Outcome {
    let begun = begins_late(desk, on, booking);
    let set = kept(on, source, begun, &lanes);
    desk.record(Event::SquadSetPut { set: set.clone() });
    // It is kept as it was written, and told without what the squad leaves out.
    let told = desk.within_squad(set).lanes.into_iter().map(|lane| lane.session);
    let booking = &desk.booking(on);
    let lanes = lanes.into_iter().zip(told).map(|((drawn, lane), session)| {
        lane_reply(desk, booking, drawn, LaneSet { session, ..lane })
    });
    let lanes: Vec<LaneReply> = lanes.collect();
    Outcome::Evening(EveningReply {
        on,
        minutes: booking.minutes,
        without: desk.left_out_by_squad(lanes.iter().map(|lane| &lane.session)),
        lanes,
        in_room: desk.asked.room.is_some(),
    })
}

/// A set sent so soon after another is that one put right, and no other (ours).
const PUT_RIGHT_MIN: i64 = 5;

/// When a set that is put now begins, if the night has begun before it: now, or
/// when the one did that it puts right.
fn begins_late(desk: &Desk<'_>, on: Date, booking: &Booking) -> Option<Timestamp> {
    let now = desk.now();
    let before = desk.squad.sets.latest_on(on, now);
    let put_right = before
        .filter(|before| before.at >= now.saturating_sub(PUT_RIGHT_MIN.minutes()).unwrap_or(now));
    match put_right {
        Some(before) => before.what.begun,
        None => Some(now).filter(|_| booking.minutes_left(now).is_some()),
    }
}

/// The set of the night as it stands, by lanes.
pub fn in_force(desk: &Desk<'_>) -> Result<Outcome, Stopped> {
    of_night(desk, desk.night_meant(None).unwrap_or(desk.evening()))
}

/// The set of a night as it stands, or as it was swum, by lanes.
pub fn of_night(desk: &Desk<'_>, on: Date) -> Result<Outcome, Stopped> {
    let set = desk.set_in_force(on);
    let set = set.ok_or_else(|| refused("no_set", RefusedWhy::NoSetYet))?;
    let booking = desk.booking(on);
    let lanes = set.lanes.iter().map(|kept| LaneReply {
        lane: kept.lane,
        swimmers: kept.swimmers.clone(),
        session: kept.session.clone(),
        ends: desk.ends(&booking, &kept.session),
        tight: Vec::new(),
        beyond: Vec::new(),
        targets: Vec::new(),
        too_long: too_long(&booking, &kept.session),
    });
    let without = desk.left_out_by_squad(set.lanes.iter().map(|lane| &lane.session));
    Ok(Outcome::Evening(EveningReply {
        on,
        without,
        minutes: booking.minutes,
        lanes: lanes.collect(),
        in_room: desk.asked.room.is_some(),
    }))
}

/// The set as it is kept.
pub fn kept(
    on: Date,
    source: SetSource,
    begun: Option<Timestamp>,
    lanes: &[(Drawn, LaneSet)],
) -> SquadSet {
    let lanes = lanes.iter().map(|(drawn, lane)| LaneKept {
        lane: drawn.lane,
        swimmers: drawn.swimmers.iter().map(|(name, _)| name.clone()).collect(),
        session: lane.session.clone(),
    });
    SquadSet { on, source: Some(source), begun, lanes: lanes.collect() }
}

/// A swimmer's own set: her times to hold and her send-offs, stored nowhere.
fn for_one(desk: &Desk<'_>, statement: &Statement, set: &TypedSet) -> Result<Outcome, Stopped> {
    let who = desk.subject(statement)?;
    let facts = facts(desk, &who)?;
    let on = night_of(desk, set)?;
    let lane = for_lane(&written(set, facts.course)?, &[&facts], facts.course, on);
    let lane = lane.ok_or_else(|| refused("nothing", RefusedWhy::Nothing))?;
    let session = for_swimmer(desk.asked.book, &lane.session, &facts, facts.course);
    let session = session.map_err(refusal)?;
    let caution = is_hard(&session).then_some(CautionKind::Effort);
    Ok(Outcome::Session(SessionReply {
        session,
        caution,
        lane: None,
        on_squad_night: false,
        changed: None,
        waits: None,
        after_yes: false,
    }))
}

/// The night a set is for: as said, else tonight or the next.
fn night_of(desk: &Desk<'_>, set: &TypedSet) -> Result<Date, Stopped> {
    match set.on {
        Some(day) => desk.night_from_now(day),
        None => Ok(desk.night_meant(None).unwrap_or(desk.evening())),
    }
}

/// One lane of the set as it is told.
fn lane_reply(desk: &Desk<'_>, booking: &Booking, drawn: Drawn, lane: LaneSet) -> LaneReply {
    let LaneSet { session, tight, beyond } = lane;
    let gentle = |facts: &_| swims_gently(desk.asked.book, facts);
    let timed = drawn.swimmers.iter().filter(|(_, facts)| !gentle(facts));
    let targets = timed.map(|(name, facts)| {
        let own = with_own_targets(&session, facts, booking.course);
        let lines = own.blocks.into_iter().flat_map(|block| block.repeats);
        let lines = lines.filter(|line| line.aim.is_some() && line.target.is_some());
        OwnTargets { swimmer: name.clone(), lines: lines.collect() }
    });
    LaneReply {
        lane: drawn.lane,
        targets: targets.filter(|own| !own.lines.is_empty()).collect(),
        swimmers: drawn.swimmers.iter().map(|(name, _)| name.clone()).collect(),
        ends: desk.ends(booking, &session),
        too_long: too_long(booking, &session),
        session,
        tight,
        beyond,
    }
}

/// What of `session` is more than the booking holds.
fn too_long(booking: &Booking, session: &Session) -> Option<TooLong> {
    let booked_s = u32::from(booking.minutes) * 60;
    let by_s = session.duration_s().checked_sub(booked_s).filter(|over| *over > 0)?;
    let shorter = shortened(session, 0, booked_s);
    Some(TooLong { by_s, fits: shorter.fits && shorter.keeps_purpose, without: shorter.given_up })
}

/// The set as blocks with gaps.
///
/// # Errors
/// A refusal for a distance that is no whole lengths of the pool.
fn written(set: &TypedSet, course: Course) -> Result<Vec<WrittenBlock>, Stopped> {
    let mut blocks: Vec<WrittenBlock> = Vec::new();
    for (part, piece) in with_parts(set) {
        let (rounds, rest, items) = match piece {
            SetPiece::Item(item) => (1, None, vec![item]),
            SetPiece::Rounds(rounds) => {
                (rounds.times, rounds.rest, set_blocks::flat(&rounds.pieces))
            }
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

/// Each piece with the part it plays: as named, else easy swims before and after
/// all others are warm-up and swim-down, drills are drills, the rest is the main
/// set.
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
        false => pieces[before..].iter().rev().take_while(easy).count().min(most),
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
