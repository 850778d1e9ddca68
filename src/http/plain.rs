//! `POST` and `GET /v1/plain/{token}`: the shape of SMS gateways and of a
//! pasted `curl`. Always answers in plain text, its errors too.

use axum::extract::rejection::PathRejection;
use axum::extract::{Path, Request, State};
use axum::http::header::{CACHE_CONTROL, CONTENT_TYPE};
use axum::http::request::Parts;
use axum::http::{Method, StatusCode};
use axum::response::{IntoResponse, Response};
use mime::Mime;
use percent_encoding::percent_decode;
use utoipa::ToSchema;

use super::charset::Charset;
use super::router::{Door, Doorway};
use super::{FieldNames, Inlet, Problem, fields, media_type};
use crate::service::{Answer, Body, Incoming, Via, WayBack};

/// Takes one message in a query.
#[utoipa::path(get, path = "/v1/plain/{token}", tag = "messages",
    params(
        ("token" = String, Path, description = "The gateway's token"),
        ("from" = String, Query, description = "The sender's address"),
        ("text" = String, Query, description = "The words"),
        ("id" = Option<String>, Query, description = "The message's id, to know a repeat by"),
        ("room" = Option<String>, Query, description = "The group chat's id"),
        ("charset" = Option<String>, Query, description = "`UTF-8` or `UTF-16BE`"),
    ),
    responses(
        (status = 200, description = "The reply, or nothing", body = String,
            content_type = "text/plain"),
        (status = "4XX", description = "Why it was not taken", body = String,
            content_type = "text/plain"),
        (status = 503, description = "Not stored, send it again", body = String,
            content_type = "text/plain"),
    ))]
pub async fn get(
    State(door): State<Doorway>,
    token: Result<Path<String>, PathRejection>,
    request: Request,
) -> Response {
    taken(&door, token, request).await
}

/// Takes one message in a form, or as a bare text with the rest in the query.
#[utoipa::path(post, path = "/v1/plain/{token}", tag = "messages",
    params(
        ("token" = String, Path, description = "The gateway's token"),
        ("from" = Option<String>, Query, description = "The sender's address, if not in a form"),
        ("id" = Option<String>, Query, description = "The message's id, to know a repeat by"),
    ),
    request_body(content(
        (PlainForm = "application/x-www-form-urlencoded"),
        (String = "text/plain"),
    )),
    responses(
        (status = 200, description = "The reply, or nothing", body = String,
            content_type = "text/plain"),
        (status = "4XX", description = "Why it was not taken", body = String,
            content_type = "text/plain"),
        (status = 503, description = "Not stored, send it again", body = String,
            content_type = "text/plain"),
    ))]
pub async fn post(
    State(door): State<Doorway>,
    token: Result<Path<String>, PathRejection>,
    request: Request,
) -> Response {
    taken(&door, token, request).await
}

async fn taken(
    door: &Door,
    token: Result<Path<String>, PathRejection>,
    request: Request,
) -> Response {
    match answered(door, token, request).await {
        Ok(answer) => {
            let headers =
                [(CONTENT_TYPE, "text/plain; charset=utf-8"), (CACHE_CONTROL, "no-store")];
            (headers, reply_to_sender(&answer)).into_response()
        }
        Err(problem) => problem.as_text(),
    }
}

async fn answered(
    door: &Door,
    token: Result<Path<String>, PathRejection>,
    request: Request,
) -> Result<Answer, Problem> {
    let (head, body) = door.read(request).await?;
    let inlet = token.ok().and_then(|Path(word)| inlet(door, &word));
    let inlet = inlet.ok_or_else(|| Problem::new(StatusCode::NOT_FOUND, "no such address"))?;
    let message = message(inlet, &head, body)?;
    inlet.admit()?;
    door.admit(&message.from)?;
    // One text goes back, and where a room is named it is for the room.
    let alone = if message.room.is_some() { Via::Outbox } else { Via::Answer };
    let back = WayBack { alone: Some(alone), ..WayBack::default() };
    door.reception.receive_by(message, back).await
}

/// The way in with this token. All are compared, so that the time doesn't tell
/// which it was.
fn inlet<'a>(door: &'a Door, word: &str) -> Option<&'a Inlet> {
    door.inlets
        .iter()
        .fold(None, |found, inlet| if inlet.token.is(word) { Some(inlet) } else { found })
}

/// What is said to the sender, or to the room it was said in.
fn reply_to_sender(answer: &Answer) -> String {
    let said: Vec<&str> = answer
        .replies
        .iter()
        .filter(|reply| reply.via == Via::Answer)
        .map(|reply| reply.text.as_str())
        .collect();
    said.join("\n")
}

fn message(inlet: &Inlet, head: &Parts, body: Vec<u8>) -> Result<Incoming, Problem> {
    let form = Form::gather(head, body)?;
    let names = &inlet.fields;
    let from = form.word(&names.from)?.ok_or_else(|| missing(&names.from))?;
    fields::address(&from).map_err(|unfit| match from.strip_prefix(' ') {
        Some(number) if number.starts_with(|digit: char| digit.is_ascii_digit()) => {
            plus_lost(&names.from)
        }
        _ => Problem::from(unfit),
    })?;
    let id = form.word(&names.id)?.filter(|id| !id.is_empty());
    id.as_deref().map(fields::message_id).transpose()?;
    let room = form.word(&names.room)?.filter(|room| !room.is_empty());
    room.as_deref().map(fields::room_id).transpose()?;
    let (channel, body) = (inlet.channel.clone(), form.text(names)?);
    Ok(Incoming { channel, id, from, room, sent_at: None, body })
}

/// The fields of a form, as a gateway without names of its own calls them.
#[derive(ToSchema)]
#[expect(dead_code, reason = "it only describes the form, which is read as bytes")]
struct PlainForm {
    /// The sender's address.
    from: String,
    /// The words.
    text: String,
    /// The message's id, to know a repeat by.
    id: Option<String>,
    /// The group chat's id.
    room: Option<String>,
    /// `UTF-8` or `UTF-16BE`.
    charset: Option<String>,
}

/// The fields of a form and a query, and a text that stood by itself.
struct Form {
    /// Names and values, percent-decoded and no further; the form's first.
    pairs: Vec<(Vec<u8>, Vec<u8>)>,
    /// The body where it was the text, and the charset it claims.
    bare: Option<(Vec<u8>, Charset)>,
}

impl Form {
    fn gather(head: &Parts, body: Vec<u8>) -> Result<Form, Problem> {
        let query = pairs(head.uri.query().unwrap_or_default().as_bytes());
        if head.method != Method::POST {
            return Ok(Form { pairs: query.collect(), bare: None });
        }
        let stated = media_type::of(&head.headers)?;
        match stated.as_ref().map(Mime::essence_str) {
            Some("application/x-www-form-urlencoded") => {
                Ok(Form { pairs: pairs(&body).chain(query).collect(), bare: None })
            }
            Some("text/plain") => {
                let charset = stated.as_ref().and_then(|stated| stated.get_param("charset"));
                let charset =
                    charset.map_or(Some(Charset::default()), |name| Charset::named(name.as_str()));
                let charset = charset.ok_or_else(unknown_charset)?;
                Ok(Form { pairs: query.collect(), bare: Some((body, charset)) })
            }
            None if body.is_empty() => Ok(Form { pairs: query.collect(), bare: None }),
            _ => Err(media_type::unsupported("send a form or text/plain")),
        }
    }

    /// The value of a field, as it was sent.
    fn value(&self, name: &str) -> Option<&[u8]> {
        let named = self.pairs.iter().find(|(key, _)| key == name.as_bytes());
        named.map(|(_, value)| value.as_slice())
    }

    /// The value of a field that is ASCII in every charset we read.
    fn word(&self, name: &str) -> Result<Option<String>, Problem> {
        let unfit = || {
            let detail = format!("`{name}` is not UTF-8");
            Problem::new(StatusCode::UNPROCESSABLE_ENTITY, detail)
        };
        let value = self.value(name).map(|value| String::from_utf8(value.to_vec()));
        value.transpose().map_err(|_| unfit())
    }

    fn text(&self, names: &FieldNames) -> Result<Body, Problem> {
        let (bytes, charset) = match &self.bare {
            Some((bytes, charset)) => (bytes.as_slice(), *charset),
            None => {
                let charset = self.word(&names.charset)?.filter(|name| !name.is_empty());
                let charset =
                    charset.map_or(Some(Charset::default()), |name| Charset::named(&name));
                let bytes = self.value(&names.text).ok_or_else(|| missing(&names.text))?;
                (bytes, charset.ok_or_else(unknown_charset)?)
            }
        };
        Ok(charset.decode(bytes.to_vec()).map_or_else(Body::NotText, Body::Text))
    }
}

fn missing(name: &str) -> Problem {
    Problem::new(StatusCode::UNPROCESSABLE_ENTITY, format!("`{name}` is missing"))
}

/// The most common slip of whoever writes a URL by hand.
fn plus_lost(name: &str) -> Problem {
    let why = format!(
        "`{name}` begins with a space: in a query or a form a plus is written %2B \
         (curl: --data-urlencode 'from=+…')"
    );
    Problem::new(StatusCode::UNPROCESSABLE_ENTITY, why)
}

fn unknown_charset() -> Problem {
    media_type::unsupported("the charset must be UTF-8 or UTF-16BE")
}

/// The names and values of a form, as bytes: values may be in any charset, so
/// no parser that makes text of them will do.
pub(super) fn pairs(form: &[u8]) -> impl Iterator<Item = (Vec<u8>, Vec<u8>)> {
    let decode = |piece: &[u8]| {
        let spaced: Vec<u8> =
            piece.iter().map(|&byte| if byte == b'+' { b' ' } else { byte }).collect();
        percent_decode(&spaced).collect::<Vec<u8>>()
    };
    form.split(|&byte| byte == b'&').filter(|pair| !pair.is_empty()).map(move |pair| {
        let mut halves = pair.splitn(2, |&byte| byte == b'=');
        let mut half = || decode(halves.next().unwrap_or_default());
        (half(), half())
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_form_is_read_as_bytes() {
        let read: Vec<_> = pairs(b"text=%D8%3C+%00a%2B&&id=&from=a=b&bare").collect();
        let expected: [(&[u8], &[u8]); 4] =
            [(b"text", b"\xD8\x3C \x00a+"), (b"id", b""), (b"from", b"a=b"), (b"bare", b"")];
        assert_eq!(read.len(), expected.len());
        for ((name, value), (expected_name, expected_value)) in read.iter().zip(expected) {
            assert_eq!((name.as_slice(), value.as_slice()), (expected_name, expected_value));
        }
    }
}
