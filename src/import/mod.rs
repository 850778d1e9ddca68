//! What people bring along: tables that other programs wrote, read whole or not at
//! all.
//!
//! Knows what a table says and lists all that is wrong in it; not whom a squad knows,
//! nor where the table comes from.

mod fault;
mod list;
mod table;

pub use fault::Fault;
pub use list::{
    List, MEMBERS, MemberBrought, NoSuchList, TESTS, TestBrought, read_members, read_tests,
};
pub use table::{Line, Read};
