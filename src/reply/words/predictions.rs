//! A time to come, and what it means for a race.

use jiff::civil::Date;

use crate::coaching::{Outlook, Realism};
use crate::reply::shorthand::shown;
use crate::reply::{PredictionReply, Voice};
use crate::swim::prediction::{Prediction, PredictionBasis, Reach};

// What is told, and in which order.
impl Voice {
    /// A predicted time, and what it means for a race.
    pub(in crate::reply) fn prediction(self, reply: &PredictionReply) -> Vec<String> {
        let prediction = &reply.prediction;
        let [time, low, high] = [prediction.time, prediction.low, prediction.high].map(shown);
        let mut lines = vec![self.predicted(
            &prediction.distance.to_string(),
            [&time, &low, &high],
            &self.prediction_basis(prediction),
        )];
        if let Reach::Beyond(_) = prediction.reach {
            lines.push(self.far_from_tests().to_owned());
        }
        if let Some((on, outlook)) = &reply.race {
            lines.extend(self.race(*on, outlook));
        }
        lines
    }

    /// `your curve from 2 tests`
    pub(in crate::reply) fn prediction_basis(self, prediction: &Prediction) -> String {
        self.basis(prediction.made_from.len(), prediction.basis)
    }

    /// The race day, the goal's chance, the splits, what comes until then.
    fn race(self, on: Date, outlook: &Outlook) -> Vec<String> {
        let mut lines = vec![self.race_on(
            &self.day(on),
            usize::from(outlook.weeks_left),
            &shown(outlook.expected),
        )];
        if let Some(goal) = &outlook.goal {
            lines.push(self.goal(&goal.time.short(), goal.verdict));
        }
        let splits: Vec<String> = outlook
            .splits
            .iter()
            .map(|split| format!("{} {}", split.at.amount(), shown(split.time)))
            .collect();
        if !splits.is_empty() {
            lines.push(self.even_splits(&splits.join(", ")));
        }
        lines.push(self.taper_from(&self.day(outlook.taper_from)));
        lines
    }
}

// In which words.
impl Voice {
    /// A time to come and its interval; `basis` is what it rests on.
    fn predicted(self, distance: &str, [time, low, high]: [&str; 3], basis: &str) -> String {
        say!(
            self,
            "{distance}: about {time} ({low} to {high}), {basis}.",
            "{distance}: unos {time} (de {low} a {high}), {basis}.",
            [distance, time, low, high, basis]
        )
    }

    /// What a prediction rests on.
    fn basis(self, tests: usize, basis: PredictionBasis) -> String {
        let tests = self.count(tests, ["test", "tests"], ["test", "tests"]);
        match basis {
            PredictionBasis::Law(exponent) => say!(
                self,
                "power law from {tests}, exponent {exponent:.2}",
                "ley de potencia de {tests}, exponente {exponent:.2}",
                [tests, exponent]
            ),
            PredictionBasis::Curve(_) => {
                say!(self, "your curve from {tests}", "tu curva de {tests}", [tests])
            }
        }
    }

    /// The prediction reaches far.
    fn far_from_tests(self) -> &'static str {
        self.pick(
            "That is far from any distance you tested: take it lightly.",
            "Queda lejos de tus distancias de test: tomalo con cautela.",
        )
    }

    /// A race's day, the weeks until then, the time to expect.
    fn race_on(self, day: &str, weeks: usize, time: &str) -> String {
        let weeks = self.count(weeks, ["week", "weeks"], ["semana", "semanas"]);
        say!(
            self,
            "Race on {day}, {weeks} to go: expect about {time} on the day.",
            "Carrera el {day}, dentro de {weeks}: cuenta con unos {time} ese dia.",
            [day, weeks, time]
        )
    }

    /// A goal and how realistic it is.
    fn goal(self, time: &str, verdict: Realism) -> String {
        let verdict = match verdict {
            Realism::Likely => self.pick("likely", "probable"),
            Realism::Possible => self.pick("possible", "posible"),
            Realism::FarOff => self.pick("far off for now", "lejos por ahora"),
        };
        say!(self, "Goal {time}: {verdict}.", "Meta {time}: {verdict}.", [time, verdict])
    }

    /// When to be where.
    fn even_splits(self, splits: &str) -> String {
        say!(self, "Even splits: {splits}.", "Pasos a ritmo uniforme: {splits}.", [splits])
    }

    /// The first day of the taper.
    fn taper_from(self, day: &str) -> String {
        say!(self, "Taper from {day}.", "Puesta a punto desde {day}.", [day])
    }
}
