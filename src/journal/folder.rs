//! The folder a journal lives in: whose it is, which format it has, and that
//! only one process has it open. Knows nothing of what is written there.
//!
//! It holds `format` (a line of text that says what this is, and which of its
//! kind), `lock`, the log's folder and that of the snapshots. The line is
//! written before those are made and again when they are made, so that a start
//! that was cut off is finished by the next one, while a folder without our line
//! is refused.
//!
//! Snapshots that are to take the first ones' place are written as `sled.draft`.
//! The new name `sled.next` says that they are whole: from that one step on
//! they count, and whoever opens the folder removes the old ones first.

use std::fs::{self, File, TryLockError};
use std::io::{ErrorKind, Write};
use std::path::{Path, PathBuf};
use std::thread;
use std::time::{Duration, Instant};

use super::JournalError;
use crate::digest;

/// The newest format this program knows, and the one it writes.
pub const FORMAT: u32 = 2;

const MARKER: &str = "format";
const LOCK: &str = "lock";
const LOG: &str = "log";
const STORE: &str = "sled";
const HIGH_WATER: &str = "high-water";
/// A log that is to take the first one's place.
pub(super) const NEW_LOG: &str = "log.new";
const DRAFT: &str = "sled.draft";
const NEXT: &str = "sled.next";
const PROBE: &str = "space";
const TITLE: &str = "lapwing journal ";
const UNFINISHED: &str = " unfinished";

/// What is written when a journal opens, and some air. Bytes.
const ROOM_TO_OPEN: usize = 1024 * 1024;

/// How long whoever has the journal open may take to let go: a program that is
/// ending, or a child of one that is about to become another program.
const GRACE: Duration = Duration::from_secs(2);

/// Which journal of all there are: drawn when it is made.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct StoreId(pub [u8; 16]);

impl StoreId {
    /// A new one.
    ///
    /// # Errors
    /// The system has no randomness.
    pub(super) fn draw() -> Result<StoreId, JournalError> {
        let mut bytes = [0; 16];
        getrandom::fill(&mut bytes)
            .map_err(|error| JournalError::Storage(format!("no randomness: {error}")))?;
        Ok(StoreId(bytes))
    }

    fn read(digits: &str) -> Option<StoreId> {
        let number = u128::from_str_radix(digits, 16).ok().filter(|_| digits.len() == 32)?;
        Some(StoreId(number.to_be_bytes()))
    }
}

/// A folder that is ours, held for as long as this lives.
#[derive(Debug)]
pub(super) struct Folder {
    path: PathBuf,
    id: StoreId,
    _lock: File,
}

impl Folder {
    /// Takes the folder, making it if it is not there.
    ///
    /// # Errors
    /// It belongs to something else, to a newer version, or to another process
    /// at this moment; or it can't be read or made.
    pub(super) fn take(path: &Path) -> Result<Self, JournalError> {
        make_private(path)?;
        if read(&path.join(MARKER))?.is_none() {
            refuse_strangers(path)?;
        }
        let lock = lock(path)?;
        // Once more, now that nobody else can be at it.
        let id = match marker(path)? {
            Some((id, _)) => id,
            None => {
                refuse_strangers(path)?;
                let id = StoreId::draw()?;
                write_marker(path, id, UNFINISHED)?;
                id
            }
        };
        let folder = Self { path: path.to_owned(), id, _lock: lock };
        folder.settle()?;
        make_private(&folder.store())?;
        if folder.is_unfinished()? {
            make_private(&folder.log())?;
        }
        Ok(folder)
    }

    /// Takes a folder of which the marker may be gone or damaged: `id_of` tells whose
    /// the files in it are, given what the marker says. It has a marker again once it
    /// is [finished](Self::finish).
    ///
    /// # Errors
    /// Another process has it, a program of another version wrote it, or nothing of a
    /// journal is in it.
    pub(super) fn take_to_mend(
        path: &Path,
        id_of: impl FnOnce(&Path, Option<StoreId>) -> Option<StoreId>,
    ) -> Result<Self, JournalError> {
        let lock = lock(path)?;
        let said = match marker(path) {
            Ok(Some((id, _))) => Some(id),
            Ok(None) | Err(JournalError::NotOurs { .. }) => None,
            Err(error) => return Err(error),
        };
        let nothing = || JournalError::NotOurs {
            folder: path.to_owned(),
            why: "nothing of a journal is in it".to_owned(),
        };
        let id = id_of(path, said).ok_or_else(nothing)?;
        let folder = Self { path: path.to_owned(), id, _lock: lock };
        folder.settle()?;
        Ok(folder)
    }

    /// Where a log is written that is to take the first one's place; nothing is
    /// there yet.
    pub(super) fn new_log(&self) -> Result<PathBuf, JournalError> {
        let path = self.path.join(NEW_LOG);
        remove_folder(&path)?;
        make_private(&path)?;
        Ok(path)
    }

    /// Its path.
    pub(super) fn path(&self) -> &Path {
        &self.path
    }

    /// Which journal it is.
    pub(super) fn id(&self) -> StoreId {
        self.id
    }

    /// Where the log's files are.
    pub(super) fn log(&self) -> PathBuf {
        self.path.join(LOG)
    }

    /// Where it is kept how far the log was acknowledged, unless it is kept
    /// elsewhere.
    pub(super) fn high_water(&self) -> PathBuf {
        high_water(&self.path)
    }

    /// Where a second store is to be written; nothing is there yet.
    pub(super) fn new_draft(&self) -> Result<PathBuf, JournalError> {
        let draft = self.path.join(DRAFT);
        remove_folder(&draft)?;
        make_private(&draft)?;
        Ok(draft)
    }

    /// Puts the draft, which is whole and durable, in the store's place.
    pub(super) fn adopt_draft(&self) -> Result<(), JournalError> {
        let (draft, next) = (self.path.join(DRAFT), self.path.join(NEXT));
        sync_folder(&draft)?;
        fs::rename(&draft, &next).map_err(|error| JournalError::of_file(&next, &error))?;
        sync_folder(&self.path)?;
        self.settle()
    }

    /// Finishes what a cut has left of a change of stores.
    pub(super) fn settle(&self) -> Result<(), JournalError> {
        let next = self.path.join(NEXT);
        if next.is_dir() {
            remove_folder(&self.store())?;
            fs::rename(&next, self.store())
                .map_err(|error| JournalError::of_file(&next, &error))?;
            sync_folder(&self.path)?;
        }
        remove_folder(&self.path.join(DRAFT))
    }

    /// Where the store keeps its files.
    pub(super) fn store(&self) -> PathBuf {
        self.path.join(STORE)
    }

    /// Whether the journal in it has still to be made.
    pub(super) fn is_unfinished(&self) -> Result<bool, JournalError> {
        Ok(marker(&self.path)?.is_none_or(|(_, rest)| rest == UNFINISHED))
    }

    /// Says that the journal in it is made.
    pub(super) fn finish(&self) -> Result<(), JournalError> {
        write_marker(&self.path, self.id, "")
    }

    /// Whether there is room for the store to open, found out by taking it.
    ///
    /// # Errors
    /// [`JournalError::Full`] if there is not.
    pub(super) fn has_room(&self) -> Result<(), JournalError> {
        let path = self.path.join(PROBE);
        let taken = File::create(&path).and_then(|mut file| {
            file.write_all(&vec![0xA5; ROOM_TO_OPEN])?;
            file.sync_all()
        });
        let freed = fs::remove_file(&path);
        taken.and(freed).map_err(|error| JournalError::of_file(&path, &error))
    }
}

/// Where the mark of how far a folder's log was acknowledged is kept, unless elsewhere.
pub(super) fn high_water(folder: &Path) -> PathBuf {
    folder.join(HIGH_WATER)
}

/// Which journal the marker in a folder speaks of, and what follows that; `None`
/// without a marker.
fn marker(folder: &Path) -> Result<Option<(StoreId, String)>, JournalError> {
    let Some(line) = read(&folder.join(MARKER))? else { return Ok(None) };
    let not_ours = || JournalError::NotOurs {
        folder: folder.to_owned(),
        why: format!("its file `{MARKER}` was not written by a journal"),
    };
    let line =
        line.strip_suffix('\n').and_then(|line| line.strip_prefix(TITLE)).ok_or_else(not_ours)?;
    let digits = line.find(' ').unwrap_or(line.len());
    let (number, rest) = line.split_at(digits);
    let found: u32 = number.parse().map_err(|_| not_ours())?;
    if found > FORMAT {
        return Err(JournalError::Newer { folder: folder.to_owned(), found, known: FORMAT });
    }
    if (1..FORMAT).contains(&found) && (rest.is_empty() || rest == UNFINISHED) {
        return Err(JournalError::Older { folder: folder.to_owned(), found, known: FORMAT });
    }
    let (id, rest) =
        rest.strip_prefix(' ').and_then(|rest| rest.split_at_checked(32)).ok_or_else(not_ours)?;
    let id = StoreId::read(id).ok_or_else(not_ours)?;
    if found == 0 || !(rest.is_empty() || rest == UNFINISHED) {
        return Err(not_ours());
    }
    Ok(Some((id, rest.to_owned())))
}

fn write_marker(folder: &Path, id: StoreId, rest: &str) -> Result<(), JournalError> {
    let line = format!("{TITLE}{FORMAT} {}{rest}\n", digest::hex(&id.0));
    replace_file(&folder.join(MARKER), line.as_bytes())
}

/// Writes a file so that after a cut there is either the old one or the new.
pub(super) fn replace_file(path: &Path, bytes: &[u8]) -> Result<(), JournalError> {
    let unfinished = path.with_extension("new");
    File::create(&unfinished)
        .and_then(|mut file| {
            file.write_all(bytes)?;
            file.sync_all()
        })
        .and_then(|()| fs::rename(&unfinished, path))
        .map_err(|error| JournalError::of_file(path, &error))?;
    path.parent().map_or(Ok(()), sync_folder)
}

/// Makes the names of the files in a folder as durable as their contents.
pub(super) fn sync_folder(path: &Path) -> Result<(), JournalError> {
    // On other systems folders can't be opened as files, nor need to be.
    if cfg!(unix) {
        let here = if path.as_os_str().is_empty() { Path::new(".") } else { path };
        File::open(here)
            .and_then(|folder| folder.sync_all())
            .map_err(|error| JournalError::of_file(path, &error))?;
    }
    Ok(())
}

/// Removes a folder and all in it, if it is there.
pub(super) fn remove_folder(path: &Path) -> Result<(), JournalError> {
    match fs::remove_dir_all(path) {
        Err(error) if error.kind() != ErrorKind::NotFound => {
            Err(JournalError::of_file(path, &error))
        }
        _ => Ok(()),
    }
}

/// Makes the folder if need be, its owner's alone; one that is there already
/// is looked at only.
pub(super) fn make_private(path: &Path) -> Result<(), JournalError> {
    if path.is_dir() || path.as_os_str().is_empty() {
        return Ok(());
    }
    // One at a time, so that the name of each is made durable.
    path.parent().map_or(Ok(()), make_private)?;
    #[cfg_attr(not(unix), expect(unused_mut, reason = "rights are set on Unix only"))]
    let mut builder = fs::DirBuilder::new();
    #[cfg(unix)]
    std::os::unix::fs::DirBuilderExt::mode(&mut builder, 0o700);
    builder.create(path).map_err(|error| JournalError::of_file(path, &error))?;
    path.parent().map_or(Ok(()), sync_folder)
}

/// Takes away others' rights to a folder that is known to be ours.
#[cfg(unix)]
fn close_to_others(path: &Path) -> std::io::Result<()> {
    use std::os::unix::fs::PermissionsExt;
    fs::set_permissions(path, fs::Permissions::from_mode(0o700))
}

#[cfg(not(unix))]
fn close_to_others(_: &Path) -> std::io::Result<()> {
    Ok(())
}

fn lock(path: &Path) -> Result<File, JournalError> {
    let place = path.join(LOCK);
    let of_file = |error: &std::io::Error| JournalError::of_file(&place, error);
    let file =
        File::options().create(true).append(true).open(&place).map_err(|error| of_file(&error))?;
    match lock_within(&file, GRACE) {
        Ok(()) => {
            close_to_others(path).map_err(|error| of_file(&error))?;
            Ok(file)
        }
        Err(TryLockError::WouldBlock) => Err(JournalError::Locked(path.to_owned())),
        Err(TryLockError::Error(error)) => Err(of_file(&error)),
    }
}

/// Locks a file, waiting so long for whoever else has it locked.
pub(super) fn lock_within(file: &File, patience: Duration) -> Result<(), TryLockError> {
    let begun = Instant::now();
    loop {
        match file.try_lock() {
            Err(TryLockError::WouldBlock) if begun.elapsed() < patience => {
                thread::sleep(Duration::from_millis(5));
            }
            outcome => return outcome,
        }
    }
}

/// Refuses a folder without our marker that holds anything we would not have
/// written before the marker.
fn refuse_strangers(path: &Path) -> Result<(), JournalError> {
    for file in fs::read_dir(path).map_err(|error| JournalError::of_file(path, &error))? {
        let name = file.map_err(|error| JournalError::of_file(path, &error))?.file_name();
        if name != LOCK && name != "format.new" && name != HIGH_WATER {
            let why = format!("it has no file `{MARKER}`, but holds `{}`", name.to_string_lossy());
            return Err(JournalError::NotOurs { folder: path.to_owned(), why });
        }
    }
    Ok(())
}

fn read(path: &Path) -> Result<Option<String>, JournalError> {
    match fs::read(path) {
        // Bytes that are no text are no marker of ours either, which is for
        // whoever looks at the line to say.
        Ok(bytes) => Ok(Some(String::from_utf8_lossy(&bytes).into_owned())),
        Err(error) if error.kind() == ErrorKind::NotFound => Ok(None),
        Err(error) => Err(JournalError::of_file(path, &error)),
    }
}
