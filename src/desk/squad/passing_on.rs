//! Words of a swimmer's own that go to those on deck: what nobody here can answer, after
//! a yes, and `tell coach …`.
//!
//! Only a grown-up's, for whom nobody reads along; never of health, which has a way of
//! its own.

use crate::desk::decision::desk::Desk;
use crate::desk::decision::questions_back::{ask_yes, is_offer};
use crate::desk::decision::refusing::{Stopped, refused};
use crate::desk::decision::view::View;
use crate::history::{Right, Role};
use crate::language::Language;
use crate::message::{Kind, Message, Name, Statement};
use crate::reading::health::{Sign, Signs, signs_of};
use crate::reading::lex::lex;
use crate::reply::{self, Asks, OkReply, Outcome, RefusedWhy};

/// The most letters that are passed on.
const LONGEST: usize = 300;

/// What nobody here knows: one word passes it on.
pub fn offer(desk: &mut Desk<'_>, statement: &Statement, text: &str) -> Result<Outcome, Stopped> {
    // An open question keeps its yes.
    let busy = desk.open_question().is_some_and(|open| !is_offer(desk, open));
    if busy || !may(desk) || is_of_health(desk, text) {
        return Ok(Outcome::Ok(OkReply::NotKnown));
    }
    if desk.on_deck().is_empty() {
        return Err(refused("nobody_reads", RefusedWhy::NobodyReads));
    }
    let tell = Statement {
        who: statement.who.clone().filter(|who| desk.is_mine(who)),
        kind: Kind::Tell { text: shortened(text) },
    };
    Err(ask_yes(desk, Asks::PassOn, &Message { statements: vec![tell] }))
}

/// Passes a text on to those on deck, each in their language.
pub fn pass_on(desk: &mut Desk<'_>, statement: &Statement, text: &str) -> Result<Outcome, Stopped> {
    if !may(desk) {
        return Err(refused("coach_only", RefusedWhy::CoachOnly));
    }
    if is_of_health(desk, text) {
        return Err(refused("health", RefusedWhy::HealthOtherwise));
    }
    let deck = desk.on_deck();
    if deck.is_empty() {
        return Err(refused("nobody_reads", RefusedWhy::NobodyReads));
    }
    let text = reply::carried(&shortened(text));
    let spoken = statement.who.as_ref().filter(|who| desk.is_mine(who));
    for (address, language) in deck {
        let voice = reply::voice(language);
        let who = match (spoken, desk.swims()) {
            (Some(who), _) => who.to_string(),
            (None, true) => listed(&desk.own_names()),
            (None, false) => voice.guardian_of(&listed(&desk.wards())),
        };
        let letter = voice.carried_to_deck(&who, desk.confirmed, &text);
        desk.write_to(address, letter);
    }
    Ok(Outcome::Ok(OkReply::GivenToDeck))
}

/// True for a grown-up who swims here or answers for somebody who does, and wants
/// texts. Where a child texts from the telephone too, the words may be the child's.
fn may(view: &View<'_>) -> bool {
    let Some(member) = view.member() else { return false };
    let fits = match member.role {
        Role::Swimmer => member.name.is_some(),
        Role::Guardian => member.name.is_some() || !view.wards().is_empty(),
        Role::Coach | Role::Assistant | Role::WelfareOfficer => false,
    };
    let child = member.names().any(|name| view.is_minor(name));
    fits && !child && !view.is_opted_out()
}

/// True where a word of health stands in it, or beside it in the text.
fn is_of_health(desk: &Desk<'_>, text: &str) -> bool {
    let complains = |one: &Statement| one.kind.ails();
    let of_body = |word: &str| Language::ALL.iter().any(|one| signs_of(word, *one).meets(HEALTH));
    let speaks_of_it = |text: &str| {
        let alarms = desk.alarms(text);
        alarms.is_any()
            || alarms.unwell
            || lex(text).tokens().iter().any(|token| of_body(token.text))
    };
    let asked = desk.asked.text;
    desk.read.iter().any(complains) || speaks_of_it(text) || text != asked && speaks_of_it(asked)
}

/// Words that are of somebody's health by themselves, whatever stands round them.
const HEALTH: Signs = Signs::of(&[
    Sign::Ache,
    Sign::AirHunger,
    Sign::Allergic,
    Sign::Asthma,
    Sign::Bleed,
    Sign::Breathless,
    Sign::Bully,
    Sign::Clot,
    Sign::Convulsion,
    Sign::Cough,
    Sign::Cry,
    Sign::Diabetic,
    Sign::Dizzy,
    Sign::Epileptic,
    Sign::Expecting,
    Sign::Fainted,
    Sign::Faintish,
    Sign::Fear,
    Sign::Grief,
    Sign::Harm,
    Sign::Headache,
    Sign::HeartCond,
    Sign::HeartMed,
    Sign::Hives,
    Sign::Hurt,
    Sign::Inhaler,
    Sign::LowMood,
    Sign::Medicine,
    Sign::NoPeriod,
    Sign::NotEating,
    Sign::Numb,
    Sign::Palpitation,
    Sign::Period,
    Sign::Pills,
    Sign::Pregnant,
    Sign::Purge,
    Sign::Rate,
    Sign::Seizure,
    Sign::Surgery,
    Sign::Swell,
    Sign::Thinner,
    Sign::Unsafe,
    Sign::Vitals,
    Sign::Vomit,
    Sign::Weight,
    Sign::Wheeze,
    Sign::Wound,
]);

fn shortened(text: &str) -> String {
    text.chars().take(LONGEST).collect()
}

fn listed(names: &[Name]) -> String {
    names.iter().map(Name::as_str).collect::<Vec<_>>().join(", ")
}

impl View<'_> {
    /// Those on deck who want texts, each with the language they read.
    fn on_deck(&self) -> Vec<(String, Language)> {
        let others = self.squad.holders(Right::RunEvening).filter(|one| *one != self.asked.from);
        let language = |address: &str| self.squad.language_of(address, self.now());
        others
            .filter(|address| self.reads(address))
            .map(|address| (address.to_owned(), language(address).unwrap_or_default()))
            .collect()
    }

    /// The handles of those who text from the sender's telephone; the one who speaks,
    /// once that is clear.
    fn own_names(&self) -> Vec<Name> {
        match self.me() {
            Some(me) if self.swims() => vec![me.clone()],
            _ => self.member().into_iter().flat_map(|member| member.names().cloned()).collect(),
        }
    }

    /// Those whom the sender answers for.
    fn wards(&self) -> Vec<Name> {
        self.squad.wards(self.asked.from).map(|ward| ward.name.clone()).collect()
    }
}
