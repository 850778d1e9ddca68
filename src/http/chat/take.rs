//! Takes one message of a chat server and answers it where it was said.

use std::time::Duration;

use axum::Json;
use axum::extract::rejection::PathRejection;
use axum::extract::{Path, Request, State};
use axum::http::header::CACHE_CONTROL;
use axum::http::request::Parts;
use axum::http::{HeaderMap, StatusCode};
use axum::response::IntoResponse;
use serde_json::{Map, Value, json};
use tokio::time::timeout;

use super::hook::{Chat, Said};
use super::post::Post;
use crate::http::router::{Door, Doorway};
use crate::http::{Problem, ProblemBody, media_type, plain};
use crate::message::{Addressed, addressed, is_bare_answer, without_name};
use crate::service::{Answer, Body, Incoming, Via, WayBack};

/// How long a server waits is 10 s with the least patient of those we know.
const PATIENCE: Duration = Duration::from_secs(9);

/// The longest address, in characters.
const LONGEST_ADDRESS: usize = 128;

/// Takes one message; the body is what is said where it was said, or `{}`.
#[utoipa::path(post, path = "/v1/chat/{name}", tag = "messages",
    params(("name" = String, Path, description = "The chat's name in the settings")),
    request_body(content = Object, description = "A chat server's outgoing webhook: `token`, \
        `text`, `user_id`, `channel_id` and others, as a form or as JSON"),
    responses(
        (status = 200, description = "What is said where it was said, or nothing", body = Object),
        (status = "4XX", description = "Why it was not taken", body = ProblemBody,
            content_type = "application/problem+json"),
        (status = 503, description = "Not stored, send it again", body = ProblemBody,
            content_type = "application/problem+json"),
    ))]
pub async fn take(
    State(door): State<Doorway>,
    name: Result<Path<String>, PathRejection>,
    request: Request,
) -> Result<impl IntoResponse, Problem> {
    let (head, body) = door.read(request).await?;
    let no_such_chat = || Problem::new(StatusCode::NOT_FOUND, "no chat of that name is set up");
    let Path(name) = name.map_err(|_| no_such_chat())?;
    let chat = door.chats.iter().find(|chat| chat.name == name).ok_or_else(no_such_chat)?;
    let post = post(&head, &body)?;
    let said = chat.said(&post.token);
    let said = said.ok_or_else(|| Problem::new(StatusCode::UNAUTHORIZED, "`token` is not ours"))?;
    let thread = post.thread.clone();
    let Some((message, back)) = message(&door, chat, post, said)? else {
        return Ok(answered(json!({})));
    };
    door.admit(&message.from)?;
    let receiving = door.reception.receive_by(message, back);
    let answer = match timeout(PATIENCE, receiving).await {
        Ok(Ok(answer)) => answer,
        // It was edited since: what it said first is what counts.
        Ok(Err(problem)) if problem.status() == StatusCode::CONFLICT => {
            return Ok(answered(json!({})));
        }
        Ok(Err(problem)) => return Err(problem),
        Err(_) => return Err(Problem::unavailable("no answer in time")),
    };
    Ok(answered(reply(&answer, thread)))
}

fn answered(body: Value) -> impl IntoResponse {
    ([(CACHE_CONTROL, "no-store")], Json(body))
}

/// One object that each of the servers finds its answer in.
fn reply(answer: &Answer, thread: Option<(&'static str, String)>) -> Value {
    let here = answer.replies.iter().filter(|reply| reply.via == Via::Answer);
    let text = here.map(|reply| reply.text.as_str()).collect::<Vec<_>>().join("\n");
    if text.is_empty() {
        return json!({});
    }
    let mut reply = json!({ "text": text, "content": text, "response_type": "comment" });
    if let (Some((field, id)), Some(object)) = (thread, reply.as_object_mut()) {
        object.insert(field.to_owned(), id.into());
    }
    reply
}

fn post(head: &Parts, body: &[u8]) -> Result<Post, Problem> {
    let unfit = |why: String| Problem::new(StatusCode::UNPROCESSABLE_ENTITY, why);
    let read = match content(&head.headers)?.as_str() {
        "application/x-www-form-urlencoded" => {
            let text = |bytes: Vec<u8>| String::from_utf8_lossy(&bytes).into_owned();
            Post::of_form(plain::pairs(body).map(|(name, value)| (text(name), text(value))))
        }
        "application/json" => {
            let not_json = |_| Problem::new(StatusCode::BAD_REQUEST, "the body is not JSON");
            match serde_json::from_slice::<Value>(body).map_err(not_json)? {
                Value::Object(fields) => Post::of(fields),
                _ => Post::of(Map::new()),
            }
        }
        _ => return Err(media_type::unsupported("send a form or application/json")),
    };
    read.map_err(|missing| unfit(missing.to_string()))
}

fn content(headers: &HeaderMap) -> Result<String, Problem> {
    Ok(media_type::of(headers)?.map(|stated| stated.essence_str().to_owned()).unwrap_or_default())
}

/// The message to be answered and the way back; none where it is not for us.
fn message(
    door: &Door,
    chat: &Chat,
    post: Post,
    said: Said,
) -> Result<Option<(Incoming, WayBack)>, Problem> {
    // Bots, and ourselves under whatever name the server gives our webhook.
    let ours = post.user_name.as_deref().is_some_and(|name| chat.is_called(name));
    if post.bot || ours || door.reception.has_said(&post.text) {
        return Ok(None);
    }
    let alone = said == Said::Alone || post.alone;
    let nobody = || Problem::new(StatusCode::UNPROCESSABLE_ENTITY, "`user_id` is missing");
    let said = spoken(chat, &post, alone);
    let by_id = post.user_id.as_ref().map(|id| chat.address_of_id(id));
    let by_name = || post.user_name.as_ref().map(|name| chat.address_of_name(name));
    let Some(from) = by_id.or_else(by_name) else {
        return said.map_or(Ok(None), |_| Err(nobody()));
    };
    if from.chars().count() > LONGEST_ADDRESS {
        return Err(Problem::new(StatusCode::UNPROCESSABLE_ENTITY, "`user_id` is too long"));
    }
    let answers = || is_bare_answer(&post.text) && door.reception.is_asked_of_danger(&from);
    let text = said.or_else(|| answers().then(|| post.text.clone()));
    let Some(text) = text else { return Ok(None) };
    let channel = post.channel.as_deref().unwrap_or_default();
    let reached = chat.reaches && post.user_name.is_some();
    let back = WayBack {
        answers: Via::Answer,
        alone: reached.then_some(Via::Outbox),
        handle: post.user_name.clone().filter(|_| chat.reaches),
        thread: post.thread.as_ref().map(|(_, id)| id.clone()),
    };
    let message = Incoming {
        channel: format!("chat/{}", chat.name).into(),
        id: post.id(),
        from,
        room: (!alone).then(|| chat.address(channel)),
        sent_at: post.sent_at,
        body: Body::Text(text),
    };
    Ok(Some((message, back)))
}

/// What was said to us, without our name; none where it is not for us.
fn spoken(chat: &Chat, post: &Post, alone: bool) -> Option<String> {
    let bare = |text: &str| {
        let text = without_name(text, &chat.called).unwrap_or_else(|| text.trim().to_owned());
        if text.is_empty() { "help".to_owned() } else { text }
    };
    if alone {
        return Some(bare(&post.text));
    }
    if let Some(word) = &post.trigger {
        let rest = without_name(&post.text, word);
        return Some(bare(&rest.unwrap_or_else(|| post.text.clone())));
    }
    match addressed(&post.text, &chat.called) {
        Addressed::ToUs(_) => Some(bare(&post.text)),
        Addressed::Overheard => Some(post.text.clone()),
        Addressed::ToOthers => None,
    }
}
