//! Who is at the pool, and who comes.

use super::English;
use crate::reply::phrases::{Registers, Words};
use jiff::civil::Date;

impl Registers for English {
    fn comes(&self, coming: bool, on: Date) -> String {
        format!("{} on {}.", if coming { "in" } else { "out" }, self.day(on))
    }

    fn comes_late(&self, minutes: u16, on: Date) -> String {
        format!("in on {}, {minutes} min late.", self.day(on))
    }

    fn comes_perhaps(&self, on: Date) -> String {
        format!("perhaps on {}.", self.day(on))
    }

    fn goes_early(&self, at: &str, on: Date) -> String {
        format!("in on {} until {at}.", self.day(on))
    }

    fn perhaps(&self, number: usize) -> String {
        format!("{number} perhaps")
    }

    fn coming(&self, number: usize) -> String {
        if number == 0 { "nobody in yet".to_owned() } else { format!("{number} in") }
    }

    fn late(&self, number: usize) -> String {
        format!("{number} late")
    }

    fn out(&self, number: usize) -> String {
        format!("{number} out")
    }

    fn unsaid(&self, number: usize) -> String {
        format!("{number} no word")
    }

    fn turnout_heads(&self) -> [&'static str; 3] {
        ["In", "Out", "No word"]
    }

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

    fn not_counted(&self, names: &str) -> String {
        format!("Not counted: {names}. If there: HERE and the name.")
    }

    fn must_not_swim(&self, names: &str, number: usize) -> String {
        let are = if number == 1 { "is" } else { "are" };
        format!("{names} {are} stopped: out of the water until you release by text.")
    }
}
