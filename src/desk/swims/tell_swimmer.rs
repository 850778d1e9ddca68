//! What swimmers hear when a coach texts their sets: what they would have heard had
//! they texted them.
//!
//! Only about the squad's set of the night, and one such text a day, as nobody asked for it.

use crate::desk::decision::desk::Desk;
use crate::desk::decision::view::View;
use crate::history::{Event, SaidAt, Unasked};
use crate::language::Language;
use crate::reply::{self, Outcome, SetReply};

/// How many SMS parts it may have.
const PARTS: usize = 2;

impl Desk<'_> {
    /// Writes to each whose set a text of somebody else's told.
    pub fn advise(&mut self, outcome: &Outcome) {
        match outcome {
            Outcome::Captured(several) | Outcome::Mixed(several) => {
                several.iter().for_each(|one| self.advise(one));
            }
            Outcome::Set(set) if set.other && set.lane.is_some() && !set.repeat => {
                self.advise_one(set);
            }
            _ => {}
        }
    }

    fn advise_one(&mut self, set: &SetReply) {
        let on = self.day_swum();
        let Some((to, shared, language)) = self.whom_to_advise(set) else { return };
        let told = self.squad.members.get(&to).is_some_and(|m| m.told.holds(Unasked::Advice, on));
        let said = SaidAt::new(self.now(), &self.squad.zone());
        if told || said.is_none() {
            return;
        }
        let voice = reply::voice(language);
        let theirs = Outcome::Set(SetReply { other: shared, ..set.clone() });
        let mut lines = vec![voice.coach_told_of(&set.set)];
        lines.extend(voice.lines(&theirs));
        let fitted = reply::fit(lines, PARTS, voice.shown_whole(Unasked::Advice));
        self.record(Event::SaidUnasked { address: to.clone(), what: Unasked::Advice, on, said });
        self.write_to(to, fitted.text);
    }
}

impl View<'_> {
    /// The swimmer's own telephone, whether others share it, and their language. None where
    /// they are not to be written to, or sent the text themselves.
    fn whom_to_advise(&self, set: &SetReply) -> Option<(String, bool, Language)> {
        let who = &set.swimmer;
        let swimmer = self.swimmer(who)?;
        let to = swimmer.address.clone().filter(|to| to != self.asked.from)?;
        let member = self.squad.members.get(&to)?;
        let reads = self.reads(&to) && self.may_write_to(who) && !self.is_mine(who);
        let shared = member.is_shared() || member.name.as_ref() != Some(who);
        let language = swimmer.language.at(self.now()).copied().unwrap_or_default();
        reads.then_some((to, shared, language))
    }
}
