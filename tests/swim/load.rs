//! Session load, monotony, strain, recent beside usual.

use lapwing::swim::load::{Load, Monotony, Week, balance, weighted_mean};
use lapwing::units::{Centis, Rpe};

use crate::support::near;

fn load(minutes: u32, rpe: u8) -> Load {
    Load::of(Rpe::from_tenths(rpe * 10).unwrap(), Centis::from_whole_seconds(minutes * 60).unwrap())
}

/// A day of so many units, as an hour or less at RPE 10.
fn units(units: u32) -> Load {
    match units {
        0 => Load::REST,
        _ => {
            Load::of(Rpe::from_tenths(100).unwrap(), Centis::from_whole_seconds(units * 6).unwrap())
        }
    }
}

/// Formulas of Foster et al. 2001 (J Strength Cond Res 15(1):109-115) and
/// Foster 1998 (Med Sci Sports Exerc 30:1164-1168); weeks worked in double
/// precision with the sample deviation.
#[test]
fn weeks() {
    let mixed =
        [load(60, 4), load(75, 6), Load::REST, load(60, 3), load(90, 7), load(45, 5), Load::REST];
    let six_equal = [300, 300, 300, 300, 300, 300, 0].map(units);
    let uneven = [500, 100, 600, 0, 400, 200, 0].map(units);
    for (days, total, wanted, wanted_strain) in [
        (mixed, 1725.0, 1.075612, 1855.431),
        (six_equal, 1800.0, 2.267787, 4082.016),
        (uneven, 1800.0, 1.053972, 1897.150),
    ] {
        let week = Week::of(days);
        near(week.total.units(), total, 1e-9);
        let Monotony::Varied { monotony, strain } = week.monotony else { panic!("days differ") };
        near(monotony, wanted, 6e-7);
        near(strain, wanted_strain, 6e-4);
    }
}

#[test]
fn monotony_is_never_divided_by_nought() {
    assert_eq!(Week::of([units(300); 7]).monotony, Monotony::EveryDayTheSame);
    assert_eq!(Week::of([load(37, 7); 7]).monotony, Monotony::EveryDayTheSame);
    assert_eq!(Week::of([Load::REST; 7]).monotony, Monotony::Rest);
}

/// Williams et al. 2017, Br J Sports Med 51:209-210: lambda is 2/(N+1). A
/// steady month then a doubled week, in closed form.
#[test]
fn doubled_week() {
    let days: Vec<Load> = std::iter::repeat_n(300, 28).chain([600; 7]).map(units).collect();
    let found = balance(&days).unwrap();
    near(found.recent.units(), 600.0 - 300.0 * 0.75f64.powi(7), 1e-9);
    near(found.usual.units(), 600.0 - 300.0 * (27.0f64 / 29.0).powi(7), 1e-9);
    near(found.recent.units(), 559.954834, 5e-7);
    near(found.usual.units(), 418.079509, 5e-7);
    near(found.ratio.unwrap(), 1.339350, 5e-7);
}

/// The same paper's recursion, day by day, begun with the first load.
#[test]
fn day_by_day() {
    let days = [400, 0, 500, 300, 0, 600, 200].map(units);
    let recent = [400.0, 300.0, 350.0, 337.5, 253.125, 339.84375, 304.8828];
    let usual = [400.0, 372.4138, 381.2128, 375.6120, 349.7077, 366.9692, 355.4541];
    for day in 1..=7 {
        near(weighted_mean(&days[..day], 7).unwrap().units(), recent[day - 1], 5e-5);
        near(weighted_mean(&days[..day], 28).unwrap().units(), usual[day - 1], 5e-5);
    }
}

#[test]
fn too_little_is_not_described() {
    assert_eq!(balance(&[units(300); 27]), None);
    assert_eq!(balance(&[Load::REST; 28]).unwrap().ratio, None);
    assert_eq!(weighted_mean(&[], 7), None);
}
