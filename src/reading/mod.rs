//! How a text is understood: tokens, pieces, frames, readings, decision.
//!
//! Knows text and the situation it was sent in, and nothing of what is stored.

mod again;
mod ailments;
mod amend_pieces;
mod decide;
mod fallback;
mod follow;
pub mod frame;
mod gist;
pub mod health;
pub mod lex;
pub mod lexicon;
pub mod likely;
mod otherwise;
mod passed_over;
pub mod piece;
mod rank;
mod read;
mod related_kinds;
pub mod situation;
mod together;
mod told_beside;
mod trace;
mod unexplained;
mod unlikely;

pub use again::again;
pub use decide::Decision;
pub use fallback::Aside;
pub use rank::{Part, Ranked};
pub use read::{aside, doubts, guess, in_its_pieces, language_of, read, read_typed, tells};
pub use situation::Situation;
pub use trace::{
    AnswerSeen, DecisionSeen, Fragment, Likely, ReadingSeen, Stretch, TokenSeen, Trace, trace,
};
