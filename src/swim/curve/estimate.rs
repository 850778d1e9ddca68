//! The curve of one swimmer, from their results.

use jiff::civil::Date;

use super::chain::{Chain, Node};
use super::comparable::in_course;
use super::shape::{LAW_EXPONENT, LAW_EXPONENT_SD, shape, shape_at};
use crate::swim::Trial;
use crate::units::{Course, Distance, Stroke};

/// How far form walks in the root of a week, as a fraction of time. Ours: a walk
/// of 0.4 % is usual, the rest pays for what is no walk.
const WALK: f64 = 0.011;
/// What an unknown trend may come to in a week. Ours.
const TREND: f64 = 0.003;
/// The error that comes with a conversion from another pool, and from open water
/// (ours).
const OTHER_POOL: f64 = 0.01;
const OPEN_WATER: f64 = 0.04;
/// In so many days what was swum holds the curve half as tightly (ours).
const HELD_DAYS: f64 = 28.0;
/// The most by which well held sets make the curve faster: one step of a target.
pub const LIFT_MOST: f64 = 0.01;
/// The share that they are believed with (ours).
const LIFT_SHARE: f64 = 0.5;

/// What the curve says of one distance.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reading {
    /// The time, in seconds.
    pub seconds: f64,
    /// Its standard deviation as a fraction of it: how sure the swimmer's form
    /// over this distance is known, not how a single swim varies round it.
    pub sd: f64,
}

/// A swim that they have shown they can do, at least: a time over a distance.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AtLeast {
    /// How far, in units of the course; need be no distance that is ever swum.
    pub amount: f64,
    /// In how many seconds.
    pub seconds: f64,
}

/// Time over distance of one swimmer, in one stroke and pool, on one day.
#[derive(Debug, Clone, PartialEq)]
pub struct Curve {
    chain: Chain,
    /// The results that made it, oldest first, as if swum in its pool.
    results: Vec<Trial>,
    /// The logarithm of the tested distance, where it is one alone.
    lone: Option<f64>,
}

impl Curve {
    /// From the results in `stroke` up to `today`, as if all had been swum in
    /// `course`. Their times are taken to be from a push. Results of one day
    /// count in the order given. `None` without one.
    ///
    /// The logarithm of a result varies round that of the curve today by its
    /// typical error, by a walk and by an unknown trend since it was swum:
    /// `e² + 1.1 %² w + 0.3 %² w²` with `w` in weeks. The curve keeps within the
    /// typical error of the last result over a distance, more loosely with time.
    pub fn of(trials: &[Trial], today: Date, stroke: Stroke, course: Course) -> Option<Curve> {
        let mut known: Vec<&Trial> = trials
            .iter()
            .filter(|trial| trial.stroke == stroke && trial.on <= today)
            .filter(|trial| trial.distance.unit() == trial.course.unit())
            .collect();
        known.sort_by_key(|trial| trial.on);
        let mut nodes: Vec<Node> = Vec::new();
        let mut results = Vec::with_capacity(known.len());
        let mut witness = Witness::new(today);
        for trial in known {
            let Some(there) = in_course(*trial, course) else { continue };
            let (node, low, high) = witness.of(trial, &there);
            match nodes.iter_mut().find(|one| one.at == node.at) {
                Some(one) => {
                    one.weight += node.weight;
                    one.pull += node.pull;
                    // What was swum last holds; what held before gives way.
                    one.low = one.low.max(low).min(high);
                    one.high = one.high.max(low).min(high);
                }
                None => nodes.push(node),
            }
            results.push(there);
        }
        nodes.sort_by(|one, other| one.at.total_cmp(&other.at));
        let lone = match nodes.as_slice() {
            [one] => Some(one.at),
            _ => None,
        };
        Some(Curve { chain: Chain::solve(nodes)?, results, lone })
    }

    /// The curve with what a well held set shows: where that is faster, half of the
    /// way to it, and never by more than [`LIFT_MOST`]. A set never makes it slower.
    pub fn with_set(self, set: AtLeast) -> Curve {
        let at = libm::log(set.amount);
        let before = self.chain.mean(at);
        let shown = libm::log(set.seconds) - shape(set.amount);
        if shown >= before {
            return self;
        }
        let most = (before + LIFT_SHARE * (shown - before)).max(before - LIFT_MOST);
        Curve { chain: self.chain.pressed(at, most), ..self }
    }

    /// The results that made it, oldest first, as if swum in its pool.
    pub fn results(&self) -> &[Trial] {
        &self.results
    }

    /// The tested distance, where it is one alone.
    pub fn lone(&self) -> Option<Distance> {
        self.lone.and(self.results.first()).map(|trial| trial.distance)
    }

    /// The time over `distance` by the swimmer's curve. Where one distance alone
    /// was tested the law of one test leads on from it, see [`LAW_EXPONENT`].
    pub fn at(&self, distance: Distance) -> Reading {
        let amount = f64::from(distance.amount());
        let Some(lone) = self.lone else { return self.by_shape(amount) };
        let off = libm::log(amount) - lone;
        let tested = shape(libm::exp(lone)) + self.chain.mean(lone);
        let by_law = off * LAW_EXPONENT_SD;
        Reading {
            seconds: libm::exp(tested + LAW_EXPONENT * off),
            sd: (self.chain.variance(lone) + by_law * by_law).sqrt(),
        }
    }

    /// The time over `amount`, in units of the course, by the population's shape
    /// and their deviation from it, whatever was tested.
    pub fn by_shape(&self, amount: f64) -> Reading {
        Reading { seconds: libm::exp(self.ln_seconds(amount)), sd: self.sd(amount) }
    }

    fn ln_seconds(&self, amount: f64) -> f64 {
        shape(amount) + self.chain.mean(libm::log(amount))
    }

    fn sd(&self, amount: f64) -> f64 {
        self.chain.variance(libm::log(amount)).sqrt()
    }
}

/// What results say today. Of distances and slacks there are few: their logarithms are
/// taken once.
struct Witness {
    today: Date,
    /// The logarithm of each distance, and the shape there.
    places: Vec<(u32, f64, f64)>,
    /// The logarithms of what the last slack leaves below and above.
    slack: (f64, f64, f64),
}

impl Witness {
    fn new(today: Date) -> Witness {
        Witness { today, places: Vec::new(), slack: (0.0, 0.0, 0.0) }
    }

    fn place(&mut self, far: u32) -> (f64, f64) {
        if let Some((_, at, shape)) = self.places.iter().find(|(known, ..)| *known == far) {
            return (*at, *shape);
        }
        let amount = f64::from(far);
        let at = libm::log(amount);
        let shape = shape_at(amount, at);
        self.places.push((far, at, shape));
        (at, shape)
    }

    fn slack(&mut self, slack: f64) -> (f64, f64) {
        if slack != self.slack.0 {
            self.slack = (slack, libm::log(1.0 - slack.min(0.9)), libm::log(1.0 + slack));
        }
        (self.slack.1, self.slack.2)
    }

    /// Its pull at its distance, and the bounds that it sets. `there` is `trial` in the
    /// curve's pool.
    fn of(&mut self, trial: &Trial, there: &Trial) -> (Node, f64, f64) {
        let (at, shape) = self.place(there.distance.amount());
        let deviation = libm::log(there.time.seconds()) - shape;
        let days = trial.days_before(self.today).max(0) as f64;
        let weeks = days / 7.0;
        let error = trial.typical_error();
        let converted = match (trial.course, there.course) {
            (one, other) if one == other => 0.0,
            (Course::OpenWater, _) | (_, Course::OpenWater) => OPEN_WATER,
            _ => OTHER_POOL,
        };
        let trend = TREND * weeks;
        let variance = error * error + converted * converted + WALK * WALK * weeks + trend * trend;
        let weight = variance.recip();
        // Half a hundredth inside, so that a time rounded to it keeps within too.
        let inside = 0.005 / there.time.seconds();
        let (below, above) = self.slack((error + converted) * (1.0 + days / HELD_DAYS));
        let low = deviation + below + inside;
        let high = deviation + above - inside;
        (Node { at, weight, pull: weight * deviation, low, high }, low, high)
    }
}
