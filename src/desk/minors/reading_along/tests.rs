//! The narrow place that every letter to a minor passes, with letters planted
//! that no request would write.

use std::sync::Arc;

use crate::coaching::Rulebook;
use crate::desk::decision::asked::Asked;
use crate::history::{StrangersAsked, Squad, SquadId, Stamped};

const COACH: &str = "+15550100";

const HERON: &str = "+15550101";

const OFFICER: &str = "+15550109";

const GUARDIAN: &str = "+15550120";

fn asked<'a>(book: &'a Rulebook, from: &'a str, text: &'a str, now: Timestamp) -> Asked<'a> {
    static STRANGERS_ASKED: std::sync::LazyLock<StrangersAsked> = std::sync::LazyLock::new(StrangersAsked::default);
    Asked::alone(from, text, now, book, &STRANGERS_ASKED)
}

/// heron, born in `born`, with a guardian who agreed; the officer is the only
/// grown-up beside the coach.
fn squad(born: i16) -> Squad {
    let mut squad = Squad::unopened(SquadId("dusk".into()));
    let opened = Event::SquadOpened {
        name: "Dusk".into(),
        coach: COACH.into(),
        timezone: "UTC".into(),
        course: "25m".parse().unwrap(),
        code: "DUSKDUSK".into(),
        expires: None,
        minors: true,
        ready: true,
    };
    let noon: Timestamp = "2026-03-02T12:00:00Z".parse().unwrap();
    squad.apply(&Stamped { cause: 0, at: noon, by: COACH.into(), event: opened });
    let book = Rulebook::default();
    for (from, text) in [
        (COACH, format!("welfare officer {OFFICER}")),
        (HERON, "join DUSKDUSK heron".to_owned()),
        (HERON, format!("born {born}")),
        (COACH, format!("guardian heron {GUARDIAN}")),
        (GUARDIAN, "yes".to_owned()),
    ] {
        squad = answer(&squad, &asked(&book, from, &text, noon)).squad;
        squad.next_cause += 1;
    }
    squad
}

/// What becomes of a letter to heron that the coach's message carries.
fn planted(squad: &Squad, at: &str) -> (Vec<(String, String)>, Held, bool) {
    let book = Rulebook::default();
    let asked = asked(&book, COACH, "lanes", at.parse().unwrap());
    let mut desk = Desk::new(squad, &asked);
    desk.write_to(HERON, "cap on");
    let (held, refused) = desk.read_along(&Outcome::Ok(crate::reply::OkReply::Silent), "");
    let letters = desk.to_others.into_iter();
    (letters.map(|say| (say.to.unwrap(), say.text)).collect(), held, refused.is_some())
}

const NOON: &str = "2026-03-03T12:00:00Z";

const NIGHT: &str = "2026-03-03T20:00:00Z";

#[test]
fn from_sixteen_a_guardian_and_a_second_grown_up_read_it_too() {
    let (letters, held, refused) = planted(&squad(2009), NOON);
    let to: Vec<&str> = letters.iter().map(|(to, _)| to.as_str()).collect();
    assert_eq!(to, [GUARDIAN, OFFICER, HERON]);
    assert!(letters.iter().all(|(_, text)| text.contains("cap on")), "{letters:?}");
    assert!(!refused && held == Held::default());
}

#[test]
fn under_sixteen_it_goes_to_the_guardian_and_not_to_them() {
    let (letters, _, refused) = planted(&squad(2013), NOON);
    let to: Vec<&str> = letters.iter().map(|(to, _)| to.as_str()).collect();
    assert_eq!((to.as_slice(), refused), ([GUARDIAN, OFFICER].as_slice(), false));
}

#[test]
fn at_night_all_of_it_waits_for_the_morning() {
    let (_, held, _) = planted(&squad(2009), NIGHT);
    assert_eq!(held.until, Some("2026-03-04T08:00:00Z".parse().unwrap()));
    assert_eq!(held.to, [GUARDIAN, OFFICER, HERON]);
}

#[test]
fn without_either_reader_it_goes_to_nobody() {
    for silent in [GUARDIAN, OFFICER] {
        let mut squad = squad(2009);
        let at = NOON.parse().unwrap();
        let event = Event::OptedOut { address: silent.into() };
        squad.apply(&Stamped { cause: squad.next_cause, at, by: silent.into(), event });
        let (letters, _, refused) = planted(&squad, NOON);
        assert!(letters.is_empty() && refused, "{silent}: {letters:?}");
    }
    // The guardian alone does not make two, though on deck.
    let mut squad = squad(2009);
    let book = Rulebook::default();
    squad.members.remove(OFFICER);
    Arc::make_mut(squad.members.get_mut(GUARDIAN).unwrap()).role = Role::Assistant;
    let asked = asked(&book, COACH, "lanes", NOON.parse().unwrap());
    let heron = Name::new("heron").unwrap();
    assert!(!Desk::new(&squad, &asked).may_write_to(&heron));
    assert!(planted(&squad, NOON).2);
}

/// The coach's yes to a minor's plan is a text from the deck like any other.
#[test]
fn a_plan_approved_at_night_waits_for_the_morning_and_is_read_along() {
    let noon: Timestamp = NOON.parse().unwrap();
    let night: Timestamp = NIGHT.parse().unwrap();
    let waits = |squad: &mut Squad| {
        let heron = Name::new("heron").unwrap();
        let book = Rulebook::default();
        let asked = asked(&book, HERON, "plan", noon);
        let facts = Desk::new(squad, &asked).facts(&heron).unwrap();
        let wish = crate::coaching::WeekWish::default();
        let week = crate::coaching::week_by(&book, &facts, &wish).unwrap();
        let planned = crate::coaching::WeekPlanned {
            starts: week.starts,
            kind: week.kind,
            distance: crate::units::Distance::new(week.distance(), week.unit()).unwrap(),
            days: week.days(),
        };
        let event =
            Event::WeekWaits { who: heron, wish, week: planned, sessions: week.sessions.clone() };
        let cause = squad.next_cause;
        squad.apply(&Stamped { cause, at: noon, by: HERON.into(), event });
    };
    let book = Rulebook::default();
    let mut both = squad(2009);
    waits(&mut both);
    let decision = answer(&both, &asked(&book, COACH, "approve heron", night));
    let to: Vec<_> = decision.said.iter().filter_map(|say| say.to.as_deref()).collect();
    assert_eq!(to, [GUARDIAN, OFFICER, HERON]);
    assert_eq!(decision.held.to, [GUARDIAN, OFFICER, HERON]);
    assert_eq!(decision.held.until, Some("2026-03-04T08:00:00Z".parse().unwrap()));
    assert!(!decision.held.answer);
    // With nobody to read along the plan holds, and they are not written to.
    let mut alone = squad(2009);
    let event = Event::OptedOut { address: OFFICER.into() };
    alone.apply(&Stamped { cause: alone.next_cause, at: noon, by: OFFICER.into(), event });
    waits(&mut alone);
    let decision = answer(&alone, &asked(&book, COACH, "approve heron", noon));
    assert!(decision.said.iter().all(|say| say.to.is_none()), "{:?}", decision.said);
    assert_eq!(decision.result["untold"], serde_json::json!(["heron"]));
    assert_eq!(decision.squad.swimmers.values().next().unwrap().weeks.len(), 1);
}
