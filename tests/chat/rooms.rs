//! In a room: results aloud, what is private to the sender alone, danger aloud
//! without a name.

use lapwing::service::{Via, WayBack};

use super::club::{COACH, Club, alone, in_room};

const HERON: &str = "+15550101";
const ROOM: Option<&str> = Some("lane-chat");

async fn club() -> Club {
    let club = Club::coached_by(COACH).await;
    for (from, name) in [(HERON, "heron"), ("+15550102", "teal")] {
        club.hears(from, None, &format!("join {} {name}", club.code)).await;
    }
    club
}

#[tokio::test(flavor = "multi_thread")]
async fn her_own_result_is_answered_aloud_and_what_to_swim_is_not() {
    let club = club().await;
    let answer = club.hears(HERON, ROOM, "200 test 3:12").await;
    let aloud = in_room(&answer).unwrap();
    assert_eq!((aloud.to.as_str(), aloud.room.as_deref(), aloud.via), (HERON, ROOM, Via::Answer));
    assert!(aloud.text.contains("3:12") && !aloud.text.contains("Next"), "{}", aloud.text);
    assert!(alone(&answer, HERON).is_none());
    let answer = club.hears(HERON, ROOM, "next").await;
    assert_eq!(in_room(&answer).unwrap().text, "Answered privately.");
    let alone = alone(&answer, HERON).unwrap();
    assert!(alone.text.contains("Warm-up") && alone.via == Via::Answer, "{}", alone.text);
}

#[tokio::test(flavor = "multi_thread")]
async fn private_matters_are_answered_to_the_sender_alone() {
    let club = club().await;
    club.hears(HERON, None, "200 test 3:12").await;
    for (from, text) in [
        (HERON, "shoulder hurts 4"),
        (HERON, "ill"),
        (HERON, "me"),
        (HERON, "born 1981"),
        (HERON, "missed"),
        (HERON, "forget me"),
        (HERON, "why"),
        (COACH, "squad"),
        (COACH, "heron"),
        (COACH, "heron 200 test 3:11"),
        (COACH, "keep heron easy"),
    ] {
        let answer = club.hears(from, ROOM, text).await;
        assert_eq!(in_room(&answer).unwrap().text, "Answered privately.", "{text}");
        assert!(alone(&answer, from).is_some_and(|reply| !reply.text.is_empty()), "{text}");
    }
}

#[tokio::test(flavor = "multi_thread")]
async fn without_a_way_to_her_alone_the_room_asks_for_a_private_text() {
    let club = club().await;
    let no_way = WayBack { alone: None, ..WayBack::default() };
    let answer = club.hears_by(no_way, HERON, ROOM, "shoulder hurts 7").await;
    assert_eq!(in_room(&answer).unwrap().text, "That is for a private text, not for this room.");
    assert!(alone(&answer, HERON).is_none());
    // It was heard all the same: the coach is told.
    assert!(alone(&answer, COACH).unwrap().text.contains("shoulder"));
}

#[tokio::test(flavor = "multi_thread")]
async fn danger_is_answered_aloud_without_a_name_and_the_coach_is_told() {
    let club = club().await;
    for (from, text) in
        [(HERON, "200 test 3:12 felt dizzy"), (HERON, "teal fainted"), (COACH, "teal fainted")]
    {
        let answer = club.hears(from, ROOM, text).await;
        let aloud = &in_room(&answer).unwrap().text;
        assert!(aloud.contains("ut of the water now"), "{aloud}");
        assert!(!aloud.contains("teal") && !aloud.contains("heron"), "{aloud}");
        if from != COACH {
            assert!(alone(&answer, COACH).unwrap().text.starts_with("ALERT"), "{text}");
        }
    }
    let stranger = club.hears("+15550199", ROOM, "chest pain").await;
    assert!(in_room(&stranger).unwrap().text.contains("emergency number"));
}

/// Nothing in the room points at whoever spoke of harm.
#[tokio::test(flavor = "multi_thread")]
async fn words_of_harm_are_answered_to_the_sender_alone() {
    let club = club().await;
    for from in [HERON, "+15550199"] {
        let answer = club.hears(from, ROOM, "scared of my coach").await;
        assert!(in_room(&answer).is_none(), "{answer:?}");
        assert!(alone(&answer, from).unwrap().text.contains("believed"));
    }
}

#[tokio::test(flavor = "multi_thread")]
async fn help_in_a_room_is_two_lines_at_most() {
    let club = club().await;
    for from in [HERON, COACH, "+15550199"] {
        for text in ["help", "help test", "help pain"] {
            let answer = club.hears(from, ROOM, text).await;
            assert!(in_room(&answer).unwrap().text.lines().count() <= 2);
        }
    }
}

/// What the channel calls them, the thread and the order of a room survive a
/// restart.
#[tokio::test(flavor = "multi_thread")]
async fn the_way_back_is_kept() {
    let club = club().await;
    let back = WayBack {
        answers: Via::Outbox,
        alone: Some(Via::Outbox),
        handle: Some("@heron".into()),
        thread: Some("t1".into()),
    };
    let answer = club.hears_by(back, HERON, ROOM, "ill").await;
    assert_eq!(in_room(&answer).unwrap().thread.as_deref(), Some("t1"));
    let Club { service, folder, .. } = club;
    service.close().await;
    drop(service);
    let service = super::club::open(&folder);
    let mut letters = service.undelivered().unwrap();
    // The first two tell the coach who has joined.
    letters.drain(..2);
    let to: Vec<&str> = letters.iter().map(|one| one.to.as_str()).collect();
    assert_eq!(to, ["lane-chat", HERON]);
    let letter = service.letter(letters[1].number).unwrap();
    assert_eq!((letter.handle.as_deref(), letter.spoken.room), (Some("@heron"), None));
}

/// Who swims in which lane is for the room where the coach has said so, and what is
/// open with anybody stays with the coach.
#[tokio::test(flavor = "multi_thread")]
async fn the_coach_may_let_a_room_hear_who_swims_in_which_lane() {
    let club = club().await;
    let says = |from, room, text| club.hears(from, room, text);
    for (who, time) in [("heron", "3:12"), ("teal", "2:58")] {
        club.hears(COACH, None, &format!("{who} 200 test {time}")).await;
    }
    says(COACH, None, "here heron teal").await;
    says(COACH, None, "teal shoulder hurts 3").await;
    says(COACH, None, "set 200 easy, 8x50 on 1:05, 200 easy").await;
    says(COACH, None, "lanes 1").await;
    let named = |text: &str| ["heron", "teal"].map(|one| text.contains(one));
    let private = "Answered privately.";
    assert_eq!(in_room(&says(COACH, ROOM, "lanes").await).unwrap().text, private);

    // A swimmer can't say so.
    says(HERON, ROOM, "show names in the chat").await;
    assert_eq!(in_room(&says(COACH, ROOM, "lanes").await).unwrap().text, private);

    let told = says(COACH, ROOM, "you can show names in the chat").await;
    assert!(in_room(&told).unwrap().text.contains("may now hear"), "{told:?}");
    for text in ["lanes", "L1", "tonight L1"] {
        let answer = says(COACH, ROOM, text).await;
        let aloud = &in_room(&answer).unwrap().text;
        assert_eq!(named(aloud), [true, true], "{text}: {aloud}");
        assert!(!aloud.contains("easy for") && !aloud.contains("shoulder"), "{text}: {aloud}");
    }
    let answer = says(COACH, ROOM, "lanes").await;
    assert!(alone(&answer, COACH).unwrap().text.contains("teal"), "{answer:?}");
    let answer = says(HERON, ROOM, "teal").await;
    assert_eq!(named(&in_room(&answer).unwrap().text), [false, false]);

    says(COACH, ROOM, "no names in the group chat please").await;
    assert_eq!(in_room(&says(COACH, ROOM, "lanes").await).unwrap().text, private);
}
