//! What is left out of a session by now, by one swimmer or by the whole squad, and which
//! times of the coach's own hold.

use crate::coaching::{self, OwnTarget};
use crate::desk::decision::view::View;
use crate::history::Swimmer;
use crate::session::{Limit, Session};
use crate::units::Equipment;

impl View<'_> {
    /// A session without what the squad leaves out now. A limit also holds for a set that was
    /// put earlier; once the limit is lifted, that set is whole again.
    pub fn shown(&self, session: &Session) -> Session {
        let limits = self.squad.limits.at(self.now()).map(Vec::as_slice).unwrap_or_default();
        coaching::within(session, limits)
    }

    /// What the whole squad leaves out of `sessions`; what a lane leaves out for
    /// one who swims in it is theirs.
    pub fn left_out_by_squad<'s>(
        &self,
        sessions: impl IntoIterator<Item = &'s Session>,
    ) -> Vec<Limit> {
        let limits = self.squad.limits.at(self.now()).map(Vec::as_slice).unwrap_or_default();
        let left: Vec<Limit> = sessions.into_iter().flat_map(|one| one.without.clone()).collect();
        limits.iter().copied().filter(|limit| left.contains(limit)).collect()
    }

    /// All that a swimmer leaves out: their own, the deck's, the squad's, and the
    /// kit they have not.
    pub fn limits_of(&self, swimmer: &Swimmer) -> Vec<Limit> {
        let (mut limits, kit) = self.said_of(swimmer);
        if let Some(kit) = kit {
            let missing = Equipment::ALL.into_iter().filter(|one| !kit.contains(one));
            limits.extend(missing.map(Limit::Kit));
        }
        limits.extend(self.squad.limits.at(self.now()).into_iter().flatten());
        limits.sort_unstable();
        limits.dedup();
        limits
    }

    /// What was said of them alone: limits, and all the kit they have.
    pub fn said_of(&self, swimmer: &Swimmer) -> (Vec<Limit>, Option<Vec<Equipment>>) {
        let now = self.now();
        let said = [swimmer.limits.at(now), swimmer.deck_limits.at(now)];
        let mut limits: Vec<Limit> = said.into_iter().flatten().flatten().copied().collect();
        limits.sort_unstable();
        limits.dedup();
        (limits, swimmer.kit.at(now).cloned())
    }

    /// The times that the coach set for them and that still hold.
    pub fn own_targets(&self, swimmer: &Swimmer) -> Vec<OwnTarget> {
        swimmer.own_targets_at(self.now())
    }
}
