use super::*;

fn name(word: &str) -> Name {
    Name::new(word).unwrap()
}

fn missed(who: &str) -> Event {
    Event::SessionMissed { who: name(who), on: jiff::civil::date(2026, 3, 2) }
}

fn fixed(who: &str) -> Event {
    Event::TestFixed {
        who: name(who),
        cause: 4,
        time: crate::units::Centis::new(19200).unwrap(),
        distance: None,
    }
}

fn moved(from: &str, to: &str) -> Event {
    Event::ResultMoved { from: name(from), to: name(to), cause: 4 }
}

#[test]
fn results_that_were_moved_stay_with_the_one_who_swam_them() {
    // Stored as theirs, really teal's.
    let mut gone = Gone::new(name("heron"));
    gone.note(5, &moved("heron", "teal"));
    assert_eq!(gone.without(4, fixed("heron")), Some(fixed("teal")));
    assert_eq!(gone.without(5, moved("heron", "teal")), None);
    // Stored as teal's, really theirs.
    let mut gone = Gone::new(name("heron"));
    gone.note(5, &moved("teal", "heron"));
    assert_eq!(gone.without(4, fixed("teal")), None);
    assert_eq!(gone.without(6, missed("teal")), Some(missed("teal")));
    // By way of them to wren.
    gone.note(6, &moved("heron", "wren"));
    assert_eq!(gone.without(4, fixed("teal")), Some(fixed("teal")));
    assert_eq!(gone.without(6, moved("heron", "wren")), Some(moved("teal", "wren")));
}

/// What was moved and moved back is theirs, and goes with them.
#[test]
fn results_whose_move_was_undone_are_whose_they_were() {
    let mut gone = Gone::new(name("heron"));
    gone.note(5, &moved("heron", "teal"));
    gone.note(6, &Event::Undone { cause: 5 });
    assert_eq!(gone.without(4, fixed("heron")), None);
    assert_eq!(gone.without(5, moved("heron", "teal")), None);
    // Teal's by way of them, and back.
    let mut gone = Gone::new(name("heron"));
    gone.note(5, &moved("teal", "heron"));
    gone.note(6, &Event::Undone { cause: 5 });
    assert_eq!(gone.without(4, fixed("teal")), Some(fixed("teal")));
    assert_eq!(gone.without(5, moved("teal", "heron")), None);
    // Another's undoing leaves the move as it was.
    let mut gone = Gone::new(name("heron"));
    gone.note(5, &moved("heron", "teal"));
    gone.note(7, &Event::Undone { cause: 3 });
    assert_eq!(gone.without(4, fixed("heron")), Some(fixed("teal")));
}

#[test]
fn words_for_others_go_as_far_as_they_name_them() {
    let gone = Gone::new(name("heron"));
    let noted = |text: &str| Event::Noted { who: name("teal"), text: text.to_owned() };
    assert_eq!(gone.without(1, noted("long exhale")), Some(noted("long exhale")));
    assert_eq!(gone.without(1, noted("behind Heron, please")), Some(noted("")));
    let more = |lines: &[&str]| Event::MoreKept {
        address: "coach".to_owned(),
        lines: lines.iter().map(|line| (*line).to_owned()).collect(),
    };
    assert_eq!(gone.without(1, more(&["heron: hurt"])), Some(more(&[])));
    assert_eq!(gone.without(1, more(&["herons fly"])), Some(more(&["herons fly"])));
}
