//! The squad's evening: what changes and when it ends first, the lanes side by side.

use super::side_by_side::{alike, alike_by, asked_of, joined, mains_of, put, round_mains};
use super::{Limited, Sessions};
use crate::coaching::evening::{Beyond, GivenUp, TOGETHER_S, Tight};
use crate::coaching::stop_rule;
use crate::message::Name;
use crate::reply::shorthand::{main_shorthand, repeat_shorthand, shown};
use crate::reply::{ChangedReply, Ends, EveningReply, LaneChange, LaneReply, TooLong};
use crate::session::{Block, Part, Repeat};
use crate::units::{Level, Stroke};

/// What a language says of a night's set.
pub trait Evenings: Sessions + Limited {
    /// A night's first line: the day, what it is for, and when the lanes end.
    fn night_head(&self, day: &str, title: &str, ends: &str) -> String;
    /// `to 20:54`, `54 min`
    fn until(&self, ends: Ends) -> String;
    /// The lanes end so many minutes after each other.
    fn ends_apart(&self, minutes: u32) -> String;
    /// A lane is so many minutes longer than the booking.
    fn too_long(&self, lane: &str, over_min: u32, booked_min: u16) -> String;
    /// So many minutes over, of one of several lanes.
    fn minutes_over(&self, minutes: u32) -> String;
    /// Several lanes are longer than the booking, each by so much.
    fn over_booked(&self, booked_min: u16, lanes: &str) -> String;
    /// It fits with so much given up.
    fn fits_with(&self, what: &str) -> String;
    /// Nothing that could be given up makes it fit.
    fn never_fits(&self) -> &'static str;
    /// `6x50, not 8`
    fn fewer(&self, left: &str, had: u16) -> String;
    /// `3x50 more, not 5`, of a line that is begun.
    fn more_of(&self, left: &str, had: u16) -> String;
    /// Nothing is left of a line that is begun.
    fn no_more(&self, line: &str) -> String;
    /// Nothing is left of a line.
    fn left_out(&self, line: &str) -> String;
    /// A lane's slowest can't make a send-off, which stands; what would fit, and
    /// whether that is a guess.
    fn is_tight(&self, lane: &str, line: &str, fits: &str, guess: bool) -> String;
    /// A time to hold is beyond so many of a lane; what would be hard work there.
    fn is_beyond(&self, lane: &str, hold: &str, beyond: &Beyond, own: Option<&str>) -> String;
    /// A lane's end, and what it was.
    fn ends_now(&self, lane: &str, change: Option<&str>, now: &str, was: &str) -> String;
    /// A lane's end stays what it was.
    fn ends_still(&self, lane: &str, change: Option<&str>, now: &str) -> String;
    /// The main set is gone.
    fn purpose_gone(&self, lane: &str) -> String;
    /// Even so it is too long.
    fn still_too_long(&self, lane: &str) -> String;
    /// Nobody said when it began.
    fn counted_from_main(&self) -> &'static str;
    /// Those of a lane who swim the gentle version.
    fn swim_easy(&self, names: &str) -> String;

    /// The set of a night: its lanes side by side, or one of them whole.
    fn evening(&self, reply: &EveningReply) -> Vec<String> {
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
    fn evening_asides(&self, reply: &EveningReply) -> Vec<String> {
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
    fn remarks(&self, reply: &EveningReply) -> Vec<String> {
        let mut lines = self.too_long_for(reply);
        for lane in &reply.lanes {
            let name = self.lane(lane.lane);
            lines.extend(lane.tight.iter().map(|tight| self.tight(&name, tight)));
            lines.extend(lane.beyond.iter().map(|beyond| self.beyond(&name, beyond)));
        }
        lines
    }

    /// The lanes that are longer than the booking, and what would fit: a line for
    /// one, for several by how much each, then what to give up.
    fn too_long_for(&self, reply: &EveningReply) -> Vec<String> {
        let long = reply.lanes.iter().filter_map(|one| Some((one.lane, one.too_long.as_ref()?)));
        let long: Vec<(u8, &TooLong)> = long.collect();
        if let [(lane, too_long)] = long.as_slice() {
            return vec![self.does_not_fit(&self.lane(*lane), too_long, reply)];
        }
        let by = long.iter().map(|(lane, it)| {
            format!("{} {}", self.lane(*lane), self.minutes_over(it.by_s.div_ceil(60)))
        });
        let by: Vec<String> = by.collect();
        if by.is_empty() {
            return Vec::new();
        }
        let fits = long.iter().map(|(lane, it)| {
            let what = match it.fits {
                true => self.without(&it.without),
                false => self.never_fits().trim_end_matches('.').to_lowercase(),
            };
            (*lane, what)
        });
        let fits = alike_by(fits, |lanes| self.named(lanes)).into_iter();
        let fits: Vec<String> = fits.map(|(lanes, what)| format!("{lanes} {what}")).collect();
        let over = self.over_booked(reply.minutes, &by.join(", "));
        vec![over, self.fits_with(&fits.join("; "))]
    }

    /// One lane: who swims in it with each one's time to hold, then every block.
    fn lane_whole(&self, lane: &LaneReply, reply: &EveningReply) -> Vec<String> {
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
    fn ends_of(&self, lanes: &[LaneReply]) -> (String, Option<String>) {
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
    fn mains(&self, lanes: &[LaneReply]) -> String {
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
    fn round_it(&self, lanes: &[LaneReply]) -> Option<String> {
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
            if each.windows(2).all(|two| two[0] == two[1]) {
                each.truncate(1);
            }
            let name = match part {
                Part::Main => self.level(Level::Easy),
                part => self.part(part),
            };
            format!("{} {}", name.to_lowercase(), each.join("/"))
        });
        let said: Vec<String> = said.collect();
        (!said.is_empty()).then(|| format!("{}.", super::first_upper(&said.join(", "))))
    }

    /// What each lane has, in the order of the lanes, those with the same named
    /// together.
    fn by_lane(&self, lanes: &[LaneReply], each: Vec<String>) -> Vec<(String, String)> {
        alike_by(lanes.iter().map(|lane| lane.lane).zip(each), |lanes| self.named(lanes))
    }

    /// `L2`, `L2+L3`
    fn named(&self, lanes: &[u8]) -> String {
        lanes.iter().map(|lane| self.lane(*lane)).collect::<Vec<_>>().join("+")
    }

    /// `L2 is 3 min over the 60 booked. To fit: 6x50, not 8.`
    fn does_not_fit(&self, lane: &str, too_long: &TooLong, reply: &EveningReply) -> String {
        let over = self.too_long(lane, too_long.by_s.div_ceil(60), reply.minutes);
        match too_long.fits {
            true => format!("{over} {}", self.fits_with(&self.without(&too_long.without))),
            false => format!("{over} {}", self.never_fits()),
        }
    }

    /// `no 4x25 drill; 6x50, not 8`; of a line that is begun, what is still to be
    /// swum of it: `3x50 more, not 5`.
    fn without(&self, given_up: &[GivenUp]) -> String {
        let one = |one: &GivenUp| match one.left {
            0 if one.swum > 0 => self.no_more(&format!(
                "{}{}",
                one.line.distance.amount(),
                self.said_stroke(&one.line)
            )),
            0 => self.left_out(&self.plain(&one.line)),
            left => {
                let stroke = self.said_stroke(&one.line);
                let left = format!("{left}x{}{stroke}", one.line.distance.amount());
                match one.swum {
                    0 => self.fewer(&left, one.line.count),
                    _ => self.more_of(&left, one.line.count),
                }
            }
        };
        given_up.iter().map(one).collect::<Vec<_>>().join("; ")
    }

    /// A line by count, distance and stroke alone.
    fn plain(&self, line: &Repeat) -> String {
        let stroke = self.said_stroke(line);
        match line.count {
            1 => format!("{}{stroke}", line.distance.amount()),
            count => format!("{count}x{}{stroke}", line.distance.amount()),
        }
    }

    /// ` kick`; nothing for free.
    fn said_stroke(&self, line: &Repeat) -> String {
        match line.stroke {
            Stroke::Free => String::new(),
            stroke => format!(" {}", self.stroke(stroke)),
        }
    }

    /// `L2: 50s on 1:15 are tight, 1:25 would fit.`
    fn tight(&self, lane: &str, tight: &Tight) -> String {
        let far = format!("{}{}", tight.line.distance.amount(), self.said_stroke(&tight.line));
        let on = tight.line.send_off.map(|on| format!(" {} {on}", self.on())).unwrap_or_default();
        self.is_tight(lane, &format!("{far}{on}"), &tight.fits.to_string(), tight.guess)
    }

    /// `L3: 48 for the 50s is beyond 5 of 6; about 1:02 is hard work there.`
    fn beyond(&self, lane: &str, beyond: &Beyond) -> String {
        let time = beyond.line.target.map(shown).unwrap_or_default();
        let hold = format!("{} {time}", self.plain(&beyond.line));
        self.is_beyond(lane, &hold, beyond, beyond.own.map(shown).as_deref())
    }

    /// `L1 8x50: heron 48, teal 46.5`: each one's time to hold for what is of the main
    /// set, in the order in which they lead off.
    fn own_targets(&self, lane: &LaneReply, mains: &[&Block]) -> Vec<String> {
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
    fn expected(&self, lane: &LaneReply) -> Vec<String> {
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
    fn gently(&self, lanes: &[LaneReply]) -> Option<String> {
        let names: Vec<_> = lanes.iter().flat_map(|lane| lane.gently.clone()).collect();
        (!names.is_empty()).then(|| self.swim_easy(&joined(&names)))
    }

    /// When each lane changes its set while it is swum.
    fn stops(&self, lanes: &[LaneReply]) -> Vec<String> {
        let rule = |lane: &LaneReply| {
            let lines = lane.session.blocks.iter().flat_map(|block| &block.repeats);
            let rule = lines.filter_map(stop_rule).next();
            rule.map_or_else(String::new, |rule| self.stop_rule(&shown(rule.over), rule.then))
        };
        let each = self.by_lane(lanes, lanes.iter().map(rule).collect());
        let said = each.into_iter().filter(|(_, rule)| !rule.is_empty());
        said.map(|(lanes, rule)| format!("{lanes}: {rule}")).collect()
    }

    /// A set changed on the way: the lanes that are swum otherwise, and when each
    /// ends.
    fn set_changed(&self, reply: &ChangedReply) -> Vec<String> {
        let changed = |lane: &&LaneChange| {
            !lane.instead.is_empty() || !lane.given_up.is_empty() || lane.was != lane.now
        };
        // Where nothing is another by it, that is told of all.
        let any = reply.lanes.iter().any(|lane| changed(&lane));
        let told = reply.lanes.iter().filter(|lane| !any || changed(lane));
        let told: Vec<(u8, String)> = told.map(|lane| (lane.lane, self.lane_now(lane))).collect();
        let mut lines: Vec<String> = alike_by(told.into_iter(), |lanes| self.named(lanes))
            .into_iter()
            .map(|(lanes, now)| now.replacen(LANE, &lanes, 1))
            .collect();
        for lane in &reply.lanes {
            let name = self.lane(lane.lane);
            let tight = lane.tight.iter().map(|tight| self.tight(&name, tight));
            lines.extend(tight);
            lines.extend((!lane.keeps_purpose).then(|| self.purpose_gone(&name)));
            lines.extend((!lane.fits).then(|| self.still_too_long(&name)));
        }
        let long = reply.lanes.iter().map(|lane| lane.session.duration_s());
        let (least, most) = (long.clone().min().unwrap_or(0), long.max().unwrap_or(0));
        if most - least > TOGETHER_S {
            lines.push(self.ends_apart((most - least).div_ceil(60)));
        }
        lines.extend(reply.from_main.then(|| self.counted_from_main().to_owned()));
        lines
    }

    /// `L2 6x50, not 8: to 20:54 (was 20:58).`, the lane's name left open.
    fn lane_now(&self, lane: &LaneChange) -> String {
        let instead = lane.instead.iter().map(|line| repeat_shorthand(line, self));
        let mut parts: Vec<String> = instead.collect();
        if !lane.given_up.is_empty() {
            parts.push(self.without(&lane.given_up));
        }
        let change = (!parts.is_empty()).then(|| parts.join("; "));
        let now = self.until(lane.now);
        let name = match lane.whom.as_slice() {
            [] => LANE.to_owned(),
            names => format!("{LANE} {}", joined(names)),
        };
        // To the minute, as it is told.
        match self.until(lane.was) {
            was if was == now => self.ends_still(&name, change.as_deref(), &now),
            was => self.ends_now(&name, change.as_deref(), &now, &was),
        }
    }
}

/// Stands for the lanes that a line is of until it is known which share it.
const LANE: &str = "\u{1}";
