//! Tonight's set changed while it is swum: one reply with all lanes.

use jiff::civil::Time;

use super::outcomes::ends;
use super::tonight::Tonight;
use super::write::written;
use crate::coaching::evening::{
    What, before_main_s, changed, ending_at, line_in_question, shortened,
};
use crate::desk::decision::desk::Desk;
use crate::desk::decision::refusing::{Stopped, refused};
use crate::desk::decision::resolve;
use crate::desk::decision::view::View;
use crate::desk::known::booking::NIGHT_S;
use crate::desk::plans::sessions;
use crate::history::{EveningBy, LaneKept, Right, SendOffSaid};
use crate::message::{Cut, Edit, EditWhat, Length, Name, Scope};
use crate::reply::{ChangedReply, LaneChange, OkReply, Outcome, RefusedWhy};
use crate::session::{Part, Repeat, Session};
use crate::units::SendOff;

/// `12 left`, `L1 make it 6`, `L2 on 1:15`, `skip last round`
pub fn cut(desk: &mut Desk<'_>, cut: &Cut) -> Result<Outcome, Stopped> {
    desk.demand(Right::RunEvening)?;
    let cut = &until_the_end(desk, cut)?;
    let mut steps = Vec::new();
    let mut step = |place, what| {
        let lanes = cut.lane.into_iter().collect();
        steps.push(Step { lanes, names: Vec::new(), place, what });
    };
    if cut.skip_round {
        step(Scope::Main, What::SkipRound);
    }
    // What fits is told of the repeats as they are to be, on the send-off that they have then.
    if let Some(on) = cut.send_off {
        step(Scope::Main, What::SendOff(on));
    }
    if let Some(count) = cut.count {
        step(Scope::Main, What::Count(count));
    }
    let left = cut.minutes_left.map(|minutes| (cut.lane, minutes));
    take(desk, &steps, left)
}

/// `a bit easier tonight`: the main set of each lane a step easier, shorter or harder, by its
/// repeats: a quarter fewer or more, at least one (common practice, no source), and no slower
/// swim.
pub fn stepped(desk: &mut Desk<'_>, step: sessions::Step) -> Result<Outcome, Stopped> {
    desk.demand(Right::RunEvening)?;
    let tonight = desk.tonight(desk.night_shown());
    let of_lane = |lane: &LaneKept| {
        let session = lane.session.as_ref()?;
        let count = line_in_question(session, elapsed(&tonight, session))?.count;
        let quarter = count.div_ceil(4);
        let count = match step {
            sessions::Step::Shorter | sessions::Step::Easier => {
                count.saturating_sub(quarter).max(1)
            }
            sessions::Step::Harder => count.saturating_add(quarter),
        };
        let lanes = vec![lane.lane.number()];
        Some(Step { lanes, names: Vec::new(), place: Scope::Main, what: What::Count(count) })
    };
    let steps: Vec<Step> = tonight.kept.swum().filter_map(of_lane).collect();
    take(desk, &steps, None)
}

/// A change beyond a count and a send-off: `last 2 all out`, `rest on fins`,
/// `instead of the 8x50 16x25`, `extra minute`, `move on`.
pub fn change(desk: &mut Desk<'_>, edits: &[Edit]) -> Result<Outcome, Stopped> {
    desk.demand(Right::RunEvening)?;
    let names = edits.iter().flat_map(|edit| &edit.names);
    for name in names {
        if !desk.squad.swimmers.contains_key(name) {
            return Err(desk.who_is(name));
        }
    }
    let steps: Vec<Step> =
        edits.iter().map(|edit| step_of(desk, edit)).collect::<Result<_, _>>()?;
    // On after a pause: nothing is another set by it.
    if edits.iter().all(|edit| edit.what == EditWhat::Resume) {
        return Ok(Outcome::Evening(desk.settled(desk.night_shown()).told(desk, None)));
    }
    take(desk, &steps, None)
}

/// One change, in coaching's words.
struct Step {
    /// For these lanes; none for all.
    lanes: Vec<u8>,
    /// For these swimmers alone.
    names: Vec<Name>,
    place: Scope,
    what: What,
}

fn step_of(view: &View<'_>, edit: &Edit) -> Result<Step, Stopped> {
    let course = view.booking(view.night_shown()).course;
    let far = |length: &Length| {
        let far = resolve::distance(*length, course).filter(|distance| distance.fits(course));
        far.ok_or_else(|| refused("distance", RefusedWhy::Distance))
    };
    let what = edit.what.try_map(far, |set| written(set, course))?;
    Ok(Step { lanes: edit.lanes.clone(), names: edit.names.clone(), place: edit.scope, what })
}

/// Makes the changes, one after the other, and ends in so many minutes, in one lane
/// or all, where that was said.
fn take(
    desk: &mut Desk<'_>,
    steps: &[Step],
    left: Option<(Option<u8>, u16)>,
) -> Result<Outcome, Stopped> {
    let on = desk.night_shown();
    let mut tonight = desk.tonight(on);
    if !tonight.kept.has_set() {
        return Err(refused("no_set", RefusedWhy::NoSet));
    }
    let lanes = steps.iter().flat_map(|step| &step.lanes).copied();
    for lane in lanes.chain(left.and_then(|(lane, _)| lane)) {
        let there = tonight.kept.lane(lane).filter(|kept| kept.session.is_some());
        there.ok_or_else(|| refused("no_lane", RefusedWhy::NoLane { lane }))?;
    }
    let from_main = tonight.elapsed_s.is_none();
    let numbers: Vec<u8> = tonight.kept.swum().map(|lane| lane.lane.number()).collect();
    let mut told = Vec::with_capacity(numbers.len());
    let mut anything = left.is_some();
    for number in numbers {
        let Some(before) = tonight.kept.lane(number).cloned() else { continue };
        let Some(session) = before.session.clone() else { continue };
        let elapsed = elapsed(&tonight, &session);
        let mut now = before.clone();
        let mut lines = Vec::new();
        let (mut tight, mut whom) = (Vec::new(), Vec::new());
        for step in steps {
            let named: Vec<&Name> =
                before.swimmers.iter().filter(|name| step.names.contains(name)).collect();
            let meant = match step.names.is_empty() {
                true => step.lanes.is_empty() || step.lanes.contains(&number),
                false => !named.is_empty(),
            };
            if !meant {
                continue;
            }
            let said = |session: &Session| said_by(&tonight, number, session, elapsed, step);
            let done = match step.names.is_empty() {
                true => in_lane(desk, &tonight, &mut now, elapsed, step),
                false => for_some(desk, &tonight, &mut now, &named, elapsed, step),
            };
            let Some(done) = done else { continue };
            anything = true;
            whom.extend(named.into_iter().cloned());
            tight.extend(done.tight);
            lines = done.lines;
            if step.names.is_empty()
                && let Some(session) = &now.session
            {
                let more = said(session);
                tonight.kept.said.extend(more);
            }
        }
        let mut change = LaneChange {
            lane: number,
            was: ends(desk, &tonight.booking, &session, elapsed),
            now: ends(desk, &tonight.booking, &session, elapsed),
            session: session.clone(),
            given_up: Vec::new(),
            instead: lines,
            fits: true,
            keeps_purpose: true,
            tight,
            whom,
        };
        if let Some((_, minutes)) = left.filter(|(lane, _)| lane.is_none_or(|lane| lane == number))
        {
            let until = elapsed + u32::from(minutes) * 60;
            end_by(desk, &tonight, &mut now, elapsed, until, &mut change);
        }
        if let Some(session) = &now.session {
            change.now = ends(desk, &tonight.booking, session, elapsed);
            change.session = session.clone();
        }
        told.push(change);
        put(&mut tonight, now);
    }
    if !anything {
        return Err(nothing_of(steps));
    }
    tonight.kept.edited = true;
    desk.keep(tonight, EveningBy::Change);
    Ok(Outcome::Ok(OkReply::SetChanged(ChangedReply { on, lanes: told, from_main })))
}

/// Why none of the steps came to anything.
fn nothing_of(steps: &[Step]) -> Stopped {
    let part = |place: Scope| match place {
        Scope::SwimDown => Some(Part::SwimDown),
        Scope::WarmUp => Some(Part::WarmUp),
        _ => None,
    };
    if steps.iter().any(|step| step.what == What::SkipRound) {
        return refused("no_rounds", RefusedWhy::NoRounds);
    }
    match steps.iter().find_map(|step| part(step.place)) {
        Some(part) => refused("nothing", RefusedWhy::NothingOfPart { part }),
        None => refused("nothing", RefusedWhy::NoMainSet),
    }
}

/// What one step came to.
struct Done {
    lines: Vec<Repeat>,
    tight: Vec<crate::coaching::evening::Tight>,
}

/// A step for a whole lane, with those in it who swim something else.
fn in_lane(
    view: &View<'_>,
    tonight: &Tonight,
    lane: &mut LaneKept,
    elapsed: u32,
    step: &Step,
) -> Option<Done> {
    let session = lane.session.clone()?;
    let done = tonight.with_swims(view, &lane.swimmers, |swims| {
        changed(&session, elapsed, swims, step.place, &step.what)
    })?;
    lane.session = Some(done.session);
    for (name, own) in &mut lane.own {
        let alone = std::slice::from_ref(name);
        let theirs = tonight
            .with_swims(view, alone, |swims| changed(own, elapsed, swims, step.place, &step.what));
        if let Some(theirs) = theirs {
            *own = theirs.session;
        }
    }
    Some(Done { lines: done.lines, tight: done.tight })
}

/// A step for some of a lane alone.
fn for_some(
    view: &View<'_>,
    tonight: &Tonight,
    lane: &mut LaneKept,
    names: &[&Name],
    elapsed: u32,
    step: &Step,
) -> Option<Done> {
    let mut done = None;
    for name in names {
        let own = lane.session_of(name).cloned()?;
        let alone = std::slice::from_ref(*name);
        let theirs = tonight.with_swims(view, alone, |swims| {
            changed(&own, elapsed, swims, step.place, &step.what)
        })?;
        lane.own.insert((*name).clone(), theirs.session);
        done = Some(Done { lines: theirs.lines, tight: theirs.tight });
    }
    done
}

/// A lane that ends so many seconds after it began, and what was given up for it.
fn end_by(
    view: &View<'_>,
    tonight: &Tonight,
    lane: &mut LaneKept,
    elapsed: u32,
    until: u32,
    change: &mut LaneChange,
) {
    let Some(session) = lane.session.clone() else { return };
    let cut = shortened(&session, elapsed, until);
    (change.fits, change.keeps_purpose) = (cut.fits, cut.keeps_purpose);
    change.given_up = cut.given_up;
    lane.session = Some(ending(view, tonight, &session, &lane.swimmers, elapsed, until));
    let names: Vec<Name> = lane.own.keys().cloned().collect();
    for name in names {
        if let Some(own) = lane.own.get(&name).cloned() {
            let theirs = ending(view, tonight, &own, std::slice::from_ref(&name), elapsed, until);
            lane.own.insert(name, theirs);
        }
    }
}

fn ending(
    view: &View<'_>,
    tonight: &Tonight,
    session: &Session,
    swimmers: &[Name],
    elapsed: u32,
    until: u32,
) -> Session {
    // A set that ends earlier than it may is not drawn out.
    let until = until.min(session.duration_s());
    tonight.with_swims(view, swimmers, |swims| ending_at(session, elapsed, swims, until))
}

/// The send-offs that a step makes the coach's own words.
fn said_by(
    tonight: &Tonight,
    lane: u8,
    session: &Session,
    elapsed: u32,
    step: &Step,
) -> Vec<SendOffSaid> {
    let of_lane = tonight.kept.lane(lane).map(|kept| kept.lane).filter(|_| !step.lanes.is_empty());
    let line = || line_in_question(session, elapsed);
    let one = |distance, on: SendOff| SendOffSaid { lane: of_lane, distance, on };
    match &step.what {
        What::SendOff(on) => line().map(|line| one(line.distance, *on)).into_iter().collect(),
        What::SendOffBy(_) | What::Rest(_) => {
            let line = line().and_then(|line| Some(one(line.distance, line.send_off?)));
            line.into_iter().collect()
        }
        What::Instead(blocks) | What::Add(blocks) => {
            let lines = blocks.iter().flat_map(|block| &block.lines);
            lines.filter_map(|line| Some(one(line.distance, line.send_off?))).collect()
        }
        _ => Vec::new(),
    }
}

fn put(tonight: &mut Tonight, lane: LaneKept) {
    if let Some(place) = tonight.kept.lanes.iter_mut().find(|one| one.lane == lane.lane) {
        *place = lane;
    }
}

/// How many seconds of a lane's set have passed. Where nobody said when it began, the main set
/// counts as just begun.
fn elapsed(tonight: &Tonight, session: &Session) -> u32 {
    match (tonight.elapsed_s, tonight.booking.starts) {
        (Some(elapsed), _) => elapsed,
        // It is known when it begins, and it has not.
        (None, Some(_)) => 0,
        (None, None) => before_main_s(session),
    }
}

/// `finish at 8.50` as minutes left: the next time that any clock shows it.
fn until_the_end(view: &View<'_>, cut: &Cut) -> Result<Cut, Stopped> {
    let Some(ends) = cut.ends else { return Ok(cut.clone()) };
    let now = view.now().to_zoned_datetime(view.squad.zone()).time();
    let minute = |time: Time| i32::from(time.hour()) * 60 + i32::from(time.minute());
    let turn = if ends.hour() < 12 { 12 * 60 } else { 24 * 60 };
    let left = (minute(ends) - minute(now)).rem_euclid(turn);
    let left = u16::try_from(left).ok().filter(|left| u32::from(*left) * 60 <= NIGHT_S);
    let left = left.filter(|left| *left > 0 && cut.minutes_left.is_none());
    let left = left.ok_or_else(|| refused("nothing", RefusedWhy::Nothing))?;
    Ok(Cut { minutes_left: Some(left), ..cut.clone() })
}
