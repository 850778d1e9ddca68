//! The coach's own targets.

use super::Results;
use crate::reply::OwnTargetsReply;

/// What a language says of the coach's own targets.
pub trait OwnTargets: Results {
    /// What someone holds until the next test, and how to take it back.
    fn held_until_test(&self, who: &str, targets: &str) -> String;
    /// All comes from the test again.
    fn tested_again(&self, who: &str, targets: &str) -> String;

    /// What a swimmer is to hold from now on.
    fn set_by_coach(&self, reply: &OwnTargetsReply) -> Vec<String> {
        let who = reply.who.as_str();
        vec![match reply.own.as_slice() {
            [] => self.tested_again(who, &self.targets_line(&reply.tested)),
            own => self.held_until_test(who, &self.targets_line(own)),
        }]
    }
}
