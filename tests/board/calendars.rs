//! A calendar that lasts: opened from a page, renewed, shut, and whose it is.

use jiff::ToSpan;
use lapwing::clock::ClockMode;

use super::club::{Club, Fetched};

/// A squad with its Tuesdays, the coach's page, and heron's own.
async fn dusk() -> (Club, String, String) {
    let club = Club::open(ClockMode::Wall).await;
    let code = club.squad("Dusk", "coach", false).await;
    club.say("heron", &format!("join {code} heron")).await;
    club.say("coach", "slot tue 2000-2100 2 lanes").await;
    club.say("heron", "race 400 on 22 mar").await;
    let url = club.link("coach").await;
    let said = club.say("heron", "trend").await;
    let own = said.split_whitespace().find(|word| word.contains("/me/")).unwrap().to_owned();
    (club, url, own)
}

/// The address that a page was answered with.
fn address(page: &Fetched) -> String {
    let (_, from) = page.text.split_once("class=\"address\"><a href=\"").unwrap();
    from.split('"').next().unwrap().to_owned()
}

#[tokio::test(flavor = "multi_thread")]
async fn it_outlasts_the_page_that_opened_it() {
    let (club, url, own) = dusk().await;
    let before = club.fetch(&format!("{url}/calendar")).await;
    assert!(before.status == 200 && before.text.contains("do\" value=\"open"), "{}", before.text);
    let policy = before.headers["content-security-policy"].to_str().unwrap();
    assert!(policy.contains("form-action 'self'") && !policy.contains("form-action 'none'"));
    let squad = address(&club.post(&format!("{url}/calendar"), "do=open").await);
    let heron = address(&club.post(&format!("{own}/calendar"), "do=open").await);
    assert!(squad.ends_with(".ics") && squad != heron);
    // Its address is in no page that is looked at later, and nowhere in the folder but
    // as what it is known by.
    let later = club.fetch(&format!("{url}/calendar")).await;
    assert!(later.text.contains("since") && !later.text.contains("/calendar/"), "{}", later.text);
    club.pass((30 * 24).hours());
    assert_eq!(club.fetch(&url).await.status, 404);
    for (calendar, has, lacks) in
        [(&squad, "SUMMARY:Dusk", "Dawn"), (&heron, "SUMMARY:Dusk", "teal")]
    {
        let read = club.fetch(calendar).await;
        assert_eq!(read.status, 200);
        assert_eq!(read.headers["content-type"], "text/calendar; charset=utf-8");
        assert!(read.text.contains(has) && !read.text.contains(lacks), "{}", read.text);
    }
    let path = squad[squad.find("/calendar/").unwrap()..].to_owned();
    let club = club.restarted(ClockMode::Wall).await;
    assert_eq!(club.fetch(&club.url(&path)).await.status, 200);
}

#[tokio::test(flavor = "multi_thread")]
async fn a_new_address_shuts_the_old_one_and_shutting_ends_it() {
    let (club, url, own) = dusk().await;
    let page = format!("{url}/calendar");
    let first = address(&club.post(&page, "do=open").await);
    let heron = address(&club.post(&format!("{own}/calendar"), "do=open").await);
    let second = address(&club.post(&page, "do=open").await);
    assert_eq!(club.fetch(&first).await.status, 404);
    assert_eq!(club.fetch(&second).await.status, 200);
    let shut = club.post(&page, "do=shut").await;
    assert!(shut.status == 200 && shut.text.contains("Open one"), "{}", shut.text);
    assert_eq!(club.fetch(&second).await.status, 404);
    // Each has their own.
    assert_eq!(club.fetch(&heron).await.status, 200);
    for (to, body) in
        [(&page, "do=all"), (&club.url("/board/aaaaaaaaaaaaaaaaaaaaaaaaaa/calendar"), "do=open")]
    {
        assert_eq!(club.post(to, body).await.status, 404, "{body}");
    }
    for never in ["/calendar/aaaaaaaaaaaaaaaaaaaaaaaaaa.ics", "/calendar/x", "/calendar/%FF.ics"] {
        assert_eq!(club.fetch(&club.url(never)).await.status, 404, "{never}");
    }
}

/// Whoever leaves has it no longer.
#[tokio::test(flavor = "multi_thread")]
async fn it_ends_the_minute_they_leave() {
    let (club, _, own) = dusk().await;
    let calendar = address(&club.post(&format!("{own}/calendar"), "do=open").await);
    assert!(club.fetch(&calendar).await.text.contains("heron: 400"));
    club.say("heron", "leave").await;
    club.say("heron", "yes").await;
    assert_eq!(club.fetch(&calendar).await.status, 404);
}
