//! Whole conversations with an invented squad, replayed through the real
//! program on a real socket and a real store, with a fixed clock; what it says
//! is compared with reviewed snapshots.

#![expect(clippy::unwrap_used, clippy::expect_used, reason = "a test that can't go on has failed")]

#[path = "../service/program.rs"]
#[expect(dead_code, reason = "shared with the service's own tests, which use the rest")]
mod program;
mod replay;
mod script;

use replay::Replay;
use script::Script;

/// Six weeks of three swimmers and their coach.
const SIX_WEEKS: &str = include_str!("six_weeks.txt");
/// Eight weeks of forty swimmers, two coaches and a group room.
const EIGHT_WEEKS: &str = include_str!("eight_weeks.txt");
/// Texts about health, as people really send them.
const CARE: &str = include_str!("care.txt");
/// An evening in the words that are called at the poolside.
const EVERYDAY: &str = include_str!("everyday.txt");
/// A squad's evenings: register, timetable, who comes.
const REGISTER: &str = include_str!("register.txt");
/// A squad's nights: the coach's own set, the squad's session, changes on the way.
const EVENING: &str = include_str!("evening.txt");
/// An evening of twenty, and what is told of it to everyone after each change.
const ONE_TRUTH: &str = include_str!("one_truth.txt");
/// An evening of twenty, from arrival to the last swim-down, in few of the coach's texts.
const NIGHT: &str = include_str!("night.txt");
/// What a coach texts from the poolside.
const POOLSIDE: &str = include_str!("poolside.txt");
/// A coach's changes of a set whose lines have no names.
const CHANGES: &str = include_str!("changes.txt");
/// How tests began, results put right, meets to come.
const MEETS: &str = include_str!("meets.txt");
/// A coach's targets in place of the computed ones.
const OWN_TARGETS: &str = include_str!("own_targets.txt");
const WEEKLY: &str = include_str!("weekly.txt");
/// Questions in people's own words, and what is passed on.
const QUESTIONS: &str = include_str!("questions.txt");
/// What swimmers can't or may not do, said before and after what they are to swim.
const LIMITS: &str = include_str!("limits.txt");
/// Plans that wait for the coach's yes.
const APPROVAL: &str = include_str!("approval.txt");
/// Eight weeks of somebody who comes back after years.
const RETURNER: &str = include_str!("returner.txt");
/// Eight weeks of a triathlete, to a race in open water.
const TRIATHLETE: &str = include_str!("triathlete.txt");
/// Eight weeks of a masters sprinter, to a meet.
const SPRINTER: &str = include_str!("sprinter.txt");
/// Who comes, who goes, who shares a telephone, who is in two squads.
const PEOPLE: &str = include_str!("people.txt");
/// Danger and its gates, opting out, offices, a child's words.
const ALARM: &str = include_str!("alarm.txt");
/// A coach who chose Spanish, and an assistant who chose nothing.
const SPANISH_COACH: &str = include_str!("spanish_coach.txt");
/// Texts that could be read in more ways than one.
const MISREAD: &str = include_str!("misread.txt");
/// A coach's changes to parts of a set that stands, and to whole evenings.
const SET_PARTS: &str = include_str!("set_parts.txt");
/// Texts that go on from the one before.
const SECOND_THOUGHTS: &str = include_str!("second_thoughts.txt");
/// What texts tell by their words where no frame knows how it is put.
const SECOND_OPINION: &str = include_str!("second_opinion.txt");

/// Texts that nothing reads, guessed and asked about.
const GUESSED: &str = include_str!("guessed.txt");
/// Texts that go wrong in every way a text can.
const BAD_TEXTS: &str = include_str!("bad_texts.txt");

#[test]
fn six_weeks() {
    let script = Script::read(SIX_WEEKS);
    assert!(script.lines.len() >= 30, "a conversation of 30 messages or more");
    let mut replay = Replay::begin();
    let dialogue = replay.run(&script.lines);
    insta::assert_snapshot!("six_weeks", dialogue);
}

#[test]
fn eight_weeks() {
    let script = Script::read(EIGHT_WEEKS);
    let mut replay = Replay::begin();
    let dialogue = replay.run(&script.lines);
    insta::assert_snapshot!("eight_weeks", dialogue);
}

#[test]
fn care() {
    let script = Script::read(CARE);
    let mut replay = Replay::begin();
    let dialogue = replay.run(&script.lines);
    insta::assert_snapshot!("care", dialogue);
}

#[test]
fn register() {
    let script = Script::read(REGISTER);
    let mut replay = Replay::begin();
    let dialogue = replay.run(&script.lines);
    insta::assert_snapshot!("register", dialogue);
}

#[test]
fn everyday() {
    let script = Script::read(EVERYDAY);
    let mut replay = Replay::begin();
    let dialogue = replay.run(&script.lines);
    insta::assert_snapshot!("everyday", dialogue);
}

#[test]
fn evening() {
    let script = Script::read(EVENING);
    let mut replay = Replay::begin();
    let dialogue = replay.run(&script.lines);
    insta::assert_snapshot!("evening", dialogue);
}

#[test]
fn set_parts() {
    let script = Script::read(SET_PARTS);
    let mut replay = Replay::begin();
    let dialogue = replay.run(&script.lines);
    insta::assert_snapshot!("set_parts", dialogue);
}

#[test]
fn one_truth() {
    let script = Script::read(ONE_TRUTH);
    let mut replay = Replay::begin();
    let dialogue = replay.run(&script.lines);
    insta::assert_snapshot!("one_truth", dialogue);
}

/// From arrival to the last swim-down the coach sends at most fifteen texts, none of
/// them for the rest of an answer; and what changes and when it ends is in the first
/// part of each.
#[test]
fn night() {
    let script = Script::read(NIGHT);
    let evening = |line: &&script::Line| {
        line.who == "coach" && ("2026-03-03T19:55".."2026-03-03T21:00").contains(&&*line.at)
    };
    let coach: Vec<&str> =
        script.lines.iter().filter(evening).map(|line| line.text.as_str()).collect();
    assert!(coach.len() <= 15, "{coach:#?}");
    assert!(!coach.iter().any(|text| text.eq_ignore_ascii_case("more")), "{coach:#?}");
    let mut replay = Replay::begin();
    let dialogue = replay.run(&script.lines);
    insta::assert_snapshot!("night", dialogue);
}

#[test]
fn poolside() {
    let script = Script::read(POOLSIDE);
    let mut replay = Replay::begin();
    let dialogue = replay.run(&script.lines);
    insta::assert_snapshot!("poolside", dialogue);
}

#[test]
fn changes() {
    let script = Script::read(CHANGES);
    let mut replay = Replay::begin();
    let dialogue = replay.run(&script.lines);
    insta::assert_snapshot!("changes", dialogue);
}

#[test]
fn meets() {
    let script = Script::read(MEETS);
    let mut replay = Replay::begin();
    let dialogue = replay.run(&script.lines);
    insta::assert_snapshot!("meets", dialogue);
}

#[test]
fn people() {
    let script = Script::read(PEOPLE);
    let mut replay = Replay::begin();
    let dialogue = replay.run(&script.lines);
    insta::assert_snapshot!("people", dialogue);
}

#[test]
fn own_targets() {
    let script = Script::read(OWN_TARGETS);
    let mut replay = Replay::begin();
    let dialogue = replay.run(&script.lines);
    insta::assert_snapshot!("own_targets", dialogue);
}

#[test]
fn weekly() {
    let script = Script::read(WEEKLY);
    let mut replay = Replay::begin();
    let dialogue = replay.run(&script.lines);
    insta::assert_snapshot!("weekly", dialogue);
}

#[test]
fn approval() {
    let script = Script::read(APPROVAL);
    let mut replay = Replay::begin();
    let dialogue = replay.run(&script.lines);
    insta::assert_snapshot!("approval", dialogue);
}

/// Eight weeks as a coach would sign them: what is said of a session to come is what
/// comes, and each session follows from what was said.
#[test]
fn returner() {
    let script = Script::read(RETURNER);
    let mut replay = Replay::begin();
    let dialogue = replay.run(&script.lines);
    insta::assert_snapshot!("returner", dialogue);
}

#[test]
fn triathlete() {
    let script = Script::read(TRIATHLETE);
    let mut replay = Replay::begin();
    let dialogue = replay.run(&script.lines);
    insta::assert_snapshot!("triathlete", dialogue);
}

#[test]
fn sprinter() {
    let script = Script::read(SPRINTER);
    let mut replay = Replay::begin();
    let dialogue = replay.run(&script.lines);
    insta::assert_snapshot!("sprinter", dialogue);
}

#[test]
fn alarm() {
    let script = Script::read(ALARM);
    let mut replay = Replay::begin();
    let dialogue = replay.run(&script.lines);
    insta::assert_snapshot!("alarm", dialogue);
}

#[test]
fn spanish_coach() {
    let script = Script::read(SPANISH_COACH);
    let mut replay = Replay::begin();
    let dialogue = replay.run(&script.lines);
    insta::assert_snapshot!("spanish_coach", dialogue);
}

#[test]
fn misread() {
    let script = Script::read(MISREAD);
    let mut replay = Replay::begin();
    let dialogue = replay.run(&script.lines);
    insta::assert_snapshot!("misread", dialogue);
}

#[test]
fn guessed() {
    let script = Script::read(GUESSED);
    let mut replay = Replay::begin();
    let dialogue = replay.run(&script.lines);
    insta::assert_snapshot!("guessed", dialogue);
}

#[test]
fn a_second_opinion() {
    let script = Script::read(SECOND_OPINION);
    let mut replay = Replay::begin();
    let dialogue = replay.run(&script.lines);
    insta::assert_snapshot!("second_opinion", dialogue);
}

#[test]
fn second_thoughts() {
    let script = Script::read(SECOND_THOUGHTS);
    let mut replay = Replay::begin();
    let dialogue = replay.run(&script.lines);
    insta::assert_snapshot!("second_thoughts", dialogue);
}

#[test]
fn limits() {
    let script = Script::read(LIMITS);
    let mut replay = Replay::begin();
    let dialogue = replay.run(&script.lines);
    insta::assert_snapshot!("limits", dialogue);
}

#[test]
fn questions() {
    let script = Script::read(QUESTIONS);
    let mut replay = Replay::begin();
    let dialogue = replay.run(&script.lines);
    insta::assert_snapshot!("questions", dialogue);
}

#[test]
fn bad_texts() {
    let script = Script::read(BAD_TEXTS);
    let mut replay = Replay::begin();
    let dialogue = replay.run(&script.lines);
    insta::assert_snapshot!("bad_texts", dialogue);
}

/// A kill in the middle loses nothing and changes nothing that is said after.
#[test]
fn killed_and_restarted_in_the_middle() {
    let script = Script::read(SIX_WEEKS);
    let mut straight = Replay::begin();
    let whole = straight.run(&script.lines);
    let mut interrupted = Replay::begin();
    let mut pieces = String::new();
    for piece in script.lines.chunks(script.lines.len() / 4 + 1) {
        pieces.push_str(&interrupted.run(piece));
        interrupted.kill_and_restart();
    }
    assert_eq!(pieces, whole);
    for (from, text) in [
        ("coach", "squad"),
        ("coach", "heron"),
        ("coach", "teal"),
        ("wren", "me"),
        ("heron", "targets"),
    ] {
        let last = &script.lines.last().unwrap().at;
        assert_eq!(
            interrupted.result(from, last, text),
            straight.result(from, last, text),
            "{text}"
        );
    }
}

/// Every reply is in the SMS alphabet and within two parts; to a text in a chat,
/// whose window holds more, within eight.
#[test]
fn replies_fit_two_parts() {
    let mut checked = 0;
    for text in [
        SIX_WEEKS,
        EIGHT_WEEKS,
        BAD_TEXTS,
        MISREAD,
        CARE,
        PEOPLE,
        REGISTER,
        EVENING,
        NIGHT,
        POOLSIDE,
        MEETS,
        WEEKLY,
        LIMITS,
        ALARM,
        QUESTIONS,
        RETURNER,
        TRIATHLETE,
        SPRINTER,
        SET_PARTS,
    ] {
        let script = Script::read(text);
        let mut replay = Replay::begin();
        replay.run(&script.lines);
        let texts = replay.said.iter().map(|said| (said, 2));
        for (said, most) in texts.chain(replay.said_in_chat.iter().map(|said| (said, 8))) {
            assert_eq!(lapwing::reply::alphabet(said), lapwing::reply::Alphabet::Gsm7, "{said}");
            assert!(lapwing::reply::segments(said).len() <= most, "{said}");
            checked += 1;
        }
    }
    println!("{checked} replies within their parts");
}
