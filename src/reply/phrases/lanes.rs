//! Who swims in which lane, and on which send-offs.

use super::{Evenings, People, Timetables};
use crate::coaching::lanes::{LaneDrawn, LaneSendOff, Moved, OneMove, Shortfall, Standing};
use crate::message::Name;
use crate::reply::shorthand::line_shorthand;
use crate::reply::{Ends, LaneNow, LanesChangedReply, LanesReply, carried};
use crate::session::Repeat;
use crate::units::Lane;

/// What a language says of lanes.
pub trait Lanes: Evenings + People + Timetables {
    /// Those who are there and must not swim.
    fn in_no_lane(&self, names: &str, number: usize) -> String;
    /// What a question mark behind a name says.
    fn guessed(&self) -> &'static str;
    /// Who changes lanes.
    fn moved(&self, moves: &str) -> String;
    /// One lane of the new ones, behind the names of those who come to it.
    fn to_lane(&self, names: &str, lane: &str) -> String;
    /// For whom to keep it easy.
    fn keep_easy(&self, names: &str) -> String;
    /// Those who swim no more today, and are in no lane.
    fn done_today(&self, names: &str, how_many: usize) -> String;
    /// By how much send-offs are longer than the pace needs.
    fn stretched(&self, seconds: u32) -> String;
    /// A limit or wish that gave way, beside [`Lanes::stretched`].
    fn gave_way(&self, shortfall: &Shortfall) -> String;
    /// The one move worth making.
    fn one_move(&self, one: &OneMove) -> String;

    /// Someone goes from one lane to another, comes into one, or leaves hers.
    fn goes(&self, names: &str, from: Option<&str>, to: Option<&str>) -> String;
    /// What a lane swims from now on, and what it swam before.
    fn swims_now(&self, lane: &str, line: &str, was: Option<&str>) -> String;
    /// The gap between two who leave behind each other.
    fn gap_is(&self, seconds: u32) -> String;
    /// They share no lane.
    fn share_no_lane(&self, names: &str) -> String;
    /// Nothing is another by it.
    fn as_it_was(&self) -> &'static str;

    /// Those who must not swim, a line a lane, and what gave way.
    fn lanes(&self, reply: &LanesReply) -> Vec<String> {
        let mut lines = Vec::new();
        if !reply.stopped.is_empty() {
            lines.push(self.in_no_lane(&joined(&reply.stopped), reply.stopped.len()));
        }
        if !reply.done.is_empty() {
            lines.push(self.done_today(&joined(&reply.done), reply.done.len()));
        }
        let swum = reply.lanes.iter().filter(|lane| !lane.swimmers.is_empty());
        lines.extend(swum.map(|lane| self.lane_line(lane)));
        if !reply.careful.is_empty() {
            lines.push(self.keep_easy(&joined(&reply.careful)));
        }
        lines.extend(
            reply
                .relaxed
                .iter()
                .filter(|one| !is_stretch(one))
                .map(|shortfall| self.gave_way(shortfall)),
        );
        lines
    }

    /// What may wait where there is no room: who moved, the one move worth making,
    /// what to think of.
    fn lanes_asides(&self, reply: &LanesReply) -> Vec<String> {
        let mut lines = Vec::new();
        if !reply.moved.is_empty() {
            lines.push(self.moved(&self.moves(&reply.moved)));
        }
        let swum = reply.lanes.iter().filter(|lane| !lane.swimmers.is_empty());
        let stretched =
            swum.clone().flat_map(|lane| &lane.send_offs).map(|one| one.stretched_s).max();
        lines.extend(stretched.filter(|s| *s > 0).map(|seconds| self.stretched(seconds)));
        lines.extend(reply.advice.as_ref().map(|one| self.one_move(one)));
        if swum.flat_map(|lane| &lane.swimmers).any(|one| !is_tested(one.standing)) {
            lines.push(self.guessed().to_owned());
        }
        let focus = reply.focus.iter();
        lines.extend(focus.map(|(who, focus)| self.focus(&format!("{who}: {}", carried(focus)))));
        lines
    }

    /// What became of lanes: the night where that is another, who went where, what
    /// those lanes swim now and when they end.
    fn lanes_changed(&self, reply: &LanesChangedReply) -> Vec<String> {
        let mut lines = Vec::new();
        lines.extend(reply.night.as_ref().map(|night| format!("{}.", self.night_line(night))));
        lines.extend(reply.gap.map(|gap| self.gap_is(gap.seconds())));
        if !reply.parted.is_empty() {
            lines.push(self.share_no_lane(&joined(&reply.parted)));
        }
        let went = self.went(&reply.moved);
        lines.extend((!went.is_empty()).then(|| format!("{went}.")));
        let ordered = reply.moved.is_empty();
        for lane in &reply.lanes {
            let came =
                reply.moved.iter().any(|(_, _, to)| to.is_some_and(|to| to.number() == lane.lane));
            lines.extend(self.lane_now_swims(lane, ordered, came));
        }
        for lane in &reply.lanes {
            let name = self.lane(lane.lane);
            lines.extend(lane.tight.iter().map(|tight| self.tight(&name, tight)));
        }
        let told = reply.relaxed.iter().filter(|one| !is_stretch(one));
        lines.extend(told.map(|shortfall| self.gave_way(shortfall)));
        if lines.is_empty() {
            lines.push(self.as_it_was().to_owned());
        }
        lines
    }

    /// `wren L1 to L2; kite out of L3`
    fn went(&self, moved: &[(Name, Option<Lane>, Option<Lane>)]) -> String {
        type Way = (Option<Lane>, Option<Lane>);
        let mut each: Vec<(Way, Vec<&str>)> = Vec::new();
        for (name, from, to) in moved {
            match each.iter_mut().find(|(way, _)| *way == (*from, *to)) {
                Some((_, names)) => names.push(name.as_str()),
                None => each.push(((*from, *to), vec![name.as_str()])),
            }
        }
        let name = |lane: Option<Lane>| lane.map(|lane| self.lane(lane.number()));
        let said = each.into_iter().map(|((from, to), names)| {
            self.goes(&names.join(", "), name(from).as_deref(), name(to).as_deref())
        });
        said.collect::<Vec<_>>().join("; ")
    }

    /// `L2 now 7x100 on 1:55 (was 1:50), to 20:54.`; of a lane that somebody came to
    /// also what is as before, and of one that is ordered anew its order.
    fn lane_now_swims(&self, lane: &LaneNow, ordered: bool, came: bool) -> Option<String> {
        let name = self.lane(lane.lane);
        let brief = |line: &Repeat| line_shorthand(line, self);
        let line = lane.line.as_ref().map(brief);
        let was = lane.line_was.as_ref().map(brief);
        let until = lane.now.map(|ends| self.until(ends));
        let until_was = lane.was.map(|ends| self.until(ends));
        let same_end = until == until_was || lane.now.zip(lane.was).is_some_and(hardly_apart);
        let mut said = match (&line, &was) {
            (Some(line), Some(was)) if line != was => {
                self.swims_now(&name, line, Some(&self.before(lane).unwrap_or(was.clone())))
            }
            (Some(line), None) => self.swims_now(&name, line, None),
            _ if ordered => format!("{name}: {}", joined(&lane.swimmers)),
            (Some(line), _) if came => format!("{name} {line}"),
            _ if same_end => return None,
            _ => {
                let was = until_was?;
                return until.map(|now| self.ends_now(&name, None, &now, &was));
            }
        };
        if let Some(until) = until.filter(|_| came || !same_end || line != was) {
            said.push_str(&format!(", {until}"));
        }
        said.push('.');
        Some(said)
    }

    /// The send-off that a lane had before, where nothing else of its line is another.
    fn before(&self, lane: &LaneNow) -> Option<String> {
        let (now, was) = lane.line.as_ref().zip(lane.line_was.as_ref())?;
        let on = was.send_off.filter(|_| now.send_off.is_some())?;
        let alike = Repeat { send_off: now.send_off, target: now.target, ..was.clone() };
        (alike == *now).then(|| on.to_string())
    }

    /// `L1 teal, heron: 50 on 1:05, 100 on 2:10`; of a set the line that asks for
    /// most metres.
    fn lane_line(&self, drawn: &LaneDrawn) -> String {
        let names: Vec<String> = drawn
            .swimmers
            .iter()
            .map(|one| format!("{}{}", one.name, if is_tested(one.standing) { "" } else { "?" }))
            .collect();
        let of_set = drawn.send_offs.iter().any(|one| one.count > 1);
        let metres = |one: &&LaneSendOff| u32::from(one.count) * one.distance.amount();
        let most = drawn.send_offs.iter().rev().max_by_key(metres);
        let send_offs: Vec<String> = match of_set {
            true => most.map(|one| self.lane_send_off(one)).into_iter().collect(),
            false => drawn.send_offs.iter().map(|one| self.lane_send_off(one)).collect(),
        };
        let line = format!("{} {}", self.lane(drawn.lane.number()), names.join(", "));
        if send_offs.is_empty() { line } else { format!("{line}: {}", send_offs.join(", ")) }
    }

    /// `50 on 1:05`, `8x50 on 1:05`
    fn lane_send_off(&self, one: &LaneSendOff) -> String {
        let far = match one.count {
            1 => one.distance.amount().to_string(),
            count => format!("{count}x{}", one.distance.amount()),
        };
        format!("{far} {} {}", self.on(), one.send_off)
    }

    /// `dunlin, robin to L2; wren to L1`
    fn moves(&self, moved: &[Moved]) -> String {
        let mut lanes: Vec<Lane> = moved.iter().map(|one| one.to).collect();
        lanes.sort_unstable();
        lanes.dedup();
        let to = |lane: Lane| {
            let names: Vec<&str> =
                moved.iter().filter(|one| one.to == lane).map(|one| one.name.as_str()).collect();
            self.to_lane(&names.join(", "), &self.lane(lane.number()))
        };
        lanes.into_iter().map(to).collect::<Vec<_>>().join("; ")
    }
}

/// Ends that nobody would look at the clock for: within a minute of each other.
fn hardly_apart((now, was): (Ends, Ends)) -> bool {
    match (now, was) {
        (Ends::At(now), Ends::At(was)) => now.duration_since(was).as_secs().abs() <= 60,
        (Ends::In(now), Ends::In(was)) => now.abs_diff(was) <= 60,
        _ => false,
    }
}

const fn is_tested(standing: Standing) -> bool {
    matches!(standing, Standing::Tested(_))
}

const fn is_stretch(shortfall: &Shortfall) -> bool {
    matches!(shortfall, Shortfall::Room { .. })
}

fn joined(names: &[Name]) -> String {
    names.iter().map(Name::as_str).collect::<Vec<_>>().join(", ")
}
