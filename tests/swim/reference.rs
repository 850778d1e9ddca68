//! Every fit of 1,000 random swimmers beside a general statistics library
//! (`tests/reference/compare.py`, numpy and scipy), to 1e-9 of its size.

use std::process::Command;

use lapwing::swim::Trial;
use lapwing::swim::curve::{AtLeast, Curve, shape as usual};
use lapwing::swim::least_squares::Line;
use lapwing::swim::load::{Load, Monotony, Week, weighted_mean};
use lapwing::swim::real_change::Change;
use lapwing::swim::set::shape;
use lapwing::units::{Centis, Course, Distance, Rpe, Stroke, Unit};
use rand::{Rng, RngExt, SeedableRng};
use rand_chacha::ChaCha12Rng;
use serde_json::{Value, json};

use crate::support::day;

#[test]
#[ignore = "needs LAPWING_REFERENCE_PYTHON: a python with tests/reference/requirements.txt"]
fn agrees_with_a_statistics_library() {
    let python = std::env::var("LAPWING_REFERENCE_PYTHON").unwrap();
    let mut random = ChaCha12Rng::seed_from_u64(200_312);
    let cases: Vec<Value> = (0..1000).map(|_| swimmer(&mut random)).collect();
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("cases.json");
    std::fs::write(&path, serde_json::to_vec(&cases).unwrap()).unwrap();
    let script = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/reference/compare.py");
    let output = Command::new(python).arg(script).arg(&path).output().unwrap();
    let said = String::from_utf8_lossy(&output.stdout);
    println!("{said}{}", String::from_utf8_lossy(&output.stderr));
    assert!(output.status.success(), "{said}");
}

/// A swimmer who obeys a power law with noise, a paced set, and five weeks.
fn swimmer(random: &mut impl Rng) -> Value {
    let today = day("2026-03-02");
    let exponent = random.random_range(1.03..1.16);
    let pace = random.random_range(0.5..1.4);
    let mut trials = Vec::new();
    for amount in [100, 200, 400, 800, 1500] {
        if trials.len() < 2 || random.random_bool(0.6) {
            let noise: f64 = random.random_range(0.97..1.03);
            let seconds = pace * f64::from(amount).powf(exponent) * noise;
            trials.push(Trial {
                distance: Distance::new(amount, Unit::Metre).unwrap(),
                time: Centis::from_seconds(seconds).unwrap(),
                stroke: Stroke::Free,
                course: Course::Short25m,
                on: today - jiff::Span::new().days(random.random_range(0..200)),
                meet: random.random_bool(0.3),
            });
        }
    }
    trials.sort_by_key(|trial| trial.on);
    let times: Vec<f64> = trials.iter().map(|trial| trial.time.seconds()).collect();
    let distances: Vec<f64> = trials.iter().map(|trial| trial.distance.metres().get()).collect();
    let points: Vec<(f64, f64)> = times.iter().copied().zip(distances.iter().copied()).collect();
    let line = Line::through(&points).unwrap();
    let curve = Curve::of(&trials, today, Stroke::Free, Course::Short25m).unwrap();
    let predicted = Distance::new(random.random_range(2..60) * 25, Unit::Metre).unwrap();
    let at = f64::from(predicted.amount());
    let reading = curve.by_shape(at);
    let shown = AtLeast {
        amount: 400.0,
        seconds: curve.by_shape(400.0).seconds * random.random_range(0.95..1.05),
    };
    let with_set = curve.clone().with_set(shown).by_shape(at);

    let (gain, gain_sd) = (random.random_range(-5.0..5.0), random.random_range(0.5..3.0));
    let change = Change::of(gain, gain_sd, 0.6);

    let repeats: Vec<Option<Centis>> = (0..random.random_range(3..20))
        .map(|_| Some(Centis::new(random.random_range(4500..5500)).unwrap()))
        .collect();
    let shape = shape(&repeats).unwrap();

    let loads: Vec<Load> = (0..35)
        .map(|_| {
            let rpe = Rpe::from_tenths(random.random_range(0..=100)).unwrap();
            Load::of(rpe, Centis::from_whole_seconds(random.random_range(1..7200)).unwrap())
        })
        .collect();
    let last_week: [Load; 7] = loads[28..].try_into().unwrap();
    let Monotony::Varied { monotony, .. } = Week::of(last_week).monotony else {
        panic!("random days differ");
    };
    let mut ours = json!({
        "slope": line.slope, "intercept": line.intercept,
        "ln_time": reading.seconds.ln(), "sd": reading.sd, "with_set": with_set.seconds.ln(),
        "faster": change.faster, "slower": change.slower, "faster_at_all": change.faster_at_all,
        "fade": shape.fade.unwrap().get(), "mean": shape.mean.get(),
        "monotony": monotony,
        "recent": weighted_mean(&loads, 7).unwrap().units(),
        "usual": weighted_mean(&loads, 28).unwrap().units(),
    });
    if let Some(errors) = line.errors {
        ours["slope_se"] = errors.slope.into();
        ours["intercept_se"] = errors.intercept.into();
        ours["r_squared"] = errors.r_squared.into();
    }
    json!({
        "times_s": times, "distances_m": distances,
        "ages_days": trials.iter().map(|trial| trial.days_before(today)).collect::<Vec<_>>(),
        "errors": trials.iter().map(Trial::typical_error).collect::<Vec<_>>(),
        "predicted_m": predicted.metres().get(), "shown_s": shown.seconds,
        "usual": trials.iter().map(|trial| usual(f64::from(trial.distance.amount()))).collect::<Vec<_>>(),
        "usual_there": usual(at),
        "gain": gain, "gain_sd": gain_sd, "worthwhile": 0.6,
        "repeats_s": repeats.iter().flatten().map(|time| time.seconds()).collect::<Vec<_>>(),
        "loads": loads.iter().map(|load| load.units()).collect::<Vec<_>>(),
        "ours": ours,
    })
}
