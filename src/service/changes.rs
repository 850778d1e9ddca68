//! That something changed in a squad, told to whoever wants to know: pages that are looked
//! at.
//!
//! Tells that something changed, never what: they look again by themselves.

use std::collections::HashMap;
use std::sync::Mutex;

use tokio::sync::watch;

use super::world::lock;
use crate::history::SquadId;

/// Tells of each change in a squad; several at once are one.
#[derive(Debug)]
pub struct Changes(watch::Receiver<()>);

impl Changes {
    /// Waits for the next change.
    pub async fn next(&mut self) {
        // Who tells of them stays as long as anybody listens.
        let _ = self.0.changed().await;
    }
}

/// Those who listen, by squad.
#[derive(Debug, Default)]
pub(super) struct Listeners(Mutex<HashMap<SquadId, watch::Sender<()>>>);

impl Listeners {
    /// The changes in a squad from now on.
    pub fn listen(&self, squad: &SquadId) -> Changes {
        let mut heard = lock(&self.0);
        let told = heard.entry(squad.clone()).or_insert_with(|| watch::channel(()).0);
        Changes(told.subscribe())
    }

    /// Something changed in a squad.
    pub fn tell(&self, squad: &SquadId) {
        let mut heard = lock(&self.0);
        if heard.get(squad).is_some_and(|told| told.send(()).is_err()) {
            // Nobody listens any more.
            heard.remove(squad);
        }
    }
}

#[cfg(test)]
mod tests {
    use std::time::Duration;

    use tokio::time::timeout;

    use super::*;

    #[tokio::test]
    async fn each_squad_s_listeners_hear_of_its_own_changes() {
        let listeners = Listeners::default();
        let (dusk, dawn) = (SquadId("dusk".into()), SquadId("dawn".into()));
        let mut of_dusk = listeners.listen(&dusk);
        let mut of_dawn = listeners.listen(&dawn);
        listeners.tell(&dusk);
        listeners.tell(&dusk);
        of_dusk.next().await;
        let wait = Duration::from_millis(20);
        assert!(timeout(wait, of_dusk.next()).await.is_err(), "two at once are one");
        assert!(timeout(wait, of_dawn.next()).await.is_err());
        drop((of_dusk, of_dawn));
        listeners.tell(&dusk);
        assert!(!lock(&listeners.0).contains_key(&dusk));
    }
}
