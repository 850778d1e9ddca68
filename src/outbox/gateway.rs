//! Letters as the fields of a plain gateway's own address for sending.

use std::fmt;
use std::future::ready;
use std::str::FromStr;

use jiff::Timestamp;
use reqwest::header::{AUTHORIZATION, CONTENT_TYPE};
use reqwest::{Client, RequestBuilder, StatusCode, Url};

use super::{Manner, Request, Returned, Wish};
use crate::hidden::Hidden;
use crate::reply::{Alphabet, alphabet};
use crate::service::Letter;

/// How a plain gateway takes texts.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Gateway {
    /// Where its fields stand.
    pub format: Format,
    /// Its fields by name, in their order.
    pub fields: Vec<(String, Value)>,
    /// The whole `Authorization` header, if it wants one.
    pub authorization: Option<Hidden>,
    /// Words in a refusal (4xx) that mean that the recipient has opted out
    /// there, in lower case.
    pub opted_out: Vec<String>,
}

/// Where the fields stand.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub enum Format {
    /// In the query of a GET.
    Query,
    /// In the body of a POST, as a form.
    #[default]
    Form,
    /// In the body of a POST, as one JSON object of texts.
    Json,
}

/// What a field holds.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Value {
    /// Words with places for the letter's.
    Template(Template),
    /// A password or the like.
    Secret(Hidden),
}

/// Words with places for a letter's: `{to}`, `{digits}`, `{text}`, `{coding}`,
/// `{id}`, `{handle}`. A brace that is none is written twice.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Template(Vec<Piece>);

#[derive(Debug, Clone, PartialEq, Eq)]
enum Piece {
    Words(String),
    Of(Part),
}

/// A part of a letter.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Part {
    /// The recipient's address.
    To,
    /// The address without a leading `+`.
    Digits,
    /// The words.
    Text,
    /// The alphabet that the words need: `0` for GSM 7-bit, `2` for UCS-2, as
    /// gateways number them after the data coding schemes of 3GPP TS 23.038.
    Coding,
    /// The letter's id, the same for each try.
    Id,
    /// What a chat calls the recipient at present.
    Handle,
}

/// Why words are no template.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum NotATemplate {
    /// No such part.
    #[error(
        "there is no {{{0}}}; known: {{to}}, {{digits}}, {{text}}, {{coding}}, {{id}}, {{handle}}"
    )]
    Unknown(String),
    /// A brace stands alone.
    #[error("a brace stands alone; write it twice if it is meant")]
    Brace,
}

/// A word is no format.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
#[error("give query, form or json")]
pub struct NotAFormat;

impl Gateway {
    /// What the fields hold whose words are the same in every letter: in a chat,
    /// the name that we post under is one of them.
    pub fn words(&self) -> Vec<String> {
        let fixed = self.fields.iter().filter_map(|(_, value)| match value {
            Value::Template(Template(pieces)) => match pieces.as_slice() {
                [Piece::Words(words)] => Some(words.clone()),
                _ => None,
            },
            Value::Secret(_) => None,
        });
        fixed.collect()
    }

    /// True if some field holds this part.
    pub fn holds(&self, part: Part) -> bool {
        let pieces = self.fields.iter().flat_map(|(_, value)| match value {
            Value::Template(Template(pieces)) => pieces.as_slice(),
            Value::Secret(_) => &[],
        });
        pieces.into_iter().any(|piece| *piece == Piece::Of(part))
    }
}

impl Manner for Gateway {
    fn request<'a>(
        &'a self,
        http: &'a Client,
        to: &'a Url,
        letter: &'a Letter,
        _now: Timestamp,
    ) -> Request<'a> {
        Box::pin(ready(self.written(http, to, letter)))
    }

    fn wish(&self, status: StatusCode, said: &[u8]) -> Option<Wish> {
        let said = String::from_utf8_lossy(said).to_lowercase();
        let out = self.opted_out.iter().any(|word| said.contains(word));
        (status.is_client_error() && out).then_some(Wish::OptedOut)
    }
}

impl Gateway {
    fn written(
        &self,
        http: &Client,
        to: &Url,
        letter: &Letter,
    ) -> Result<RequestBuilder, Returned> {
        // A chat's webhook without the name would post to a room.
        if self.holds(Part::Handle) && letter.handle.is_none() {
            return Err(Returned::because("the chat has told no name of the recipient"));
        }
        let fields = self.fields.iter().map(|(name, value)| (name.as_str(), value.of(letter)));
        let mut url = to.clone();
        let request = match self.format {
            Format::Query => {
                url.query_pairs_mut().extend_pairs(fields);
                http.get(url)
            }
            Format::Form => {
                let mut form = to.clone();
                form.query_pairs_mut().clear().extend_pairs(fields);
                let form = form.query().unwrap_or_default().to_owned();
                http.post(url).header(CONTENT_TYPE, "application/x-www-form-urlencoded").body(form)
            }
            Format::Json => {
                let object: serde_json::Map<_, _> =
                    fields.map(|(name, value)| (name.to_owned(), value.into())).collect();
                let body = serde_json::to_vec(&object)
                    .map_err(|failed| Returned::because(failed.to_string()))?;
                http.post(url).header(CONTENT_TYPE, "application/json").body(body)
            }
        };
        Ok(match &self.authorization {
            Some(word) => request.header(AUTHORIZATION, word.reveal()),
            None => request,
        })
    }
}

impl Value {
    fn of(&self, letter: &Letter) -> String {
        match self {
            Value::Secret(word) => word.reveal().to_owned(),
            Value::Template(Template(pieces)) => {
                pieces.iter().map(|piece| piece.of(letter)).collect()
            }
        }
    }
}

impl Piece {
    fn of<'a>(&'a self, letter: &'a Letter) -> &'a str {
        let spoken = &letter.spoken;
        match self {
            Piece::Words(words) => words,
            Piece::Of(Part::To) => &spoken.to,
            Piece::Of(Part::Digits) => spoken.to.strip_prefix('+').unwrap_or(&spoken.to),
            Piece::Of(Part::Text) => &spoken.text,
            Piece::Of(Part::Id) => &letter.id,
            Piece::Of(Part::Handle) => letter.handle.as_deref().unwrap_or_default(),
            Piece::Of(Part::Coding) => match alphabet(&spoken.text) {
                Alphabet::Gsm7 => "0",
                Alphabet::Ucs2 => "2",
            },
        }
    }
}

impl FromStr for Template {
    type Err = NotATemplate;

    fn from_str(words: &str) -> Result<Template, NotATemplate> {
        let mut pieces = vec![];
        let mut plain = String::new();
        let mut rest = words;
        while let Some(at) = rest.find(['{', '}']) {
            plain.push_str(&rest[..at]);
            let brace = &rest[at..=at];
            rest = &rest[at + 1..];
            if let Some(after) = rest.strip_prefix(brace) {
                plain.push_str(brace);
                rest = after;
                continue;
            }
            let (name, after) = rest.split_once('}').ok_or(NotATemplate::Brace)?;
            if brace == "}" {
                return Err(NotATemplate::Brace);
            }
            pieces.push(Piece::Words(std::mem::take(&mut plain)));
            pieces.push(Piece::Of(name.parse()?));
            rest = after;
        }
        plain.push_str(rest);
        pieces.push(Piece::Words(plain));
        pieces.retain(|piece| *piece != Piece::Words(String::new()));
        Ok(Template(pieces))
    }
}

impl FromStr for Part {
    type Err = NotATemplate;

    fn from_str(name: &str) -> Result<Part, NotATemplate> {
        match name {
            "to" => Ok(Part::To),
            "digits" => Ok(Part::Digits),
            "text" => Ok(Part::Text),
            "coding" => Ok(Part::Coding),
            "id" => Ok(Part::Id),
            "handle" => Ok(Part::Handle),
            other => Err(NotATemplate::Unknown(other.to_owned())),
        }
    }
}

impl FromStr for Format {
    type Err = NotAFormat;

    fn from_str(word: &str) -> Result<Format, NotAFormat> {
        match word {
            "query" => Ok(Format::Query),
            "form" => Ok(Format::Form),
            "json" => Ok(Format::Json),
            _ => Err(NotAFormat),
        }
    }
}

impl fmt::Display for Part {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(match self {
            Part::To => "{to}",
            Part::Digits => "{digits}",
            Part::Text => "{text}",
            Part::Coding => "{coding}",
            Part::Id => "{id}",
            Part::Handle => "{handle}",
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::service::{Spoken, Via};

    fn letter(text: &str) -> Letter {
        Letter {
            id: "out-1-0-ff".to_owned(),
            written: Timestamp::UNIX_EPOCH,
            spoken: Spoken::alone("+15550101".to_owned(), Via::Outbox, text.to_owned()),
            handle: None,
            answers: false,
        }
    }

    fn gateway(format: Format) -> Gateway {
        let field =
            |name: &str, words: &str| (name.to_owned(), Value::Template(words.parse().unwrap()));
        Gateway {
            format,
            fields: vec![
                field("to", "00{digits}"),
                field("text", "{{Dusk}} {text}"),
                field("coding", "{coding}"),
                ("password".to_owned(), Value::Secret(Hidden::new("plover & 9"))),
            ],
            authorization: Some(Hidden::new("Bearer wren-7")),
            opted_out: vec!["opted out".to_owned()],
        }
    }

    fn request(format: Format, text: &str) -> reqwest::Request {
        let http = crate::tls::client(crate::tls::Trust::None).build().unwrap();
        let url: Url = "http://127.0.0.1:13013/cgi-bin/sendsms?user=a".parse().unwrap();
        let request = gateway(format).written(&http, &url, &letter(text));
        request.unwrap().build().unwrap()
    }

    fn body(request: &reqwest::Request) -> &str {
        std::str::from_utf8(request.body().unwrap().as_bytes().unwrap()).unwrap()
    }

    #[test]
    fn fields_stand_in_the_query_a_form_or_json() {
        let encoded = "to=0015550101&text=%7BDusk%7D+200+%E2%82%AC&coding=0&password=plover+%26+9";
        let query = request(Format::Query, "200 €");
        assert_eq!(query.url().query(), Some(format!("user=a&{encoded}").as_str()));
        assert_eq!(
            (query.method().as_str(), &query.headers()[AUTHORIZATION]),
            ("GET", &"Bearer wren-7".parse().unwrap())
        );
        let form = request(Format::Form, "200 €");
        assert_eq!(
            (form.method().as_str(), form.url().query(), body(&form)),
            ("POST", Some("user=a"), encoded)
        );
        let json = request(Format::Json, "så \"1:23–1:25\"");
        let object: serde_json::Value = serde_json::from_str(body(&json)).unwrap();
        assert_eq!(object["text"], "{Dusk} så \"1:23–1:25\"");
        assert_eq!(object["coding"], "2");
    }

    #[test]
    fn what_is_no_template_is_refused() {
        for (words, why) in [
            ("{tex}", NotATemplate::Unknown("tex".to_owned())),
            ("{text", NotATemplate::Brace),
            ("text}", NotATemplate::Brace),
            ("a}b{text}", NotATemplate::Brace),
        ] {
            assert_eq!(words.parse::<Template>(), Err(why), "{words}");
        }
        assert!(gateway(Format::Form).holds(Part::Text) && !gateway(Format::Form).holds(Part::To));
    }

    #[test]
    fn only_a_refusal_that_says_so_means_opted_out() {
        let wish = |status: u16, said: &str| {
            gateway(Format::Form).wish(StatusCode::from_u16(status).unwrap(), said.as_bytes())
        };
        assert_eq!(wish(400, "Recipient has Opted Out"), Some(Wish::OptedOut));
        assert_eq!(wish(400, "no such number"), None);
        assert_eq!(wish(500, "opted out"), None);
    }
}
