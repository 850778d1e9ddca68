//! What is due at an instant, and who of those it is for may hear it then.

use jiff::Timestamp;
use jiff::civil::Date;

use super::super::Say;
use super::{count, hours};
use crate::language::Language;
use crate::profile::{Event, SaidAt, Squad, Stamped, Strangers, Touched, Unasked};
use crate::reply::{self, Outcome};

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

/// A text for one address.
pub struct Text {
    /// To whom.
    pub to: String,
    /// Of which kind.
    pub what: Unasked,
    /// Of which night, or due on which day.
    pub on: Date,
    /// What it tells.
    pub outcome: Outcome,
}

/// Those who may still be told something of that kind today, so that what can
/// wait should.
pub fn claims(squad: &Squad, what: Unasked, now: Timestamp) -> Vec<String> {
    match what {
        Unasked::Count => count::claims(squad, now),
    }
}

/// What of one kind is due at `now`, as message `cause`; `None` where nothing
/// is. Whoever wants no texts hears nothing, nor does whoever `waits` for
/// something weightier, or was told anything today, in this squad or, as
/// `strangers` know, in another.
pub fn unprompted(
    squad: &Squad,
    strangers: &Strangers,
    waits: impl Fn(&str) -> bool,
    what: Unasked,
    cause: u64,
    now: Timestamp,
) -> Option<Unprompted> {
    if hours::is_quiet(now.to_zoned_datetime(squad.zone()).time()) {
        return None;
    }
    let said = SaidAt::new(now, &squad.zone())?;
    let may_hear = |text: &Text| {
        strangers.may_hear(&text.to, &said)
            && !waits(&text.to)
            && squad
                .members
                .get(&text.to)
                .is_some_and(|member| !member.opted_out && !member.told.holds(text.what, text.on))
    };
    let due = match what {
        Unasked::Count => count::due(squad, now),
    };
    let mut told = Unprompted {
        events: Vec::new(),
        said: Vec::new(),
        squad: squad.clone(),
        touched: Vec::new(),
    };
    for text in due {
        // Two texts to one address may be due, where a telephone is shared.
        if may_hear(&text) && !told.said.iter().any(|say| say.to.as_ref() == Some(&text.to)) {
            told.say(text, said, cause);
        }
    }
    (!told.said.is_empty()).then_some(told)
}

impl Unprompted {
    fn say(&mut self, text: Text, said: SaidAt, cause: u64) {
        let Text { to, what, on, outcome } = text;
        let voice = reply::voice(language_of(&self.squad, &to, said.at));
        let fitted = reply::fit(voice.lines(&outcome), PARTS, voice.more_hint());
        let address = to.clone();
        self.record(Event::SaidUnasked { address, what, on, said: Some(said) }, said.at, cause);
        if !fitted.rest.is_empty() {
            let address = to.clone();
            self.record(Event::MoreKept { address, lines: fitted.rest }, said.at, cause);
        }
        self.said.push(Say { to: Some(to), text: fitted.text });
    }

    fn record(&mut self, event: Event, at: Timestamp, cause: u64) {
        let stamped = Stamped { cause, at, by: String::new(), event };
        self.touched.push(self.squad.apply(&stamped));
        self.events.push(stamped.event);
    }
}

fn language_of(squad: &Squad, address: &str, now: Timestamp) -> Language {
    let swimmer = squad.swimmer_at(address);
    swimmer.and_then(|swimmer| swimmer.language.at(now)).copied().unwrap_or_default()
}
