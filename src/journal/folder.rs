//! The folder a journal lives in: whose it is, which format it has, and that
//! only one process has it open. Knows nothing of what the store writes there.
//!
//! It holds `format` (a line of text that says what this is), `lock`, and the
//! store's own folder. The line is written before the store is made and again
//! when it is made, so that a start that was cut off is finished by the next
//! one, while a store without our line is refused.
//!
//! A store that is to take the first one's place is written as `sled.draft`.
//! Its new name `sled.next` says that it is whole: from that one step on it is
//! the store, and whoever opens the folder removes the old one first.

use std::fs::{self, File, TryLockError};
use std::io::{ErrorKind, Write};
use std::path::{Path, PathBuf};

use super::JournalError;

/// The newest format this program knows, and the one it writes.
pub(super) const FORMAT: u32 = 1;

const MARKER: &str = "format";
const LOCK: &str = "lock";
const STORE: &str = "sled";
const DRAFT: &str = "sled.draft";
const NEXT: &str = "sled.next";
const PROBE: &str = "space";
const TITLE: &str = "lapwing journal ";
const UNFINISHED: &str = " unfinished";

/// What a store needs to write when it opens: a segment to tidy the end of the
/// log, its index of pages, and some air. Bytes.
const ROOM_TO_OPEN: usize = 2 * 1024 * 1024;

/// A folder that is ours, held for as long as this lives.
#[derive(Debug)]
pub(super) struct Folder {
    path: PathBuf,
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
        let folder = Self { path: path.to_owned(), _lock: lock };
        // Once more, now that nobody else can be at it.
        if folder.marker()?.is_none() {
            refuse_strangers(path)?;
            folder.write_marker(UNFINISHED)?;
        }
        folder.settle()?;
        make_private(&folder.store())?;
        Ok(folder)
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

    /// Whether the store in it has still to be made.
    pub(super) fn is_unfinished(&self) -> Result<bool, JournalError> {
        Ok(self.marker()?.is_none_or(|rest| rest == UNFINISHED))
    }

    /// Says that the store in it is made.
    pub(super) fn finish(&self) -> Result<(), JournalError> {
        self.write_marker("")
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

    /// What follows the format's number in the marker; `None` without one.
    fn marker(&self) -> Result<Option<String>, JournalError> {
        let Some(line) = read(&self.path.join(MARKER))? else { return Ok(None) };
        let not_ours = || JournalError::NotOurs {
            folder: self.path.clone(),
            why: format!("its file `{MARKER}` was not written by a journal"),
        };
        let line = line
            .strip_suffix('\n')
            .and_then(|line| line.strip_prefix(TITLE))
            .ok_or_else(not_ours)?;
        let digits = line.find(' ').unwrap_or(line.len());
        let (number, rest) = line.split_at(digits);
        let found: u32 = number.parse().map_err(|_| not_ours())?;
        if found > FORMAT {
            return Err(JournalError::Newer { folder: self.path.clone(), found, known: FORMAT });
        }
        if found == 0 || !(rest.is_empty() || rest == UNFINISHED) {
            return Err(not_ours());
        }
        Ok(Some(rest.to_owned()))
    }

    fn write_marker(&self, rest: &str) -> Result<(), JournalError> {
        let path = self.path.join(MARKER);
        replace_file(&path, format!("{TITLE}{FORMAT}{rest}\n").as_bytes())
    }
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
fn remove_folder(path: &Path) -> Result<(), JournalError> {
    match fs::remove_dir_all(path) {
        Err(error) if error.kind() != ErrorKind::NotFound => {
            Err(JournalError::of_file(path, &error))
        }
        _ => Ok(()),
    }
}

/// Makes the folder if need be, its owner's alone; one that is there already
/// is looked at only.
fn make_private(path: &Path) -> Result<(), JournalError> {
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
    match file.try_lock() {
        Ok(()) => {
            close_to_others(path).map_err(|error| of_file(&error))?;
            Ok(file)
        }
        Err(TryLockError::WouldBlock) => Err(JournalError::Locked(path.to_owned())),
        Err(TryLockError::Error(error)) => Err(of_file(&error)),
    }
}

/// Refuses a folder without our marker that holds anything we would not have
/// written before the marker.
fn refuse_strangers(path: &Path) -> Result<(), JournalError> {
    for file in fs::read_dir(path).map_err(|error| JournalError::of_file(path, &error))? {
        let name = file.map_err(|error| JournalError::of_file(path, &error))?.file_name();
        if name != LOCK && name != "format.new" {
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
