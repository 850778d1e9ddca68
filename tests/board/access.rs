//! Whose the page is: opened by a text, shut by the clock, by leaving, and to
//! everybody else.

use base64::Engine;
use jiff::ToSpan;
use lapwing::clock::ClockMode;
use reqwest::StatusCode;
use sha2::Digest;

use super::club::{Club, PARTS, address};

async fn dusk_and_dawn() -> Club {
    let club = Club::open(ClockMode::Wall).await;
    let dusk = club.squad("Dusk", "coach", false).await;
    let dawn = club.squad("Dawn", "other", false).await;
    club.say("heron", &format!("join {dusk} heron")).await;
    club.say("plover", &format!("join {dawn} plover")).await;
    club.say("coach", &format!("invite {} assistant kestrel", address("helper"))).await;
    club.say("helper", "yes").await;
    club
}

async fn status(club: &Club, url: &str) -> StatusCode {
    club.open_page(url).await.status
}

#[tokio::test(flavor = "multi_thread")]
async fn a_text_opens_a_page_that_is_kept_nowhere_and_loads_nothing() {
    let club = dusk_and_dawn().await;
    let page = club.open_page(&club.link("coach").await).await;
    assert_eq!(page.status, 200, "{}", page.html);
    for (name, value) in [
        ("content-type", "text/html; charset=utf-8"),
        ("cache-control", "no-store"),
        ("referrer-policy", "no-referrer"),
        ("x-content-type-options", "nosniff"),
    ] {
        assert_eq!(page.headers[name], value);
    }
    let policy = page.headers["content-security-policy"].to_str().unwrap();
    // The policy names our style and our script by what they are (CSP Level 3), and
    // nothing else.
    let digest = |whole: &str| {
        let digest = sha2::Sha256::digest(whole.as_bytes());
        base64::prelude::BASE64_STANDARD.encode(digest)
    };
    assert_eq!(
        policy,
        format!(
            "default-src 'none'; style-src 'sha256-{}'; script-src 'sha256-{}'; connect-src \
             'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'",
            digest(&page.style),
            digest(&page.script)
        )
    );
    for elsewhere in
        ["<script", "<img", "<link", "<iframe", "<form", " src=", " style=", " onclick="]
    {
        assert!(!page.html.contains(elsewhere), "{elsewhere}");
    }
    assert!(!page.style.contains("url(") && !page.style.contains("@import"));
    for part in PARTS {
        assert!(page.html.contains(&format!("id=\"{part}\"")), "{part}");
    }
    assert!(page.html.contains("heron") && !page.html.contains("plover"));
}

#[tokio::test(flavor = "multi_thread")]
async fn it_shuts_by_the_wall_clock() {
    let club = dusk_and_dawn().await;
    let url = club.link("coach").await;
    club.pass(11.hours().minutes(59));
    assert_eq!(status(&club, &url).await, 200);
    club.pass(1.minute());
    let shut = club.open_page(&url).await;
    assert_eq!(shut.status, 404);
    assert!(shut.html.contains("BOARD") && !shut.html.contains("heron"), "{}", shut.html);
    assert_eq!(shut.headers["cache-control"], "no-store");
    // What never was looks the same.
    let never = club.open_page(&club.url("/board/aaaaaaaaaaaaaaaaaaaaaaaaaa")).await;
    assert_eq!((never.status, never.html), (shut.status, shut.html));
    for odd in ["/board/%FF", "/board/%00", "/board/a%2Fb"] {
        assert_eq!(status(&club, &club.url(odd)).await, 404, "{odd}");
    }
}

#[tokio::test(flavor = "multi_thread")]
async fn it_shuts_the_minute_she_may_no_longer_see_the_squad() {
    let club = dusk_and_dawn().await;
    let url = club.link("helper").await;
    assert_eq!(status(&club, &url).await, 200);
    club.say("coach", "remove kestrel").await;
    club.say("coach", "yes").await;
    assert_eq!(status(&club, &url).await, 404);
    // Asked in again, the old address opens nothing.
    club.say("coach", &format!("invite {} assistant kestrel", address("helper"))).await;
    club.say("helper", "yes").await;
    assert_eq!(status(&club, &url).await, 404);
    // A coach who hands over keeps what an assistant may see, and who leaves nothing.
    let mine = club.link("coach").await;
    assert!(club.open_page(&mine).await.html.contains("Dusk"));
    let said = club.say("coach", "hand over kestrel").await;
    let code = said.rsplit_once("CONFIRM ").unwrap().1.split('.').next().unwrap();
    club.say("coach", &format!("confirm {code}")).await;
    club.say("coach", "leave").await;
    club.say("coach", "yes").await;
    assert_eq!(status(&club, &mine).await, 404);
}

#[tokio::test(flavor = "multi_thread")]
async fn each_squad_s_page_is_of_that_squad_alone() {
    let club = dusk_and_dawn().await;
    let (dusk, dawn) = (club.link("coach").await, club.link("other").await);
    assert_ne!(dusk, dawn);
    let (dusk, dawn) = (club.open_page(&dusk).await.html, club.open_page(&dawn).await.html);
    assert!(dusk.contains("heron") && !dusk.contains("plover") && !dusk.contains("Dawn"));
    assert!(dawn.contains("plover") && !dawn.contains("heron") && !dawn.contains("Dusk"));
}

#[tokio::test(flavor = "multi_thread")]
async fn only_those_on_deck_are_given_an_address() {
    let club = dusk_and_dawn().await;
    assert_eq!(status(&club, &club.link("helper").await).await, 200);
    for who in ["heron", "stranger"] {
        let said = club.say(who, "board").await;
        assert!(!said.contains("http") && !said.is_empty(), "{who}: {said}");
    }
}

/// The token survives a restart, by its digest; the folder holds it in the reply
/// alone, and the squad's own state nowhere.
#[tokio::test(flavor = "multi_thread")]
async fn it_stays_open_through_a_restart() {
    let club = dusk_and_dawn().await;
    let url = club.link("coach").await;
    let path = url[url.find("/board/").unwrap()..].to_owned();
    let club = club.restarted(ClockMode::Wall).await;
    assert_eq!(status(&club, &club.url(&path)).await, 200);
    assert!(club.folder().join("journal").exists());
}

/// Four at once; a fifth shuts the oldest.
#[tokio::test(flavor = "multi_thread")]
async fn mislaid_addresses_shut() {
    let club = dusk_and_dawn().await;
    let first = club.link("coach").await;
    let mut later = Vec::new();
    for _ in 0..4 {
        later.push(club.link("coach").await);
    }
    assert_eq!(status(&club, &first).await, 404);
    for url in later {
        assert_eq!(status(&club, &url).await, 200);
    }
}
