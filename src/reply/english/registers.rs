//! Who is at the pool.

use super::English;
use crate::reply::phrases::Registers;

impl Registers for English {
    fn here(&self, number: usize) -> String {
        match number {
            0 => "nobody here yet".to_owned(),
            number => format!("{number} here"),
        }
    }

    fn absent(&self, number: usize) -> String {
        format!("{number} absent")
    }

    fn unmarked(&self, number: usize) -> String {
        format!("{number} not marked")
    }

    fn must_not_swim(&self, names: &str, number: usize) -> String {
        let are = if number == 1 { "is" } else { "are" };
        format!("{names} {are} stopped: out of the water until you release by text.")
    }

    fn some_must_not_swim(&self, number: usize) -> String {
        let are = if number == 1 { "is" } else { "are" };
        format!("{number} of those here {are} stopped: text HERE in private to see who.")
    }
}
