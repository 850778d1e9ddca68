//! The squad and its swimmers at a glance.

use super::words::shown_pace;
use super::{Belongings, Registers};
use crate::reply::{Flag, SquadReply, SquadRow, SwimmerReply, Trend};
use crate::units::{Pace, Unit};

/// What a language says of swimmers.
pub trait People: Belongings + Registers {
    /// How many there are.
    fn swimmers(&self, number: usize) -> String;
    /// A flag, after a number of swimmers.
    fn flagged(&self, flag: Flag) -> &'static str;
    /// A flag, on a swimmer's own line.
    fn flag(&self, flag: Flag) -> &'static str;
    /// Where her tests are going; none where nothing can be said.
    fn trend(&self, trend: Trend) -> Option<&'static str>;
    /// In place of a test.
    fn no_test_yet(&self) -> &'static str;
    /// Her critical pace.
    fn critical_pace(&self, pace: &str) -> String;
    /// Her best times.
    fn bests(&self, list: &str) -> String;
    /// Her latest tests.
    fn latest(&self, list: &str) -> String;
    /// The coach's focus.
    fn focus(&self, focus: &str) -> String;

    /// The squad: a head, then a line a swimmer.
    fn squad(&self, reply: &SquadReply) -> Vec<String> {
        if let Some(night) = &reply.night {
            return self.night(night);
        }
        let mut head = format!("{}: {}", reply.squad, self.swimmers(reply.swimmers.len()));
        for flag in [Flag::Hurt, Flag::Overdue, Flag::Silent] {
            match reply.swimmers.iter().filter(|row| row.flags.contains(&flag)).count() {
                0 => {}
                number => head.push_str(&format!(", {number} {}", self.flagged(flag))),
            }
        }
        let mut lines = vec![format!("{head}.")];
        lines.extend(reply.swimmers.iter().map(|row| self.row(row)));
        lines
    }

    /// `heron 200 free 3:12 (2 Mar) faster; hurt`
    fn row(&self, row: &SquadRow) -> String {
        let mut line = row.swimmer.to_string();
        if let Some(guest) = row.guest {
            let guess = guest.guess.filter(|_| row.last_test.is_none()).map(shown_pace);
            line.push_str(&format!(" {}", self.guest(guess.as_deref())));
        }
        line.push_str(&match &row.last_test {
            Some(trial) => format!(" {} ({})", self.trial(trial), self.short_day(trial.on)),
            None => format!(" {}", self.no_test_yet()),
        });
        if let Some(trend) = self.trend(row.trend) {
            line.push_str(&format!(" {trend}"));
        }
        let flags: Vec<&str> = row.flags.iter().map(|flag| self.flag(*flag)).collect();
        if !flags.is_empty() {
            line.push_str(&format!("; {}", flags.join(", ")));
        }
        line
    }

    /// One swimmer.
    fn swimmer(&self, reply: &SwimmerReply) -> Vec<String> {
        let mut lines = vec![self.row(&reply.row)];
        if let Some(pace) =
            reply.row.critical_per_100_s.and_then(|per_100| Pace::new(per_100, Unit::Metre).ok())
        {
            lines.push(self.critical_pace(&shown_pace(pace)));
        }
        if !reply.bests.is_empty() {
            let bests: Vec<String> = reply
                .bests
                .iter()
                .map(|trial| format!("{} ({})", self.trial(trial), trial.course))
                .collect();
            lines.push(self.bests(&bests.join(", ")));
        }
        if reply.latest.len() > 1 {
            let latest: Vec<String> = reply
                .latest
                .iter()
                .map(|trial| format!("{} {}", self.short_day(trial.on), self.trial(trial)))
                .collect();
            lines.push(self.latest(&latest.join(", ")));
        }
        if let Some(focus) = &reply.focus {
            lines.push(self.focus(focus));
        }
        lines
    }
}
