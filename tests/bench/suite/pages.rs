//! What the pages and files cost: bytes, and the server's time, in a squad of 24 and in
//! one of 1,000, on an evening with 24 in four lanes; and what the coach's set costs while
//! nobody has been seen there, so that all who could come are dealt with.

use std::time::{Duration, Instant};

use jiff::Timestamp;
use jiff::tz::TimeZone;

use super::client::{self, Fetched};
use super::server::{Child, Kind, zone};

/// How often each is asked for.
const TIMES: u32 = 30;
/// What the coach puts.
const SET: &str = "set 200 easy on 5:00, 3x(4x50 hold 400 pace on 1:30, 50 easy on 1:45), 200 easy";
/// How many swim in the lanes.
const HERE: usize = 24;

pub fn pages() {
    println!("| squad | page | kB | server CPU ms | longest of {TIMES}, ms (a text: once) |");
    println!("| --- | --- | --- | --- | --- |");
    for size in [HERE, 1_000] {
        let child = Child::start(Kind::Real, 1, size);
        let path = evening(&child);
        let own = format!("{path}/swimmer/heron0");
        let pages = [
            ("the squad's", path.clone()),
            ("a swimmer's", own),
            ("tests.csv", format!("{path}/tests.csv")),
            ("everything.jsonl", format!("{path}/everything.jsonl")),
            ("calendar.ics", format!("{path}/calendar.ics")),
        ];
        for (name, path) in pages {
            let (cpu, mut longest, mut bytes) = (child.cpu_s(), Duration::ZERO, 0);
            for _ in 0..TIMES {
                let begun = Instant::now();
                let Fetched { status, body } = client::get(&child, &path);
                longest = longest.max(begun.elapsed());
                assert_eq!(status, 200, "{name}");
                bytes = body.len();
            }
            let cpu_ms = (child.cpu_s() - cpu) * 1e3 / f64::from(TIMES);
            let (kb, longest_ms) = (bytes as f64 / 1e3, longest.as_secs_f64() * 1e3);
            println!("| {size} | {name} | {kb:.1} | {cpu_ms:.1} | {longest_ms:.1} |");
        }
    }
}

/// Everybody has a history, and 24 swim now; gives the page's path.
fn evening(child: &Child) -> String {
    for swimmer in 0..child.swimmers {
        for text in [
            "400 test 6:52".to_owned(),
            format!("8x50 on 1:15 held 48 48 48 49 49 49 50 {}", 50 + swimmer % 3),
            format!("done {} 45min rpe 5", 1500 + swimmer % 9 * 100),
        ] {
            said(child, &format!("swimmer{swimmer}"), &text);
        }
    }
    let now = Timestamp::now().to_zoned_datetime(TimeZone::get(zone()).unwrap());
    let slot = format!("{:02}00-{:02}00", now.hour(), now.hour() + 1);
    let day = now.strftime("%a").to_string().to_lowercase();
    said(child, "coach0", &format!("slot {day} {slot} 4 lanes"));
    for (name, text) in [("set, nobody seen", SET), ("tonight, nobody seen", "tonight")] {
        let (cpu, begun) = (child.cpu_s(), Instant::now());
        let bytes = said(child, "coach0", text).len();
        let cpu_ms = (child.cpu_s() - cpu) * 1e3;
        let (kb, took_ms) = (bytes as f64 / 1e3, begun.elapsed().as_secs_f64() * 1e3);
        println!("| {} | {name} | {kb:.1} | {cpu_ms:.1} | {took_ms:.1} |", child.swimmers);
    }
    let names: Vec<String> = (0..HERE).map(|number| format!("heron{number}")).collect();
    for text in [format!("here {}", names.join(" ")), SET.to_owned(), "lanes 4".to_owned()] {
        said(child, "coach0", &text);
    }
    let answer = said(child, "coach0", "board");
    let (_, path) = answer.split_once("/board/").unwrap_or_else(|| panic!("{answer}"));
    let token: String = path.chars().take_while(char::is_ascii_alphanumeric).collect();
    let path = format!("/board/{token}");
    let page = String::from_utf8(client::get(child, &path).body).unwrap();
    // Not the page of an empty evening.
    assert!(page.matches("class=\"lane\"").count() >= 4, "no lanes: {answer}");
    assert!(page.matches("class=\"own\"").count() >= HERE, "no targets");
    path
}

fn said(child: &Child, from: &str, text: &str) -> String {
    let Fetched { status, body } = client::say(child, from, text);
    let answer = String::from_utf8(body).unwrap();
    assert!(status == 200 && !answer.contains("not_understood"), "{text}: {answer}");
    answer
}
