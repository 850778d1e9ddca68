//! Tables of our own words: filled once from our lists, asked for every word of a text.

use std::collections::{HashMap, HashSet};

use foldhash::fast::FixedState;

/// A table whose keys stand in our lists, and none of which comes from outside: nobody can
/// choose keys that fall together, so that a quick hash does.
pub type Fixed<K, V> = HashMap<K, V, FixedState>;

/// The same of keys alone.
pub type FixedSet<K> = HashSet<K, FixedState>;
