//! Which keys are surely not among many: a Bloom filter, each key's bits in one word.

/// Bits a key: about one in a hundred of those that aren't there is taken for one that is.
const BITS: usize = 12;

/// Keys of a filter at most (ours: six megabytes). More are looked up without one.
const MOST: usize = 4 * 1024 * 1024;

/// A filter of keys, which are spread evenly.
#[derive(Debug)]
pub(super) struct Filter(Vec<u64>);

impl Filter {
    /// One for so many keys, none of which is in it yet; none for too many.
    pub(super) fn of(keys: usize) -> Option<Filter> {
        let words = (keys * BITS).div_ceil(u64::BITS as usize).max(1);
        (keys <= MOST).then(|| Filter(vec![0; words]))
    }

    /// Puts a key in.
    pub(super) fn add(&mut self, key: u64) {
        let at = self.place(key);
        if let Some(word) = self.0.get_mut(at) {
            *word |= bits(key);
        }
    }

    /// False for a key that is surely not in it.
    pub(super) fn may_hold(&self, key: u64) -> bool {
        self.0.get(self.place(key)).is_none_or(|word| word & bits(key) == bits(key))
    }

    /// The place of a key's word, by its first bits.
    fn place(&self, key: u64) -> usize {
        // Less than the length, as the key is less than 2^64.
        ((u128::from(key) * self.0.len() as u128) >> 64) as usize
    }
}

/// Four bits of a word, by the key's last ones.
fn bits(key: u64) -> u64 {
    (0..4).fold(0, |bits, at| bits | 1 << (key >> (6 * at) & 63))
}
