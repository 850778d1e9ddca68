//! One curve a swimmer: what must hold whatever was swum, and how well it tells
//! what comes, beside what was used before it.

mod before;
mod properties;
mod records;
mod simulated;
