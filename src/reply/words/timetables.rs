//! The squad's evenings.

use jiff::civil::Date;

use super::small::first_upper;
use crate::reply::{NightLine, SetFate, ShutReply, Voice, When};

// What is told, and in which order.
impl Voice {
    /// `every Tue 20:00-21:00, 4 lanes`
    pub(super) fn night_line(self, line: &NightLine) -> String {
        let mut said = match line.when {
            When::Every(weekday) => self.every(self.weekday(weekday)),
            When::On(on) => self.day(on),
        };
        if line.shut {
            return format!("{said}: {}", self.shut_then());
        }
        match (&line.starts, &line.ends) {
            (Some(starts), Some(ends)) => said.push_str(&format!(" {starts}-{ends}")),
            (Some(starts), None) => said.push_str(&format!(" {starts}")),
            _ => {}
        }
        if let Some(lanes) = line.lanes {
            said.push_str(&format!(", {}", self.lanes_there(lanes)));
        }
        if let Some(course) = line.course {
            said.push_str(&format!(", {}", self.course(course)));
        }
        said
    }

    /// Evenings, a line each.
    pub(super) fn timetable(self, lines: &[NightLine]) -> Vec<String> {
        if lines.is_empty() {
            return vec![self.no_nights().to_owned()];
        }
        lines.iter().map(|line| format!("{}.", first_upper(&self.night_line(line)))).collect()
    }

    /// `Thu 5 Mar: shut. Its hard set moves to Tue 10 Mar.`
    pub(super) fn shut(self, reply: &ShutReply) -> String {
        let mut said = format!("{}: {}.", self.day(reply.on), self.shut_then());
        match reply.set {
            Some(SetFate::Moved { to, hard }) => {
                said.push_str(&format!(" {}", self.set_moves(hard, to)));
            }
            Some(SetFate::LeftOut { hard }) => {
                said.push_str(&format!(" {}", self.set_left_out(hard)));
            }
            None => {}
        }
        if reply.plans > 0 {
            let plans = self.plans_leave_it_out(reply.plans, reply.hard_plans);
            said.push_str(&format!(" {plans}"));
        }
        if let Some(next) = &reply.next {
            said.push_str(&format!(" {}", self.next_night(&self.night_line(next))));
        }
        said
    }
}

// In which words.
impl Voice {
    /// `every Tue`, told by the weekday's word.
    fn every(self, weekday: &str) -> String {
        say!(self, "every {weekday}", "cada {weekday}", [weekday])
    }

    /// How many lanes.
    fn lanes_there(self, number: u8) -> String {
        self.count(usize::from(number), ["lane", "lanes"], ["calle", "calles"])
    }

    /// The pool is shut.
    fn shut_then(self) -> &'static str {
        self.pick("pool shut", "piscina cerrada")
    }

    /// No evening is known.
    fn no_nights(self) -> &'static str {
        self.pick(
            "No squad nights yet. To set one: slot tue 2000-2100 4 lanes",
            "Aun no hay turnos. Para poner uno: turno martes 2000-2100 4 calles",
        )
    }

    /// The set of a night that is off is swum on another.
    fn set_moves(self, hard: bool, to: Date) -> String {
        say!(
            self,
            "Its {what}set moves to {day}.",
            "Su serie{what} pasa al {day}.",
            [what = if hard { self.pick("hard ", " dura") } else { "" }, day = self.day(to)]
        )
    }

    /// The set of a night that is off is not swum.
    fn set_left_out(self, hard: bool) -> &'static str {
        if hard {
            self.pick(
                "Its hard set is left out: hard days stay apart, no catching up.",
                "Su serie dura se deja: los dias duros van separados, sin recuperarla.",
            )
        } else {
            self.pick("Its set is left out: no catching up.", "Su serie se deja: sin recuperarla.")
        }
    }

    /// How many plans leave the day out, and for how many it was to be hard.
    fn plans_leave_it_out(self, number: usize, hard: usize) -> String {
        let leave = if number == 1 {
            self.pick("1 plan leaves", "1 plan deja")
        } else {
            &say!(self, "{number} plans leave", "{number} planes dejan", [number])
        };
        let hard = if hard > 0 {
            say!(self, " ({hard} hard)", " ({hard} duros)", [hard])
        } else {
            String::new()
        };
        say!(
            self,
            "{leave} the day out{hard}; NEXT works it out anew.",
            "{leave} ese dia{hard}; SIGUIENTE lo calcula de nuevo.",
            [leave, hard]
        )
    }

    /// The next night.
    pub(super) fn next_night(self, night: &str) -> String {
        say!(self, "Next night: {night}.", "Proximo turno: {night}.", [night])
    }
}
