//! The heats of a test night, who counts, and who is owed one.

use super::Lanes;
use crate::coaching::test_night::{Heat, Place, minutes};
use crate::message::Name;
use crate::reply::TestNightReply;

/// What a language says of a test night.
pub trait TestNights: Lanes {
    /// The distance and the day.
    fn test_night_of(&self, distance: &str, day: &str) -> String;
    /// How many heats, in which order, and how long all take.
    fn heats_take(&self, number: usize, minutes: u32) -> String;
    /// A heat's name and how long it takes.
    fn heat(&self, number: usize, minutes: u32) -> String;
    /// Who counts for whom.
    fn counting(&self, heats: usize) -> &'static str;
    /// Who swims a comfortable, even 200 instead, and flat out after so many more
    /// swims.
    fn even_instead(&self, swims: usize, names: &str) -> String;
    /// Who does so too, to follow it.
    fn even_too(&self, swims: usize, names: &str) -> String;
    /// Who swims easy instead.
    fn easy_instead(&self, names: &str) -> String;
    /// Who is still owed a test, and the next night there is.
    fn still_owed(&self, names: &str, catch_up: Option<&str>) -> String;
    /// Nobody is.
    fn none_owed(&self) -> &'static str;

    /// The head, those who must not swim, a line a heat, who counts, who swims
    /// easy instead; once it is over, who is owed one.
    fn test_night(&self, reply: &TestNightReply) -> Vec<String> {
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
        if !reply.heats.is_empty() {
            lines.push(self.counting(reply.heats.len()).to_owned());
        }
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

    /// `Heat 1, 7 min: L1 heron, plover; L2 teal`
    fn heat_line(&self, number: usize, heat: &Heat) -> String {
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
    fn owed(&self, reply: &TestNightReply) -> String {
        if reply.owed.is_empty() {
            return self.none_owed().to_owned();
        }
        let catch_up = reply.catch_up.map(|on| self.day(on));
        self.still_owed(&named(&reply.owed), catch_up.as_deref())
    }
}

/// Names told in one line, so that lines fill a text.
const NAMES_A_LINE: usize = 12;

/// The names by the swims that are still to come, the fewest first, in lines.
fn by_swims(soon: &[(usize, Name)]) -> Vec<(usize, String)> {
    let groups = soon.chunk_by(|one, other| one.0 == other.0);
    let one = |group: &[(usize, Name)]| {
        let names: Vec<&str> = group.iter().map(|(_, name)| name.as_str()).collect();
        (group[0].0, names.join(", "))
    };
    groups.flat_map(|group| group.chunks(NAMES_A_LINE)).map(one).collect()
}

fn named(names: &[Name]) -> String {
    names.iter().map(Name::as_str).collect::<Vec<_>>().join(", ")
}
