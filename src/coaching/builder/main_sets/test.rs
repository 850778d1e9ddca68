//! A test, and what goes round it.

use super::set::MainSet;
use crate::coaching::builder::Setting;
use crate::coaching::builder::pen::once;
use crate::session::Part;
use crate::units::{Distance, Level, Stroke};

/// A test alone in the water, easy swimming after it, then a little technique.
/// The test has no target: it says what the next targets are.
pub(super) fn test(setting: &Setting<'_>) -> Vec<MainSet> {
    let Some(amount) = setting.test else { return Vec::new() };
    let fits = Distance::new(amount, setting.paces.unit())
        .is_ok_and(|distance| distance.fits(setting.paces.course));
    let Some(mut swim) = setting.easy(1, amount, setting.stroke()).filter(|_| fits) else {
        return Vec::new();
    };
    swim.target = None;
    // Above what settles by its nature: a 400 lies near 106 % of critical speed.
    swim.level = if amount <= 500 { Level::Sprint } else { Level::Hard };
    let recovery = (amount / 2).next_multiple_of(setting.length().max(50)).max(100);
    let piece = recovery.min(setting.longest());
    let times = u16::try_from(recovery.div_ceil(piece)).unwrap_or(1);
    let easy = setting.easy(times, piece, Stroke::Choice);
    let short = setting.longest().min(50).max(setting.length());
    (1..=8u16)
        .filter_map(|count| {
            let after = setting.easy(count, short, setting.stroke_for(short))?;
            let blocks = vec![
                once(Part::Test, vec![swim.clone()]),
                once(Part::Recovery, vec![easy.clone()?]),
                once(Part::Main, vec![after]),
            ];
            Some(MainSet::new(blocks, 0.0))
        })
        .collect()
}
