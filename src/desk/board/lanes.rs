//! The lanes as they stand: order, send-offs of the set in force, the gap.

use jiff::civil::Date;

use super::Person;
use crate::coaching::Facts;
use crate::coaching::evening::{swims_gently, with_own_targets};
use crate::coaching::lanes::{Gap, OneMove, Standing};
use crate::desk::bench::Desk;
use crate::desk::lanes::{as_drawn, standing_of};
use crate::message::Name;
use crate::profile::Presence;
use crate::session::{Repeat, Session};
use crate::units::{Centis, Course, Level};

/// The lanes of a night.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Lanes {
    /// Every lane there is, lane 1 first.
    pub lanes: Vec<LaneNow>,
    /// Seconds between two who leave behind each other, where lanes were drawn.
    pub gap: Option<Gap>,
    /// The one move worth making.
    pub advice: Option<OneMove>,
    /// Seen at the pool, and in no lane though they may swim.
    pub in_none: Vec<Person>,
}

/// A lane.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LaneNow {
    /// Which, counted from 1.
    pub lane: u8,
    /// Who swims in it, in the order they lead off.
    pub swimmers: Vec<Placed>,
}

/// A swimmer in her place.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Placed {
    /// Who.
    pub who: Person,
    /// Her pace is guessed or not known.
    pub guessed: bool,
    /// She swims the gentle version; why is not told here.
    pub gently: bool,
    /// Their own time to hold for each line of the lane's set that has one, in
    /// the order swum; none for whoever swims gently.
    pub targets: Vec<(Repeat, Centis)>,
    /// The one thing she works on, in the coach's words.
    pub focus: Option<String>,
}

impl Placed {
    /// Their own time to hold on that line of the lane's set.
    pub fn target(&self, line: &Repeat) -> Option<Centis> {
        self.targets.iter().find(|(one, _)| one == line).map(|(_, target)| *target)
    }
}

/// The lanes drawn for `on`, else those of its set.
pub fn lanes(desk: &Desk<'_>, on: Date) -> Lanes {
    let set = desk.set_in_force(on);
    let version =
        |lane: u8| set.as_ref().and_then(|set| set.lanes.iter().find(|one| one.lane == lane));
    let (orders, gap, advice) = match as_drawn(desk, on) {
        Some((drawn, gap, advice)) => {
            let orders = drawn.lanes.into_iter().map(|one| (one.lane.number(), one.swimmers));
            (orders.collect(), Some(gap), advice)
        }
        None => {
            let written = set.iter().flat_map(|set| &set.lanes);
            (written.map(|one| (one.lane, one.swimmers.clone())).collect(), None, None)
        }
    };
    let orders: Vec<(u8, Vec<Name>)> = orders;
    let here = desk.squad.here_on(on, desk.now());
    let in_none = here
        .filter(|one| !desk.squad.is_done(one, on, desk.now()))
        .filter(|one| !orders.iter().any(|(_, names)| names.contains(&one.name)))
        .map(|one| Person::of(desk, &one.name))
        .collect();
    let swims = |name: &&Name| swims_on(desk, on, name);
    let lane = |(lane, names): (u8, Vec<Name>)| {
        let session = version(lane).map(|kept| &kept.session);
        let swimmers = names.iter().filter(swims).map(|name| placed(desk, on, name, session));
        LaneNow { lane, swimmers: swimmers.collect() }
    };
    Lanes { lanes: orders.into_iter().map(lane).collect(), gap, advice, in_none }
}

/// Whoever is stopped, done, gone or out since the lanes were drawn is in none.
fn swims_on(desk: &Desk<'_>, on: Date, name: &Name) -> bool {
    let now = desk.now();
    desk.swimmer(name).is_some_and(|swimmer| {
        let out = match swimmer.seen_on(on, now) {
            Some(Presence::Here) => false,
            Some(Presence::Absent) => true,
            None => swimmer.says_of(on, now).is_some_and(|said| !said.coming),
        };
        !out && !desk.squad.is_done(swimmer, on, now)
    })
}

fn placed(desk: &Desk<'_>, on: Date, name: &Name, session: Option<&Session>) -> Placed {
    let course = desk.booking(on).course;
    let facts = desk.facts(name);
    let gently = facts.as_ref().is_some_and(|facts| swims_gently(desk.asked.book, facts));
    let timed = session.zip(facts.as_ref()).filter(|_| !gently);
    Placed {
        focus: desk.swimmer(name).and_then(|one| one.focus_at(desk.now())).cloned(),
        who: Person::of(desk, name),
        guessed: !matches!(standing_of(desk, name, course), Standing::Tested(_)),
        gently,
        targets: timed.map(|(session, facts)| targets(session, facts, course)).unwrap_or_default(),
    }
}

fn targets(session: &Session, facts: &Facts, course: Course) -> Vec<(Repeat, Centis)> {
    let own = with_own_targets(session, facts, course);
    let lines = |session: &Session| -> Vec<Repeat> {
        session.blocks.iter().flat_map(|block| block.repeats.clone()).collect()
    };
    let both = lines(session).into_iter().zip(lines(&own));
    let timed = both.filter(|(line, own)| line.level > Level::Easy && own.count == line.count);
    timed.filter_map(|(line, own)| Some((line, own.target?))).collect()
}
