//! The other end of the control socket.

use std::fmt::Display;
use std::path::Path;
use std::time::Duration;

use reqwest::StatusCode;
use serde::Serialize;
use serde::de::DeserializeOwned;

use super::router::BackupTo;
use super::socket::SocketName;
use super::{DataFolder, Typed, router};
use crate::http::ProblemBody;
use crate::journal::{Checked, Copied};
use crate::service::{
    Answer, Arrived, Bringing, BroughtIn, LetterNumber, LetterSeen, Managing, Opening, Showing,
    Shown, SquadAdded, SquadSeen, Taking, Undelivered, Waiting,
};
use crate::tls::{self, Trust};

/// How long an owner may take to say that it is there.
const HEALTH_PATIENCE: Duration = Duration::from_secs(5);

/// How long it may take for anything else: longer than it gives itself.
const PATIENCE: Duration = Duration::from_secs(30);

/// How long it may take to read the whole journal.
const UPKEEP_PATIENCE: Duration = Duration::from_secs(3600);

/// A way to the process that owns a data folder.
#[derive(Debug)]
pub struct Client {
    http: reqwest::Client,
    /// Keeps the socket's name good.
    _name: SocketName,
}

/// Why the owner did not do what was asked.
#[derive(Debug, thiserror::Error)]
pub enum ClientError {
    /// Nobody is at the other end: nothing was sent.
    #[error("no server answers on the control socket")]
    Absent,
    /// It was lost in the middle; what was asked may be done or not.
    #[error("the server was lost before it answered: {0}")]
    Lost(#[source] reqwest::Error),
    /// It answered with a refusal.
    #[error("{0}")]
    Refused(String),
    /// This process can't make a client.
    #[error("no client for the control socket: {0}")]
    Unable(String),
}

impl Client {
    /// A client of the folder's owner, which has just answered.
    ///
    /// # Errors
    /// Nobody listens, or whoever does doesn't answer.
    pub async fn connect(folder: &DataFolder) -> Result<Client, ClientError> {
        if !folder.path().is_dir() {
            return Err(ClientError::Absent);
        }
        let name = SocketName::of(folder).map_err(|failed| unable(&failed))?;
        let http = tls::client(Trust::None)
            .unix_socket(name.path())
            .no_proxy()
            .build()
            .map_err(|failed| unable(&failed))?;
        let client = Client { http, _name: name };
        let asked = client.http.get(url(router::HEALTH)).timeout(HEALTH_PATIENCE);
        let _: serde_json::Value = answered(asked).await?;
        Ok(client)
    }

    /// Brings a message.
    ///
    /// # Errors
    /// The owner is gone, or refused it.
    pub async fn receive(&self, typed: &Typed) -> Result<Answer, ClientError> {
        self.post(router::MESSAGES, typed, PATIENCE).await
    }

    /// Opens a squad.
    ///
    /// # Errors
    /// The owner is gone, or refused it.
    pub async fn add_squad(&self, squad: &Opening) -> Result<SquadAdded, ClientError> {
        self.post(router::SQUADS, squad, PATIENCE).await
    }

    /// Does something with squads as a whole.
    ///
    /// # Errors
    /// The owner is gone, or refused it.
    pub async fn manage(&self, managing: &Managing) -> Result<Vec<SquadSeen>, ClientError> {
        self.post(router::MANAGE, managing, PATIENCE).await
    }

    /// How a text would be read.
    ///
    /// # Errors
    /// The owner is gone, or refused it.
    pub async fn shown(&self, showing: &Showing) -> Result<Shown, ClientError> {
        self.post(router::READ, showing, PATIENCE).await
    }

    /// A letter with its words.
    ///
    /// # Errors
    /// The owner is gone, or there is no such letter.
    pub async fn letter(&self, number: LetterNumber) -> Result<LetterSeen, ClientError> {
        self.post(router::LETTER, &number, PATIENCE).await
    }

    /// The letters that came for somebody.
    ///
    /// # Errors
    /// The owner is gone, or can't tell.
    pub async fn arrived(&self, waiting: &Waiting) -> Result<Arrived, ClientError> {
        self.post(router::ARRIVED, waiting, PATIENCE).await
    }

    /// The letters that are not delivered.
    ///
    /// # Errors
    /// The owner is gone, or can't tell.
    pub async fn undelivered(&self) -> Result<Vec<Undelivered>, ClientError> {
        self.post(router::OUTBOX, &(), PATIENCE).await
    }

    /// Has one of them tried again, or all; gives how many those are.
    ///
    /// # Errors
    /// The owner is gone, or refused it.
    pub async fn retry_letters(&self, letter: Option<LetterNumber>) -> Result<usize, ClientError> {
        self.post(router::OUTBOX_RETRY, &letter, PATIENCE).await
    }

    /// A file to take along.
    ///
    /// # Errors
    /// The owner is gone, or refused it.
    pub async fn take_along(&self, taking: &Taking) -> Result<String, ClientError> {
        self.post(router::TAKE, taking, PATIENCE).await
    }

    /// Brings a table.
    ///
    /// # Errors
    /// The owner is gone, or refused it.
    pub async fn bring(&self, bringing: &Bringing) -> Result<BroughtIn, ClientError> {
        self.post(router::BRING, bringing, PATIENCE).await
    }

    /// Has the journal checked.
    ///
    /// # Errors
    /// The owner is gone, or nothing could be checked.
    pub async fn check(&self) -> Result<Checked, ClientError> {
        self.post(router::CHECK, &(), UPKEEP_PATIENCE).await
    }

    /// Has the journal copied into a file.
    ///
    /// # Errors
    /// The owner is gone, or the file can't be written.
    pub async fn backup(&self, to: &Path) -> Result<Copied, ClientError> {
        let to = std::path::absolute(to).map_err(|failed| unable(&failed))?;
        self.post(router::BACKUP, &BackupTo { to }, UPKEEP_PATIENCE).await
    }

    async fn post<T: DeserializeOwned>(
        &self,
        path: &str,
        body: &impl Serialize,
        patience: Duration,
    ) -> Result<T, ClientError> {
        answered(self.http.post(url(path)).json(body).timeout(patience)).await
    }
}

fn unable(why: &dyn Display) -> ClientError {
    ClientError::Unable(why.to_string())
}

/// The host is never looked up.
fn url(path: &str) -> String {
    format!("http://lapwing{path}")
}

async fn answered<T: DeserializeOwned>(request: reqwest::RequestBuilder) -> Result<T, ClientError> {
    let response = request.send().await.map_err(|failed| {
        if failed.is_connect() { ClientError::Absent } else { ClientError::Lost(failed) }
    })?;
    if response.status() == StatusCode::OK {
        return response.json().await.map_err(ClientError::Lost);
    }
    let status = response.status();
    let problem = response.json::<ProblemBody>().await;
    Err(ClientError::Refused(problem.map_or_else(|_| status.to_string(), |told| told.detail)))
}
