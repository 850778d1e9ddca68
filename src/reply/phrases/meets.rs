//! Entries for meets.

use jiff::civil::Date;

use super::Words;
use super::words::first_upper;
use crate::message::Name;
use crate::profile::FlyingLeg;
use crate::reply::{EntryLine, EntryReply, EntryTime, MeetReply};
use crate::units::{Centis, Course};

/// What a language says of meets.
pub trait Meets: Words {
    /// In place of a meet's day.
    fn no_day_yet(&self) -> &'static str;
    /// A leg of a relay, with its number, is kept apart from flat starts.
    fn leg_stored(&self, what: &str, leg: u8) -> String;
    /// Her latest legs of relays.
    fn legs(&self, list: &str) -> String;
    /// Someone is taken out of a race.
    fn scratched(&self, what: &str) -> String;
    /// By which time, and what it rests on; `time` is how it is shown, `from` the
    /// swim, `day` that of the swim, `pool` where.
    fn entry_time(
        &self,
        time: &EntryTime,
        shown: &str,
        from: &str,
        day: &str,
        pool: &str,
    ) -> String;
    /// Behind a time in a list that is an estimate.
    fn estimated(&self) -> &'static str;
    /// In place of an entry time, in a list.
    fn no_time(&self) -> &'static str;
    /// A meet without entries.
    fn nobody_entered(&self) -> &'static str;
    /// No meet and no entries.
    fn no_meets(&self) -> &'static str;

    /// The entry, the meet, the time and what it rests on.
    fn entered(&self, reply: &EntryReply) -> Vec<String> {
        let what = self.race_of(&reply.line);
        let meet = self.meet_of(reply.on, reply.course);
        if reply.scratched {
            return vec![self.scratched(&format!("{what}, {meet}"))];
        }
        let time = &reply.line.time;
        let shown = time.shown().map_or_else(String::new, shown_time);
        let (from, day, pool) = match time {
            EntryTime::Swum(trial) | EntryTime::Converted { from: trial, .. } => {
                (trial.time.short(), self.short_day(trial.on), self.course(trial.course))
            }
            _ => (String::new(), String::new(), ""),
        };
        let time = self.entry_time(time, &shown, &from, &day, pool);
        vec![format!("{}, {meet}.", first_upper(&what)), first_upper(&time)]
    }

    /// `50 free 29.8`
    fn leg_swum(&self, leg: &FlyingLeg) -> String {
        format!("{} {} {}", leg.distance.amount(), self.stroke(leg.stroke), leg.time.short())
    }

    /// A leg of a relay.
    fn leg(&self, who: Option<&Name>, leg: &FlyingLeg) -> String {
        let swum = self.leg_swum(leg);
        let what = who.map_or_else(|| swum.clone(), |who| format!("{who} {swum}"));
        first_upper(&self.leg_stored(&what, leg.leg))
    }

    /// A meet and its entries.
    fn meet(&self, reply: &MeetReply) -> Vec<String> {
        let head = self.meet_of(reply.on, reply.course);
        if reply.lines.is_empty() {
            return vec![first_upper(&format!("{head}: {}", self.nobody_entered()))];
        }
        let one = |line: &EntryLine| {
            let time = match line.time.shown() {
                None => self.no_time().to_owned(),
                Some(time @ (_, false)) => shown_time(time),
                Some(time) => format!("{} {}", shown_time(time), self.estimated()),
            };
            format!("{} {time}", self.race_of(line))
        };
        let lines: Vec<String> = reply.lines.iter().map(one).collect();
        let mut told: Vec<String> =
            lines.chunks(ENTRIES_A_LINE).map(|some| format!("{}.", some.join(", "))).collect();
        if let Some(first) = told.first_mut() {
            *first = first_upper(&format!("{head}: {first}"));
        }
        told
    }

    /// All meets to come.
    fn meets(&self, meets: &[MeetReply]) -> Vec<String> {
        match meets {
            [] => vec![self.no_meets().to_owned()],
            meets => meets.iter().flat_map(|meet| self.meet(meet)).collect(),
        }
    }

    /// `heron 100 free`
    fn race_of(&self, line: &EntryLine) -> String {
        let race = format!("{} {}", line.distance.amount(), self.stroke(line.stroke));
        match &line.who {
            Some(who) => format!("{who} {race}"),
            None => race,
        }
    }

    /// `Sun 20 Dec, 25 m pool`
    fn meet_of(&self, on: Option<Date>, course: Course) -> String {
        let day = on.map_or_else(|| self.no_day_yet().to_owned(), |on| self.day(on));
        format!("{day}, {}", self.course(course))
    }
}

/// An estimate is no truer than a tenth.
fn shown_time((time, is_estimate): (Centis, bool)) -> String {
    if is_estimate { time.to_tenth().short() } else { time.short() }
}

/// Entries told in one line, so that lines fill a text.
const ENTRIES_A_LINE: usize = 6;
