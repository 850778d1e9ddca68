//! What somebody can't or may not do.

use super::English;
use crate::reply::phrases::{Limited, Words};
use crate::session::Limit;

impl Limited for English {
    fn limit(&self, limit: Limit) -> String {
        match limit {
            Limit::Kit(kit) => format!("no {}", self.equipment(kit)),
            Limit::Stroke(stroke) => format!("no {}", self.stroke(stroke)),
            Limit::BreastKick => "no breast kick".to_owned(),
            Limit::Dives => "no dives".to_owned(),
            Limit::TumbleTurns => "no tumble turns".to_owned(),
        }
    }

    fn left_out_by(&self, who: Option<&str>, all: bool, list: &str) -> String {
        match (who, all) {
            (_, true) => format!("For all, until you say OK: {list}."),
            (Some(who), _) => format!("{who}: {list}, in every session until you say OK."),
            (None, _) => format!("Noted: {list}, in every session until you say OK."),
        }
    }

    fn nothing_left_out(&self, who: Option<&str>, all: bool) -> String {
        match (who, all) {
            (_, true) => "For all: nothing is left out any more.".to_owned(),
            (Some(who), _) => format!("{who}: nothing is left out any more."),
            (None, _) => "Nothing is left out any more.".to_owned(),
        }
    }

    fn within(&self, list: &str) -> String {
        format!("Within limits: {list}.")
    }

    fn set_changed_too(&self, day: &str) -> String {
        format!("The set of {day} is changed with it: text tonight.")
    }

    fn holds_for_all(&self, limits: &[Limit]) -> String {
        let list = self.limits(limits);
        let lift = list.replace("no ", "").replace(',', "");
        format!("For all of the squad: {list}. To lift it for all, text: all {lift} ok")
    }

    fn kit_there_is(&self, list: &str) -> String {
        format!("Kit: {list}; no other in your sessions.")
    }
}
