//! The squad's page in a browser, read-only: HTML on the server, one small script
//! of our own that nothing depends on, nothing from elsewhere.
//!
//! Lays out what the desk gathered and decides nothing; every word is the
//! voice's.

mod address;
mod answer;
mod calendar;
mod draw;
mod files;
mod focus;
mod hurting;
mod last_sets;
mod last_tests;
mod layout;
mod live;
mod marks;
mod page;
mod people;
mod policy;
mod poolside;
mod progress;
mod register;
mod set;
mod sheet;
mod squad_page;
mod swimmer_page;
mod todo;
mod weeks;

pub use calendar::{__path_calendar, __path_feed, __path_wish, calendar, feed, wish};
pub use files::{__path_file, __path_own_file, file, own_file};
pub use live::{__path_live, live};
pub use squad_page::{__path_show, show};
pub use swimmer_page::{__path_own, __path_swimmer, own, swimmer};
