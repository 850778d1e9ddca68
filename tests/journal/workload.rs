//! Writers that work until something stops them, and the check of what they
//! left. Entries and parts can be made again from their numbers alone, so the
//! lines that the writers print are all that the check needs.
//!
//! A line is printed only after its ticket has resolved:
//! `entry WRITER NUMBER PLACE` or `parts VERSION THROUGH`.

use std::collections::VecDeque;
use std::io::{self, Write};
use std::thread;
use std::time::Duration;

use jiff::Timestamp;
use lapwing::journal::{Entry, Journal, MessageKey, Part, Placed, Seq, StreamId};

/// How much is written, and how.
#[derive(Debug, Clone, Copy)]
pub struct Workload {
    /// Tells this run's entries from those of earlier runs in the same journal.
    pub run: u64,
    /// How many threads append, 1 to 1,000.
    pub writers: u64,
    /// How many tickets each of them leaves unresolved.
    pub window: usize,
    /// Whether every tenth entry is up to 20 kB and every fiftieth 200 kB;
    /// the others are 1 to 400 bytes, as messages are.
    pub long_entries: bool,
    /// Whether the snapshot's parts are replaced all the time, and every twentieth
    /// entry of each writer is erased a while after it was written.
    pub checkpoints: bool,
}

/// The stream of the entries that are erased.
const ERASED: &str = "s/erased";

/// What stands in their place then.
const GONE: &[u8] = b"gone";

impl Workload {
    /// Writes until the journal refuses or the process ends.
    pub fn write(self, journal: &dyn Journal, mut tell: impl FnMut(&str) + Send + Clone) {
        thread::scope(|scope| {
            for writer in 0..self.writers {
                let tell = tell.clone();
                scope.spawn(move || self.append(journal, self.run * 1_000 + writer, tell));
            }
            if self.checkpoints {
                scope.spawn(move || erase(journal));
                self.replace_parts(journal, &mut tell);
            }
        });
    }

    fn append(self, journal: &dyn Journal, writer: u64, mut tell: impl FnMut(&str)) {
        let mut waiting = VecDeque::new();
        for number in 0.. {
            waiting.push_back((number, journal.append(entry(writer, number, self.long_entries))));
            if waiting.len() > self.window
                && let Some((number, ticket)) = waiting.pop_front()
            {
                let Ok(place) = ticket.wait() else { return };
                tell(&format!("entry {writer} {number} {place}\n"));
            }
        }
    }

    /// Two parts in every checkpoint, always of the same version, and a third
    /// one in some; now and then all of them anew.
    fn replace_parts(self, journal: &dyn Journal, tell: &mut impl FnMut(&str)) {
        let all = StreamId::all();
        let mut from = None;
        for version in self.run * 1_000_000.. {
            while journal.last().is_none() {
                thread::sleep(Duration::from_millis(1));
            }
            let Some(through) = journal.last() else { return };
            let names = if version % 3 == 0 { 0..3 } else { 0..2 };
            let parts = names
                .map(|name| Part {
                    name: format!("squad-{name}"),
                    bytes: part_bytes(name, version),
                })
                .collect();
            if journal.checkpoint(&all, from, through.number(), parts).is_err() {
                return;
            }
            from = (version % 50 != 0).then_some(through.number());
            tell(&format!("parts {version} {through}\n"));
        }
    }
}

/// Erases over and over, until the journal refuses.
fn erase(journal: &dyn Journal) {
    loop {
        thread::sleep(Duration::from_millis(120));
        let mut change = |placed: &Placed| {
            let goes = placed.entry.body != GONE;
            Ok(goes.then(|| gone(&placed.entry)))
        };
        if journal.revise(&[StreamId(ERASED.into())], &mut change).is_err() {
            return;
        }
    }
}

/// What is left of an entry that was erased.
fn gone(entry: &Entry) -> Entry {
    let key = entry.key.as_ref().map(MessageKey::erased);
    Entry { key, body: GONE.to_vec(), ..entry.clone() }
}

/// A `tell` that prints each line whole and at once on stdout.
pub fn print_line(line: &str) {
    let mut out = io::stdout().lock();
    // With nobody left to read, nothing counts as acknowledged.
    let _ = out.write_all(line.as_bytes()).and_then(|()| out.flush());
}

/// What a check found in order.
#[derive(Debug, Default, Clone, Copy)]
pub struct Verified {
    /// Entries that had been acknowledged.
    pub acknowledged: u64,
    /// Entries in the journal beyond those: written, but not yet told.
    pub untold: u64,
    /// Checkpoints that had been acknowledged.
    pub checkpoints: u64,
}

/// Checks that everything in `lines` is in the journal byte for byte, is found
/// by its key, and that nothing else in it is damaged.
pub fn verify<'a>(
    journal: &dyn Journal,
    lines: impl Iterator<Item = &'a str>,
    long_entries: bool,
) -> Result<Verified, String> {
    let log: Vec<Entry> = journal
        .entries_of(&StreamId::all(), 0)
        .map(|read| read.map(|placed| placed.entry))
        .collect::<Result<_, _>>()
        .map_err(|e| e.to_string())?;
    let mut verified = Verified::default();
    let mut told: Option<(u64, u64)> = None;
    for line in lines {
        let words: Vec<&str> = line.split_ascii_whitespace().collect();
        let number = |at: usize| {
            words.get(at).and_then(|word| word.parse::<u64>().ok()).ok_or(format!("line `{line}`"))
        };
        if words.first() == Some(&"parts") {
            told = told.max(Some((number(1)?, number(2)?)));
            verified.checkpoints += 1;
            continue;
        }
        let (writer, number, place) = (number(1)?, number(2)?, number(3)?);
        let expected = entry(writer, number, long_entries);
        let there = log.get(place as usize - 1);
        let erased = expected.stream.0 == ERASED && there == Some(&gone(&expected));
        let expected = if erased { gone(&expected) } else { expected };
        if there != Some(&expected) {
            return Err(format!(
                "`{line}`: acknowledged, but not in the log of {} entries at its place",
                log.len()
            ));
        }
        match journal.find(&key(writer, number)) {
            Ok(Some(found)) if found.place == Seq::new(place) && found.entry == expected => {
                verified.acknowledged += 1
            }
            other => {
                return Err(format!(
                    "`{line}`: not found by its key: {:?}",
                    other.map(|found| found.map(|it| it.place))
                ));
            }
        }
    }
    verified.untold = log.len() as u64 - verified.acknowledged;
    verify_parts(journal, told)?;
    let checked = journal.check().map_err(|error| error.to_string())?;
    if !checked.is_sound() || checked.entries != log.len() as u64 {
        return Err(format!("the check found {checked:?}"));
    }
    Ok(verified)
}

fn verify_parts(journal: &dyn Journal, told: Option<(u64, u64)>) -> Result<(), String> {
    let snapshot = journal.snapshot(&StreamId::all()).map_err(|error| error.to_string())?;
    let mut versions = Vec::new();
    for (name, part) in (0..).zip(&snapshot.parts) {
        let version = part
            .bytes
            .first_chunk()
            .map(|bytes| u64::from_le_bytes(*bytes))
            .ok_or("a part without a version")?;
        if part.name != format!("squad-{name}") || part.bytes != part_bytes(name, version) {
            return Err(format!("part `{}` is not what was written", part.name));
        }
        versions.push(version);
    }
    if versions.len() >= 2 && versions[0] != versions[1] {
        return Err(format!("a checkpoint is there in part: {versions:?}"));
    }
    let Some((version, through)) = told else { return Ok(()) };
    if versions.first() < Some(&version) || snapshot.through < through {
        return Err(format!(
            "acknowledged version {version} through {through}, found {versions:?} through {:?}",
            snapshot.through
        ));
    }
    Ok(())
}

fn key(writer: u64, number: u64) -> MessageKey {
    MessageKey { channel: format!("writer-{writer}"), id: format!("gw-{number:x}") }
}

fn entry(writer: u64, number: u64, long_entries: bool) -> Entry {
    let mut noise = Noise(writer << 40 ^ number);
    let length = match number {
        number if long_entries && number % 50 == 49 => 200_000,
        number if long_entries && number % 10 == 9 => 5_000 + noise.next() % 15_000,
        _ => 1 + noise.next() % 400,
    };
    let (at, body) =
        (Timestamp::from_second(1_772_400_000).unwrap_or_default(), noise.bytes(length));
    let stream = match number % 20 {
        13 => ERASED.to_owned(),
        _ => format!("s/{}", writer % 7),
    };
    Entry { stream: StreamId(stream), key: Some(key(writer, number)), at, body }
}

/// Lengths differ from one version to the next, so that pieces come and go.
fn part_bytes(name: u64, version: u64) -> Vec<u8> {
    let mut noise = Noise(name << 48 ^ version ^ 0xABCD);
    let length = noise.next() % 60_000;
    [version.to_le_bytes().to_vec(), noise.bytes(length)].concat()
}

/// SplitMix64 (Steele, Lea and Flood 2014), for bytes that don't compress.
struct Noise(u64);

impl Noise {
    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    fn bytes(&mut self, length: u64) -> Vec<u8> {
        let mut bytes: Vec<u8> =
            (0..length.div_ceil(8)).flat_map(|_| self.next().to_le_bytes()).collect();
        bytes.truncate(length as usize);
        bytes
    }
}
