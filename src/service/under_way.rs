//! Who has the turn: of messages with one id, a repeat that comes meanwhile waits for
//! the first, and then finds its answer in the store; where others write too, of messages
//! to one squad each waits until the one before it is folded.

use std::collections::HashMap;
use std::hash::Hash;
use std::sync::{Arc, Mutex};

use tokio::sync::OwnedMutexGuard;

use super::world::lock;

type Gates<K> = Arc<Mutex<HashMap<K, Arc<tokio::sync::Mutex<()>>>>>;

/// Keys of what is being answered.
pub(super) struct UnderWay<K> {
    keys: Gates<K>,
}

/// Held while a message is answered.
pub(super) struct Turn<K: Eq + Hash> {
    key: K,
    keys: Gates<K>,
    guard: Option<OwnedMutexGuard<()>>,
}

impl<K> Default for UnderWay<K> {
    fn default() -> Self {
        UnderWay { keys: Arc::default() }
    }
}

impl<K: Eq + Hash + Clone> UnderWay<K> {
    /// Waits until no other message with this key is being answered.
    pub async fn turn(&self, key: K) -> Turn<K> {
        let gate = Arc::clone(lock(&self.keys).entry(key.clone()).or_default());
        let guard = gate.lock_owned().await;
        Turn { key, keys: Arc::clone(&self.keys), guard: Some(guard) }
    }
}

impl<K: Eq + Hash> Drop for Turn<K> {
    fn drop(&mut self) {
        let mut keys = lock(&self.keys);
        self.guard.take();
        // The map's own is the last one left: nobody waits.
        if keys.get(&self.key).is_some_and(|gate| Arc::strong_count(gate) == 1) {
            keys.remove(&self.key);
        }
    }
}
