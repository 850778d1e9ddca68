//! The squad and its swimmers at a glance.

use super::small::{first_upper, shown_pace};
use crate::coaching::{After, Trouble};
use crate::history::Before;
use crate::language::Language;
use crate::message::Name;
use crate::reply::{Flag, SquadRow, SwimmerReply, Trend, Voice, carried};
use crate::swim::Trial;
use crate::units::{Pace, Unit};

// What is told, and in which order.
impl Voice {
    /// Swimmers side by side: a line each, then the tests that all have swum.
    pub(in crate::reply) fn compared(self, cards: &[SwimmerReply]) -> Vec<String> {
        let pace = |card: &SwimmerReply| {
            let pace =
                card.row.critical_per_100_s.and_then(|pace| Pace::new(pace, Unit::Metre).ok());
            pace.map_or_else(String::new, |pace| {
                format!(". {}", self.critical_pace(&shown_pace(pace)))
            })
        };
        let mut lines: Vec<String> =
            cards.iter().map(|card| format!("{}{}", self.row(&card.row), pace(card))).collect();
        let Some((first, others)) = cards.split_first() else { return lines };
        for best in &first.bests {
            let alike = |other: &&Trial| {
                other.distance == best.distance
                    && other.stroke == best.stroke
                    && other.course == best.course
            };
            let theirs: Option<Vec<&Trial>> =
                others.iter().map(|card| card.bests.iter().find(alike)).collect();
            if let Some(theirs) = theirs {
                let times = std::iter::once(best).chain(theirs).zip(cards);
                let times: Vec<String> = times
                    .map(|(trial, card)| format!("{} {}", card.row.swimmer, trial.time.short()))
                    .collect();
                lines.push(format!("{}: {}.", self.trial_name(best), times.join(", ")));
            }
        }
        lines
    }

    /// `heron 200 free 3:12 (2 Mar) faster; hurt`
    pub(super) fn row(self, row: &SquadRow) -> String {
        let mut line = row.swimmer.to_string();
        if let Some(guest) = row.guest {
            let guess = guest.guess.filter(|_| row.last_test.is_none()).map(shown_pace);
            line.push_str(&format!(" {}", self.guest(guess.as_deref())));
        }
        line.push_str(&match &row.last_test {
            Some(trial) => format!(" {} ({})", self.trial(trial), self.short_day(trial.on)),
            None => format!(" {}", self.no_test_yet()),
        });
        if let Some(trend) = self.trend(row.trend) {
            line.push_str(&format!(" {trend}"));
            let at_meet = row.last_test.is_some_and(|test| test.meet);
            if row.trend_across {
                line.push_str(&format!(" ({})", self.across(at_meet)));
            }
        }
        let told = |flag: &&Flag| **flag != Flag::Hurt || row.open.is_empty();
        let open = row.open.iter().map(|trouble| self.open(trouble));
        let flags = row.flags.iter().filter(told).map(|flag| self.flag(*flag).to_owned());
        let flags: Vec<String> = open.chain(flags).collect();
        if let Some(race) = &row.race {
            let far = format!("{} {}", race.distance.amount(), self.stroke(race.stroke));
            line.push_str(&format!("; {}, {far}", self.day(race.on)));
        }
        if !flags.is_empty() {
            line.push_str(&format!("; {}", flags.join(", ")));
        }
        line
    }

    /// One swimmer.
    pub(in crate::reply) fn swimmer(self, reply: &SwimmerReply) -> Vec<String> {
        let mut lines = vec![self.row(&reply.row)];
        lines.extend(reply.page.as_ref().map(|page| self.own_page(&page.url, page.hours)));
        if let Some(pace) =
            reply.row.critical_per_100_s.and_then(|per_100| Pace::new(per_100, Unit::Metre).ok())
        {
            lines.push(self.critical_pace(&shown_pace(pace)));
        }
        if !reply.bests.is_empty() {
            let bests: Vec<String> = reply
                .bests
                .iter()
                .map(|trial| {
                    let meet = if trial.meet { self.at_meet() } else { "" };
                    format!("{} ({}{meet})", self.trial(trial), trial.course)
                })
                .collect();
            lines.push(self.bests(&bests.join(", ")));
        }
        if reply.latest.len() > 1 {
            let latest: Vec<String> = reply
                .latest
                .iter()
                .map(|trial| format!("{} {}", self.short_day(trial.on), self.trial(trial)))
                .collect();
            lines.push(self.latest(&latest.join(", ")));
        }
        for (trial, right) in &reply.put_right {
            let was = match &right.was {
                Before::Time(time) => time.short(),
                Before::Of(name) => name.to_string(),
            };
            let (trial, day) = (self.trial(trial), self.short_day(right.on));
            lines.push(self.put_right(&trial, &was, right.by.as_ref(), &day));
        }
        lines.extend(self.by_coach_line(&reply.own_targets));
        let (limits, kit) = &reply.limits;
        if !limits.is_empty() {
            lines.push(format!("{}.", first_upper(&self.limits(limits))));
        }
        lines.extend(kit.as_ref().map(|kit| self.kit_there_is(&self.kit(kit))));
        if let Some(focus) = &reply.focus {
            lines.push(self.focus(focus));
        }
        if !reply.legs.is_empty() {
            let one = |(on, leg): &(jiff::civil::Date, crate::history::FlyingLeg)| {
                format!("{} ({})", self.leg_swum(leg), self.short_day(*on))
            };
            let legs: Vec<String> = reply.legs.iter().map(one).collect();
            lines.push(self.legs(&legs.join(", ")));
        }
        if let Some(race) = &reply.race {
            let far = format!("{} {}", race.distance.amount(), self.stroke(race.stroke));
            lines.push(self.next_race(&far, &self.short_day(race.on)));
        }
        let over = reply.over.iter();
        lines.extend(over.map(|(was, day)| self.over(&self.open(was), &self.short_day(*day))));
        let notes = reply.notes.iter();
        lines.extend(notes.map(|(on, text)| self.noted_on(&self.short_day(*on), &carried(text))));
        if reply.row.open.iter().any(needs_release) {
            lines.push(self.may_release().to_owned());
        }
        lines
    }
}

// In which words.
impl Voice {
    /// How many there are.
    pub(super) fn swimmers(self, number: usize) -> String {
        self.count(number, ["swimmer", "swimmers"], ["persona", "personas"])
    }

    /// A flag, after a number of swimmers.
    pub(super) fn flagged(self, flag: Flag) -> &'static str {
        match flag {
            Flag::Hurt => self.pick("hurt", "con molestias"),
            Flag::Overdue => self.pick("overdue", "con test pendiente"),
            Flag::Silent => self.pick("not heard from", "sin noticias"),
        }
    }

    /// A flag, on a swimmer's own line.
    fn flag(self, flag: Flag) -> &'static str {
        match flag {
            Flag::Hurt => self.pick("HURT", "MOLESTIAS"),
            Flag::Overdue => self.pick("test due", "test pendiente"),
            Flag::Silent => self.pick("not heard from", "sin noticias"),
        }
    }

    /// Where their tests are going; none where nothing can be said.
    pub(super) fn trend(self, trend: Trend) -> Option<&'static str> {
        match trend {
            Trend::Up => Some(self.pick("faster", "mas rapido")),
            Trend::Down => Some(self.pick("slower", "mas lento")),
            Trend::Flat => Some(self.pick("level", "igual")),
            Trend::Unknown => None,
        }
    }

    /// What their tests were told beside each other: the last at a meet and the one
    /// before in training, or the other way round.
    pub fn across(self, at_meet: bool) -> &'static str {
        if at_meet {
            self.pick("a meet beside training", "competicion frente a entreno")
        } else {
            self.pick("training beside a meet", "entreno frente a competicion")
        }
    }

    /// Behind a time that was swum at a meet.
    fn at_meet(self) -> &'static str {
        self.pick(", meet", ", competicion")
    }

    /// In place of a test.
    fn no_test_yet(self) -> &'static str {
        self.pick("no test yet", "aun sin test")
    }

    /// Their critical pace.
    fn critical_pace(self, pace: &str) -> String {
        say!(
            self,
            "Critical pace about {pace} per 100.",
            "Ritmo critico: unos {pace} por 100.",
            [pace]
        )
    }

    /// Their best times.
    fn bests(self, list: &str) -> String {
        say!(self, "Bests: {list}.", "Mejores: {list}.", [list])
    }

    /// Their latest tests.
    fn latest(self, list: &str) -> String {
        say!(self, "Latest: {list}.", "Ultimos: {list}.", [list])
    }

    /// The coach's focus.
    pub(super) fn focus(self, focus: &str) -> String {
        say!(self, "Focus: {focus}", "Foco: {focus}", [focus])
    }

    /// What is open of them, and since when.
    pub(super) fn open(self, trouble: &Trouble) -> String {
        match trouble {
            Trouble::Pain { since, place, level } => {
                let level = level.map(|level| format!(" {level}")).unwrap_or_default();
                let place = match self.language {
                    Language::English => place.clone(),
                    Language::Spanish => self.pain_in(place),
                };
                say!(
                    self,
                    "{place}{level} since {day}",
                    "{place}{level} desde el {day}",
                    [place, level, day = self.short_day(*since)]
                )
            }
            Trouble::Ill { since, fever: false } => say!(
                self,
                "ill since {day}",
                "con malestar desde el {day}",
                [day = self.short_day(*since)]
            ),
            Trouble::Ill { since, .. } => say!(
                self,
                "fever since {day}",
                "fiebre desde el {day}",
                [day = self.short_day(*since)]
            ),
            Trouble::Asked { since, place } => {
                let what = match (place, self.language) {
                    (None, _) => self.pick("illness", "malestar").to_owned(),
                    (Some(place), Language::English) => place.clone(),
                    (Some(place), Language::Spanish) => self.pain_in(place),
                };
                say!(
                    self,
                    "{what} asked about {day} (no answer)",
                    "{what}: preguntado el {day} (sin respuesta)",
                    [what, day = self.short_day(*since)]
                )
            }
            Trouble::Mending { since, after: After::Away } => say!(
                self,
                "back since {day}",
                "de vuelta desde el {day}",
                [day = self.short_day(*since)]
            ),
            Trouble::Mending { since, .. } => say!(
                self,
                "mending since {day}",
                "en recuperacion desde el {day}",
                [day = self.short_day(*since)]
            ),
            Trouble::Faint { since } => say!(
                self,
                "STOPPED since {day}",
                "NO NADA desde el {day}",
                [day = self.short_day(*since)]
            ),
            Trouble::Held { since } => say!(
                self,
                "held to easy since {day}",
                "suave por ahora desde el {day}",
                [day = self.short_day(*since)]
            ),
        }
    }

    /// What was open of them, as [`Voice::open`] says it, and when it ended.
    fn over(self, trouble: &str, day: &str) -> String {
        say!(self, "Over on {day}: {trouble}.", "Terminado el {day}: {trouble}.", [day, trouble])
    }

    /// Who ends a stop or a hold, and how.
    pub(super) fn may_release(self) -> &'static str {
        self.pick(
            "A stop or a hold ends with RELEASE and the name, from the coach.",
            "Lo levanta el entrenador, con LIBERA y el nombre.",
        )
    }

    /// A race to come.
    fn next_race(self, race: &str, day: &str) -> String {
        say!(self, "Race: {race}, {day}.", "Prueba: {race}, {day}.", [race, day])
    }

    /// A note of the coach's.
    fn noted_on(self, day: &str, text: &str) -> String {
        say!(self, "Note of {day}: {text}", "Nota del {day}: {text}", [day, text])
    }

    /// A result that was put right: what it was, by whom (none for the coach) and
    /// when.
    fn put_right(self, trial: &str, was: &str, by: Option<&Name>, day: &str) -> String {
        let by = by.map_or(self.pick("the coach", "el entrenador"), Name::as_str);
        say!(
            self,
            "{trial}: was {was}, put right by {by} {day}.",
            "{trial}: antes {was}, lo corrige {by} el {day}.",
            [trial, was, by, day]
        )
    }

    /// The coach's words to a swimmer.
    pub fn passed_on(self, text: &str) -> String {
        say!(self, "From your coach: {text}", "De tu entrenador: {text}", [text])
    }

    /// Where a swimmer's own page is, and for how long.
    fn own_page(self, url: &str, hours: i64) -> String {
        say!(
            self,
            "Drawn, and to take along: {url} - yours alone, for {hours} hours.",
            "Dibujado y para llevar: {url} - tuyo y de nadie mas, {hours} horas.",
            [url, hours]
        )
    }
}

/// What only a release ends.
pub(super) const fn needs_release(trouble: &Trouble) -> bool {
    matches!(trouble, Trouble::Faint { .. } | Trouble::Held { .. })
}
