//! The data folder: what lies where in it, who owns it at the moment, and which
//! database holds the journal, where it is not in the folder.

use std::fs::{self, DirBuilder, File, OpenOptions, TryLockError};
use std::io::{self, Read, Seek, Write};
use std::os::unix::fs::{DirBuilderExt, OpenOptionsExt, PermissionsExt};
use std::path::{Path, PathBuf};

use crate::journal::DatabaseUrl;

/// A folder that holds one Lapwing's data, made or not; the journal may be in a
/// database instead, and then it holds only what one machine needs.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct DataFolder {
    path: PathBuf,
    database: Option<DatabaseUrl>,
}

/// Ownership of a data folder, until dropped or the process ends, however it
/// ends: the system lets go of the lock.
#[derive(Debug)]
pub struct Claim(#[expect(dead_code, reason = "holds the lock")] File);

/// Why a folder could not be claimed.
#[derive(Debug, thiserror::Error)]
pub enum ClaimError {
    /// Another process owns it.
    #[error("{} is in use by {owner}: stop that first, or name another folder with --data", folder.display())]
    InUse {
        /// Which folder.
        folder: PathBuf,
        /// Who owns it, as far as it said so.
        owner: String,
    },
    /// It can't be made or written.
    #[error("{}: {cause}", folder.display())]
    Io {
        /// Which folder.
        folder: PathBuf,
        /// Why not.
        cause: io::Error,
    },
}

impl DataFolder {
    /// The folder at this path, with the journal in it.
    pub fn new(path: impl Into<PathBuf>) -> DataFolder {
        DataFolder { path: path.into(), database: None }
    }

    /// The same folder, with the journal in a database.
    #[must_use]
    pub fn with_database(self, database: Option<DatabaseUrl>) -> DataFolder {
        DataFolder { database, ..self }
    }

    /// Its path.
    pub fn path(&self) -> &Path {
        &self.path
    }

    /// The database that holds the journal, where the folder doesn't.
    pub fn database(&self) -> Option<&DatabaseUrl> {
        self.database.as_ref()
    }

    /// Where the journal is, for people.
    pub fn shown(&self) -> String {
        match &self.database {
            Some(database) => database.to_string(),
            None => self.path.display().to_string(),
        }
    }

    /// What says which database held the journal when it was last opened from here: so
    /// that nobody begins a second history by leaving the database out.
    pub(super) fn elsewhere(&self) -> PathBuf {
        self.path.join("journal-is-elsewhere")
    }

    /// Whether a journal is known here: in a database, in the folder, or in the database
    /// that held it when it was last opened from here.
    pub fn knows_a_journal(&self) -> bool {
        self.database.is_some() || self.journal().is_dir() || self.elsewhere().is_file()
    }

    /// Where the journal keeps its files.
    pub fn journal(&self) -> PathBuf {
        self.path.join("journal")
    }

    /// Where it is kept how far the journal was acknowledged: beside the journal, so
    /// that what happens to the one does not happen to the other.
    pub fn high_water(&self) -> PathBuf {
        self.path.join("high-water")
    }

    /// The coach's own numbers for the rules of coaching, if there are any.
    pub fn rules(&self) -> PathBuf {
        self.path().join("rules.toml")
    }

    /// Where a secret that we made is kept.
    pub fn secret(&self) -> PathBuf {
        self.path.join("secret")
    }

    /// Where a secret that we made to sign letters with is kept.
    pub fn outbox_secret(&self) -> PathBuf {
        self.path.join("outbox-secret")
    }

    /// Where a plain gateway's token that we made is kept.
    pub fn plain_token(&self) -> PathBuf {
        self.path.join("plain-token")
    }

    /// Where `lapwing chat` keeps the lines that were typed.
    pub fn chat_history(&self) -> PathBuf {
        self.path.join("chat-history")
    }

    /// What marks the folder as a demo's, and how far that demo is.
    pub fn demo(&self) -> PathBuf {
        self.path.join("demo")
    }

    /// Makes it, for its owner alone, unless it is there.
    ///
    /// # Errors
    /// It can't be made, or something else bears its name.
    pub fn make(&self) -> io::Result<()> {
        DirBuilder::new().recursive(true).mode(0o700).create(&self.path)
    }

    /// Its rights, where they let others in.
    pub fn loose_rights(&self) -> Option<u32> {
        let rights = fs::metadata(&self.path).ok()?.permissions().mode() & 0o777;
        Some(rights).filter(|rights| rights & 0o077 != 0)
    }

    /// Claims it for this process, and makes it first if need be.
    ///
    /// # Errors
    /// Another process owns it, or it can't be made or written.
    pub fn claim(&self) -> Result<Claim, ClaimError> {
        let failed = |cause| ClaimError::Io { folder: self.path.clone(), cause };
        self.make().map_err(failed)?;
        if let Some(loose) = self.loose_rights() {
            tracing::warn!(
                folder = %self.path.display(),
                rights = %format_args!("{loose:03o}"),
                "others may look into the data folder, where people's messages are: chmod 700"
            );
        }
        let mut lock = OpenOptions::new()
            .read(true)
            .write(true)
            .create(true)
            .truncate(false)
            .mode(0o600)
            .open(self.path.join("lock"))
            .map_err(failed)?;
        match lock.try_lock() {
            Ok(()) => {}
            Err(TryLockError::Error(cause)) => return Err(failed(cause)),
            Err(TryLockError::WouldBlock) => {
                let mut owner = String::new();
                let told = lock.read_to_string(&mut owner).is_ok() && !owner.is_empty();
                let owner =
                    if told { format!("process {owner}") } else { "another process".into() };
                return Err(ClaimError::InUse { folder: self.path.clone(), owner });
            }
        }
        lock.set_len(0).and_then(|()| lock.rewind()).map_err(failed)?;
        write!(lock, "{}", std::process::id()).map_err(failed)?;
        Ok(Claim(lock))
    }
}

/// Writes a file that only its owner may read, whole or not at all.
///
/// # Errors
/// It can't be written.
pub fn write_private(path: &Path, words: &str) -> io::Result<()> {
    let draft = path.with_extension("new");
    // A draft may be left from a process that was killed.
    match fs::remove_file(&draft) {
        Err(gone) if gone.kind() != io::ErrorKind::NotFound => return Err(gone),
        _ => {}
    }
    let mut file = OpenOptions::new().write(true).create_new(true).mode(0o600).open(&draft)?;
    writeln!(file, "{words}")?;
    file.sync_all()?;
    fs::rename(&draft, path)?;
    let folder = path.parent().filter(|folder| !folder.as_os_str().is_empty());
    File::open(folder.unwrap_or(Path::new(".")))?.sync_all()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_folder_has_one_owner_at_a_time() {
        let dir = tempfile::tempdir().unwrap();
        let folder = DataFolder::new(dir.path().join("a/b"));
        let claim = folder.claim().unwrap();
        let refused = folder.claim().unwrap_err();
        let own = format!("process {}", std::process::id());
        assert!(matches!(&refused, ClaimError::InUse { owner, .. } if *owner == own), "{refused}");
        drop(claim);
        folder.claim().unwrap();
    }

    #[test]
    fn a_folder_that_others_may_look_into_is_told() {
        let dir = tempfile::tempdir().unwrap();
        let folder = DataFolder::new(dir.path().join("data"));
        folder.make().unwrap();
        assert_eq!(folder.loose_rights(), None);
        fs::set_permissions(folder.path(), fs::Permissions::from_mode(0o755)).unwrap();
        assert_eq!(folder.loose_rights(), Some(0o755));
    }

    #[test]
    fn what_is_private_is_for_the_owner_alone() {
        let dir = tempfile::tempdir().unwrap();
        let folder = DataFolder::new(dir.path().join("data"));
        folder.make().unwrap();
        let mode = |path: &Path| fs::metadata(path).unwrap().permissions().mode() & 0o777;
        assert_eq!(mode(folder.path()) & 0o077, 0);
        for words in ["one", "two"] {
            write_private(&folder.secret(), words).unwrap();
            assert_eq!(fs::read_to_string(folder.secret()).unwrap(), format!("{words}\n"));
            assert_eq!(mode(&folder.secret()), 0o600);
        }
    }
}
