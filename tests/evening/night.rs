//! The squad's session over random squads, pools and minutes.
//!
//! Common practice, no source: one session in lane versions, all out together.

use jiff::ToSpan;
use jiff::civil::{Date, date};
use lapwing::coaching::evening::{Night, NightWish, for_night};
use lapwing::coaching::lanes::Gap;
use lapwing::coaching::{Facts, Rulebook, Swum, is_hard};
use lapwing::session::{Block, Part, Purpose, Session};
use lapwing::swim::Trial;
use lapwing::swim::critical_speed::estimate;
use lapwing::swim::levels::Band;
use lapwing::units::{Centis, Course, Distance, Level, Stroke};
use proptest::collection::vec;
use proptest::prelude::*;
use proptest::sample::select;

const TODAY: Date = date(2026, 3, 3);

/// Someone with a test of 400, 200 or 100, or none; so many swims behind them.
fn swimmer(course: Course) -> impl Strategy<Value = Facts> {
    let test = (select(vec![400u32, 400, 200, 100]), 65u32..165, 0i64..70);
    (proptest::option::weighted(0.9, test), select(vec![0i64, 20])).prop_map(
        move |(test, swims)| {
            let mut facts = Facts::of_nobody(TODAY, course, 60);
            facts.joined = TODAY.saturating_sub(100.days());
            facts.swims = (1..=swims)
                .rev()
                .map(|back| Swum {
                    on: TODAY.saturating_sub((back * 2).days()),
                    distance: None,
                    minutes: Some(60),
                    rpe: None,
                    presumed: true,
                    effort_alone: false,
                    hard: false,
                })
                .collect();
            facts.tests = test
                .into_iter()
                .map(|(amount, per_100_s, back)| Trial {
                    distance: Distance::new(amount, course.unit()).unwrap(),
                    time: Centis::from_whole_seconds(per_100_s * amount / 100).unwrap(),
                    stroke: Stroke::Free,
                    course,
                    on: TODAY.saturating_sub(back.days()),
                    meet: false,
                })
                .collect();
            facts
        },
    )
}

fn squad() -> impl Strategy<Value = (Course, Vec<Vec<Facts>>)> {
    select(vec![Course::Short25m, Course::Long50m, Course::Short25yd]).prop_flat_map(|course| {
        vec(vec(swimmer(course), 1..5), 1..4).prop_map(move |mut lanes| {
            let pace = |facts: &Facts| {
                facts
                    .tests
                    .first()
                    .map_or(u32::MAX, |test| test.time.hundredths() / test.distance.amount())
            };
            // The fastest lane first, as lanes are drawn.
            let mut all: Vec<Facts> = lanes.iter().flatten().cloned().collect();
            all.sort_by_key(pace);
            let mut all = all.into_iter();
            for lane in &mut lanes {
                lane.iter_mut().for_each(|one| *one = all.next().unwrap());
            }
            (course, lanes)
        })
    })
}

fn night<'a>(
    course: Course,
    lanes: &'a [Vec<Facts>],
    minutes: u16,
    wish: NightWish,
    before: &'a [Session],
) -> Night<'a> {
    Night {
        on: TODAY,
        minutes,
        course,
        wish,
        before: before.iter().collect(),
        lanes: lanes.iter().map(|lane| lane.iter().collect()).collect(),
        gap: Gap::Five,
        test: None,
    }
}

/// A night of that purpose so many days ago.
fn before(days: i64, purpose: Purpose) -> Session {
    let lanes = [vec![Facts::of_nobody(TODAY, Course::Short25m, 60)]];
    let sessions =
        for_night(&Rulebook::default(), &night(Course::Short25m, &lanes, 60, NightWish::Easy, &[]));
    let mut session = sessions.unwrap().remove(0);
    session.on = TODAY.saturating_sub(days.days());
    session.purpose = purpose;
    if matches!(purpose, Purpose::Threshold | Purpose::PaceHolding | Purpose::Test) {
        session.blocks[1].repeats[0].level = Level::Hard;
    }
    session
}

fn metres(session: &Session, part: Part) -> u32 {
    session.blocks.iter().filter(|block| block.part == part).map(Block::amount).sum()
}

fn hard_share(session: &Session) -> f64 {
    session.level_share().iter().filter(|(level, _)| level.is_hard()).map(|(_, share)| share).sum()
}

fn check(
    session: &Session,
    swimmers: &[Facts],
    course: Course,
    minutes: u16,
) -> Result<(), TestCaseError> {
    let sum: u32 = session
        .blocks
        .iter()
        .map(|block| {
            u32::from(block.rounds)
                * block
                    .repeats
                    .iter()
                    .map(|r| u32::from(r.count) * r.distance.amount())
                    .sum::<u32>()
        })
        .sum();
    prop_assert_eq!(session.amount(), sum);
    prop_assert_eq!(session.unit, course.unit());
    prop_assert!(session.duration_s() <= (u32::from(minutes) - 5) * 60);
    prop_assert_eq!(session.blocks[0].part, Part::WarmUp);
    prop_assert_eq!(session.blocks.last().unwrap().part, Part::SwimDown);
    let all = f64::from(session.amount());
    prop_assert!(f64::from(metres(session, Part::WarmUp)) >= 0.15 * all);
    prop_assert!(f64::from(metres(session, Part::SwimDown)) >= 0.06 * all);
    // 50 % on a threshold night, 25 % above it, 30 % for whoever is new.
    let limit = match session.purpose {
        Purpose::Test => 1.0,
        Purpose::Threshold => 0.5,
        _ => 0.3,
    };
    prop_assert!(hard_share(session) <= limit + 1e-9, "{}", hard_share(session));
    for line in session.blocks.iter().flat_map(|block| &block.repeats) {
        prop_assert!(line.distance.fits(course), "{line:?}");
        prop_assert!(line.count >= 1 && line.send_off.is_some());
        let Some(target) = line.target else { continue };
        let on = line.send_off.unwrap().time();
        prop_assert!(target < on);
        // The rest of its level, on a pace clock's five seconds; or so long that all
        // of the lane get away before the first leaves again, five seconds between
        // two. They circle: the last may still be coming home (common practice, no
        // source).
        let rest = f64::from(on.hundredths() - target.hundredths()) / 100.0;
        let range = Band::of(line.level).rest_after(line.distance, target);
        let turn = 5.0 * swimmers.len() as f64;
        prop_assert!(rest >= f64::from(range.least_s), "{line:?}");
        prop_assert!(on.seconds() >= turn, "{line:?}");
        let most = f64::from(range.most_s).max(turn - target.seconds());
        prop_assert!(rest <= most + 5.0, "{line:?}");
        // The slowest of the lane holds it at that level.
        let slowest = swimmers
            .iter()
            .filter_map(|facts| estimate(&facts.tests, TODAY, Stroke::Free, course).pace())
            .max_by(|one, other| one.per_100_s().total_cmp(&other.per_100_s()));
        if let Some(critical) = slowest {
            let pace = lapwing::units::Pace::of(line.distance, target);
            prop_assert_eq!(Band::holding(pace, critical).level, line.level, "{:?}", line);
        }
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 192, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn versions_of_one_session(
        (course, lanes) in squad(),
        minutes in 35u16..=90,
        wish in select(vec![NightWish::Any, NightWish::Easy, NightWish::Hard]),
        last in proptest::option::of((1i64..10, select(vec![Purpose::Threshold, Purpose::Technique]))),
    ) {
        let past: Vec<Session> = last.into_iter().map(|(days, purpose)| before(days, purpose)).collect();
        let night = night(course, &lanes, minutes, wish, &past);
        let sessions = for_night(&Rulebook::default(), &night).unwrap();
        prop_assert_eq!(sessions.len(), lanes.len());
        let parts = |session: &Session| -> Vec<Part> {
            session.blocks.iter().map(|block| block.part).collect()
        };
        for (session, swimmers) in sessions.iter().zip(&lanes) {
            check(session, swimmers, course, minutes)?;
            prop_assert_eq!(session.purpose, sessions[0].purpose);
            prop_assert_eq!(parts(session), parts(&sessions[0]));
        }
        let ends: Vec<u32> = sessions.iter().map(Session::duration_s).collect();
        let apart = ends.iter().max().unwrap() - ends.iter().min().unwrap();
        // Within two minutes, or a length of the slowest lane's swim-down.
        let lengths = sessions.iter().map(|session| {
            let line = session.blocks.last().unwrap().repeats.last().unwrap();
            let length = course.length().unwrap_or(100);
            line.send_off.unwrap().seconds() * length / line.distance.amount()
        });
        prop_assert!(apart <= lengths.max().unwrap().max(120), "{ends:?}");
        if wish == NightWish::Easy || last.is_some_and(|(days, purpose)| days < 2 && purpose == Purpose::Threshold) {
            prop_assert!(!sessions.iter().any(is_hard), "{:?}", sessions[0].purpose);
        }
    }
}

#[test]
fn an_easy_week_after_three_with_hard_nights() {
    let lanes = [vec![tested(400, "6:10", 5)]];
    let purpose = |past: &[Session]| {
        let night = night(Course::Short25m, &lanes, 60, NightWish::Any, past);
        for_night(&Rulebook::default(), &night).unwrap()[0].purpose
    };
    let weeks = |count: i64| -> Vec<Session> {
        (1..=count).map(|week| before(7 * week, Purpose::Threshold)).collect()
    };
    assert_eq!(purpose(&weeks(2)), Purpose::PaceHolding);
    assert_eq!(purpose(&weeks(3)), Purpose::Technique);
    // A week without one, and it counts anew.
    let mut broken = weeks(4);
    broken.remove(1);
    assert_eq!(purpose(&broken), Purpose::PaceHolding);
}

#[test]
fn a_test_where_half_are_due_one() {
    let purpose = |lanes: &[Vec<Facts>], past: &[Session]| {
        let night = night(Course::Short25m, lanes, 60, NightWish::Any, past);
        for_night(&Rulebook::default(), &night).unwrap()[0].purpose
    };
    let due = [vec![tested(400, "6:10", 40), tested(400, "7:10", 3)]];
    let most_are_not =
        [vec![tested(400, "6:10", 40), tested(400, "7:10", 3), tested(200, "3:10", 3)]];
    assert_eq!(purpose(&due, &[]), Purpose::Test);
    assert_eq!(purpose(&most_are_not, &[]), Purpose::Threshold);
    // Not again right after one.
    assert_ne!(purpose(&due, &[before(7, Purpose::Test)]), Purpose::Test);
}

fn tested(amount: u32, time: &str, days_ago: i64) -> Facts {
    let mut facts = Facts::of_nobody(TODAY, Course::Short25m, 60);
    facts.tests.push(Trial {
        distance: Distance::new(amount, Course::Short25m.unit()).unwrap(),
        time: time.parse().unwrap(),
        stroke: Stroke::Free,
        course: Course::Short25m,
        on: TODAY.saturating_sub(days_ago.days()),
        meet: false,
    });
    facts
}

/// Five lanes of eight swim the same repeats, each lane on send-offs of its own; what
/// a faster lane has over it swims of the main set.
#[test]
fn many_lanes_share_their_repeats() {
    let lanes: Vec<Vec<Facts>> = (0..5)
        .map(|lane| {
            let time = |at: u32| Centis::from_whole_seconds(330 + 60 * lane + 4 * at).unwrap();
            (0..8).map(|at| tested(400, &time(at).to_string(), 5)).collect()
        })
        .collect();
    let night = night(Course::Short25m, &lanes, 60, NightWish::Any, &[]);
    let sessions = for_night(&Rulebook::default(), &night).unwrap();
    assert_eq!(sessions.len(), 5);
    let held = |session: &Session| -> Vec<(u16, u32)> {
        let hard = session.blocks.iter().flat_map(|block| {
            let lines = block.repeats.iter().filter(|line| line.level > Level::Easy);
            lines.map(|line| (block.rounds, line.distance.amount()))
        });
        hard.collect()
    };
    // The same repeats for all; no lane swims more of them than a faster one.
    let main = |session: &Session| session.main().next().unwrap().repeats[0].count;
    for (fast, slow) in sessions.iter().zip(&sessions[1..]) {
        assert_eq!(held(fast), held(slow));
        assert!(main(fast) >= main(slow), "{} {}", main(fast), main(slow));
        // Nobody fills a clock with a swim-down.
        assert!(metres(fast, Part::SwimDown) <= 400, "{fast:?}");
    }
    for (session, lane) in sessions.iter().zip(&lanes) {
        check(session, lane, Course::Short25m, 60).unwrap();
    }
}

/// Where most have no test yet, the night is not headed by a pace that nobody
/// knows.
#[test]
fn a_new_squad_swims_easy() {
    let lanes = [
        vec![Facts::of_nobody(TODAY, Course::Short25m, 60); 3],
        vec![tested(400, "6:10", 5), Facts::of_nobody(TODAY, Course::Short25m, 60)],
    ];
    let night = night(Course::Short25m, &lanes, 60, NightWish::Hard, &[]);
    let sessions = for_night(&Rulebook::default(), &night).unwrap();
    assert!(sessions.iter().all(|session| session.purpose == Purpose::Technique));
    assert!(!sessions.iter().any(is_hard));
}
