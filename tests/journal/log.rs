//! Order, finding, cutting, snapshots, reopening: one process, a sound disk.

use super::*;

use std::sync::Arc;
use std::time::Duration;

use crate::home::{Folder, Home, in_both};

in_both!(
    order_of_calls_is_order_of_log,
    an_empty_log_has_nothing,
    a_message_finds_what_it_left,
    the_same_id_on_another_channel_is_another_message,
    the_first_entry_keeps_the_key,
    entries_of_any_length_come_back_whole,
    a_checkpoint_replaces_only_the_parts_it_names,
    a_checkpoint_that_changes_what_is_not_there_is_refused,
    streams_lie_side_by_side,
    an_id_is_known_for_a_fortnight,
    what_is_too_long_is_refused_and_harms_nothing,
    reopening_in_use_loses_nothing,
    closing_writes_what_waits_and_then_refuses,
);

fn order_of_calls_is_order_of_log(home: &impl Home) {
    let journal = home.open();
    let tickets: Vec<_> = (0..500_u32).map(|n| journal.append(unkeyed(&n.to_be_bytes()))).collect();
    for (n, ticket) in (1..).zip(tickets) {
        assert_eq!(ticket.wait().unwrap(), Seq::new(n));
    }
    let journal = home.again(journal);
    let read: Vec<_> = all(journal.as_ref()).unwrap();
    assert_eq!(read.len(), 500);
    for (n, (seq, entry)) in (0_u32..).zip(read) {
        assert_eq!((seq.number(), entry.body), (u64::from(n) + 1, n.to_be_bytes().to_vec()));
    }
    assert_eq!(journal.last(), Some(Seq::new(500)));
}

fn an_empty_log_has_nothing(home: &impl Home) {
    let journal = home.open();
    assert_eq!(journal.last(), None);
    assert_eq!(all(journal.as_ref()).unwrap(), vec![]);
    assert_eq!(journal.snapshot(&dusk()).unwrap(), Default::default());
    assert_eq!(found(journal.as_ref(), "gw-1").unwrap(), None);
    assert!(journal.check().unwrap().is_sound());
}

fn a_message_finds_what_it_left(home: &impl Home) {
    let journal = home.open();
    let seq = journal.append(keyed("gw-1", b"heron")).wait().unwrap();
    journal.append(unkeyed(b"nobody's")).wait().unwrap();
    assert_eq!(found(journal.as_ref(), "gw-1").unwrap(), Some((seq, keyed("gw-1", b"heron"))));
    let journal = home.again(journal);
    assert_eq!(found(journal.as_ref(), "gw-1").unwrap(), Some((seq, keyed("gw-1", b"heron"))));
}

fn the_same_id_on_another_channel_is_another_message(home: &impl Home) {
    let journal = home.open();
    journal.append(keyed("gw-1", b"heron")).wait().unwrap();
    let chat = MessageKey { channel: "chat".into(), id: "gw-1".into() };
    assert!(journal.find(&chat).unwrap().is_none());
}

fn the_first_entry_keeps_the_key(home: &impl Home) {
    let journal = home.open();
    // Both in one batch, most likely, and a third one later.
    let (first, second) =
        (journal.append(keyed("gw-1", b"first")), journal.append(keyed("gw-1", b"second")));
    let first = first.wait().unwrap();
    second.wait().unwrap();
    journal.append(keyed("gw-1", b"third")).wait().unwrap();
    assert_eq!(found(journal.as_ref(), "gw-1").unwrap(), Some((first, keyed("gw-1", b"first"))));
    let journal = home.again(journal);
    assert_eq!(found(journal.as_ref(), "gw-1").unwrap(), Some((first, keyed("gw-1", b"first"))));
    assert!(journal.check().unwrap().is_sound());
}

fn entries_of_any_length_come_back_whole(home: &impl Home) {
    let journal = home.open();
    // Around the limits of one record (6 KiB) and of many, and nothing at all.
    let lengths = [
        0, 1, 2, 400, 6_100, 6_110, 6_120, 6_130, 6_140, 6_144, 6_150, 12_280, 12_300, 65_536,
        131_072, 200_000,
    ];
    let bodies: Vec<Vec<u8>> =
        lengths.iter().map(|&length| (0..length).map(|at| (at % 251) as u8).collect()).collect();
    let all_at_once: Vec<_> = bodies
        .iter()
        .enumerate()
        .map(|(n, body)| journal.append(keyed(&format!("gw-{n}"), body)))
        .collect();
    for ticket in all_at_once {
        ticket.wait().unwrap();
    }
    for (n, body) in bodies.iter().enumerate() {
        journal.append(keyed(&format!("one-{n}"), body)).wait().unwrap();
    }
    let journal = home.again(journal);
    let read: Vec<Vec<u8>> =
        all(journal.as_ref()).unwrap().into_iter().map(|(_, entry)| entry.body).collect();
    assert_eq!(read, [bodies.clone(), bodies.clone()].concat());
    for (n, body) in bodies.iter().enumerate() {
        assert_eq!(found(journal.as_ref(), &format!("gw-{n}")).unwrap().unwrap().1.body, *body);
    }
    assert!(journal.check().unwrap().is_sound());
    home.look();
}

/// A page of the store that holds only long records must not grow over the
/// limit at which it would leave the log for a side file.
#[test]
fn no_run_of_long_records_makes_a_side_file() {
    let home = Folder::new();
    let journal = home.open();
    let store = home.0.path().join("journal");
    for length in [6_090, 6_100, 6_110, 12_000, 3_000, 200_000, 1_000_000] {
        for _ in 0..if length > 100_000 { 4 } else { 60 } {
            journal.append(unkeyed(&vec![0x5A; length])).wait().unwrap();
            assert_no_blobs(&store);
        }
        let through = journal.last().unwrap();
        for version in 0..12_u8 {
            // Growing and shrinking, so that pages split and merge.
            let length = if version % 2 == 0 { 300_000 } else { 20_000 };
            let parts = vec![
                part("squad-1", &vec![version; length]),
                part("squad-2", &vec![version; length / 3]),
            ];
            journal.checkpoint(&dusk(), None, through.number(), parts).unwrap();
            assert_no_blobs(&store);
        }
    }
    assert!(journal.check().unwrap().is_sound());
}

fn a_checkpoint_replaces_only_the_parts_it_names(home: &impl Home) {
    let journal = home.open();
    journal.append(unkeyed(b"1")).wait().unwrap();
    let long = vec![7; 50_000];
    let parts = vec![part("a", &long), part("bb", b"old"), part("goes", b"soon")];
    journal.checkpoint(&dusk(), None, 1, parts).unwrap();
    journal.append(unkeyed(b"2")).wait().unwrap();
    journal.append(unkeyed(b"3")).wait().unwrap();
    let parts = vec![part("a", b"short"), part("c", b"new"), part("goes", b"")];
    journal.checkpoint(&dusk(), Some(1), 2, parts).unwrap();

    let journal = home.again(journal);
    let snapshot = journal.snapshot(&dusk()).unwrap();
    assert_eq!(snapshot.through, 2);
    assert_eq!(snapshot.parts, vec![part("a", b"short"), part("bb", b"old"), part("c", b"new")]);
    let rest: Vec<_> =
        journal.entries_of(&dusk(), 2).map(|placed| placed.unwrap().entry.body).collect();
    assert_eq!(rest, vec![b"3".to_vec()]);
    journal.checkpoint(&dusk(), None, 3, vec![part("d", b"all")]).unwrap();
    assert_eq!(journal.snapshot(&dusk()).unwrap().parts, vec![part("d", b"all")]);
}

fn a_checkpoint_that_changes_what_is_not_there_is_refused(home: &impl Home) {
    let journal = home.open();
    journal.append(unkeyed(b"1")).wait().unwrap();
    let refused = journal.checkpoint(&dusk(), None, 2, vec![]);
    assert_eq!(refused, Err(JournalError::Ahead { through: 2, last: 1 }));
    let refused = journal.checkpoint(&dusk(), Some(1), 1, vec![]);
    assert_eq!(refused, Err(JournalError::NoBase(1)));
}

/// Each stream has its own order, its own tip and its own snapshot.
fn streams_lie_side_by_side(home: &impl Home) {
    let mut journal = home.open();
    let dawn = StreamId("s/dawn".into());
    for number in 1..=60_u8 {
        let stream = if number % 3 == 0 { dawn.clone() } else { dusk() };
        journal.append(Entry { stream, ..unkeyed(&[number]) }).wait().unwrap();
    }
    journal.checkpoint(&dawn, None, 20, vec![part("dawn", b"20")]).unwrap();
    journal.checkpoint(&StreamId::all(), None, 60, vec![part("all", b"60")]).unwrap();
    for _ in 0..2 {
        let of_dawn: Vec<(u64, u8)> = journal
            .entries_of(&dawn, 5)
            .map(|placed| placed.map(|placed| (placed.tip.number, placed.entry.body[0])).unwrap())
            .collect();
        assert_eq!(of_dawn, (6..=20).map(|n| (n, 3 * n as u8)).collect::<Vec<_>>());
        assert_eq!(journal.tip(&dawn).unwrap().unwrap().number, 20);
        assert_eq!(journal.tip(&dusk()).unwrap().unwrap().number, 40);
        assert_eq!(journal.tip(&StreamId::all()).unwrap().unwrap().number, 60);
        let mut streams = journal.streams().unwrap();
        streams.sort();
        assert_eq!(streams, [dawn.clone(), dusk()]);
        assert_eq!(journal.snapshot(&dusk()).unwrap(), Default::default());
        assert_eq!(journal.snapshot(&dawn).unwrap().parts, [part("dawn", b"20")]);
        assert_eq!(journal.snapshot(&StreamId::all()).unwrap().through, 60);
        journal = home.again(journal);
    }
}

/// Ids are known for a fortnight, and dropped in whole files after that.
fn an_id_is_known_for_a_fortnight(home: &impl Home) {
    let mut journal = home.open();
    let day = |day: i64, id: &str| {
        let at = Timestamp::from_second(1_772_400_000 + day * 86_400).unwrap();
        // A file of the log takes eight of them.
        Entry { at, ..keyed(id, &vec![7; 4 << 20]) }
    };
    for number in 0..40 {
        journal.append(day(number, &number.to_string())).wait().unwrap();
    }
    journal = home.again(journal);
    let known: Vec<i64> =
        (0..40).filter(|n| found(journal.as_ref(), &n.to_string()).unwrap().is_some()).collect();
    assert!((25..40).all(|n| known.contains(&n)), "{known:?}");
    assert!((0..15).all(|n| !known.contains(&n)), "{known:?}");
    assert!(journal.check().unwrap().is_sound());
}

fn what_is_too_long_is_refused_and_harms_nothing(home: &impl Home) {
    let journal = home.open();
    let long = "x".repeat(65_536);
    assert!(matches!(journal.append(keyed(&long, b"")).wait(), Err(JournalError::TooLong { .. })));
    assert!(matches!(
        journal.append(unkeyed(&vec![0; (64 << 20) + 1])).wait(),
        Err(JournalError::TooLong { .. })
    ));
    let through = journal.append(keyed(&long[1..], b"fits")).wait().unwrap();
    assert!(journal.find(&key(&long[1..])).unwrap().is_some());
    let refused =
        journal.checkpoint(&dusk(), None, through.number(), vec![part(&long[..256], b"")]);
    assert!(matches!(refused, Err(JournalError::TooLong { .. })));
    journal.checkpoint(&dusk(), None, through.number(), vec![part(&long[..255], b"fits")]).unwrap();
    assert_eq!(journal.snapshot(&dusk()).unwrap().parts.len(), 1);
}

fn reopening_in_use_loses_nothing(home: &impl Home) {
    let journal = home.open();
    let writers: Vec<_> = (0..4)
        .map(|writer| {
            let journal = Arc::clone(&journal);
            std::thread::spawn(move || {
                for n in 0..100 {
                    let id = format!("{writer}-{n}");
                    let seq = journal.append(keyed(&id, id.as_bytes())).wait().unwrap();
                    let entry = keyed(&id, id.as_bytes());
                    assert_eq!(found(journal.as_ref(), &id).unwrap(), Some((seq, entry)));
                }
            })
        })
        .collect();
    for _ in 0..5 {
        journal.reopen().unwrap();
        std::thread::sleep(Duration::from_millis(5));
    }
    for writer in writers {
        writer.join().unwrap();
    }
    let checked = journal.check().unwrap();
    assert_eq!((checked.entries, checked.faults), (400, 0), "{:?}", checked.damage);
}

fn closing_writes_what_waits_and_then_refuses(home: &impl Home) {
    let journal = home.open();
    let tickets: Vec<_> = (0..300).map(|n| journal.append(keyed(&n.to_string(), b"x"))).collect();
    journal.close();
    for ticket in tickets {
        ticket.wait().unwrap();
    }
    assert_eq!(journal.append(unkeyed(b"late")).wait(), Err(JournalError::Closed));
    assert_eq!(found(journal.as_ref(), "1"), Err(JournalError::Closed));
    assert_eq!(journal.reopen(), Err(JournalError::Closed));
    journal.close();
    // Closed, it has let go of the folder, though it still exists.
    let next = home.open();
    assert_eq!(next.last(), Some(Seq::new(300)));
}

#[tokio::test]
async fn a_ticket_can_be_awaited() {
    let home = Folder::new();
    let journal = home.open();
    assert_eq!(journal.append(unkeyed(b"wren")).await, Ok(Seq::new(1)));
}
