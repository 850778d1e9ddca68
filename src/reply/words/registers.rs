//! Who is at the pool, and who comes.

use jiff::civil::Date;

use super::small::{first_upper, joined};
use crate::message::Name;
use crate::reply::{AttendReply, NightReply, RegisterReply, Voice};

// What is told, and in which order.
impl Voice {
    /// `Late by 10 on Tue 3 Mar.`
    pub(super) fn attends(self, reply: &AttendReply) -> String {
        let said = match (reply.leaves.filter(|_| reply.coming), reply.late_min) {
            _ if reply.perhaps => self.comes_perhaps(reply.on),
            (Some(leaves), _) => self.goes_early(&leaves.strftime("%H:%M").to_string(), reply.on),
            (None, Some(minutes)) if reply.coming => self.comes_late(minutes, reply.on),
            _ => self.comes(reply.coming, reply.on),
        };
        match &reply.who {
            Some(who) => format!("{who}: {said}"),
            None => first_upper(&said),
        }
    }

    /// `Tue 3 Mar: 9 in (2 late), 3 out, 5 no word.`, then who.
    pub(super) fn night(self, reply: &NightReply) -> Vec<String> {
        let late = reply.coming.iter().filter(|(_, late)| late.is_some()).count();
        let mut coming = self.coming(reply.coming.len());
        if late > 0 {
            coming.push_str(&format!(" ({})", self.late(late)));
        }
        let mut parts = vec![coming];
        if !reply.perhaps.is_empty() {
            parts.push(self.perhaps(reply.perhaps.len()));
        }
        if !reply.out.is_empty() {
            parts.push(self.out(reply.out.len()));
        }
        if !reply.unsaid.is_empty() {
            parts.push(self.unsaid(reply.unsaid.len()));
        }
        let mut lines = vec![format!("{}: {}.", self.day(reply.on), parts.join(", "))];
        let coming: Vec<String> = reply
            .coming
            .iter()
            .map(|(name, late)| match late {
                Some(minutes) => format!("{name} (+{minutes})"),
                None => name.to_string(),
            })
            .collect();
        let lists = [coming.join(", "), joined(&reply.out), joined(&reply.unsaid)];
        for (head, list) in self.turnout_heads().into_iter().zip(lists) {
            if !list.is_empty() {
                lines.push(format!("{head}: {list}."));
            }
        }
        lines
    }

    /// `Tue 3 Mar: 9 here, 1 absent (wren), 2 not marked (siskin, teal).`
    pub(super) fn register(self, reply: &RegisterReply) -> Vec<String> {
        let named = |counted: String, names: &[Name]| match names.len() {
            1..=MOST_NAMED => format!("{counted} ({})", joined(names)),
            _ => counted,
        };
        let mut parts = vec![self.here(reply.here.len())];
        if !reply.absent.is_empty() {
            parts.push(named(self.absent(reply.absent.len()), &reply.absent));
        }
        if !reply.unmarked.is_empty() {
            parts.push(named(self.unmarked(reply.unmarked.len()), &reply.unmarked));
        }
        let mut lines = Vec::new();
        if !reply.stopped.is_empty() {
            lines.push(self.must_not_swim(&joined(&reply.stopped), reply.stopped.len()));
        }
        lines.push(format!("{}: {}.", self.day(reply.on), parts.join(", ")));
        if !reply.left_out.is_empty() {
            lines.push(self.not_counted(&joined(&reply.left_out)));
        }
        if reply.listed && !reply.here.is_empty() {
            lines.push(format!("{}.", joined(&reply.here)));
        }
        lines
    }
}

// In which words.
impl Voice {
    /// They come, or not, to that night.
    fn comes(self, coming: bool, on: Date) -> String {
        say!(
            self,
            "{what} on {day}.",
            "{what} el {day}.",
            [
                what = if coming { self.pick("in", "si") } else { self.pick("out", "no") },
                day = self.day(on)
            ]
        )
    }

    /// They come so many minutes late.
    fn comes_late(self, minutes: u16, on: Date) -> String {
        say!(
            self,
            "in on {day}, {minutes} min late.",
            "si el {day}, {minutes} min tarde.",
            [day = self.day(on), minutes]
        )
    }

    /// They come perhaps.
    fn comes_perhaps(self, on: Date) -> String {
        say!(self, "perhaps on {day}.", "quiza el {day}.", [day = self.day(on)])
    }

    /// They go at that time.
    fn goes_early(self, at: &str, on: Date) -> String {
        say!(
            self,
            "in on {day} until {at}.",
            "si el {day}, hasta las {at}.",
            [day = self.day(on), at]
        )
    }

    /// How many come perhaps.
    fn perhaps(self, number: usize) -> String {
        say!(self, "{number} perhaps", "{number} quiza", [number])
    }

    /// How many come.
    fn coming(self, number: usize) -> String {
        match number {
            0 => say!(self, "nobody in yet", "nadie ha dicho que viene"),
            number => self.count(number, ["in"; 2], ["viene", "vienen"]),
        }
    }

    /// How many of them come late.
    fn late(self, number: usize) -> String {
        say!(self, "{number} late", "{number} tarde", [number])
    }

    /// How many don't come.
    fn out(self, number: usize) -> String {
        say!(self, "{number} out", "{number} no", [number])
    }

    /// How many said nothing.
    fn unsaid(self, number: usize) -> String {
        say!(self, "{number} no word", "{number} sin respuesta", [number])
    }

    /// Before the names of those who come, who don't, and who said nothing.
    fn turnout_heads(self) -> [&'static str; 3] {
        [
            self.pick("In", "Vienen"),
            self.pick("Out", "No vienen"),
            self.pick("No word", "Sin respuesta"),
        ]
    }

    /// How many are there.
    fn here(self, number: usize) -> String {
        match number {
            0 => say!(self, "nobody here yet", "nadie presente aun"),
            number => self.count(number, ["here"; 2], ["presente", "presentes"]),
        }
    }

    /// How many were looked for and are not there.
    fn absent(self, number: usize) -> String {
        self.count(number, ["absent"; 2], ["ausente", "ausentes"])
    }

    /// How many are not marked yet.
    fn unmarked(self, number: usize) -> String {
        say!(self, "{number} not marked", "{number} sin marcar", [number])
    }

    /// Those whom "all" did not mean.
    fn not_counted(self, names: &str) -> String {
        say!(
            self,
            "Not counted: {names}. If there: HERE and the name.",
            "Sin contar: {names}. Si esta: ESTA y el nombre.",
            [names]
        )
    }

    /// Those who are there and must not swim.
    pub(super) fn must_not_swim(self, names: &str, number: usize) -> String {
        say!(
            self,
            "{names} {are} stopped: out of the water until you release by text.",
            "{names} {are} nadar: fuera del agua hasta que lo liberes por texto.",
            [names, are = self.one_or_many(number, ["is", "are"], ["no debe", "no deben"])]
        )
    }
}

/// More names than this are only counted (ours: a list that nobody reads).
const MOST_NAMED: usize = 8;
