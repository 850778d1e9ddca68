//! What a squad makes of a table that was brought: all of it, or all that is wrong.

use super::membership;
use super::names::{Unfit, unfit};
use crate::desk::decision::asked::Asked;
use crate::desk::decision::desk::Desk;
use crate::desk::decision::view::View;
use crate::history::{Event, Squad, TestKept, Touched};
use crate::import::{Fault, Line, MemberBrought, TestBrought};
use crate::swim::Trial;
use crate::swim::plausible::{self, Verdict};

/// What was brought, ready to be stored.
#[derive(Debug)]
pub struct Brought {
    /// What happened.
    pub events: Vec<Event>,
    /// The squad with that folded in.
    pub squad: Squad,
    /// What of it changed.
    pub touched: Vec<Touched>,
    /// How many rows were new.
    pub new: usize,
    /// How many said what was known.
    pub known: usize,
}

/// Tests of swimmers of the squad. One that is known is passed over; one that nobody
/// could have swum is a fault, for there is nobody to ask.
///
/// # Errors
/// All that is wrong, line by line.
pub fn tests(
    squad: &Squad,
    asked: &Asked<'_>,
    rows: &[Line<TestBrought>],
) -> Result<Brought, Vec<Fault>> {
    let mut desk = Desk::new(squad, asked);
    let (mut known, mut faults) = (0, Vec::new());
    for Line { number, says } in rows {
        let TestBrought { swimmer, on, distance, course, stroke, time, .. } = says;
        let mut wrong = |column: &str, why: String| {
            faults.push(Fault::of_column(*number, column, why));
        };
        let Some(theirs) = desk.squad.swimmers.get(swimmer) else {
            wrong("swimmer", format!("nobody of the squad is called `{swimmer}`"));
            continue;
        };
        if *on > desk.today {
            wrong("on", format!("{on} is still to come"));
            continue;
        }
        match plausible::check(*distance, *time, *stroke) {
            Verdict::Plausible => {}
            Verdict::TooFast => wrong("time_s", format!("nobody swims {distance} in {time}")),
            Verdict::TooSlow => wrong("time_s", format!("{time} is too slow for {distance}")),
        }
        let trial = Trial {
            distance: *distance,
            time: *time,
            stroke: *stroke,
            course: *course,
            on: *on,
            meet: says.meet,
        };
        if theirs.tests.as_of(desk.now()).any(|kept| kept.what.trial == trial) {
            known += 1;
            continue;
        }
        let test = TestKept::new(trial, says.splits.clone(), says.start);
        desk.record(Event::TestSwum { who: swimmer.clone(), test });
    }
    whole(desk, known, faults)
}

/// Swimmers, each as a guest until they have a telephone here: nobody is texted who
/// has not joined. One who is known is passed over.
///
/// # Errors
/// All that is wrong, line by line.
pub fn members(
    squad: &Squad,
    asked: &Asked<'_>,
    rows: &[Line<MemberBrought>],
) -> Result<Brought, Vec<Fault>> {
    let mut desk = Desk::new(squad, asked);
    let (mut known, mut faults) = (0, Vec::new());
    for Line { number, says: MemberBrought { swimmer } } in rows {
        if desk.squad.swimmers.contains_key(swimmer) {
            known += 1;
            continue;
        }
        let why = match unfit(&desk, swimmer) {
            _ if desk.squad.is_taken(swimmer) => "is somebody's here who doesn't swim",
            Some(Unfit::CommandWord) => "is a word that texts begin with",
            Some(Unfit::LooksAlike) => "looks like another's",
            None => {
                let guest = membership::guest(&desk, swimmer, None);
                desk.record(guest);
                continue;
            }
        };
        faults.push(Fault::of_column(*number, "swimmer", format!("`{swimmer}` {why}")));
    }
    whole(desk, known, faults)
}

fn whole(desk: Desk<'_>, known: usize, faults: Vec<Fault>) -> Result<Brought, Vec<Fault>> {
    if !faults.is_empty() {
        return Err(faults);
    }
    let Desk { events, view: View { squad, .. }, touched, .. } = desk;
    Ok(Brought { new: events.len(), events, squad, touched, known })
}
