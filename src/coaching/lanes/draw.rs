//! The lanes, drawn: who leads off, on which send-offs, and when each is done.

use super::board::Board;
use super::cost::Cost;
use super::evening::{Evening, Gap, KnownPace};
use super::limits::{own_send_off, roomy_send_off, time};
use super::partition::{Cut, cheapest};
use super::shortfall::{Shortfall, unmet_limit, unmet_wish};
use crate::units::{Centis, Distance, Lane, SendOff};

/// Lanes drawn for an evening.
#[derive(Debug, Clone, PartialEq)]
pub struct Draw {
    /// Every lane there is, lane 1 first; one may be empty.
    pub lanes: Vec<LaneDrawn>,
    /// What the split costs.
    pub cost: Cost,
}

/// One lane.
#[derive(Debug, Clone, PartialEq)]
pub struct LaneDrawn {
    /// Which.
    pub lane: Lane,
    /// Who swims in it, in the order they lead off: fastest first, ties by name.
    pub swimmers: Vec<Placed>,
    /// The time between two who leave behind each other.
    pub gap: Gap,
    /// A send-off for each repeat of the set; none in an empty lane.
    pub send_offs: Vec<LaneSendOff>,
    /// From the first leaving to the last coming in, where there is a set and
    /// someone to swim it.
    pub finish: Option<Centis>,
}

/// A swimmer in their place.
#[derive(Debug, Clone, PartialEq)]
pub struct Placed {
    /// Their handle.
    pub name: String,
    /// What is known of their pace.
    pub known_pace: KnownPace,
}

/// A lane's send-off for one repeat of the set.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct LaneSendOff {
    /// How many times.
    pub count: u16,
    /// How far.
    pub distance: Distance,
    /// What the lane's slowest is expected to take.
    pub slowest: Centis,
    /// Leave every so often.
    pub send_off: SendOff,
    /// How much longer that is than the slowest alone would need, to leave room
    /// for all: within [`Evening::stretch_s`].
    pub stretched_s: u32,
}

/// Splits those present into lanes: the cheapest split of the model in
/// [`super`].
///
/// ```
/// use lapwing::coaching::lanes::{Entrant, Evening, Gap, KnownPace, draw};
/// use lapwing::units::{Course, Lane, Pace, Unit};
/// let at = |name: &str, pace: f64| Entrant {
///     name: name.to_owned(),
///     known_pace: KnownPace::Tested(Pace::new(pace, Unit::Metre).unwrap()),
/// };
/// let evening = Evening {
///     swimmers: vec![at("wren", 131.0), at("teal", 95.0), at("siskin", 128.0), at("heron", 97.0)],
///     lanes: Lane::new(2).unwrap(),
///     capacity: 6,
///     gap: Gap::Five,
///     course: Course::Short25m,
///     set: Vec::new(),
///     pins: Default::default(),
///     apart: Vec::new(),
///     stretch_s: 0,
/// };
/// let lanes = draw(&evening).unwrap().lanes;
/// let first: Vec<&str> = lanes[0].swimmers.iter().map(|one| one.name.as_str()).collect();
/// assert_eq!(first, ["teal", "heron"]);
/// ```
///
/// # Errors
/// [`Shortfall`], with the smallest relaxation, if no split keeps every limit.
/// Nothing is relaxed unasked.
pub fn draw(evening: &Evening) -> Result<Draw, Shortfall> {
    let board = Board::of(evening);
    let cut = cheapest_cut(evening, &board)?;
    Ok(drawn(evening, &board, &cut))
}

/// The cheapest cut of all, or why there is none.
pub(super) fn cheapest_cut(evening: &Evening, board: &Board<'_>) -> Result<Cut, Shortfall> {
    if let Some(unmet) = unmet_wish(evening) {
        return Err(unmet);
    }
    cheapest(board).ok_or_else(|| unmet_limit(evening))
}

/// The lanes of a cut, with their send-offs.
pub(super) fn drawn(evening: &Evening, board: &Board<'_>, cut: &Cut) -> Draw {
    let lanes = board.lanes.iter().zip(&cut.runs).zip(&board.pinned);
    let lanes = lanes.map(|((lane, &(start, end)), pinned)| {
        let mut places = board.free.get(start..end).unwrap_or_default().to_vec();
        places.extend(pinned);
        places.sort_unstable();
        lane_drawn(evening, board, *lane, &places)
    });
    Draw { lanes: lanes.collect(), cost: cut.cost }
}

/// Lanes as somebody else put them, each in the order given, with the send-offs that
/// they need. Whoever is not there is left out.
pub fn as_placed(evening: &Evening, orders: &[(Lane, Vec<String>)]) -> Vec<LaneDrawn> {
    let board = Board::of(evening);
    let drawn = |(lane, names): &(Lane, Vec<String>)| {
        let place = |name: &String| board.place(name);
        let order: Vec<usize> = names.iter().filter_map(place).collect();
        let mut places = order.clone();
        places.sort_unstable();
        let by_pace = lane_drawn(evening, &board, *lane, &places);
        LaneDrawn { swimmers: placed(&board, &order), ..by_pace }
    };
    orders.iter().map(drawn).collect()
}

fn lane_drawn(evening: &Evening, board: &Board<'_>, lane: Lane, places: &[usize]) -> LaneDrawn {
    let slowest = places.last().and_then(|last| board.paces.get(*last));
    let send_offs: Vec<LaneSendOff> = match slowest {
        None => Vec::new(),
        Some(&pace) => evening
            .set
            .iter()
            .map(|repeat| {
                let send_off = roomy_send_off(pace, repeat, evening.gap, places.len());
                LaneSendOff {
                    count: repeat.count,
                    distance: repeat.distance,
                    slowest: time(pace, repeat),
                    send_off,
                    stretched_s: send_off.seconds() - own_send_off(pace, repeat).seconds(),
                }
            })
            .collect(),
    };
    LaneDrawn {
        lane,
        swimmers: placed(board, places),
        gap: evening.gap,
        finish: finish(&send_offs, evening.gap, places.len()),
        send_offs,
    }
}

fn placed(board: &Board<'_>, places: &[usize]) -> Vec<Placed> {
    let entrants = places.iter().filter_map(|place| board.swimmers.get(*place));
    let placed = entrants
        .map(|entrant| Placed { name: entrant.name.clone(), known_pace: entrant.known_pace });
    placed.collect()
}

/// All send-offs but the last, the last swim, and the way back to the last to leave.
fn finish(send_offs: &[LaneSendOff], gap: Gap, swimmers: usize) -> Option<Centis> {
    let last = send_offs.last()?;
    let whole: u32 =
        send_offs.iter().map(|one| one.send_off.seconds() * u32::from(one.count)).sum();
    let behind = gap.seconds() * u32::try_from(swimmers.saturating_sub(1)).ok()?;
    let before_last = (whole + behind).saturating_sub(last.send_off.seconds());
    match Centis::from_whole_seconds(before_last) {
        Ok(before) => Some(before + last.slowest),
        Err(_) => Some(last.slowest),
    }
}
