//! The squad's evening on a whiteboard: a line a block, the lanes side by side.

use super::{Limited, Sessions};
use crate::coaching::evening::{Beyond, GivenUp, Tight};
use crate::coaching::stop_rule;
use crate::reply::shorthand::{block_shorthand, repeat_shorthand, shown};
use crate::reply::{ChangedReply, Ends, EveningReply, LaneChange, LaneReply, TooLong};
use crate::session::{Part, Repeat};
use crate::units::Stroke;

/// What a language says of a night's set.
pub trait Evenings: Sessions + Limited {
    /// A night's first line: the day, what it is for, how far each lane swims and
    /// when it ends.
    fn night_head(&self, day: &str, title: &str, lanes: &str) -> String;
    /// `to 20:54`, `54 min`
    fn until(&self, ends: Ends) -> String;
    /// A lane is so many minutes longer than the booking.
    fn too_long(&self, lane: &str, over_min: u32, booked_min: u16) -> String;
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
    /// A lane's slowest can't make a send-off.
    fn needs(&self, lane: &str, distance: u32, needed: &str, written: &str) -> String;
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

    /// The set of a night.
    fn evening(&self, reply: &EveningReply) -> Vec<String> {
        let title = reply.lanes.get(reply.lanes.len() / 2).map(|lane| lane.session.purpose);
        let ends = reply.lanes.iter().map(|lane| {
            let ends = lane.ends.map_or(Ends::In(lane.session.duration_s()), Ends::At);
            format!("{}{} {}", lane.session.amount(), lane.session.unit, self.until(ends))
        });
        let ends = self.by_lane(&reply.lanes, ends.collect());
        let ends: Vec<String> =
            ends.into_iter().map(|(lanes, ends)| format!("{lanes} {ends}")).collect();
        let ends = ends.join(", ");
        let title = title.map_or("", |purpose| self.title(purpose));
        let mut lines = vec![self.night_head(&self.day(reply.on), title, &ends)];
        for lane in &reply.lanes {
            let name = self.lane(lane.lane);
            lines.extend(lane.too_long.as_ref().map(|it| self.does_not_fit(&name, it, reply)));
            lines.extend(lane.tight.iter().map(|tight| self.tight(&name, tight)));
            lines.extend(lane.beyond.iter().map(|beyond| self.beyond(&name, beyond)));
        }
        lines.extend(self.whiteboard(&reply.lanes));
        lines.extend(self.within_limits(&reply.without));
        if !reply.in_room {
            lines.extend(reply.lanes.iter().flat_map(|lane| self.own_targets(lane)));
        }
        lines.extend(self.stops(&reply.lanes));
        lines
    }

    /// What each lane has, in the order of the lanes, those with the same named
    /// together.
    fn by_lane(&self, lanes: &[LaneReply], each: Vec<String>) -> Vec<(String, String)> {
        let mut alike: Vec<(Vec<u8>, String)> = Vec::new();
        for (lane, what) in lanes.iter().zip(each) {
            match alike.iter_mut().find(|(_, known)| *known == what) {
                Some((same, _)) => same.push(lane.lane),
                None => alike.push((vec![lane.lane], what)),
            }
        }
        alike.into_iter().map(|(lanes, what)| (self.named(&lanes), what)).collect()
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

    /// `L2 needs 1:25 for the 50s, not 1:15.`
    fn tight(&self, lane: &str, tight: &Tight) -> String {
        let needed = tight.line.send_off.map(|on| on.to_string()).unwrap_or_default();
        self.needs(lane, tight.line.distance.amount(), &needed, &tight.written.to_string())
    }

    /// `L3: 48 for the 50s is beyond 5 of 6; about 1:02 is hard work there.`
    fn beyond(&self, lane: &str, beyond: &Beyond) -> String {
        let time = beyond.line.target.map(shown).unwrap_or_default();
        let hold = format!("{} {time}", self.plain(&beyond.line));
        self.is_beyond(lane, &hold, beyond, beyond.own.map(shown).as_deref())
    }

    /// A line a block where the lanes have the same parts, else a line a lane.
    fn whiteboard(&self, lanes: &[LaneReply]) -> Vec<String> {
        let parts = |lane: &LaneReply| -> Vec<_> {
            lane.session.blocks.iter().map(|block| block.part).collect()
        };
        let Some(first) = lanes.first() else { return Vec::new() };
        if lanes.iter().any(|lane| parts(lane) != parts(first)) {
            return lanes.iter().map(|lane| self.one_lane(lane)).collect();
        }
        let blocks = &first.session.blocks;
        // The main set first, since it is what may not wait behind `more`.
        let is_main = |at: &usize| matches!(blocks[*at].part, Part::Main | Part::Test);
        let mains = (0..blocks.len()).filter(is_main);
        let others = (0..blocks.len()).filter(|at| !is_main(at));
        mains
            .chain(others)
            .map(|at| {
                let versions: Vec<String> = lanes
                    .iter()
                    .map(|lane| block_shorthand(&lane.session.blocks[at], self))
                    .collect();
                let part = self.part(first.session.blocks[at].part);
                match self.by_lane(lanes, versions).as_slice() {
                    [(_, same)] => format!("{part} {same}"),
                    differing => {
                        let each = differing.iter().map(|(lanes, what)| format!("{lanes} {what}"));
                        format!("{part} {}", each.collect::<Vec<_>>().join("; "))
                    }
                }
            })
            .collect()
    }

    /// All of one lane in one line.
    fn one_lane(&self, lane: &LaneReply) -> String {
        let blocks = lane.session.blocks.iter().map(|block| self.block_line(block));
        format!("{}: {}", self.lane(lane.lane), blocks.collect::<Vec<_>>().join("; "))
    }

    /// `L1 8x50: heron 48, teal 46.5`
    fn own_targets(&self, lane: &LaneReply) -> Vec<String> {
        let mut lines: Vec<(String, Vec<String>)> = Vec::new();
        for own in &lane.targets {
            for line in &own.lines {
                let Some(target) = line.target else { continue };
                let one = format!("{} {}", own.swimmer, shown(target));
                let what = self.plain(line);
                match lines.iter_mut().find(|(known, _)| *known == what) {
                    Some((_, all)) if !all.contains(&one) => all.push(one),
                    Some(_) => {}
                    None => lines.push((what, vec![one])),
                }
            }
        }
        let name = self.lane(lane.lane);
        lines.into_iter().map(|(what, all)| format!("{name} {what}: {}.", all.join(", "))).collect()
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

    /// A set changed on the way.
    fn set_changed(&self, reply: &ChangedReply) -> Vec<String> {
        let mut lines: Vec<String> = reply.lanes.iter().map(|lane| self.lane_now(lane)).collect();
        for lane in &reply.lanes {
            let name = self.lane(lane.lane);
            lines.extend((!lane.keeps_purpose).then(|| self.purpose_gone(&name)));
            lines.extend((!lane.fits).then(|| self.still_too_long(&name)));
        }
        lines.extend(reply.from_main.then(|| self.counted_from_main().to_owned()));
        lines
    }

    /// `L2 6x50, not 8: ends 20:54 (was 20:58).`
    fn lane_now(&self, lane: &LaneChange) -> String {
        let instead = lane.instead.iter().map(|line| repeat_shorthand(line, self));
        let mut parts: Vec<String> = instead.collect();
        if !lane.given_up.is_empty() {
            parts.push(self.without(&lane.given_up));
        }
        let change = (!parts.is_empty()).then(|| parts.join("; "));
        let (name, now) = (self.lane(lane.lane), self.until(lane.now));
        // To the minute, as it is told.
        match self.until(lane.was) {
            was if was == now => self.ends_still(&name, change.as_deref(), &now),
            was => self.ends_now(&name, change.as_deref(), &now, &was),
        }
    }
}
