//! What the tests say of a swimmer's paces, in the pool of the day.
//!
//! Knows the tests; not how a session is made of them.

use crate::swim::Trial;
use crate::swim::critical_speed;
use crate::swim::curve::{Curve, in_course};
use crate::swim::even_pace::{self, Target};
use crate::swim::levels::{Band, at_percent};
use crate::swim::prediction::{self, Prediction};
use crate::swim::strokes::times_free;
use crate::units::{Centis, Course, Distance, Level, Pace, SendOff, Start, Stroke, Unit};

use super::Facts;
use super::shown_by_sets::shown_by_sets;
use super::stroke_factors::own_factors;

/// Free is coached from if it was tested within this many days, else the
/// stroke of the newest test (ours).
const FREE_FIRST_DAYS: i64 = 112;
/// An untested swimmer is given this long for 25: a 200 in 8:00 swum easily,
/// and a rest (ours).
const ANYONE_S_PER_25: u32 = 75;

/// Paces of one swimmer, in the unit of the pool of the day.
#[derive(Debug, Clone)]
pub(super) struct Paces {
    /// The pool of the day.
    pub course: Course,
    /// The stroke that was tested; free where none was.
    pub stroke: Stroke,
    /// Critical speed, where a test of 200 or more tells it.
    pub critical: Option<Pace>,
    /// The tests in that stroke, oldest first, as if swum in this pool.
    pub tests: Vec<Trial>,
    /// What they and their sets make of every distance.
    curve: Option<Curve>,
    /// A pace that they can swim easily all day, where any test tells one.
    easy: Option<Pace>,
    /// Strokes and ways of swimming of which results of theirs tell, with how much
    /// longer they take them than the tested stroke.
    factors: Vec<(Stroke, f64)>,
    /// Times that the coach set in place of the computed ones, for this pool.
    by_coach: Vec<(Distance, Centis)>,
    /// Something is open: nothing is swum faster than computed.
    careful: bool,
}

/// A time to hold, the level that it really is, and its send-off.
#[derive(Debug, Clone, Copy)]
pub(super) struct Hold {
    /// The time to hold.
    pub time: Centis,
    /// The level of that speed.
    pub level: Level,
    /// Leave every so often.
    pub send_off: SendOff,
}

impl Paces {
    /// The paces that `facts` tell for a day in `course`.
    pub fn of(facts: &Facts, course: Course) -> Paces {
        let swum: Vec<Trial> = facts
            .tests
            .iter()
            .filter(|trial| trial.on <= facts.today && is_whole_stroke(trial.stroke))
            .copied()
            .collect();
        let age = |trial: &Trial| trial.days_before(facts.today);
        let free_is_known =
            swum.iter().any(|t| t.stroke == Stroke::Free && age(t) <= FREE_FIRST_DAYS);
        let stroke = if free_is_known {
            Stroke::Free
        } else {
            swum.iter().max_by_key(|t| t.on).map_or(Stroke::Free, |t| t.stroke)
        };
        let curve = Curve::of(&swum, facts.today, stroke, course);
        let curve = curve.map(|curve| shown_by_sets(facts, curve, stroke));
        let tests = curve.as_ref().map_or_else(Vec::new, |curve| curve.results().to_vec());
        let critical = curve.as_ref().and_then(|curve| critical_speed::by_curve(curve).pace());
        let easy = critical.map(|pace| at_percent(pace, EASY_PERCENT)).or_else(|| {
            // A sprinter swims easily at about 1.6 times their 100 (ours).
            let test = tests.last()?;
            let slower = if test.distance.amount() <= 50 { 1.75 } else { 1.6 };
            Pace::new(Pace::of(test.distance, test.time).per_100_s() * slower, course.unit()).ok()
        });
        let easy = easy.or_else(|| told_pace(facts, course));
        let own = facts.own_targets.iter().filter(|own| own.stroke == stroke);
        let by_coach = own
            .filter_map(|own| in_course(own.as_swum(), course))
            .map(|swim| (swim.distance, swim.time))
            .collect();
        let careful = !facts.open.is_empty();
        let factors = Vec::new();
        let paces =
            Paces { course, stroke, critical, tests, curve, easy, factors, by_coach, careful };
        Paces { factors: own_factors(facts, &paces), ..paces }
    }

    /// The unit that this pool counts in.
    pub fn unit(&self) -> Unit {
        self.course.unit()
    }

    /// The newest test, as it was swum: what the curve gives over its distance lies
    /// within its error, and its even pace is what was told that day.
    pub fn newest(&self) -> Option<&Trial> {
        self.tests.last()
    }

    /// `test` in the time that all their results together give over its distance.
    pub fn as_now(&self, test: &Trial) -> Trial {
        let seconds = self.curve.as_ref().map(|curve| curve.at(test.distance).seconds);
        let time = seconds.and_then(|seconds| Centis::from_seconds(seconds).ok());
        Trial { time: time.map_or(test.time, Centis::to_tenth), ..*test }
    }

    /// What their results promise over `distance`, from a push.
    pub fn predicted(&self, distance: Distance) -> Option<Prediction> {
        prediction::by_curve(self.curve.as_ref()?, distance)
    }

    /// The pace that they can swim easily all day, where any test tells one.
    pub fn easy(&self) -> Option<Pace> {
        self.easy
    }

    /// Seconds per 100 of easy swimming without rest; the anyone's pace where
    /// nothing is known.
    pub fn easy_per_100_s(&self) -> f64 {
        self.easy.map_or(f64::from(ANYONE_S_PER_25 * 4), Pace::per_100_s)
    }

    /// Critical speed guessed from an easy pace, where only sprints were tested:
    /// what is easy, is easy at the same share of it for everyone (ours).
    pub fn guessed_critical(&self) -> Option<Pace> {
        self.easy
            .filter(|_| !self.tests.is_empty())
            .map(|easy| at_percent(easy, 10_000.0 / EASY_PERCENT))
    }

    /// How many times as long a swim in `stroke` takes as one in the tested
    /// stroke: by their own results, else by the stated factor.
    pub fn times_as_long(&self, stroke: Stroke) -> f64 {
        let own =
            self.factors.iter().find(|(known, _)| *known == stroke).map(|(_, factor)| *factor);
        own.unwrap_or_else(|| match stroke {
            // Whichever it is, nobody is to be hurried in it (ours).
            Stroke::Choice => CHOICE,
            other => times_free(other) / times_free(self.stroke),
        })
    }

    /// True where that is a guess: no result of theirs tells of `stroke`.
    pub fn is_guess(&self, stroke: Stroke) -> bool {
        stroke != self.stroke
            && stroke != Stroke::Choice
            && !self.factors.iter().any(|(known, _)| *known == stroke)
    }

    /// The time of an easy swim in `stroke`.
    pub fn easy_time(&self, distance: Distance, stroke: Stroke) -> Option<Centis> {
        let time = self.easy?.time_for(distance)?;
        Centis::from_seconds(time.seconds() * self.times_as_long(stroke)).ok()
    }

    /// The send-off of an easy swim, one that they are sure to make.
    pub fn easy_send_off(&self, distance: Distance, stroke: Stroke) -> SendOff {
        match self.easy_time(distance, stroke) {
            Some(time) => Band::of(Level::Easy).send_off(distance, time),
            None => {
                let seconds = ANYONE_S_PER_25 * distance.amount().div_ceil(25);
                SendOff::after(Centis::from_whole_seconds(seconds).unwrap_or(Centis::GREATEST), 0)
            }
        }
    }

    /// `percent` of critical speed over `distance`, as a time that a pace clock
    /// shows if one lies in the same level; `None` where critical speed is not
    /// known.
    pub fn at(&self, percent: f64, distance: Distance) -> Option<Hold> {
        let critical = self.critical?;
        let exact = at_percent(critical, percent).time_for(distance)?;
        let level = Band::holding(at_percent(critical, percent), critical).level;
        let time = self.as_shown(level, distance, exact);
        Some(Hold { time, level, send_off: Band::of(level).send_off(distance, time) })
    }

    /// `exact` as a pace clock shows it, as long as it stays in the level.
    pub fn as_shown(&self, level: Level, distance: Distance, exact: Centis) -> Centis {
        let rounded = [exact.to_second(), to_half(exact), exact.to_tenth()];
        rounded.into_iter().find(|&time| self.well_inside(level, distance, time)).unwrap_or(exact)
    }

    /// The even pace of `test` over a piece of it, with the level that it is;
    /// `None` for pieces over half the test, which are never a set.
    pub fn even(&self, test: &Trial, distance: Distance) -> Option<Hold> {
        let Target { time, send_off, .. } =
            even_pace::target(test.distance, test.time, distance, Start::Push)?;
        Some(Hold { time, level: self.level(distance, time), send_off: send_off? })
    }

    /// The coach's time for `distance`, if they set one; else the `computed` one.
    /// Nothing faster than computed while something is open.
    pub fn by_coach(&self, distance: Distance, computed: Centis) -> Centis {
        let own = self.by_coach.iter().find(|(far, _)| *far == distance).map(|(_, time)| *time);
        own.filter(|time| !self.careful || *time >= computed).unwrap_or(computed)
    }

    /// True if the coach set the time for `distance`.
    pub fn is_by_coach(&self, distance: Distance) -> bool {
        self.by_coach.iter().any(|(far, _)| *far == distance)
    }

    /// The level of a swim of `distance` in `time`: by critical speed where it
    /// is known; else anything near a tested sprint is sprint.
    pub fn level(&self, distance: Distance, time: Centis) -> Level {
        let pace = Pace::of(distance, time);
        match (self.critical, self.easy) {
            (Some(critical), _) => Band::holding(pace, critical).level,
            (None, Some(easy)) if pace.per_100_s() < easy.per_100_s() * 0.85 => Level::Sprint,
            _ => Level::Easy,
        }
    }

    /// True if `time` lies well within that level, so that a critical speed rounded to
    /// the hundredth gives the same level.
    fn well_inside(&self, level: Level, distance: Distance, time: Centis) -> bool {
        let Some(critical) = self.critical else { return false };
        let percent = crate::swim::levels::percent_of(Pace::of(distance, time), critical);
        let band = Band::of(level);
        (band.slow_percent + 0.2..=band.fast_percent - 0.2).contains(&percent)
    }
}

/// Easy swimming is written at this percent of critical speed: the middle of
/// the level.
const EASY_PERCENT: f64 = 84.0;
/// How many times as long an easy swim in a stroke of one's choice takes (ours).
const CHOICE: f64 = 1.2;

/// The pace of an untested swimmer's reported sessions, rests included: they swim a
/// little faster than that, so they are sure to make the send-offs. The median of the
/// last few; none where it would be slower than anyone's.
fn told_pace(facts: &Facts, course: Course) -> Option<Pace> {
    let told = facts.swims.iter().rev().filter(|swim| !swim.presumed && swim.on <= facts.today);
    let per_100 = told.filter_map(|swim| {
        let (far, minutes) = (swim.distance?.metres().get(), f64::from(swim.minutes?));
        (far >= 300.0 && minutes >= 10.0).then(|| minutes * 6000.0 / far)
    });
    let mut lately: Vec<f64> = per_100.take(TOLD_SWIMS).collect();
    lately.sort_by(f64::total_cmp);
    let middle = lately.get(lately.len() / 2).copied()?;
    let per_100_s = (middle * RESTS_OF_A_SESSION).max(FASTEST_TOLD_S) * course.unit().in_metres();
    let slower_than_anyone = per_100_s >= f64::from(ANYONE_S_PER_25 * 4) * 0.9;
    Pace::new(per_100_s, course.unit()).ok().filter(|_| !slower_than_anyone)
}

/// So many of the last sessions count (ours).
const TOLD_SWIMS: usize = 5;
/// What is left of a session's time without its longest rests and its talk (ours).
const RESTS_OF_A_SESSION: f64 = 0.9;
/// Nobody is hurried by what was told: seconds per 100 m of easy swimming at the least
/// (ours).
const FASTEST_TOLD_S: f64 = 90.0;

fn is_whole_stroke(stroke: Stroke) -> bool {
    matches!(stroke, Stroke::Free | Stroke::Back | Stroke::Breast | Stroke::Fly | Stroke::Im)
}

fn to_half(time: Centis) -> Centis {
    Centis::new(((time.hundredths() + 25) / 50 * 50).max(50)).unwrap_or(time)
}
