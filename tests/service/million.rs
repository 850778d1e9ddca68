//! What a million texts cost: disk, a start, memory; and how long others wait while
//! somebody is forgotten, a backup is made and all is checked.

use std::fs;
use std::path::Path;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, AtomicU64, Ordering};
use std::time::{Duration, Instant};

use lapwing::clock::{ClockMode, WallClock};
use lapwing::journal::{SledJournal, backup};
use lapwing::service::{Body, Incoming, NewSquad, Service, examine};

const SQUADS: usize = 100;
const SWIMMERS: usize = 40;

fn incoming(from: String, id: Option<String>, text: String) -> Incoming {
    let body = Body::Text(text);
    Incoming { channel: "messages".into(), id, from, room: None, sent_at: None, body }
}

fn text(number: u64) -> String {
    match number % 10 {
        0..=5 => format!(
            "done {} {}min rpe {}",
            1200 + number % 9 * 50,
            40 + number % 20,
            4 + number % 3
        ),
        6 | 7 => format!("200 test 3:{:02}.{:02}", 9 + number % 7, number * 13 % 100),
        8 => "next".to_owned(),
        _ => "me".to_owned(),
    }
}

fn open(folder: &Path) -> (Arc<SledJournal>, Arc<Service>) {
    let journal = Arc::new(SledJournal::open(folder.join("journal")).unwrap());
    let service = Service::open(journal.clone(), Arc::new(WallClock), ClockMode::Wall).unwrap();
    (journal, service)
}

/// The bytes under a folder, those of the log's entries, and those of the rest.
fn bytes(folder: &Path) -> (u64, u64) {
    let (mut log, mut all) = (0, 0);
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            let (theirs, rest) = bytes(&path);
            (log, all) = (log + theirs, all + rest);
        } else {
            use std::os::unix::fs::MetadataExt;
            let metadata = path.metadata().unwrap();
            all += metadata.blocks() * 512;
            if path.extension().is_some_and(|end| end == "log") {
                log += metadata.len();
            }
        }
    }
    (log, all)
}

fn resident_mib() -> u64 {
    let status = fs::read_to_string("/proc/self/status").unwrap();
    let line = status.lines().find(|line| line.starts_with("VmRSS")).unwrap();
    line.split_whitespace().nth(1).unwrap().parse::<u64>().unwrap() / 1024
}

/// Runs work while sixteen others send; gives the longest that one of them waited.
async fn while_others_send<T: Send + 'static>(
    service: &Arc<Service>,
    name: &str,
    work: impl Future<Output = T> + Send + 'static,
) -> Duration {
    let done = Arc::new(AtomicBool::new(false));
    let others: Vec<_> = (0..16_u64)
        .map(|one| {
            let (service, done) = (Arc::clone(service), Arc::clone(&done));
            tokio::spawn(async move {
                let mut times = Vec::new();
                for number in 0.. {
                    if done.load(Ordering::Relaxed) {
                        break;
                    }
                    let from = format!("s{}-{}", one * 3, number % 30 + 1);
                    let begun = Instant::now();
                    service.receive(incoming(from, None, text(number * 10))).await.unwrap();
                    times.push(begun.elapsed());
                    tokio::time::sleep(Duration::from_millis(10)).await;
                }
                times
            })
        })
        .collect();
    let begun = Instant::now();
    tokio::spawn(work).await.unwrap();
    let took = begun.elapsed();
    done.store(true, Ordering::Relaxed);
    let mut times = Vec::new();
    for other in others {
        times.extend(other.await.unwrap());
    }
    times.sort_unstable();
    let longest = *times.last().unwrap();
    let p99 = times[times.len() * 99 / 100];
    println!(
        "{name}: {took:.2?}, others waited {longest:.1?} at most, p99 {p99:.1?}, {} MiB",
        resident_mib()
    );
    longest
}

/// `cargo test --release --test service a_million -- --ignored --nocapture`, with
/// another number of texts in `LAPWING_TEXTS`.
#[tokio::test(flavor = "multi_thread")]
#[ignore = "takes half an hour"]
async fn a_million_texts() {
    let texts: u64 =
        std::env::var("LAPWING_TEXTS").ok().and_then(|word| word.parse().ok()).unwrap_or(1_000_000);
    let folder = tempfile::tempdir_in("target").unwrap();
    let (journal, service) = open(folder.path());
    let mut codes = Vec::new();
    for squad in 0..SQUADS {
        let added = service
            .add_squad(NewSquad::of_grown_ups(format!("Dusk {squad}"), format!("coach{squad}")))
            .await
            .unwrap();
        codes.push(added.code);
    }
    let begun = Instant::now();
    let sent = Arc::new(AtomicU64::new(0));
    let tasks: Vec<_> = (0..SQUADS)
        .map(|squad| {
            let (service, sent, code) =
                (Arc::clone(&service), Arc::clone(&sent), codes[squad].clone());
            tokio::spawn(async move {
                for swimmer in 0..SWIMMERS {
                    let join = format!("join {code} heron{swimmer}");
                    let from = format!("s{squad}-{swimmer}");
                    service.receive(incoming(from, None, join)).await.unwrap();
                }
                loop {
                    let number = sent.fetch_add(1, Ordering::Relaxed);
                    if number >= texts {
                        return;
                    }
                    let from = format!("s{squad}-{}", number * 31 % SWIMMERS as u64);
                    let id = Some(format!("m{number}"));
                    service.receive(incoming(from, id, text(number))).await.unwrap();
                }
            })
        })
        .collect();
    for task in tasks {
        task.await.unwrap();
    }
    let took = begun.elapsed();
    println!(
        "{texts} texts in {took:.0?}, {:.0} a second, {} MiB",
        texts as f64 / took.as_secs_f64(),
        resident_mib()
    );
    service.close().await;
    drop((journal, service));

    let (log, all) = bytes(folder.path());
    println!(
        "on disk {all} bytes, {} a text; {:.2} of the log's {log}",
        all / texts,
        all as f64 / log as f64
    );
    assert!(all as f64 <= 2.5 * log as f64);

    let begun = Instant::now();
    let (journal, service) = open(folder.path());
    let first = service.receive(incoming("s7-7".into(), None, "me".into())).await.unwrap();
    assert_eq!(first.result["kind"], "swimmer");
    let opened = begun.elapsed();
    println!("open and answering in {opened:.2?}, {} MiB", resident_mib());
    assert!(opened < Duration::from_secs(2));

    let mut longest = Vec::new();
    let forgetting = Arc::clone(&service);
    longest.push(
        while_others_send(&service, "forgetting", async move {
            for text in ["forget me", "yes"] {
                forgetting.receive(incoming("s0-0".into(), None, text.into())).await.unwrap();
            }
            assert!(forgetting.erased(Duration::from_secs(600)).await);
        })
        .await,
    );
    let (copied, to) = (journal.clone(), folder.path().join("backup"));
    let copy = async move {
        tokio::task::spawn_blocking(move || backup(copied.as_ref(), &to).unwrap()).await.unwrap()
    };
    longest.push(while_others_send(&service, "backup", copy).await);
    let checked = journal.clone();
    let check = async move {
        let examined = tokio::task::spawn_blocking(move || examine(checked.as_ref()).unwrap());
        let examined = examined.await.unwrap();
        assert!(examined.is_sound(), "{:?}", examined.damage);
    };
    longest.push(while_others_send(&service, "check", check).await);
    assert!(longest.iter().all(|wait| *wait < Duration::from_millis(50)), "{longest:?}");
    service.close().await;
}
