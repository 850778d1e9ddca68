//! What the other end or the network's owner does not want.

use std::sync::Arc;

use lapwing::outbox::Courier;
use lapwing::service::Service;
use lapwing::signing::Secret;

use super::peer::{Peer, Way};
use super::squads::{TestClock, alarm, courier, open, squad};

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
        alarm(&service, number).await;
    }
    Scene { clock, secret, service, _dir: dir }
}

impl Scene {
    fn courier(&self, peer: &Peer) -> Arc<Courier> {
        courier(&self.service, &self.clock, &peer.url(), true, &self.secret)
    }

    fn tries(peer: &Peer) -> u32 {
        peer.seen().tries.values().sum()
    }
}

/// Whatever the schedule says, nothing goes to someone who asked for a rest.
#[tokio::test]
async fn retry_after_holds_for_all_letters() {
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
    alarm(&scene.service, 2).await;
    for _ in 0..3 {
        scene.clock.forward(1199);
        courier.deliver_due().await;
        assert_eq!(Scene::tries(&peer), first);
    }
    for _ in 0..4 {
        scene.clock.forward(3601);
        courier.deliver_due().await;
    }
    assert_eq!(scene.service.letters_waiting(), 0);
    assert_eq!(peer.seen().taken.len(), 4);
}

#[tokio::test]
async fn gone_is_gone_until_the_next_start() {
    let scene = scene().await;
    let gone = Peer::start(&scene.secret, scene.clock.clone(), |_, _| Way::Refuse(410)).await;
    let courier = scene.courier(&gone);
    courier.deliver_due().await;
    let first = Scene::tries(&gone);
    for _ in 0..5 {
        scene.clock.forward(100_000);
        courier.deliver_due().await;
    }
    assert_eq!(Scene::tries(&gone), first);
    let left = scene.service.undelivered().unwrap();
    assert!(left.len() == 3 && left.iter().all(|letter| letter.tries == 0));
    let back = Peer::start(&scene.secret, scene.clock.clone(), |_, _| Way::Take(200)).await;
    scene.courier(&back).deliver_due().await;
    assert_eq!(scene.service.letters_waiting(), 0);
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
