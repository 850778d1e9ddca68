//! This process as the data folder's owner.

use std::fs;
use std::io;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use tokio::sync::oneshot;
use tokio::task::{JoinError, JoinHandle, spawn_blocking};

use super::router::{self, Inside};
use super::socket::SocketName;
use super::{Claim, ClaimError, DataFolder, write_private};
use crate::background;
use crate::clock::{ClockMode, WallClock};
use crate::coaching::{BookError, Rulebook};
use crate::http::{self, Reception};
use crate::journal::{
    self, Checked, Copied, Journal, JournalError, PostgresJournal, Repaired, SledJournal, StreamId,
};
use crate::service::{self, OpenError, Service};

/// A folder's owner with its journal open, and no more: for the journal's own
/// upkeep, whatever is in it.
#[derive(Clone)]
pub struct Store {
    journal: Arc<dyn Journal>,
    /// None where a journal in a database is only read.
    claim: Option<Arc<Claim>>,
}

/// What a repair brought about.
#[derive(Debug)]
pub struct Mended {
    /// Of the journal.
    pub repaired: Repaired,
    /// Streams of which some was lost, and of which it is kept what they added up to.
    pub stated: Vec<StreamId>,
}

/// A folder's owner with its service open.
pub struct Owner {
    service: Arc<Service>,
    store: Store,
    folder: DataFolder,
}

/// Why a folder could not be taken, or its journal not be worked on.
#[derive(Debug, thiserror::Error)]
pub enum TakeError {
    /// Another process owns it, or it can't be made.
    #[error(transparent)]
    Claim(#[from] ClaimError),
    /// Its journal failed.
    #[error(transparent)]
    Journal(#[from] JournalError),
    /// What the journal holds can't be made sense of.
    #[error(transparent)]
    Service(#[from] OpenError),
    /// The journal is to be in a database, and there is one in the folder.
    #[error(
        "{} is a journal too: make a backup of it and restore that into the database, or move it \
         away", .0.display()
    )]
    TwoJournals(PathBuf),
    /// The journal is to be in the folder, and was in a database before.
    #[error(
        "the journal of this folder is in {database}: name that with --journal, or remove {} to \
         begin another", note.display()
    )]
    Elsewhere {
        /// Which database.
        database: String,
        /// The file that says so.
        note: PathBuf,
    },
    /// A journal in a database is to be mended.
    #[error(
        "only a journal in a folder can be mended: restore the database from its own copies, or \
         a backup into a new one"
    )]
    NoFolder,
    /// The coach's own rules can't be read.
    #[error("{}: {cause}", file.display())]
    RulesUnread {
        /// Their file.
        file: PathBuf,
        /// Why not.
        cause: io::Error,
    },
    /// The coach's own rules are wrong, on these lines.
    #[error("{}: {}", file.display(), lines(wrong))]
    Rules {
        /// Their file.
        file: PathBuf,
        /// Every line that is wrong.
        wrong: Vec<BookError>,
    },
    /// A fault of ours.
    #[error("the store broke: {0}")]
    Broken(#[from] JoinError),
    /// A fault of ours, beside the messages.
    #[error("the store broke")]
    Panicked,
    /// There is no thread to work with.
    #[error("no thread to work with: {0}")]
    NoThread(io::Error),
}

impl Store {
    /// Takes the folder and opens its journal.
    ///
    /// # Errors
    /// It belongs to another process at the moment, or can't be opened.
    pub async fn take(folder: &DataFolder) -> Result<Store, TakeError> {
        let folder = folder.clone();
        spawn_blocking(move || Store::take_now(&folder)).await?
    }

    /// The same, on this thread.
    fn take_now(folder: &DataFolder) -> Result<Store, TakeError> {
        let claim = Some(Arc::new(folder.claim()?));
        let journal: Arc<dyn Journal> = match folder.database() {
            Some(database) => {
                let second = folder.journal();
                if second.is_dir() {
                    return Err(TakeError::TwoJournals(second));
                }
                let journal = PostgresJournal::open(database.clone(), Arc::new(WallClock))?;
                note_elsewhere(folder, &database.to_string())?;
                Arc::new(journal)
            }
            None => {
                if let Ok(database) = fs::read_to_string(folder.elsewhere()) {
                    let (database, note) = (database.trim().to_owned(), folder.elsewhere());
                    return Err(TakeError::Elsewhere { database, note });
                }
                Arc::new(SledJournal::open_beside(folder.journal(), folder.high_water())?)
            }
        };
        Ok(Store { journal, claim })
    }

    /// Opens its journal to be read: as its owner where the journal is in the folder,
    /// beside whoever writes where it is in a database.
    ///
    /// # Errors
    /// It belongs to another process at the moment, or can't be opened.
    pub async fn take_to_read(folder: &DataFolder) -> Result<Store, TakeError> {
        let Some(database) = folder.database().cloned() else {
            return Store::take(folder).await;
        };
        spawn_blocking(move || {
            let journal = Arc::new(PostgresJournal::open_to_read(database, Arc::new(WallClock))?);
            Ok(Store { journal, claim: None })
        })
        .await?
    }

    /// Takes the folder and mends its journal, with these backups.
    ///
    /// # Errors
    /// It belongs to another process at the moment, or nothing of a journal is in
    /// it.
    pub async fn repair(folder: &DataFolder, from: Vec<PathBuf>) -> Result<Mended, TakeError> {
        if folder.database().is_some() {
            return Err(TakeError::NoFolder);
        }
        let folder = folder.clone();
        let mended = spawn_blocking(move || {
            let _claim = folder.claim()?;
            let mark = folder.high_water();
            let repaired = journal::repair(&folder.journal(), Some(&mark), &from)?;
            let journal = SledJournal::open_beside(folder.journal(), mark)?;
            let stated = service::state_what_was_lost(&journal)?;
            journal.close();
            Ok(Mended { repaired, stated })
        });
        mended.await?
    }

    /// Reads the whole journal, with what it means, and says what is wrong in it.
    ///
    /// # Errors
    /// Nothing could be checked.
    pub async fn check(&self) -> Result<Checked, TakeError> {
        self.work(service::examine).await
    }

    /// Copies the journal into a file.
    ///
    /// # Errors
    /// The journal can't be read or the file can't be written.
    pub async fn backup(&self, to: &Path) -> Result<Copied, TakeError> {
        let to = to.to_owned();
        self.work(move |journal| journal::backup(journal, &to)).await
    }

    /// Fills the journal, which must be empty, from such a file.
    ///
    /// # Errors
    /// It isn't empty, or the file can't be read or isn't whole.
    pub async fn restore(&self, from: &Path) -> Result<Copied, TakeError> {
        let from = from.to_owned();
        self.work(move |journal| journal::restore(&from, journal, &mut service::makes_sense)).await
    }

    /// Lets go of the folder, with all that waits written.
    ///
    /// # Errors
    /// A fault of ours.
    pub async fn close(self) -> Result<(), TakeError> {
        self.work(|journal| {
            journal.close();
            Ok(())
        })
        .await
    }

    async fn work<T: Send + 'static>(
        &self,
        work: impl FnOnce(&dyn Journal) -> Result<T, JournalError> + Send + 'static,
    ) -> Result<T, TakeError> {
        let held = self.clone();
        let (tell, told) = oneshot::channel();
        // Not a thread of the runtime's, which answer requests too.
        let begun = background::begin("store", move || {
            let done = work(held.journal.as_ref());
            // The folder stays ours until the work is done.
            drop(held.claim);
            // Whoever asked may have gone.
            let _ = tell.send(done);
        });
        begun.map_err(TakeError::NoThread)?;
        Ok(told.await.map_err(|_| TakeError::Panicked)??)
    }
}

impl Owner {
    /// Takes the folder and opens its store.
    ///
    /// # Errors
    /// It belongs to another process at the moment, or can't be opened.
    pub async fn take(folder: &DataFolder, mode: ClockMode) -> Result<Owner, TakeError> {
        let folder = folder.clone();
        spawn_blocking(move || {
            let store = Store::take_now(&folder)?;
            let book = rulebook(&folder)?;
            let service = Service::open_by(book, store.journal.clone(), Arc::new(WallClock), mode)?;
            Ok(Owner { service, store, folder })
        })
        .await?
    }

    /// The open service.
    pub fn service(&self) -> &Arc<Service> {
        &self.service
    }

    /// Answers other commands on the control socket until the reception's
    /// token is cancelled, and takes the socket away then.
    ///
    /// # Errors
    /// The socket can't be made.
    pub fn listen(&self, reception: Reception) -> io::Result<JoinHandle<()>> {
        let name = SocketName::of(&self.folder)?;
        let listener = name.listen()?;
        let inside = Inside { reception, store: self.store.clone() };
        Ok(tokio::spawn(async move {
            let (limits, stopping) =
                (inside.reception.limits(), inside.reception.stopping().clone());
            http::serve(listener, router::router(inside), limits, stopping).await;
            name.remove();
        }))
    }

    /// Lets go of the folder, with all that was begun stored.
    pub async fn close(self) {
        self.service.close().await;
    }
}

/// The rules of coaching: the standard ones, or with the numbers of the
/// folder's own file.
///
/// # Errors
/// The file can't be read, or a line of it is wrong.
pub fn rulebook(folder: &DataFolder) -> Result<Rulebook, TakeError> {
    let file = folder.rules();
    match fs::read_to_string(&file) {
        Ok(text) => Rulebook::from_toml(&text).map_err(|wrong| TakeError::Rules { file, wrong }),
        Err(none) if none.kind() == io::ErrorKind::NotFound => Ok(Rulebook::default()),
        Err(cause) => Err(TakeError::RulesUnread { file, cause }),
    }
}

/// Writes down that the journal is in a database.
fn note_elsewhere(folder: &DataFolder, database: &str) -> Result<(), TakeError> {
    let failed = |cause| ClaimError::Io { folder: folder.path().to_owned(), cause };
    Ok(write_private(&folder.elsewhere(), database).map_err(failed)?)
}

fn lines(wrong: &[BookError]) -> String {
    wrong.iter().map(BookError::to_string).collect::<Vec<_>>().join("; ")
}
