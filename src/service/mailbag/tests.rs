use super::*;

const NOW: Timestamp = Timestamp::UNIX_EPOCH;
const ALL: u64 = u64::MAX;

fn number(place: u64) -> LetterNumber {
    LetterNumber { place, index: 0 }
}

fn at(second: i64) -> Timestamp {
    Timestamp::from_second(second).unwrap()
}

fn delivered(to: &str, place: u64) -> LetterEvent {
    LetterEvent::Delivered { to: to.to_owned(), letter: number(place) }
}

fn failed(to: &str, place: u64, next: Timestamp) -> LetterEvent {
    let (to, why) = (to.to_owned(), "500".to_owned());
    LetterEvent::Failed { to, letter: number(place), next, why, aside: false }
}

fn refused(to: &str, place: u64, next: Timestamp) -> LetterEvent {
    let (to, why) = (to.to_owned(), "400".to_owned());
    LetterEvent::Failed { to, letter: number(place), next, why, aside: true }
}

fn died(to: &str, place: u64) -> LetterEvent {
    LetterEvent::Died { to: to.to_owned(), letter: number(place), at: NOW, why: "500".to_owned() }
}

fn bag(posted: &[(&str, u64)]) -> Mailbag {
    let mut bag = Mailbag::default();
    posted.iter().for_each(|(to, place)| bag.post(number(*place), to, None));
    bag
}

fn due(bag: &Mailbag, now: Timestamp) -> Vec<u64> {
    bag.due(Instants::at(now), ALL, |_| true, 99).iter().map(|due| due.number.place).collect()
}

#[test]
fn a_letter_waits_for_the_one_before_it_to_the_same_recipient() {
    let mut bag = bag(&[("heron", 1), ("teal", 2), ("heron", 3), ("heron", 4)]);
    assert_eq!(due(&bag, NOW), [1, 2]);
    bag.apply(&failed("heron", 1, at(5)));
    assert_eq!(due(&bag, NOW), [2]);
    assert_eq!(due(&bag, at(5)), [2, 1]);
    bag.apply(&delivered("heron", 1));
    assert_eq!(due(&bag, NOW), [2, 3]);
    bag.apply(&died("heron", 3));
    assert_eq!(due(&bag, NOW), [2, 4]);
}

#[test]
fn a_letter_that_is_refused_is_set_aside_and_none_waits_for_it() {
    let mut bag = bag(&[("heron", 1), ("heron", 2), ("heron", 3)]);
    bag.apply(&refused("heron", 1, at(5)));
    assert_eq!(due(&bag, NOW), [2]);
    bag.apply(&failed("heron", 2, at(60)));
    // It is tried again in its time, whatever waits.
    assert_eq!(due(&bag, at(5)), [1]);
    bag.apply(&refused("heron", 1, at(30)));
    assert_eq!((due(&bag, at(30)), due(&bag, at(60))), (vec![1], vec![1]));
    bag.apply(&died("heron", 1));
    assert_eq!((due(&bag, at(60)), bag.waiting()), (vec![2], 2));
    bag.apply(&LetterEvent::Retried { letter: Some(number(1)) });
    assert_eq!(due(&bag, NOW), [1]);
}

#[test]
fn what_waits_for_the_morning_goes_by_the_clock_and_a_try_by_what_has_passed() {
    let mut bag = bag(&[("heron", 1)]);
    bag.post(number(2), "teal (held)", Some(at(100)));
    bag.apply(&failed("heron", 1, at(100)));
    let due = |bag: &Mailbag, wall, passed| -> Vec<u64> {
        let instants = Instants { wall: at(wall), passed: at(passed) };
        bag.due(instants, ALL, |_| true, 99).iter().map(|due| due.number.place).collect()
    };
    assert_eq!(due(&bag, 99, 99), [0; 0]);
    assert_eq!(due(&bag, 100, 99), [2]);
    assert_eq!(due(&bag, -86_400, 100), [1]);
    // After a start by a clock that was put right.
    bag.rein_in(at(-86_400), |tries| (tries == 1).then(|| at(-86_395)));
    assert_eq!(due(&bag, -86_395, -86_395), [1]);
    assert_eq!(due(&bag, 100, -86_395), [1, 2]);
}

#[test]
fn busy_lanes_and_what_is_not_durable_are_left_out() {
    let bag = bag(&[("heron", 1), ("teal", 2), ("wren", 3)]);
    let numbers = |through, most| -> Vec<u64> {
        bag.due(Instants::at(NOW), through, |to| to != "heron", most)
            .iter()
            .map(|due| due.number.place)
            .collect()
    };
    assert_eq!(numbers(ALL, 9), [2, 3]);
    assert_eq!(numbers(2, 9), [2]);
    assert_eq!(numbers(ALL, 1), [2]);
}

#[test]
fn a_dead_letter_is_kept_and_goes_first_when_tried_again() {
    let mut bag = bag(&[("heron", 1), ("heron", 2), ("teal", 3)]);
    bag.apply(&failed("heron", 1, at(5)));
    bag.apply(&died("heron", 1));
    bag.apply(&failed("heron", 2, at(5)));
    let first = &bag.undelivered()[0];
    assert_eq!((first.tries, first.state), (2, LetterState::Dead(NOW)));
    bag.apply(&LetterEvent::Retried { letter: Some(number(1)) });
    assert_eq!(due(&bag, NOW), [1, 3]);
    assert_eq!(bag.undelivered()[0].tries, 0);
    assert_eq!(bag.undelivered()[1].tries, 1);
    bag.apply(&died("teal", 3));
    bag.apply(&LetterEvent::Retried { letter: None });
    assert_eq!(due(&bag, NOW), [1, 3]);
    bag.apply(&delivered("heron", 1));
    assert_eq!(due(&bag, NOW), [2, 3]);
}

#[test]
fn what_a_snapshot_holds_is_what_there_was() {
    let mut bag = bag(&[("heron", 1), ("heron", 2), ("teal", 3), ("wren", 4)]);
    bag.apply(&failed("heron", 1, at(7)));
    bag.apply(&died("teal", 3));
    bag.apply(&delivered("wren", 4));
    let parts = bag.changed();
    assert_eq!(parts.iter().filter(|(_, lane)| lane.is_none()).count(), 1);
    assert!(parts.iter().all(|(name, _)| name.starts_with(LANE) && name.len() < 64));
    assert!(bag.changed().is_empty());
    let mut again = Mailbag::default();
    for lane in parts.into_iter().filter_map(|(_, lane)| lane) {
        let bytes = serde_json::to_vec(&lane).unwrap();
        again.restore(serde_json::from_slice(&bytes).unwrap());
    }
    assert_eq!(again.undelivered(), bag.undelivered());
    assert_eq!(due(&again, at(7)), due(&bag, at(7)));
    assert!(again.changed().is_empty());
}

#[test]
fn what_happens_to_a_letter_that_is_not_there_changes_nothing() {
    let mut bag = bag(&[("heron", 1)]);
    for event in [delivered("heron", 9), failed("teal", 1, NOW), died("heron", 2)] {
        bag.apply(&event);
    }
    assert_eq!(due(&bag, NOW), [1]);
    assert_eq!(bag.undelivered().len(), 1);
}
