//! What is swum on the day of a race: before it and after it.

use super::Setting;
use super::compose::{easy_pieces, warm_up};
use super::pen::once;
use crate::session::{Part, Session};
use crate::units::{Distance, Stroke};

/// The share of a usual session that warms up for a race, its least and its most, in
/// the pool's unit (common practice, no source).
const WARM_UP_SHARE: f64 = 0.3;
const WARM_UP: (u32, u32) = (200, 600);
/// A usual session where none is known (ours).
const USUAL: u32 = 1500;
/// How far is swum easily after the race (common practice, no source).
const AFTER: u32 = 200;

/// An easy warm-up, the race's pace met twice over short pieces with all the rest that
/// there is, and an easy swim for after the race; `None` where not even that can be
/// written.
pub(in crate::coaching) fn race_day(setting: &Setting<'_>) -> Option<Session> {
    let piece = setting.length().max(50);
    let usual = f64::from(setting.aim.unwrap_or(USUAL).min(3 * USUAL));
    let warm = ((usual * WARM_UP_SHARE) as u32).clamp(WARM_UP.0, WARM_UP.1) / piece * piece;
    let mut blocks = vec![warm_up(setting, warm.max(piece))?];
    setting.put_focus(blocks.first_mut());
    let build: Vec<_> = [setting.easy(2, piece, setting.stroke_for(piece)), at_race_pace(setting)]
        .into_iter()
        .flatten()
        .collect();
    blocks.push(once(Part::Build, build));
    let after = AFTER.min(warm).next_multiple_of(piece);
    blocks.push(once(Part::SwimDown, easy_pieces(setting, after, Stroke::Choice)?));
    Some(setting.session(blocks))
}

/// Two short pieces at the pace of the race, where it is known.
fn at_race_pace(setting: &Setting<'_>) -> Option<crate::session::Repeat> {
    let race = setting.race.as_ref()?;
    let short = if race.distance.amount() <= 200 { 25 } else { 50 };
    let piece = short.max(setting.length());
    let distance = Distance::new(piece, setting.paces.unit()).ok()?;
    setting.held(2, piece, setting.paces.even(race, distance)?)
}
