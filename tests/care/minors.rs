//! Minors: who is asked first, who reads along, what waits for the morning;
//! and words of harm, which go to the welfare officer and to no one else.

use jiff::Timestamp;
use lapwing::history::{CareKind, Event};

use super::squad::{COACH, CODE, Heard, Talk, address};

pub const OFFICER: &str = "+15550109";
pub const DEPUTY: &str = "+15550110";
pub const GUARDIAN: &str = "+15550120";

/// A squad with minors, looked after: heron is 16, robin is 12, teal is 40;
/// ibis is guardian of the first two.
pub fn looked_after() -> Talk {
    let mut talk = Talk::opened(true, true);
    talk.hears(COACH, &format!("welfare officer {OFFICER}"));
    talk.hears(OFFICER, &format!("deputy officer {DEPUTY}"));
    talk.hears(OFFICER, "helpline 0800 1111");
    for (who, born) in [("heron", 2009), ("robin", 2013), ("teal", 1985)] {
        assert_eq!(talk.hears(who, &format!("join {CODE} {who}")).result["kind"], "ok");
        talk.hears(who, &format!("born {born}"));
    }
    talk.hears("heron", &format!("guardian {GUARDIAN}"));
    talk.hears(GUARDIAN, "yes");
    talk.hears(COACH, &format!("guardian robin {GUARDIAN}"));
    talk.hears(GUARDIAN, "yes");
    talk
}

fn at(talk: &mut Talk, instant: &str) {
    talk.now = instant.parse().unwrap();
}

fn rule(heard: &Heard) -> &str {
    heard.result["rule"].as_str().unwrap_or_default()
}

fn told<'a>(heard: &'a Heard, to: &str) -> Vec<&'a str> {
    let to_them = heard.to_others.iter().filter(|(at, _)| at == address(to));
    to_them.map(|(_, text)| text.as_str()).collect()
}

#[test]
fn a_squad_with_minors_opens_with_its_welfare_officer() {
    let mut talk = Talk::opened(true, true);
    let join = format!("join {CODE} heron");
    // They may put their name down, and no more.
    assert_eq!(talk.hears("heron", &join).result["kind"], "ok");
    assert_eq!(rule(&talk.hears("heron", "200 test 3:12")), "no_officer");
    assert_eq!(talk.hears("heron", "knee hurts 3").result["kind"], "caution");
    // Not the coach themselves, and not by a swimmer's word.
    assert_eq!(rule(&talk.hears(COACH, &format!("welfare officer {COACH}"))), "officer_apart");
    let named = talk.hears(COACH, &format!("welfare officer {OFFICER}"));
    assert_eq!(told(&named, OFFICER).len(), 1);
    assert_eq!(talk.hears("heron", &join).result["kind"], "ok");
    // From now on it is the officer's to change.
    assert_eq!(rule(&talk.hears(COACH, "welfare officer +15550199")), "officer_only");
    // Where they swim is for no chat.
    assert_eq!(rule(&talk.hears(COACH, "show names in the chat")), "minors");
    // Adults need none.
    assert_eq!(Talk::opened(true, false).hears("heron", &join).result["kind"], "ok");
}

#[test]
fn who_gives_no_birth_year_is_a_minor_and_a_guardian_comes_first() {
    let mut talk = Talk::opened(true, true);
    talk.hears(COACH, &format!("welfare officer {OFFICER}"));
    let joined = talk.hears("heron", &format!("join {CODE} heron"));
    assert!(joined.text.contains("BORN"), "{}", joined.text);
    let asked = talk.hears("heron", "200 test 3:12");
    assert!(rule(&asked) == "guardian" && asked.text.contains("BORN"), "{}", asked.text);
    assert!(asked.events.is_empty(), "{:?}", asked.events);
    talk.hears("heron", "born 2009");
    let asked = talk.hears("heron", "200 test 3:12");
    assert!(asked.text.contains("ask a parent"), "{}", asked.text);
    // They can't make themselves a grown-up, or their own guardian.
    assert_eq!(rule(&talk.hears("heron", "born 1985")), "guardian");
    talk.hears("+15550101", &format!("join {CODE} wren"));
    assert_eq!(rule(&talk.hears("+15550101", "guardian +15550101")), "guardian");

    let named = talk.hears("heron", &format!("guardian {GUARDIAN}"));
    let question = told(&named, GUARDIAN).join(" ");
    assert!(question.contains("heron") && question.contains("YES or NO"), "{question}");
    assert_eq!(rule(&talk.hears("heron", "200 test 3:12")), "guardian");
    let agreed = talk.hears(GUARDIAN, "yes");
    assert!(agreed.events.iter().any(|event| matches!(event, Event::GuardianAgreed { .. })));
    assert_eq!(told(&agreed, COACH).len(), 1);
    let test = talk.hears("heron", "200 test 3:12");
    assert_eq!(test.result["kind"], "test");
    // In our words, not in theirs.
    let copy = told(&test, GUARDIAN)[0];
    assert!(
        copy.contains("200") && copy.contains("3:12") && !copy.contains("200 test 3:12"),
        "{copy}"
    );
}

#[test]
fn under_sixteen_the_guardian_texts() {
    let mut talk = looked_after();
    let own = talk.hears("robin", "200 test 4:10");
    assert!(rule(&own) == "guardian" && own.text.contains("parent"), "{}", own.text);
    assert!(!own.events.iter().any(|event| matches!(event, Event::TestSwum { .. })));
    // Written as people write, and with a question in it, it is answered the same; what
    // may be of something else is not sent to the parents.
    for text in ["got 4:01 for my 200!!", "50 fly 38.4"] {
        let own = talk.hears("robin", text);
        assert!(rule(&own) == "guardian" && own.text.contains("parent"), "{}", own.text);
    }
    let grave = talk.hears("robin", "can i tell you something about him");
    assert!(!grave.text.contains("parent"), "{}", grave.text);
    // Two wards: they say which.
    assert_eq!(talk.hears(GUARDIAN, "robin 200 test 4:10").result["swimmer"], "robin");
    assert_eq!(rule(&talk.hears(GUARDIAN, "teal 200 test 3:10")), "coach_only");
}

#[test]
fn the_night_waits_but_not_danger_and_pain() {
    let mut talk = looked_after();
    at(&mut talk, "2026-03-03T21:10:00Z");
    let test = talk.hears("heron", "200 test 3:12");
    let morning: Timestamp = "2026-03-04T08:00:00Z".parse().unwrap();
    assert_eq!(test.held.until, Some(morning));
    assert!(test.held.answer && test.held.to == [GUARDIAN], "{:?}", test.held);
    at(&mut talk, "2026-03-04T05:30:00Z");
    assert_eq!(talk.hears("heron", "next").held.until, Some(morning));
    for text in ["shoulder hurts 2", "felt dizzy", "i want to die"] {
        let heard = talk.hears("heron", text);
        assert_eq!(heard.held.until, None, "{text}");
        assert_eq!(heard.result["kind"], "caution", "{text}");
    }
    // Grown-ups are answered at any hour.
    assert_eq!(talk.hears("teal", "200 test 3:12").held.until, None);
    assert_eq!(talk.hears(GUARDIAN, "robin 200 test 4:10").held.until, None);
    at(&mut talk, "2026-03-04T08:00:00Z");
    assert_eq!(talk.hears("heron", "targets").held.until, None);
}

#[test]
fn a_minors_stop_needs_three_words() {
    let mut talk = looked_after();
    talk.hears("heron", "fainted");
    let first = talk.hears(COACH, "release heron");
    assert_eq!(rule(&first), "minor_stop");
    talk.hears("heron", "doctor cleared me");
    assert!(talk.hears(COACH, "release heron").text.contains("guardian"));
    assert_eq!(talk.hears(GUARDIAN, "release heron").result["kind"], "ok");
    assert_eq!(talk.hears(COACH, "release heron").result["kind"], "ok");
    assert_ne!(talk.hears("heron", "next").result["kind"], "caution");
    // A new stop needs new words.
    talk.hears("heron", "fainted");
    assert_eq!(rule(&talk.hears(COACH, "release heron")), "minor_stop");
}

#[test]
fn the_coachs_words_to_minors_are_read_along_and_wait_for_the_morning() {
    let mut talk = looked_after();
    let to = |heard: &Heard| {
        let mut to: Vec<String> = heard.to_others.iter().map(|(to, _)| to.clone()).collect();
        to.sort();
        to
    };
    let told_heron = talk.hears(COACH, "tell heron: cap on");
    assert_eq!(told_heron.result["kind"], "ok");
    assert_eq!(to(&told_heron), [address("heron"), OFFICER, GUARDIAN]);
    assert_eq!(told_heron.held.until, None);
    // Kept for the officer.
    let kept =
        |event: &Event| matches!(event, Event::CareRecorded { what: CareKind::ToMinor { .. }, .. });
    assert!(told_heron.events.iter().any(kept));
    assert_eq!(to(&talk.hears(COACH, "tell robin: cap on")), [OFFICER, GUARDIAN]);
    assert_eq!(to(&talk.hears(COACH, "tell teal: cap on")), [address("teal")]);
    at(&mut talk, "2026-03-03T21:10:00Z");
    let morning: Timestamp = "2026-03-04T08:00:00Z".parse().unwrap();
    let night = talk.hears(COACH, "tell heron: cap on");
    assert_eq!(night.held.until, Some(morning));
    assert!(
        !night.held.answer
            && [address("heron"), GUARDIAN, OFFICER]
                .iter()
                .all(|one| { night.held.to.iter().any(|held| held == one) })
    );
    // Who has no guardian yet gets nothing, and the coach hears of it.
    at(&mut talk, "2026-03-04T12:00:00Z");
    talk.hears("wren", &format!("join {CODE} wren"));
    talk.hears("wren", "born 2010");
    assert_eq!(rule(&talk.hears(COACH, "tell wren: cap on")), "second_adult");
    assert_eq!(talk.hears(COACH, "tell all: pool shut").result["kind"], "question");
    let all = talk.hears(COACH, "yes");
    assert!(all.text.contains("wren"), "{}", all.text);
    assert!(told(&all, "wren").is_empty() && told(&all, "robin").is_empty());
    assert_eq!((told(&all, "heron").len(), told(&all, "teal").len()), (1, 1));
}

#[test]
fn copying_ends_only_after_both_are_told() {
    let mut talk = looked_after();
    at(&mut talk, "2028-01-02T12:00:00Z");
    let last = talk.hears("heron", "next");
    let both = [GUARDIAN, "heron"].map(|to| told(&last, to).join(" "));
    assert!(both.iter().all(|text| text.contains("18 or over")), "{both:?}");
    assert!(both[0].contains("next"), "{both:?}");
    let after = talk.hears("heron", "targets");
    assert_eq!(after.to_others, []);
}

#[test]
fn a_disclosure_reaches_the_officer_and_no_one_else() {
    for text in ["dont want to go home", "coach keeps texting me", "no quiero ir a casa"] {
        let mut talk = looked_after();
        for who in ["heron", "robin", "teal", GUARDIAN] {
            let heard = talk.hears(who, text);
            let to: Vec<&str> = heard.to_others.iter().map(|(to, _)| to.as_str()).collect();
            assert_eq!(to, [OFFICER], "{who}: {text}");
            assert!(heard.private && !heard.to_others[0].1.contains(text), "{who}: {text}");
            assert!(heard.text.contains("0800 1111"), "{}", heard.text);
            let kept = |event: &Event| {
                matches!(event, Event::CareRecorded { what: CareKind::Disclosure { .. }, .. })
            };
            assert!(
                heard
                    .events
                    .iter()
                    .all(|event| kept(event) || matches!(event, Event::MoreKept { .. }))
            );
        }
        // About the officer, or by the officer: the deputy.
        let named = talk.hears("heron", &format!("{text}, the welfare officer does nothing"));
        assert_eq!(named.to_others[0].0, DEPUTY);
        let own = talk.hears(OFFICER, text);
        assert_eq!(own.to_others[0].0, DEPUTY);
        assert_eq!(talk.hears(COACH, "squad").text.matches("hurt").count(), 0);
    }
    // Without an officer nobody is told by machine.
    let mut talk = Talk::of_grown_ups();
    let alone = talk.hears("heron", "dont want to go home");
    assert!(alone.to_others.is_empty() && alone.text.contains("someone you trust"));
}

#[test]
fn what_cant_be_read_soon_after_harm_is_answered_with_care_and_told_nobody_twice() {
    let mut talk = looked_after();
    talk.hears("teal", "i want to end my life");
    let heard = talk.hears("teal", "lol no sorry the cat got hold of this");
    assert!(heard.private && heard.to_others.is_empty(), "{:?}", heard.to_others);
    assert!(heard.text.contains("0800 1111"), "{}", heard.text);
    let other = talk.hears("robin", "lol no sorry the cat got hold of this");
    assert!(!other.text.contains("0800 1111"), "{}", other.text);
    assert_eq!(talk.hears("teal", "200 test 3:12").result["kind"], "test");
}

#[test]
fn records_are_the_officers_and_reads_are_the_swimmers() {
    let mut talk = looked_after();
    talk.hears("teal", "fainted");
    talk.hears("teal", "dont want to go home");
    talk.hears(COACH, "teal");
    talk.hears(COACH, "squad");
    let records = talk.hears(OFFICER, "records").text;
    assert!(records.contains("7 years: 1 of accidents, 1 of worries"), "{records}");
    assert!(records.contains("fainted") && !records.contains("home"), "{records}");
    for other in [COACH, "teal", GUARDIAN] {
        assert_eq!(rule(&talk.hears(other, "records")), "officer_only");
    }
    // The warning, the card, the list.
    let mine = talk.hears("teal", "who saw my health").text;
    assert!(mine.contains("3 times") && mine.contains("coach: warned by us"), "{mine}");
    assert_eq!(talk.hears(OFFICER, "who read teal").text, mine);
    assert_eq!(rule(&talk.hears(COACH, "who read teal")), "officer_only");
}

#[test]
fn a_guardian_tells_of_the_child_and_no_part_is_lost() {
    let mut talk = Talk::opened(true, true);
    talk.hears(COACH, &format!("welfare officer {OFFICER}"));
    talk.hears("robin", &format!("join {CODE} robin"));
    talk.hears("robin", "born 2013");
    talk.hears(COACH, &format!("guardian robin {GUARDIAN}"));
    talk.hears(GUARDIAN, "yes");
    for text in [
        "my daughter is ill so shes out",
        "shes ill so shes out",
        "robin is ill so shes out",
        "ill so out",
        "he has a fever, hes not coming",
    ] {
        let heard = talk.hears(GUARDIAN, text);
        let mut kinds: Vec<&str> = heard.result["results"]
            .as_array()
            .unwrap_or_else(|| panic!("{text}: {}", heard.text))
            .iter()
            .map(|one| one["kind"].as_str().unwrap())
            .collect();
        kinds.sort_unstable();
        assert_eq!(kinds, ["caution", "ok"], "{text}: {}", heard.text);
        assert!(heard.text.contains("robin"), "of the child, not of the sender: {}", heard.text);
        talk.hears(GUARDIAN, "better");
    }
    // Another's illness is nobody's here.
    assert_eq!(talk.hears(GUARDIAN, "my mum is ill").result["kind"], "not_understood");
}
