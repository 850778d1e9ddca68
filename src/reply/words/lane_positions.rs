//! Where each lane stands in its set now.

use super::small::{clock, first_upper};
use crate::coaching::evening::Position;
use crate::reply::shorthand::repeat_shorthand;
use crate::reply::{LaneStanding, StandingReply, Voice};
use crate::session::{Part, Repeat};

// What is told, and in which order.
impl Voice {
    /// A line a lane, then what is booked.
    pub(super) fn standing(self, reply: &StandingReply) -> Vec<String> {
        let mut lines: Vec<String> = Vec::new();
        lines.extend(reply.begins.map(|begins| first_upper(&self.begins_at(&clock(begins)))));
        lines.extend(reply.lanes.iter().map(|lane| self.lane_stands(lane)));
        let until =
            reply.booked_until.map(|until| self.booked_until(&clock(until), reply.left_min));
        lines.extend(until);
        lines
    }

    /// `L2: 8x50 48 on 1:15, 5 of 8, then swim-down; ends 20:54.`
    fn lane_stands(self, lane: &LaneStanding) -> String {
        let mut parts: Vec<String> = Vec::new();
        match &lane.position {
            Some(Position::Swimming { round, line, number, .. }) => {
                parts.push(self.swims_this(line, *number, *round));
            }
            Some(Position::Changing { next, .. }) => {
                parts.push(self.on_the_way_to(&self.part(*next).to_lowercase()));
            }
            Some(Position::Over) => parts.push(self.all_swum().to_owned()),
            None => {}
        }
        if !lane.to_come.is_empty() && lane.position.is_some() {
            let named = |part: &Part| self.part(*part).to_lowercase();
            let named: Vec<String> = lane.to_come.iter().map(named).collect();
            parts.push(self.and_then(&self.all_of(&named)));
        }
        let over = lane.position == Some(Position::Over);
        let ends = lane.ends.filter(|_| !over).map(|ends| self.lane_ends(&clock(ends)));
        let said: Vec<String> =
            [parts.join(", ")].into_iter().chain(ends).filter(|one| !one.is_empty()).collect();
        format!("{}: {}.", self.lane(lane.lane), said.join("; "))
    }

    /// `8x50 48 on 1:15, 5 of 8, round 2 of 3`
    fn swims_this(self, line: &Repeat, number: u16, (round, of): (u16, u16)) -> String {
        let mut said = repeat_shorthand(line, self);
        if line.count > 1 {
            said.push_str(&format!(", {}", self.one_of_so_many(number, line.count)));
        }
        if of > 1 {
            said.push_str(&format!(", {}", self.in_round(round, of)));
        }
        said
    }
}

// In which words.
impl Voice {
    /// The evening begins.
    fn begins_at(self, time: &str) -> String {
        say!(self, "begins {time}.", "empieza a las {time}.", [time])
    }

    /// What is booked ends, and how long that is.
    fn booked_until(self, time: &str, left_min: Option<u32>) -> String {
        match left_min {
            Some(left) => say!(
                self,
                "Booked until {time}, {left} min left.",
                "Reservado hasta las {time}, quedan {left} min.",
                [time, left]
            ),
            None => say!(self, "Booked until {time}.", "Reservado hasta las {time}.", [time]),
        }
    }

    /// One of so many.
    fn one_of_so_many(self, number: u16, of: u16) -> String {
        say!(self, "no {number} of {of}", "la {number} de {of}", [number, of])
    }

    /// A round of so many.
    fn in_round(self, round: u16, of: u16) -> String {
        say!(self, "round {round} of {of}", "vuelta {round} de {of}", [round, of])
    }

    /// On the way to a part.
    fn on_the_way_to(self, part: &str) -> String {
        say!(self, "changing over to the {part}", "cambio; ahora {part}", [part])
    }

    /// The parts after it.
    fn and_then(self, parts: &str) -> String {
        say!(self, "then {parts}", "luego {parts}", [parts])
    }

    /// A lane ends.
    fn lane_ends(self, time: &str) -> String {
        say!(self, "ends {time}", "acaba a las {time}", [time])
    }

    /// A lane has swum it all.
    fn all_swum(self) -> &'static str {
        self.pick("done by the clock", "por el reloj ya acabada")
    }
}
