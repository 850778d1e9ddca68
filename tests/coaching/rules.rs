//! Every number in the rulebook does what its row says: what it decides is
//! stated for the standard number, and is different with another one.

use jiff::ToSpan;
use jiff::civil::Date;
use lapwing::coaching::{Ability, RuleId, Rulebook};
use lapwing::coaching::{
    After, Facts, Race, Refusal, SessionWish, Swum, Trouble, Week, WeekKind, WeekPlanned, WeekWish,
    feedback_by, is_mending, next_session_by, outlook_by, rules, week_by, within_measure,
};
use lapwing::session::{Part, Session};
use lapwing::units::{Course, Rpe, Stroke};

use crate::swimmers::*;

fn ago(days: i64) -> Date {
    MONDAY.saturating_sub(days.days())
}

fn swim(on: Date, amount: u32) -> Swum {
    Swum {
        on,
        distance: Some(distance(amount, Course::Short25m)),
        minutes: Some(50),
        rpe: None,
        presumed: false,
        effort_alone: false,
        hard: false,
    }
}

/// A seasoned triathlete: 400 in 6:10 as many days ago as said.
fn triathlete(tested: i64) -> Facts {
    let mut facts = seasoned(heron(), 2000);
    facts.tests.push(free_test(400, "6:10", ago(tested)));
    facts
}

/// Newly joined with a 200 in 3:12 as many days ago as said.
fn newcomer(tested: i64) -> Facts {
    let mut facts = heron();
    facts.joined = ago(tested);
    facts.tests.push(free_test(200, "3:12", ago(tested)));
    facts
}

fn sprinter() -> Facts {
    let mut facts = seasoned(heron(), 2000);
    facts.tests.push(free_test(100, "1:04", ago(3)));
    facts
}

/// A week of three sessions, the second of them hard, as many days ago as said.
fn planned(starts: i64, kind: WeekKind, amount: u32) -> WeekPlanned {
    let starts = ago(starts);
    let day = |after: i64| starts.saturating_add(after.days());
    WeekPlanned {
        starts,
        kind,
        distance: distance(amount, Course::Short25m),
        days: vec![(day(0), false), (day(2), kind == WeekKind::Normal), (day(4), false)],
    }
}

fn with_weeks(mut facts: Facts, weeks: Vec<WeekPlanned>) -> Facts {
    facts.weeks = weeks;
    facts
}

fn suggested(book: &Rulebook, mut facts: Facts) -> Facts {
    let mut before = facts.clone();
    before.today = ago(2);
    before.open.clear();
    facts.suggested.push(next_session_by(book, &before, &SessionWish::default()).unwrap());
    facts
}

fn next(book: &Rulebook, facts: &Facts) -> Session {
    next_session_by(book, facts, &SessionWish::default()).unwrap()
}

fn purpose(book: &Rulebook, facts: &Facts) -> String {
    format!("{:?}", next(book, facts).purpose)
}

fn amount(book: &Rulebook, facts: &Facts) -> String {
    next(book, facts).amount().to_string()
}

fn week(book: &Rulebook, facts: &Facts, kind: Option<WeekKind>) -> Week {
    let wish = WeekWish { kind, ..WeekWish::default() };
    week_by(book, facts, &wish).unwrap_or_else(|refusal: Refusal| panic!("{refusal:?}"))
}

fn kind_and_distance(book: &Rulebook, facts: &Facts, kind: Option<WeekKind>) -> String {
    let week = week(book, facts, kind);
    format!("{:?} {}", week.kind, week.distance())
}

fn part(session: &Session, part: Part) -> String {
    let amount: u32 =
        session.blocks.iter().filter(|block| block.part == part).map(|block| block.amount()).sum();
    format!("{} of {}", amount, session.amount())
}

fn hard_metres(session: &Session) -> String {
    let hard: u32 = session
        .main()
        .flat_map(|block| block.repeats.iter().map(|line| (block.rounds, line)))
        .filter(|(_, line)| line.level.is_hard())
        .map(|(rounds, line)| u32::from(rounds) * line.amount())
        .sum();
    format!("{hard} of {}", session.amount())
}

fn hurt(mut facts: Facts, level: u8) -> Facts {
    facts.open = vec![Trouble::Pain { since: ago(1), place: "knee".into(), level: Some(level) }];
    facts
}

fn ill(mut facts: Facts, fever: bool) -> Facts {
    facts.open = vec![Trouble::Ill { since: MONDAY, fever }];
    facts
}

fn race(mut facts: Facts, days: i64, goal: Option<&str>) -> Facts {
    facts.race = Some(Race {
        on: MONDAY.saturating_add(days.days()),
        distance: distance(1500, Course::Short25m),
        stroke: Stroke::Free,
        goal: goal.map(time),
    });
    facts
}

/// What the last of the sets changes.
fn change(book: &Rulebook, sets: &[&str]) -> String {
    let mut facts = newcomer(20);
    let last = sets.len() - 1;
    for (index, times) in sets.iter().enumerate() {
        facts.sets.push(fifties(ago(3 * (last - index) as i64), times));
    }
    let change = feedback_by(book, &facts, &facts.sets[last]).change;
    let set = change.set;
    let (target, on) = (set.target.unwrap().short(), set.send_off.unwrap());
    format!("{:?} {} {target} {on}", change.what, set.count)
}

fn threshold(book: &Rulebook) -> Session {
    let session = next(book, &triathlete(3));
    assert_eq!(format!("{:?}", session.purpose), "Threshold");
    session
}

/// What the rule's number decides, in words.
fn observe(rule: RuleId, book: &Rulebook) -> String {
    use RuleId::*;
    match rule {
        FirstSwimsEasy => {
            let mut facts = heron();
            facts.joined = ago(15);
            facts.swims = (1..=4).rev().map(|week| swim(ago(3 * week), 1000)).collect();
            purpose(book, &facts)
        }
        PainEasy => amount(book, &hurt(suggested(book, triathlete(4)), 4)),
        PainStop => amount(book, &hurt(suggested(book, triathlete(4)), 7)),
        IllEasy => amount(book, &ill(suggested(book, triathlete(4)), false)),
        IllDays => next(book, &ill(triathlete(4), false)).on.to_string(),
        FeverDays => next(book, &ill(triathlete(4), true)).on.to_string(),
        BreakDays => {
            let mut facts = triathlete(40);
            facts.swims.retain(|swim| swim.on <= ago(12));
            format!("{:?}", week(book, &facts, None).kind)
        }
        BreakShare | LongBreakShare | LongestBreakShare => {
            let away = match rule {
                BreakShare => 14,
                LongBreakShare => 28,
                _ => 60,
            };
            let mut facts = triathlete(80);
            facts.swims.retain(|swim| swim.on <= ago(away + 4));
            let weeks = vec![planned(away + 4, WeekKind::Normal, 6000)];
            kind_and_distance(book, &with_weeks(facts, weeks), None)
        }
        RampWeek => {
            let mut facts = with_weeks(triathlete(5), vec![planned(7, WeekKind::Normal, 4500)]);
            facts.sessions_a_week = 4;
            kind_and_distance(book, &facts, Some(WeekKind::Hard))
        }
        RampSession | RampSessionMetres => {
            let mut facts = heron();
            facts.minutes = 120;
            facts.joined = ago(20);
            facts.tests.push(free_test(400, "4:40", ago(5)));
            let longest = if rule == RampSession { 3000 } else { 1000 };
            facts.swims.push(swim(ago(7), longest));
            amount(book, &facts)
        }
        NormalStep => {
            let facts = with_weeks(triathlete(5), vec![planned(7, WeekKind::Normal, 5000)]);
            kind_and_distance(book, &facts, None)
        }
        ReturnDays => {
            is_mending(book, ago(6), After::Ill { fever: false }, MONDAY, true).to_string()
        }
        FeverReturnDays => {
            is_mending(book, ago(12), After::Ill { fever: true }, MONDAY, true).to_string()
        }
        MainShare => part(&next(book, &newcomer(3)), Part::Main),
        CutShort => {
            let mut facts = triathlete(5);
            let told = next(book, &facts);
            facts.suggested.push(Session { on: ago(1), ..told.clone() });
            facts.swims.push(swim(ago(1), told.amount() * 2 / 3 / 25 * 25));
            within_measure(book, &facts, &told).to_string()
        }
        HighEffort => {
            let mut facts = triathlete(5);
            let rpe = Rpe::from_tenths(85).ok();
            facts.swims.push(Swum { rpe, ..swim(ago(1), 2000) });
            rule_of(&next(book, &facts), "high-effort")
        }
        FirstWeekShare => kind_and_distance(book, &newcomer(0), None),
        EasyWeekAfter => {
            let weeks = [14, 7].map(|starts| planned(starts, WeekKind::Normal, 5000));
            format!("{:?}", week(book, &with_weeks(triathlete(5), weeks.to_vec()), None).kind)
        }
        EasyWeekShare => {
            let facts = with_weeks(triathlete(5), vec![planned(7, WeekKind::Normal, 5000)]);
            kind_and_distance(book, &facts, Some(WeekKind::Easy))
        }
        HardDaysApart => purpose(book, &newcomer(2)),
        HardDaysApartOlder => purpose(book, &Facts { age: Some(66), ..newcomer(3) }),
        GentlerFromAge => purpose(book, &Facts { age: Some(66), ..newcomer(2) }),
        GentlerBelowAge => hard_metres(&next(book, &Facts { age: Some(14), ..triathlete(3) })),
        RetestAfter => {
            let mut facts = triathlete(40);
            facts.tests.insert(0, free_test(200, "2:55", ago(42)));
            purpose(book, &facts)
        }
        SecondTestAfter => purpose(book, &triathlete(10)),
        TaperDays => format!("{:?}", week(book, &race(triathlete(5), 8, None), None).kind),
        TaperDaysMany => {
            let facts = Facts { sessions_a_week: 4, ..race(triathlete(5), 13, None) };
            format!("{:?}", week(book, &facts, None).kind)
        }
        TaperShare | TaperShareMany => {
            let weeks = vec![planned(7, WeekKind::Normal, 6000)];
            let mut facts = with_weeks(race(triathlete(5), 9, None), weeks);
            facts.sessions_a_week = if rule == TaperShare { 3 } else { 4 };
            kind_and_distance(book, &facts, None)
        }
        RaceEve => purpose(book, &race(triathlete(5), 2, None)),
        RecoverDays => {
            let mut facts = race(triathlete(5), -4, None);
            facts.tests.push(free_test(200, "2:55", ago(5)));
            purpose(book, &facts)
        }
        RecoverDaysShort => {
            let mut facts = race(triathlete(5), -2, None);
            facts.race.as_mut().unwrap().distance = distance(100, Course::Short25m);
            facts.tests.push(free_test(200, "2:55", ago(5)));
            purpose(book, &facts)
        }
        Unbroken => {
            let unbroken = Some(distance(100, Course::Short25m));
            let ability = Ability { unbroken, most: None };
            let tests = vec![free_test(100, "2:10", ago(7))];
            purpose(book, &Facts { ability, tests, ..newcomer(9) })
        }
        Tired => purpose(book, &Facts { tired: Some(ago(1)), ..triathlete(5) }),
        GainPerWeek | TaperGain => {
            let facts = race(triathlete(5), 56, None);
            outlook_by(book, &facts, facts.race.as_ref().unwrap()).unwrap().expected.to_string()
        }
        GainWeeks => {
            let facts = race(triathlete(5), 200, None);
            outlook_by(book, &facts, facts.race.as_ref().unwrap()).unwrap().expected.to_string()
        }
        BookedLess => (next(book, &newcomer(1)).duration_s() / 60).to_string(),
        WarmUpShare => part(&next(book, &triathlete(1)), Part::WarmUp),
        WarmUpShareSpeed => part(&next(book, &sprinter()), Part::WarmUp),
        WarmUpShareOlder => {
            part(&next(book, &Facts { age: Some(66), ..newcomer(3) }), Part::WarmUp)
        }
        SwimDownShare => part(&next(book, &newcomer(3)), Part::SwimDown),
        HardShareThreshold => hard_metres(&threshold(book)),
        HardShareReturner => hard_metres(&next(book, &newcomer(3))),
        HardShareRace => hard_metres(&next(book, &sprinter())),
        SlowHalf => {
            let session = threshold(book);
            let line = session.main().next().unwrap().repeats[0].clone();
            format!("{} in {}", line.distance, line.target.unwrap().short())
        }
        StepRepeats => change(book, &["48 48 48 48 48 48 48 48"]),
        StepSendOffShorter => change(book, &["48 48 48"]),
        StepSendOffLonger => change(book, &["48 48 49 50 49 49 50 51"]),
        LastQuarter => change(book, &["48 48 48 48 48 50 48 50"]),
        FewestRepeats => change(book, &["48 48 48 48 49 49 50 50"]),
        CutBacks => change(book, &["48 48 50 50 50 50", "48 48 50 50 50 50"]),
        FasterStep => change(book, &["48 48 48 48 48 48", "48 48 48 48 48 48"]),
        HeldBeforeFaster => change(book, &["48 48 48 48 48 48", "48 48 48 48 48 48"]),
        _ => panic!("{rule} has no number"),
    }
}

/// Whether that rule decided.
fn rule_of(session: &Session, id: &str) -> String {
    session.rules.iter().any(|rule| rule == id).to_string()
}

/// Each rule with a number: another number, and what is seen with the standard
/// one.
const SEEN: &[(RuleId, f64, &str)] = &[
    (RuleId::FirstSwimsEasy, 6.0, "Test"),
    (RuleId::PainEasy, 50.0, "1400"),
    (RuleId::PainStop, 8.0, "1000"),
    (RuleId::IllEasy, 30.0, "1000"),
    (RuleId::IllDays, 5.0, "2026-03-05"),
    (RuleId::FeverDays, 6.0, "2026-03-07"),
    (RuleId::BreakDays, 15.0, "Return"),
    (RuleId::BreakShare, 50.0, "Return 4200"),
    (RuleId::LongBreakShare, 40.0, "Return 3000"),
    (RuleId::LongestBreakShare, 30.0, "Return 2400"),
    (RuleId::ReturnDays, 4.0, "true"),
    (RuleId::FeverReturnDays, 8.0, "true"),
    (RuleId::MainShare, 55.0, "800 of 1800"),
    (RuleId::CutShort, 55.0, "false"),
    (RuleId::HighEffort, 9.5, "true"),
    (RuleId::RampWeek, 4.0, "Hard 4950"),
    (RuleId::RampSession, 20.0, "3300"),
    (RuleId::RampSessionMetres, 400.0, "1200"),
    (RuleId::NormalStep, 2.0, "Normal 5250"),
    (RuleId::FirstWeekShare, 60.0, "Normal 4700"),
    (RuleId::EasyWeekAfter, 2.0, "Normal"),
    (RuleId::EasyWeekShare, 60.0, "Easy 3500"),
    (RuleId::HardDaysApart, 3.0, "PaceHolding"),
    (RuleId::HardDaysApartOlder, 4.0, "PaceHolding"),
    (RuleId::RetestAfter, 50.0, "Test"),
    (RuleId::SecondTestAfter, 20.0, "Test"),
    (RuleId::TaperDays, 5.0, "Taper"),
    (RuleId::TaperDaysMany, 10.0, "Taper"),
    (RuleId::TaperShare, 50.0, "Taper 3900"),
    (RuleId::TaperShareMany, 70.0, "Taper 3000"),
    (RuleId::RaceEve, 1.0, "Technique"),
    (RuleId::RecoverDays, 2.0, "Technique"),
    (RuleId::RecoverDaysShort, 1.0, "Technique"),
    (RuleId::Unbroken, 5.0, "Technique"),
    (RuleId::Tired, 0.0, "Technique"),
    (RuleId::GainPerWeek, 0.4, "24:40.91"),
    (RuleId::GainWeeks, 4.0, "24:22.64"),
    (RuleId::TaperGain, 3.0, "24:40.91"),
    (RuleId::GentlerFromAge, 70.0, "Technique"),
    (RuleId::GentlerBelowAge, 12.0, "300 of 2000"),
    (RuleId::BookedLess, 15.0, "54"),
    (RuleId::WarmUpShare, 40.0, "550 of 1900"),
    (RuleId::WarmUpShareSpeed, 50.0, "550 of 1750"),
    (RuleId::WarmUpShareOlder, 40.0, "500 of 1800"),
    (RuleId::SwimDownShare, 20.0, "200 of 1800"),
    (RuleId::HardShareThreshold, 20.0, "1000 of 2150"),
    (RuleId::HardShareReturner, 12.0, "300 of 1800"),
    (RuleId::HardShareRace, 10.0, "400 of 1750"),
    (RuleId::SlowHalf, 96.0, "100m in 1:40"),
    (RuleId::StepRepeats, 10.0, "MoreRepeats 10 48 1:15"),
    (RuleId::StepSendOffShorter, 10.0, "ShorterSendOff 3 48 1:10"),
    (RuleId::StepSendOffLonger, 20.0, "LongerSendOff 8 48 1:25"),
    (RuleId::LastQuarter, 50.0, "LongerSendOff 8 48 1:25"),
    (RuleId::FewestRepeats, 85.0, "FewerRepeats 6 48 1:15"),
    (RuleId::CutBacks, 3.0, "Retest 6 48 1:15"),
    (RuleId::FasterStep, 0.5, "FasterTarget 6 47.6 1:15"),
    (RuleId::HeldBeforeFaster, 3.0, "FasterTarget 6 47.6 1:15"),
];

#[test]
fn every_number_decides_something() {
    let standard = Rulebook::default();
    let mut wrong = Vec::new();
    for (rule, other, expected) in SEEN {
        let seen = observe(*rule, &standard);
        let book = Rulebook::from_toml(&format!("{rule} = {other}")).unwrap();
        let changed = observe(*rule, &book);
        if seen != *expected || changed == seen {
            wrong.push(format!("    (RuleId::{rule:?}, {other:?}, {seen:?}), // {changed}"));
        }
    }
    assert!(wrong.is_empty(), "\n{}", wrong.join("\n"));
}

#[test]
fn every_rule_with_a_number_is_seen() {
    let with_number = rules().iter().filter(|rule| rule.number.is_some()).map(|rule| rule.id);
    for id in with_number {
        assert!(SEEN.iter().any(|(rule, ..)| rule.id() == id), "{id} has no row");
    }
}

#[test]
fn standard_numbers_lie_within_what_a_coach_may_set() {
    for rule in rules() {
        if let Some(number) = rule.number {
            assert!((number.least..=number.most).contains(&number.value), "{}", rule.id);
        }
        assert!(
            rule.reason.en.len() <= 100 && rule.reason.es.chars().count() <= 100,
            "{}",
            rule.id
        );
    }
}

#[test]
fn err_bad_book() {
    for (text, message) in [
        ("ramp-week = 5\nramp-weak = 5", "line 2: no rule `ramp-weak`; did you mean `ramp-week`?"),
        ("\n\nramp-week = 40", "line 3: rule `ramp-week` may be 0 to 15 percent, not 40"),
        ("easy-week-after = \"four\"", "line 1: rule `easy-week-after` wants a number of weeks"),
        ("stopped = 1", "line 1: rule `stopped` has no number to change"),
        ("ramp-week = 5\nramp-week = 6", "line 2: not TOML: duplicate key"),
        ("ramp-week = nan", "line 1: rule `ramp-week` wants a number of percent"),
    ] {
        let errors = Rulebook::from_toml(text).unwrap_err();
        assert_eq!(errors[0].to_string(), message, "{text}");
    }
}
