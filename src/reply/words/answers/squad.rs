//! In which words it is told who is first, who came and how often.

use crate::message::Pick;
use crate::reply::{Coming, Voice};

impl Voice {
    /// Whole days ago.
    pub(super) fn days_ago(self, days: u32) -> String {
        match days {
            0 => self.pick("today", "hoy").to_owned(),
            1 => self.pick("yesterday", "ayer").to_owned(),
            _ => say!(self, "{days} days ago", "hace {days} dias", [days]),
        }
    }

    /// What a ranking is of.
    pub(super) fn ranking(
        self,
        pick: Pick,
        distance: u32,
        on: Option<&str>,
        below: Option<&str>,
    ) -> String {
        let what = match pick {
            Pick::Quickest => self.pick("Quickest", "Mas rapidos"),
            Pick::Slowest => self.pick("Slowest", "Mas lentos"),
            Pick::Better => self.pick("Faster than before", "Mejoran"),
            Pick::Worse => self.pick("Slower than before", "Mas lentos que antes"),
            Pick::Under => self.pick("Under", "Por debajo de"),
            Pick::Closest => self.pick("Nearest to", "Mas cerca de"),
        };
        let below = below.map(|below| format!(" {below}")).unwrap_or_default();
        let on = on.map(|on| format!(" ({on})")).unwrap_or_default();
        say!(
            self,
            "{what}{below}, {distance}{on}",
            "{what}{below}, {distance}{on}",
            [what, below, distance, on]
        )
    }

    /// So many of so many.
    pub(super) fn so_many_of(self, some: usize, all: usize) -> String {
        say!(self, "{some} of {all}", "{some} de {all}", [some, all])
    }

    /// None of them.
    pub(super) fn none_of(
        self,
        pick: Pick,
        distance: u32,
        on: Option<&str>,
        below: Option<&str>,
        of: usize,
    ) -> String {
        let head = self.ranking(pick, distance, on, below);
        match of {
            0 => say!(
                self,
                "{head}: no times to compare.",
                "{head}: no hay tiempos que comparar.",
                [head]
            ),
            _ => say!(self, "{head}: nobody of {of}.", "{head}: nadie de {of}.", [head, of]),
        }
    }

    /// So many were there.
    pub(super) fn were(self, here: usize, absent: usize, day: &str) -> String {
        let absent = match absent {
            0 => String::new(),
            _ => say!(self, ", {absent} absent", ", {absent} sin venir", [absent]),
        };
        say!(
            self,
            "{here} there on {day}{absent}.",
            "{here} el {day}{absent}.",
            [here, absent, day]
        )
    }

    /// How many were there on each night.
    pub(super) fn turnouts(self, mean: usize, nights: usize, each: &str, days: &str) -> String {
        match nights {
            0 => {
                say!(self, "No night on record, {days}.", "Ningun dia registrado: {days}.", [days])
            }
            _ => say!(
                self,
                "{mean} a night, {days}: {each}.",
                "{mean} por dia, {days}: {each}.",
                [mean, each, days]
            ),
        }
    }

    /// So many are to come.
    pub(super) fn due_to_come(self, all: usize, said: usize, out: usize, day: &str) -> String {
        say!(
            self,
            "{all} for {day}: {said} said yes, {out} out, the rest said nothing.",
            "{all} para el {day}: {said} dicen que si, {out} no vienen, el resto no ha dicho nada.",
            [all, said, out, day]
        )
    }

    /// What is known of somebody's coming.
    pub(super) fn whether_came(self, what: Coming, day: &str) -> String {
        match what {
            Coming::There => say!(self, "yes, there on {day}.", "si, estuvo el {day}.", [day]),
            Coming::NotThere => {
                say!(self, "no, marked absent on {day}.", "no, falta el {day}.", [day])
            }
            Coming::Unmarked => say!(
                self,
                "not marked and no swim told on {day}.",
                "sin marcar y sin nado el {day}.",
                [day]
            ),
            Coming::In => say!(self, "yes, coming on {day}.", "si, viene el {day}.", [day]),
            Coming::Perhaps => {
                say!(self, "perhaps coming on {day}.", "quiza viene el {day}.", [day])
            }
            Coming::Out => say!(self, "no, not coming on {day}.", "no viene el {day}.", [day]),
            Coming::Unsaid => say!(
                self,
                "expected on {day}, has said nothing.",
                "se le espera el {day}, no ha dicho nada.",
                [day]
            ),
        }
    }

    /// Last seen.
    pub(super) fn last_there(self, day: &str, ago: &str) -> String {
        say!(self, "last there {day}, {ago}.", "ultima vez el {day}, {ago}.", [day, ago])
    }

    /// Never seen.
    pub(super) fn never_there(self) -> &'static str {
        self.pick("no swim on record yet.", "aun sin nado registrado.")
    }

    /// What the squad swam.
    pub(super) fn squad_swum(
        self,
        metres: u32,
        sessions: usize,
        swimmers: usize,
        days: &str,
    ) -> String {
        let sessions = self.count(sessions, ["session", "sessions"], ["sesion", "sesiones"]);
        let swimmers = self.count(swimmers, ["swimmer", "swimmers"], ["persona", "personas"]);
        say!(
            self,
            "{metres}m in all, {sessions}, {swimmers}, {days}.",
            "{metres}m en total, {sessions}, {swimmers}, {days}.",
            [metres, sessions, swimmers, days]
        )
    }

    /// Nothing is stored.
    pub(super) fn nothing_stored(self) -> &'static str {
        self.pick(
            "Nothing of yours from the last 12 hours is stored. Text it: 200 test 3:12",
            "Nada tuyo guardado de las ultimas 12 horas. Escribe: 200 test 3:12",
        )
    }

    /// What is stored.
    pub(super) fn stored_is(self, what: &str) -> String {
        say!(self, "Yes, stored last: {what}.", "Si, lo ultimo guardado: {what}.", [what])
    }

    /// What somebody trains for.
    pub(super) fn trains_for(self, what: &str, day: &str, goal: Option<&str>) -> String {
        match goal {
            Some(goal) => say!(
                self,
                "{goal} for {what}, {day}.",
                "{goal} en {what}, {day}.",
                [goal, what, day]
            ),
            None => say!(
                self,
                "{what}, {day}; no time named.",
                "{what}, {day}; sin tiempo dicho.",
                [what, day]
            ),
        }
    }

    /// No goal.
    pub(super) fn no_goal(self) -> &'static str {
        self.pick("no race or goal on record.", "sin carrera ni meta registrada.")
    }
}
