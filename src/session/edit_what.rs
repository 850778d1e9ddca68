//! What becomes of a part of a set that is being swum.

use serde::{Deserialize, Serialize};

use crate::units::{Centis, Equipment, Level, SendOff, Stroke};

/// What becomes of a part of a set, with distances as `Far` and other sets as `Set`:
/// as typed, or as they are swum in one pool.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum EditWhat<Far, Set> {
    /// Left out.
    Drop,
    /// So far instead.
    Distance(Far),
    /// So many instead, in each round.
    Count(u16),
    /// So many more.
    More(u16),
    /// On this send-off.
    SendOff(SendOff),
    /// So many seconds more of send-off, or fewer.
    SendOffBy(i16),
    /// With this much rest.
    Rest(Centis),
    /// In this stroke.
    Stroke(Stroke),
    /// With this kit.
    Kit(Vec<Equipment>),
    /// So hard.
    Level(Level),
    /// This time to hold.
    Target(Centis),
    /// This instead.
    Instead(Set),
    /// This as well, before the swim-down.
    Add(Set),
    /// A pause of so long before what comes next.
    Pause(Centis),
    /// On with what comes next.
    MoveOn,
    /// From here again.
    Restart,
    /// Without the last round.
    SkipRound,
    /// As it was, after a pause.
    Resume,
}

impl<Far, Set> EditWhat<Far, Set> {
    /// The same with its distance and its set as another kind; an error of either is that
    /// of all.
    pub fn try_map<F, S, E>(
        &self,
        far: impl FnOnce(&Far) -> Result<F, E>,
        set: impl FnOnce(&Set) -> Result<S, E>,
    ) -> Result<EditWhat<F, S>, E> {
        Ok(match self {
            Self::Drop => EditWhat::Drop,
            Self::Distance(one) => EditWhat::Distance(far(one)?),
            Self::Count(count) => EditWhat::Count(*count),
            Self::More(more) => EditWhat::More(*more),
            Self::SendOff(on) => EditWhat::SendOff(*on),
            Self::SendOffBy(seconds) => EditWhat::SendOffBy(*seconds),
            Self::Rest(rest) => EditWhat::Rest(*rest),
            Self::Stroke(stroke) => EditWhat::Stroke(*stroke),
            Self::Kit(kit) => EditWhat::Kit(kit.clone()),
            Self::Level(level) => EditWhat::Level(*level),
            Self::Target(time) => EditWhat::Target(*time),
            Self::Instead(one) => EditWhat::Instead(set(one)?),
            Self::Add(one) => EditWhat::Add(set(one)?),
            Self::Pause(time) => EditWhat::Pause(*time),
            Self::MoveOn => EditWhat::MoveOn,
            Self::Restart => EditWhat::Restart,
            Self::SkipRound => EditWhat::SkipRound,
            Self::Resume => EditWhat::Resume,
        })
    }
}
