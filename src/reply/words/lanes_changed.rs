//! What became of lanes: who went where, what they swim now and until when.

use super::lanes::is_stretch;
use super::small::joined;
use crate::message::Name;
use crate::reply::shorthand::line_shorthand;
use crate::reply::{Ends, LaneNow, LanesChangedReply, Voice};
use crate::session::Repeat;
use crate::units::Lane;

// What is told, and in which order.
impl Voice {
    /// What became of lanes: the night where that is another, who went where, what
    /// those lanes swim now and when they end.
    pub(in crate::reply) fn lanes_changed(self, reply: &LanesChangedReply) -> Vec<String> {
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
    fn went(self, moved: &[(Name, Option<Lane>, Option<Lane>)]) -> String {
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
    fn lane_now_swims(self, lane: &LaneNow, ordered: bool, came: bool) -> Option<String> {
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
    fn before(self, lane: &LaneNow) -> Option<String> {
        let (now, was) = lane.line.as_ref().zip(lane.line_was.as_ref())?;
        let on = was.send_off.filter(|_| now.send_off.is_some())?;
        let alike = Repeat { send_off: now.send_off, target: now.target, ..was.clone() };
        (alike == *now).then(|| on.to_string())
    }
}

// In which words.
impl Voice {
    /// Someone goes from one lane to another, comes into one, or leaves theirs.
    fn goes(self, names: &str, from: Option<&str>, to: Option<&str>) -> String {
        match (from, to) {
            (Some(from), Some(to)) => {
                say!(self, "{names} {from} to {to}", "{names} de {from} a {to}", [names, from, to])
            }
            (None, Some(to)) => say!(self, "{names} into {to}", "{names} a {to}", [names, to]),
            (Some(from), None) => {
                say!(self, "{names} out of {from}", "{names} sale de {from}", [names, from])
            }
            (None, None) => names.to_owned(),
        }
    }

    /// What a lane swims from now on, and what it swam before.
    fn swims_now(self, lane: &str, line: &str, was: Option<&str>) -> String {
        match was {
            Some(was) => say!(
                self,
                "{lane} now {line} (was {was})",
                "{lane} ahora {line} (antes {was})",
                [lane, line, was]
            ),
            None => say!(self, "{lane} now {line}", "{lane} ahora {line}", [lane, line]),
        }
    }

    /// The gap between two who leave behind each other.
    fn gap_is(self, seconds: u32) -> String {
        say!(self, "Leave {seconds} s apart.", "Salir cada {seconds} s.", [seconds])
    }

    /// They share no lane.
    fn share_no_lane(self, names: &str) -> String {
        say!(self, "Kept apart: {names}.", "Separados: {names}.", [names])
    }

    /// Nothing is another by it.
    fn as_it_was(self) -> &'static str {
        self.pick("Nothing changes: it is so already.", "No cambia nada: ya es asi.")
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
