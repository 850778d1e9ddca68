//! One entry as bytes, and how entries are found among bytes that may be
//! damaged. Pure bytes in, bytes out; knows no files.
//!
//! A frame, little-endian throughout:
//!
//! | bytes | what |
//! | --- | --- |
//! | 0..4 | [`MAGIC`] |
//! | 4..8 | how long the content is |
//! | 8..12 | CRC-32 (IEEE) of all that follows, so that no changed bit passes |
//! | 12 | [`Kind`] |
//! | 16..24 | place in the log |
//! | 24..32 | place of the first entry that was written in the same step |
//! | 32..40 | number in the stream |
//! | 40..48 | when it came, in seconds since 1970 |
//! | 48..64 | the mark of the entry before |
//! | 64..80 | its own mark |
//! | 80.. | content: stream, key, body |
//!
//! A mark is the first half of SHA-256 over the mark before, the place, the
//! number, the instant and the content, as first written. What was erased keeps
//! its mark and says so by its kind.

use jiff::Timestamp;
use sha2::{Digest, Sha256};

use super::entry::first_half;
use super::{Entry, JournalError, Mark, MessageKey, Placed, Seq, StreamId, Tip};

/// What every frame begins with.
pub(super) const MAGIC: [u8; 4] = *b"lwe2";

/// How long a frame is without its content.
pub(super) const HEAD: usize = 80;

/// The longest body of an entry, in bytes.
pub(super) const LONGEST_BODY: usize = 64 * 1024 * 1024;
/// The longest channel or id, in bytes.
pub(super) const LONGEST_KEY: usize = u16::MAX as usize;
/// The longest name of a stream or part, in bytes.
pub(super) const LONGEST_NAME: usize = u8::MAX as usize;
const LONGEST_CONTENT: usize = LONGEST_BODY + 2 * LONGEST_KEY + LONGEST_NAME + 6;

/// What became of an entry since it was written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Kind {
    /// Nothing: its mark is the digest of what it holds.
    Whole,
    /// Something else stands in its place.
    Changed,
    /// It was lost, and somebody has been told.
    Lost,
}

/// What a frame says of its entry before its content is looked at.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Head {
    pub kind: Kind,
    pub place: u64,
    pub step: u64,
    pub number: u64,
    pub at: i64,
    pub before: Mark,
    pub mark: Mark,
}

/// A frame among other bytes.
#[derive(Debug, Clone, Copy)]
pub(super) struct Frame<'a> {
    pub head: Head,
    pub content: &'a [u8],
    /// How long it is with its head.
    pub length: usize,
}

impl Head {
    /// Where an entry stands that comes after the one marked `before`; its mark
    /// is made from its content.
    pub(super) fn new(before: Mark, place: u64, step: u64, number: u64, at: Timestamp) -> Self {
        let at = at.as_second();
        Self { kind: Kind::Whole, place, step, number, at, before, mark: Mark::default() }
    }

    fn mark_of(&self, content: &[u8]) -> Mark {
        let mut digest = Sha256::new();
        digest.update(self.before.0);
        for number in [self.place, self.number, self.at.cast_unsigned()] {
            digest.update(number.to_le_bytes());
        }
        digest.update(content);
        Mark(first_half(digest))
    }
}

/// Writes the frame of a new entry behind `out`; gives its mark.
pub(super) fn write(out: &mut Vec<u8>, mut head: Head, entry: &Entry) -> Mark {
    let begin = out.len();
    out.resize(begin + HEAD, 0);
    write_content(out, entry);
    let content = begin + HEAD;
    head.mark = head.mark_of(&out[content..]);
    finish(out, begin, &head);
    head.mark
}

/// Writes the frame of what stands in an entry's place, under its mark.
pub(super) fn write_changed(out: &mut Vec<u8>, head: Head, entry: &Entry) {
    let begin = out.len();
    out.resize(begin + HEAD, 0);
    write_content(out, entry);
    finish(out, begin, &Head { kind: Kind::Changed, at: entry.at.as_second(), ..head });
}

/// Writes the frame of an entry that was written elsewhere before, as it stood
/// there.
pub(super) fn write_again(out: &mut Vec<u8>, placed: &Placed, step: u64) {
    let begin = out.len();
    out.resize(begin + HEAD, 0);
    write_content(out, &placed.entry);
    let (place, number) = (placed.place.number(), placed.tip.number);
    let head = Head::new(placed.before, place, step, number, placed.entry.at);
    let is_whole = head.mark_of(&out[begin + HEAD..]) == placed.tip.mark;
    let kind = if is_whole { Kind::Whole } else { Kind::Changed };
    finish(out, begin, &Head { kind, mark: placed.tip.mark, ..head });
}

/// Writes a frame that says that an entry was lost; gives what stands for it.
pub(super) fn write_lost(out: &mut Vec<u8>, head: Head) -> Entry {
    let begin = out.len();
    out.resize(begin + HEAD, 0);
    let nothing =
        Entry { stream: StreamId::all(), key: None, at: Timestamp::UNIX_EPOCH, body: Vec::new() };
    write_content(out, &nothing);
    finish(out, begin, &Head { kind: Kind::Lost, at: 0, ..head });
    nothing
}

fn finish(out: &mut [u8], begin: usize, head: &Head) {
    let frame = &mut out[begin..];
    let length = u32::try_from(frame.len() - HEAD).unwrap_or(u32::MAX);
    frame[..4].copy_from_slice(&MAGIC);
    frame[4..8].copy_from_slice(&length.to_le_bytes());
    frame[12] = match head.kind {
        Kind::Whole => 0,
        Kind::Changed => 1,
        Kind::Lost => 2,
    };
    frame[16..24].copy_from_slice(&head.place.to_le_bytes());
    frame[24..32].copy_from_slice(&head.step.to_le_bytes());
    frame[32..40].copy_from_slice(&head.number.to_le_bytes());
    frame[40..48].copy_from_slice(&head.at.to_le_bytes());
    frame[48..64].copy_from_slice(&head.before.0);
    frame[64..80].copy_from_slice(&head.mark.0);
    let check = crc32fast::hash(&frame[12..]);
    frame[8..12].copy_from_slice(&check.to_le_bytes());
}

fn write_content(out: &mut Vec<u8>, entry: &Entry) {
    // Callers have checked every length by `fits`.
    let stream = entry.stream.0.as_bytes();
    out.push(u8::try_from(stream.len()).unwrap_or(u8::MAX));
    out.extend_from_slice(stream);
    match &entry.key {
        None => out.push(0),
        Some(MessageKey { channel, id }) => {
            out.push(1);
            for text in [channel, id] {
                let length = u16::try_from(text.len()).unwrap_or(u16::MAX);
                out.extend_from_slice(&length.to_le_bytes());
                out.extend_from_slice(text.as_bytes());
            }
        }
    }
    out.extend_from_slice(&entry.body);
}

/// Whether an entry can be stored.
pub(super) fn fits(entry: &Entry) -> Result<(), JournalError> {
    if let Some(MessageKey { channel, id }) = &entry.key {
        within("a channel", channel.len(), LONGEST_KEY)?;
        within("a message id", id.len(), LONGEST_KEY)?;
    }
    within("the name of a stream", entry.stream.0.len(), LONGEST_NAME)?;
    within("an entry", entry.body.len(), LONGEST_BODY)
}

/// Whether something `length` bytes long can be stored.
pub(super) fn within(what: &'static str, length: usize, most: usize) -> Result<(), JournalError> {
    if length > most { Err(JournalError::TooLong { what, length, most }) } else { Ok(()) }
}

/// How long the frame at the start of `head` claims to be; `None` where none
/// begins there.
pub(super) fn claimed_length(head: &[u8]) -> Option<usize> {
    let content = u32::from_le_bytes(*head.strip_prefix(&MAGIC)?.first_chunk()?) as usize;
    (content <= LONGEST_CONTENT).then_some(HEAD + content)
}

/// The frame at the start of `bytes`.
///
/// # Errors
/// In words, if there is none that is whole.
pub(super) fn read(bytes: &[u8]) -> Result<Frame<'_>, String> {
    let length = claimed_length(bytes).ok_or("it does not begin as an entry does")?;
    let frame = bytes.get(..length).ok_or("it is cut short")?;
    if crc32fast::hash(&frame[12..]) != number(frame, 8, u32::from_le_bytes) {
        return Err("its checksum does not fit".into());
    }
    let kind = match frame[12] {
        0 => Kind::Whole,
        1 => Kind::Changed,
        2 => Kind::Lost,
        _ => return Err("it is of an unknown kind".into()),
    };
    let head = Head {
        kind,
        place: number(frame, 16, u64::from_le_bytes),
        step: number(frame, 24, u64::from_le_bytes),
        number: number(frame, 32, u64::from_le_bytes),
        at: number(frame, 40, i64::from_le_bytes),
        before: Mark(number(frame, 48, |bytes| bytes)),
        mark: Mark(number(frame, 64, |bytes| bytes)),
    };
    Ok(Frame { head, content: &frame[HEAD..], length })
}

/// Bytes of a frame that is known to be long enough.
fn number<const N: usize, T>(frame: &[u8], at: usize, read: impl Fn([u8; N]) -> T) -> T {
    read(frame[at..].first_chunk().copied().unwrap_or([0; N]))
}

impl Frame<'_> {
    /// Whether the mark is the digest of what is there; what was changed or lost
    /// can't show that any more.
    pub(super) fn bears_its_mark(&self) -> bool {
        self.head.kind != Kind::Whole || self.head.mark_of(self.content) == self.head.mark
    }

    /// The entry in it.
    ///
    /// # Errors
    /// In words, if its content is none.
    pub(super) fn entry(&self) -> Result<Placed, String> {
        let cut = || "its names are cut short".to_owned();
        let (&length, rest) = self.content.split_first().ok_or_else(cut)?;
        let (stream, rest) = rest.split_at_checked(usize::from(length)).ok_or_else(cut)?;
        let stream = std::str::from_utf8(stream).map_err(|_| "its stream is not text")?;
        let (&keyed, rest) = rest.split_first().ok_or_else(cut)?;
        let (key, body) = match keyed {
            0 => (None, rest),
            _ => {
                let (channel, rest) = short_text(rest)?;
                let (id, rest) = short_text(rest)?;
                (Some(MessageKey { channel, id }), rest)
            }
        };
        let at = Timestamp::from_second(self.head.at).map_err(|_| "its instant is none")?;
        let stream = StreamId(stream.to_owned());
        Ok(Placed {
            place: Seq::new(self.head.place),
            before: self.head.before,
            tip: Tip { number: self.head.number, mark: self.head.mark },
            entry: Entry { stream, key, at, body: body.to_vec() },
        })
    }
}

fn short_text(bytes: &[u8]) -> Result<(String, &[u8]), String> {
    let cut = || "its key is cut short".to_owned();
    let (length, rest) = bytes.split_first_chunk::<2>().ok_or_else(cut)?;
    let (text, rest) =
        rest.split_at_checked(usize::from(u16::from_le_bytes(*length))).ok_or_else(cut)?;
    Ok((String::from_utf8(text.to_vec()).map_err(|_| "its key is not text")?, rest))
}

/// Where, from `from` on, the next frame that is whole begins.
pub(super) fn next_whole(bytes: &[u8], from: usize) -> Option<usize> {
    let mut at = from;
    while let Some(found) = find_magic(bytes, at) {
        if read(&bytes[found..]).is_ok() {
            return Some(found);
        }
        at = found + 1;
    }
    None
}

/// Where, from `from` on, the next frame seems to begin.
pub(super) fn find_magic(bytes: &[u8], from: usize) -> Option<usize> {
    let rest = bytes.get(from..)?;
    let first = MAGIC[0];
    let mut at = 0;
    loop {
        at += rest[at..].iter().position(|byte| *byte == first)?;
        if rest[at..].starts_with(&MAGIC) {
            return Some(from + at);
        }
        at += 1;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn entry(body: &[u8]) -> Entry {
        Entry {
            stream: StreamId("s/dusk".into()),
            key: Some(MessageKey { channel: "sms".into(), id: "gw-1".into() }),
            at: Timestamp::from_second(1_772_400_000).unwrap(),
            body: body.to_vec(),
        }
    }

    fn framed(entry: &Entry) -> Vec<u8> {
        let mut out = Vec::new();
        write(&mut out, Head::new(Mark([7; 16]), 12, 11, 3, entry.at), entry);
        out
    }

    #[test]
    fn an_entry_survives_framing() {
        let unkeyed = Entry { key: None, ..entry(b"teal") };
        for entry in [entry(b"wren"), entry(b""), unkeyed] {
            let bytes = framed(&entry);
            let frame = read(&bytes).unwrap();
            assert!(frame.bears_its_mark());
            assert_eq!((frame.length, frame.head.place, frame.head.step), (bytes.len(), 12, 11));
            assert_eq!(frame.entry().unwrap().entry, entry);
        }
    }

    #[test]
    fn any_flipped_bit_is_seen() {
        let bytes = framed(&entry(b"200 test 3:12"));
        for bit in 0..bytes.len() * 8 {
            let mut flipped = bytes.clone();
            flipped[bit / 8] ^= 1 << (bit % 8);
            assert!(read(&flipped).is_err(), "bit {bit}");
        }
    }

    #[test]
    fn what_stands_in_an_entrys_place_bears_its_mark() {
        let bytes = framed(&entry(b"heron"));
        let head = read(&bytes).unwrap().head;
        let mut changed = Vec::new();
        write_changed(&mut changed, head, &entry(b"gone"));
        let frame = read(&changed).unwrap();
        assert_eq!((frame.head.mark, frame.head.kind), (head.mark, Kind::Changed));
        assert!(frame.bears_its_mark());
        assert_eq!(frame.entry().unwrap().entry.body, b"gone");
    }

    #[test]
    fn a_frame_is_found_behind_bytes_that_are_none() {
        let whole = framed(&entry(b"wren"));
        let mut torn = framed(&entry(b"teal"));
        torn[90] ^= 4;
        let bytes = [&torn[..], b"lwe2 lwe", &whole].concat();
        assert_eq!(next_whole(&bytes, 0), Some(torn.len() + 8));
        assert_eq!(next_whole(&bytes, torn.len() + 9), None);
    }

    #[test]
    fn checksum_is_the_standard_one() {
        // The check value of CRC-32/ISO-HDLC, from memory: 0xCBF43926.
        assert_eq!(crc32fast::hash(b"123456789"), 0xCBF4_3926);
    }
}
