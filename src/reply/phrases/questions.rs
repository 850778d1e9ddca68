//! What is known of what was asked, each in as few words as it takes.

use jiff::civil::{Date, Time};

use super::words::difference;
use super::{Evenings, Weeklies, first_upper};
use crate::coaching::evening::Position;
use crate::message::Name;
use crate::reply::shorthand::repeat_shorthand;
use crate::reply::{
    Known, LaneStanding, ResultLine, StandingReply, Swam, SwumReply, TestDue, Unknown,
};
use crate::session::{Part, Repeat};
use crate::swim::Trial;
use crate::units::Centis;

/// What a language says to a question.
pub trait Questions: Weeklies + Evenings {
    /// The test night that is called.
    fn test_called(&self, distance: u32, day: &str) -> String;
    /// From when a test is due, `None` for now; how far, and what the last was.
    fn test_due(&self, from: Option<&str>, distance: Option<u32>, last: &str) -> String;
    /// No test yet.
    fn first_test(&self) -> &'static str;
    /// No test while something is open.
    fn test_waits(&self) -> &'static str;
    /// In a lane on a day.
    fn swims_in(&self, lane: &str, day: &str) -> String;
    /// Nobody in a lane.
    fn nobody_in(&self) -> &'static str;
    /// What was swum between two days.
    fn swum_in(&self, days: &str, swum: &SwumReply) -> String;
    /// The first day that can be counted.
    fn counted_back_to(&self, day: &str) -> String;
    /// So many repeats held of so many.
    fn held_so_many(&self, held: u16, of: u16) -> String;
    /// A night is on.
    fn is_on(&self, night: &str) -> String;
    /// The evening begins.
    fn begins_at(&self, time: &str) -> String;
    /// What is booked ends, and how long that is.
    fn booked_until(&self, time: &str, left_min: Option<u32>) -> String;
    /// One of so many.
    fn one_of_so_many(&self, number: u16, of: u16) -> String;
    /// A round of so many.
    fn in_round(&self, round: u16, of: u16) -> String;
    /// On the way to a part.
    fn on_the_way_to(&self, part: &str) -> String;
    /// The parts after it.
    fn and_then(&self, parts: &str) -> String;
    /// A lane ends.
    fn lane_ends(&self, time: &str) -> String;
    /// A lane has swum it all.
    fn all_swum(&self) -> &'static str;
    /// No lanes are drawn.
    fn no_lanes(&self, day: &str) -> String;
    /// Nothing by the clock is on record.
    fn no_results(&self, day: Option<&str>) -> String;
    /// No set is on record of a day.
    fn no_set_on(&self, day: &str) -> String;
    /// No test night is called.
    fn no_test_night(&self) -> &'static str;
    /// No night on a day.
    fn no_night_on(&self, day: &str) -> String;
    /// No nights at all.
    fn nights_unknown(&self) -> &'static str;
    /// Words of a swimmer's, or a guardian's, for those on deck.
    fn carried_to_deck(&self, who: &str, asks: bool, text: &str) -> String;
    /// Who answers for these swimmers.
    fn guardian_of(&self, names: &str) -> String;
    /// Her words went to those on deck.
    fn given_to_deck(&self) -> &'static str;

    /// Whatever is known.
    fn known(&self, known: &Known) -> Vec<String> {
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
                vec![joined(said, next)]
            }
            Known::Results { on, lines } => self.results_of(*on, lines),
            Known::Standing(reply) => self.standing(reply),
            Known::Not(unknown) => vec![self.unknown(unknown)],
        }
    }

    /// `test 400 on Thu 5 Mar, the test night.`
    fn next_test(&self, due: &TestDue) -> String {
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
    fn in_lanes(&self, on: Date, lanes: &[(u8, Vec<Name>)]) -> Vec<String> {
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
    fn swum(&self, swum: &SwumReply) -> Vec<String> {
        let days = match swum.from == swum.to {
            true => self.day(swum.from),
            false => self.span(swum.from, swum.to),
        };
        let said = told_of(swum.who.as_ref(), &self.swum_in(&days, swum));
        vec![joined(said, swum.cut.then(|| self.counted_back_to(&self.day(swum.from))))]
    }

    /// `Mon 2 Mar: heron 200 free 3:12 (-2.2 s).`, then a line a swimmer.
    fn results_of(&self, on: Date, lines: &[ResultLine]) -> Vec<String> {
        // Of one swimmer each time is told; of several there would be no end.
        let of_one = lines.windows(2).all(|two| two[0].who == two[1].who);
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
    fn beside(&self, trial: &Trial, before: Option<Centis>) -> String {
        let test = self.trial(trial);
        let Some(before) = before else { return test };
        let (more, less) = (before.max(trial.time), before.min(trial.time));
        let sign = if before < trial.time { '+' } else { '-' };
        match more.less(less) {
            Some(by) => format!("{test} ({sign}{})", difference(by)),
            None => format!("{test} (=)"),
        }
    }

    /// A line a lane, then what is booked.
    fn standing(&self, reply: &StandingReply) -> Vec<String> {
        let mut lines: Vec<String> = Vec::new();
        lines.extend(reply.begins.map(|begins| first_upper(&self.begins_at(&clock(begins)))));
        lines.extend(reply.lanes.iter().map(|lane| self.lane_stands(lane)));
        let until =
            reply.booked_until.map(|until| self.booked_until(&clock(until), reply.left_min));
        lines.extend(until);
        lines
    }

    /// `L2: 8x50 48 on 1:15, 5 of 8, then swim-down; ends 20:54.`
    fn lane_stands(&self, lane: &LaneStanding) -> String {
        let mut parts: Vec<String> = Vec::new();
        match &lane.position {
            Some(Position::Swimming { round, line, number, .. }) => {
                parts.push(self.swims_now(line, *number, *round));
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
    fn swims_now(&self, line: &Repeat, number: u16, (round, of): (u16, u16)) -> String {
        let mut said = repeat_shorthand(line, self);
        if line.count > 1 {
            said.push_str(&format!(", {}", self.one_of_so_many(number, line.count)));
        }
        if of > 1 {
            said.push_str(&format!(", {}", self.in_round(round, of)));
        }
        said
    }

    /// What isn't known, by its name.
    fn unknown(&self, unknown: &Unknown) -> String {
        match unknown {
            Unknown::Lanes { on } => self.no_lanes(&self.day(*on)),
            Unknown::Results { on } => self.no_results(on.map(|on| self.day(on)).as_deref()),
            Unknown::Set { on } => self.no_set_on(&self.day(*on)),
            Unknown::TestNight => self.no_test_night().to_owned(),
            Unknown::Night { on: Some(on), next } => {
                let next = next.as_ref().map(|next| self.next_night(&self.night_line(next)));
                joined(self.no_night_on(&self.day(*on)), next)
            }
            Unknown::Night { on: None, .. } => self.nights_unknown().to_owned(),
        }
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

fn joined(said: String, more: Option<String>) -> String {
    more.map_or(said.clone(), |more| format!("{said} {more}"))
}

/// `18:00`
fn clock(at: Time) -> String {
    at.strftime("%H:%M").to_string()
}
