//! Who comes, who goes, who runs the squad.

use crate::message::Name;
use crate::profile::{Invitation, Role};
use crate::reply::Belonging;

/// What a language says of those who belong.
pub trait Belongings {
    /// What was done.
    fn belongs(&self, done: &Belonging) -> String;
    /// The one text to someone who is asked in: by whom, as what, how to answer.
    fn invitation(
        &self,
        squad: &str,
        code: &str,
        by: Option<&Name>,
        invitation: &Invitation,
    ) -> String;
    /// To the coach: someone asked in has come.
    fn has_come(&self, name: Option<&Name>, role: Role) -> String;
    /// To the new coach.
    fn now_coach(&self, squad: &str) -> String;
    /// A role, as it stands in a sentence.
    fn role(&self, role: Role) -> &'static str;
    /// Behind a guest's name: that she is one, and what her pace may be.
    fn guest(&self, pace: Option<&str>) -> String;
}
