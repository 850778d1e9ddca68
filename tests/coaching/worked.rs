//! Worked weeks, as a coach would read them on a board; each snapshot was read
//! against the points by which a session is judged: sums, clock, rest, warm-up,
//! the pace met in the build, one purpose, the hard share, kit, swim-down.

use jiff::ToSpan;
use jiff::civil::Date;
use lapwing::coaching::{Facts, Race, Swum, Trouble, WeekKind, WeekPlanned, WeekWish, week};
use lapwing::swim::Trial;
use lapwing::units::{Course, Stroke};

use crate::swimmers::*;

fn ago(days: i64) -> Date {
    MONDAY.saturating_sub(days.days())
}

fn returner() -> Facts {
    let mut facts = Facts { minutes: 45, sessions_a_week: 2, ..heron() };
    facts.joined = ago(21);
    for days in [20, 17, 13, 10, 6] {
        facts.swims.push(Swum {
            on: ago(days),
            distance: Some(distance(900, Course::Short25m)),
            minutes: Some(40),
            rpe: None,
            presumed: false,
            effort_alone: false,
            hard: false,
        });
    }
    facts.tests.push(free_test(400, "9:20", ago(3)));
    facts
}

fn triathlete() -> Facts {
    let mut facts = seasoned(heron(), 2400);
    facts.tests.push(free_test(400, "6:10", ago(3)));
    facts
}

fn after_weeks(mut facts: Facts, amounts: &[u32]) -> Facts {
    for (index, amount) in amounts.iter().rev().enumerate() {
        let starts = ago(7 * (index as i64 + 1));
        facts.weeks.insert(
            0,
            WeekPlanned {
                starts,
                kind: WeekKind::Normal,
                distance: distance(*amount, facts.course),
                days: vec![(starts, true), (starts.saturating_add(3.days()), false)],
            },
        );
    }
    facts
}

fn read(name: &str, facts: &Facts, wish: &WeekWish) {
    let planned = week(facts, wish).unwrap();
    let mut out =
        format!("{:?} {} [{}]\n", planned.kind, planned.distance(), planned.rules.join(" "));
    for session in &planned.sessions {
        judge(session, facts, wish.minutes.unwrap_or(facts.minutes), facts.course).unwrap();
        out += &show(session);
    }
    insta::assert_snapshot!(name, out);
}

#[test]
fn a_returner() {
    read("returner", &returner(), &WeekWish::default());
}

#[test]
fn a_triathlete() {
    read("triathlete", &triathlete(), &WeekWish::default());
}

#[test]
fn a_masters_sprinter() {
    let mut facts = seasoned(heron(), 1900);
    facts.tests.push(free_test(100, "1:04", ago(3)));
    read("sprinter", &facts, &WeekWish::default());
}

#[test]
fn at_sixty_five() {
    let facts = Facts { age: Some(65), ..triathlete() };
    read("sixty_five", &facts, &WeekWish { sessions: Some(4), ..WeekWish::default() });
}

#[test]
fn a_minor() {
    let mut facts = seasoned(Facts { age: Some(14), sessions_a_week: 4, ..heron() }, 2200);
    facts.tests.push(free_test(200, "2:30", ago(3)));
    read("minor", &facts, &WeekWish::default());
}

#[test]
fn twice_a_week_after_three_weeks_of_work() {
    let facts = after_weeks(Facts { sessions_a_week: 2, ..triathlete() }, &[3600, 3800, 4000]);
    read("easy_week_due", &facts, &WeekWish::default());
}

#[test]
fn in_yards() {
    let mut facts = seasoned(Facts { course: Course::Short25yd, ..heron() }, 2400);
    let yards = |amount, result: &str, days| Trial {
        distance: distance(amount, Course::Short25yd),
        time: time(result),
        stroke: Stroke::Free,
        course: Course::Short25yd,
        on: ago(days),
        meet: false,
    };
    facts.tests = vec![yards(200, "2:10", 9), yards(500, "5:50", 3)];
    read("yards", &facts, &WeekWish::default());
}

#[test]
fn after_three_weeks_off() {
    let mut facts = after_weeks(triathlete(), &[]);
    facts.swims.retain(|swim| swim.on <= ago(23));
    facts.tests = vec![free_test(400, "6:10", ago(40))];
    let starts = ago(29);
    facts.weeks = vec![WeekPlanned {
        starts,
        kind: WeekKind::Normal,
        distance: distance(6600, Course::Short25m),
        days: vec![(starts, true), (ago(26), false), (ago(24), true)],
    }];
    read("three_weeks_off", &facts, &WeekWish::default());
}

#[test]
fn a_race_in_two_weeks() {
    let mut facts = after_weeks(triathlete(), &[6300, 6600]);
    facts.race = Some(Race {
        on: MONDAY.saturating_add(13.days()),
        distance: distance(1500, Course::Short25m),
        stroke: Stroke::Free,
        goal: Some(time("25:00")),
    });
    read("race_in_two_weeks", &facts, &WeekWish::default());
    let planned = week(&facts, &WeekWish::default()).unwrap();
    remember(&mut facts, &planned);
    facts.today = MONDAY.saturating_add(7.days());
    read("race_this_week", &facts, &WeekWish::default());
}

#[test]
fn with_a_sore_shoulder() {
    let mut facts = after_weeks(triathlete(), &[6300]);
    facts.open.push(Trouble::Pain { since: ago(1), place: "shoulder".into(), level: Some(4) });
    read("sore_shoulder", &facts, &WeekWish::default());
}

#[test]
fn with_thirty_minutes() {
    read("thirty_minutes", &triathlete(), &WeekWish { minutes: Some(30), ..WeekWish::default() });
}

#[test]
fn in_open_water() {
    let facts = Facts { course: Course::OpenWater, ..triathlete() };
    read("open_water", &facts, &WeekWish::default());
}
