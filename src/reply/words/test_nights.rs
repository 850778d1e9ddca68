//! The heats of a test night, who counts, and who is owed one.

use super::small::joined;
use crate::coaching::test_night::{Heat, Place, minutes};
use crate::message::Name;
use crate::reply::shorthand::shown;
use crate::reply::{HeatOfReply, TestNightReply, Voice};

// What is told, and in which order.
impl Voice {
    /// The head, those who must not swim, a line a heat, who counts, who swims
    /// easy instead; once it is over, who is owed one.
    pub(super) fn test_night(self, reply: &TestNightReply) -> Vec<String> {
        let head = self.test_night_of(&reply.distance.amount().to_string(), &self.day(reply.on));
        let nobody_there =
            reply.easy.is_empty() && reply.soon.is_empty() && reply.stopped.is_empty();
        if reply.heats.is_empty() && nobody_there {
            return vec![format!("{head}."), self.owed(reply)];
        }
        let total = self.heats_take(reply.heats.len(), minutes(&reply.heats));
        let mut lines = vec![match reply.heats.len() {
            0 => format!("{head}."),
            _ => format!("{head}: {total}."),
        }];
        if !reply.stopped.is_empty() {
            lines.push(self.in_no_lane(&named(&reply.stopped), reply.stopped.len()));
        }
        let numbered = (1..).zip(&reply.heats);
        lines.extend(numbered.map(|(number, heat)| self.heat_line(number, heat)));
        let mut soon = by_swims(&reply.soon).into_iter();
        lines.extend(soon.next().map(|(swims, names)| self.even_instead(swims, &names)));
        lines.extend(soon.map(|(swims, names)| self.even_too(swims, &names)));
        if !reply.easy.is_empty() {
            lines.push(self.easy_instead(&named(&reply.easy)));
        }
        if !reply.owed.is_empty() {
            lines.push(self.owed(reply));
        }
        lines
    }

    /// What may wait where there is no room: who counts.
    pub(in crate::reply) fn test_night_asides(self, reply: &TestNightReply) -> Vec<String> {
        let counting = || self.counting(reply.heats.len()).to_owned();
        (!reply.heats.is_empty()).then(counting).into_iter().collect()
    }

    /// Someone's heat and lane, who counts for them, and for whom they count.
    pub(super) fn heat_of(self, reply: &HeatOfReply) -> String {
        let lane = self.lane(reply.lane.number());
        let far = reply.distance.amount().to_string();
        let head = self.test_night_of(&far, &self.day(reply.on));
        let expected = reply.expected.map(|time| shown(time.to_second()));
        let mut said = format!("{head}: {}", self.in_heat(reply.heat, reply.of, &lane));
        said.extend(expected.map(|time| self.about(&time)));
        said.extend(reply.counter.as_ref().map(|name| self.counted_by(name)));
        let counts = reply.counts_for.as_ref();
        said.extend(counts.map(|(heat, name)| self.counts_for(*heat, name)));
        said.push('.');
        said
    }

    /// `Heat 1, 7 min: L1 heron, plover; L2 teal`
    fn heat_line(self, number: usize, heat: &Heat) -> String {
        let mut lanes: Vec<_> = heat.places.iter().map(|place| place.lane).collect();
        lanes.sort_unstable();
        lanes.dedup();
        let lanes = lanes.into_iter().map(|lane| {
            let there = heat.places.iter().filter(|place| place.lane == lane);
            let names: Vec<&str> = there.map(|place: &Place| place.name.as_str()).collect();
            format!("{} {}", self.lane(lane.number()), names.join(", "))
        });
        let lanes = lanes.collect::<Vec<_>>().join("; ");
        format!("{}: {lanes}", self.heat(number, heat.minutes))
    }

    /// Who is owed a test.
    fn owed(self, reply: &TestNightReply) -> String {
        if reply.owed.is_empty() {
            return self.none_owed().to_owned();
        }
        let catch_up = reply.catch_up.map(|on| self.day(on));
        self.still_owed(&named(&reply.owed), catch_up.as_deref())
    }
}

// In which words.
impl Voice {
    /// The distance and the day.
    fn test_night_of(self, distance: &str, day: &str) -> String {
        format!("Test {distance}, {day}")
    }

    /// How many heats, in which order, and how long all take.
    fn heats_take(self, number: usize, minutes: u32) -> String {
        say!(
            self,
            "{number}, fastest first, {minutes} min",
            "{number}, primero la mas rapida, {minutes} min",
            [number = self.count(number, ["heat", "heats"], ["serie", "series"]), minutes]
        )
    }

    /// A heat's name and how long it takes.
    fn heat(self, number: usize, minutes: u32) -> String {
        say!(
            self,
            "Heat {number}, {minutes} min",
            "Serie {number}, {minutes} min",
            [number, minutes]
        )
    }

    /// A heat of so many, and the lane.
    fn in_heat(self, heat: usize, of: usize, lane: &str) -> String {
        say!(self, "heat {heat} of {of}, {lane}", "serie {heat} de {of}, {lane}", [heat, of, lane])
    }

    /// Behind that, the time that is expected.
    fn about(self, time: &str) -> String {
        say!(self, ", about {time}", ", unos {time}", [time])
    }

    /// Behind that, who counts their lengths.
    fn counted_by(self, name: &str) -> String {
        say!(self, ", {name} counts", ", cuenta {name}", [name])
    }

    /// Behind that, in which heat they count, and for whom.
    fn counts_for(self, heat: usize, name: &str) -> String {
        say!(
            self,
            "; you count for {name} in heat {heat}",
            "; tu cuentas para {name} en la serie {heat}",
            [name, heat]
        )
    }

    /// Who counts for whom.
    fn counting(self, heats: usize) -> &'static str {
        match heats {
            1 => self.pick(
                "Lengths are counted from the deck.",
                "Los largos se cuentan desde el borde.",
            ),
            _ => self.pick(
                "Lengths are counted by the same lane of the next heat, for the last by heat 1.",
                "Cuenta los largos la misma calle de la serie siguiente; a la ultima, la serie 1.",
            ),
        }
    }

    /// Who swims a comfortable, even 200 instead, and flat out after so many more
    /// swims.
    fn even_instead(self, swims: usize, names: &str) -> String {
        let swims = self.count(swims, ["more swim", "more swims"], ["entreno", "entrenos"]);
        say!(
            self,
            "A comfortable, even 200 instead, flat out after {swims}: {names}.",
            "En su lugar un 200 comodo y parejo, a tope tras {swims} mas: {names}.",
            [swims, names]
        )
    }

    /// Who does so too, to follow it.
    fn even_too(self, swims: usize, names: &str) -> String {
        say!(self, "After {swims} more: {names}.", "Tras {swims} mas: {names}.", [swims, names])
    }

    /// Who swims easy instead.
    fn easy_instead(self, names: &str) -> String {
        say!(self, "Easy swim instead: {names}.", "En su lugar nado suave: {names}.", [names])
    }

    /// Who is still owed a test, and the next night there is.
    fn still_owed(self, names: &str, catch_up: Option<&str>) -> String {
        match catch_up {
            Some(day) => say!(
                self,
                "Still owed one: {names}. Catch up {day}.",
                "Aun por hacer: {names}. Recuperan el {day}.",
                [names, day]
            ),
            None => say!(self, "Still owed one: {names}.", "Aun por hacer: {names}.", [names]),
        }
    }

    /// Nobody is.
    fn none_owed(self) -> &'static str {
        self.pick("Nobody is owed one.", "No falta nadie.")
    }
}

/// Names told in one line, so that lines fill a text.
const NAMES_A_LINE: usize = 12;

/// The names by the swims that are still to come, the fewest first, in lines.
fn by_swims(soon: &[(usize, Name)]) -> Vec<(usize, String)> {
    let groups = soon.chunk_by(|one, other| one.0 == other.0);
    let one = |group: &[(usize, Name)]| {
        let names: Vec<&str> = group.iter().map(|(_, name)| name.as_str()).collect();
        group.first().map(|(swims, _)| (*swims, names.join(", ")))
    };
    groups.flat_map(|group| group.chunks(NAMES_A_LINE)).filter_map(one).collect()
}

fn named(names: &[Name]) -> String {
    joined(names)
}
