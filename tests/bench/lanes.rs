//! What it costs to draw lanes, in one run:
//!
//! - `draw`: 500 swimmers into 10 lanes of up to 60, and an ordinary evening of
//!   24 into 4, for a set of 50s and 100s with its limits
//! - `again`: the evening's lanes with one lost and the fewest moved
//! - `no_set`: as `draw`, no set and so no limits of time
//! - `naive`: what `no_set` gives, every run's cost worked anew, as one would
//!   write it first: swimmers x capacity x lanes runs, each up to 60 long

#![expect(clippy::unwrap_used, reason = "a benchmark that can't go on has failed")]

use std::collections::BTreeMap;
use std::hint::black_box;

use criterion::{BenchmarkId, Criterion, criterion_group, criterion_main};
use lapwing::coaching::lanes::{Cost, Entrant, Evening, Gap, KnownPace, LaneRepeat, draw, redraw};
use lapwing::units::{Course, Distance, Lane, Level, Pace, Unit};

/// Paces from 1:05 to 2:45 per 100, in no order, some tied.
fn evening(swimmers: u32, lanes: u8, capacity: u16) -> Evening {
    let pace = |number: u32| f64::from(650 + number * 7919 % 1000) / 10.0;
    let entrant = |number: u32| Entrant {
        name: format!("swimmer-{number}"),
        known_pace: KnownPace::Tested(Pace::new(pace(number), Unit::Metre).unwrap()),
    };
    let repeat = |metres: u32| LaneRepeat {
        count: 8,
        distance: Distance::new(metres, Unit::Metre).unwrap(),
        level: Level::Threshold,
        send_off: None,
    };
    Evening {
        swimmers: (0..swimmers).map(entrant).collect(),
        lanes: Lane::new(lanes).unwrap(),
        capacity,
        gap: Gap::Five,
        // No circle, so that the limit on numbers is the capacity alone.
        course: Course::OpenWater,
        set: vec![repeat(50), repeat(100)],
        pins: BTreeMap::new(),
        apart: Vec::new(),
        stretch_s: 600,
    }
}

/// The same model without limits of time: sort, then try every start of every
/// lane's run and add up its cost from nothing.
fn naive(evening: &Evening) -> u64 {
    let mut paces: Vec<u64> = evening
        .swimmers
        .iter()
        .map(|one| one.known_pace.pace().unwrap().per_100().unwrap().hundredths().into())
        .collect();
    paces.sort_unstable();
    let run_cost = |run: &[u64]| -> u64 {
        let Some(slowest) = run.last() else { return 0 };
        let waiting = run.iter().map(|own| {
            let over = (10 * slowest).saturating_sub(11 * own);
            25 * (slowest - own).pow(2) + over * over
        });
        let pairs = run.len() as u64 * (run.len() as u64 - 1) / 2;
        waiting.sum::<u64>() + pairs * Cost::PAIR.units()
    };
    let mut best: Vec<Option<u64>> = vec![None; paces.len() + 1];
    best[0] = Some(0);
    for _ in evening.lanes.up_to() {
        best = (0..=paces.len())
            .map(|end| {
                let starts = end.saturating_sub(usize::from(evening.capacity))..=end;
                starts.filter_map(|start| Some(best[start]? + run_cost(&paces[start..end]))).min()
            })
            .collect();
    }
    best[paces.len()].unwrap()
}

fn lanes(criterion: &mut Criterion) {
    for (swimmers, lanes, capacity) in [(24, 4, 8), (500, 10, 60)] {
        let evening = evening(swimmers, lanes, capacity);
        let drawn = draw(&evening).unwrap();
        let no_set = Evening { set: Vec::new(), ..evening.clone() };
        assert_eq!(draw(&no_set).unwrap().cost.units(), naive(&no_set));
        let before: BTreeMap<String, Lane> = drawn
            .lanes
            .iter()
            .flat_map(|lane| lane.swimmers.iter().map(|one| (one.name.clone(), lane.lane)))
            .collect();
        let lost = Evening { lanes: Lane::new(lanes - 1).unwrap(), ..evening.clone() };
        let mut group = criterion.benchmark_group("lanes");
        group.sample_size(20);
        let size = format!("{swimmers}x{lanes}");
        group.bench_with_input(BenchmarkId::new("draw", &size), &evening, |b, evening| {
            b.iter(|| draw(black_box(evening)));
        });
        group.bench_with_input(BenchmarkId::new("no_set", &size), &no_set, |b, evening| {
            b.iter(|| draw(black_box(evening)));
        });
        group.bench_with_input(BenchmarkId::new("naive", &size), &no_set, |b, evening| {
            b.iter(|| naive(black_box(evening)));
        });
        if swimmers < 100 {
            group.bench_with_input(BenchmarkId::new("again", &size), &lost, |b, evening| {
                b.iter(|| redraw(black_box(evening), &before));
            });
        }
        group.finish();
    }
}

criterion_group!(benches, lanes);
criterion_main!(benches);
