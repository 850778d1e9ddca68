//! What keeps somebody out of the water.

use super::English;
use crate::message::Name;
use crate::reply::phrases::Gates;

impl Gates for English {
    fn still_ill(&self, who: Option<&Name>) -> String {
        match who {
            None => {
                "You are ill by your own word: no training. Text BETTER when it is over; clear \
                     days follow."
                    .to_owned()
            }
            Some(who) => {
                format!("{who} is ill: no training until it is over, and clear days after.")
            }
        }
    }

    fn still_clearing(&self, who: Option<&Name>, from: &str) -> String {
        match who {
            None => format!("Clear days first: no training before {from}."),
            Some(who) => format!("{who} has clear days first: no training before {from}."),
        }
    }
}
