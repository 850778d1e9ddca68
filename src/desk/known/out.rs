//! What keeps somebody out of the water now, or at easy swims.

use jiff::{Timestamp, ToSpan};

use crate::coaching;
use crate::desk::decision::view::View;
use crate::history::{QuestionKept, Swimmer, TroubleKind};
use crate::message::Name;
use crate::reply::Out;

/// Whole days without training after a sick stomach at the least (public-health notices
/// on pools: 48 hours).
const CLEAR_DAYS_STOMACH: i64 = 2;

impl View<'_> {
    /// What keeps a swimmer out now.
    pub fn out(&self, swimmer: &Swimmer) -> Option<Out> {
        let now = self.now();
        if swimmer.is_stopped(now) {
            return Some(Out::Stopped);
        }
        let ill = |kind: &TroubleKind| matches!(kind, TroubleKind::Ill { .. });
        let mut open = swimmer.open_troubles(now).filter(|kept| ill(&kept.what.kind));
        if open.any(|kept| kept.what.closed.is_none()) {
            return Some(Out::Ill);
        }
        let until = swimmer.clear_until(now)?;
        Some(Out::Clearing(self.squad.local_day(until)))
    }

    /// When the clear days end that begin with a swimmer's `better` now: the open
    /// illness that needs most of them decides. All other illnesses end at once.
    pub fn clear_days(&self, swimmer: &Swimmer) -> Vec<(u64, Timestamp)> {
        let ends = |days: i64| {
            let day = self.today.checked_add((days + 1).days()).ok()?;
            self.squad.zone().to_timestamp(day.at(0, 0, 0, 0)).ok()
        };
        let book = self.asked.book;
        let open = swimmer.open_troubles(self.now()).filter(|kept| kept.what.closed.is_none());
        let clear: Option<(u64, Timestamp)> = open
            .filter_map(|kept| {
                let TroubleKind::Ill { fever, stomach } = kept.what.kind else { return None };
                let days = match (fever, stomach) {
                    (false, true) => coaching::clear_days(book, false).max(CLEAR_DAYS_STOMACH),
                    (fever, _) => coaching::clear_days(book, fever),
                };
                Some((kept.cause, ends(days)?))
            })
            .max_by_key(|(_, until)| *until);
        clear.into_iter().collect()
    }

    /// True if whoever texts for a swimmer was asked whether anybody is in danger,
    /// and has not said, however long ago.
    pub fn is_asked_of_danger(&self, who: &Name) -> bool {
        let address = self.squad.address_of(who);
        address.is_some_and(|address| self.asked_of_danger(address).is_some())
    }

    /// What an address was asked of danger and has not answered.
    pub fn asked_of_danger(&self, address: &str) -> Option<&QuestionKept> {
        let member = self.squad.members.get(address)?;
        member.question.iter().chain(&member.waiting).find(|one| one.asks_of_danger())
    }

    /// True if they may swim hard.
    pub fn is_cleared(&self, swimmer: &Swimmer) -> bool {
        let cleared = || swimmer.readiness.at(self.now()).is_some_and(|ready| ready.cleared);
        // Nobody has asked a guest.
        swimmer.guest.is_none() && (self.squad.ready || cleared())
    }
}
