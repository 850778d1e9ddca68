//! Who swims in which lane, and on which send-offs.

use super::English;
use crate::coaching::lanes::{OneMove, Shortfall};
use crate::reply::phrases::Lanes;

impl Lanes for English {
    fn in_no_lane(&self, names: &str, number: usize) -> String {
        let are = if number == 1 { "is" } else { "are" };
        format!("{names} {are} stopped and in no lane: out of the water until you release by text.")
    }

    fn guessed(&self) -> &'static str {
        "? pace guessed or not known."
    }

    fn moved(&self, moves: &str) -> String {
        format!("Moved: {moves}.")
    }

    fn to_lane(&self, names: &str, lane: &str) -> String {
        format!("{names} to {lane}")
    }

    fn done_today(&self, names: &str, how_many: usize) -> String {
        let are = if how_many == 1 { "is" } else { "are" };
        format!("{names} {are} done for today and in no lane.")
    }

    fn keep_easy(&self, names: &str) -> String {
        format!("Keep it easy for {names}.")
    }

    fn stretched(&self, seconds: u32) -> String {
        format!("Send-offs up to {seconds} s longer, so that all fit behind each other.")
    }

    fn gave_way(&self, shortfall: &Shortfall) -> String {
        match shortfall {
            Shortfall::NoLane { name, lane } => {
                format!("No L{lane} tonight for {name}: placed by pace.")
            }
            Shortfall::TooMany { capacity, .. } => {
                format!("Up to {capacity} in a lane: more than there is good room for.")
            }
            Shortfall::LaneFull { lane, pinned } => {
                format!("You put {pinned} in L{lane}: more than there is good room for.")
            }
            Shortfall::Apart { give_up } => {
                let pairs: Vec<String> =
                    give_up.iter().map(|(one, other)| format!("{one} and {other}")).collect();
                format!("Could not keep apart: {}.", pairs.join("; "))
            }
            Shortfall::Lapped { longest, .. } => {
                format!("Nothing over {longest} in these lanes, or the last is lapped.")
            }
            Shortfall::Room { stretch_s } => self.stretched(*stretch_s),
        }
    }

    fn one_move(&self, one: &OneMove) -> String {
        let (name, lane) = (&one.name, one.to);
        format!("Worth a move: {name} to L{lane} ({name} lane {lane}).")
    }

    fn goes(&self, names: &str, from: Option<&str>, to: Option<&str>) -> String {
        match (from, to) {
            (Some(from), Some(to)) => format!("{names} {from} to {to}"),
            (None, Some(to)) => format!("{names} into {to}"),
            (Some(from), None) => format!("{names} out of {from}"),
            (None, None) => names.to_owned(),
        }
    }

    fn swims_now(&self, lane: &str, line: &str, was: Option<&str>) -> String {
        match was {
            Some(was) => format!("{lane} now {line} (was {was})"),
            None => format!("{lane} now {line}"),
        }
    }

    fn gap_is(&self, seconds: u32) -> String {
        format!("Leave {seconds} s apart.")
    }

    fn share_no_lane(&self, names: &str) -> String {
        format!("Kept apart: {names}.")
    }

    fn as_it_was(&self) -> &'static str {
        "Nothing changes: it is so already."
    }
}
