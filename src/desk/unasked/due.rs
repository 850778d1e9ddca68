//! What is due at an instant, and who of those it is for may hear it then.

use jiff::Timestamp;

use super::whom::Whom;
use super::{hours, squad_week, swimmer_week, who_comes};
use crate::coaching::Rulebook;
use crate::desk::decision::asked::Asked;
use crate::desk::decision::decided::Say;
use crate::desk::decision::desk::Desk;
use crate::desk::decision::view::View;
use crate::history::{Event, ReadWhat, SaidAt, Squad, Strangers, Touched, Unasked};
use crate::language::Language;
use crate::message::Name;
use crate::reply::{self, OkReply, Outcome, WeeklyReply};

/// How many SMS parts a text may have that nobody asked for.
const PARTS: usize = 2;

/// What was due: stored and said together.
#[derive(Debug)]
pub struct Unprompted {
    /// That it was said.
    pub events: Vec<Event>,
    /// The words, each to an address.
    pub said: Vec<Say>,
    /// The squad with the events folded in.
    pub squad: Squad,
    /// What of it they changed.
    pub touched: Vec<Touched>,
}

/// Those who may still be told something of that kind later today, so that what
/// can wait should.
pub fn claims(squad: &Squad, what: Unasked, now: Timestamp) -> Vec<String> {
    match what {
        Unasked::Count => who_comes::claims(squad, now),
        Unasked::Digest => squad_week::claims(squad, now),
        // No text weighs less than a note; and advice follows a coach's text, so it never falls
        // due.
        Unasked::Note | Unasked::Advice => Vec::new(),
    }
}

/// When the next text may be due in a squad that has been told all that is due at
/// `now`, unless somebody writes before.
pub fn next_look(squad: &Squad, now: Timestamp) -> Timestamp {
    let digests = squad.members.values().filter(|member| member.hears_digest());
    let night = squad.night(squad.local_day(now), now).and_then(|night| night.starts);
    let times = digests.map(|member| member.digest.when().1).chain(night).chain([
        hours::MORNING,
        hours::QUIET,
        who_comes::COUNT,
        swimmer_week::AT,
    ]);
    hours::next_of(times, now, squad.zone())
}

/// What of one kind is due at `now`; `None` where nothing is. Whoever wants no
/// texts hears nothing, nor does whoever `waits` for something weightier, or was
/// told anything today, in this squad or, as `strangers` know, in another.
pub fn unprompted(
    squad: &Squad,
    strangers: &Strangers,
    waits: impl Fn(&str) -> bool,
    what: Unasked,
    book: &Rulebook,
    now: Timestamp,
) -> Option<Unprompted> {
    if hours::is_quiet(now.to_zoned_datetime(squad.zone()).time()) {
        return None;
    }
    let said = SaidAt::new(now, &squad.zone())?;
    let mut due = match what {
        Unasked::Count => who_comes::whom(squad, now),
        Unasked::Digest => squad_week::whom(squad, now),
        Unasked::Note => swimmer_week::whom(squad, now),
        Unasked::Advice => Vec::new(),
    };
    due.retain(|one| {
        strangers.may_hear(&one.to, &said)
            && !waits(&one.to)
            && squad
                .members
                .get(&one.to)
                .is_some_and(|member| !member.opted_out && !member.told.holds(what, one.on))
    });
    if due.is_empty() {
        return None;
    }
    let asked = Asked::alone("", "", now, book, &strangers.asked);
    let mut desk = Desk::new(squad, &asked);
    for one in due {
        // Two notes to one address may be due, where a telephone is shared.
        let spoken = desk.to_others.iter().any(|say| say.to.as_ref() == Some(&one.to));
        if let (false, Some(outcome)) = (spoken, desk.tells(what, &one)) {
            desk.say_unasked(what, one, said, &outcome);
        }
    }
    let told = Unprompted {
        events: desk.events,
        said: desk.to_others,
        squad: desk.view.squad,
        touched: desk.touched,
    };
    (!told.said.is_empty()).then_some(told)
}

impl View<'_> {
    /// What there is to tell; nothing of a week in which nothing happened.
    fn tells(&self, what: Unasked, one: &Whom) -> Option<Outcome> {
        let weekly = match what {
            Unasked::Count => return Some(who_comes::count(&self.squad, one.on, self.now())),
            Unasked::Digest => {
                let digest = squad_week::digest(self);
                squad_week::has_news(&digest).then_some(WeeklyReply::Digest(Box::new(digest)))?
            }
            Unasked::Note => {
                let note = swimmer_week::note(self, one.who.as_ref()?)?;
                swimmer_week::has_news(&note).then_some(WeeklyReply::Note(Box::new(note)))?
            }
            Unasked::Advice => return None,
        };
        Some(Outcome::Ok(OkReply::Weekly(weekly)))
    }

    fn language_at(&self, address: &str, who: Option<&Name>) -> Language {
        let of_who = who.and_then(|who| self.swimmer(who)?.language.at(self.now()).copied());
        let of_address = || self.squad.language_of(address, self.now());
        of_who.or_else(of_address).unwrap_or_default()
    }
}

impl Desk<'_> {
    fn say_unasked(&mut self, what: Unasked, one: Whom, said: SaidAt, outcome: &Outcome) {
        let Whom { to, who, on } = one;
        let voice = reply::voice(self.language_at(&to, who.as_ref()));
        // What waits for `more` is of what they asked for, and stays so.
        let fitted = reply::fit(voice.lines(outcome), PARTS, voice.shown_whole(what));
        let address = to.clone();
        self.record(Event::SaidUnasked { address, what, on, said: Some(said) });
        if let Outcome::Ok(OkReply::Weekly(WeeklyReply::Digest(digest))) = outcome
            && !digest.open.is_empty()
        {
            let who = digest.open.iter().map(|(who, _)| who.clone()).collect();
            self.record(Event::HealthSeen { who, by: to.clone(), what: ReadWhat::Squad });
        }
        self.to_others.push(Say::to(to, fitted.text));
    }
}
