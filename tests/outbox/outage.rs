//! The other end is away for a week.

use lapwing::service::LetterState;
use lapwing::signing::Secret;

use super::peer::{Peer, Reserved, Way};
use super::squads::{TestClock, courier, letter, open, squad};

const SQUADS: u32 = 3;
const HOURS: usize = 7 * 24;

/// Nothing is lost: what waited comes by itself, in order, and what was given
/// up meanwhile is kept and comes when asked for. We are restarted every day.
#[tokio::test]
async fn a_week_loses_nothing() {
    let dir = tempfile::tempdir().unwrap();
    let (clock, secret) = (TestClock::new(), Secret::generate().unwrap());
    let place = Reserved::new();
    let url = format!("http://{}/in", place.address());
    let mut service = open(dir.path(), &clock);
    for number in 0..SQUADS {
        squad(&service, number).await;
    }
    let mut written = 0;
    let mut courier_of_the_day = courier(&service, &clock, &url, true, &secret);
    for hour in 0..HOURS {
        if hour % 6 == 0 {
            for number in 0..SQUADS {
                written += letter(&service, number).await;
            }
        }
        if hour % 24 == 23 {
            service.close().await;
            service = open(dir.path(), &clock);
            courier_of_the_day = courier(&service, &clock, &url, true, &secret);
        }
        courier_of_the_day.deliver_due().await;
        clock.forward(3600);
    }
    let left = service.undelivered().unwrap();
    assert_eq!(left.len(), written);
    let dead = left.iter().filter(|one| matches!(one.state, LetterState::Dead(_))).count();
    assert!(dead > 0 && dead < written, "{dead} of {written}");

    let peer = Peer::start_on(place.listen(), &secret, clock.clone(), |_, _| Way::Take(204));
    clock.forward(29 * 3600);
    courier_of_the_day.deliver_due().await;
    assert_eq!(service.letters_waiting(), 0);
    assert_eq!(peer.seen().taken.len(), written - dead);
    assert!(peer.seen().firsts().values().all(|places| places.is_sorted()));

    service.close().await;
    let service = open(dir.path(), &clock);
    assert_eq!(service.undelivered().unwrap().len(), dead);
    assert_eq!(service.retry(None).await.unwrap(), dead);
    courier(&service, &clock, &url, true, &secret).deliver_due().await;
    assert_eq!(service.undelivered().unwrap(), []);
    assert_eq!(peer.seen().taken.len(), written);
    assert_eq!(peer.seen().ids().len(), written);
}
