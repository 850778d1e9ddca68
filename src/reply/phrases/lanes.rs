//! Who swims in which lane, and on which send-offs.

use super::{Evenings, People};
use crate::coaching::lanes::{LaneDrawn, LaneSendOff, Moved, OneMove, Shortfall, Standing};
use crate::message::Name;
use crate::reply::{LanesReply, carried};
use crate::units::Lane;

/// What a language says of lanes.
pub trait Lanes: Evenings + People {
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

    /// A line a lane, then what there is to say of them.
    fn lanes(&self, reply: &LanesReply) -> Vec<String> {
        let mut lines = Vec::new();
        if !reply.stopped.is_empty() {
            lines.push(self.in_no_lane(&joined(&reply.stopped), reply.stopped.len()));
        }
        if !reply.done.is_empty() {
            lines.push(self.done_today(&joined(&reply.done), reply.done.len()));
        }
        let swum = reply.lanes.iter().filter(|lane| !lane.swimmers.is_empty());
        lines.extend(swum.clone().map(|lane| self.lane_line(lane)));
        if !reply.moved.is_empty() {
            lines.push(self.moved(&self.moves(&reply.moved)));
        }
        let stretched =
            swum.clone().flat_map(|lane| &lane.send_offs).map(|one| one.stretched_s).max();
        lines.extend(stretched.filter(|s| *s > 0).map(|seconds| self.stretched(seconds)));
        lines.extend(
            reply
                .relaxed
                .iter()
                .filter(|one| !is_stretch(one))
                .map(|shortfall| self.gave_way(shortfall)),
        );
        if !reply.careful.is_empty() {
            lines.push(self.keep_easy(&joined(&reply.careful)));
        }
        if swum.flat_map(|lane| &lane.swimmers).any(|one| !is_tested(one.standing)) {
            lines.push(self.guessed().to_owned());
        }
        lines.extend(reply.advice.as_ref().map(|one| self.one_move(one)));
        let focus = reply.focus.iter();
        lines.extend(focus.map(|(who, focus)| self.focus(&format!("{who}: {}", carried(focus)))));
        lines
    }

    /// `L1 teal, heron: 50 on 1:05, 100 on 2:10`
    fn lane_line(&self, drawn: &LaneDrawn) -> String {
        let names: Vec<String> = drawn
            .swimmers
            .iter()
            .map(|one| format!("{}{}", one.name, if is_tested(one.standing) { "" } else { "?" }))
            .collect();
        let send_offs: Vec<String> =
            drawn.send_offs.iter().map(|one| self.lane_send_off(one)).collect();
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

const fn is_tested(standing: Standing) -> bool {
    matches!(standing, Standing::Tested(_))
}

const fn is_stretch(shortfall: &Shortfall) -> bool {
    matches!(shortfall, Shortfall::Room { .. })
}

fn joined(names: &[Name]) -> String {
    names.iter().map(Name::as_str).collect::<Vec<_>>().join(", ")
}
