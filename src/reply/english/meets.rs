//! Entries for meets.

use super::English;
use crate::reply::EntryTime;
use crate::reply::phrases::Meets;

impl Meets for English {
    fn no_day_yet(&self) -> &'static str {
        "no day yet"
    }

    fn leg_stored(&self, what: &str, leg: u8) -> String {
        format!("{what}, relay leg {leg}: kept apart, no best and no test.")
    }

    fn legs(&self, list: &str) -> String {
        format!("Relay legs: {list}.")
    }

    fn scratched(&self, what: &str) -> String {
        format!("Scratched: {what}.")
    }

    fn entry_time(
        &self,
        time: &EntryTime,
        shown: &str,
        from: &str,
        day: &str,
        pool: &str,
    ) -> String {
        match time {
            EntryTime::Given(_) => format!("Entry time {shown}, as given."),
            EntryTime::Swum(_) => format!("Entry time {shown}, swum on {day}."),
            EntryTime::Converted { .. } => format!(
                "Entry time about {shown}, an estimate: {from} on {day} in a {pool}, by the club turn rule."
            ),
            EntryTime::Predicted(_) => {
                format!("Entry time about {shown}, an estimate from other distances.")
            }
            EntryTime::None => {
                "No entry time yet: text a test of it, or the time with the entry.".to_owned()
            }
        }
    }

    fn estimated(&self) -> &'static str {
        "est"
    }

    fn no_time(&self) -> &'static str {
        "NT"
    }

    fn nobody_entered(&self) -> &'static str {
        "nobody entered yet."
    }

    fn no_meets(&self) -> &'static str {
        "No meet and no entries yet. Text, say, MEET 20 DEC 25M or ENTRY 100 FREE"
    }
}
