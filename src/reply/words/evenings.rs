//! The squad's evening: what changes and when it ends first, the lanes side by side.

use super::side_by_side::{alike, alike_by, asked_of, mains_of, put, round_mains};
use super::small::joined;
use crate::coaching::evening::TOGETHER_S;
use crate::coaching::stop_rule;
use crate::message::Name;
use crate::reply::shorthand::{main_shorthand, shown};
use crate::reply::{Ends, EveningReply, LaneReply, Voice};
use crate::session::{Block, Part, Repeat};
use crate::units::Level;

// What is told, and in which order.
impl Voice {
    /// The set of a night: its lanes side by side, or one of them whole.
    pub(in crate::reply) fn evening(self, reply: &EveningReply) -> Vec<String> {
        if let (Some(_), [lane]) = (reply.only, reply.lanes.as_slice()) {
            return self.lane_whole(lane, reply);
        }
        let title = reply.lanes.get(reply.lanes.len() / 2).map(|lane| lane.session.purpose);
        let title = title.map_or("", |purpose| self.title(purpose));
        let (ends, apart) = self.ends_of(&reply.lanes);
        let mut lines = vec![self.night_head(&self.day(reply.on), title, &ends)];
        lines.extend(apart);
        lines.extend(self.remarks(reply));
        lines.push(self.mains(&reply.lanes));
        lines.extend(self.round_it(&reply.lanes));
        lines.extend(self.within_limits(&reply.without));
        lines
    }

    /// What may wait where there is no room: when to change a set on the way, and
    /// who swims it gently; of one lane, what drills and kick are likely to take.
    pub(in crate::reply) fn evening_asides(self, reply: &EveningReply) -> Vec<String> {
        if let (Some(_), [lane]) = (reply.only, reply.lanes.as_slice()) {
            return if reply.in_room { Vec::new() } else { self.expected(lane) };
        }
        let mut lines = self.stops(&reply.lanes);
        if !reply.in_room {
            lines.extend(self.gently(&reply.lanes));
        }
        lines
    }

    /// What to say of lanes before what they swim.
    fn remarks(self, reply: &EveningReply) -> Vec<String> {
        let mut lines = self.too_long_for(reply);
        for lane in &reply.lanes {
            let name = self.lane(lane.lane);
            lines.extend(lane.tight.iter().map(|tight| self.tight(&name, tight)));
            lines.extend(lane.beyond.iter().map(|beyond| self.beyond(&name, beyond)));
        }
        lines
    }

    /// One lane: who swims in it with each one's time to hold, then every block.
    fn lane_whole(self, lane: &LaneReply, reply: &EveningReply) -> Vec<String> {
        let names = !reply.in_room;
        let ends = lane.ends.map_or(Ends::In(lane.session.duration_s()), Ends::At);
        let far = format!("{}{} {}", lane.session.amount(), lane.session.unit, self.until(ends));
        let title = self.title(lane.session.purpose);
        let head = format!("{} {}", self.lane(lane.lane), self.day(reply.on));
        let mut lines = vec![self.night_head(&head, title, &far)];
        let mains = mains_of(&lane.session);
        let targets = if names { self.own_targets(lane, &mains) } else { Vec::new() };
        // Whoever is told with a time need not be told twice.
        let told = |one: &Name| {
            lane.targets.iter().any(|own| own.swimmer == *one && !own.lines.is_empty())
        };
        if names && !lane.swimmers.iter().all(told) {
            lines.push(format!("{}.", joined(&lane.swimmers)));
        }
        lines.extend(self.remarks(reply));
        lines.extend(mains.iter().map(|block| self.block_line(block)));
        lines.extend(targets);
        let others = lane.session.blocks.iter().filter(|block| !mains.contains(block));
        lines.extend(others.map(|block| self.block_line(block)));
        if names {
            lines.extend(self.gently(std::slice::from_ref(lane)));
        }
        lines
    }

    /// `to 20:54` where all end together; else each lane's end, and how far apart.
    fn ends_of(self, lanes: &[LaneReply]) -> (String, Option<String>) {
        let long = lanes.iter().map(|lane| lane.session.duration_s());
        let (least, most) = (long.clone().min().unwrap_or(0), long.max().unwrap_or(0));
        let until =
            |lane: &LaneReply| lane.ends.map_or(Ends::In(lane.session.duration_s()), Ends::At);
        let last = lanes.iter().max_by_key(|lane| lane.session.duration_s());
        if most - least <= TOGETHER_S {
            return (last.map(|lane| self.until(until(lane))).unwrap_or_default(), None);
        }
        let each = lanes.iter().map(|lane| self.until(until(lane))).collect();
        let each = self.by_lane(lanes, each).into_iter();
        let each: Vec<String> = each.map(|(lanes, ends)| format!("{lanes} {ends}")).collect();
        (each.join(", "), Some(self.ends_apart((most - least).div_ceil(60))))
    }

    /// `Main L1 2x(7x100 1:29 on 1:45, 50 easy); L2 ...`
    fn mains(self, lanes: &[LaneReply]) -> String {
        let main = |lane: &LaneReply| {
            let blocks = mains_of(&lane.session).into_iter();
            let asked = blocks.map(|block| main_shorthand(&asked_of(block), self));
            asked.collect::<Vec<_>>().join("; ")
        };
        let part = lanes.first().and_then(|lane| mains_of(&lane.session).first().map(|b| b.part));
        let part = self.part(part.unwrap_or(Part::Main));
        match self.by_lane(lanes, lanes.iter().map(main).collect()).as_slice() {
            [(_, same)] => format!("{part} {same}"),
            differing => {
                let each = differing.iter().map(|(lanes, what)| format!("{lanes} {what}"));
                format!("{part} {}", each.collect::<Vec<_>>().join("; "))
            }
        }
    }

    /// `Warm-up 400/300, drill 4x50, swim-down 300/200.`: what goes round the main
    /// set, lane by lane where they differ.
    fn round_it(self, lanes: &[LaneReply]) -> Option<String> {
        let mut parts: Vec<Part> = Vec::new();
        let others = lanes.iter().flat_map(|lane| round_mains(&lane.session));
        for part in others.map(|(part, _)| part) {
            if !parts.contains(&part) {
                parts.push(part);
            }
        }
        let far = |lane: &LaneReply, part: Part| -> u32 {
            let of_part = round_mains(&lane.session).into_iter().filter(|(of, _)| *of == part);
            of_part.map(|(_, far)| far).sum()
        };
        let said = parts.into_iter().map(|part| {
            let mut each: Vec<String> =
                lanes.iter().map(|lane| far(lane, part).to_string()).collect();
            if each.array_windows().all(|[one, next]| one == next) {
                each.truncate(1);
            }
            let name = match part {
                Part::Main => self.level(Level::Easy),
                part => self.part(part),
            };
            format!("{} {}", name.to_lowercase(), each.join("/"))
        });
        let said: Vec<String> = said.collect();
        (!said.is_empty()).then(|| format!("{}.", super::small::first_upper(&said.join(", "))))
    }

    /// What each lane has, in the order of the lanes, those with the same named
    /// together.
    fn by_lane(self, lanes: &[LaneReply], each: Vec<String>) -> Vec<(String, String)> {
        alike_by(lanes.iter().map(|lane| lane.lane).zip(each), |lanes| self.named(lanes))
    }

    /// `L2`, `L2+L3`
    pub(super) fn named(self, lanes: &[u8]) -> String {
        lanes.iter().map(|lane| self.lane(*lane)).collect::<Vec<_>>().join("+")
    }

    /// `L1 8x50: heron 48, teal 46.5`: each one's time to hold for what is of the main
    /// set, in the order in which they lead off.
    fn own_targets(self, lane: &LaneReply, mains: &[&Block]) -> Vec<String> {
        let of_main = |line: &Repeat| {
            let lines = mains.iter().flat_map(|block| &block.repeats);
            lines.into_iter().any(|one| alike(one, line))
        };
        let mut lines: Vec<(String, Vec<String>)> = Vec::new();
        for own in &lane.targets {
            for line in own.lines.iter().filter(|line| of_main(line)) {
                let Some(target) = line.target else { continue };
                put(&mut lines, self.plain(line), format!("{} {}", own.swimmer, shown(target)));
            }
        }
        let name = self.lane(lane.lane);
        lines.into_iter().map(|(what, all)| format!("{name} {what}: {}.", all.join(", "))).collect()
    }

    /// What each is likely to take for kick and other strokes, with `?` where that is a
    /// guess.
    fn expected(self, lane: &LaneReply) -> Vec<String> {
        let mut lines: Vec<(String, Vec<String>)> = Vec::new();
        for own in &lane.targets {
            for expected in &own.expected {
                let mark = if expected.guess { "?" } else { "" };
                let line = &expected.line;
                let what = format!("{}{}", line.distance.amount(), self.said_stroke(line));
                let one = format!("{} {}{mark}", own.swimmer, shown(expected.time));
                put(&mut lines, what, one);
            }
        }
        let name = self.lane(lane.lane);
        lines.into_iter().map(|(what, all)| format!("{name} {what}: {}.", all.join(", "))).collect()
    }

    /// Who swims the gentle version.
    fn gently(self, lanes: &[LaneReply]) -> Option<String> {
        let names: Vec<_> = lanes.iter().flat_map(|lane| lane.gently.clone()).collect();
        (!names.is_empty()).then(|| self.swim_easy(&joined(&names)))
    }

    /// When each lane changes its set while it is swum.
    fn stops(self, lanes: &[LaneReply]) -> Vec<String> {
        let rule = |lane: &LaneReply| {
            let lines = lane.session.blocks.iter().flat_map(|block| &block.repeats);
            let rule = lines.filter_map(stop_rule).next();
            rule.map_or_else(String::new, |rule| self.stop_rule(&shown(rule.over), rule.then))
        };
        let each = self.by_lane(lanes, lanes.iter().map(rule).collect());
        let said = each.into_iter().filter(|(_, rule)| !rule.is_empty());
        said.map(|(lanes, rule)| format!("{lanes}: {rule}")).collect()
    }
}

// In which words.
impl Voice {
    /// A night's first line: the day, what it is for, and when the lanes end.
    fn night_head(self, day: &str, title: &str, ends: &str) -> String {
        format!("{day}, {title}, {ends}.")
    }

    /// `to 20:54`, `54 min`
    pub(super) fn until(self, ends: Ends) -> String {
        match ends {
            Ends::At(time) => {
                say!(self, "to {time}", "hasta {time}", [time = time.strftime("%H:%M")])
            }
            Ends::In(seconds) => format!("{} min", seconds.div_ceil(60)),
        }
    }

    /// The lanes end so many minutes after each other.
    pub(super) fn ends_apart(self, minutes: u32) -> String {
        say!(
            self,
            "Lanes end {minutes} min apart.",
            "Las calles acaban con {minutes} min de diferencia.",
            [minutes]
        )
    }

    /// Those of a lane who swim the gentle version.
    fn swim_easy(self, names: &str) -> String {
        say!(self, "Easy version: {names}.", "Version suave: {names}.", [names])
    }
}
