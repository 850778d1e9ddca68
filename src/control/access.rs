//! How a command gets at a folder: through its owner, if there is one, else as
//! the owner.

use std::path::Path;
use std::time::Duration;

use tokio::time::{Instant, sleep};

use super::{ClaimError, Client, ClientError, DataFolder, Owner, Store, TakeError, Typed};
use crate::clock::ClockMode;
use crate::journal::{Checked, Copied, JournalError};
use crate::service::{
    Answer, Arrived, Bringing, BroughtIn, Failure, LetterNumber, LetterSeen, Managing, OpenError,
    Opening, Showing, Shown, SquadAdded, SquadSeen, Taking, Undelivered, Waiting,
};

/// How long a command waits for another that owns the folder for a moment.
const PATIENCE: Duration = Duration::from_secs(10);

/// How long a server that starts waits for a database that is away (ours: its own start
/// after a crash).
const AWAY: Duration = Duration::from_secs(60);

/// How often it looks.
const PAUSE: Duration = Duration::from_millis(50);

/// Access to a folder.
pub enum Access<Own> {
    /// Through the process that owns it.
    Beside(Client),
    /// As its owner.
    Own(Own),
}

/// Why a folder gave no answer.
#[derive(Debug, thiserror::Error)]
pub enum AccessError {
    /// It could not be taken, or its journal failed.
    #[error(transparent)]
    Take(#[from] TakeError),
    /// Its owner did not do it.
    #[error(transparent)]
    Client(#[from] ClientError),
    /// The service did not do it.
    #[error(transparent)]
    Failure(#[from] Failure),
}

impl<Own> Access<Own> {
    /// Gains access, waiting a little while another command owns the folder.
    async fn gain_by(
        folder: &DataFolder,
        take: impl AsyncFn() -> Result<Own, TakeError>,
    ) -> Result<Access<Own>, AccessError> {
        let deadline = Instant::now() + PATIENCE;
        loop {
            match Client::connect(folder).await {
                Ok(client) => return Ok(Access::Beside(client)),
                // Lost: it was stopping.
                Err(ClientError::Absent | ClientError::Lost(_)) => {}
                Err(other) => return Err(other.into()),
            }
            match take().await {
                Ok(own) => return Ok(Access::Own(own)),
                Err(TakeError::Claim(ClaimError::InUse { .. })) if Instant::now() < deadline => {
                    sleep(PAUSE).await;
                }
                Err(other) => return Err(other.into()),
            }
        }
    }
}

impl Access<Owner> {
    /// Gains access to the squads.
    ///
    /// # Errors
    /// Whoever owns the folder neither answers nor leaves, or it can't be
    /// opened.
    pub async fn gain(folder: &DataFolder, mode: ClockMode) -> Result<Self, AccessError> {
        Access::gain_by(folder, async || Owner::take(folder, mode).await).await
    }

    /// Brings a message.
    ///
    /// # Errors
    /// The owner or the service did not answer it.
    pub async fn receive(&self, typed: Typed) -> Result<Answer, AccessError> {
        match self {
            Access::Beside(client) => Ok(client.receive(&typed).await?),
            Access::Own(owner) => Ok(owner.service().receive(typed.into()).await?),
        }
    }

    /// Opens a squad.
    ///
    /// # Errors
    /// The owner or the service did not do it.
    pub async fn add_squad(&self, squad: Opening) -> Result<SquadAdded, AccessError> {
        match self {
            Access::Beside(client) => Ok(client.add_squad(&squad).await?),
            Access::Own(owner) => Ok(owner.service().add_squad(squad).await?),
        }
    }

    /// Does something with squads as a whole, and gives those that it meant.
    ///
    /// # Errors
    /// The owner or the service did not do it.
    pub async fn manage(&self, managing: Managing) -> Result<Vec<SquadSeen>, AccessError> {
        match self {
            Access::Beside(client) => Ok(client.manage(&managing).await?),
            Access::Own(owner) => Ok(owner.service().manage(managing).await?),
        }
    }

    /// How a text would be read.
    ///
    /// # Errors
    /// The owner or the service did not tell.
    pub async fn shown(&self, showing: &Showing) -> Result<Shown, AccessError> {
        match self {
            Access::Beside(client) => Ok(client.shown(showing).await?),
            Access::Own(owner) => Ok(owner.service().shown(showing)?),
        }
    }

    /// A letter with its words.
    ///
    /// # Errors
    /// The owner or the service did not tell.
    pub async fn letter(&self, number: LetterNumber) -> Result<LetterSeen, AccessError> {
        match self {
            Access::Beside(client) => Ok(client.letter(number).await?),
            Access::Own(owner) => Ok(owner.service().letter_seen(number)?),
        }
    }

    /// The letters that came for somebody.
    ///
    /// # Errors
    /// The owner or the service did not tell.
    pub async fn arrived(&self, waiting: &Waiting) -> Result<Arrived, AccessError> {
        match self {
            Access::Beside(client) => Ok(client.arrived(waiting).await?),
            Access::Own(owner) => Ok(owner.service().arrived(waiting)?),
        }
    }

    /// The letters that are not delivered.
    ///
    /// # Errors
    /// The owner or the service did not tell.
    pub async fn undelivered(&self) -> Result<Vec<Undelivered>, AccessError> {
        match self {
            Access::Beside(client) => Ok(client.undelivered().await?),
            Access::Own(owner) => Ok(owner.service().undelivered()?),
        }
    }

    /// Has one of them tried again, or all; gives how many those are.
    ///
    /// # Errors
    /// The owner or the service did not do it.
    pub async fn retry_letters(&self, letter: Option<LetterNumber>) -> Result<usize, AccessError> {
        match self {
            Access::Beside(client) => Ok(client.retry_letters(letter).await?),
            Access::Own(owner) => Ok(owner.service().retry(letter).await?),
        }
    }

    /// A file to take along.
    ///
    /// # Errors
    /// The owner or the service did not hand it out.
    pub async fn take_along(&self, taking: &Taking) -> Result<String, AccessError> {
        match self {
            Access::Beside(client) => Ok(client.take_along(taking).await?),
            Access::Own(owner) => Ok(owner.service().taken(taking)?),
        }
    }

    /// Brings a table.
    ///
    /// # Errors
    /// The owner or the service did not take it.
    pub async fn bring(&self, bringing: &Bringing) -> Result<BroughtIn, AccessError> {
        match self {
            Access::Beside(client) => Ok(client.bring(bringing).await?),
            Access::Own(owner) => Ok(owner.service().bring(bringing).await?),
        }
    }

    /// Lets go of the folder.
    pub async fn close(self) {
        if let Access::Own(owner) = self {
            owner.close().await;
        }
    }
}

impl Access<Store> {
    /// Gains access to the journal, to read it.
    ///
    /// # Errors
    /// As [`gain`](Access::gain).
    pub async fn gain_store(folder: &DataFolder) -> Result<Self, AccessError> {
        Access::gain_by(folder, async || Store::take_to_read(folder).await).await
    }

    /// Reads the whole journal and says what is wrong in it.
    ///
    /// # Errors
    /// Nothing could be checked.
    pub async fn check(&self) -> Result<Checked, AccessError> {
        match self {
            Access::Beside(client) => Ok(client.check().await?),
            Access::Own(store) => Ok(store.check().await?),
        }
    }

    /// Copies the journal into a file.
    ///
    /// # Errors
    /// The journal can't be read or the file can't be written.
    pub async fn backup(&self, to: &Path) -> Result<Copied, AccessError> {
        match self {
            Access::Beside(client) => Ok(client.backup(to).await?),
            Access::Own(store) => Ok(store.backup(to).await?),
        }
    }
}

/// Becomes the folder's owner, to serve: waits a little for a passing command,
/// but not for another server; and where the journal is in a database, for that.
///
/// # Errors
/// Another process owns the folder, or it can't be opened.
pub async fn own(folder: &DataFolder, mode: ClockMode) -> Result<Owner, TakeError> {
    let (deadline, away) = (Instant::now() + PATIENCE, Instant::now() + AWAY);
    let mut told = false;
    loop {
        match Owner::take(folder, mode).await {
            Err(
                TakeError::Journal(why @ JournalError::Storage(_))
                | TakeError::Service(OpenError::Journal(why @ JournalError::Storage(_))),
            ) if folder.database().is_some() && Instant::now() < away => {
                if !std::mem::replace(&mut told, true) {
                    tracing::warn!(%why, "the journal's database is away: waiting for it");
                }
                sleep(PATIENCE / 10).await;
            }
            Err(TakeError::Claim(in_use @ ClaimError::InUse { .. })) => {
                if Instant::now() >= deadline || Client::connect(folder).await.is_ok() {
                    return Err(in_use.into());
                }
                sleep(PAUSE).await;
            }
            taken => return taken,
        }
    }
}
