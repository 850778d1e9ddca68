//! A race and a goal: how likely, in which splits, and what comes until then.

use jiff::civil::Date;
use strum::{IntoStaticStr, VariantNames};

use super::rulebook::{RuleId, Rulebook};
use super::season::{Phase, phase_on, taper_from};
use super::swimmer_state::{SwimmerState, days_between};
use super::{Facts, Race};
use crate::swim::prediction::{Prediction, predict};
use crate::swim::real_change::normal_cdf;
use crate::units::{Centis, Distance};

/// What can be said of a race to come.
#[derive(Debug, Clone, PartialEq)]
pub struct Outlook {
    /// Today's prediction and its interval.
    pub prediction: Prediction,
    /// What training until then and the taper may bring: the time expected on
    /// the day.
    pub expected: Centis,
    /// The chance of the goal on the day, and a word for it; none without a goal.
    pub goal: Option<Goal>,
    /// When to be where: even pace, for the goal or else the time expected.
    pub splits: Vec<Split>,
    /// Whole weeks until the race.
    pub weeks_left: u16,
    /// What the weeks now are for.
    pub phase: Phase,
    /// The first day of the taper.
    pub taper_from: Date,
}

/// A goal, judged.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Goal {
    /// The time hoped for.
    pub time: Centis,
    /// Its chance on the day, 0 to 1.
    pub chance: f64,
    /// A word for it.
    pub verdict: Realism,
    /// How much faster than today's prediction it is, in percent; negative for
    /// a goal that they would beat today.
    pub gain_percent: f64,
}

/// How realistic a goal is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[derive(IntoStaticStr, VariantNames)]
pub enum Realism {
    /// More likely than not.
    Likely,
    /// One time in five or better.
    Possible,
    /// A long shot.
    FarOff,
}

/// Where to be when.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Split {
    /// The distance swum.
    pub at: Distance,
    /// The time there.
    pub time: Centis,
}

/// The outlook for `race`; `None` where no test of that stroke and pool tells.
pub fn outlook(facts: &Facts, race: &Race) -> Option<Outlook> {
    outlook_by(&Rulebook::default(), facts, race)
}

/// [`outlook`] by a coach's own numbers.
pub fn outlook_by(book: &Rulebook, facts: &Facts, race: &Race) -> Option<Outlook> {
    let with_race = Facts { race: Some(race.clone()), ..facts.clone() };
    let state = SwimmerState::of(&with_race, book);
    let prediction = predict(&facts.tests, facts.today, race.stroke, facts.course, race.distance)?
        .begun(facts.sprints_from);
    let days_left = days_between(facts.today, race.on).max(0);
    let weeks = (days_left / 7).min(book.whole(RuleId::GainWeeks)) as f64;
    // A taper's gain is there only if there is time for one.
    let taper = match days_left >= 7 {
        true => book.share(RuleId::TaperGain),
        false => 0.0,
    };
    let gain = weeks * book.share(RuleId::GainPerWeek) + taper;
    let expected = Centis::from_seconds(prediction.time.seconds() * (1.0 - gain)).ok()?;
    let goal = race.goal.map(|time| judge(&prediction, expected, time));
    let aimed = race.goal.unwrap_or(expected);
    Some(Outlook {
        splits: splits(race.distance, aimed),
        weeks_left: u16::try_from(days_left / 7).unwrap_or(u16::MAX),
        phase: phase_on(&state, facts.today),
        taper_from: taper_from(&state, race),
        prediction,
        expected,
        goal,
    })
}

/// The interval of a prediction is one standard deviation either way on the
/// logarithm, so a goal's chance is a normal tail.
fn judge(prediction: &Prediction, expected: Centis, time: Centis) -> Goal {
    let ln = |time: Centis| libm::log(time.seconds());
    let sd = (ln(prediction.high) - ln(prediction.low)) / 2.0;
    let chance = normal_cdf((ln(time) - ln(expected)) / sd.max(1e-6));
    let verdict = match chance {
        sure if sure >= 0.5 => Realism::Likely,
        fair if fair >= 0.2 => Realism::Possible,
        _ => Realism::FarOff,
    };
    let gain_percent = 100.0 * (1.0 - time.seconds() / prediction.time.seconds());
    Goal { time, chance, verdict, gain_percent }
}

/// Even pace in at most sixteen pieces, each a whole number of 25s.
fn splits(distance: Distance, time: Centis) -> Vec<Split> {
    let whole = distance.amount();
    let piece =
        [25, 50, 100, 200, 500, 1000].into_iter().find(|piece| whole.div_ceil(*piece) <= 16);
    let piece = piece.unwrap_or(whole);
    (1..=whole.div_ceil(piece))
        .filter_map(|count| {
            let at = Distance::new((count * piece).min(whole), distance.unit()).ok()?;
            let share = f64::from(at.amount()) / f64::from(whole);
            Some(Split { at, time: Centis::from_seconds(time.seconds() * share).ok()? })
        })
        .collect()
}
