//! Messages being answered right now: a repeat that comes meanwhile waits for
//! the first, and then finds its answer in the store.

use std::collections::HashMap;
use std::sync::{Arc, Mutex};

use tokio::sync::OwnedMutexGuard;

use super::world::lock;
use crate::journal::MessageKey;

/// Keys of messages being answered.
#[derive(Default)]
pub(super) struct UnderWay {
    keys: Arc<Mutex<HashMap<MessageKey, Arc<tokio::sync::Mutex<()>>>>>,
}

/// Held while a message is answered.
pub(super) struct Turn {
    key: MessageKey,
    keys: Arc<Mutex<HashMap<MessageKey, Arc<tokio::sync::Mutex<()>>>>>,
    guard: Option<OwnedMutexGuard<()>>,
}

impl UnderWay {
    /// Waits until no other message with this key is being answered.
    pub async fn turn(&self, key: MessageKey) -> Turn {
        let gate = Arc::clone(lock(&self.keys).entry(key.clone()).or_default());
        let guard = gate.lock_owned().await;
        Turn { key, keys: Arc::clone(&self.keys), guard: Some(guard) }
    }
}

impl Drop for Turn {
    fn drop(&mut self) {
        let mut keys = lock(&self.keys);
        self.guard.take();
        // The map's own is the last one left: nobody waits.
        if keys.get(&self.key).is_some_and(|gate| Arc::strong_count(gate) == 1) {
            keys.remove(&self.key);
        }
    }
}
