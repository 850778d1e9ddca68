//! Entries for meets.

use jiff::civil::Date;

use super::small::first_upper;
use crate::history::FlyingLeg;
use crate::message::Name;
use crate::reply::{EntryLine, EntryReply, EntryTime, MeetReply, Voice};
use crate::units::{Centis, Course};

// What is told, and in which order.
impl Voice {
    /// The entry, the meet, the time and what it rests on.
    pub(super) fn entered(self, reply: &EntryReply) -> Vec<String> {
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
    pub(super) fn leg_swum(self, leg: &FlyingLeg) -> String {
        format!("{} {} {}", leg.distance.amount(), self.stroke(leg.stroke), leg.time.short())
    }

    /// A leg of a relay.
    pub(super) fn leg(self, who: Option<&Name>, leg: &FlyingLeg) -> String {
        let swum = self.leg_swum(leg);
        let what = who.map_or_else(|| swum.clone(), |who| format!("{who} {swum}"));
        first_upper(&self.leg_stored(&what, leg.leg))
    }

    /// A meet and its entries.
    pub(super) fn meet(self, reply: &MeetReply) -> Vec<String> {
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
    pub(super) fn meets(self, meets: &[MeetReply]) -> Vec<String> {
        match meets {
            [] => vec![self.no_meets().to_owned()],
            meets => meets.iter().flat_map(|meet| self.meet(meet)).collect(),
        }
    }

    /// `heron 100 free`
    fn race_of(self, line: &EntryLine) -> String {
        let race = format!("{} {}", line.distance.amount(), self.stroke(line.stroke));
        match &line.who {
            Some(who) => format!("{who} {race}"),
            None => race,
        }
    }

    /// `Sun 20 Dec, 25 m pool`
    fn meet_of(self, on: Option<Date>, course: Course) -> String {
        let day = on.map_or_else(|| self.no_day_yet().to_owned(), |on| self.day(on));
        format!("{day}, {}", self.course(course))
    }
}

// In which words.
impl Voice {
    /// In place of a meet's day.
    fn no_day_yet(self) -> &'static str {
        self.pick("no day yet", "aun sin fecha")
    }

    /// A leg of a relay, with its number, is kept apart from flat starts.
    fn leg_stored(self, what: &str, leg: u8) -> String {
        say!(
            self,
            "{what}, relay leg {leg}: kept apart, no best and no test.",
            "{what}, posta {leg} de relevo: aparte, ni marca ni test.",
            [what, leg]
        )
    }

    /// Their latest legs of relays.
    pub(super) fn legs(self, list: &str) -> String {
        say!(self, "Relay legs: {list}.", "Relevos: {list}.", [list])
    }

    /// Someone is taken out of a race.
    fn scratched(self, what: &str) -> String {
        say!(self, "Scratched: {what}.", "Fuera: {what}.", [what])
    }

    /// By which time, and what it rests on; `time` is how it is shown, `from` the
    /// swim, `day` that of the swim, `pool` where.
    fn entry_time(
        self,
        time: &EntryTime,
        shown: &str,
        from: &str,
        day: &str,
        pool: &str,
    ) -> String {
        match time {
            EntryTime::Given(_) => say!(
                self,
                "Entry time {shown}, as given.",
                "Tiempo de inscripcion {shown}, el dado.",
                [shown]
            ),
            EntryTime::Swum(_) => say!(
                self,
                "Entry time {shown}, swum on {day}.",
                "Tiempo de inscripcion {shown}, nadado el {day}.",
                [shown, day]
            ),
            EntryTime::Converted { .. } => say!(
                self,
                "Entry time about {shown}, an estimate: {from} on {day} in a {pool}, by the club \
                 turn rule.",
                "Tiempo de inscripcion unos {shown}, estimado: {from} el {day} en {pool}, por la \
                 regla de virajes.",
                [shown, from, day, pool]
            ),
            EntryTime::Predicted(_) => say!(
                self,
                "Entry time about {shown}, an estimate from other distances.",
                "Tiempo de inscripcion unos {shown}, estimado con otras distancias.",
                [shown]
            ),
            EntryTime::None => say!(
                self,
                "No entry time yet: text a test of it, or the time with the entry.",
                "Aun sin tiempo de inscripcion: manda un test de esa prueba, o el tiempo con ella."
            ),
        }
    }

    /// Behind a time in a list that is an estimate.
    fn estimated(self) -> &'static str {
        "est"
    }

    /// In place of an entry time, in a list.
    fn no_time(self) -> &'static str {
        self.pick("NT", "sin tiempo")
    }

    /// A meet without entries.
    fn nobody_entered(self) -> &'static str {
        self.pick("nobody entered yet.", "sin inscripciones.")
    }

    /// No meet and no entries.
    fn no_meets(self) -> &'static str {
        self.pick(
            "No meet and no entries yet. Text, say, MEET 20 DEC 25M or ENTRY 100 FREE",
            "Aun no hay competicion. Escribe, por ejemplo, INSCRIBE 100 LIBRE",
        )
    }
}

/// An estimate is no truer than a tenth.
fn shown_time((time, is_estimate): (Centis, bool)) -> String {
    if is_estimate { time.to_tenth().short() } else { time.short() }
}

/// Entries told in one line, so that lines fill a text.
const ENTRIES_A_LINE: usize = 6;
