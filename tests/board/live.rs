//! The line on which a page hears when to look again: what is told, for how long, and
//! how many may listen.

use std::time::Duration;

use jiff::ToSpan;
use lapwing::clock::ClockMode;
use reqwest::{Response, StatusCode};
use rustix::process::{Resource, Rlimit, getrlimit, setrlimit};
use tokio::time::timeout;

use super::club::Club;

/// Far above what it takes, so that a busy machine fails nothing.
const PATIENCE: Duration = Duration::from_secs(60);

/// Listens until these words are told; none once the line ends.
async fn hears(line: &mut Response, words: &str) -> Option<()> {
    let told = async {
        let mut text = String::new();
        while let Some(more) = line.chunk().await.ok().flatten() {
            text.push_str(std::str::from_utf8(&more).unwrap());
            if text.contains(words) {
                return Some(());
            }
        }
        None
    };
    timeout(PATIENCE, told).await.unwrap_or_else(|_| panic!("`{words}` is not told"))
}

const CHANGED: &str = "data: changed\n";
const CALM: &str = "data: calm\n";

async fn dusk() -> (Club, String) {
    let club = Club::open(ClockMode::Wall).await;
    let code = club.squad("Dusk", "coach", false).await;
    club.say("heron", &format!("join {code} heron")).await;
    let url = club.link("coach").await;
    (club, format!("{url}/live"))
}

/// HTML Living Standard (WHATWG), 9.2: the media type, and a blank line behind each
/// event.
#[tokio::test(flavor = "multi_thread")]
async fn a_change_is_told_and_calm_is_told_between() {
    let (club, url) = dusk().await;
    let mut line = club.listen(&url).await;
    assert_eq!(line.status(), 200);
    assert_eq!(line.headers()["content-type"], "text/event-stream");
    assert_eq!(line.headers()["cache-control"], "no-store");
    hears(&mut line, CALM).await.unwrap();
    club.say("heron", "200 test 3:12").await;
    hears(&mut line, CHANGED).await.unwrap();
    // Nothing changes: that is told too.
    hears(&mut line, CALM).await.unwrap();
    // Another squad's evening is none of theirs.
    club.squad("Dawn", "other", false).await;
    hears(&mut line, CALM).await.unwrap();
}

#[tokio::test(flavor = "multi_thread")]
async fn a_line_ends_with_its_page() {
    let (club, url) = dusk().await;
    let mut line = club.listen(&url).await;
    hears(&mut line, CALM).await.unwrap();
    club.pass(12.hours());
    assert_eq!(hears(&mut line, "never said").await, None);
    assert_eq!(club.listen(&url).await.status(), StatusCode::NOT_FOUND);
    let own = club.url("/board/aaaaaaaaaaaaaaaaaaaaaaaaaa/live");
    assert_eq!(club.listen(&own).await.status(), StatusCode::NOT_FOUND);
    // A swimmer's own page stands still.
    let said = club.say("heron", "trend").await;
    let own = said.split_whitespace().find(|word| word.contains("/me/")).unwrap();
    assert_eq!(club.listen(&own.replace("/me/", "/board/")).await.status(), StatusCode::NOT_FOUND);
}

/// Five hundred pages listen, and every one of them hears of a change; texts are
/// answered beside them.
#[tokio::test(flavor = "multi_thread")]
async fn five_hundred_listen() {
    let limit = getrlimit(Resource::Nofile);
    setrlimit(Resource::Nofile, Rlimit { current: limit.maximum, ..limit }).unwrap();
    let (club, url) = dusk().await;
    let mut lines = Vec::new();
    for _ in 0..500 {
        let mut line = club.listen(&url).await;
        hears(&mut line, CALM).await.unwrap();
        lines.push(line);
    }
    let begun = std::time::Instant::now();
    assert!(club.say("heron", "200 test 3:12").await.contains("3:12"));
    for line in &mut lines {
        hears(line, CHANGED).await.unwrap();
    }
    println!("500 lines heard of a change within {:?}", begun.elapsed());
}
