//! Ten thousand letters through a peer that does everything wrong.

use std::collections::BTreeMap;
use std::sync::{Arc, Mutex};
use std::time::Instant;

use lapwing::service::Service;
use lapwing::signing::Secret;
use rand::{RngExt, SeedableRng};
use rand_chacha::ChaCha8Rng;
use tokio::task::JoinSet;

use super::peer::{Got, Peer, Way};
use super::squads::{TestClock, hasty, letter, open, squad};

const SQUADS: u32 = 400;
const LETTERS: usize = 10_000;

/// A letter in every squad; gives how many letters those are.
async fn letters_in_all(service: &Arc<Service>) -> usize {
    let mut told = JoinSet::new();
    for number in 0..SQUADS {
        let service = Arc::clone(service);
        told.spawn(async move { letter(&service, number).await });
    }
    told.join_all().await.into_iter().sum()
}

/// Every letter is delivered, each once by its id, in order per recipient, and
/// none is shown before the one before it was acknowledged; with the service
/// closed and opened again in the middle.
#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn each_is_delivered_once_and_in_order() {
    let begun = Instant::now();
    let dir = tempfile::tempdir().unwrap();
    let (clock, secret) = (TestClock::new(), Secret::generate().unwrap());
    let chance = Mutex::new(ChaCha8Rng::seed_from_u64(7));
    let acknowledged: Mutex<BTreeMap<String, u64>> = Mutex::default();
    let out_of_order: &'static Mutex<Vec<Got>> = Box::leak(Box::default());
    let peer = Peer::start(&secret, clock.clone(), move |got, tries| {
        let mut acknowledged = acknowledged.lock().unwrap();
        // The same again is a repeat: on a busy machine an answer may come too late.
        if acknowledged.get(&got.to).is_some_and(|&last| last > got.place) {
            out_of_order.lock().unwrap().push(got.clone());
        }
        // Never often enough for a letter to be given up.
        let draw = if tries >= 7 { 99 } else { chance.lock().unwrap().random_range(0..100) };
        let way = match draw {
            0..6 => Way::Refuse(500),
            6..10 => Way::Refuse(502),
            10..14 => Way::Break,
            14..20 => Way::TakeAndBreak,
            20..23 => Way::Redirect,
            23..25 => Way::RefuseFor(503, 7),
            25..26 => Way::Silence,
            26..27 => Way::TakeEndless,
            // Each of these takes its two seconds, so they are few.
            27.. if tries == 0 && got.place.is_multiple_of(800) => Way::TakeSlow,
            _ => Way::Take(204),
        };
        if matches!(way, Way::Take(_) | Way::TakeEndless | Way::TakeSlow) {
            acknowledged.insert(got.to.clone(), got.place);
        }
        way
    })
    .await;

    let mut service = open(dir.path(), &clock);
    for number in 0..SQUADS {
        squad(&service, number).await;
    }
    let mut written = 0;
    while written < LETTERS {
        written += letters_in_all(&service).await;
        if written.is_multiple_of(4_000) {
            // Deliveries and new letters at the same time.
            let courier = hasty(&service, &clock, &peer.url(), &secret);
            let delivering = tokio::spawn(async move { courier.deliver_due().await });
            written += letters_in_all(&service).await;
            delivering.await.unwrap();
            service.close().await;
            service = open(dir.path(), &clock);
        }
    }
    let courier = hasty(&service, &clock, &peer.url(), &secret);
    for _ in 0..600 {
        if service.letters_waiting() == 0 {
            break;
        }
        courier.deliver_due().await;
        clock.forward(29 * 3600);
    }

    assert_eq!(service.undelivered().unwrap(), []);
    assert_eq!(*out_of_order.lock().unwrap(), []);
    let seen = peer.seen();
    assert_eq!(seen.ids().len(), written);
    assert_eq!(seen.strayed, 0);
    assert!(seen.taken.len() > written, "no letter came twice, so repeats were not tried");
    for (to, places) in seen.firsts() {
        assert!(places.is_sorted(), "{to}: {places:?}");
        assert_eq!(places.len(), written / SQUADS as usize);
    }
    let (requests, repeats) = (seen.tries.values().sum::<u32>(), seen.taken.len() - written);
    eprintln!(
        "{written} letters to {SQUADS} recipients: {requests} requests, {repeats} repeats, \
         {} s, none lost, none out of order",
        begun.elapsed().as_secs()
    );
    let mut bodies = BTreeMap::new();
    for got in &seen.taken {
        assert_eq!(bodies.entry(&got.id).or_insert(&got.body), &&got.body);
    }
}
