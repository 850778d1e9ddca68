//! Invented swimmers, chosen or random, and what every session must satisfy.

use jiff::ToSpan;
use jiff::civil::{Date, Weekday, date};
use lapwing::coaching::{
    Effort, Facts, OtherTraining, SessionWish, SetSwum, Swum, Trouble, Week, WeekPlanned,
};
use lapwing::session::{Part, Repeat, Session};
use lapwing::swim::Trial;
use lapwing::swim::critical_speed::estimate;
use lapwing::swim::levels::{Band, percent_of};
use lapwing::units::{Centis, Course, Distance, Equipment, Level, Pace, Rpe, SendOff, Stroke};
use rand::{RngExt, SeedableRng};
use rand_chacha::ChaCha8Rng;

pub const MONDAY: Date = date(2026, 3, 2);

/// How many random cases: many where the code is fast.
pub const CASES: u64 = if cfg!(debug_assertions) { 2_000 } else { 10_000 };

pub fn heron() -> Facts {
    Facts {
        handle: "heron".into(),
        today: MONDAY,
        course: Course::Short25m,
        minutes: 60,
        sessions_a_week: 3,
        shut: vec![],
        squad_hard: vec![],
        days: vec![],
        age: Some(38),
        cleared: true,
        joined: MONDAY,
        sprints_from: lapwing::units::Start::Push,
        tests: vec![],
        sets: vec![],
        swims: vec![],
        other: vec![],
        weeks: vec![],
        suggested: vec![],
        standing: vec![],
        promised: None,
        test_waits: false,
        away: vec![],
        with_squad: Vec::new(),
        clear_from: None,
        ability: lapwing::coaching::Ability::default(),
        tired: None,
        open: vec![],
        race: None,
        raced: None,
        focus: None,
        limits: vec![],
        own_targets: vec![],
    }
}

pub fn time(text: &str) -> Centis {
    text.parse().unwrap()
}

pub fn distance(amount: u32, course: Course) -> Distance {
    Distance::new(amount, course.unit()).unwrap()
}

/// 50s on 1:15, to be held at 48.
pub fn fifties(on: Date, times: &str) -> SetSwum {
    let times: Vec<_> = times.split(' ').map(|word| Some(time(word))).collect();
    let set = Repeat {
        count: u16::try_from(times.len()).unwrap(),
        distance: distance(50, Course::Short25m),
        stroke: Stroke::Free,
        target: Some(time("48")),
        send_off: SendOff::new(75).ok(),
        rest: None,
        aim: None,
        level: Level::Sprint,
        equipment: vec![],
        cue: None,
    };
    SetSwum { on, set, times, held: 0 }
}

pub fn free_test(amount: u32, result: &str, on: Date) -> Trial {
    Trial {
        distance: distance(amount, Course::Short25m),
        time: time(result),
        stroke: Stroke::Free,
        course: Course::Short25m,
        on,
        meet: false,
    }
}

/// Reports every session of a week as swum.
pub fn swum(facts: &mut Facts, week: &Week) {
    facts.swims.extend(week.sessions.iter().map(|session| Swum {
        on: session.on,
        distance: Distance::new(session.amount(), session.unit).ok(),
        minutes: None,
        rpe: None,
        presumed: false,
        effort_alone: false,
        hard: lapwing::coaching::is_hard(session),
    }));
}

/// Enough reported swims that full doses are written.
pub fn seasoned(mut facts: Facts, amount: u32) -> Facts {
    facts.joined = facts.today.saturating_sub(70.days());
    for ago in (1..=60).rev().step_by(3) {
        facts.swims.push(Swum {
            on: facts.today.saturating_sub((ago + 1).days()),
            distance: Some(distance(amount, facts.course)),
            minutes: Some(facts.minutes),
            rpe: None,
            presumed: false,
            effort_alone: false,
            hard: false,
        });
    }
    facts
}

pub fn random(seed: u64) -> Facts {
    let mut dice = ChaCha8Rng::seed_from_u64(seed);
    let course = [Course::Short25m, Course::Long50m, Course::Short25yd, Course::OpenWater]
        [[0, 0, 0, 1, 1, 2, 2, 3][dice.random_range(0..8)]];
    let mut facts = heron();
    facts.handle = format!("wren{}", dice.random_range(0..999));
    facts.today = MONDAY.saturating_add(dice.random_range(0..400).days());
    facts.course = course;
    facts.minutes = dice.random_range(20..=180);
    facts.sessions_a_week = dice.random_range(1..=7);
    facts.age = [None, Some(14), Some(40), Some(66)][dice.random_range(0..4)];
    facts.cleared = dice.random_bool(0.85);
    facts.joined = facts.today.saturating_sub(dice.random_range(0..200).days());
    if dice.random_bool(0.4) {
        let all = [
            Weekday::Monday,
            Weekday::Tuesday,
            Weekday::Wednesday,
            Weekday::Thursday,
            Weekday::Friday,
            Weekday::Saturday,
            Weekday::Sunday,
        ];
        facts.days = all.into_iter().filter(|_| dice.random_bool(0.4)).collect();
    }
    let day = |dice: &mut ChaCha8Rng, within: i32| {
        facts.today.saturating_sub(dice.random_range(0..within).days())
    };
    // 200 in 1:50 to 8:00, and every other test at a speed that goes with it.
    let per_100 = dice.random_range(55.0..240.0_f64);
    for _ in 0..dice.random_range(0..4) {
        let amount = [50, 100, 200, 200, 400, 400, 800, 1500][dice.random_range(0..8)];
        let scale = (f64::from(amount) / 200.0).powf(0.08) * dice.random_range(0.97..1.03);
        let seconds = per_100 * f64::from(amount) / 100.0 * scale;
        let pool = if dice.random_bool(0.8) { course } else { Course::Short25m };
        facts.tests.push(Trial {
            distance: distance(amount, pool),
            time: Centis::from_seconds(seconds).unwrap(),
            stroke: [
                Stroke::Free,
                Stroke::Free,
                Stroke::Free,
                Stroke::Back,
                Stroke::Breast,
                Stroke::Fly,
                Stroke::Im,
                Stroke::Kick,
            ][dice.random_range(0..8)],
            course: pool,
            on: day(&mut dice, 150),
            meet: dice.random_bool(0.2),
        });
    }
    facts.tests.sort_by_key(|test| test.on);
    for _ in 0..dice.random_range(0..25) {
        facts.swims.push(Swum {
            on: day(&mut dice, 112),
            distance: dice
                .random_bool(0.8)
                .then(|| distance(dice.random_range(8..60) * 50, course)),
            minutes: Some(45),
            rpe: Rpe::from_tenths(dice.random_range(20..90)).ok(),
            presumed: dice.random_bool(0.3),
            effort_alone: false,
            hard: dice.random_bool(0.3),
        });
    }
    facts.swims.sort_by_key(|swim| swim.on);
    if dice.random_bool(0.2) {
        facts.other.push(OtherTraining {
            on: day(&mut dice, 5),
            minutes: Some(60),
            rpe: Rpe::from_tenths(70).ok(),
        });
    }
    if dice.random_bool(0.15) {
        facts.open.push(Trouble::Pain {
            since: day(&mut dice, 10),
            place: ["shoulder", "knee", "back", "neck"][dice.random_range(0..4)].into(),
            level: Some(dice.random_range(0..=10)),
        });
    }
    if dice.random_bool(0.08) {
        facts.open.push(Trouble::Ill { since: day(&mut dice, 5), fever: dice.random_bool(0.5) });
    }
    if dice.random_bool(0.05) {
        facts.open.push(Trouble::Held { since: day(&mut dice, 5) });
    }
    facts
}

pub fn random_wish(seed: u64) -> SessionWish {
    let mut dice = ChaCha8Rng::seed_from_u64(seed ^ 0xABCD);
    let some = |dice: &mut ChaCha8Rng| dice.random_bool(0.2);
    SessionWish {
        minutes: some(&mut dice).then(|| dice.random_range(20..=180)),
        distance: None,
        with: if some(&mut dice) { vec![Equipment::Paddles] } else { vec![] },
        without: if some(&mut dice) { vec![Equipment::Fins] } else { vec![] },
        open_water: dice.random_bool(0.05),
        effort: some(&mut dice).then_some(Effort::Easier),
        shorter: some(&mut dice),
    }
}

/// What the contract and the trade ask of every session.
pub fn judge(session: &Session, facts: &Facts, minutes: u16, course: Course) -> Result<(), String> {
    let no = |what: &str| Err(format!("{what}: {}", show(session)));
    let [first, .., last] = session.blocks.as_slice() else { return no("too few blocks") };
    if first.part != Part::WarmUp || last.part != Part::SwimDown {
        return no("warm-up first, swim-down last");
    }
    if session.unit != course.unit() {
        return no("unit");
    }
    let amount: u32 = session
        .blocks
        .iter()
        .map(|b| {
            let once = b.repeats.iter().map(|r| u32::from(r.count) * r.distance.amount());
            u32::from(b.rounds) * once.sum::<u32>()
        })
        .sum();
    if session.amount() != amount || amount == 0 {
        return no("distance is not the sum");
    }
    if session.duration_s() > u32::from(minutes) * 60 {
        return no("too long");
    }
    if (session.level_share().values().sum::<f64>() - 1.0).abs() > 1e-9 {
        return no("shares");
    }
    if first.amount() * 100 < amount * 15 {
        return no("warm-up under 15 %");
    }
    let stroke_of = |stroke| {
        let here: Vec<Trial> = facts.tests.iter().filter(|t| t.course == course).copied().collect();
        estimate(&here, facts.today, stroke, course).pace()
    };
    let own_pool = facts.tests.iter().all(|test| test.course == course);
    for block in &session.blocks {
        for line in &block.repeats {
            if !line.distance.fits(course) {
                return no("whole lengths");
            }
            let Some(send_off) = line.send_off else { return no("send-off") };
            if line.count == 0 || block.rounds == 0 {
                return no("nothing to swim");
            }
            let Some(target) = line.target else {
                if line.level.is_hard() && block.part != Part::Test {
                    return no("hard without a target");
                }
                continue;
            };
            if target >= send_off.time() {
                return no("target not under send-off");
            }
            if !facts.cleared {
                return no("a target without clearance");
            }
            if let Some(critical) = stroke_of(line.stroke).filter(|_| own_pool) {
                let band = Band::of(line.level);
                let percent = percent_of(Pace::of(line.distance, target), critical);
                if !(band.slow_percent - 0.1..band.fast_percent + 0.1).contains(&percent)
                    && line.level != Level::Sprint
                {
                    return no(&format!("{percent:.1} % is not level {}", line.level.number()));
                }
            }
            let rest = send_off.rest_after(target).unwrap().seconds();
            if rest < if line.distance.amount() <= 25 { 5.0 } else { 10.0 } {
                return no("too little rest");
            }
        }
    }
    if !facts.open.is_empty() && lapwing::coaching::is_hard(session) {
        return no("hard while something is open");
    }
    Ok(())
}

/// Keeps the week as the profile would.
pub fn remember(facts: &mut Facts, week: &Week) {
    facts.weeks.push(WeekPlanned {
        starts: week.starts,
        kind: week.kind,
        distance: Distance::new(week.distance(), week.unit()).unwrap(),
        days: week.days(),
    });
}

/// A session as a coach would chalk it up, with what a reviewer wants beside.
pub fn show(session: &Session) -> String {
    let mut out = format!(
        "{} {:?} {}{} in {}:{:02} [{}]\n",
        session.on,
        session.purpose,
        session.amount(),
        session.unit,
        session.duration_s() / 60,
        session.duration_s() % 60,
        session.rules.join(" ")
    );
    for block in &session.blocks {
        let lines: Vec<String> = block.repeats.iter().map(show_line).collect();
        let rounds = if block.rounds > 1 { format!("{} x ", block.rounds) } else { String::new() };
        out += &format!("  {:?}: {rounds}({})\n", block.part, lines.join(" + "));
    }
    out
}

fn show_line(line: &lapwing::session::Repeat) -> String {
    let mut out = format!("{}x{} {}", line.count, line.distance.amount(), line.stroke);
    if let Some(target) = line.target {
        out += &format!(" in {}", target.short());
    }
    if let Some(on) = line.send_off {
        out += &format!(" on {on}");
    }
    out += &format!(" L{}", line.level.number());
    for kit in &line.equipment {
        out += &format!(" {}", kit.name());
    }
    if let Some(cue) = &line.cue {
        out += &format!(" {cue:?}");
    }
    out
}
