//! A lane's results in the order in which its swimmers lead off.
//!
//! Turns them into one statement a swimmer; each is then decided as in any text about
//! several.

use jiff::civil::Date;

use crate::coaching::evening::{before_main_s, line_in_question};
use crate::desk::decision::refusing::{Stopped, refused};
use crate::desk::decision::view::View;
use crate::history::Right;
use crate::message::{Kind, LaneResults, Length, Name, SetResult, Statement, Test, TypedTime};
use crate::reply::RefusedWhy;
use crate::session::Repeat;

/// One statement for each swimmer of the lane: a test over the distance named, else the
/// main repeat of the set in force with their figure as its average. There must be one
/// figure a swimmer, else all are refused.
pub fn by_swimmer(view: &View<'_>, results: &LaneResults) -> Result<Vec<Statement>, Stopped> {
    view.demand(Right::SpeakForOthers)?;
    let (lane, on) = (results.lane, view.day_swum());
    let names =
        order(view, lane, on).ok_or_else(|| refused("no_lane", RefusedWhy::NoLane { lane }))?;
    if names.len() != results.times.len() || results.times.iter().all(Option::is_none) {
        return Err(refused("lane_order", RefusedWhy::LaneOrder { lane, names }));
    }
    let main = match results.distance {
        Some(_) => None,
        None => Some(main_repeat(view, lane, on)?),
    };
    let swum = names.into_iter().zip(&results.times);
    let told = swum.filter_map(|(who, time)| {
        let time = time.clone()?;
        let kind = match (results.distance, &main) {
            (Some(distance), _) => test(distance, time),
            (None, main) => average(main.as_ref()?, time),
        };
        Some(Statement { who: Some(who), kind })
    });
    Ok(told.collect())
}

/// How many swim in a lane; nothing where there is no such lane.
pub fn number_in(view: &View<'_>, lane: u8) -> Option<usize> {
    order(view, lane, view.day_swum()).map(|names| names.len())
}

/// Those of a lane that night as they lead off.
fn order(view: &View<'_>, lane: u8, on: Date) -> Option<Vec<Name>> {
    let tonight = view.tonight(on).kept;
    // Nobody was told an order that nobody drew.
    let names = tonight.lane(lane).filter(|_| tonight.is_told())?.swimmers.clone();
    Some(names).filter(|names| !names.is_empty())
}

/// The main repeat of what a lane swims that night.
pub fn main_repeat(view: &View<'_>, lane: u8, on: Date) -> Result<Repeat, Stopped> {
    let tonight = view.tonight(on);
    if !tonight.kept.has_set() {
        return Err(refused("no_set", RefusedWhy::NoSet));
    }
    let kept = tonight.kept.lane(lane).and_then(|kept| kept.session.as_ref());
    let session = kept.ok_or_else(|| refused("no_lane", RefusedWhy::NoLane { lane }))?;
    let session = view.shown(session);
    let line = line_in_question(&session, before_main_s(&session));
    line.ok_or_else(|| refused("nothing", RefusedWhy::NoMainSet))
}

fn test(distance: Length, time: TypedTime) -> Kind {
    Kind::Test(Test::new(distance, time))
}

fn average(line: &Repeat, time: TypedTime) -> Kind {
    let (amount, unit) = (line.distance.amount(), Some(line.distance.unit()));
    Kind::SetResult(SetResult {
        stroke: Some(line.stroke),
        send_off: line.send_off,
        rest: line.rest,
        // An aim is each swimmer's own: worked out from their tests.
        target: line.target.filter(|_| line.aim.is_none()),
        average: Some(time),
        equipment: line.equipment.clone(),
        ..SetResult::new(line.count, Length { amount, unit })
    })
}
