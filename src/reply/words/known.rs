//! What is known of what was asked, each in as few words as it takes.

use jiff::civil::Date;

use super::small::{difference, first_upper};
use crate::message::Name;
use crate::reply::{Known, ResultLine, Swam, SwumReply, TestDue, Unknown, Voice};
use crate::swim::Trial;
use crate::units::Centis;

// What is told, and in which order.
impl Voice {
    /// Whatever is known.
    pub(super) fn known(self, known: &Known) -> Vec<String> {
        match known {
            Known::NextTest { who, due } => vec![told_of(who.as_ref(), &self.next_test(due))],
            Known::LaneOf { who, on, lane } => {
                let said = self.swims_in(&self.lane(*lane), &self.day(*on));
                vec![told_of(who.as_ref(), &said)]
            }
            Known::Lanes { on, lanes } => self.in_lanes(*on, lanes),
            Known::Swum(swum) => self.swum(swum),
            Known::Evening { night, of_day, next } => {
                let line = self.night_line(night);
                let said = match (night.shut, of_day) {
                    (true, _) => format!("{}.", first_upper(&line)),
                    (false, true) => self.is_on(&line),
                    (false, false) => self.next_night(&line),
                };
                let next = next.as_ref().map(|next| self.next_night(&self.night_line(next)));
                vec![followed(said, next)]
            }
            Known::Results { on, lines } => self.results_of(*on, lines),
            Known::Standing(reply) => self.standing(reply),
            Known::Told(answer) => self.answer(answer),
            Known::Not(unknown) => vec![self.unknown(unknown)],
        }
    }

    /// `test 400 on Thu 5 Mar, the test night.`
    fn next_test(self, due: &TestDue) -> String {
        match due {
            TestDue::Called { on, distance } => self.test_called(distance.amount(), &self.day(*on)),
            TestDue::From { on, now, distance, last } => {
                let from = self.day(*on);
                let last = format!("{}, {}", self.trial(last), self.short_day(last.on));
                let from = (!now).then_some(from.as_str());
                self.test_due(from, distance.map(|far| far.amount()), &last)
            }
            TestDue::First => self.first_test().to_owned(),
            TestDue::Waits => self.test_waits().to_owned(),
        }
    }

    /// `Wed 4 Mar L1: heron, teal.`, then a line a lane.
    fn in_lanes(self, on: Date, lanes: &[(u8, Vec<Name>)]) -> Vec<String> {
        let one = |(lane, names): &(u8, Vec<Name>)| {
            let names: Vec<&str> = names.iter().map(Name::as_str).collect();
            let names =
                if names.is_empty() { self.nobody_in().to_owned() } else { names.join(", ") };
            format!("{}: {names}.", self.lane(*lane))
        };
        let mut lines: Vec<String> = lanes.iter().map(one).collect();
        if let Some(first) = lines.first_mut() {
            first.insert_str(0, &format!("{} ", self.day(on)));
        }
        lines
    }

    /// `2 to 4 Mar: 2 sessions, 3600m, 1 test.`
    fn swum(self, swum: &SwumReply) -> Vec<String> {
        let days = match swum.from == swum.to {
            true => self.day(swum.from),
            false => self.span(swum.from, swum.to),
        };
        let said = told_of(swum.who.as_ref(), &self.swum_in(&days, swum));
        vec![followed(said, swum.cut.then(|| self.counted_back_to(&self.day(swum.from))))]
    }

    /// `Mon 2 Mar: heron 200 free 3:12 (-2.2 s).`, then a line a swimmer.
    fn results_of(self, on: Date, lines: &[ResultLine]) -> Vec<String> {
        // Of one swimmer each time is told; of several there would be no end.
        let of_one = lines.array_windows().all(|[one, next]| one.who == next.who);
        let one = |line: &ResultLine| {
            let what = match &line.what {
                Swam::Test(trial, before) => self.beside(trial, *before),
                Swam::Set { count, distance, held, times } => {
                    let held = held.map(|held| format!(", {}", self.held_so_many(held, *count)));
                    let each = times.iter().map(|time| time.map_or("x".to_owned(), Centis::short));
                    let each: Vec<String> = each.filter(|_| of_one).collect();
                    let each = (!each.is_empty()).then(|| format!(": {}", each.join(" ")));
                    format!(
                        "{count}x{}{}{}",
                        distance.amount(),
                        held.unwrap_or_default(),
                        each.unwrap_or_default()
                    )
                }
            };
            told_with(line.who.as_ref(), &format!("{what}."))
        };
        let mut lines: Vec<String> = lines.iter().map(one).collect();
        if let Some(first) = lines.first_mut() {
            first.insert_str(0, &format!("{}: ", self.day(on)));
        }
        lines
    }

    /// `200 free 3:10 (-2.2 s)`
    fn beside(self, trial: &Trial, before: Option<Centis>) -> String {
        let test = self.trial(trial);
        let Some(before) = before else { return test };
        let (more, less) = (before.max(trial.time), before.min(trial.time));
        let sign = if before < trial.time { '+' } else { '-' };
        match more.less(less) {
            Some(by) => format!("{test} ({sign}{})", difference(by)),
            None => format!("{test} (=)"),
        }
    }

    /// What isn't known, by its name.
    fn unknown(self, unknown: &Unknown) -> String {
        match unknown {
            Unknown::Lanes { on } => self.no_lanes(&self.day(*on)),
            Unknown::Results { on } => self.no_results(on.map(|on| self.day(on)).as_deref()),
            Unknown::Set { on } => self.no_set_on(&self.day(*on)),
            Unknown::TestNight => self.no_test_night().to_owned(),
            Unknown::Night { on: Some(on), next } => {
                let next = next.as_ref().map(|next| self.next_night(&self.night_line(next)));
                followed(self.no_night_on(&self.day(*on)), next)
            }
            Unknown::Night { on: None, .. } => self.nights_unknown().to_owned(),
        }
    }
}

// In which words.
impl Voice {
    /// The test night that is called.
    fn test_called(self, distance: u32, day: &str) -> String {
        say!(
            self,
            "next test {distance} on {day}, the squad's test night.",
            "proximo test {distance} el {day}, noche de test del equipo.",
            [distance, day]
        )
    }

    /// From when a test is due, `None` for now; how far, and what the last was.
    fn test_due(self, from: Option<&str>, distance: Option<u32>, last: &str) -> String {
        let due = from.map_or(say!(self, "a test is due now", "ya toca test"), |from| {
            say!(self, "next test due {from}", "proximo test el {from}", [from])
        });
        let best = distance
            .map_or(String::new(), |far| say!(self, ", best a {far}", ", mejor un {far}", [far]));
        say!(self, "{due}{best}. Last: {last}.", "{due}{best}. Ultimo: {last}.", [due, best, last])
    }

    /// No test yet.
    fn first_test(self) -> &'static str {
        self.pick(
            "no test yet: an even 200 or 400, fresh and warmed up, then text 200 test 3:12",
            "aun sin test: un 200 o 400 parejo, con fuerzas y calentando antes; luego escribe 200 \
             test 3:12",
        )
    }

    /// No test while something is open.
    fn test_waits(self) -> &'static str {
        self.pick(
            "no test while something is open (pain, illness, a hold or a stop).",
            "sin test mientras haya algo abierto (dolor, enfermedad o un alto).",
        )
    }

    /// In a lane on a day.
    fn swims_in(self, lane: &str, day: &str) -> String {
        say!(self, "in {lane} on {day}.", "en la {lane} el {day}.", [lane, day])
    }

    /// Nobody in a lane.
    fn nobody_in(self) -> &'static str {
        self.pick("nobody", "nadie")
    }

    /// What was swum between two days.
    fn swum_in(self, days: &str, swum: &SwumReply) -> String {
        let mut said = vec![match swum.sessions {
            0 => say!(self, "no session on record", "ninguna sesion registrada"),
            sessions => self.count(sessions, ["session", "sessions"], ["sesion", "sesiones"]),
        }];
        said.extend((swum.metres > 0).then(|| format!("{}m", swum.metres)));
        said.extend(
            (swum.tests > 0).then(|| self.count(swum.tests, ["test", "tests"], ["test", "tests"])),
        );
        said.extend((swum.sets > 0).then(|| {
            self.count(
                swum.sets,
                ["set with times", "sets with times"],
                ["serie con tiempos", "series con tiempos"],
            )
        }));
        format!("{days}: {}.", said.join(", "))
    }

    /// The first day that can be counted.
    fn counted_back_to(self, day: &str) -> String {
        say!(self, "I count no further back than {day}.", "No cuento antes del {day}.", [day])
    }

    /// So many repeats held of so many.
    fn held_so_many(self, held: u16, of: u16) -> String {
        say!(self, "held {held} of {of}", "{held} de {of} a ritmo", [held, of])
    }

    /// A night is on.
    fn is_on(self, night: &str) -> String {
        say!(self, "It is on: {night}.", "Si hay: {night}.", [night])
    }

    /// No lanes are drawn.
    fn no_lanes(self, day: &str) -> String {
        say!(
            self,
            "No lanes are drawn for {day} yet.",
            "Aun no hay calles repartidas para el {day}.",
            [day]
        )
    }

    /// Nothing by the clock is on record.
    fn no_results(self, day: Option<&str>) -> String {
        match day {
            Some(day) => say!(
                self,
                "No times on record for {day}.",
                "No hay tiempos guardados del {day}.",
                [day]
            ),
            None => say!(self, "No times on record yet.", "Aun no hay tiempos guardados."),
        }
    }

    /// No set is on record of a day.
    fn no_set_on(self, day: &str) -> String {
        say!(
            self,
            "No set of the squad's on record for {day}.",
            "No hay entreno del equipo guardado del {day}.",
            [day]
        )
    }

    /// No test night is called.
    fn no_test_night(self) -> &'static str {
        self.pick(
            "No test night is called. To call one: test night 400 thu",
            "No hay noche de test. Para convocarla: test night 400 jue",
        )
    }

    /// No night on a day.
    fn no_night_on(self, day: &str) -> String {
        say!(self, "No squad night on {day}.", "El {day} no hay entreno del equipo.", [day])
    }

    /// No nights at all.
    fn nights_unknown(self) -> &'static str {
        self.pick(
            "Nobody has told me when the squad swims: ask your coach.",
            "Nadie me ha dicho cuando nada el equipo: preguntale a tu coach.",
        )
    }

    /// Words of a swimmer's, or a guardian's, for those on deck.
    pub fn carried_to_deck(self, who: &str, asks: bool, text: &str) -> String {
        say!(
            self,
            "{who} {what}: {text}",
            "{who} {what}: {text}",
            [
                who,
                what = if asks { self.pick("asks", "pregunta") } else { self.pick("says", "dice") },
                text
            ]
        )
    }

    /// Who answers for these swimmers.
    pub fn guardian_of(self, names: &str) -> String {
        say!(self, "The guardian of {names}", "Quien responde por {names}", [names])
    }

    /// Their words went to those on deck.
    pub(super) fn given_to_deck(self) -> &'static str {
        self.pick("Passed on to your coach.", "Se lo he pasado a tu coach.")
    }
}

/// `heron: in L2`, `In L2`
fn told_of(who: Option<&Name>, said: &str) -> String {
    match who {
        Some(who) => format!("{who}: {said}"),
        None => first_upper(said),
    }
}

/// `heron 200 free 3:12`, `200 free 3:12`
fn told_with(who: Option<&Name>, said: &str) -> String {
    who.map_or_else(|| said.to_owned(), |who| format!("{who} {said}"))
}

fn followed(said: String, more: Option<String>) -> String {
    more.map_or(said.clone(), |more| format!("{said} {more}"))
}
