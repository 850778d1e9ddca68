//! Who swims in which lane, and on which send-offs.

use super::small::joined;
use crate::coaching::lanes::{KnownPace, LaneDrawn, LaneSendOff, Moved, OneMove, Shortfall};
use crate::reply::{LanesReply, Voice, carried};
use crate::units::Lane;

// What is told, and in which order.
impl Voice {
    /// Those who must not swim, a line a lane, and what gave way.
    pub(in crate::reply) fn lanes(self, reply: &LanesReply) -> Vec<String> {
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
    pub(in crate::reply) fn lanes_asides(self, reply: &LanesReply) -> Vec<String> {
        let mut lines = Vec::new();
        if !reply.moved.is_empty() {
            lines.push(self.moved(&self.moves(&reply.moved)));
        }
        let swum = reply.lanes.iter().filter(|lane| !lane.swimmers.is_empty());
        let stretched =
            swum.clone().flat_map(|lane| &lane.send_offs).map(|one| one.stretched_s).max();
        lines.extend(stretched.filter(|s| *s > 0).map(|seconds| self.stretched(seconds)));
        lines.extend(reply.advice.as_ref().map(|one| self.one_move(one)));
        if swum.flat_map(|lane| &lane.swimmers).any(|one| !is_tested(one.known_pace)) {
            lines.push(self.guessed().to_owned());
        }
        let focus = reply.focus.iter();
        lines.extend(focus.map(|(who, focus)| self.focus(&format!("{who}: {}", carried(focus)))));
        lines
    }

    /// `L1 teal, heron: 50 on 1:05, 100 on 2:10`; of a set the line that asks for
    /// most metres.
    fn lane_line(self, drawn: &LaneDrawn) -> String {
        let names: Vec<String> = drawn
            .swimmers
            .iter()
            .map(|one| format!("{}{}", one.name, if is_tested(one.known_pace) { "" } else { "?" }))
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
    fn lane_send_off(self, one: &LaneSendOff) -> String {
        let far = match one.count {
            1 => one.distance.amount().to_string(),
            count => format!("{count}x{}", one.distance.amount()),
        };
        format!("{far} {} {}", self.on(), one.send_off)
    }

    /// `dunlin, robin to L2; wren to L1`
    fn moves(self, moved: &[Moved]) -> String {
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

// In which words.
impl Voice {
    /// Those who are there and must not swim.
    pub(super) fn in_no_lane(self, names: &str, number: usize) -> String {
        say!(
            self,
            "{names} {are} stopped and in no lane: out of the water until you release by text.",
            "{names} {are} nadar, sin calle: fuera del agua hasta que lo liberes por texto.",
            [names, are = self.one_or_many(number, ["is", "are"], ["no debe", "no deben"])]
        )
    }

    /// What a question mark behind a name says.
    fn guessed(self) -> &'static str {
        self.pick("? pace guessed or not known.", "? ritmo estimado o desconocido.")
    }

    /// Who changes lanes.
    fn moved(self, moves: &str) -> String {
        say!(self, "Moved: {moves}.", "Cambian: {moves}.", [moves])
    }

    /// One lane of the new ones, behind the names of those who come to it.
    fn to_lane(self, names: &str, lane: &str) -> String {
        say!(self, "{names} to {lane}", "{names} a {lane}", [names, lane])
    }

    /// For whom to keep it easy.
    fn keep_easy(self, names: &str) -> String {
        say!(self, "Keep it easy for {names}.", "Suave para {names}.", [names])
    }

    /// Those who swim no more today, and are in no lane.
    fn done_today(self, names: &str, number: usize) -> String {
        let are = self.one_or_many(
            number,
            ["is", "are"],
            ["no nada mas hoy y no tiene", "no nadan mas hoy y no tienen"],
        );
        say!(
            self,
            "{names} {are} done for today and in no lane.",
            "{names} {are} calle.",
            [names, are]
        )
    }

    /// By how much send-offs are longer than the pace needs.
    fn stretched(self, seconds: u32) -> String {
        say!(
            self,
            "Send-offs up to {seconds} s longer, so that all fit behind each other.",
            "Salidas hasta {seconds} s mas largas, para que quepan todos.",
            [seconds]
        )
    }

    /// A limit or wish that gave way, beside [`Voice::stretched`].
    pub(super) fn gave_way(self, shortfall: &Shortfall) -> String {
        match shortfall {
            Shortfall::NoLane { name, lane } => say!(
                self,
                "No L{lane} tonight for {name}: placed by pace.",
                "Hoy no hay C{lane} para {name}: calle por ritmo.",
                [lane, name]
            ),
            Shortfall::TooMany { capacity, .. } => say!(
                self,
                "Up to {capacity} in a lane: more than there is good room for.",
                "Hasta {capacity} por calle: son muchos.",
                [capacity]
            ),
            Shortfall::LaneFull { lane, pinned } => say!(
                self,
                "You put {pinned} in L{lane}: more than there is good room for.",
                "Has puesto {pinned} en la C{lane}: son muchos.",
                [pinned, lane]
            ),
            Shortfall::Apart { give_up } => {
                let pairs: Vec<String> = give_up
                    .iter()
                    .map(|(one, other)| {
                        say!(self, "{one} and {other}", "{one} y {other}", [one, other])
                    })
                    .collect();
                say!(
                    self,
                    "Could not keep apart: {pairs}.",
                    "No se pudo separar: {pairs}.",
                    [pairs = pairs.join("; ")]
                )
            }
            Shortfall::Lapped { longest, .. } => say!(
                self,
                "Nothing over {longest} in these lanes, or the last is lapped.",
                "Nada de mas de {longest} en estas calles, o se dobla a quien va al final.",
                [longest]
            ),
            Shortfall::Room { stretch_s } => self.stretched(*stretch_s),
        }
    }

    /// The one move worth making.
    pub fn one_move(self, one: &OneMove) -> String {
        let (name, lane) = (&one.name, one.to);
        say!(
            self,
            "Worth a move: {name} to L{lane} ({name} lane {lane}).",
            "Conviene: {name} a la C{lane} ({name} calle {lane}).",
            [name, lane]
        )
    }
}

const fn is_tested(known_pace: KnownPace) -> bool {
    matches!(known_pace, KnownPace::Tested(_))
}

pub const fn is_stretch(shortfall: &Shortfall) -> bool {
    matches!(shortfall, Shortfall::Room { .. })
}
