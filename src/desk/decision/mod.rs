//! What every decision is made with: what is known (`view::View`) and what is done about
//! it (`desk::Desk`); who is meant, which day, what is asked, refused, or written to
//! others. Decides nothing by itself.

pub mod asked;
pub mod days;
pub mod decided;
pub mod desk;
pub mod kept_for_why;
pub mod language;
pub mod letters;
pub mod questions_back;
pub mod refusing;
pub mod resolve;
pub mod view;
pub mod who;
pub mod words_for_deck;
