//! What comes in: a message from a channel, or a squad from the command line.

use std::borrow::Cow;

use jiff::Timestamp;
use serde::{Deserialize, Serialize};
use sha2::{Digest, Sha256};

use crate::digest;
use crate::units::Course;

/// A message as a channel hands it over, its form already checked there.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Incoming {
    /// Which channel: `messages`, `plain`, `chat`, or a gateway's own. Message
    /// ids are unique within one.
    pub channel: Cow<'static, str>,
    /// The message's id; without one nothing is deduplicated.
    pub id: Option<String>,
    /// The sender's address, opaque.
    pub from: String,
    /// The group chat it was said in, if it wasn't private.
    pub room: Option<String>,
    /// When the sender says it was sent.
    pub sent_at: Option<Timestamp>,
    /// What was said.
    pub body: Body,
}

/// The words of a message.
#[derive(Debug, Clone, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Body {
    /// Text.
    Text(String),
    /// Bytes that are no text in the charset they claim; kept, and answered so.
    NotText(Vec<u8>),
    /// Private words, not kept: their digest, to know a repeat by.
    Withheld(String),
    /// Words that were kept, until their sender wished to be forgotten.
    Erased,
}

impl Body {
    /// The words' digest in place of the words.
    pub(super) fn withheld(&self) -> Body {
        let bytes = match self {
            Body::Text(text) => text.as_bytes(),
            Body::NotText(bytes) => bytes,
            Body::Withheld(_) | Body::Erased => return self.clone(),
        };
        Body::Withheld(digest::hex(&Sha256::digest(bytes)))
    }

    /// True if these were the words, as far as they were kept.
    pub(super) fn is_of(&self, words: &Body) -> bool {
        match self {
            Body::Withheld(_) => *self == words.withheld(),
            kept => kept == words,
        }
    }
}

/// A squad to open.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct NewSquad {
    /// Its name, as shown.
    pub name: String,
    /// The coach's address.
    pub coach: String,
    /// An IANA time zone.
    pub timezone: String,
    /// The pool it swims in.
    pub course: Course,
    /// Days for which the join code works; for ever where none are given.
    pub expires_days: Option<u32>,
    /// Minors swim in it.
    pub minors: bool,
    /// The club has screened its members.
    pub ready: bool,
}

impl NewSquad {
    /// A squad of grown-ups whom the club has screened, in a 25 m pool by UTC; its code
    /// works for ever.
    pub fn of_grown_ups(name: impl Into<String>, coach: impl Into<String>) -> Self {
        Self {
            name: name.into(),
            coach: coach.into(),
            timezone: "UTC".to_owned(),
            course: Course::Short25m,
            expires_days: None,
            minors: false,
            ready: true,
        }
    }
}

/// Who looks after the people of a new squad.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub struct NewSafeguards {
    /// The welfare officer's address; a squad with minors stays closed to
    /// joiners until there is one.
    pub welfare: Option<String>,
    /// The address of who stands in for the welfare officer.
    pub deputy: Option<String>,
    /// Whom to call, as it is to be told.
    pub helpline: Option<String>,
    /// How many years accident and welfare records are kept.
    pub keep_years: Option<u16>,
}

/// A squad to open, and who looks after its people.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Opening {
    /// The squad.
    #[serde(flatten)]
    pub squad: NewSquad,
    /// Who looks after its people.
    #[serde(default)]
    pub safeguards: NewSafeguards,
}

impl From<NewSquad> for Opening {
    fn from(squad: NewSquad) -> Self {
        Self { squad, safeguards: NewSafeguards::default() }
    }
}

/// What opening a squad gives.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct SquadAdded {
    /// The squad's id.
    pub id: String,
    /// The code to join by.
    pub code: String,
}
