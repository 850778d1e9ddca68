//! The coach's own targets.

use crate::reply::{OwnTargetsReply, Voice};

// What is told, and in which order.
impl Voice {
    /// What a swimmer is to hold from now on.
    pub(super) fn set_by_coach(self, reply: &OwnTargetsReply) -> Vec<String> {
        let who = reply.who.as_str();
        vec![match reply.own.as_slice() {
            [] => self.tested_again(who, &self.targets_line(&reply.tested)),
            own => self.held_until_test(who, &self.targets_line(own)),
        }]
    }
}

// In which words.
impl Voice {
    /// What someone holds until the next test, and how to take it back.
    fn held_until_test(self, who: &str, targets: &str) -> String {
        say!(
            self,
            "{who} holds {targets} until the next test. Undo: {who} targets from test.",
            "{who} mantiene {targets} hasta el test siguiente. Deshacer: {who} ritmos del test.",
            [who, targets]
        )
    }

    /// All comes from the test again.
    fn tested_again(self, who: &str, targets: &str) -> String {
        say!(
            self,
            "{who}: targets from the test again: {targets}.",
            "{who}: los ritmos vuelven a salir del test: {targets}.",
            [who, targets]
        )
    }
}
