//! What the other end or the network's owner does not want.

use std::sync::Arc;

use lapwing::outbox::{Courier, Siren};
use lapwing::service::Service;
use lapwing::signing::Secret;

use super::peer::{Peer, Way};
use super::squads::{TestClock, alarm, courier, letter, open, siren, squad};

struct Scene {
    clock: Arc<TestClock>,
    secret: Secret,
    service: Arc<Service>,
    _dir: tempfile::TempDir,
}

/// Three squads, each with a letter to its coach.
async fn scene() -> Scene {
    let dir = tempfile::tempdir().unwrap();
    let (clock, secret) = (TestClock::new(), Secret::generate().unwrap());
    let service = open(dir.path(), &clock);
    for number in 1..=3 {
        squad(&service, number).await;
        letter(&service, number).await;
    }
    Scene { clock, secret, service, _dir: dir }
}

impl Scene {
    fn courier(&self, peer: &Peer) -> Arc<Courier> {
        courier(&self.service, &self.clock, &peer.url(), true, &self.secret)
    }

    fn siren(&self, peer: &Peer) -> Arc<Siren> {
        siren(&self.service, &self.clock, &peer.url(), &self.secret)
    }

    fn tries(peer: &Peer) -> u32 {
        peer.seen().tries.values().sum()
    }
}

/// Whatever the schedule says, nothing goes to someone who asked for a rest; but
/// an alarm does.
#[tokio::test]
async fn retry_after_holds_for_all_letters_but_an_alarms() {
    let scene = scene().await;
    let peer = Peer::start(&scene.secret, scene.clock.clone(), |_, tries| match tries {
        0 => Way::RefuseFor(429, 3600),
        _ => Way::Take(204),
    })
    .await;
    let courier = scene.courier(&peer);
    courier.deliver_due().await;
    let first = Scene::tries(&peer);
    assert!((1..=3).contains(&first));
    letter(&scene.service, 2).await;
    for _ in 0..3 {
        scene.clock.forward(1199);
        courier.deliver_due().await;
        assert_eq!(Scene::tries(&peer), first);
    }
    alarm(&scene.service, 2).await;
    scene.siren(&peer).cry_due().await;
    assert_eq!(Scene::tries(&peer), first + 1);
    scene.clock.forward(1);
    for _ in 0..4 {
        scene.clock.forward(3601);
        courier.deliver_due().await;
    }
    assert_eq!(scene.service.letters_waiting(), 1);
    assert_eq!(peer.seen().taken.len(), 4);
}

/// An address that says it is gone rests for a while, and is tried again: it may
/// have meant one letter. An alarm does not rest.
#[tokio::test]
async fn gone_is_a_rest_and_none_for_an_alarm() {
    let scene = scene().await;
    let gone = Peer::start(&scene.secret, scene.clock.clone(), |_, _| Way::Refuse(410)).await;
    let courier = scene.courier(&gone);
    courier.deliver_due().await;
    let first = Scene::tries(&gone);
    scene.clock.forward(14 * 60);
    courier.deliver_due().await;
    assert_eq!(Scene::tries(&gone), first);
    alarm(&scene.service, 1).await;
    scene.siren(&gone).cry_due().await;
    assert_eq!(Scene::tries(&gone), first + 1);
    scene.clock.forward(60);
    courier.deliver_due().await;
    assert!(Scene::tries(&gone) > first + 1);
    let back = Peer::start(&scene.secret, scene.clock.clone(), |_, _| Way::Take(200)).await;
    let courier = scene.courier(&back);
    for _ in 0..3 {
        courier.deliver_due().await;
        scene.clock.forward(3 * 3600);
    }
    assert_eq!(scene.service.letters_waiting(), 1, "the alarm's is the siren's");
    scene.siren(&back).cry_due().await;
    assert_eq!(scene.service.letters_waiting(), 0);
}

/// A letter that is refused is set aside: those behind it to the same recipient
/// go on, and it comes again in its time.
#[tokio::test]
async fn a_refused_letter_holds_up_no_other() {
    let scene = scene().await;
    let refused = std::sync::Mutex::new(None);
    let peer = Peer::start(&scene.secret, scene.clock.clone(), move |got, tries| {
        let mut refused = refused.lock().unwrap();
        let first = refused.get_or_insert_with(|| got.id.clone());
        if *first == got.id && tries < 3 { Way::Refuse(422) } else { Way::Take(200) }
    })
    .await;
    for _ in 0..3 {
        for number in 1..=3 {
            letter(&scene.service, number).await;
        }
    }
    let courier = scene.courier(&peer);
    courier.deliver_due().await;
    assert_eq!((peer.seen().taken.len(), scene.service.letters_waiting()), (11, 1));
    for _ in 0..3 {
        scene.clock.forward(3600);
        courier.deliver_due().await;
    }
    assert_eq!((peer.seen().taken.len(), scene.service.letters_waiting()), (12, 0));
}

/// The time of day is set back by a day: what waits for a try does not wait for
/// a day more.
#[tokio::test]
async fn a_clock_that_is_set_changes_no_waiting() {
    for step in [-86_400, 86_400] {
        let scene = scene().await;
        let peer = Peer::start(&scene.secret, scene.clock.clone(), |_, tries| match tries {
            0 => Way::Refuse(500),
            _ => Way::Take(200),
        })
        .await;
        let courier = scene.courier(&peer);
        courier.deliver_due().await;
        assert_eq!(scene.service.letters_waiting(), 3);
        scene.clock.step(step);
        courier.deliver_due().await;
        assert_eq!(scene.service.letters_waiting(), 3, "{step}: too early");
        scene.clock.forward(7);
        courier.deliver_due().await;
        assert_eq!(scene.service.letters_waiting(), 0, "{step}");
        // Nor over a start.
        letter(&scene.service, 1).await;
        let down = Peer::start(&scene.secret, scene.clock.clone(), |_, _| Way::Refuse(500)).await;
        scene.courier(&down).deliver_due().await;
        scene.clock.step(step);
        let again = scene.courier(&peer);
        for _ in 0..2 {
            scene.clock.forward(40 * 60);
            again.deliver_due().await;
        }
        assert_eq!(scene.service.letters_waiting(), 0, "{step}: over a start");
    }
}

/// A name that leads to this machine is found out when it is looked up.
#[tokio::test]
async fn a_private_address_behind_a_name_is_not_reached() {
    let scene = scene().await;
    let peer = Peer::start(&scene.secret, scene.clock.clone(), |_, _| Way::Take(200)).await;
    let url = format!("http://localhost:{}/in", peer.address.port());
    let guarded = courier(&scene.service, &scene.clock, &url, false, &scene.secret);
    guarded.deliver_due().await;
    assert_eq!(Scene::tries(&peer), 0);
    for letter in scene.service.undelivered().unwrap() {
        assert_eq!(letter.why.as_deref(), Some("the address is a private one"));
    }
    scene.clock.forward(10);
    let allowed = courier(&scene.service, &scene.clock, &url, true, &scene.secret);
    allowed.deliver_due().await;
    assert_eq!(peer.seen().taken.len(), 3);
}
