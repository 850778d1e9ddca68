//! How training moves a swimmer's speed: fitness and fatigue.
//!
//! Knows loads; not sessions, plans or texts. A model to try rules on, not a
//! prediction for anybody.

/// Fitness fades with this time constant, in days (order of magnitude of
/// Banister et al. 1975 and its successors; from memory).
const FITNESS_DAYS: f64 = 42.0;
/// Fatigue fades with this one (from memory, as above).
const FATIGUE_DAYS: f64 = 7.0;
/// Speed gained for each unit of fitness above habit (ours: about 6 % for twice
/// the habitual load, held for months).
const FITNESS_GAIN: f64 = 0.000_15;
/// Speed lost for each unit of fatigue above habit: twice the gain.
const FATIGUE_LOSS: f64 = 0.000_30;

/// The two pools that a day's load fills.
#[derive(Debug, Clone, PartialEq)]
pub struct Body {
    fitness: f64,
    fatigue: f64,
    habit: f64,
}

impl Body {
    /// A body in balance with `habit` units of load a day.
    pub fn used_to(habit: f64) -> Self {
        Self { fitness: habit * FITNESS_DAYS, fatigue: habit * FATIGUE_DAYS, habit }
    }

    /// One day: both pools fade, then take up what was done. `training` builds
    /// fitness, `strain` tires; work at the wrong pace strains without training.
    pub fn day(&mut self, training: f64, strain: f64) {
        self.fitness += training - self.fitness / FITNESS_DAYS;
        self.fatigue += strain - self.fatigue / FATIGUE_DAYS;
    }

    /// Speed against the start, 1 for no change, tired as they are today.
    pub fn form(&self) -> f64 {
        self.rested() - FATIGUE_LOSS * (self.fatigue - self.habit * FATIGUE_DAYS)
    }

    /// Speed against the start if they were as fresh as usual.
    pub fn rested(&self) -> f64 {
        1.0 + FITNESS_GAIN * (self.fitness - self.habit * FITNESS_DAYS)
    }

    /// The load of a day, as a mean over about the last week.
    pub fn week_load(&self) -> f64 {
        self.fatigue / FATIGUE_DAYS
    }

    /// Fatigue as a multiple of the habitual one.
    pub fn tiredness(&self) -> f64 {
        self.fatigue / (self.habit * FATIGUE_DAYS)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn habit_changes_nothing_and_rest_detrains() {
        let mut body = Body::used_to(30.0);
        for _ in 0..100 {
            body.day(30.0, 30.0);
        }
        assert!((body.form() - 1.0).abs() < 1e-9);
        for _ in 0..5 {
            body.day(0.0, 0.0);
        }
        assert!(body.form() > 1.0, "a few days off freshen");
        for _ in 0..60 {
            body.day(0.0, 0.0);
        }
        assert!(body.form() < 0.97, "two months off cost speed: {}", body.form());
    }

    #[test]
    fn twice_the_load_for_months_gains_some_percent() {
        let mut body = Body::used_to(15.0);
        for _ in 0..200 {
            body.day(30.0, 30.0);
        }
        assert!((1.03..1.10).contains(&body.form()), "{}", body.form());
    }
}
