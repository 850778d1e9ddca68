//! Samples of the answers to questions that were taken apart.

use jiff::civil::{date, time as clock};
use lapwing::coaching::Race;
use lapwing::message::{Name, Pick, Term};
use lapwing::reply::{Answer, Coming, HelpReply, HoldLine, MeanOf, RankLine, TotalLine};
use lapwing::swim::conversion::{Method, convert};
use lapwing::units::{Course, Distance, Equipment, SendOff, Stroke, Unit};
use strum::VariantArray;

use super::parts::{MONDAY, metres, name, time, trial};

const WEDNESDAY: jiff::civil::Date = date(2026, 3, 4);

/// Every answer in every shape.
pub fn answers() -> Vec<Answer> {
    let heron = || Some(name("heron"));
    let last = trial(200, "3:12", MONDAY);
    let other = trial(200, "3:15", date(2026, 2, 2));
    let mut all = vec![
        Answer::Gap { who: None, best: last, to: time("3:05"), each: Some((50, time("1.8"))) },
        Answer::Gap { who: heron(), best: last, to: time("3:05"), each: None },
        Answer::Gap { who: None, best: last, to: time("3:20"), each: None },
        Answer::Pace {
            who: None,
            distance: metres(200),
            time: time("3:10"),
            pieces: vec![(50, time("47.5")), (100, time("1:35"))],
            best: Some(time("3:12")),
        },
        Answer::Pace {
            who: heron(),
            distance: metres(50),
            time: time("48"),
            pieces: vec![],
            best: None,
        },
        Answer::Sum { piece: 50, each: time("48"), distance: 200, total: time("3:12") },
        converted(None, Course::Short25m, Course::Short25yd),
        converted(heron(), Course::Short25yd, Course::Short25m),
        Answer::Versus { who: None, last, before: None, best: None },
        Answer::Versus { who: heron(), last, before: Some(other), best: Some(other) },
        Answer::Versus { who: None, last: other, before: Some(last), best: Some(last) },
        Answer::Versus { who: None, last: other, before: Some(other), best: Some(last) },
        Answer::LastSwum { who: None, on: MONDAY, days: 2, trial: Some(last) },
        Answer::LastSwum { who: heron(), on: MONDAY, days: 1, trial: None },
        Answer::LastSwum { who: None, on: MONDAY, days: 0, trial: None },
        Answer::Never { who: None, distance: None, stroke: None, from: None, to: None },
        Answer::Never {
            who: heron(),
            distance: Some(400),
            stroke: Some(Stroke::Back),
            from: Some(MONDAY),
            to: Some(WEDNESDAY),
        },
        Answer::Mean {
            of: MeanOf::One(None),
            count: 8,
            distance: 50,
            mean: time("48.9"),
            on: WEDNESDAY,
        },
        Answer::Mean {
            of: MeanOf::Lane(2),
            count: 3,
            distance: 200,
            mean: time("3:08"),
            on: MONDAY,
        },
        Answer::Mean { of: MeanOf::All, count: 12, distance: 200, mean: time("3:28"), on: MONDAY },
        Answer::Were { on: MONDAY, here: 11, absent: 1 },
        Answer::Were { on: MONDAY, here: 12, absent: 0 },
        Answer::Turnouts { from: MONDAY, to: WEDNESDAY, nights: vec![] },
        Answer::Turnouts {
            from: MONDAY,
            to: WEDNESDAY,
            nights: vec![(MONDAY, 11), (WEDNESDAY, 12)],
        },
        Answer::Coming { on: WEDNESDAY, coming: 4, unsaid: 7, out: 1 },
        Answer::LastThere { who: heron(), on: Some((MONDAY, 2)) },
        Answer::LastThere { who: None, on: None },
        Answer::SquadSwum {
            from: MONDAY,
            to: WEDNESDAY,
            metres: 21600,
            sessions: 18,
            swimmers: 11,
        },
        Answer::Hold { on: WEDNESDAY, lines: held() },
        Answer::Rest { lines: held() },
        Answer::Kit { on: WEDNESDAY, asked: vec![], kit: vec![] },
        Answer::Kit { on: WEDNESDAY, asked: vec![], kit: vec![Equipment::Fins] },
        Answer::Kit { on: WEDNESDAY, asked: vec![Equipment::Fins], kit: vec![Equipment::Fins] },
        Answer::Kit { on: WEDNESDAY, asked: vec![Equipment::Paddles], kit: vec![Equipment::Fins] },
        room(600, Some(clock(19, 40, 0, 0))),
        room(60, None),
        Answer::TestOn { on: WEDNESDAY, called: None },
        Answer::TestOn { on: WEDNESDAY, called: Some((WEDNESDAY, metres(400))) },
        Answer::TestOn { on: WEDNESDAY, called: Some((date(2026, 3, 9), metres(400))) },
        Answer::Lengths {
            distance: 1650,
            unit: Unit::Yard,
            lengths: 66,
            course: Course::Short25yd,
        },
        Answer::Stored { says: vec![] },
        Answer::Stored {
            says: vec![lapwing::message::Statement {
                who: None,
                kind: lapwing::message::Kind::Better,
            }],
        },
        Answer::Goal { who: heron(), race: None },
    ];
    all.extend([None, Some(time("3:00"))].map(|goal| Answer::Goal {
        who: None,
        race: Some(Race {
            on: date(2026, 6, 6),
            distance: metres(200),
            stroke: Stroke::Free,
            goal,
        }),
    }));
    let came = [
        Coming::There,
        Coming::NotThere,
        Coming::Unmarked,
        Coming::In,
        Coming::Perhaps,
        Coming::Out,
        Coming::Unsaid,
    ];
    all.extend(came.map(|what| Answer::Came { who: heron(), on: WEDNESDAY, what }));
    let picks =
        [Pick::Quickest, Pick::Slowest, Pick::Better, Pick::Worse, Pick::Under, Pick::Closest];
    all.extend(picks.map(|pick| ranked(pick, true)));
    all.extend(picks.map(|pick| ranked(pick, false)));
    let total = |lane| TotalLine {
        lane,
        amount: 800,
        unit: Unit::Metre,
        minutes: 24,
        ends: lane.map(|_| clock(19, 40, 0, 0)),
    };
    all.push(Answer::Total { on: WEDNESDAY, lanes: vec![total(None)] });
    all.push(Answer::Total { on: WEDNESDAY, lanes: vec![total(Some(1)), total(Some(2))] });
    all
}

fn ranked(pick: Pick, some: bool) -> Answer {
    let line = |who: &str, before| RankLine { who: name(who), time: time("3:12"), before };
    let before = match pick {
        Pick::Better => Some(time("3:14.5")),
        Pick::Worse => Some(time("3:10")),
        _ => None,
    };
    Answer::Ranked {
        pick,
        distance: 200,
        on: some.then_some(MONDAY),
        below: matches!(pick, Pick::Under | Pick::Closest).then(|| time("3:15")),
        lines: if some { vec![line("heron", before), line("teal", before)] } else { vec![] },
        of: if some || matches!(pick, Pick::Under | Pick::Closest) { 12 } else { 0 },
    }
}

fn converted(who: Option<Name>, from: Course, to: Course) -> Answer {
    let distance = Distance::new(200, from.unit()).unwrap();
    let time = time("3:12");
    let there = convert(distance, time, Stroke::Free, from, to, Method::TurnRule).unwrap();
    Answer::Converted { who, from: (distance, from), time, to: (there, to) }
}

fn held() -> Vec<HoldLine> {
    let line = |lane, who, hold: Option<&str>, on| HoldLine {
        lane,
        who,
        count: Some(8),
        distance: 50,
        hold: hold.map(time),
        on: SendOff::new(on).ok(),
    };
    vec![
        line(Some(1), None, Some("48"), 65),
        line(None, Some(name("heron")), Some("1:10"), 65),
        HoldLine { count: None, ..line(None, None, None, 65) },
    ]
}

fn room(left_s: u32, ends: Option<jiff::civil::Time>) -> Answer {
    let on = SendOff::new(65).unwrap();
    Answer::Room { count: 4, distance: 50, on, takes_s: 260, ends, left_s }
}

/// Every word of the trade, and those with figures of the sender's.
pub fn meanings() -> Vec<HelpReply> {
    let of = |term: &Term| HelpReply::Meaning { terms: vec![*term], on: None, hold: None };
    let mut all: Vec<HelpReply> = Term::VARIANTS.iter().map(of).collect();
    let terms = vec![Term::SendOff, Term::Hold];
    let (on, hold) = (SendOff::new(75).ok(), Some(time("50")));
    all.push(HelpReply::Meaning { terms, on, hold });
    all
}
