//! The page of one swimmer: what changes, drawn, and each figure beside it.

use jiff::Timestamp;
use lapwing::clock::ClockMode;
use reqwest::StatusCode;

use super::club::{Club, words};

/// A month of heron's.
async fn month() -> (Club, String) {
    let club = Club::open(ClockMode::Message).await;
    let code = club.squad("Dusk", "coach", false).await;
    let at = |instant: &str| -> Option<Timestamp> { Some(instant.parse().unwrap()) };
    for (when, who, text) in [
        ("2026-02-02T18:00:00Z", "heron", format!("join {code} heron")),
        ("2026-02-02T18:01:00Z", "teal", format!("join {code} teal")),
        ("2026-02-03T20:00:00Z", "heron", "200 test 3:20".to_owned()),
        ("2026-02-05T20:00:00Z", "heron", "done 1800 45min rpe 5".to_owned()),
        ("2026-02-12T20:00:00Z", "heron", "ill".to_owned()),
        ("2026-02-14T20:00:00Z", "heron", "better".to_owned()),
        ("2026-03-01T20:00:00Z", "heron", "200 test 3:04".to_owned()),
        ("2026-03-02T20:00:00Z", "heron", "4x50 on 1:15 held 46 46 47 48".to_owned()),
    ] {
        club.say_at(who, &text, at(when)).await;
    }
    let said = club.say_at("coach", "board", at("2026-03-03T18:00:00Z")).await;
    let url = said.split_whitespace().find(|word| word.starts_with("http")).unwrap().to_owned();
    (club, url)
}

#[tokio::test(flavor = "multi_thread")]
async fn tests_sets_and_weeks_are_drawn_with_their_figures() {
    let (club, url) = month().await;
    let board = club.open_page(&url).await;
    let token = url.rsplit('/').next().unwrap();
    assert!(board.html.contains(&format!("href=\"{token}/swimmer/heron\"")), "{}", board.html);
    let page = club.fetch(&format!("{url}/swimmer/heron")).await;
    assert_eq!(
        (page.status, &page.headers["cache-control"]),
        (StatusCode::OK, &"no-store".parse().unwrap())
    );
    // No script, so nothing that has to keep up; a drawing each for the tests, the
    // weeks and the set, and each with a table; one more of what was offered.
    assert!(!page.text.contains("<script"));
    let count = |what: &str| page.text.matches(what).count();
    assert_eq!((count("<svg"), count("<table"), count("aria-label=")), (3, 4, 3));
    // The set's line has four points, two of them slower than the 46 of their 3:04.
    let set = page.text.split("class=\"repeats\"").nth(1).unwrap();
    assert_eq!(
        (set.matches("<circle").count(), set.matches("dot hollow").count()),
        (4, 2),
        "{set}"
    );
    let read = words(page.text.split("</style>").nth(1).unwrap());
    for told in ["200 free 3:04", "faster, a real change", "200 free 3:20", "1800\u{a0}m", "225"] {
        assert!(read.contains(told), "{told}: {read}");
    }
    // 48 beside 46; an illness marks its week.
    assert!(read.contains("448+2.0") && read.contains("+ ill"), "{read}");
    assert!(!read.contains("teal"), "{read}");
}

/// What was offered stands beside what was swum, and what comes next as it was told;
/// nothing does while they must not swim.
#[tokio::test(flavor = "multi_thread")]
async fn what_was_offered_and_what_comes_next_stand_on_it() {
    let (club, url) = month().await;
    let at = Some("2026-03-03T18:05:00Z".parse().unwrap());
    let told = club.say_at("heron", "next", at).await;
    let page = async || {
        let page = club.fetch(&format!("{url}/swimmer/heron")).await.text;
        words(page.split("</style>").nth(1).unwrap())
    };
    let read = page().await;
    let warm_up = "Warm-up";
    assert!(read.contains("Next session") && read.contains(warm_up), "{told}: {read}");
    assert!(read.contains("Offered and swum") && read.contains("1800\u{a0}m"), "{read}");
    club.say_at("heron", "felt faint", at).await;
    let read = page().await;
    assert!(read.contains("None stands now") && !read.contains(warm_up), "{read}");
}

/// It tells of an illness: that it was looked at is kept, once for an opening.
#[tokio::test(flavor = "multi_thread")]
async fn a_look_at_it_is_kept_where_it_tells_of_health() {
    let (club, url) = month().await;
    for _ in 0..2 {
        assert_eq!(club.fetch(&format!("{url}/swimmer/heron")).await.status, 200);
        assert_eq!(club.fetch(&format!("{url}/swimmer/teal")).await.status, 200);
    }
    let seen = |who: &'static str| club.say_at(who, "who saw my health", None);
    assert!(seen("heron").await.contains("once"), "{}", seen("heron").await);
    assert!(seen("teal").await.contains("Nobody"));
}

#[tokio::test(flavor = "multi_thread")]
async fn it_is_shut_with_the_squad_s_and_is_of_nobody_else() {
    let (club, url) = month().await;
    for nobody in ["plover", "HERON%00", "x", "..%2F..%2Fhealth"] {
        let none = club.fetch(&format!("{url}/swimmer/{nobody}")).await;
        assert_eq!(none.status, 404, "{nobody}");
    }
    let wrong = club.fetch(&club.url("/board/aaaaaaaaaaaaaaaaaaaaaaaaaa/swimmer/heron")).await;
    assert_eq!(wrong.status, 404);
    club.pass(jiff::Span::new().hours(12));
    let shut = club.fetch(&format!("{url}/swimmer/heron")).await;
    assert!(shut.status == 404 && !shut.text.contains("3:04"), "{}", shut.text);
}

/// `trend` tells a swimmer where their own page is, with files that hold what they
/// said of their health too; it opens nothing else, and nobody else is told.
#[tokio::test(flavor = "multi_thread")]
async fn a_swimmer_has_their_own() {
    let (club, squad) = month().await;
    let at = Some("2026-03-03T18:10:00Z".parse().unwrap());
    let said = club.say_at("heron", "trend", at).await;
    let url = said.split_whitespace().find(|word| word.contains("/me/"));
    let url = url.unwrap_or_else(|| panic!("{said}")).to_owned();
    let page = club.fetch(&url).await;
    assert_eq!(page.status, 200);
    assert!(page.text.contains("200 free 3:04") && !page.text.contains("teal"), "{}", page.text);
    // Their own look is none that they are told of.
    assert!(club.say_at("heron", "who saw my health", at).await.contains("Nobody"));
    let all = club.fetch(&format!("{url}/everything.jsonl")).await.text;
    assert!(all.contains(r#""kind":"ill""#) && !all.contains("teal"), "{all}");
    let calendar = club.fetch(&format!("{url}/calendar.ics")).await;
    assert!(calendar.text.starts_with("BEGIN:VCALENDAR\r\n"), "{}", calendar.text);
    let (own, squad) = (url.rsplit('/').next().unwrap(), squad.rsplit('/').next().unwrap());
    for nothing in
        [format!("/board/{own}"), format!("/board/{own}/swimmer/heron"), format!("/me/{squad}")]
    {
        assert_eq!(club.fetch(&club.url(&nothing)).await.status, 404, "{nothing}");
    }
    for (who, text) in [("coach", "heron trend"), ("heron", "me"), ("heron", "best")] {
        assert!(!club.say_at(who, text, at).await.contains("http"), "{who}: {text}");
    }
    // Asked for by name it is the same, in either language, from nobody but themselves.
    for text in ["my page", "me page", "Can you send me my page?", "mi página"] {
        let said = club.say_at("heron", text, at).await;
        let url = said.split_whitespace().find(|word| word.contains("/me/"));
        let url = url.unwrap_or_else(|| panic!("{text}: {said}"));
        assert_eq!(club.fetch(url).await.status, 200, "{text}");
        assert!(!club.say_at("coach", text, at).await.contains("/me/"), "{text}");
    }
    // Gone from the squad, the address opens nothing.
    club.say_at("heron", "leave", at).await;
    club.say_at("heron", "yes", at).await;
    assert_eq!(club.fetch(&url).await.status, 404);
}
