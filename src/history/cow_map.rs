//! A map that costs little to copy, however large: its entries lie in order in
//! chunks, and a copy shares every chunk until something on it changes.

use std::borrow::Borrow;
use std::fmt;
use std::sync::Arc;
use std::sync::atomic::{AtomicUsize, Ordering};

use serde::de::{Deserialize, Deserializer};
use serde::ser::{Serialize, SerializeMap, Serializer};

/// How many entries a chunk holds at most; a full one becomes two.
const MOST: usize = 32;

/// More places than a chunk ever has, one entry too many among them.
const IN_A_CHUNK: usize = 2 * MOST;

/// An ordered map whose copies share what is alike.
pub struct CowMap<K, V> {
    chunks: Vec<Arc<Vec<(K, V)>>>,
    /// Where a key was found last, as chunk and place in it: who decides about somebody asks
    /// for them again and again. Only ever a hint.
    latest: AtomicUsize,
}

impl<K, V> Clone for CowMap<K, V> {
    fn clone(&self) -> Self {
        let latest = AtomicUsize::new(self.latest.load(Ordering::Relaxed));
        CowMap { chunks: self.chunks.clone(), latest }
    }
}

/// Of the same entries, in whichever chunks they came to lie.
impl<K: PartialEq, V: PartialEq> PartialEq for CowMap<K, V> {
    fn eq(&self, other: &Self) -> bool {
        self.iter().eq(other.iter())
    }
}

impl<K, V> Default for CowMap<K, V> {
    fn default() -> Self {
        CowMap { chunks: Vec::new(), latest: AtomicUsize::new(0) }
    }
}

impl<K, V> CowMap<K, V> {
    /// An empty one.
    pub fn new() -> Self {
        Self::default()
    }

    /// How many entries there are.
    pub fn len(&self) -> usize {
        self.chunks.iter().map(|chunk| chunk.len()).sum()
    }

    /// True if there are none.
    pub fn is_empty(&self) -> bool {
        self.chunks.is_empty()
    }

    /// Every entry, in the order of the keys.
    pub fn iter(&self) -> Entries<'_, K, V> {
        let chunks: InChunk<'_, K, V> = |chunk| chunk.iter();
        let pair: Pair<'_, K, V> = |(key, value)| (key, value);
        self.chunks.iter().flat_map(chunks).map(pair)
    }

    /// Every key, in order.
    pub fn keys(&self) -> impl Iterator<Item = &K> + Clone {
        self.chunks.iter().flat_map(|chunk| chunk.iter()).map(|(key, _)| key)
    }

    /// Every value, in the order of the keys.
    pub fn values(&self) -> impl Iterator<Item = &V> + Clone {
        self.chunks.iter().flat_map(|chunk| chunk.iter()).map(|(_, value)| value)
    }
}

/// The entries of a map.
pub type Entries<'a, K, V> = std::iter::Map<
    std::iter::FlatMap<
        std::slice::Iter<'a, Arc<Vec<(K, V)>>>,
        std::slice::Iter<'a, (K, V)>,
        InChunk<'a, K, V>,
    >,
    Pair<'a, K, V>,
>;

/// What lies in a chunk.
type InChunk<'a, K, V> = fn(&'a Arc<Vec<(K, V)>>) -> std::slice::Iter<'a, (K, V)>;
/// An entry's key and its value.
type Pair<'a, K, V> = fn(&'a (K, V)) -> (&'a K, &'a V);

impl<K: Ord, V> CowMap<K, V> {
    /// The value of a key.
    pub fn get<Q: Ord + ?Sized>(&self, key: &Q) -> Option<&V>
    where
        K: Borrow<Q>,
    {
        let (chunk, at) = self.find(key)?;
        self.chunks.get(chunk)?.get(at).map(|(_, value)| value)
    }

    /// True if there is a value of that key.
    pub fn contains_key<Q: Ord + ?Sized>(&self, key: &Q) -> bool
    where
        K: Borrow<Q>,
    {
        self.find(key).is_some()
    }

    /// The chunk in which a key is or would be; none where there are no chunks.
    fn chunk<Q: Ord + ?Sized>(&self, key: &Q) -> Option<usize>
    where
        K: Borrow<Q>,
    {
        if self.chunks.len() < 2 {
            return (!self.chunks.is_empty()).then_some(0);
        }
        let after = self
            .chunks
            .partition_point(|chunk| chunk.first().is_some_and(|(first, _)| first.borrow() <= key));
        Some(after.saturating_sub(1))
    }

    fn find<Q: Ord + ?Sized>(&self, key: &Q) -> Option<(usize, usize)>
    where
        K: Borrow<Q>,
    {
        let latest = self.latest.load(Ordering::Relaxed);
        let (chunk, at) = (latest / IN_A_CHUNK, latest % IN_A_CHUNK);
        // The same again, or the one behind it: whoever goes through all goes in order.
        let near = self.chunks.get(chunk).and_then(|chunk| chunk.get(at..)).unwrap_or_default();
        let again = near.iter().take(2).position(|(other, _)| other.borrow() == key);
        let found = match again {
            Some(more) => (chunk, at + more),
            None => {
                let chunk = self.chunk(key)?;
                let is_it = |(other, _): &(K, V)| other.borrow().cmp(key);
                (chunk, self.chunks.get(chunk)?.binary_search_by(is_it).ok()?)
            }
        };
        if again != Some(0) {
            self.latest.store(found.0 * IN_A_CHUNK + found.1, Ordering::Relaxed);
        }
        Some(found)
    }
}

impl<K: Ord + Clone, V: Clone> CowMap<K, V> {
    /// The value of a key, to be changed.
    pub fn get_mut<Q: Ord + ?Sized>(&mut self, key: &Q) -> Option<&mut V>
    where
        K: Borrow<Q>,
    {
        let (chunk, at) = self.find(key)?;
        let entries = Arc::make_mut(self.chunks.get_mut(chunk)?);
        entries.get_mut(at).map(|(_, value)| value)
    }

    /// Every value, to be changed.
    pub fn values_mut(&mut self) -> impl Iterator<Item = &mut V> {
        self.chunks.iter_mut().flat_map(Arc::make_mut).map(|(_, value)| value)
    }

    /// The value of a key, put there first where there is none.
    #[expect(clippy::indexing_slicing, reason = "it is where it was found or put")]
    pub fn get_or_insert_with(&mut self, key: K, value: impl FnOnce() -> V) -> &mut V {
        let (chunk, at) = match self.find(&key) {
            Some(found) => found,
            None => self.put(key, value()),
        };
        &mut Arc::make_mut(&mut self.chunks[chunk])[at].1
    }

    /// Puts a value there; gives the one that was.
    pub fn insert(&mut self, key: K, value: V) -> Option<V> {
        if let Some(before) = self.get_mut(&key) {
            return Some(std::mem::replace(before, value));
        }
        self.put(key, value);
        None
    }

    /// Takes the value of a key away.
    pub fn remove<Q: Ord + ?Sized>(&mut self, key: &Q) -> Option<V>
    where
        K: Borrow<Q>,
    {
        let (chunk, at) = self.find(key)?;
        let entries = Arc::make_mut(self.chunks.get_mut(chunk)?);
        let (_, value) = entries.remove(at);
        if entries.is_empty() {
            self.chunks.remove(chunk);
        }
        Some(value)
    }

    /// Puts a new key in its place; gives where that is.
    fn put(&mut self, key: K, value: V) -> (usize, usize) {
        let chunk = self.chunk(&key).unwrap_or_default();
        let Some(entries) = self.chunks.get_mut(chunk) else {
            // The first of all.
            self.chunks.push(Arc::new(vec![(key, value)]));
            return (0, 0);
        };
        let entries = Arc::make_mut(entries);
        let at = entries.partition_point(|(other, _)| *other < key);
        entries.insert(at, (key, value));
        if entries.len() <= MOST {
            return (chunk, at);
        }
        let half = entries.len() / 2;
        let rest = entries.split_off(half);
        self.chunks.insert(chunk + 1, Arc::new(rest));
        if at < half { (chunk, at) } else { (chunk + 1, at - half) }
    }
}

impl<'a, K, V> IntoIterator for &'a CowMap<K, V> {
    type Item = (&'a K, &'a V);
    type IntoIter = Entries<'a, K, V>;

    fn into_iter(self) -> Self::IntoIter {
        self.iter()
    }
}

impl<K: Ord + Clone, V: Clone> Extend<(K, V)> for CowMap<K, V> {
    fn extend<I: IntoIterator<Item = (K, V)>>(&mut self, entries: I) {
        for (key, value) in entries {
            self.insert(key, value);
        }
    }
}

impl<K: Ord + Clone, V: Clone> FromIterator<(K, V)> for CowMap<K, V> {
    fn from_iter<I: IntoIterator<Item = (K, V)>>(entries: I) -> Self {
        let mut cow = CowMap::default();
        cow.extend(entries);
        cow
    }
}

impl<K: fmt::Debug, V: fmt::Debug> fmt::Debug for CowMap<K, V> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_map().entries(self).finish()
    }
}

impl<K: Serialize, V: Serialize> Serialize for CowMap<K, V> {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        let mut map = to.serialize_map(Some(self.len()))?;
        for (key, value) in self {
            map.serialize_entry(key, value)?;
        }
        map.end()
    }
}

impl<'de, K, V> Deserialize<'de> for CowMap<K, V>
where
    K: Ord + Clone + Deserialize<'de>,
    V: Clone + Deserialize<'de>,
{
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        std::collections::BTreeMap::deserialize(from).map(|map| map.into_iter().collect())
    }
}

/// A map of shared values, written down as one of the values themselves.
pub(super) mod shared {
    use super::*;

    pub fn serialize<S: Serializer, K: Serialize, V: Serialize>(
        cow: &CowMap<K, Arc<V>>,
        to: S,
    ) -> Result<S::Ok, S::Error> {
        to.collect_map(cow.iter().map(|(key, value)| (key, value.as_ref())))
    }

    pub fn deserialize<'de, D, K, V>(from: D) -> Result<CowMap<K, Arc<V>>, D::Error>
    where
        D: Deserializer<'de>,
        K: Ord + Clone + Deserialize<'de>,
        V: Deserialize<'de>,
    {
        let map = std::collections::BTreeMap::<K, V>::deserialize(from)?;
        Ok(map.into_iter().map(|(key, value)| (key, Arc::new(value))).collect())
    }
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeMap;

    use proptest::prelude::*;

    use super::*;

    proptest! {
        /// Whatever is done to it, it is what an ordered map would be; and a copy
        /// made on the way stays what it was.
        #[test]
        fn it_is_an_ordered_map(steps in proptest::collection::vec((0..4_u8, 0..200_u16), 0..400)) {
            let mut cow: CowMap<String, u16> = CowMap::default();
            let mut map: BTreeMap<String, u16> = BTreeMap::new();
            let mut copies = Vec::new();
            for (step, key) in steps {
                let name = format!("n{key}");
                match step {
                    0 | 1 => prop_assert_eq!(cow.insert(name.clone(), key), map.insert(name, key)),
                    2 => prop_assert_eq!(cow.remove(&name), map.remove(&name)),
                    _ => {
                        *cow.get_or_insert_with(name.clone(), || 7) += 1;
                        *map.entry(name).or_insert(7) += 1;
                        copies.push((cow.clone(), map.clone()));
                    }
                }
                prop_assert_eq!(cow.len(), map.len());
            }
            copies.push((cow, map));
            for (cow, map) in copies.into_iter().rev().take(9) {
                prop_assert!(cow.iter().eq(map.iter()));
                // However its entries came to be there.
                let mut again = CowMap::default();
                for (name, key) in map.clone() {
                    again.insert(name, key);
                }
                prop_assert!(again == cow);
                prop_assert!(map.iter().all(|(key, value)| cow.get(key) == Some(value)));
                let written = serde_json::to_string(&cow).unwrap();
                prop_assert_eq!(&written, &serde_json::to_string(&map).unwrap());
                prop_assert_eq!(serde_json::from_str::<CowMap<String, u16>>(&written).unwrap().len(), map.len());
            }
        }
    }
}
