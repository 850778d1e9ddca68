//! The squad's evenings.

use super::{Registers, first_upper};
use crate::reply::{NightLine, SetFate, ShutReply, When};
use jiff::civil::Date;

/// What a language says of the timetable.
pub trait Timetables: Registers {
    /// `every Tue`, told by the weekday's word.
    fn every(&self, weekday: &str) -> String;
    /// How many lanes.
    fn lanes_there(&self, number: u8) -> String;
    /// The pool is shut.
    fn shut_then(&self) -> &'static str;
    /// No evening is known.
    fn no_nights(&self) -> &'static str;
    /// The set of a night that is off is swum on another.
    fn set_moves(&self, hard: bool, to: Date) -> String;
    /// The set of a night that is off is not swum.
    fn set_left_out(&self, hard: bool) -> &'static str;
    /// How many plans leave the day out, and for how many it was to be hard.
    fn plans_leave_it_out(&self, number: usize, hard: usize) -> String;
    /// The next night.
    fn next_night(&self, night: &str) -> String;

    /// `every Tue 20:00-21:00, 4 lanes`
    fn night_line(&self, line: &NightLine) -> String {
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
    fn timetable(&self, lines: &[NightLine]) -> Vec<String> {
        if lines.is_empty() {
            return vec![self.no_nights().to_owned()];
        }
        lines.iter().map(|line| format!("{}.", first_upper(&self.night_line(line)))).collect()
    }

    /// `Thu 5 Mar: shut. Its hard set moves to Tue 10 Mar.`
    fn shut(&self, reply: &ShutReply) -> String {
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
