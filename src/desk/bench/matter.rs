//! What a text is about, as far as it decides who may hear of it.

use crate::message::Kind;

/// What a minor's words are about.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Matter {
    /// What is swum, when, how fast; who comes.
    Swimming,
    /// Pain and illness.
    Body,
    /// Words of danger.
    Danger,
    /// Words of harm or fear, of oneself or by others.
    Harm,
    /// The safe word.
    Worried,
    /// Eating, weight, purging.
    Food,
    /// What is between her and a clinician.
    Clinician,
    /// Opting out and in, help, who she is, who answers for her.
    Address,
    /// What was not read.
    Unread,
}

impl Matter {
    /// Every matter.
    pub const ALL: [Matter; 9] = [
        Matter::Swimming,
        Matter::Body,
        Matter::Danger,
        Matter::Harm,
        Matter::Worried,
        Matter::Food,
        Matter::Clinician,
        Matter::Address,
        Matter::Unread,
    ];

    /// What a statement is about.
    pub fn of(kind: &Kind) -> Matter {
        match kind {
            Kind::Test(_)
            | Kind::TimedTest(_)
            | Kind::SetResult(_)
            | Kind::Done(_)
            | Kind::Missed { .. }
            | Kind::Away { .. }
            | Kind::Plan(_)
            | Kind::Next(_)
            | Kind::Swap { .. }
            | Kind::Shorter
            | Kind::Easier
            | Kind::Harder
            | Kind::Again
            | Kind::More
            | Kind::Targets { .. }
            | Kind::Predict { .. }
            | Kind::Race { .. }
            | Kind::Trend
            | Kind::Best
            | Kind::Log
            | Kind::Tonight
            | Kind::Attend { .. }
            | Kind::Entry(_)
            | Kind::Entries
            | Kind::RelayLeg(_)
            | Kind::Set(_)
            | Kind::Fix(_)
            | Kind::Undo
            | Kind::Why => Matter::Swimming,
            Kind::Pain(_) | Kind::Ill { .. } | Kind::Better => Matter::Body,
            Kind::Faint => Matter::Danger,
            Kind::Welfare => Matter::Harm,
            Kind::Join { .. }
            | Kind::Profile(_)
            | Kind::People(_)
            | Kind::Help { .. }
            | Kind::Stop
            | Kind::Start
            | Kind::Forget => Matter::Address,
            // What only others than a minor say, and words of others' making.
            _ => Matter::Unread,
        }
    }
}
