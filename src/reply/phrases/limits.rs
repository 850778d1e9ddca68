//! What somebody can't or may not do.

use super::Words;
use crate::reply::LimitsReply;
use crate::session::Limit;
use crate::units::Equipment;

/// What a language says of limits.
pub trait Limited: Words {
    /// `no paddles`
    fn limit(&self, limit: Limit) -> String;
    /// Before what is left out by someone, by the squad, or by the sender.
    fn left_out_by(&self, who: Option<&str>, all: bool, list: &str) -> String;
    /// Nothing is left out any more.
    fn nothing_left_out(&self, who: Option<&str>, all: bool) -> String;
    /// All the kit she has.
    fn kit_there_is(&self, list: &str) -> String;

    /// Before what was left out of a session or a set.
    fn within(&self, list: &str) -> String;
    /// The set of a night is another from now on.
    fn set_changed_too(&self, day: &str) -> String;

    /// A limit of the whole squad is lifted for all at once.
    fn holds_for_all(&self, limits: &[Limit]) -> String;

    /// What was left out of a session or a set, if anything.
    fn within_limits(&self, without: &[Limit]) -> Option<String> {
        (!without.is_empty()).then(|| self.within(&self.limits(without)))
    }

    /// What holds from now on.
    fn limited(&self, reply: &LimitsReply) -> Vec<String> {
        let who = reply.who.as_ref().map(crate::message::Name::as_str);
        let mut lines = Vec::new();
        match reply.limits.is_empty() {
            true if reply.kit.is_some() => {}
            true => lines.push(self.nothing_left_out(who, reply.all)),
            false => lines.push(self.left_out_by(who, reply.all, &self.limits(&reply.limits))),
        }
        lines.extend(reply.kit.as_ref().map(|kit| self.kit_there_is(&self.kit(kit))));
        lines.extend(reply.set_changed.map(|on| self.set_changed_too(&self.day(on))));
        lines
    }

    /// `no paddles, no fly`
    fn limits(&self, limits: &[Limit]) -> String {
        limits.iter().map(|limit| self.limit(*limit)).collect::<Vec<_>>().join(", ")
    }

    /// `fins, board`
    fn kit(&self, kit: &[Equipment]) -> String {
        kit.iter().map(|kit| self.equipment(*kit)).collect::<Vec<_>>().join(", ")
    }
}
