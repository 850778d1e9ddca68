//! Who is told unasked of what: one readable table, held against the desk for
//! every kind of care, every role, in private and in a room.

use std::fmt::Write;

use super::minors::{DEPUTY, GUARDIAN, OFFICER, looked_after};
use super::squad::{COACH, Talk, address};

const TABLE: &str = include_str!("recipients.txt");

/// The columns: who texts.
const SENDERS: [&str; 6] = ["teal", "heron", "robin", GUARDIAN, COACH, "+15550188"];

/// Letters for those who are told, in the order of a cell.
const TOLD: [(char, &str); 7] = [
    ('C', COACH),
    ('G', GUARDIAN),
    ('O', OFFICER),
    ('D', DEPUTY),
    ('t', "teal"),
    ('h', "heron"),
    ('r', "robin"),
];

/// Whom a text reaches beside its sender: letters, or `-`.
fn reached(text: &str, sender: &str, room: Option<&str>) -> String {
    let mut talk: Talk = looked_after();
    let of_another =
        sender == COACH && !["heron", "teal", "robin"].iter().any(|name| text.contains(name));
    let text = if of_another { format!("heron {text}") } else { text.to_owned() };
    if sender == "+15550188" {
        return "-".to_owned();
    }
    // Of two wards one is named.
    let text = if sender == GUARDIAN { format!("robin {text}") } else { text };
    let heard = talk.hears_in(sender, room, &text);
    let mut letters = String::new();
    for (letter, to) in TOLD {
        if heard.to_others.iter().any(|(at, _)| at == address(to)) {
            letters.push(letter);
        }
    }
    let known = |at: &String| TOLD.iter().any(|(_, to)| address(to) == at);
    assert!(heard.to_others.iter().all(|(at, _)| known(at)), "{text}: {:?}", heard.to_others);
    if letters.is_empty() { "-".to_owned() } else { letters }
}

#[test]
fn everyone_is_told_what_the_table_says_and_nobody_else() {
    let (mut cells, mut wrong) = (0, String::new());
    for line in TABLE.lines().filter(|line| !line.starts_with('#') && !line.trim().is_empty()) {
        let (text, expected) = line.rsplit_once('|').unwrap();
        let expected: Vec<&str> = expected.split_whitespace().collect();
        assert_eq!(expected.len(), SENDERS.len(), "{line}");
        for (sender, expected) in SENDERS.into_iter().zip(expected) {
            for room in [None, Some("pool-chat")] {
                cells += 1;
                let found = reached(text.trim(), sender, room);
                if found != expected {
                    writeln!(wrong, "{text} from {sender} {room:?}: {found}, not {expected}")
                        .unwrap();
                }
            }
        }
    }
    println!("{cells} cells");
    assert!(wrong.is_empty(), "\n{wrong}");
}
