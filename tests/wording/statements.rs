//! A statement of every kind.

use lapwing::message::{
    About, Approval, Ask, Cut, Day, Done, Edit, EditWhat, Entry, Fix, Kind, LaneResults, Limits,
    NextWish, Pain, People, PlanWish, ProfileChange, Regular, RelayLeg, Scope, SetResult, Slot,
    Statement, Test, TimedTest, TypedSet, TypedTime, WeekKind,
};
use lapwing::session::Limit;
use lapwing::units::{Level, Unit};

use super::parts::*;

/// One of every kind, the last of someone else.
pub fn statements() -> Vec<Statement> {
    let mut all: Vec<Statement> = kinds().into_iter().map(of_me).collect();
    all.push(Statement { who: Some(name("heron")), kind: Kind::Better });
    all
}

pub fn kinds() -> Vec<Kind> {
    [results(), feelings(), wishes(), commands(), evening()].concat()
}

fn results() -> Vec<Kind> {
    let in_yards = lapwing::message::Length { amount: 200, unit: Some(Unit::Yard) };
    vec![
        Kind::Test(Test::new(in_yards, typed("3:12"))),
        Kind::TimedTest(TimedTest {
            duration: time("30:00"),
            distance: length(1850),
            stroke: None,
            course: None,
            on: None,
        }),
        Kind::SetResult(SetResult {
            count: 8,
            distance: length(50),
            stroke: None,
            send_off: None,
            rest: None,
            target: None,
            times: vec![],
            average: None,
            made: None,
            of: None,
            equipment: vec![],
            rpe: None,
            heart_rate: None,
            strokes: None,
            on: None,
        }),
        Kind::Done(Done {
            lengths: None,
            distance: None,
            duration: None,
            rpe: None,
            on: None,
            sport: None,
            activity: None,
            shortened: true,
        }),
        Kind::Missed { on: None },
        Kind::Set(TypedSet { on: None, lines: vec![], lanes: vec![] }),
    ]
}

fn feelings() -> Vec<Kind> {
    vec![
        Kind::Ill { what: None },
        Kind::Better,
        Kind::Away { from: None, until: Day::Tomorrow },
        Kind::Pain(Pain { place: "shoulder".into(), level: Some(4) }),
        Kind::Faint,
        Kind::Welfare,
        Kind::Tired,
        Kind::Ability { unbroken: Some(length(100)), most: None },
    ]
}

fn wishes() -> Vec<Kind> {
    vec![
        Kind::Plan(PlanWish::default()),
        Kind::Next(NextWish::default()),
        Kind::Swap { days: [Day::Today, Day::Tomorrow] },
        Kind::SwapResults { names: [name("heron"), name("teal")], on: None, distance: None },
        Kind::Shorter,
        Kind::Easier,
        Kind::Harder,
        Kind::Again,
        Kind::More,
        Kind::Targets { distances: vec![] },
        Kind::OwnTargets { holds: vec![(length(50), TypedTime::sure("46".parse().unwrap()))] },
        Kind::OwnTargets { holds: vec![] },
        Kind::Predict { distance: length(1500) },
        Kind::Race { distance: length(1500), on: Day::Tomorrow, goal: None },
        Kind::Goal {
            distance: length(200),
            stroke: None,
            time: TypedTime::sure("3:00".parse().unwrap()),
            by: None,
        },
        Kind::Trend,
        Kind::Best,
        Kind::Tonight,
        Kind::Board,
        Kind::Log,
        Kind::Swimmer,
        Kind::Compare { names: vec![name("heron"), name("teal")] },
        Kind::Pin { lane: Some(2) },
        Kind::Apart { names: vec![name("heron"), name("teal")], apart: true },
    ]
}

fn commands() -> Vec<Kind> {
    vec![
        Kind::Profile(ProfileChange::default()),
        Kind::Join { code: "CODE-1".into(), name: name("heron") },
        Kind::Fix(Fix::default()),
        Kind::Help { topic: None },
        Kind::People(People::Leave),
        Kind::Undo,
        Kind::Yes,
        Kind::No,
        Kind::Why,
        Kind::Stop,
        Kind::Start,
        Kind::Forget,
        Kind::Choose { word: "25m".into() },
        Kind::Ask(Ask { about: About::Other, text: "who has a spare cap".into() }),
        Kind::Quiet { from: jiff::civil::time(9, 0, 0, 0) },
        Kind::Restate { says: vec![Statement { who: None, kind: Kind::Better }], changed: 0 },
    ]
}

fn evening() -> Vec<Kind> {
    let slot =
        Slot { days: vec![], starts: None, minutes: None, lanes: None, on: None, course: None };
    vec![
        Kind::Squad { filter: None, on: None },
        Kind::Entry(Entry {
            distance: length(100),
            stroke: None,
            on: None,
            time: None,
            scratched: false,
        }),
        Kind::Entries,
        Kind::RelayLeg(RelayLeg {
            count: 4,
            distance: length(50),
            stroke: None,
            on: None,
            leg: 2,
            time: TypedTime::sure("29.8".parse().unwrap()),
        }),
        Kind::Meet { on: Day::Tomorrow, course: None },
        Kind::Lanes { count: None },
        Kind::TestNight { distance: Some(length(400)), on: None },
        Kind::Regular(Regular::Digest),
        Kind::Approval(Approval::Wanted { wanted: true }),
        Kind::Approval(Approval::All),
        Kind::Limits(Limits::Barred { what: vec![Limit::Dives], all: false }),
        Kind::Regular(Regular::NoteWanted { wanted: true }),
        Kind::Here { names: vec![], all_but: true, on: None },
        Kind::Absent { names: vec![], on: None },
        Kind::Tell { text: "cap on".into() },
        Kind::Note { text: "cap on".into() },
        Kind::Focus { text: "cap on".into() },
        Kind::Attend { coming: true, late_min: None, on: None },
        Kind::Slot(slot),
        Kind::Shut { days: vec![], on: None },
        Kind::Reopen { days: vec![], on: None },
        Kind::Leaves { at: Some(jiff::civil::time(19, 45, 0, 0)), on: None },
        Kind::Maybe { on: None },
        Kind::Back { on: None },
        Kind::Move { names: vec![name("wren")], lane: Some(2), by: 0 },
        Kind::SwapLanes { names: [name("wren"), name("teal")] },
        Kind::LaneOrder { lane: Some(1), names: vec![name("wren"), name("teal")] },
        Kind::DrawnAs { lanes: vec![(1, vec![name("wren"), name("teal")])] },
        Kind::Gap { seconds: 10 },
        Kind::NamesInRooms { shown: true },
        Kind::NamesInRooms { shown: false },
        Kind::LaneOf { lane: 2 },
        Kind::Change(vec![Edit {
            scope: Scope::LastRepeats(2),
            lanes: vec![3],
            names: vec![],
            what: EditWhat::Level(Level::Sprint),
        }]),
        Kind::LaneGone,
        Kind::LaneResults(LaneResults { lane: 2, distance: None, times: vec![None] }),
        Kind::Cut(Cut::default()),
        Kind::Hold { week: WeekKind::Easy },
        Kind::Release,
    ]
}
