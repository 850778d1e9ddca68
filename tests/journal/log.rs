//! Order, finding, cutting, snapshots, reopening: one process, a sound disk.

use super::*;

use std::sync::Arc;
use std::time::Duration;

fn open() -> (tempfile::TempDir, SledJournal) {
    let folder = tempfile::tempdir().unwrap();
    let journal = SledJournal::open(folder.path().join("journal")).unwrap();
    (folder, journal)
}

fn again(folder: &tempfile::TempDir, journal: SledJournal) -> SledJournal {
    drop(journal);
    SledJournal::open(folder.path().join("journal")).unwrap()
}

#[test]
fn order_of_calls_is_order_of_log() {
    let (folder, journal) = open();
    let tickets: Vec<_> = (0..500_u32).map(|n| journal.append(unkeyed(&n.to_be_bytes()))).collect();
    for (n, ticket) in (1..).zip(tickets) {
        assert_eq!(ticket.wait().unwrap(), Seq::new(n));
    }
    let journal = again(&folder, journal);
    let read: Vec<_> = all(&journal).unwrap();
    assert_eq!(read.len(), 500);
    for (n, (seq, entry)) in (0_u32..).zip(read) {
        assert_eq!((seq.number(), entry.body), (u64::from(n) + 1, n.to_be_bytes().to_vec()));
    }
    assert_eq!(journal.last(), Some(Seq::new(500)));
}

#[test]
fn an_empty_log_has_nothing() {
    let (_folder, journal) = open();
    assert_eq!(journal.last(), None);
    assert_eq!(all(&journal).unwrap(), vec![]);
    assert_eq!(journal.snapshot().unwrap(), Default::default());
    assert_eq!(journal.find(&key("gw-1")).unwrap(), None);
    assert!(journal.check().unwrap().is_sound());
}

#[test]
fn a_message_finds_what_it_left() {
    let (folder, journal) = open();
    let seq = journal.append(keyed("gw-1", b"heron")).wait().unwrap();
    journal.append(unkeyed(b"nobody's")).wait().unwrap();
    for journal in [journal.find(&key("gw-1")), again(&folder, journal).find(&key("gw-1"))] {
        assert_eq!(journal.unwrap(), Some((seq, keyed("gw-1", b"heron"))));
    }
}

#[test]
fn the_same_id_on_another_channel_is_another_message() {
    let (_folder, journal) = open();
    journal.append(keyed("gw-1", b"heron")).wait().unwrap();
    let chat = MessageKey { channel: "chat".into(), id: "gw-1".into() };
    assert_eq!(journal.find(&chat).unwrap(), None);
}

#[test]
fn the_first_entry_keeps_the_key() {
    let (folder, journal) = open();
    // Both in one batch, most likely, and a third one later.
    let (first, second) =
        (journal.append(keyed("gw-1", b"first")), journal.append(keyed("gw-1", b"second")));
    let first = first.wait().unwrap();
    second.wait().unwrap();
    journal.append(keyed("gw-1", b"third")).wait().unwrap();
    assert_eq!(journal.find(&key("gw-1")).unwrap(), Some((first, keyed("gw-1", b"first"))));
    let journal = again(&folder, journal);
    assert_eq!(journal.find(&key("gw-1")).unwrap(), Some((first, keyed("gw-1", b"first"))));
    assert!(journal.check().unwrap().is_sound());
}

#[test]
fn entries_of_any_length_come_back_whole() {
    let (folder, journal) = open();
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
    let journal = again(&folder, journal);
    let read: Vec<Vec<u8>> =
        all(&journal).unwrap().into_iter().map(|(_, entry)| entry.body).collect();
    assert_eq!(read, [bodies.clone(), bodies.clone()].concat());
    for (n, body) in bodies.iter().enumerate() {
        assert_eq!(journal.find(&key(&format!("gw-{n}"))).unwrap().unwrap().1.body, *body);
    }
    assert!(journal.check().unwrap().is_sound());
    assert_no_blobs(&folder.path().join("journal"));
}

/// A page of the store that holds only long records must not grow over the
/// limit at which it would leave the log for a side file.
#[test]
fn no_run_of_long_records_makes_a_side_file() {
    let (folder, journal) = open();
    let store = folder.path().join("journal");
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
            journal.checkpoint(through, parts).wait().unwrap();
            assert_no_blobs(&store);
        }
    }
    assert!(journal.check().unwrap().is_sound());
}

#[test]
fn a_checkpoint_replaces_only_the_parts_it_names() {
    let (folder, journal) = open();
    let first = journal.append(unkeyed(b"1")).wait().unwrap();
    let long = vec![7; 50_000];
    let ticket =
        journal.checkpoint(first, vec![part("a", &long), part("bb", b"old"), part("none", b"")]);
    assert_eq!(ticket.wait().unwrap(), first);
    let second = journal.append(unkeyed(b"2")).wait().unwrap();
    journal.append(unkeyed(b"3")).wait().unwrap();
    journal.checkpoint(second, vec![part("a", b"short"), part("c", b"new")]).wait().unwrap();

    let journal = again(&folder, journal);
    let snapshot = journal.snapshot().unwrap();
    assert_eq!(snapshot.through, Some(second));
    assert_eq!(
        snapshot.parts,
        vec![part("a", b"short"), part("bb", b"old"), part("c", b"new"), part("none", b"")]
    );
    let rest: Vec<_> =
        journal.entries_after(snapshot.through).map(|entry| entry.unwrap().1.body).collect();
    assert_eq!(rest, vec![b"3".to_vec()]);
}

#[test]
fn a_checkpoint_ahead_of_the_log_is_refused() {
    let (_folder, journal) = open();
    journal.append(unkeyed(b"1")).wait().unwrap();
    let refused = journal.checkpoint(Seq::new(2), vec![]).wait();
    assert_eq!(refused, Err(JournalError::Ahead { through: 2, last: 1 }));
}

#[test]
fn what_is_too_long_is_refused_and_harms_nothing() {
    let (_folder, journal) = open();
    let long = "x".repeat(65_536);
    assert!(matches!(journal.append(keyed(&long, b"")).wait(), Err(JournalError::TooLong { .. })));
    assert!(matches!(
        journal.append(unkeyed(&vec![0; (64 << 20) + 1])).wait(),
        Err(JournalError::TooLong { .. })
    ));
    let through = journal.append(keyed(&long[1..], b"fits")).wait().unwrap();
    assert!(journal.find(&key(&long[1..])).unwrap().is_some());
    let refused = journal.checkpoint(through, vec![part(&long[..256], b"")]).wait();
    assert!(matches!(refused, Err(JournalError::TooLong { .. })));
    journal.checkpoint(through, vec![part(&long[..255], b"fits")]).wait().unwrap();
    assert_eq!(journal.snapshot().unwrap().parts.len(), 1);
}

#[test]
fn reopening_in_use_loses_nothing() {
    let (_folder, journal) = open();
    let journal = Arc::new(journal);
    let writers: Vec<_> = (0..4)
        .map(|writer| {
            let journal = Arc::clone(&journal);
            std::thread::spawn(move || {
                for n in 0..100 {
                    let id = format!("{writer}-{n}");
                    let seq = journal.append(keyed(&id, id.as_bytes())).wait().unwrap();
                    assert_eq!(
                        journal.find(&key(&id)).unwrap(),
                        Some((seq, keyed(&id, id.as_bytes())))
                    );
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

#[test]
fn closing_writes_what_waits_and_then_refuses() {
    let (folder, journal) = open();
    let tickets: Vec<_> = (0..300).map(|n| journal.append(keyed(&n.to_string(), b"x"))).collect();
    journal.close();
    for ticket in tickets {
        ticket.wait().unwrap();
    }
    assert_eq!(journal.append(unkeyed(b"late")).wait(), Err(JournalError::Closed));
    assert_eq!(journal.find(&key("1")), Err(JournalError::Closed));
    assert_eq!(journal.reopen(), Err(JournalError::Closed));
    journal.close();
    // Closed, it has let go of the folder, though it still exists.
    let next = SledJournal::open(folder.path().join("journal")).unwrap();
    assert_eq!(next.last(), Some(Seq::new(300)));
}

#[tokio::test]
async fn a_ticket_can_be_awaited() {
    let (_folder, journal) = open();
    assert_eq!(journal.append(unkeyed(b"wren")).await, Ok(Seq::new(1)));
}
