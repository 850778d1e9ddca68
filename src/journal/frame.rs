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
/// Where begins what its checksum is of.
const CHECKED: usize = 12;

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
    let content = content_of(entry);
    head.mark = head.mark_of(&content);
    put(out, &head, &content);
    head.mark
}

/// Writes the frame of what stands in an entry's place, under its mark.
pub(super) fn write_changed(out: &mut Vec<u8>, head: Head, entry: &Entry) {
    let head = Head { kind: Kind::Changed, at: entry.at.as_second(), ..head };
    put(out, &head, &content_of(entry));
}

/// Writes the frame of an entry that was written elsewhere before, as it stood
/// there.
pub(super) fn write_again(out: &mut Vec<u8>, placed: &Placed, step: u64) {
    let content = content_of(&placed.entry);
    let (place, number) = (placed.place.number(), placed.tip.number);
    let head = Head::new(placed.before, place, step, number, placed.entry.at);
    let is_whole = head.mark_of(&content) == placed.tip.mark;
    let kind = if is_whole { Kind::Whole } else { Kind::Changed };
    put(out, &Head { kind, mark: placed.tip.mark, ..head }, &content);
}

/// Writes a frame that says that an entry was lost; gives what stands for it.
pub(super) fn write_lost(out: &mut Vec<u8>, head: Head) -> Entry {
    let nothing =
        Entry { stream: StreamId::all(), key: None, at: Timestamp::UNIX_EPOCH, body: Vec::new() };
    put(out, &Head { kind: Kind::Lost, at: 0, ..head }, &content_of(&nothing));
    nothing
}

fn put(out: &mut Vec<u8>, head: &Head, content: &[u8]) {
    let kind = match head.kind {
        Kind::Whole => 0,
        Kind::Changed => 1,
        Kind::Lost => 2,
    };
    let mut checked = [0; HEAD - CHECKED];
    checked[0] = kind;
    checked[4..12].copy_from_slice(&head.place.to_le_bytes());
    checked[12..20].copy_from_slice(&head.step.to_le_bytes());
    checked[20..28].copy_from_slice(&head.number.to_le_bytes());
    checked[28..36].copy_from_slice(&head.at.to_le_bytes());
    checked[36..52].copy_from_slice(&head.before.0);
    checked[52..].copy_from_slice(&head.mark.0);
    let mut check = crc32fast::Hasher::new();
    check.update(&checked);
    check.update(content);
    let length = u32::try_from(content.len()).unwrap_or(u32::MAX);
    out.reserve(HEAD + content.len());
    out.extend_from_slice(&MAGIC);
    out.extend_from_slice(&length.to_le_bytes());
    out.extend_from_slice(&check.finalize().to_le_bytes());
    out.extend_from_slice(&checked);
    out.extend_from_slice(content);
}

fn content_of(entry: &Entry) -> Vec<u8> {
    // Callers have checked every length by `fits`.
    let stream = entry.stream.0.as_bytes();
    let key = entry.key.as_ref().map_or(0, |key| key.channel.len() + key.id.len() + 4);
    let mut out = Vec::with_capacity(stream.len() + key + entry.body.len() + 2);
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
    out
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
    let short = "it is cut short";
    let frame = bytes.get(..length).ok_or(short)?;
    let (head, content) = frame.split_at_checked(HEAD).ok_or(short)?;
    let (check, checked) = frame.split_at_checked(CHECKED).ok_or(short)?;
    if check.last_chunk() != Some(&crc32fast::hash(checked).to_le_bytes()) {
        return Err("its checksum does not fit".into());
    }
    Ok(Frame { head: head_of(head).ok_or(short)??, content, length })
}

/// What a head says; nothing where it is shorter than one.
///
/// # Errors
/// In words, if it is of a kind that we don't know.
fn head_of(bytes: &[u8]) -> Option<Result<Head, String>> {
    let mut left = bytes.get(CHECKED..)?;
    let [kind, ..] = take::<4>(&mut left)?;
    let kind = match kind {
        0 => Kind::Whole,
        1 => Kind::Changed,
        2 => Kind::Lost,
        _ => return Some(Err("it is of an unknown kind".into())),
    };
    Some(Ok(Head {
        kind,
        place: u64::from_le_bytes(take(&mut left)?),
        step: u64::from_le_bytes(take(&mut left)?),
        number: u64::from_le_bytes(take(&mut left)?),
        at: i64::from_le_bytes(take(&mut left)?),
        before: Mark(take(&mut left)?),
        mark: Mark(take(&mut left)?),
    }))
}

/// The bytes at the front of what is left, which is then what is behind them.
fn take<const N: usize>(left: &mut &[u8]) -> Option<[u8; N]> {
    let (first, rest) = left.split_first_chunk()?;
    *left = rest;
    Some(*first)
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
    loop {
        let found = find_magic(bytes, at)?;
        if read(bytes.get(found..)?).is_ok() {
            return Some(found);
        }
        at = found + 1;
    }
}

/// Where, from `from` on, the next frame seems to begin.
pub(super) fn find_magic(bytes: &[u8], from: usize) -> Option<usize> {
    let rest = bytes.get(from..)?;
    rest.array_windows().position(|four| *four == MAGIC).map(|at| from + at)
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
