//! Session load.

use lapwing::swim::load::Load;
use lapwing::units::{Centis, Rpe};

use crate::support::near;

fn load(minutes: u32, rpe: u8) -> Load {
    Load::of(Rpe::from_tenths(rpe * 10).unwrap(), Centis::from_whole_seconds(minutes * 60).unwrap())
}

/// Rating times minutes (Foster et al. 2001, J Strength Cond Res 15(1):109-115).
#[test]
fn a_week() {
    near(load(60, 4).units(), 240.0, 1e-9);
    let week: Load = [load(60, 4), load(75, 6), Load::REST, load(60, 3), load(90, 7), load(45, 5)]
        .into_iter()
        .sum();
    near(week.units(), 1725.0, 1e-9);
}
