//! What goes to others than the sender, and to whom it may go.

use super::decided::Say;
use super::desk::Desk;
use super::refusing::{Stopped, turned_down};
use super::view::View;
use crate::history::{Event, Right, Swimmer};
use crate::language::Language;
use crate::message;
use crate::reply::{OfficeRefusal, Voice};

/// How many SMS parts a reply may have that may go to a telephone.
pub const PARTS: usize = 2;

impl View<'_> {
    /// The addresses that have `right`, without the sender's.
    pub fn holders_but_sender(&self, right: Right) -> Vec<String> {
        let holders = self.squad.holders(right);
        holders.filter(|holder| *holder != self.asked.from).map(str::to_owned).collect()
    }

    /// Refuses a number as it is dialled at home, where gateways send international
    /// ones: their owner's texts would not be recognised.
    pub fn demand_number(&self, address: &str) -> Result<(), Stopped> {
        match message::is_dialled(address) && !message::is_dialled(self.asked.from) {
            true => Err(turned_down("number", OfficeRefusal::Dialled)),
            false => Ok(()),
        }
    }

    /// True for an address that wants texts, as far as the squad knows.
    pub fn reads(&self, address: &str) -> bool {
        self.squad.members.get(address).is_none_or(|member| !member.opted_out)
    }

    /// True where a room may hear who swims in which lane.
    pub fn names_in_rooms(&self) -> bool {
        !self.squad.minors && self.squad.names_in_rooms_at(self.now())
    }
}

impl Desk<'_> {
    /// Tells those who have `right`, other than the sender, each in their language.
    pub fn tell(&mut self, right: Right, words: impl Fn(Voice) -> String) {
        let holders = self.holders_but_sender(right);
        let silent = |holder: &String| self.squad.members.get(holder).is_some_and(|m| m.opted_out);
        let (silent, reached): (Vec<String>, Vec<String>) = holders.into_iter().partition(silent);
        self.unreached |= reached.is_empty() && !silent.is_empty();
        for holder in reached {
            let text = words(self.voice_for(&holder));
            let say = Say::to(holder, text);
            if !self.to_others.contains(&say) {
                self.to_others.push(say);
            }
        }
    }

    /// Writes to an address.
    pub fn write_to(&mut self, to: impl Into<String>, text: impl Into<String>) {
        self.to_others.push(Say::to(to, text));
    }

    /// Writes to somebody who may not know us, unless squads have already asked them
    /// often enough.
    pub fn ask_stranger(&mut self, address: &str, text: String) -> Result<(), Stopped> {
        self.demand_number(address)?;
        if self.asked.strangers_asked.is_enough(address, self.asked.wall) {
            return Err(turned_down("asked_often", OfficeRefusal::AskedOften));
        }
        self.tell_stranger(address, text);
        Ok(())
    }

    /// The same where it must be told.
    pub fn tell_stranger(&mut self, address: &str, text: String) {
        self.record(Event::StrangerAsked { address: address.to_owned() });
        self.write_to(address, text);
    }
}

/// Their address and language, unless they want no texts or sent this one.
pub fn way_to(view: &View<'_>, swimmer: &Swimmer) -> Option<(String, Language)> {
    let address = view.squad.address_of(&swimmer.name)?;
    let member = view.squad.members.get(address)?;
    let reached = !member.opted_out && address != view.asked.from;
    let language = swimmer.language.at(view.now()).copied().unwrap_or_default();
    reached.then(|| (address.to_owned(), language))
}
