use super::super::speaking::tests::letter_to;
use super::*;

const COACH: &str = "+15550100";

fn record(events: Vec<Event>, letters: &[(&str, Called)]) -> Record {
    let at = Timestamp::UNIX_EPOCH;
    let replies = letters.iter().map(|(to, called)| letter_to(to, Some(*called))).collect();
    Record { events, replies, ..Record::unsaid(None, 1, "+15550101", at) }
}

fn raised(letters: &[(&str, Called)]) -> Alarms {
    let mut alarms = Alarms::default();
    alarms.note(7, &record(vec![Event::AlarmRaised { known: false, alone: false }], letters));
    alarms
}

fn number(index: u16) -> LetterNumber {
    LetterNumber { place: 7, index }
}

fn delivered(index: u16) -> LetterEvent {
    LetterEvent::Delivered { to: COACH.into(), letter: number(index) }
}

fn called(alarms: &Alarms) -> Vec<Called> {
    alarms.calls(u64::MAX).iter().map(|call| call.called).collect()
}

const NOW: Timestamp = Timestamp::UNIX_EPOCH;

#[test]
fn one_who_can_help_is_enough_and_those_behind_are_left_in_peace() {
    use Called::{Deck, Guardian, SecondContact, Standby};
    let all = [("a", Deck), ("b", Deck), ("c", SecondContact), ("d", Standby), ("e", Guardian)];
    let mut alarms = raised(&all);
    // The guardian is no help at the pool.
    assert!(alarms.apply(&delivered(4)));
    assert_eq!(alarms.unheard(NOW).len(), 1);
    assert!(alarms.apply(&delivered(1)));
    assert_eq!((alarms.unheard(NOW).len(), called(&alarms)), (0, vec![Deck]));
    assert!(alarms.apply(&delivered(0)));
    assert_eq!(alarms, Alarms { dirty: true, ..Alarms::default() });
    // What is already gone is passed over.
    assert!(!alarms.apply(&delivered(2)));
}

#[test]
fn whoever_is_on_deck_and_speaks_of_another_knows() {
    let mut alarms = Alarms::default();
    let known = || vec![Event::AlarmRaised { known: true, alone: false }];
    alarms.note(7, &record(known(), &[]));
    assert_eq!(alarms.open.len(), 0);
    // The others on deck are called all the same.
    alarms.note(8, &record(known(), &[(COACH, Called::Deck)]));
    assert_eq!((alarms.unheard(NOW).len(), alarms.calls(u64::MAX).len()), (0, 1));
}

#[test]
fn an_alarm_that_nobody_can_be_called_for_is_told_of_for_a_day() {
    let alarms = raised(&[]);
    assert_eq!(alarms.unheard(NOW).len(), 1);
    assert_eq!(alarms.unheard(NOW + SignedDuration::from_hours(25)).len(), 0);
    // Whose letters are all dead is the same.
    let mut alarms = raised(&[(COACH, Called::Deck)]);
    let why = "the recipient has opted out".to_owned();
    alarms.apply(&LetterEvent::Died { to: COACH.into(), letter: number(0), at: NOW, why });
    assert_eq!((alarms.unheard(NOW).len(), alarms.waiting()), (1, 0));
    assert_eq!(alarms.undelivered().count(), 1);
    // One that waits is told of for as long as it does.
    let alarms = raised(&[(COACH, Called::Deck)]);
    assert_eq!(alarms.unheard(NOW + SignedDuration::from_hours(1000)).len(), 1);
}

#[test]
fn whoever_raised_it_is_told_once_and_not_after_it_was_heard() {
    let mut alarms = raised(&[(COACH, Called::Deck)]);
    let notice = || {
        let mut notice =
            record(vec![Event::AlarmUnheard { alarm: 7 }], &[("+15550101", Called::Sender)]);
        notice.cause = 2;
        notice
    };
    alarms.note(9, &notice());
    assert!(alarms.unheard(NOW)[0].noticed);
    assert_eq!(called(&alarms), [Called::Deck, Called::Sender]);
    alarms.apply(&delivered(0));
    assert_eq!(alarms.calls(u64::MAX), []);
    let mut alarms = raised(&[("a", Called::Deck), ("b", Called::Deck)]);
    alarms.apply(&delivered(0));
    alarms.note(9, &notice());
    assert_eq!(called(&alarms), [Called::Deck]);
}

#[test]
fn a_worry_is_an_alarm_of_its_own_and_an_ordinary_letter_is_none() {
    let mut alarms = Alarms::default();
    alarms.note(3, &Record { replies: vec![letter_to(COACH, None)], ..record(vec![], &[]) });
    assert_eq!(alarms, Alarms::default());
    alarms.note(4, &record(vec![], &[("+15550109", Called::Officer)]));
    assert!(!alarms.unheard(NOW)[0].danger);
    let kept = serde_json::to_vec(&alarms).unwrap();
    let again: Alarms = serde_json::from_slice(&kept).unwrap();
    assert_eq!(again.calls(u64::MAX), alarms.calls(u64::MAX));
}
