//! Who is warned or called when someone is hurt or in danger, and as what.
//!
//! Decides who and in which words; when each letter goes out is not known here.

use jiff::Timestamp;

use crate::desk::decision::decided::Say;
use crate::desk::decision::desk::Desk;
use crate::history::{Called, Event, ReadWhat, Right, Squad};
use crate::message::Name;
use crate::reply::{self, Alert, CautionKind, Voice};

impl Desk<'_> {
    /// Warns those on deck, other than the sender.
    pub fn warn(&mut self, who: Option<Name>, kind: CautionKind) {
        let by = self.me().cloned().filter(|me| who.as_ref() != Some(me));
        let contact = who.as_ref().and_then(|who| self.swimmer(who));
        let contact = contact.and_then(|swimmer| swimmer.contact.at(self.now()).cloned());
        let named = who.clone();
        let calls = kind.is_danger();
        let of_another = who.as_ref().is_none_or(|who| !self.all_of_me().contains(who));
        let known = of_another && self.may(Right::BeWarned);
        let alert = Alert { who, by, contact, kind };
        match calls {
            true => self.call_help(|voice| voice.alert(&alert), known),
            false => self.tell(Right::BeWarned, |voice| voice.alert(&alert)),
        }
        for reader in self.holders_but_sender(Right::BeWarned) {
            let who = named.iter().cloned().collect::<Vec<_>>();
            if !who.is_empty() {
                self.record(Event::HealthSeen { who, by: reader, what: ReadWhat::Alert });
            }
        }
    }

    /// Calls all who can help, other than the sender: those on deck, the squad's second
    /// contact, those who asked to be told. `known`: the sender is on deck and speaks of
    /// somebody else. Each is called in their language. Where no letter goes out, it says so.
    pub fn call_help(&mut self, words: impl Fn(Voice) -> String, known: bool) {
        let deck = self.squad.holders(Right::BeWarned).map(|to| (to.to_owned(), Called::Deck));
        let second = self.squad.safe.second_contact.clone();
        let second = second.map(|to| (to, Called::SecondContact));
        let standby = self.squad.members.iter().filter(|(_, member)| member.stands_by);
        let standby = standby.map(|(to, _)| (to.clone(), Called::Standby));
        let all: Vec<(String, Called)> = deck.chain(second).chain(standby).collect();
        let calls = self.asked.calls;
        let others = all.into_iter().filter(|(to, _)| calls && *to != self.asked.from);
        let (called, silent): (Vec<_>, Vec<_>) = others.partition(|(to, _)| self.reads(to));
        let alone = called.is_empty() && !known;
        if !self.events.iter().any(|event| matches!(event, Event::AlarmRaised { .. })) {
            self.record(Event::AlarmRaised { known, alone });
        }
        self.unreached |= called.is_empty() && !silent.is_empty();
        self.uncalled |= alone && silent.is_empty();
        for (to, called) in called {
            let text = words(self.voice_for(&to));
            let already = |say: &Say| {
                say.to.as_ref() == Some(&to) && (say.alarm != Some(called) || say.text == text)
            };
            if !self.to_others.iter().filter(|say| say.alarm.is_some()).any(already) {
                self.to_others.push(Say::calling(called, to, text));
            }
        }
    }
}

/// What whoever raised an alarm is told while it has reached nobody.
pub fn nobody_reached(squad: &Squad, from: &str, now: Timestamp) -> String {
    let voice = reply::voice(squad.language_of(from, now).unwrap_or_default());
    voice.nobody_reached(squad.may(from, Right::BeWarned)).to_owned()
}
