//! The lanes as they stand: order, send-offs of the set in force, the gap.

use super::name_on_page::Person;
use crate::coaching::Facts;
use crate::coaching::evening::{swims_gently, with_own_targets};
use crate::coaching::lanes::{Gap, KnownPace, OneMove, known_pace};
use crate::desk::decision::view::View;
use crate::desk::evening::tonight::Tonight;
use crate::history::LaneKept;
use crate::message::Name;
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

/// A swimmer in their place.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Placed {
    /// Who.
    pub who: Person,
    /// Their pace is guessed or not known.
    pub guessed: bool,
    /// They swim the gentle version; why is not told here.
    pub gently: bool,
    /// Their own time to hold for each line of the lane's set that has one, in
    /// the order swum; none for whoever swims gently.
    pub targets: Vec<(Repeat, Centis)>,
    /// The one thing they work on, in the coach's words.
    pub focus: Option<String>,
}

impl Placed {
    /// Their own time to hold on that line of the lane's set.
    pub fn target(&self, line: &Repeat) -> Option<Centis> {
        self.targets.iter().find(|(one, _)| one == line).map(|(_, target)| *target)
    }
}

/// The lanes of an evening as they stand.
pub fn lanes(view: &View<'_>, tonight: &Tonight) -> Lanes {
    let on = tonight.on;
    let here = view.squad.here_on(on, view.now());
    let in_none = here
        .filter(|one| !view.squad.is_done(one, on, view.now()))
        .filter(|one| tonight.kept.lane_of(&one.name).is_none())
        .map(|one| Person::of(view, &one.name))
        .collect();
    let drawn = tonight.kept.drawn;
    let shown = |lane: &&LaneKept| drawn || lane.session.is_some();
    let lane = |lane: &LaneKept| {
        let swimmers = lane.swimmers.iter().map(|name| {
            let session = lane.session_of(name).map(|session| view.shown(session));
            placed(view, tonight.booking.course, name, session.as_ref())
        });
        LaneNow { lane: lane.lane.number(), swimmers: swimmers.collect() }
    };
    Lanes {
        lanes: tonight.kept.lanes.iter().filter(shown).map(lane).collect(),
        gap: drawn.then_some(tonight.kept.gap),
        advice: drawn.then(|| tonight.advice(view)).flatten(),
        in_none,
    }
}

fn placed(view: &View<'_>, course: Course, name: &Name, session: Option<&Session>) -> Placed {
    let facts = view.swimmer(name).map(|swimmer| view.facts_of_results(swimmer));
    let gently = facts.as_ref().is_some_and(|facts| swims_gently(view.asked.book, facts));
    let timed = session.zip(facts.as_ref()).filter(|_| !gently);
    Placed {
        focus: view.swimmer(name).and_then(|one| one.focus_at(view.now())).cloned(),
        who: Person::of(view, name),
        guessed: !facts.as_ref().is_some_and(|facts| is_tested(facts, course)),
        gently,
        targets: timed.map(|(session, facts)| targets(session, facts, course)).unwrap_or_default(),
    }
}

/// True if their pace comes from tests; a pace that somebody guessed for a guest does not.
fn is_tested(facts: &Facts, course: Course) -> bool {
    matches!(known_pace(facts, course), KnownPace::Tested(_))
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
