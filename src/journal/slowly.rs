//! Reading a whole file without keeping a core to it.

use std::fs::File;
use std::io::{self, Read};
use std::path::Path;

use crate::background;

/// So many bytes are read at once: less than a millisecond's work (ours).
const STEP: u64 = 256 * 1024;

/// The first bytes of a file, so many at most. Between steps, work beside the messages rests:
/// nothing may be held that a request waits for.
///
/// # Errors
/// It can't be read.
pub(super) fn read(path: &Path, at_most: u64) -> io::Result<Vec<u8>> {
    let mut file = File::open(path)?;
    let length = file.metadata()?.len().min(at_most);
    let mut bytes = Vec::with_capacity(usize::try_from(length).unwrap_or_default());
    loop {
        let left = at_most.saturating_sub(bytes.len() as u64);
        if file.by_ref().take(left.min(STEP)).read_to_end(&mut bytes)? == 0 {
            return Ok(bytes);
        }
        background::rest();
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_file_is_read_whole_or_as_far_as_it_is_asked_for() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("file");
        let all: Vec<u8> = (0..2 * STEP + 77).map(|at| (at % 251) as u8).collect();
        std::fs::write(&path, &all).unwrap();
        for length in [0, 1, STEP, STEP + 1, 2 * STEP + 76, 2 * STEP + 77] {
            assert_eq!(read(&path, length).unwrap(), all[..length as usize]);
        }
        assert_eq!(read(&path, u64::MAX).unwrap(), all);
        assert!(read(&folder.path().join("none"), 1).is_err());
    }
}
