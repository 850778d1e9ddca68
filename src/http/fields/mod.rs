//! The fields of a message and the forms they must have, whichever door they
//! came in by.

use axum::http::StatusCode;
use jiff::Timestamp;
use serde::Deserialize;
use serde::de::IgnoredAny;
use serde_json::Value;
use utoipa::ToSchema;

use super::Problem;

/// The longest id, in characters.
const LONGEST_ID: usize = 256;

/// The longest sender's address, in characters.
const LONGEST_ADDRESS: usize = 128;

/// The longest id of a group chat, in characters. Ours.
const LONGEST_ROOM: usize = 256;

/// What a message says of itself, each field in the form it must have.
#[derive(Debug, Clone, PartialEq, Eq, ToSchema)]
#[schema(as = Message)]
pub struct Fields {
    /// The message's id.
    #[schema(min_length = 1, max_length = 256, pattern = "^[!-\\-/-~]+$")]
    pub id: String,
    /// The sender's address.
    #[schema(min_length = 1, max_length = 128)]
    pub from: String,
    /// The words.
    pub text: String,
    /// The group chat's id, or none in private.
    pub room: Option<String>,
    /// When the sender says it was sent.
    #[schema(value_type = Option<String>, format = DateTime)]
    pub sent_at: Option<Timestamp>,
}

/// A field that is missing or in a form it can't have; it names the field and
/// never repeats what it held.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum NotAField {
    /// It isn't there.
    #[error("`{0}` is missing")]
    Missing(&'static str),
    /// It isn't of the right type.
    #[error("`{0}` must be a string")]
    NotAString(&'static str),
    /// `id` breaks its form.
    #[error("`id` must be 1 to 256 visible ASCII characters without `.`")]
    Id,
    /// `from` breaks its form.
    #[error("`from` must be 1 to 128 visible characters")]
    From,
    /// `room` breaks its form.
    #[error("`room` must be 1 to 256 characters, or null in private")]
    Room,
    /// `sent_at` breaks its form.
    #[error("`sent_at` must be an RFC 3339 date and time")]
    SentAt,
}

impl From<NotAField> for Problem {
    fn from(refusal: NotAField) -> Problem {
        Problem::new(StatusCode::UNPROCESSABLE_ENTITY, refusal.to_string())
    }
}

/// The fields as JSON holds them, of any type; unknown ones are passed over.
#[derive(Deserialize)]
struct Raw {
    #[serde(default)]
    id: Value,
    #[serde(default)]
    from: Value,
    #[serde(default)]
    text: Value,
    #[serde(default)]
    room: Value,
    #[serde(default)]
    sent_at: Value,
}

impl Fields {
    /// The fields of a JSON body whose message id was given as `header_id`.
    ///
    /// What is no JSON at all is found before anything about fields, and an id
    /// that isn't the header's before any field's form.
    ///
    /// # Errors
    /// 400 where it is no JSON or the ids differ, else 422.
    pub fn of_json(body: &[u8], header_id: &[u8]) -> Result<Fields, Problem> {
        let raw = Raw::read(body)?;
        let id = required("id", &raw.id)?;
        if id.as_bytes() != header_id {
            let detail = "`id` and the header webhook-id must be the same";
            return Err(Problem::new(StatusCode::BAD_REQUEST, detail));
        }
        Ok(Fields {
            id: message_id(id)?.to_owned(),
            from: address(required("from", &raw.from)?)?.to_owned(),
            text: required("text", &raw.text)?.to_owned(),
            room: optional("room", &raw.room)?.map(room_id).transpose()?.map(str::to_owned),
            sent_at: optional("sent_at", &raw.sent_at)?.map(instant).transpose()?,
        })
    }
}

impl Raw {
    fn read(body: &[u8]) -> Result<Raw, Problem> {
        let not_json = |detail| Problem::new(StatusCode::BAD_REQUEST, detail);
        let text = std::str::from_utf8(body).map_err(|_| not_json("the body is not UTF-8"))?;
        let _: IgnoredAny =
            serde_json::from_str(text).map_err(|_| not_json("the body is not JSON"))?;
        let unfit = |detail| Problem::new(StatusCode::UNPROCESSABLE_ENTITY, detail);
        if !text.trim_start().starts_with('{') {
            return Err(unfit("the body must be a JSON object"));
        }
        serde_json::from_str(text)
            .map_err(|_| unfit("a field is given twice, or holds what no text can"))
    }
}

fn required<'a>(name: &'static str, value: &'a Value) -> Result<&'a str, NotAField> {
    optional(name, value)?.ok_or(NotAField::Missing(name))
}

fn optional<'a>(name: &'static str, value: &'a Value) -> Result<Option<&'a str>, NotAField> {
    match value {
        Value::Null => Ok(None),
        Value::String(word) => Ok(Some(word)),
        _ => Err(NotAField::NotAString(name)),
    }
}

/// A message's id, if it has the form of one.
///
/// # Errors
/// It hasn't.
pub fn message_id(word: &str) -> Result<&str, NotAField> {
    let visible = |byte: u8| byte.is_ascii_graphic() && byte != b'.';
    let fits = (1..=LONGEST_ID).contains(&word.len()) && word.bytes().all(visible);
    if fits { Ok(word) } else { Err(NotAField::Id) }
}

/// A sender's address, if it has the form of one: characters that can be seen,
/// so that no two addresses look alike by what is hidden in them.
///
/// # Errors
/// It hasn't.
pub fn address(word: &str) -> Result<&str, NotAField> {
    let fits =
        (1..=LONGEST_ADDRESS).contains(&word.chars().count()) && word.chars().all(is_visible);
    if fits { Ok(word) } else { Err(NotAField::From) }
}

/// A group chat's id, if it has the form of one.
///
/// # Errors
/// It hasn't.
pub fn room_id(word: &str) -> Result<&str, NotAField> {
    let fits =
        (1..=LONGEST_ROOM).contains(&word.chars().count()) && !word.chars().any(char::is_control);
    if fits { Ok(word) } else { Err(NotAField::Room) }
}

/// A date and time as RFC 3339 section 5.6 writes it. `jiff` alone would take
/// more: no seconds, a zone in brackets.
fn instant(word: &str) -> Result<Timestamp, NotAField> {
    if is_rfc_3339(word) {
        word.parse().map_err(|_| NotAField::SentAt)
    } else {
        Err(NotAField::SentAt)
    }
}

fn is_rfc_3339(word: &str) -> bool {
    let fits = |piece: &str, shape: &str| {
        piece.len() == shape.len()
            && piece.bytes().zip(shape.bytes()).all(|(byte, form)| match form {
                b'0' => byte.is_ascii_digit(),
                b'T' => matches!(byte, b'T' | b't' | b' '),
                b'+' => matches!(byte, b'+' | b'-'),
                _ => byte == form,
            })
    };
    let Some((seconds, rest)) = word.split_at_checked("0000-00-00T00:00:00".len()) else {
        return false;
    };
    let zone = match rest.strip_prefix('.') {
        Some(rest) => {
            let zone = rest.trim_start_matches(|digit: char| digit.is_ascii_digit());
            if zone.len() == rest.len() { return false } else { zone }
        }
        None => rest,
    };
    fits(seconds, "0000-00-00T00:00:00") && (zone.eq_ignore_ascii_case("Z") || fits(zone, "+00:00"))
}

/// False for white space, controls and characters that take no room: soft
/// hyphen, joiners, direction marks, byte order mark (Unicode category Cf, as
/// far as it is met in addresses).
fn is_visible(letter: char) -> bool {
    !letter.is_whitespace()
        && !letter.is_control()
        && !matches!(letter, '\u{AD}' | '\u{61C}' | '\u{180E}' | '\u{200B}'..='\u{200F}'
            | '\u{202A}'..='\u{202E}' | '\u{2060}'..='\u{206F}' | '\u{FEFF}'
            | '\u{E0000}'..='\u{E007F}')
}

#[cfg(test)]
mod tests;
