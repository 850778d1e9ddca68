//! What every decision is made with: what is known (`view::View`) and what is done about
//! it (`desk::Desk`); who is meant, which day, what is asked, refused, or written to
//! others. Decides nothing by itself.

pub mod asked;
pub mod asking;
pub mod days;
pub mod decided;
pub mod desk;
pub mod for_deck;
pub mod language;
pub mod letters;
pub mod reasons;
pub mod refusing;
pub mod resolve;
pub mod view;
pub mod who;
