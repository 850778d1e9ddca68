//! The coach's own targets: `heron target 50 46`, `heron targets from test`.

use crate::coaching::{self, Facts, OwnTarget, RefusalReason};
use crate::desk::decision::desk::Desk;
use crate::desk::decision::questions_back::ask_yes;
use crate::desk::decision::refusing::{Stopped, refused};
use crate::desk::decision::resolve;
use crate::desk::decision::view::View;
use crate::desk::decision::who::coached;
use crate::history::{Event, Right, Swimmer};
use crate::message::{Length, Message, Statement, TypedTime};
use crate::reply::{Asks, OkReply, Outcome, OwnTargetsReply, RefusedWhy};
use crate::swim::even_pace::Target;
use crate::swim::plausible::{self, Acquaintance, Verdict};
use crate::units::{Centis, Distance};

/// Sets times to hold in place of the computed ones, until the next test; with
/// none, the test's hold again. Nothing faster while something is open.
pub fn own_targets(
    desk: &mut Desk<'_>,
    statement: &Statement,
    holds: &[(Length, TypedTime)],
) -> Result<Outcome, Stopped> {
    let who = coached(desk, Right::SpeakForOthers, statement)?;
    let facts = desk.facts(&who).ok_or_else(|| desk.who_is(&who))?;
    let Some(stroke) = coaching::coached_stroke(&facts) else {
        return Err(refused("no_test", RefusedWhy::NoTest));
    };
    let mut targets = match holds.is_empty() {
        true => Vec::new(),
        false => facts.own_targets.clone(),
    };
    for (length, typed) in holds {
        let distance = resolve::distance(*length, facts.course)
            .filter(|distance| distance.fits(facts.course))
            .ok_or_else(|| refused("distance", RefusedWhy::Distance))?;
        let (time, doubted) = time_meant(&facts, distance, typed)?;
        if doubted && !desk.confirmed {
            let message = Message { statements: vec![statement.clone()] };
            return Err(ask_yes(desk, Asks::Implausible { distance, time }, &message));
        }
        targets.retain(|own| own.distance != distance);
        targets.push(OwnTarget {
            distance,
            time,
            stroke,
            course: facts.course,
            on: desk.today,
            at: desk.now(),
        });
    }
    targets.sort_by_key(|own| own.distance.amount());
    desk.record(Event::OwnTargetsSet { who: who.clone(), targets: targets.clone() });
    let facts = Facts { own_targets: targets, ..facts };
    let own = coaching::own_holds(&facts);
    let tested = if own.is_empty() { coaching::targets(&facts, &[]) } else { Vec::new() };
    Ok(Outcome::Ok(OkReply::OwnTargets(OwnTargetsReply { who, own, tested })))
}

/// The reading of `typed` that lies nearest to what the tests let expect, and
/// whether it lies so far off that it is asked about.
fn time_meant(
    facts: &Facts,
    distance: Distance,
    typed: &TypedTime,
) -> Result<(Centis, bool), Stopped> {
    let tested = Facts { own_targets: Vec::new(), ..facts.clone() };
    let computed = coaching::targets(&tested, &[distance]).first().map(|target| target.time);
    // Of a distance that no test tells a pace for there is nothing to replace.
    let computed = computed.ok_or_else(|| refused("no_test", RefusedWhy::NoTest))?;
    let off = |time: &Centis| libm::fabs(libm::log(time.seconds() / computed.seconds()));
    let nearest =
        typed.readings.iter().copied().min_by(|one, other| off(one).total_cmp(&off(other)));
    let time = nearest.ok_or_else(|| refused("time", RefusedWhy::Nothing))?;
    if time < computed && !facts.open.is_empty() {
        let why = RefusedWhy::Coaching(RefusalReason::NotHarder);
        return Err(refused("not_harder", why));
    }
    let verdict = plausible::check_against(computed, time, Acquaintance::Settled);
    Ok((time, verdict != Verdict::Plausible))
}

impl View<'_> {
    /// Those of them that they are to hold today, for their card.
    pub fn own_holds(&self, swimmer: &Swimmer) -> Vec<Target> {
        // The facts cost more than a card, and few have any.
        let some = !self.own_targets(swimmer).is_empty();
        let facts = some.then(|| self.facts(&swimmer.name)).flatten();
        facts.map_or_else(Vec::new, |facts| coaching::own_holds(&facts))
    }
}
