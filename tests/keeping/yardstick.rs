//! The session that a good coach would set next, beside ours for the same swimmer, by
//! the way that texts take.
//!
//! The yardsticks were written by coaches of adult returners, masters and triathletes
//! before ours existed (common practice, no source); their clocks were counted by hand,
//! and where one is longer than the minutes allow, ours is shorter. What may differ is
//! taste: what must not is checked here, and the snapshot shows the rest.

use serde_json::Value;

use crate::talk::{Talk, lines, main_lines};

/// What a good coach would set.
struct Yardstick {
    name: &'static str,
    /// What the swimmer texts before asking: how many days later, and what.
    texts: fn() -> Vec<(i64, String)>,
    /// The session, a part a line.
    session: &'static [&'static str],
    /// Metres in all, and at the pace of the main set.
    metres: (u64, u64),
    /// Seconds per 100 of the main set, from a push.
    pace_s: f64,
    /// Seconds of rest after a repeat of the main set.
    rest_s: f64,
    /// The most that may be hard, in percent, and the least that warms up.
    hard_percent: u64,
    warm_up_percent: u64,
    /// Minutes booked.
    minutes: u64,
    /// What of ours is another, and why it may be.
    differs: &'static [&'static str],
}

const RETURNER: Yardstick = Yardstick {
    name: "returner",
    texts: || {
        let swims = [0, 3, 4, 3, 4].map(|later| (later, "done 900 40min rpe 4".to_owned()));
        let told = [(0, "days mon thu 45min".to_owned())].into_iter().chain(swims);
        told.chain([(3, "400 test 9:20".to_owned()), (4, "next".to_owned())]).collect()
    },
    session: &[
        "Warm-up 4x50 easy on 1:50, any stroke but fly",
        "Drill 4x25 side kick, fins, on 1:15",
        "Drill 4x25 ten short sculls then swim on 1:00",
        "Build 4x25 on :55, the last in 35",
        "Main 2x(3x50 1:10 on 1:35, 50 easy on 2:15)",
        "Two running over 1:12: on 1:50, same pace; again: easy to the end.",
        "Main 2x50 steady 1:20 on 1:40",
        "Swim-down 100",
    ],
    metres: (1100, 300),
    pace_s: 140.0,
    rest_s: 25.0,
    hard_percent: 30,
    warm_up_percent: 15,
    minutes: 45,
    differs: &[
        "The coach's clock of 43:20 is more than 45 booked less 5: ours is shorter, by a drill.",
        "Four at the pace the first time, six once they are held: the low end of the dose.",
        "The steady part is as long as the timed one, so that it is a main set worth its name.",
    ],
};

const TRIATHLETE: Yardstick = Yardstick {
    name: "triathlete",
    texts: || {
        let swims = (0..18).map(|_| (3, "done 2300 55min rpe 4".to_owned()));
        let told = [(0, "minutes 60".to_owned())].into_iter().chain(swims);
        told.chain([(3, "400 test 6:10".to_owned()), (2, "next".to_owned())]).collect()
    },
    session: &[
        "Warm-up 300: 200 free, 100 back",
        "Drill 4x50 as 25 six kicks then change arms, 25 swim, fins, on 1:20",
        "Build 4x50 on 1:05, each ending at 46",
        "Main 3x(4x100 1:39 on 1:55), 30 s more between rounds",
        "Two running over 1:41: on 2:05, same pace; again: easy to the end.",
        "Main 3x100 pull buoy 1:46 on 2:00",
        "Skill 4x25 brisk, eyes up twice a length, on :45",
        "Swim-down 200",
    ],
    metres: (2500, 1200),
    pace_s: 99.0,
    rest_s: 16.0,
    hard_percent: 50,
    warm_up_percent: 12,
    minutes: 60,
    differs: &[
        "The coach's clock of 57:40 is more than 60 booked less 5: ours is 2200 m for 2500.",
        "1:40 for 1:39: 98 % of what one test tells. Ten for twelve, within the hard share.",
        "No skill for open water in a pool: sighting is swum in open water alone so far.",
    ],
};

const SPRINTER: Yardstick = Yardstick {
    name: "sprinter",
    texts: || {
        let swims = (0..18).map(|_| (3, "done 1750 55min rpe 4".to_owned()));
        let told = [(0, "minutes 60".to_owned())].into_iter().chain(swims);
        told.chain([(3, "100 test 1:04 dive".to_owned()), (2, "next".to_owned())]).collect()
    },
    session: &[
        "Warm-up 400: 200 swim, 100 kick on the back, 100 IM drill",
        "Drill 4x50 as 25 front scull, 25 long free, on 1:20",
        "Build 4x25 rising to race rhythm, the last in 17, on :50",
        "Main 2x(6x25 16 to 16.5 on 1:00, 50 33 on 3:00, 150 easy on 4:00)",
        "Two running over 17: leave out the rest of the round.",
        "Kick 6x25 strong on :50",
        "Swim-down 200",
    ],
    metres: (1750, 400),
    pace_s: 65.0,
    rest_s: 44.0,
    hard_percent: 25,
    warm_up_percent: 22,
    minutes: 60,
    differs: &[
        "Three rounds of five for two of six and a 50: as much at the pace, and a week of ours \
         has the rounds with a 50 on another day.",
        "A buoy for the kick: what is swum beside the main set rests what it worked.",
        "The 25s have 16.5 to hold and the coach 16 to 16.5: from a push, of 1:04 from a dive.",
    ],
};

/// Sums of our session: metres in all, hard, of the warm-up.
struct Ours {
    session: Value,
    text: String,
}

impl Ours {
    fn told(yardstick: &Yardstick) -> Ours {
        let mut talk = Talk::of_heron();
        let mut last = None;
        for (later, text) in (yardstick.texts)() {
            talk.days_later(later);
            last = Some(talk.says(&text));
        }
        let heard = last.unwrap();
        assert_eq!(heard.result["kind"], "session", "{heard:#?}");
        Ours { session: heard.result, text: heard.text }
    }

    fn metres(&self) -> u64 {
        self.session["distance"].as_u64().unwrap()
    }

    fn metres_where(&self, counts: impl Fn(&Value) -> bool) -> u64 {
        let counted = lines(&self.session).filter(|(_, line)| counts(line));
        let far =
            |line: &Value| line["count"].as_u64().unwrap() * line["distance"].as_u64().unwrap();
        counted.map(|(rounds, line)| rounds * far(line)).sum()
    }

    fn hard_metres(&self) -> u64 {
        self.metres_where(|line| line["level"].as_u64() >= Some(3))
    }

    fn of_part(&self, part: &str) -> u64 {
        let blocks = self.session["blocks"].as_array().unwrap().iter();
        let part = blocks.filter(|block| block["part"] == part).cloned().collect::<Vec<_>>();
        let of_it = Ours { session: serde_json::json!({ "blocks": part }), text: String::new() };
        of_it.metres_where(|_| true)
    }

    /// The hard line of the main set: how many in all, how far, the time, the rest.
    fn main(&self) -> (u64, u64, f64, f64) {
        let said = || panic!("no timed main set: {}", self.text);
        let timed = main_lines(&self.session)
            .filter(|(_, line)| line["level"].as_u64() >= Some(3) && line["target_s"].is_f64());
        let (rounds, line) =
            timed.max_by_key(|(_, line)| line["level"].as_u64()).unwrap_or_else(said);
        let target = line["target_s"].as_f64().unwrap();
        let rest = line["send_off_s"].as_f64().unwrap() - target;
        let count = rounds * line["count"].as_u64().unwrap();
        (count, line["distance"].as_u64().unwrap(), target, rest)
    }
}

/// What no taste excuses, and the two side by side.
fn beside(yardstick: &Yardstick) -> String {
    let ours = Ours::told(yardstick);
    let (count, distance, target, rest) = ours.main();
    let (whole, hard) = (ours.metres(), ours.hard_metres());
    let name = yardstick.name;
    let said = || format!("{name}: {}", ours.text);
    assert_eq!(ours.metres_where(|_| true), whole, "{}", said());
    assert!(ours.session["duration_s"].as_u64().unwrap() <= (yardstick.minutes - 5) * 60);
    assert!(hard * 100 <= whole * yardstick.hard_percent, "{hard} of {whole} hard: {}", said());
    let warm = ours.of_part("warm_up");
    assert!(warm * 100 >= whole * yardstick.warm_up_percent, "{warm} of {whole}: {}", said());
    assert!(ours.of_part("swim_down") > 0 && ours.of_part("build") > 0, "{}", said());
    assert!(ours.of_part("main") * 5 >= whole * 2, "{}", said());
    for word in ["paddles", "dive", "breath every"] {
        assert!(!ours.text.contains(word), "{word} unasked: {}", said());
    }
    assert!(ours.text.contains("Two running over"), "a stop rule: {}", said());
    // The same pace, a dose of the same order, and the rest that it wants.
    let pace = target * 100.0 / distance as f64;
    let off = (pace / yardstick.pace_s - 1.0).abs();
    assert!(off < 0.04, "{pace} per 100 beside {}: {}", yardstick.pace_s, said());
    let dose = count * distance;
    let of_order = dose * 2 >= yardstick.metres.1 && dose * 2 <= yardstick.metres.1 * 3;
    assert!(of_order, "{dose} m beside {}: {}", yardstick.metres.1, said());
    let share = whole as f64 / yardstick.metres.0 as f64;
    assert!((0.8..=1.15).contains(&share), "{whole} m beside {}: {}", yardstick.metres.0, said());
    format!(
        "{name}, a good coach: {} m, {} m of it at {:.0} s per 100, {:.0} s rest\n  {}\n\
         {name}, ours: {whole} m, {hard} m of it hard, the main set at {pace:.1} s per 100, \
         {rest:.0} s rest\n  {}\n\
         what differs:\n  {}\n",
        yardstick.metres.0,
        yardstick.metres.1,
        yardstick.pace_s,
        yardstick.rest_s,
        yardstick.session.join("\n  "),
        ours.text.replace('\n', "\n  "),
        yardstick.differs.join("\n  "),
    )
}

#[test]
fn a_good_coach_s_sessions_beside_ours() {
    let both: Vec<String> = [RETURNER, TRIATHLETE, SPRINTER].iter().map(beside).collect();
    insta::assert_snapshot!("yardstick", both.join("\n"));
}
