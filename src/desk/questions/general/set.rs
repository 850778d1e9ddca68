//! The set of a night: how far and how long it is, what is to be held in it, with what kit.

use jiff::civil::Date;

use super::told;
use super::whom::{self, names};
use crate::coaching;
use crate::coaching::evening::for_swimmer;
use crate::desk::board::set_by_clock::clock;
use crate::desk::decision::desk::Desk;
use crate::desk::decision::refusing::Stopped;
use crate::desk::decision::view::View;
use crate::desk::evening::tonight::Tonight;
use crate::desk::questions;
use crate::desk::questions::about::known;
use crate::desk::questions::swimmer::other;
use crate::history::Right;
use crate::message::{Day, Name, Of, Question, Statement};
use crate::reply::{Answer, HoldLine, Known, Outcome, TotalLine, Unknown};
use crate::session::{Repeat, Session};
use crate::units::{Centis, Distance, Equipment, SendOff};

/// The night that a question is of.
fn night(view: &View<'_>, asked: &Question) -> Date {
    let ahead = asked.on.and_then(|typed| view.night_meant(Some(typed)));
    let on = ahead.or_else(|| whom::past(view, asked.on));
    on.unwrap_or_else(|| view.night_shown())
}

fn no_set(on: Date) -> Outcome {
    known(Known::Not(Unknown::Set { on }))
}

/// The sessions of a night that a question is about, each with its lane; the sender's own
/// version, or that of the one who is named.
fn sessions(
    desk: &Desk<'_>,
    asked: &Question,
    tonight: &Tonight,
) -> Result<Vec<(Option<u8>, Session)>, Stopped> {
    let all = matches!(asked.of, Of::All | Of::Lanes(_));
    if all && desk.may(Right::RunEvening) {
        let of = |lane: u8| match &asked.of {
            Of::Lanes(lanes) => lanes.contains(&lane),
            _ => true,
        };
        let lanes = tonight.kept.swum().filter(|lane| of(lane.lane.number()));
        return Ok(lanes
            .filter_map(|lane| Some((Some(lane.lane.number()), desk.shown(lane.session.as_ref()?))))
            .collect());
    }
    let who = match &asked.of {
        Of::Named(_) | Of::Sender => names(desk, asked)?.into_iter().next(),
        Of::Lanes(_) | Of::All => desk.me().cloned(),
    };
    Ok(match who {
        Some(who) => own(desk, tonight, &who).map(|one| (None, one)).into_iter().collect(),
        None => vec![],
    })
}

/// Somebody's version of a night's set.
fn own(view: &View<'_>, tonight: &Tonight, who: &Name) -> Option<Session> {
    let lane = tonight.kept.lane_of(who).and_then(|lane| lane.session_of(who));
    let version = lane.or_else(|| tonight.kept.middle())?;
    let facts = view.facts(who)?;
    for_swimmer(view.asked.book, version, &facts, tonight.booking.course).ok()
}

/// `how far was that altogether`, `how long will it take`
pub fn total(desk: &mut Desk<'_>, asked: &Question) -> Result<Option<Outcome>, Stopped> {
    let on = night(desk, asked);
    let tonight = desk.tonight(on);
    if !tonight.kept.has_set() {
        return Ok(Some(no_set(on)));
    }
    let line = |(lane, session): &(Option<u8>, Session)| TotalLine {
        lane: *lane,
        amount: session.amount(),
        unit: session.unit,
        minutes: session.duration_s().div_ceil(60),
        ends: desk.ends(&tonight.booking, session),
    };
    let sessions = sessions(desk, asked, &tonight)?;
    let mut lanes: Vec<TotalLine> = sessions.iter().map(line).collect();
    // Where all swim alike, once is enough.
    let bare = |line: &TotalLine| TotalLine { lane: None, ..*line };
    if lanes.len() > 1 && lanes.array_windows().all(|[one, next]| bare(one) == bare(next)) {
        lanes.truncate(1);
        lanes.iter_mut().for_each(|line| *line = bare(line));
    }
    Ok((!lanes.is_empty()).then(|| told(Answer::Total { on, lanes })))
}

/// The lines of a set that are timed: its main lines, or the one over a distance.
fn timed(session: &Session, asked: &Question) -> Vec<(u16, Repeat)> {
    let fits =
        |line: &Repeat| asked.length.is_none_or(|length| length.amount == line.distance.amount());
    let lines = session.main_lines().filter(|(_, line)| fits(line));
    lines.map(|(count, line)| (u16::try_from(count).unwrap_or(u16::MAX), line.clone())).collect()
}

/// `what are lane 3 meant to hold`, `what should wren do in each 50`
pub fn hold(desk: &mut Desk<'_>, asked: &Question) -> Result<Option<Outcome>, Stopped> {
    let on = night(desk, asked);
    let lines: Vec<HoldLine> =
        lines_to_hold(desk, asked, on)?.into_iter().filter(|line| line.hold.is_some()).collect();
    Ok((!lines.is_empty()).then(|| told(Answer::Hold { on, lines })))
}

/// What each lane, or somebody, holds on what send-off that night; without a set the
/// times that their tests say.
fn lines_to_hold(desk: &Desk<'_>, asked: &Question, on: Date) -> Result<Vec<HoldLine>, Stopped> {
    if let Of::Named(many) = &asked.of
        && many.len() > 1
    {
        let mut lines = Vec::new();
        for one in many {
            let of = Of::Named(vec![one.clone()]);
            lines.extend(lines_to_hold(desk, &Question { of, ..asked.clone() }, on)?);
        }
        return Ok(lines);
    }
    let tonight = desk.tonight(on);
    let who = match &asked.of {
        Of::Named(_) | Of::Sender => names(desk, asked)?.into_iter().next(),
        _ => None,
    };
    let label = who.clone().and_then(|who| other(desk, who));
    let target = |distance: Distance| match &who {
        Some(who) => coaching::targets(&desk.facts(who)?, &[distance]).first().map(|one| one.time),
        None => None,
    };
    let mut lines = Vec::new();
    for (lane, session) in sessions(desk, asked, &tonight)? {
        for (count, line) in timed(&session, asked) {
            lines.push(HoldLine {
                lane,
                who: label.clone(),
                count: Some(count),
                distance: line.distance.amount(),
                hold: line
                    .target
                    .or_else(|| target(line.distance))
                    .or_else(|| slowest(desk, &tonight, lane?, line.distance)),
                on: line.send_off,
            });
        }
    }
    Ok(lines)
}

/// The time that the slowest of a lane can hold, by their tests.
fn slowest(view: &View<'_>, tonight: &Tonight, lane: u8, distance: Distance) -> Option<Centis> {
    let swimmers = &tonight.kept.lane(lane)?.swimmers;
    let of = |who: &Name| {
        coaching::targets(&view.facts(who)?, &[distance]).first().map(|target| target.time)
    };
    swimmers.iter().filter_map(of).max()
}

/// `how much rest has lane 1`, `is 1:05 too tight for puffin`
pub fn rest(desk: &mut Desk<'_>, asked: &Question) -> Result<Option<Outcome>, Stopped> {
    let on = night(desk, asked);
    let mut times: Vec<Centis> =
        asked.times.iter().filter_map(|all| all.first()).copied().collect();
    // Of somebody, or of a lane, each time is a send-off, and the first is asked about.
    if matches!(asked.of, Of::Named(_) | Of::Lanes(_)) {
        times.truncate(1);
    }
    times.sort();
    let send_off = |time: &Centis| SendOff::new(time.hundredths() / 100).ok();
    let mut lines = match times.as_slice() {
        // `48 on 1:05` says it all.
        [hold, .., leave] => vec![HoldLine {
            lane: None,
            who: None,
            count: None,
            distance: asked.length.map_or(0, |length| length.amount),
            hold: Some(*hold),
            on: send_off(leave),
        }],
        [leave] => {
            let mut lines = lines_to_hold(desk, asked, on)?;
            lines.iter_mut().for_each(|line| line.on = send_off(leave));
            lines
        }
        [] => lines_to_hold(desk, asked, on)?,
    };
    lines.retain(|line| line.on.is_some());
    Ok((!lines.is_empty()).then(|| told(Answer::Rest { lines })))
}

/// `do i need fins tonight`
pub fn kit(desk: &mut Desk<'_>, asked: &Question) -> Result<Option<Outcome>, Stopped> {
    let on = night(desk, asked);
    let tonight = desk.tonight(on);
    if !tonight.kept.has_set() {
        return Ok(Some(no_set(on)));
    }
    let mut kit: Vec<Equipment> = Vec::new();
    for (_, session) in sessions(desk, asked, &tonight)? {
        let lines = session.blocks.iter().flat_map(|block| &block.repeats);
        kit.extend(lines.flat_map(|line| line.equipment.iter().copied()));
    }
    kit.sort();
    kit.dedup();
    Ok(Some(told(Answer::Kit { on, asked: asked.kit.clone(), kit })))
}

/// `have we time for another 4x50 before the swim down`
pub fn room(desk: &mut Desk<'_>, asked: &Question) -> Result<Option<Outcome>, Stopped> {
    desk.demand(Right::RunEvening)?;
    let on = desk.evening();
    let tonight = desk.tonight(on);
    let (Some(count), Some(each)) = (asked.repeats, asked.length) else { return Ok(None) };
    let sessions = sessions(desk, asked, &tonight)?;
    let said = asked.times.iter().flatten().next();
    let said = said.and_then(|time| SendOff::new(time.hundredths() / 100).ok());
    let set = sessions.iter().flat_map(|(_, session)| timed(session, asked));
    let Some(leave) = said.or_else(|| set.filter_map(|(_, line)| line.send_off).max()) else {
        return Ok(None);
    };
    let takes_s = u32::from(count) * leave.seconds();
    let longest = sessions.iter().map(|(_, session)| session.duration_s()).max();
    let booked = u32::from(tonight.booking.minutes) * 60;
    let by = longest.unwrap_or_default().max(tonight.swum_s());
    let ends = clock(desk, &tonight).lanes.iter().filter_map(|lane| lane.ends).max();
    Ok(Some(told(Answer::Room {
        count,
        distance: each.amount,
        on: leave,
        takes_s,
        ends,
        left_s: booked.saturating_sub(by),
    })))
}

/// `whats on monday`: the set, where one is written, else when it is.
pub fn evening(
    desk: &mut Desk<'_>,
    statement: &Statement,
    asked: &Question,
) -> Result<Outcome, Stopped> {
    let on = night(desk, asked);
    match on < desk.evening() || desk.tonight(on).kept.has_set() {
        true => questions::evening::set_of(desk, &whom::of(statement, asked), Some(Day::Full(on))),
        false => questions::evening::when(desk, asked.on),
    }
}
