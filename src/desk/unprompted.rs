//! What is said unasked: one count of who comes, to each coach, on the evening
//! of a squad night.
//!
//! Pure: it is asked at an instant what is due then. What was said is an event
//! with its person and its night, so that nothing is said twice, however often
//! it is asked and wherever the program was stopped between.

use jiff::Timestamp;
use jiff::civil::{Time, time};

use super::Say;
use super::attend;
use crate::language::Language;
use crate::profile::{Event, Right, Squad, Stamped, Touched};
use crate::reply::{self, Outcome, SquadReply};

/// When the count is due (ours: before the coach leaves for the pool).
const COUNT: Time = time(17, 0, 0, 0);
/// Nothing is said unasked from here on, until the next morning (ours). The
/// count has no morning: it is due in the afternoon.
const QUIET: Time = time(20, 0, 0, 0);
/// How many SMS parts the count may have.
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

/// What is due at `now`, as message `cause`; `None` where nothing is. The count
/// is due from five in the afternoon of a squad night until it begins, or until
/// eight where that is earlier, if anyone has said whether she comes.
pub fn unprompted(squad: &Squad, cause: u64, now: Timestamp) -> Option<Unprompted> {
    let local = now.to_zoned_datetime(squad.zone());
    let (on, at) = (local.date(), local.time());
    let night = squad.night(on, now)?;
    let until = night.starts.map_or(QUIET, |starts| starts.min(QUIET));
    if at < COUNT || at >= until {
        return None;
    }
    let count = Outcome::Squad(SquadReply {
        squad: squad.name.clone(),
        swimmers: vec![],
        night: Some(attend::night(squad, on, now)),
    });
    if !squad.swimmers.values().any(|swimmer| swimmer.says_of(on, now).is_some()) {
        return None;
    }
    let voice = reply::voice(Language::English);
    let fitted = reply::fit(voice.lines(&count), PARTS, voice.more_hint());
    let to: Vec<String> = squad
        .holders(Right::BeWarned)
        .filter(|address| {
            squad.members.get(*address).is_some_and(|member| {
                !member.opted_out && member.counted.is_none_or(|counted| counted < on)
            })
        })
        .map(str::to_owned)
        .collect();
    let mut after = squad.clone();
    let mut events: Vec<Event> =
        to.iter().map(|address| Event::CountSaid { address: address.clone(), on }).collect();
    if !fitted.rest.is_empty() {
        events.extend(to.iter().map(|address| Event::MoreKept {
            address: address.clone(),
            lines: fitted.rest.clone(),
        }));
    }
    let stamped =
        |event: &Event| Stamped { cause, at: now, by: String::new(), event: event.clone() };
    let touched = events.iter().map(|event| after.apply(&stamped(event))).collect();
    let said = to.into_iter().map(|to| Say { to: Some(to), text: fitted.text.clone() }).collect();
    (!events.is_empty()).then_some(Unprompted { events, said, squad: after, touched })
}
