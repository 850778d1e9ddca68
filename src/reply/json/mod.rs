//! The `result` of an answer, field by field as the outside contract names it.

mod answers;
mod approval;
mod drawn;
mod evening;
mod known;
mod meets;
mod ok;
mod people;
mod result;
mod session;
mod swum;
mod trials;
mod weekly;

pub use result::result;
pub use session::session_json;
