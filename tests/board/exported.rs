//! What is taken along: tables that a CSV reader reads, lines that are JSON, a
//! calendar; and by whom.

use std::process::Command;

use jiff::Timestamp;
use lapwing::clock::ClockMode;
use lapwing::service::Taking;

use super::club::Club;

fn at(instant: &str) -> Option<Timestamp> {
    Some(instant.parse().unwrap())
}

/// A fortnight of a squad in Madrid, before and over the change to summer time (29
/// March 2026): Tuesdays at eight.
async fn spring() -> (Club, String) {
    let club = Club::open(ClockMode::Message).await;
    let code = club.squad_in("Dusk, and later", "coach", "Europe/Madrid").await;
    for who in ["heron", "teal"] {
        club.say_at(who, &format!("join {code} {who}"), at("2026-03-03T18:00:00Z")).await;
    }
    for (when, who, text) in [
        ("2026-03-03T18:10:00Z", "coach", "slot tue 2000-2100 2 lanes"),
        ("2026-03-03T18:20:00Z", "heron", "200 test 3:12.5"),
        ("2026-03-03T18:21:00Z", "teal", "race 1500 on 22 mar"),
        ("2026-03-03T18:22:00Z", "heron", "in"),
        ("2026-03-03T19:05:00Z", "coach", "here heron"),
        ("2026-03-03T20:30:00Z", "heron", "4x50 on 1:15 held 48 48.5 x 49"),
        ("2026-03-04T20:30:00Z", "heron", "done 1800 45min rpe 5"),
        ("2026-03-05T09:00:00Z", "heron", "knee hurts 4"),
    ] {
        club.say_at(who, text, at(when)).await;
    }
    let said = club.say_at("coach", "board", at("2026-03-05T09:01:00Z")).await;
    let url = said.split_whitespace().find(|word| word.starts_with("http")).unwrap().to_owned();
    (club, url)
}

fn rows(csv: &str) -> Vec<std::collections::BTreeMap<String, String>> {
    csv::Reader::from_reader(csv.as_bytes()).deserialize().map(Result::unwrap).collect()
}

#[tokio::test(flavor = "multi_thread")]
async fn tables_say_what_was_swum() {
    let (club, url) = spring().await;
    let tests = club.fetch(&format!("{url}/tests.csv")).await;
    assert_eq!(tests.status, 200);
    assert_eq!(tests.headers["content-type"], "text/csv; charset=utf-8; header=present");
    assert_eq!(tests.headers["content-disposition"], "attachment; filename=\"tests.csv\"");
    assert_eq!(tests.headers["cache-control"], "no-store");
    // RFC 4180, section 2: lines end with CRLF.
    assert!(tests.text.ends_with("\r\n") && !tests.text.replace("\r\n", "").contains('\n'));
    let [test] = &rows(&tests.text)[..] else { panic!("{}", tests.text) };
    for (column, value) in [
        ("swimmer", "heron"),
        ("on", "2026-03-03"),
        ("distance", "200"),
        ("unit", "m"),
        ("course", "25m"),
        ("stroke", "free"),
        ("time_s", "192.5"),
        ("meet", "false"),
    ] {
        assert_eq!(test[column], value, "{column}");
    }
    let sets = rows(&club.fetch(&format!("{url}/sets.csv")).await.text);
    assert_eq!((&*sets[0]["times_s"], &*sets[0]["send_off_s"]), ("48 48.5 x 49", "75"));
    let sessions = rows(&club.fetch(&format!("{url}/sessions.csv")).await.text);
    let own = sessions.iter().find(|row| row["on"] == "2026-03-04").unwrap();
    assert_eq!((&*own["distance"], &*own["duration_s"], &*own["rpe"]), ("1800", "2700", "5.0"));
    let came = rows(&club.fetch(&format!("{url}/attendance.csv")).await.text);
    assert_eq!((&*came[0]["said"], &*came[0]["seen"]), ("in", "here"));
    // A table without rows still has its columns.
    let taking =
        Taking { squad: None, swimmer: Some("teal".parse_name()), file: "sets.csv".into() };
    assert!(club.service.taken(&taking).unwrap().starts_with("swimmer,on,count,distance,unit"));
}

trait ParseName {
    fn parse_name(&self) -> lapwing::message::Name;
}

impl ParseName for str {
    fn parse_name(&self) -> lapwing::message::Name {
        lapwing::message::Name::new(self).unwrap()
    }
}

/// A squad's lines tell nobody's health; one's own do.
#[tokio::test(flavor = "multi_thread")]
async fn everything_is_an_object_a_line() {
    let (club, url) = spring().await;
    let kinds = |text: &str| -> Vec<String> {
        let lines =
            text.lines().map(|line| serde_json::from_str::<serde_json::Value>(line).unwrap());
        lines.map(|line| line["kind"].as_str().unwrap().to_owned()).collect()
    };
    let squad = club.fetch(&format!("{url}/everything.jsonl")).await.text;
    for kind in ["squad", "swimmer", "test", "set", "session", "attendance", "race"] {
        assert!(kinds(&squad).iter().any(|one| one == kind), "{kind}");
    }
    assert!(!squad.contains("knee") && !kinds(&squad).contains(&"pain".to_owned()), "{squad}");
    let own = |who: &str| {
        let file = "everything.jsonl".to_owned();
        club.service.taken(&Taking { squad: None, swimmer: Some(who.parse_name()), file }).unwrap()
    };
    assert!(own("heron").contains(r#""where":"knee""#) && !own("heron").contains("teal"));
    assert!(own("teal").contains(r#""on":"2026-03-22""#) && !own("teal").contains("heron"));
}

#[tokio::test(flavor = "multi_thread")]
async fn files_are_shut_with_the_page() {
    let (club, url) = spring().await;
    for nothing in ["tests.txt", "tests.csv%00", "..%2Ftests.csv"] {
        let none = club.fetch(&format!("{url}/{nothing}")).await;
        assert_eq!(none.status, 404, "{nothing}");
    }
    club.pass(jiff::Span::new().hours(12));
    for file in ["tests.csv", "everything.jsonl", "calendar.ics"] {
        let shut = club.fetch(&format!("{url}/{file}")).await;
        assert_eq!(shut.status, 404, "{file}");
        assert!(!shut.text.contains("heron"), "{}", shut.text);
    }
    let refused = |squad: Option<&str>, swimmer: Option<&str>, file: &str| {
        let squad = squad.map(|id| lapwing::history::SquadId(id.to_owned()));
        let swimmer = swimmer.map(|name| name.parse_name());
        club.service.taken(&Taking { squad, swimmer, file: file.into() }).unwrap_err().to_string()
    };
    assert!(refused(Some("nosuch"), None, "tests.csv").contains("nosuch"));
    assert!(refused(None, Some("plover"), "tests.csv").contains("plover"));
    assert!(refused(None, None, "tests.pdf").contains("calendar.ics"));
}

/// RFC 5545, 3.8.4.7 and 3.8.7.4: what changes keeps its UID and counts up.
#[tokio::test(flavor = "multi_thread")]
async fn a_night_that_is_off_stays_in_the_calendar_as_cancelled() {
    let (club, url) = spring().await;
    let event = |calendar: &str, day: &str| -> String {
        let events = calendar.split("BEGIN:VEVENT").skip(1);
        let mut of_day = events.filter(|event| event.contains(&format!("DTSTART:{day}")));
        of_day.next().unwrap_or_else(|| panic!("{day}: {calendar}")).to_owned()
    };
    let line = |event: &str, name: &str| -> String {
        event.lines().find_map(|line| line.strip_prefix(name)).unwrap().to_owned()
    };
    let before = club.fetch(&format!("{url}/calendar.ics")).await.text;
    club.say_at("coach", "shut 10 mar", at("2026-03-05T09:02:00Z")).await;
    let after = club.fetch(&format!("{url}/calendar.ics")).await.text;
    let (before, after) = (event(&before, "20260310"), event(&after, "20260310"));
    assert_eq!(line(&before, "UID:"), line(&after, "UID:"));
    assert_eq!(
        (line(&before, "STATUS:"), line(&after, "STATUS:")),
        ("CONFIRMED".into(), "CANCELLED".into())
    );
    let number = |event: &str| line(event, "SEQUENCE:").parse::<u32>().unwrap();
    assert!(number(&after) > number(&before));
}

/// RFC 5545, 3.8.7.4 and RFC 5546, 2.1.4: what moved keeps its UID with a higher
/// SEQUENCE, and what is off stays with the status of it, a race as a session.
#[tokio::test(flavor = "multi_thread")]
async fn a_race_that_moved_and_what_was_called_off_stay_in_the_calendar() {
    let (club, url) = spring().await;
    let steps = [
        // As it is, moved, taken back to where it was, and wholly.
        (None, ("2026-03-22", "CONFIRMED")),
        (Some("race 1500 on 29 mar"), ("2026-03-29", "CONFIRMED")),
        (Some("undo"), ("2026-03-22", "CONFIRMED")),
        // Another takes its place; then it is named again.
        (Some("race 400 on 5 apr"), ("2026-03-22", "CANCELLED")),
        (Some("race 1500 on 23 mar"), ("2026-03-23", "CONFIRMED")),
    ];
    let (mut id, mut last) = (None, None);
    for (minute, (text, (on, status))) in steps.into_iter().enumerate() {
        if let Some(text) = text {
            said(&club, "teal", text, &format!("2026-03-05T09:1{minute}:00Z")).await;
        }
        let calendar = club.fetch(&format!("{url}/calendar.ics")).await.text;
        let event = titled(&calendar, "teal: 1500 free");
        assert_eq!((&*event["DTSTART"], &*event["STATUS"]), (&*on.replace('-', ""), status));
        assert_eq!(*id.get_or_insert(event["UID"].clone()), event["UID"], "{text:?}");
        let number: u64 = event["SEQUENCE"].parse().unwrap();
        assert!(last.replace(number).is_none_or(|last| number > last), "{text:?}: {calendar}");
    }
    // Neither does an entry vanish that was scratched, nor what was told for a day.
    said(&club, "heron", "plan", "2026-03-05T09:20:00Z").await;
    let own = club.service.taken(&Taking {
        squad: None,
        swimmer: Some("heron".parse_name()),
        file: "calendar.ics".into(),
    });
    let before = events(&own.unwrap());
    let of = |all: &[Event], which: &Event| {
        all.iter().find(|one| one["UID"] == which["UID"]).cloned().unwrap()
    };
    let sessions: Vec<&Event> =
        before.iter().filter(|one| one["SUMMARY"].starts_with("heron: ")).collect();
    assert!(!sessions.is_empty(), "{before:?}");
    said(&club, "heron", "felt faint", "2026-03-05T09:21:00Z").await;
    let own = club.service.taken(&Taking {
        squad: None,
        swimmer: Some("heron".parse_name()),
        file: "calendar.ics".into(),
    });
    let after = events(&own.unwrap());
    for one in sessions {
        let now = of(&after, one);
        assert_eq!((&*now["STATUS"], &now["DTSTART"]), ("CANCELLED", &one["DTSTART"]));
        let number = |of: &Event| of["SEQUENCE"].parse::<u64>().unwrap();
        assert!(number(&now) > number(one), "{now:?}");
    }
}

/// The properties of an event, by name without parameters.
type Event = std::collections::BTreeMap<String, String>;

fn events(calendar: &str) -> Vec<Event> {
    let whole = calendar.replace("\r\n ", "");
    let event = |text: &str| -> Event {
        let lines = text.lines().filter_map(|line| line.split_once(':'));
        lines
            .map(|(name, value)| (name.split(';').next().unwrap().to_owned(), value.to_owned()))
            .collect()
    };
    whole.split("BEGIN:VEVENT").skip(1).map(event).collect()
}

fn titled(calendar: &str, title: &str) -> Event {
    let mut of_title: Vec<Event> =
        events(calendar).into_iter().filter(|one| one["SUMMARY"] == title).collect();
    assert_eq!(of_title.len(), 1, "{title}: {calendar}");
    of_title.remove(0)
}

async fn said(club: &Club, who: &str, text: &str, when: &str) -> String {
    club.say_at(who, text, at(when)).await
}

/// The calendar as another's parser reads it: a night before and after the change to
/// summer time, one that is off, one that moved, a race that moved and one that is off.
///
/// `LAPWING_REFERENCE_PYTHON=target/reference/bin/python cargo test --test board -- --ignored`
#[tokio::test(flavor = "multi_thread")]
#[ignore = "wants the icalendar package (tests/run reference)"]
async fn the_calendar_is_read_by_another_s_parser() {
    let (club, url) = spring().await;
    club.say_at("coach", "shut 10 mar", at("2026-03-05T09:02:00Z")).await;
    club.say_at("coach", "slot 17 mar 1900-2030 2 lanes", at("2026-03-05T09:03:00Z")).await;
    club.say_at("teal", "race 1500 on 29 mar", at("2026-03-05T09:04:00Z")).await;
    club.say_at("heron", "race 400 on 5 apr", at("2026-03-05T09:05:00Z")).await;
    club.say_at("heron", "undo", at("2026-03-05T09:06:00Z")).await;
    let calendar = club.fetch(&format!("{url}/calendar.ics")).await;
    assert_eq!(calendar.headers["content-type"], "text/calendar; charset=utf-8");
    let file = club.folder().join("calendar.ics");
    std::fs::write(&file, &calendar.text).unwrap();
    let python = std::env::var("LAPWING_REFERENCE_PYTHON").unwrap();
    let read =
        Command::new(python).args(["tests/board/read_calendar.py"]).arg(&file).output().unwrap();
    assert!(read.status.success(), "{}", String::from_utf8_lossy(&read.stderr));
    let said = String::from_utf8(read.stdout).unwrap();
    for expected in [
        "2026-03-10T19:00:00+00:00 2026-03-10T20:00:00+00:00 CANCELLED Dusk, and later",
        "2026-03-17T18:00:00+00:00 2026-03-17T19:30:00+00:00 CONFIRMED Dusk, and later",
        "2026-03-24T19:00:00+00:00 2026-03-24T20:00:00+00:00 CONFIRMED Dusk, and later",
        "2026-03-31T18:00:00+00:00 2026-03-31T19:00:00+00:00 CONFIRMED Dusk, and later",
        "2026-03-29 2026-03-30 CONFIRMED teal: 1500 free",
        "2026-04-05 2026-04-06 CANCELLED heron: 400 free",
    ] {
        assert!(said.lines().any(|line| line == expected), "{expected} is not in\n{said}");
    }
}
