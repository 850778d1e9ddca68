//! Letters: what is to be said to others than the sender, which Lapwing
//! delivers itself; and what the journal keeps of their deliveries.

use std::borrow::Cow;
use std::fmt;
use std::str::FromStr;

use jiff::Timestamp;
use serde::{Deserialize, Serialize};

use super::record::{Record, RecordError};
use super::{Spoken, Via};
use crate::digest;
use crate::journal::Part;

/// The version of [`LetterEvent`]s that this program writes.
const VERSION: u32 = 1;

/// What the journal's entries about letters begin with. Those about messages
/// begin with `{`.
const MARK: &[u8] = b"letter ";

/// What an entry begins with that states what a squad's entries add up to.
const STATED: &[u8] = b"stated ";

/// How many hexadecimal digits of a letter's digest its id bears.
const DIGEST_DIGITS: usize = 16;

/// Which letter: the place in the log of the message that caused it, and which
/// of that message's replies it is. Written `17-0`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(into = "String", try_from = "String")]
pub struct LetterNumber {
    /// The message's place.
    pub place: u64,
    /// Which of its replies, counted from 0.
    pub index: u16,
}

/// A word is no letter's number.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
#[error("a letter's number looks like `17-0`, its id like `out-17-0-5d0e…`")]
pub struct NotALetter;

/// A letter with its words, as it goes out.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Letter {
    /// The same for every try of this letter, and no other letter's: what its
    /// receiver tells repeats by.
    pub id: String,
    /// When the message came that caused it.
    pub written: Timestamp,
    /// To whom, in which room, and the words.
    pub spoken: Spoken,
    /// What its channel calls the recipient at present, where that is not the
    /// address.
    pub handle: Option<String>,
    /// It answers what its recipient said.
    pub answers: bool,
}

/// What happened to a letter, as the journal keeps it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum LetterEvent {
    /// The other end has it.
    Delivered {
        /// To whom.
        to: String,
        /// Which letter.
        letter: LetterNumber,
    },
    /// A try failed; there will be another.
    Failed {
        /// To whom.
        to: String,
        /// Which letter.
        letter: LetterNumber,
        /// Not before this instant.
        next: Timestamp,
        /// In words without any address.
        why: String,
        /// The other end refused this letter and no other: those behind it need
        /// not wait for it.
        #[serde(default, skip_serializing_if = "std::ops::Not::not")]
        aside: bool,
    },
    /// The last try failed; it is kept, and nobody tries again unasked.
    Died {
        /// To whom.
        to: String,
        /// Which letter.
        letter: LetterNumber,
        /// When.
        at: Timestamp,
        /// In words without any address.
        why: String,
    },
    /// What was here was about a letter whose words are erased.
    Withdrawn,
    /// Someone asked to try it again at once; all of them, for `None`.
    Retried {
        /// Which letter.
        letter: Option<LetterNumber>,
    },
}

#[derive(Serialize, Deserialize)]
struct Versioned<T> {
    v: u32,
    event: T,
}

/// What an entry of the journal tells.
pub(super) enum Logged {
    /// Of a message.
    Message(Box<Record>),
    /// Of a letter.
    Letter(LetterEvent),
    /// What a squad's entries up to here add up to, some of which were lost: the
    /// parts of a snapshot that was whole.
    Stated(Vec<Part>),
}

impl Logged {
    /// What these bytes tell.
    pub fn read(bytes: &[u8]) -> Result<Self, RecordError> {
        if let Some(rest) = bytes.strip_prefix(STATED) {
            let parts: Vec<(String, String)> = serde_json::from_slice(rest)?;
            let part = |(name, words): (String, String)| Part { name, bytes: words.into_bytes() };
            return Ok(Logged::Stated(parts.into_iter().map(part).collect()));
        }
        match bytes.strip_prefix(MARK) {
            None => Ok(Logged::Message(Box::new(Record::read(bytes)?))),
            Some(rest) => {
                let Versioned { v, event } = serde_json::from_slice(rest)?;
                if v > VERSION {
                    return Err(RecordError::Newer { what: "letter", found: v, known: VERSION });
                }
                Ok(Logged::Letter(event))
            }
        }
    }
}

/// True of what no message left.
pub(super) fn is_no_message(bytes: &[u8]) -> bool {
    bytes.starts_with(MARK) || bytes.starts_with(STATED)
}

/// The entry that states what the parts of a snapshot say.
///
/// # Errors
/// A part is no text.
pub(super) fn stated(parts: &[Part]) -> Result<Vec<u8>, RecordError> {
    let words =
        |part: &Part| (part.name.clone(), String::from_utf8_lossy(&part.bytes).into_owned());
    let parts: Vec<(String, String)> = parts.iter().map(words).collect();
    let mut bytes = STATED.to_vec();
    serde_json::to_writer(&mut bytes, &parts)?;
    Ok(bytes)
}

impl LetterEvent {
    /// The lane of the letter that it is about, if it is about one.
    pub(super) fn lane(&self) -> Option<&str> {
        self.letter().map(|(_, lane)| lane)
    }

    /// The letter that it is about, with its lane, if it is about one.
    pub(super) fn letter(&self) -> Option<(LetterNumber, &str)> {
        match self {
            LetterEvent::Delivered { to, letter }
            | LetterEvent::Failed { to, letter, .. }
            | LetterEvent::Died { to, letter, .. } => Some((*letter, to)),
            LetterEvent::Withdrawn | LetterEvent::Retried { .. } => None,
        }
    }

    /// The event as bytes.
    pub(super) fn write(&self) -> Result<Vec<u8>, RecordError> {
        let mut bytes = MARK.to_vec();
        serde_json::to_writer(&mut bytes, &Versioned { v: VERSION, event: self })?;
        Ok(bytes)
    }
}

impl Letter {
    /// The letter in a message's record, if it holds one of this number.
    pub(super) fn of(record: Record, number: LetterNumber) -> Option<Letter> {
        let spoken = record.replies.into_iter().nth(usize::from(number.index))?;
        if spoken.via != Via::Outbox {
            return None;
        }
        // Places begin anew where an older backup is restored, so the number
        // alone would not do.
        let squad = record.squad.map(|id| id.0).unwrap_or_default();
        let written = record.received.as_nanosecond().to_string();
        let known_by = number.to_string();
        let digest = digest::of([&*squad, &known_by, &written, &spoken.to, &spoken.text]);
        let digits = digest::hex(&digest[..DIGEST_DIGITS / 2]);
        let id = format!("out-{number}-{digits}");
        let answers = record.from == spoken.to;
        Some(Letter { id, written: record.received, spoken, handle: None, answers })
    }
}

/// Numbers of all letters among a message's replies, and their lanes.
pub(super) fn lanes_in(
    place: u64,
    replies: &[Spoken],
) -> impl Iterator<Item = (LetterNumber, Cow<'_, str>)> {
    let letters = (0..=u16::MAX).zip(replies).filter(|(_, reply)| reply.via == Via::Outbox);
    letters.map(move |(index, reply)| (LetterNumber { place, index }, lane_of(reply)))
}

/// Numbers of the letters among a message's replies, and to whom or which room
/// they go. Those of an alarm go a way of their own.
pub(super) fn letters_in(
    place: u64,
    replies: &[Spoken],
) -> impl Iterator<Item = (LetterNumber, Cow<'_, str>, Option<Timestamp>)> {
    let waits_its_turn = |reply: &Spoken| reply.via == Via::Outbox && reply.alarm.is_none();
    let letters = (0..=u16::MAX).zip(replies).filter(move |(_, reply)| waits_its_turn(reply));
    letters.map(move |(index, reply)| (LetterNumber { place, index }, lane_of(reply), reply.due))
}

fn lane_of(reply: &Spoken) -> Cow<'_, str> {
    // What is said in a room keeps its order there, whoever it is to.
    let to = reply.room.as_deref().unwrap_or(&reply.to);
    // What waits for the morning must not keep back what can't wait.
    match reply.due {
        None => Cow::Borrowed(to),
        Some(_) => Cow::Owned(format!("{to} (held)")),
    }
}

impl fmt::Display for LetterNumber {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(out, "{}-{}", self.place, self.index)
    }
}

impl FromStr for LetterNumber {
    type Err = NotALetter;

    /// Reads a number, or the number in a whole id.
    fn from_str(word: &str) -> Result<Self, NotALetter> {
        let number = match word.strip_prefix("out-") {
            Some(id) => id.rsplit_once('-').ok_or(NotALetter)?.0,
            None => word,
        };
        let (place, index) = number.split_once('-').ok_or(NotALetter)?;
        Ok(LetterNumber {
            place: place.parse().map_err(|_| NotALetter)?,
            index: index.parse().map_err(|_| NotALetter)?,
        })
    }
}

impl From<LetterNumber> for String {
    fn from(number: LetterNumber) -> String {
        number.to_string()
    }
}

impl TryFrom<String> for LetterNumber {
    type Error = NotALetter;

    fn try_from(word: String) -> Result<Self, NotALetter> {
        word.parse()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_number_is_read_from_itself_and_from_a_whole_id() {
        let number = LetterNumber { place: 17, index: 2 };
        assert_eq!("17-2".parse(), Ok(number));
        assert_eq!("out-17-2-00ff00ff00ff00ff".parse(), Ok(number));
        for wrong in ["", "17", "out-17-2", "17-2-3", "-1-2", "a-b"] {
            assert_eq!(wrong.parse::<LetterNumber>(), Err(NotALetter), "{wrong}");
        }
    }

    #[test]
    fn an_entry_of_a_later_program_is_not_guessed_at() {
        let event = LetterEvent::Retried { letter: None };
        let bytes = event.write().unwrap();
        assert!(matches!(Logged::read(&bytes), Ok(Logged::Letter(read)) if read == event));
        let later = String::from_utf8(bytes).unwrap().replace("\"v\":1", "\"v\":2");
        assert!(matches!(Logged::read(later.as_bytes()), Err(RecordError::Newer { .. })));
    }
}
