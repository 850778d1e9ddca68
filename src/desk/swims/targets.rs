//! What can be worked out from tests: times to hold, predictions.

use crate::coaching;
use crate::desk::decision::desk::Desk;
use crate::desk::decision::refusing::{Stopped, refused};
use crate::desk::decision::resolve;
use crate::desk::known::facts::{facts, latest_test};
use crate::history::Reasons;
use crate::message::{Length, Statement};
use crate::reply::{Outcome, PredictionReply, RefusedWhy, TargetsReply};
use crate::swim::{self, critical_speed};
use crate::units::Distance;

/// `targets`
pub fn targets(
    desk: &mut Desk<'_>,
    statement: &Statement,
    distances: &[Length],
) -> Result<Outcome, Stopped> {
    let who = desk.subject(statement)?;
    let facts = facts(desk, &who)?;
    let trial = latest_test(&facts).ok_or_else(|| refused("no_test", RefusedWhy::NoTest))?;
    let wanted: Vec<Distance> =
        distances.iter().filter_map(|length| resolve::distance(*length, trial.course)).collect();
    Ok(Outcome::Targets(TargetsReply {
        trial,
        targets: coaching::targets(&facts, &wanted),
        own: coaching::own_holds(&facts),
        critical: critical_speed::estimate(&facts.tests, facts.today, trial.stroke, trial.course),
    }))
}

/// `predict 1500`
pub fn predict(
    desk: &mut Desk<'_>,
    statement: &Statement,
    distance: Length,
) -> Result<Outcome, Stopped> {
    let who = desk.subject(statement)?;
    let facts = facts(desk, &who)?;
    let latest = latest_test(&facts).ok_or_else(|| refused("no_test", RefusedWhy::NoTest))?;
    let course = resolve::course(None, distance, latest.course);
    let distance = resolve::distance(distance, course)
        .ok_or_else(|| refused("distance", RefusedWhy::Distance))?;
    desk.keep_reasons(Reasons::Prediction { who, distance });
    let prediction =
        swim::prediction::predict(&facts.tests, facts.today, latest.stroke, course, distance)
            .ok_or_else(|| refused("no_test", RefusedWhy::NoTest))?
            .begun(facts.sprints_from);
    Ok(Outcome::Prediction(PredictionReply { prediction, race: None }))
}
