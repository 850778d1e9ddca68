//! Training load from how hard a session felt and how long it was.
//!
//! Describes weeks; sets no limits. The ratio of recent to usual load is shown
//! as description and never as a risk: made of random usual loads it "predicts"
//! injury nearly as well (Impellizzeri et al. 2020, Sports Med).

use crate::units::{Centis, Rpe};

/// A load in arbitrary units, nought or more: the rating of a session times
/// its minutes (Foster et al. 2001, J Strength Cond Res 15(1):109-115).
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default)]
pub struct Load(f64);

impl Load {
    /// No training: what a day of rest counts as.
    pub const REST: Load = Load(0.0);

    /// The load of a session of `duration` rated `rpe`.
    pub fn of(rpe: Rpe, duration: Centis) -> Load {
        Load(rpe.value() * duration.seconds() / 60.0)
    }

    /// The number of units.
    pub const fn units(self) -> f64 {
        self.0
    }
}

impl std::iter::Sum for Load {
    fn sum<I: Iterator<Item = Load>>(loads: I) -> Load {
        Load(loads.map(|load| load.0).sum())
    }
}

/// A week of seven days, days of rest counted as nought.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Week {
    /// The sum of the daily loads.
    pub total: Load,
    /// How much the days were alike.
    pub monotony: Monotony,
}

/// Mean of the daily loads over their standard deviation (Foster 1998, Med Sci
/// Sports Exerc 30:1164-1168). The sample deviation, n - 1, is ours: the
/// abstract does not say.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Monotony {
    /// No load all week.
    Rest,
    /// Seven equal days: the ratio has no value.
    EveryDayTheSame,
    /// The ratio, and the strain, which is the week's load times it.
    Varied {
        /// Mean over standard deviation.
        monotony: f64,
        /// Total times monotony.
        strain: f64,
    },
}

impl Week {
    /// The week made of `days`, all seven known.
    pub fn of(days: [Load; 7]) -> Week {
        let total: Load = days.into_iter().sum();
        let mean = total.0 / 7.0;
        let squares: f64 = days.iter().map(|day| (day.0 - mean) * (day.0 - mean)).sum();
        let sd = (squares / 6.0).sqrt();
        let monotony = if days.iter().all(|day| day.0 == 0.0) {
            Monotony::Rest
        } else if days.iter().all(|day| *day == days[0]) {
            Monotony::EveryDayTheSame
        } else {
            Monotony::Varied { monotony: mean / sd, strain: total.0 * mean / sd }
        };
        Week { total, monotony }
    }
}

/// Recent load beside usual load.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Balance {
    /// Weighted mean of the days, about one week deep.
    pub recent: Load,
    /// Weighted mean of the days, about four weeks deep.
    pub usual: Load,
    /// Recent over usual; `None` where the usual is nought.
    pub ratio: Option<f64>,
}

/// The balance at the end of `days`, oldest first, one entry a day: means over
/// 7 and 28 days (Williams et al. 2017, Br J Sports Med 51:209-210). `None`
/// for fewer than 28 days, in which "usual" means nothing yet (ours).
pub fn balance(days: &[Load]) -> Option<Balance> {
    if days.len() < 28 {
        return None;
    }
    let (recent, usual) = (weighted_mean(days, 7)?, weighted_mean(days, 28)?);
    let ratio = (usual.0 > 0.0).then(|| recent.0 / usual.0);
    Some(Balance { recent, usual, ratio })
}

/// The exponentially weighted mean of `days`, oldest first, over about `span`
/// days: `E = lambda * load + (1 - lambda) * E before`, `lambda = 2/(span+1)`,
/// begun with the first day's load (ours; the paper leaves it open). `None`
/// without days.
pub fn weighted_mean(days: &[Load], span: u32) -> Option<Load> {
    let lambda = 2.0 / (f64::from(span) + 1.0);
    let mean = |before: f64, day: &Load| lambda * day.0 + (1.0 - lambda) * before;
    let (first, later) = days.split_first()?;
    Some(Load(later.iter().fold(first.0, mean)))
}
