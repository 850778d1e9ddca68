//! A set that is changed while it is swum.

use super::side_by_side::alike_by;
use super::small::joined;
use crate::coaching::evening::TOGETHER_S;
use crate::reply::shorthand::repeat_shorthand;
use crate::reply::{ChangedReply, LaneChange, Voice};

// What is told, and in which order.
impl Voice {
    /// A set changed on the way: the lanes that are swum otherwise, and when each
    /// ends.
    pub(super) fn set_changed(self, reply: &ChangedReply) -> Vec<String> {
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
    fn lane_now(self, lane: &LaneChange) -> String {
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

// In which words.
impl Voice {
    /// A lane's end, and what it was.
    pub(super) fn ends_now(self, lane: &str, change: Option<&str>, now: &str, was: &str) -> String {
        match change {
            Some(change) => say!(
                self,
                "{lane} {change}: {now} (was {was}).",
                "{lane} {change}: {now} (antes {was}).",
                [lane, change, now, was]
            ),
            None => say!(
                self,
                "{lane} {now} (was {was}).",
                "{lane} {now} (antes {was}).",
                [lane, now, was]
            ),
        }
    }

    /// A lane's end stays what it was.
    fn ends_still(self, lane: &str, change: Option<&str>, now: &str) -> String {
        match change {
            Some(change) => say!(
                self,
                "{lane} {change}: {now}, as before.",
                "{lane} {change}: {now}, como antes.",
                [lane, change, now]
            ),
            None => {
                say!(self, "{lane} {now}, as before.", "{lane} {now}, como antes.", [lane, now])
            }
        }
    }

    /// The main set is gone.
    fn purpose_gone(self, lane: &str) -> String {
        say!(
            self,
            "{lane}: no time for the main set; all easy now, it comes back another night.",
            "{lane}: no da tiempo a la parte principal; todo suave, ya volvera otro dia.",
            [lane]
        )
    }

    /// Even so it is too long.
    fn still_too_long(self, lane: &str) -> String {
        say!(
            self,
            "{lane} runs over even so: the swim-down is never cut.",
            "{lane} se pasa aun asi: la vuelta a la calma no se recorta.",
            [lane]
        )
    }

    /// Nobody said when it began.
    fn counted_from_main(self) -> &'static str {
        self.pick(
            "I don't know when you began: counted from the main set on.",
            "No sé la hora de inicio: cuento desde la parte principal.",
        )
    }
}

/// Stands for the lanes that a line is of until it is known which share it.
const LANE: &str = "\u{1}";
