//! Answers to questions that were taken apart: the figure first.

mod set;
mod shaped;
mod squad;
mod times;

use jiff::civil::Date;

use super::small::{clock, first_upper};
use super::statements::canonical;
use crate::message::Name;
use crate::reply::{Answer, MeanOf, Voice};
use crate::units::Centis;

// What is told, and in which order.
impl Voice {
    /// An answer.
    pub(super) fn answer(self, answer: &Answer) -> Vec<String> {
        match answer {
            Answer::Gap { who, best, to, each } => {
                vec![of(who.as_ref(), &self.gap_to(best, *to, *each))]
            }
            Answer::Pace { who, distance, time, pieces, best } => {
                vec![of(who.as_ref(), &self.pace_of(*distance, *time, pieces, *best))]
            }
            Answer::Sum { piece, each, distance, total } => {
                vec![self.sum(*piece, &each.short(), *distance, &total.short())]
            }
            Answer::Converted { who, from: (distance, pool), time, to } => {
                let from = format!("{distance} {} ({pool})", time.short());
                let there =
                    format!("{} {} ({})", to.0.distance, to.0.time.to_tenth().short(), to.1);
                vec![of(who.as_ref(), &self.converted(&from, &there))]
            }
            Answer::Versus { who, last, before, best } => {
                vec![of(who.as_ref(), &self.versus(last, before.as_ref(), best.as_ref()))]
            }
            Answer::LastSwum { who, on, days, trial } => {
                let trial = trial.as_ref().map(|trial| self.trial(trial));
                let ago = self.days_ago(*days);
                vec![of(who.as_ref(), &self.last_swum(&ago, &self.day(*on), trial.as_deref()))]
            }
            Answer::Never { who, distance, stroke, from, to } => {
                let what = self.swum_what(*distance, *stroke);
                let days = from.zip(*to).map(|(from, to)| self.days_from(from, to));
                vec![of(who.as_ref(), &self.never(&what, days.as_deref()))]
            }
            Answer::Ranked { pick, distance, on, below, lines, of } => {
                vec![self.ranked(*pick, *distance, *on, *below, lines, *of)]
            }
            Answer::Mean { of: whom, count, distance, mean, on } => {
                let whom = match whom {
                    MeanOf::One(who) => who.as_ref().map(Name::to_string),
                    MeanOf::Lane(lane) => Some(self.lane(*lane)),
                    MeanOf::All => None,
                };
                let mean = self.mean_of(&mean.short(), *count, *distance, &self.day(*on));
                vec![whom.map_or_else(|| mean.clone(), |whom| format!("{whom}: {mean}"))]
            }
            Answer::Were { on, here, absent } => vec![self.were(*here, *absent, &self.day(*on))],
            Answer::Turnouts { from, to, nights } => {
                let all: usize = nights.iter().map(|(_, here)| here).sum();
                let mean = (all as f64 / nights.len().max(1) as f64).round() as usize;
                let one = |(on, here): &(Date, usize)| format!("{} {here}", self.short_day(*on));
                let each: Vec<String> = nights.iter().map(one).collect();
                let days = self.days_from(*from, *to);
                vec![self.turnouts(mean, nights.len(), &each.join(", "), &days)]
            }
            Answer::Coming { on, coming, unsaid, out } => {
                vec![self.due_to_come(coming + unsaid, *coming, *out, &self.day(*on))]
            }
            Answer::Came { who, on, what } => {
                vec![of(who.as_ref(), self.whether_came(*what, &self.day(*on)).as_str())]
            }
            Answer::LastThere { who, on } => {
                let said = match on {
                    Some((on, days)) => self.last_there(&self.day(*on), &self.days_ago(*days)),
                    None => self.never_there().to_owned(),
                };
                vec![of(who.as_ref(), &said)]
            }
            Answer::SquadSwum { from, to, metres, sessions, swimmers } => {
                vec![self.squad_swum(*metres, *sessions, *swimmers, &self.days_from(*from, *to))]
            }
            Answer::Total { on, lanes } => self.totals(*on, lanes),
            Answer::Hold { lines, .. } => lines.iter().map(|line| self.holds(line)).collect(),
            Answer::Rest { lines } => lines.iter().map(|line| self.rests(line)).collect(),
            Answer::Kit { on, asked, kit } => vec![self.kit_of(&self.day(*on), asked, kit)],
            Answer::Room { count, distance, on, takes_s, ends, left_s } => {
                let takes = minutes(*takes_s);
                let more = format!("{count}x{distance} {} {on}", self.on());
                let ends = ends.map(clock);
                vec![self.room(&more, &takes, &minutes(*left_s), *takes_s <= *left_s, ends)]
            }
            Answer::TestOn { on, called } => vec![self.test_on(*on, *called)],
            Answer::Lengths { distance, unit, lengths, course } => {
                vec![self.lengths_of(*lengths, *distance, *unit, self.course(*course))]
            }
            Answer::Stored { says } => {
                vec![match says.is_empty() {
                    true => self.nothing_stored().to_owned(),
                    false => self.stored_is(&canonical(says)),
                }]
            }
            Answer::Goal { who, race } => {
                let said = match race {
                    Some(race) => {
                        let stroke = self.stroke(race.stroke);
                        let what = format!("{} {stroke}", race.distance.amount());
                        let goal = race.goal.map(Centis::short);
                        self.trains_for(&what, &self.day(race.on), goal.as_deref())
                    }
                    None => self.no_goal().to_owned(),
                };
                vec![of(who.as_ref(), &said)]
            }
        }
    }
}

fn of(who: Option<&Name>, said: &str) -> String {
    match who {
        Some(who) => format!("{who}: {said}"),
        None => first_upper(said),
    }
}

/// `4:20`
fn minutes(seconds: u32) -> String {
    format!("{}:{:02}", seconds / 60, seconds % 60)
}
