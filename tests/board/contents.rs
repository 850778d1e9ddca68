//! What is on the page, and what never is.

use jiff::{Timestamp, ToSpan};
use lapwing::clock::ClockMode;

use super::club::{Club, address, words};

const EVIL: &str = "<script>alert(1)</script> & \"quotes\" <b>";

/// A coach's and a swimmer's words come out as words.
#[tokio::test(flavor = "multi_thread")]
async fn what_people_wrote_is_no_markup() {
    let club = Club::open(ClockMode::Wall).await;
    let code = club.squad(&format!("Dusk {EVIL}"), "coach", false).await;
    club.say("heron", &format!("join {code} heron")).await;
    club.say("coach", &format!("focus heron: {EVIL}")).await;
    club.say("coach", &format!("note heron: {EVIL}")).await;
    let html = club.open_page(&club.link("coach").await).await.html;
    assert!(!html.contains("<script") && !html.contains("\"quotes\""), "{html}");
    let shown = "&lt;script&gt;alert(1)&lt;/script&gt; &amp; &quot;quotes&quot; &lt;b&gt;";
    // In the title, the heading and the coach's sheet; in the focus and the note, where a text's
    // double quotes are single ones.
    assert_eq!(html.matches(shown).count(), 3, "{html}");
    assert_eq!(html.matches(&shown.replace("&quot;", "'")).count(), 2, "{html}");
}

/// Pregnancy, weight, food, harm and fear are kept nowhere and shown nowhere;
/// numbers only of whom is stopped.
#[tokio::test(flavor = "multi_thread")]
async fn private_matters_are_on_no_part_of_it() {
    let club = Club::open(ClockMode::Wall).await;
    let code = club.squad("Dusk", "coach", false).await;
    for (who, text) in [
        ("heron", "12 weeks pregnant, ok to swim?"),
        ("teal", "lost 5kg, not eating much"),
        ("wren", "coach scares me, dont want to go home"),
        ("siskin", "knee hurts 3"),
    ] {
        club.say(who, &format!("join {code} {who}")).await;
        club.say(who, "contact +1 555 0177").await;
        club.say(who, text).await;
    }
    let url = club.link("coach").await;
    // The address is of letters that say nothing.
    let token = url.rsplit('/').next().unwrap();
    let html = club.open_page(&url).await.html.replace(token, "");
    for private in
        ["pregnan", "midwife", "kg", "eating", "weight", "scare", "home", "welfare", "0177"]
    {
        assert!(!html.contains(private), "{private} is shown");
    }
    for who in ["heron", "teal", "wren", "siskin"] {
        assert!(!html.contains(&address(who)), "the address of {who} is shown");
    }
    let hurting = html.split("id=\"poolside\"").next().unwrap();
    assert!(words(hurting).contains("siskin swims easy knee 3 of 10"), "{hurting}");
    assert!(hurting.contains("no breaststroke kick"), "{hurting}");
    for who in ["heron", "teal", "wren"] {
        assert!(!hurting.contains(who), "{who} is listed as hurting");
    }
    // Stopped, their contact is one tap away.
    club.say("heron", "felt faint").await;
    let html = club.open_page(&url).await.html;
    assert_eq!(html.matches("tel:+15550177").count(), 1);
    assert!(words(&html).contains("Call their contact +1 555 0177"), "{html}");
}

/// Who is out of the water, who swims in spite of what hurts, and who is ill at home
/// stand there by name, without a touch; so does what ends it, folded.
#[tokio::test(flavor = "multi_thread")]
async fn who_swims_with_what_hurts_and_who_does_not() {
    let club = Club::open(ClockMode::Message).await;
    let code = club.squad("Dusk", "coach", false).await;
    let at = |clock: &str| Some(format!("2026-03-03T{clock}:00Z").parse().unwrap());
    let birds = ["curlew", "dipper", "dunnock", "heron", "knot", "plover", "ruff", "snipe", "wren"];
    for who in birds {
        club.say_at(who, &format!("join {code} {who}"), at("18:00")).await;
    }
    club.say_at("coach", "slot tue 2000-2100 2 lanes", at("18:05")).await;
    for who in ["dipper", "knot", "plover", "ruff"] {
        club.say_at(who, "ill", at("18:10")).await;
    }
    for (who, text) in [
        ("coach", "here curlew dunnock snipe wren"),
        ("curlew", "shoulder hurts 6"),
        ("dunnock", "ear hurts 4"),
        ("snipe", "knee hurts 4"),
        ("wren", "felt dizzy"),
    ] {
        club.say_at(who, text, at("20:10")).await;
    }
    // What is told again is told once, and what was asked about stands there too.
    club.say_at("wren", "chest pain", at("20:12")).await;
    club.say_at("wren", "chest pain", at("20:13")).await;
    let pull = "bit of a pull in my groin on the kick, do we have training wed";
    club.say_at("heron", pull, at("20:14")).await;
    let said = club.say_at("coach", "board", at("20:15")).await;
    let page = club.open_page(said.split_whitespace().next().unwrap()).await;
    let hurting = page.part("hurting");
    let (seen, folded) = hurting.split_once("What each may swim").unwrap();
    for told in [
        "wren Stopped: out of the water since 20:10",
        "curlew out today shoulder 6 of 10",
        "dunnock out today ear 4 of 10",
        "snipe swims easy knee 4 of 10",
        "heron swims easy groin, asked about, no answer",
    ] {
        assert!(seen.contains(told), "{told}: {hurting}");
    }
    assert_eq!(seen.matches("Stopped: out").count(), 1, "{hurting}");
    assert!(folded.starts_with(" ill: dipper, knot, plover +1"), "{hurting}");
    for told in [
        "Nowno swimmingUntilyou text RELEASE wren; no clinician's word yet",
        "Nowstay out of the water until it has settledUntilthe swimmer texts BETTER",
        "Nowno breaststroke kick; swims the easy version",
        "ill since 18:10Nowno swimmingUntilthe swimmer texts BETTER",
    ] {
        assert!(folded.contains(told), "{told}: {hurting}");
    }
}

/// Whoever looks is kept, once for an opening and swimmer, however often the page
/// looks again; of themselves nothing is.
#[tokio::test(flavor = "multi_thread")]
async fn a_look_at_somebody_s_health_is_kept() {
    let club = Club::open(ClockMode::Wall).await;
    let code = club.squad("Dusk", "coach", false).await;
    for who in ["heron", "teal"] {
        club.say(who, &format!("join {code} {who}")).await;
    }
    club.say("heron", "shoulder hurts 4").await;
    let url = club.link("coach").await;
    assert!(club.say("heron", "who saw my health").await.contains("Nobody"));
    for _ in 0..3 {
        assert_eq!(club.open_page(&url).await.status, 200);
        club.pass(30.seconds());
    }
    let seen = club.say("heron", "who saw my health").await;
    assert!(seen.contains("once") && seen.contains("looked at the board"), "{seen}");
    assert!(club.say("teal", "who saw my health").await.contains("Nobody"));
    club.open_page(&club.link("coach").await).await;
    assert!(club.say("heron", "who saw my health").await.contains("2 times"));
    let club = club.restarted(ClockMode::Wall).await;
    assert!(club.say("heron", "who saw my health").await.contains("2 times"));
}

/// Whoever held their last set and is ill now did not go off the pace.
#[tokio::test(flavor = "multi_thread")]
async fn rest_for_an_illness_blames_no_set() {
    let club = Club::open(ClockMode::Wall).await;
    let code = club.squad("Dusk", "coach", false).await;
    club.say("heron", &format!("join {code} heron")).await;
    club.say("heron", "200 test 3:12").await;
    club.say("heron", "6x50 on 1:15 held 48 48 48 48 48 48").await;
    club.say("heron", "ill").await;
    let page = club.open_page(&club.link("coach").await).await;
    let paced = page.part("paced");
    assert!(paced.contains("held 6 of 6") && paced.contains("swims the easy version"), "{paced}");
    assert!(!paced.contains("Off the pace"), "{paced}");
}

/// Of a minor the handle, and who answers for them.
#[tokio::test(flavor = "multi_thread")]
async fn a_minor_is_marked_with_who_answers_for_them() {
    let club = Club::open(ClockMode::Wall).await;
    let code = club.squad("Dusk", "coach", true).await;
    club.say("martin", &format!("join {code} martin")).await;
    club.say("martin", "born 2012").await;
    let url = club.link("coach").await;
    assert!(club.open_page(&url).await.html.contains("minor: no guardian has agreed"));
    club.say("coach", &format!("invite {} guardian kestrel", address("parent"))).await;
    club.say("parent", "yes").await;
    club.say("coach", &format!("guardian martin {}", address("parent"))).await;
    club.say("parent", "yes").await;
    let html = club.open_page(&url).await.html;
    assert!(html.contains("minor: kestrel answers"), "{html}");
    assert!(!html.contains(&address("parent")) && !html.contains("2012"));
}

/// By the wall clock the page is as of now; where messages bring the clock, as
/// of the squad's last one.
#[tokio::test(flavor = "multi_thread")]
async fn the_page_is_as_of_the_clock_in_force() {
    let club = Club::open(ClockMode::Wall).await;
    club.squad("Dusk", "coach", false).await;
    let url = club.link("coach").await;
    assert!(club.open_page(&url).await.html.contains("as of 19:00"));
    club.pass(17.minutes());
    assert!(club.open_page(&url).await.html.contains("as of 19:17"));

    let club = Club::open(ClockMode::Message).await;
    club.squad("Dusk", "coach", false).await;
    let at = |clock: &str| -> Option<Timestamp> {
        Some(format!("2026-05-05T{clock}:00Z").parse().unwrap())
    };
    let said = club.say_at("coach", "board", at("20:05")).await;
    let url = said.split_whitespace().next().unwrap();
    assert!(club.open_page(url).await.html.contains("as of 20:05"));
    club.say_at("coach", "squad", at("20:31")).await;
    club.pass(17.minutes());
    assert!(club.open_page(url).await.html.contains("as of 20:31"));
    let path = url[url.find("/board/").unwrap()..].to_owned();
    let club = club.restarted(ClockMode::Message).await;
    assert!(club.open_page(&club.url(&path)).await.html.contains("as of 20:31"));
}

/// An evening as the coach texts it, on the page as they see it.
#[tokio::test(flavor = "multi_thread")]
async fn an_evening_is_on_it() {
    let club = Club::open(ClockMode::Message).await;
    let code = club.squad("Dusk", "coach", false).await;
    let day = |clock: &str| Some(format!("2026-03-03T{clock}:00Z").parse().unwrap());
    for who in ["heron", "teal", "wren"] {
        club.say_at(who, &format!("join {code} {who}"), day("18:00")).await;
    }
    for (clock, text) in [
        ("18:10", "400 test: heron 6:52, teal 5:20, wren 9:20"),
        ("18:11", "slot tue 2000-2100 2 lanes"),
        ("18:12", "add robin 2:20"),
        ("18:13", "set 200 easy on 5:00, 8x50 hold 400 pace on 1:30, 100 easy on 3:00"),
        ("18:14", "wren late 10"),
        ("20:01", "here heron teal robin"),
        ("20:02", "lanes 2"),
    ] {
        club.say_at("coach", text, day(clock)).await;
    }
    // 20:00, 200 to 20:05, a minute, then 50s every 1:30: the fourth from 20:10:30.
    let said = club.say_at("coach", "board", day("20:11")).await;
    let url = said.split_whitespace().next().unwrap();
    let page = club.open_page(url).await;
    assert!(page.part("hurting").contains("Nobody is stopped or hurting."));
    let register = page.part("register");
    assert!(register.contains("3 of 4 at the pool"), "{register}");
    assert!(register.contains("guest") && register.contains("10 min"), "{register}");
    let lanes = page.part("poolside");
    // What holds for every lane stands before the first, with what the figures are.
    assert!(lanes.starts_with("Lanes5 s apart; beside names: the time to hold"), "{lanes}");
    // Whoever said to come late has a lane, is waited for, and is marked so.
    assert!(lanes.find("teal") < lanes.find("heron") && lanes.contains("wren late"), "{lanes}");
    assert!(lanes.contains("4th of 8x50 on 1:30next leaves 20:12:00"), "{lanes}");
    // Each has their own: an eighth of 5:20, and of 6:52 in whole seconds.
    assert!(lanes.contains("teal40") && lanes.contains("heron52"), "{lanes}");
    // The set ends at 20:22, and the lanes are booked to 21:00.
    let head = words(page.html.split("<main>").next().unwrap());
    assert!(head.contains("11 min leftset ends 20:22booked to 21:00"), "{head}");
    assert!(head.contains("as of 20:11Pause updates"), "{head}");
    assert!(page.part("set").contains("Ends 20:22"), "{}", page.part("set"));
    assert!(
        page.part("tests").contains("400 free 5:20")
            && page.part("tests").contains("the first of its kind")
    );
}

/// The biggest figure on the page is the one that the coach gave: a cut in mid-set
/// leaves as many minutes as its lanes still swim.
#[tokio::test(flavor = "multi_thread")]
async fn after_a_cut_the_minutes_left_are_those_of_the_lanes() {
    let (club, day) = evening_of_fifties().await;
    let left = |page: &super::club::Shown| -> String {
        let (_, from) = page.html.split_once("class=\"left\"").unwrap();
        words(&format!("<{}", from.split("</p>").next().unwrap()))
    };
    let url = club.say_at("coach", "board", day("20:11")).await;
    let url = url.split_whitespace().next().unwrap();
    assert_eq!(left(&club.open_page(url).await), "38 min leftset ends 20:49");
    club.say_at("coach", "12 left", day("20:21")).await;
    let page = club.open_page(url).await;
    let (_, ends) =
        page.part("set").split_once("Ends 20:").map(|(a, b)| (a.to_owned(), b.to_owned())).unwrap();
    let ends: u32 = ends[..2].parse().unwrap();
    assert!((31..=33).contains(&ends), "{ends}");
    assert_eq!(left(&page), format!("{} min leftset ends 20:{ends}", ends - 21));
    // Once all is swum, the lanes are still booked.
    club.say_at("coach", "squad", day("20:40")).await;
    assert_eq!(left(&club.open_page(url).await), "20 min left");
}

/// Nobody is in a lane or on its sheet who is stopped, gone or out since it was
/// drawn.
#[tokio::test(flavor = "multi_thread")]
async fn whoever_is_out_is_in_no_lane_and_on_no_sheet() {
    let (club, day) = evening_of_fifties().await;
    let url = club.say_at("coach", "board", day("20:11")).await;
    let url = url.split_whitespace().next().unwrap();
    let sheets = |page: &super::club::Shown| -> String {
        let (_, sheets) = page.html.split_once("class=\"sheets\"").unwrap();
        words(sheets.split("class=\"sheet coach\"").next().unwrap())
    };
    let page = club.open_page(url).await;
    assert!(
        page.part("poolside").contains("teal") && sheets(&page).contains("teal"),
        "{}",
        sheets(&page)
    );
    club.say_at("coach", "teal felt dizzy", day("20:12")).await;
    club.say_at("coach", "absent heron", day("20:13")).await;
    let page = club.open_page(url).await;
    for who in ["teal", "heron"] {
        assert!(!page.part("poolside").contains(who) && !sheets(&page).contains(who), "{who}");
    }
    assert!(
        page.part("hurting").contains("teal Stopped: out of the water"),
        "{}",
        page.part("hurting")
    );
    assert!(sheets(&page).contains("robin"));
    // The coach's own says who is out of the water, and not why.
    let coach = words(page.html.split("class=\"sheet coach\"").nth(1).unwrap());
    assert!(coach.contains("Stopped: out of the water: teal"), "{coach}");
    assert!(coach.contains("heron") && !coach.contains("dizzy"), "{coach}");
}

/// Who is slower, who is owed or overdue a test and whom to ring stand before all that
/// is folded, each name with a way to its page.
#[tokio::test(flavor = "multi_thread")]
async fn what_waits_stands_before_what_is_folded() {
    let club = Club::open(ClockMode::Message).await;
    let code = club.squad("Dusk", "coach", false).await;
    let at = |day: &str| Some(format!("{day}T20:00:00Z").parse().unwrap());
    for who in ["heron", "teal", "wren"] {
        club.say_at(who, &format!("join {code} {who}"), at("2026-01-05")).await;
    }
    for (day, who, text) in [
        ("2026-01-06", "teal", "200 test 3:20"),
        ("2026-02-03", "heron", "200 test 3:00"),
        ("2026-03-03", "heron", "200 test 3:14"),
    ] {
        club.say_at(who, text, at(day)).await;
    }
    let said = club.say_at("coach", "board", at("2026-03-03")).await;
    let page = club.open_page(said.split_whitespace().next().unwrap()).await;
    let todo = page.part("todo");
    for told in [
        "Slower than before 1heron 200 free 3:14 +14.0 s since 3 Feb",
        "Test overdue 2teal wren",
        "Ring: not heard from 2teal wren",
    ] {
        assert!(todo.contains(told), "{told}: {todo}");
    }
    assert!(page.html.find("id=\"todo\"") < page.html.find("<details class=\"register\""));
    assert!(page.html.contains("href=\"#tests\""), "{}", page.html);
    // Where nothing waits that is said.
    let calm = Club::open(ClockMode::Wall).await;
    calm.squad("Dawn", "other", false).await;
    let page = calm.open_page(&calm.link("other").await).await;
    assert!(page.part("todo").contains("Nothing waits for you."), "{}", page.part("todo"));
}

/// A long list is cut, and said whole where that is asked for.
#[tokio::test(flavor = "multi_thread")]
async fn a_squad_of_many_is_shown_in_part_until_all_is_asked_for() {
    let club = Club::open(ClockMode::Wall).await;
    club.squad("Dusk", "coach", false).await;
    // No two look alike.
    let digits = ["2", "3", "4", "6", "7", "8", "9"];
    let numbers = digits.iter().flat_map(|ten| digits.iter().map(move |one| format!("{ten}{one}")));
    let names: Vec<String> =
        numbers.flat_map(|number| ["wren", "teal"].map(|bird| format!("{bird}{number}"))).collect();
    let members = format!("swimmer\n{}\n", names.join("\n"));
    let list = lapwing::import::List::Members;
    let bringing = lapwing::service::Bringing { squad: None, list, text: members };
    let brought = club.service.bring(&bringing).await.unwrap();
    assert_eq!(brought, lapwing::service::BroughtIn::Stored { new: 98, known: 0 });
    let url = club.link("coach").await;
    let rows = |page: &super::club::Shown| page.part("tests").matches("no test yet").count();
    let page = club.open_page(&url).await;
    assert!(rows(&page) == 60 && page.part("tests").contains("All 98"), "{}", rows(&page));
    let page = club.open_page(&format!("{url}?all")).await;
    assert!(rows(&page) == 98 && !page.html.contains("href=\"?all\""), "{}", rows(&page));
}

/// It speaks as it was asked for; a swimmer's own as they have chosen.
#[tokio::test(flavor = "multi_thread")]
async fn it_speaks_the_language_of_whoever_asks() {
    let club = Club::open(ClockMode::Wall).await;
    let code = club.squad("Dusk", "coach", false).await;
    club.say("heron", &format!("join {code} heron")).await;
    let opened = async |who, text| {
        let said = club.say(who, text).await;
        let url = said.split_whitespace().find(|word| word.starts_with("http"));
        club.fetch(url.unwrap_or_else(|| panic!("{said}"))).await.text
    };
    for (who, text, language, words) in [
        ("coach", "la pizarra", "es", "Por hacer"),
        ("coach", "board", "en", "To do"),
        ("heron", "trend", "en", "Tests"),
    ] {
        let page = opened(who, text).await;
        assert!(page.contains(&format!("lang=\"{language}\"")), "{text}");
        assert!(page.contains(words), "{text}: {page}");
    }
    club.say("heron", "language es").await;
    assert!(opened("heron", "tendencia").await.contains("lang=\"es\""));
}

/// It stands still where that is asked for, and says how to go on.
#[tokio::test(flavor = "multi_thread")]
async fn a_reader_can_stop_it() {
    let club = Club::open(ClockMode::Wall).await;
    club.squad("Dusk", "coach", false).await;
    let url = club.link("coach").await;
    let page = club.open_page(&url).await;
    // WCAG 2.2, 2.2.2 (A): what updates by itself can be paused.
    assert!(page.html.contains("<noscript><meta http-equiv=\"refresh\""), "{}", page.html);
    assert!(page.html.contains("href=\"?still\""), "{}", page.html);
    let still = club.open_page(&format!("{url}?still")).await;
    assert!(!still.html.contains("http-equiv=\"refresh\""), "{}", still.html);
    assert!(still.html.contains("href=\"?\""), "{}", still.html);
}

/// Two swimmers and a guest in the middle of thirty fifties.
async fn evening_of_fifties() -> (Club, impl Fn(&str) -> Option<Timestamp>) {
    let club = Club::open(ClockMode::Message).await;
    let code = club.squad("Dusk", "coach", false).await;
    let day = |clock: &str| Some(format!("2026-03-03T{clock}:00Z").parse().unwrap());
    for who in ["heron", "teal"] {
        club.say_at(who, &format!("join {code} {who}"), day("18:00")).await;
    }
    for (clock, text) in [
        ("18:10", "400 test: heron 6:52, teal 5:20"),
        ("18:11", "slot tue 2000-2100 2 lanes"),
        ("18:12", "add robin 2:20"),
        // 5 min, one over, 40 min, one over, 3 min: fifty minutes less one at 20:11.
        ("18:13", "set 200 easy on 5:00, 26x50 hold 400 pace on 1:30, 100 easy on 3:00"),
        ("20:01", "here heron teal robin"),
        ("20:02", "lanes 1"),
    ] {
        club.say_at("coach", text, day(clock)).await;
    }
    (club, day)
}
