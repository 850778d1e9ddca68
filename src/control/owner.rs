//! This process as the data folder's owner.

use std::path::Path;
use std::sync::Arc;

use tokio::task::{JoinHandle, spawn_blocking};

use super::socket::SocketName;
use super::{Claim, ClaimError, DataFolder, router};
use crate::clock::{ClockMode, WallClock};
use crate::http::{self, Reception};
use crate::journal::{JournalError, SledJournal};
use crate::service::{OpenError, Service};

/// A folder's owner, with its store open.
pub struct Owner {
    service: Arc<Service>,
    folder: DataFolder,
    _claim: Claim,
}

/// Why a folder could not be taken.
#[derive(Debug, thiserror::Error)]
pub enum TakeError {
    /// Another process owns it, or it can't be made.
    #[error(transparent)]
    Claim(#[from] ClaimError),
    /// Its journal can't be opened.
    #[error(transparent)]
    Journal(#[from] JournalError),
    /// What the journal holds can't be made sense of.
    #[error(transparent)]
    Service(#[from] OpenError),
    /// A fault of ours.
    #[error("the store was not opened: {0}")]
    Broken(#[from] tokio::task::JoinError),
}

impl Owner {
    /// Takes the folder and opens its store.
    ///
    /// # Errors
    /// It belongs to another process at the moment, or can't be opened.
    pub async fn take(folder: &DataFolder, mode: ClockMode) -> Result<Owner, TakeError> {
        let folder = folder.clone();
        spawn_blocking(move || {
            let claim = folder.claim()?;
            let service = open_store(&folder.journal(), mode)?;
            Ok(Owner { service, folder, _claim: claim })
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
    pub fn listen(&self, reception: Reception) -> std::io::Result<JoinHandle<()>> {
        let name = SocketName::of(&self.folder)?;
        let listener = name.listen()?;
        Ok(tokio::spawn(async move {
            let (limits, stopping) = (reception.limits(), reception.stopping().clone());
            http::serve(listener, router::router(reception), limits, stopping).await;
            name.remove();
        }))
    }

    /// Lets go of the folder, with all that was begun stored.
    pub async fn close(self) {
        self.service.close().await;
    }
}

fn open_store(journal: &Path, mode: ClockMode) -> Result<Arc<Service>, TakeError> {
    let journal = Arc::new(SledJournal::open(journal)?);
    Ok(Service::open(journal, Arc::new(WallClock), mode)?)
}
