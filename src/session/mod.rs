//! What is to be swum: a session, its blocks and their repeats, as data with
//! exact sums.
//!
//! Knows nothing of who swims it or why: coaching writes it, a coach's own set
//! in trade notation becomes it, replies word it, `history` keeps it.

mod block;
mod blocks;
mod edit_what;
mod limit;
mod scope;
mod whole;

pub(crate) use block::Extent;
pub use block::{Aim, Block, Cue, Part, Repeat};
pub use blocks::Blocks;
pub use edit_what::EditWhat;
pub use limit::Limit;
pub use scope::Scope;
pub use whole::{LevelShare, Purpose, Session};
