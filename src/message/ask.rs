//! Questions in people's own words.

use serde::{Deserialize, Serialize};

use super::{Day, Question};

/// A question, and what it is about.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Ask {
    /// What it is about.
    pub about: About,
    /// In the sender's words.
    pub text: String,
}

/// What a question is about, as far as we can tell.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum About {
    /// When the next test is due.
    NextTest,
    /// How far was swum, or how often, since a day.
    Swum {
        /// The first day; none for this week.
        since: Option<Day>,
        /// The day behind the last; none for today.
        until: Option<Day>,
    },
    /// What was set on a day.
    SetOf {
        /// Which day.
        on: Option<Day>,
    },
    /// Who is here, or comes, or does not.
    Turnout {
        /// Which night.
        on: Option<Day>,
        /// Those who are not.
        absent: bool,
    },
    /// Where the evening stands: what is on, how much is left, when it ends.
    Standing {
        /// Of which lane.
        lane: Option<u8>,
    },
    /// Who swims in a lane, or in which lane someone does.
    Lane {
        /// Which lane.
        lane: Option<u8>,
    },
    /// When and where the next evening is, or whether it is on.
    Evening {
        /// Which day.
        on: Option<Day>,
    },
    /// The results of a night.
    Results {
        /// Which night.
        on: Option<Day>,
        /// The greatest gains first.
        gains: bool,
    },
    /// Whether what was last sent is stored.
    Stored,
    /// What we are.
    Us,
    /// Whatever its parts say.
    Parts(Box<Question>),
    /// What only a person can answer.
    Other,
}
