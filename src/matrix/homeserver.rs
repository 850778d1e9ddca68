//! What we ask of the homeserver: to join, who is in a room, a room for two.

use std::collections::HashMap;
use std::error::Error;
use std::sync::Arc;
use std::time::Duration;

use reqwest::{Client, Method, RequestBuilder, StatusCode, Url};
use serde_json::{Map, Value, json};
use tokio::sync::Mutex;

use super::Account;

/// How long one question may take.
const PATIENCE: Duration = Duration::from_secs(10);

/// The account data that clients keep their rooms for two in.
const DIRECT: &str = "m.direct";

/// The homeserver, asked as our account.
pub struct Homeserver {
    http: Client,
    base: Url,
    /// Who we are.
    pub account: Account,
    /// Rooms for two, by the other; held while one is looked for, so that there
    /// is never a second.
    direct: Mutex<HashMap<String, String>>,
}

/// Why a question was not answered.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum Unanswered {
    /// There was no answer; it may come if asked again.
    #[error("the homeserver does not answer: {0}")]
    Away(String),
    /// It says no.
    #[error("the homeserver refuses: {0} {1}")]
    Refused(StatusCode, String),
}

impl Homeserver {
    /// The homeserver at this address.
    pub fn new(http: Client, base: Url, account: Account) -> Arc<Homeserver> {
        Arc::new(Homeserver { http, base, account, direct: Mutex::default() })
    }

    /// Accepts an invitation; again, if it was accepted before.
    ///
    /// # Errors
    /// No answer, or a refusal.
    pub async fn join(&self, room: &str) -> Result<(), Unanswered> {
        self.ask(self.request(Method::POST, &["join", room]).json(&json!({}))).await.map(drop)
    }

    /// True if nobody but we and one other is in the room or invited to it.
    ///
    /// # Errors
    /// No answer, or a refusal: we are not in it.
    pub async fn is_for_two(&self, room: &str) -> Result<bool, Unanswered> {
        let inside = self.inside(room).await?;
        Ok(inside.len() == 2 && inside.contains(&self.account.user_id()))
    }

    /// A room in which only this user hears us: `known`, or another that was
    /// used before, or a new one that the user is invited to.
    ///
    /// # Errors
    /// No answer, or a refusal.
    pub async fn direct_room(&self, user: &str, known: Option<&str>) -> Result<String, Unanswered> {
        let mut direct = self.direct.lock().await;
        let remembered = known.map(str::to_owned).into_iter().chain(direct.get(user).cloned());
        for room in remembered {
            if self.is_ours_and(user, &room).await? {
                return Ok(room);
            }
        }
        let mut kept = self.kept_direct_rooms().await?;
        let rooms = kept.get(user).and_then(Value::as_array).cloned().unwrap_or_default();
        for room in rooms.iter().rev().filter_map(Value::as_str) {
            if self.is_ours_and(user, room).await? {
                direct.insert(user.to_owned(), room.to_owned());
                return Ok(room.to_owned());
            }
        }
        let room = self.open_for_two(user).await?;
        kept.insert(user.to_owned(), rooms.into_iter().chain([room.as_str().into()]).collect());
        self.keep_direct_rooms(&kept).await?;
        direct.insert(user.to_owned(), room.clone());
        Ok(room)
    }

    /// A request to the client API as our account.
    pub(super) fn request(&self, method: Method, path: &[&str]) -> RequestBuilder {
        let mut url = self.base.clone();
        if let Ok(mut segments) = url.path_segments_mut() {
            segments.pop_if_empty().extend(["_matrix", "client", "v3"]).extend(path);
        }
        self.http.request(method, url).bearer_auth(self.account.as_token.reveal())
    }

    async fn is_ours_and(&self, user: &str, room: &str) -> Result<bool, Unanswered> {
        match self.inside(room).await {
            Ok(inside) => {
                let both = [self.account.user_id(), user.to_owned()];
                Ok(inside.len() == 2 && both.iter().all(|one| inside.contains(one)))
            }
            // We are no longer in it.
            Err(Unanswered::Refused(..)) => Ok(false),
            Err(away) => Err(away),
        }
    }

    /// Who is in a room, or invited to it.
    async fn inside(&self, room: &str) -> Result<Vec<String>, Unanswered> {
        let members = self.ask(self.request(Method::GET, &["rooms", room, "members"])).await?;
        let is_inside = |event: &&Value| {
            let membership = event.pointer("/content/membership").and_then(Value::as_str);
            membership.is_some_and(|membership| matches!(membership, "join" | "invite" | "knock"))
        };
        let chunk = members.get("chunk").and_then(Value::as_array);
        let inside = chunk.into_iter().flatten().filter(is_inside);
        Ok(inside.filter_map(|event| Some(event.get("state_key")?.as_str()?.to_owned())).collect())
    }

    async fn open_for_two(&self, user: &str) -> Result<String, Unanswered> {
        let wish = json!({ "preset": "trusted_private_chat", "is_direct": true, "invite": [user] });
        let opened = self.ask(self.request(Method::POST, &["createRoom"]).json(&wish)).await?;
        let room = opened.get("room_id").and_then(Value::as_str).map(str::to_owned);
        room.ok_or_else(|| Unanswered::Away("a new room without an id".to_owned()))
    }

    async fn kept_direct_rooms(&self) -> Result<Map<String, Value>, Unanswered> {
        match self.ask(self.direct_rooms(Method::GET)).await {
            Ok(Value::Object(kept)) => Ok(kept),
            Ok(_) => Ok(Map::new()),
            Err(Unanswered::Refused(StatusCode::NOT_FOUND, _)) => Ok(Map::new()),
            Err(unanswered) => Err(unanswered),
        }
    }

    async fn keep_direct_rooms(&self, kept: &Map<String, Value>) -> Result<(), Unanswered> {
        self.ask(self.direct_rooms(Method::PUT).json(kept)).await.map(drop)
    }

    fn direct_rooms(&self, method: Method) -> RequestBuilder {
        let us = self.account.user_id();
        self.request(method, &["user", &us, "account_data", DIRECT])
    }

    async fn ask(&self, request: RequestBuilder) -> Result<Value, Unanswered> {
        let away = |failed: reqwest::Error| Unanswered::Away(cause(&failed));
        let response = request.timeout(PATIENCE).send().await.map_err(away)?;
        let status = response.status();
        if status.is_success() {
            return response.json().await.map_err(away);
        }
        let said: Value = response.json().await.unwrap_or_default();
        let code = said.get("errcode").and_then(Value::as_str).unwrap_or_default().to_owned();
        match status.is_server_error() || status == StatusCode::TOO_MANY_REQUESTS {
            true => Err(Unanswered::Away(format!("{status} {code}"))),
            false => Err(Unanswered::Refused(status, code)),
        }
    }
}

/// The innermost cause, which names no address.
fn cause(failed: &reqwest::Error) -> String {
    let mut cause: &dyn Error = failed;
    while let Some(inner) = cause.source() {
        cause = inner;
    }
    if failed.is_timeout() { "no answer in time".to_owned() } else { cause.to_string() }
}
