//! What is in a record: entries packed together or cut in pieces, each with a
//! checksum. Pure bytes in, bytes out; knows no store.
//!
//! A *frame* is `length:u32 checksum:u32 content`, little-endian. The checksum
//! (CRC-32, IEEE) covers the frame's owner too (the entry's place, the part's
//! name), so that a frame under the wrong key does not pass. A record begins
//! with one byte for its shape: a pack holds whole frames one after the other;
//! a frame too long for that is cut, its first piece told from the others.
//!
//! Records are kept under [`LONGEST_RECORD`]: a page of the store holds up to
//! twenty of them before it splits, and a page over a quarter of a segment
//! (128 KiB) would go to a side file that is never synced to the disk.

use super::{Entry, JournalError, MessageKey};

/// The longest record, in bytes.
pub(super) const LONGEST_RECORD: usize = 6 * 1024;

/// The longest body of an entry or part, in bytes.
pub(super) const LONGEST_BODY: usize = 64 * 1024 * 1024;

/// The longest channel or id, in bytes.
pub(super) const LONGEST_KEY: usize = u16::MAX as usize;

/// The longest name of a part, in bytes.
pub(super) const LONGEST_NAME: usize = u8::MAX as usize;

const PACK: u8 = 1;
const FIRST_PIECE: u8 = 2;
const LATER_PIECE: u8 = 3;

const FRAME_HEAD: usize = 8;

/// A frame around `content`, which belongs to `owner`.
pub(super) fn frame(owner: &[u8], content: &[u8]) -> Vec<u8> {
    // Callers keep content under `LONGEST_BODY` and two keys, so it fits.
    let length = u32::try_from(content.len()).unwrap_or(u32::MAX);
    let mut frame = Vec::with_capacity(FRAME_HEAD + content.len());
    frame.extend_from_slice(&length.to_le_bytes());
    frame.extend_from_slice(&checksum(owner, content).to_le_bytes());
    frame.extend_from_slice(content);
    frame
}

/// Takes the first frame off `bytes`: its content and what comes after it.
///
/// # Errors
/// In words, if the frame is cut short or its checksum does not fit.
pub(super) fn unframe<'a>(owner: &[u8], bytes: &'a [u8]) -> Result<(&'a [u8], &'a [u8]), String> {
    let (expected, content, rest) = split_frame(bytes)?;
    if checksum(owner, content) != expected {
        return Err("its checksum does not fit".into());
    }
    Ok((content, rest))
}

/// The content of an entry's frame.
pub(super) fn entry_content(entry: &Entry) -> Vec<u8> {
    let mut content = Vec::with_capacity(64 + entry.body.len());
    match &entry.key {
        None => content.push(0),
        Some(MessageKey { channel, id }) => {
            content.push(1);
            for text in [channel, id] {
                // Callers keep these under `LONGEST_KEY`.
                content.extend_from_slice(
                    &u16::try_from(text.len()).unwrap_or(u16::MAX).to_le_bytes(),
                );
                content.extend_from_slice(text.as_bytes());
            }
        }
    }
    content.extend_from_slice(&entry.body);
    content
}

/// The entry in the content of a frame.
///
/// # Errors
/// In words, if it is no entry.
pub(super) fn entry_from(content: &[u8]) -> Result<Entry, String> {
    let (&keyed, rest) = content.split_first().ok_or("it is empty")?;
    if keyed == 0 {
        return Ok(Entry { key: None, body: rest.to_vec() });
    }
    let (channel, rest) = short_text(rest)?;
    let (id, body) = short_text(rest)?;
    Ok(Entry { key: Some(MessageKey { channel, id }), body: body.to_vec() })
}

/// Whether an entry can be stored.
pub(super) fn fits(entry: &Entry) -> Result<(), JournalError> {
    if let Some(MessageKey { channel, id }) = &entry.key {
        within("a channel", channel.len(), LONGEST_KEY)?;
        within("a message id", id.len(), LONGEST_KEY)?;
    }
    within("an entry", entry.body.len(), LONGEST_BODY)
}

/// Whether something `length` bytes long can be stored.
pub(super) fn within(what: &'static str, length: usize, most: usize) -> Result<(), JournalError> {
    if length > most { Err(JournalError::TooLong { what, length, most }) } else { Ok(()) }
}

/// Gathers whole frames into one record.
#[derive(Debug)]
pub(super) struct Pack(Vec<u8>);

impl Pack {
    /// A pack with nothing in it.
    pub(super) fn new() -> Self {
        Self(vec![PACK])
    }

    /// Whether a frame can lie in any pack, or must be cut.
    pub(super) fn can_ever_take(frame: &[u8]) -> bool {
        frame.len() < LONGEST_RECORD
    }

    /// Whether there is room for the frame too.
    pub(super) fn has_room_for(&self, frame: &[u8]) -> bool {
        self.0.len() + frame.len() <= LONGEST_RECORD
    }

    /// Whether no frame has been added.
    pub(super) fn is_empty(&self) -> bool {
        self.0.len() == 1
    }

    /// Adds a frame for which there is room.
    pub(super) fn add(&mut self, frame: &[u8]) {
        self.0.extend_from_slice(frame);
    }

    /// The finished record; the pack is empty again.
    pub(super) fn take(&mut self) -> Vec<u8> {
        std::mem::replace(&mut self.0, vec![PACK])
    }
}

/// The records that a frame is cut into, in order.
pub(super) fn pieces(frame: &[u8]) -> impl Iterator<Item = Vec<u8>> + '_ {
    frame.chunks(LONGEST_RECORD - 1).enumerate().map(|(number, bytes)| {
        let mut record = Vec::with_capacity(1 + bytes.len());
        record.push(if number == 0 { FIRST_PIECE } else { LATER_PIECE });
        record.extend_from_slice(bytes);
        record
    })
}

/// A record, told by its shape.
#[derive(Debug)]
pub(super) enum Record<'a> {
    /// Whole frames, one after the other.
    Pack(&'a [u8]),
    /// The first piece of a frame, and how many pieces there are in all.
    FirstPiece(&'a [u8], u32),
    /// A later piece.
    LaterPiece(&'a [u8]),
}

/// Tells what a record is.
///
/// # Errors
/// In words, if it is none of ours.
pub(super) fn read_record(bytes: &[u8]) -> Result<Record<'_>, String> {
    match bytes.split_first() {
        Some((&PACK, rest)) => Ok(Record::Pack(rest)),
        Some((&FIRST_PIECE, rest)) => {
            let length = rest.first_chunk::<4>().ok_or("it is cut short")?;
            let whole = FRAME_HEAD as u64 + u64::from(u32::from_le_bytes(*length));
            let pieces = whole.div_ceil(LONGEST_RECORD as u64 - 1);
            Ok(Record::FirstPiece(
                rest,
                u32::try_from(pieces).map_err(|_| "it claims too many pieces")?,
            ))
        }
        Some((&LATER_PIECE, rest)) => Ok(Record::LaterPiece(rest)),
        _ => Err("it is a record of no known shape".into()),
    }
}

/// How many frames a pack holds, without looking at their checksums.
///
/// # Errors
/// In words, if one is cut short.
pub(super) fn count_frames(mut pack: &[u8]) -> Result<u64, String> {
    let mut count = 0;
    while !pack.is_empty() {
        (_, _, pack) = split_frame(pack)?;
        count += 1;
    }
    Ok(count)
}

fn split_frame(bytes: &[u8]) -> Result<(u32, &[u8], &[u8]), String> {
    let cut = || "it is cut short".to_owned();
    let (length, rest) = bytes.split_first_chunk::<4>().ok_or_else(cut)?;
    let (expected, rest) = rest.split_first_chunk::<4>().ok_or_else(cut)?;
    let length = usize::try_from(u32::from_le_bytes(*length)).map_err(|_| cut())?;
    let (content, rest) = rest.split_at_checked(length).ok_or_else(cut)?;
    Ok((u32::from_le_bytes(*expected), content, rest))
}

fn short_text(bytes: &[u8]) -> Result<(String, &[u8]), String> {
    let cut = || "its key is cut short".to_owned();
    let (length, rest) = bytes.split_first_chunk::<2>().ok_or_else(cut)?;
    let (text, rest) =
        rest.split_at_checked(usize::from(u16::from_le_bytes(*length))).ok_or_else(cut)?;
    Ok((String::from_utf8(text.to_vec()).map_err(|_| "its key is not text")?, rest))
}

fn checksum(owner: &[u8], content: &[u8]) -> u32 {
    let mut crc = crc32fast::Hasher::new();
    crc.update(owner);
    crc.update(content);
    crc.finalize()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn keyed(body: &[u8]) -> Entry {
        Entry {
            key: Some(MessageKey { channel: "sms".into(), id: "gw-1".into() }),
            body: body.to_vec(),
        }
    }

    #[test]
    fn entry_survives_framing() {
        for entry in [keyed(b"wren"), keyed(b""), Entry { key: None, body: b"teal".to_vec() }] {
            let framed = frame(b"1", &entry_content(&entry));
            let (content, rest) = unframe(b"1", &framed).unwrap();
            assert_eq!(entry_from(content).unwrap(), entry);
            assert!(rest.is_empty());
        }
    }

    #[test]
    fn any_flipped_bit_is_seen() {
        let framed = frame(b"1", &entry_content(&keyed(b"200 test 3:12")));
        for bit in 0..framed.len() * 8 {
            let mut flipped = framed.clone();
            flipped[bit / 8] ^= 1 << (bit % 8);
            assert!(unframe(b"1", &flipped).is_err(), "bit {bit}");
        }
    }

    #[test]
    fn a_frame_under_anothers_key_is_seen() {
        assert!(unframe(b"2", &frame(b"1", b"body")).is_err());
    }

    #[test]
    fn checksum_is_the_standard_one() {
        // The check value of CRC-32/ISO-HDLC, from memory: 0xCBF43926.
        assert_eq!(checksum(b"1234", b"56789"), 0xCBF4_3926);
    }

    #[test]
    fn pieces_say_how_many_they_are() {
        for length in [0, 1, LONGEST_RECORD - 9, LONGEST_RECORD - 8, 3 * LONGEST_RECORD, 200_000] {
            let framed = frame(b"1", &vec![7; length]);
            let records: Vec<_> = pieces(&framed).collect();
            let Record::FirstPiece(_, count) = read_record(&records[0]).unwrap() else {
                panic!("no first piece")
            };
            assert_eq!(count as usize, records.len(), "{length}");
            assert!(records.iter().all(|record| record.len() <= LONGEST_RECORD));
        }
    }
}
