//! The squad's page in a browser, read-only: HTML on the server, no scripts,
//! nothing from elsewhere.
//!
//! Lays out what the desk gathered and decides nothing; every word is the
//! voice's.

mod clock;
mod focus;
mod hurting;
mod lanes;
mod layout;
mod paced;
mod page;
mod people;
mod register;
mod serve;
mod style;
mod tested;
mod weeks;

pub use serve::{__path_show, show};
