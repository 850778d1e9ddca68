//! Lanes beside an enumeration of every split, and cases a coach can check by
//! hand.

mod brute;
mod by_hand;
mod evenings;
mod optimal;
