//! What was told stands; what comes up is named; the way back outranks all.

use crate::talk::{Talk, is_hard, is_test, main_lines};

fn swimmer() -> Talk {
    let mut talk = Talk::of_heron();
    for _ in 0..5 {
        talk.says("done 1600 50min rpe 4");
        talk.days_later(2);
    }
    talk.says("200 test 3:12");
    talk.days_later(2);
    talk
}

#[test]
fn asked_three_times_told_three_times_the_same() {
    let mut talk = swimmer();
    let first = talk.says("next");
    assert_eq!(first.result["kind"], "session", "{first:#?}");
    for _ in 0..2 {
        let again = talk.says("next");
        assert_eq!((again.result, again.text), (first.result.clone(), first.text.clone()));
    }
    // A change that they ask for is kept too.
    let short = talk.says("next 30min");
    assert_ne!(short.result["blocks"], first.result["blocks"]);
    assert_eq!(talk.says("next").result, short.result);
}

#[test]
fn a_plan_holds_what_was_told_and_next_reads_it() {
    let mut talk = swimmer();
    let next = talk.says("next").result;
    let plan = talk.says("plan").result;
    let sessions = plan["weeks"][0]["sessions"].as_array().unwrap();
    let same_day = sessions.iter().find(|one| one["on"] == next["on"]).unwrap();
    assert_eq!(same_day["blocks"], next["blocks"]);
    assert_eq!(talk.says("plan").result["weeks"], plan["weeks"], "asked again");
    assert_eq!(talk.says("next").result["blocks"], sessions[0]["blocks"]);
    assert_eq!(talk.says("tonight").result["blocks"], sessions[0]["blocks"]);
    // The plan goes on the day after.
    talk.days_later(1);
    let later = talk.says("plan").result;
    let later = later["weeks"][0]["sessions"].as_array().unwrap();
    let ahead = sessions.iter().filter(|one| one["on"].as_str() >= later[0]["on"].as_str());
    for one in ahead {
        assert!(later.iter().any(|kept| kept["blocks"] == one["blocks"]), "{one:#}");
    }
}

#[test]
fn what_comes_up_is_named() {
    let mut talk = swimmer();
    talk.says("next");
    talk.says("shoulder hurts 4");
    let lowered = talk.says("next");
    assert!(lowered.text.contains("you told of pain or illness"), "{}", lowered.text);
    assert!(!talk.says("next").text.contains("Changed"), "named once");
    // Told and over before they ask again: they are on the way back.
    let mut talk = swimmer();
    talk.says("next");
    talk.says("shoulder hurts 4");
    talk.says("better");
    let gentle = talk.says("next");
    assert!(gentle.text.contains("you are on the way back"), "{}", gentle.text);
}

#[test]
fn another_kind_of_week_takes_the_place_of_what_was_told() {
    let mut talk = swimmer();
    let told = talk.says("next").result;
    let easy = talk.says("plan easy");
    let first = &easy.result["weeks"][0]["sessions"][0];
    assert!(first["distance"].as_u64() < told["distance"].as_u64(), "{first:#}");
    assert!(easy.text.contains("you asked for it"), "{}", easy.text);
    assert_eq!(talk.says("plan easy").result["weeks"], easy.result["weeks"], "asked again");
}

#[test]
fn the_calendar_says_what_was_told() {
    let mut talk = swimmer();
    talk.says("plan");
    let short = talk.says("next 30min").result;
    let calendar = talk.calendar();
    let day = format!("DTSTART;VALUE=DATE:{}", short["on"].as_str().unwrap().replace('-', ""));
    let of_day: Vec<&str> =
        calendar.split("BEGIN:VEVENT").filter(|event| event.contains(&day)).collect();
    assert_eq!(of_day.len(), 1, "{calendar}");
    assert!(of_day[0].contains(&format!("heron: {} ", short["distance"])), "{calendar}");
}

/// A squad's nights with a lane and a set for them are no break though nobody marked
/// who came; by their own word that they missed them they are.
#[test]
fn a_squad_s_nights_are_no_break() {
    for missed in [false, true] {
        let mut talk = swimmer();
        talk.coach_says("slot tue 2000-2100 2 lanes");
        for _ in 0..2 {
            let set = talk.coach_says("plan tue");
            assert_eq!(set.result["kind"], "session", "{set:#?}");
            talk.days_later(7);
            if missed {
                talk.says("missed tue");
            }
        }
        let next = talk.says("next");
        assert_eq!(next.text.contains("easy return"), missed, "{}", next.text);
    }
}

#[test]
fn the_set_that_was_promised_is_the_next_main_set() {
    let mut talk = swimmer();
    let held = talk.says("4x50 on 1:20 held 48 48 48 48");
    assert!(held.text.contains("Next hard swim 5x50"), "{}", held.text);
    // Until it is swum it stays so, whatever lies between.
    for _ in 0..4 {
        talk.days_later(2);
        let next = talk.says("next").result;
        if is_hard(&next) {
            assert!(
                main_lines(&next).any(|(_, line)| line["count"] == 5 && line["distance"] == 50),
                "{next:#}"
            );
            return;
        }
        talk.says("done");
    }
    panic!("no hard swim in four");
}

#[test]
fn a_test_takes_the_promise_back_in_words() {
    let mut talk = swimmer();
    talk.says("4x50 on 1:20 held 48 48 48 48");
    talk.days_later(3);
    let test = talk.says("400 test 6:40");
    assert!(test.text.contains("is off: new paces"), "{}", test.text);
}

/// A fever, and strong pain: nothing hard and no test for a week and more after
/// `better`, whatever is due; before the clear days no swim at all.
#[test]
fn the_way_back_outranks_all() {
    for (trouble, clear_days, easy_days) in
        [("fever", 3, 14), ("ill", 2, 7), ("shoulder hurts 6", 0, 7)]
    {
        let mut talk = swimmer();
        // The test is old enough that another is due.
        for _ in 0..17 {
            talk.days_later(2);
            talk.says("done 1500 45min rpe 3");
        }
        talk.says(trouble);
        talk.days_later(3);
        talk.says("better");
        let better = talk.today();
        for _ in 0..easy_days {
            let next = talk.says("next").result;
            let on: jiff::civil::Date = next["on"].as_str().unwrap().parse().unwrap();
            assert!((on - better).get_days() > clear_days || clear_days == 0, "{trouble}: {on}");
            assert!(!is_hard(&next) && !is_test(&next), "{trouble}: {next:#}");
            talk.days_later(1);
            if on <= talk.today() {
                talk.says("done 600 30min rpe 3");
            }
        }
    }
}

/// Offers are no swims: three weeks with nothing but questions are three weeks out
/// of the water.
#[test]
fn an_offer_is_no_swim() {
    let mut talk = swimmer();
    for _ in 0..3 {
        talk.says("plan");
        talk.days_later(7);
    }
    let next = talk.says("next").result;
    assert!(!is_hard(&next), "{next:#}");
    assert!(next["distance"].as_u64().unwrap() <= 1600 * 7 / 10, "{next:#}");
}

/// A plan made while they still swam knows nothing of the days out of the water that
/// came then: what it holds for the end of them is taken back.
#[test]
fn a_break_that_came_since_is_named() {
    let mut talk = swimmer();
    talk.days_later(6);
    talk.says("plan");
    talk.days_later(3);
    let next = talk.says("next");
    assert!(next.text.contains("you have been out of the water"), "{next:#?}");
    assert!(!is_hard(&next.result) && !is_test(&next.result), "{next:#?}");
    assert!(!talk.says("next").text.contains("Changed"), "named once");
}

/// Told 1600, 700 of it swum at effort 9: the next is no longer, and easy; the
/// reply is kind.
#[test]
fn what_was_cut_short_is_the_measure_of_the_next() {
    let mut talk = swimmer();
    let told = talk.says("next").result;
    let on: jiff::civil::Date = told["on"].as_str().unwrap().parse().unwrap();
    talk.days_later(i64::from((on - talk.today()).get_days()));
    let swum = told["distance"].as_u64().unwrap() * 45 / 100 / 25 * 25;
    let done = talk.says(&format!("done {swum} 30min rpe 9"));
    assert!(done.text.contains("made to measure"), "{}", done.text);
    let next = talk.says("next").result;
    assert!(next["distance"].as_u64().unwrap() <= swum, "{swum}: {next:#}");
    assert!(!is_hard(&next), "{next:#}");
}

/// Pain takes back the session that held the promised set: what is swum that day all
/// the same is not that set, and it comes once the way back is over.
#[test]
fn a_set_taken_back_by_pain_is_still_to_come() {
    let mut talk = swimmer();
    let held = talk.says("4x50 on 1:20 held 48 48 48 48");
    assert!(held.text.contains("Next hard swim 5x50"), "{}", held.text);
    talk.days_later(3);
    let told = talk.says("next").result;
    assert!(main_lines(&told).any(|(_, line)| line["count"] == 5), "{told:#}");
    talk.says("shoulder hurts 2");
    talk.says("better");
    talk.says("done 1000 40min rpe 3");
    next_hard_holds(&mut talk, 5);
}

/// So is one that they got out of long before its end.
#[test]
fn a_set_cut_short_is_still_to_come() {
    let mut talk = swimmer();
    talk.says("4x50 on 1:20 held 48 48 48 48");
    talk.days_later(3);
    let told = talk.says("next").result;
    assert!(main_lines(&told).any(|(_, line)| line["count"] == 5), "{told:#}");
    talk.says("done 400 20min rpe 5");
    next_hard_holds(&mut talk, 5);
}

fn next_hard_holds(talk: &mut Talk, count: u64) {
    for _ in 0..8 {
        talk.days_later(3);
        let next = talk.says("next");
        if is_hard(&next.result) && !next.text.contains("waits for the next hard swim") {
            let holds = main_lines(&next.result)
                .any(|(_, line)| line["count"] == count && line["distance"] == 50);
            assert!(holds, "{next:#?}");
            return;
        }
        talk.says("done");
    }
    panic!("no hard swim in eight");
}

/// What a result told with pain leads to takes the place of what was promised in words,
/// never silently.
#[test]
fn a_result_told_with_pain_drops_nothing_silently() {
    let mut talk = swimmer();
    let held = talk.says("4x50 on 1:20 held 48 48 48 48");
    assert!(held.text.contains("Next hard swim 5x50"), "{}", held.text);
    talk.days_later(3);
    talk.says("shoulder hurts 4");
    let worse = talk.says("4x50 on 1:20 held 48 48 51 52");
    let said = ["Next hard swim", "is off", "which is off"];
    assert!(said.iter().any(|words| worse.text.contains(words)), "{}", worse.text);
}

/// A bad night: the swim right ahead is easy and a step less, and then all is as it was.
#[test]
fn a_bad_night_makes_the_next_swim_less() {
    let mut talk = swimmer();
    let told = talk.says("next").result;
    assert!(is_hard(&told), "{told:#}");
    talk.says("slept 4 hrs, shattered");
    let less = talk.says("next");
    assert!(less.text.contains("you said you are tired"), "{}", less.text);
    assert!(!is_hard(&less.result), "{less:#?}");
    assert!(less.result["distance"].as_u64() < told["distance"].as_u64(), "{less:#?}");
    assert!(!talk.says("next").text.contains("Changed"), "named once");
    talk.days_later(3);
    assert!(is_hard(&talk.says("next").result));
}

/// On the day of a race its warm-up is told, and in the days after it nothing hard.
#[test]
fn race_day_is_race_day() {
    let mut talk = swimmer();
    let day = talk.today().saturating_add(jiff::Span::new().days(6));
    talk.says(&format!("race 200 on {day} goal 3:05"));
    let plan = talk.says("plan").result;
    let sessions = plan["weeks"][0]["sessions"].as_array().unwrap();
    let on_it = sessions.iter().find(|one| one["on"] == day.to_string()).unwrap();
    assert_eq!(on_it["title"], "race day", "{plan:#}");
    talk.days_later(6);
    let race = talk.says("next").result;
    assert_eq!((&race["on"], &race["title"]), (&day.to_string().into(), &"race day".into()));
    assert!(main_lines(&race).next().is_none(), "{race:#}");
    talk.says("200 test 3:06 meet");
    talk.days_later(1);
    let after = talk.says("next").result;
    assert!(!is_hard(&after), "{after:#}");
}

/// An easy swim promised after a test comes before it, and takes nothing of it back.
#[test]
fn a_promised_test_outlasts_an_easy_swim() {
    let mut talk = swimmer();
    talk.says("4x50 on 1:20 held 48 48 51 52");
    talk.days_later(2);
    let stale = talk.says("4x50 on 1:30 held 48 48 51 52");
    assert!(stale.text.contains("Time for a new test"), "{}", stale.text);
    talk.days_later(2);
    let off = talk.says("4x50 on 1:30 held 52 53 53 54");
    assert!(off.text.contains("Easy swim next"), "{}", off.text);
    assert!(!is_hard(&talk.says("next").result));
    talk.days_later(2);
    talk.says("done 1000 40min rpe 3");
    for _ in 0..4 {
        talk.days_later(2);
        let next = talk.says("next").result;
        if is_hard(&next) {
            assert!(is_test(&next), "{next:#}");
            return;
        }
        talk.says("done");
    }
    panic!("no test in four");
}
