//! The swimmers in order of pace, and which of them may make a lane.

use std::cell::OnceCell;
use std::cmp::Ordering;
use std::collections::BTreeMap;
use std::ops::RangeInclusive;

use super::cost::Cost;
use super::evening::{Entrant, Evening, KnownPace};
use super::limits::Limits;
use crate::units::{Course, Lane, Pace};

/// Whom we know nothing of, where nobody's pace is known: a 200 in 10:00 (ours).
const ANYONE_S_PER_100: f64 = 300.0;

/// The evening's swimmers in the order that lanes are cut from.
pub(super) struct Board<'a> {
    /// Everyone, fastest first, those without a pace last.
    pub swimmers: Vec<&'a Entrant>,
    /// The pace that each is taken to have.
    pub paces: Vec<Pace>,
    /// The lanes, by index from nought.
    pub lanes: Vec<Lane>,
    /// Places in `swimmers` of those that no pin holds, fastest first.
    pub free: Vec<usize>,
    /// Places in `swimmers` of those pinned, by lane.
    pub pinned: Vec<Vec<usize>>,
    /// The place of each handle, once it was asked for.
    places: OnceCell<BTreeMap<&'a str, usize>>,
    capacity: usize,
    hundredths: Vec<u32>,
    limits: Limits,
    /// For each place, those they may not share a lane with.
    apart: Vec<Vec<usize>>,
    /// For each place in `free`, the next after it that may not share its lane.
    next_apart: Vec<usize>,
    /// How many free swimmers there is room for in the lanes up to each.
    room: Vec<usize>,
    /// The runs of a lane that nobody is pinned to, by where they end: the same in each of
    /// them.
    open_runs: Vec<OnceCell<Vec<Run>>>,
}

/// Free swimmers behind each other in a lane, with those pinned there.
#[derive(Clone, Copy)]
pub(super) struct Run {
    /// Where it starts, as a place in the board's free swimmers.
    pub start: usize,
    /// What the lane costs.
    pub cost: Cost,
    /// How much longer its send-offs are than its slowest needs.
    pub stretch_s: u32,
}

impl<'a> Board<'a> {
    /// The board of an evening.
    pub fn of(evening: &'a Evening) -> Board<'a> {
        let order = in_order(evening);
        let paces: Vec<Pace> = order.iter().map(|one| one.pace).collect();
        let swimmers: Vec<&Entrant> = order.iter().map(|one| one.entrant).collect();
        let places = OnceCell::new();
        let lanes: Vec<Lane> = evening.lanes.up_to().collect();
        let mut pinned = vec![Vec::new(); lanes.len()];
        let mut free = Vec::new();
        for (place, entrant) in swimmers.iter().enumerate() {
            let lane = evening.pins.get(&entrant.name).map(|lane| usize::from(lane.number()) - 1);
            match lane.and_then(|lane| pinned.get_mut(lane)) {
                Some(lane) => lane.push(place),
                None => free.push(place),
            }
        }
        let mut apart = vec![Vec::new(); swimmers.len()];
        for (one, other) in &evening.apart {
            let places = places.get_or_init(|| places_of(&swimmers));
            if let (Some(&one), Some(&other)) = (places.get(&**one), places.get(&**other)) {
                for (one, other) in [(one, other), (other, one)] {
                    apart.get_mut(one).into_iter().for_each(|known| known.push(other));
                }
            }
        }
        let next_apart = free
            .iter()
            .enumerate()
            .map(|(at, place)| {
                let apart = apart.get(*place).filter(|apart| !apart.is_empty());
                let behind = apart.zip(free.get(at + 1..));
                let next = behind.and_then(|(apart, behind)| {
                    behind.iter().position(|other| apart.contains(other))
                });
                next.map_or(usize::MAX, |far| at + 1 + far)
            })
            .collect();
        let capacity = usize::from(evening.capacity);
        let mut so_far = 0;
        let of_lane = |pinned: &Vec<usize>| {
            so_far += capacity.saturating_sub(pinned.len());
            so_far
        };
        Board {
            limits: Limits::of(evening, &paces),
            room: pinned.iter().map(of_lane).collect(),
            open_runs: (0..=free.len()).map(|_| OnceCell::new()).collect(),
            capacity,
            hundredths: order.iter().map(|one| one.hundredths).collect(),
            swimmers,
            paces,
            lanes,
            free,
            pinned,
            places,
            apart,
            next_apart,
        }
    }

    /// The place of a handle, if it is there.
    pub fn place(&self, name: &str) -> Option<usize> {
        self.places.get_or_init(|| places_of(&self.swimmers)).get(name).copied()
    }

    /// Where a lane's run may end in a split of all: the lanes up to it hold no more, and
    /// those after it must hold the rest.
    pub fn ends(&self, lane: usize) -> RangeInclusive<usize> {
        let (all, whole) = (self.free.len(), self.room.last().copied().unwrap_or_default());
        let before = self.room.get(lane).copied().unwrap_or(whole);
        all.saturating_sub(whole.saturating_sub(before))..=before.min(all)
    }

    /// Shows `visit` every run of free swimmers that ends before `end` and may
    /// swim in `lane` beside those pinned there, shortest first.
    pub fn runs(&self, lane: usize, end: usize, visit: impl FnMut(Run)) {
        if let Some(pinned) = self.pinned.get(lane).filter(|pinned| !pinned.is_empty()) {
            return self.runs_beside(pinned, end, visit);
        }
        let runs = || {
            let mut runs = Vec::new();
            self.runs_beside(&[], end, |run| runs.push(run));
            runs
        };
        if let Some(known) = self.open_runs.get(end) {
            known.get_or_init(runs).iter().copied().for_each(visit);
        }
    }

    fn runs_beside(&self, pinned: &[usize], end: usize, mut visit: impl FnMut(Run)) {
        if self.any_parted(pinned) {
            return;
        }
        // The empty run: the pinned have the lane to themselves, if it holds them.
        if let Some((cost, stretch_s)) = self.cost_and_stretch(pinned) {
            visit(Run { start: end, cost, stretch_s });
        }
        let last = end.checked_sub(1).and_then(|last| self.free.get(last));
        let Some(&slowest_free) = last else { return };
        let slowest = pinned.last().map_or(slowest_free, |&pin| pin.max(slowest_free));
        let mut first = pinned.first().copied().unwrap_or(slowest_free);
        let mut count = pinned.len();
        let mut waiting = self.waiting(pinned, slowest);
        let free = self.free.iter().zip(&self.next_apart).enumerate().take(end);
        for (start, (&place, &next_apart)) in free.rev() {
            count += 1;
            first = first.min(place);
            let parted = next_apart < end || pinned.iter().any(|pin| self.parted(place, *pin));
            if parted || count > self.capacity {
                return;
            }
            let Some(stretch_s) = self.limits.stretch(first, slowest, count) else { return };
            waiting = waiting + self.cost_of_waiting(place, slowest);
            visit(Run { start, cost: waiting + Cost::of_company(count, stretch_s), stretch_s });
        }
    }

    /// What a lane of these places costs, in order of pace; `None` if it may not
    /// be swum.
    pub fn lane_cost(&self, lane: &[usize]) -> Option<Cost> {
        self.cost_and_stretch(lane).map(|(cost, _)| cost)
    }

    fn cost_and_stretch(&self, lane: &[usize]) -> Option<(Cost, u32)> {
        let (Some(&first), Some(&slowest)) = (lane.first(), lane.last()) else {
            return Some((Cost::default(), 0));
        };
        let stretch_s = self.limits.stretch(first, slowest, lane.len())?;
        let fits = lane.len() <= self.capacity && !self.any_parted(lane);
        let company = Cost::of_company(lane.len(), stretch_s);
        fits.then(|| (self.waiting(lane, slowest) + company, stretch_s))
    }

    /// True if the two are to be kept apart.
    pub fn parted(&self, one: usize, other: usize) -> bool {
        self.apart.get(one).is_some_and(|apart| apart.contains(&other))
    }

    fn any_parted(&self, lane: &[usize]) -> bool {
        let parted = |one: &usize| {
            let mut from = self.apart.get(*one).into_iter().flatten();
            from.any(|other| other != one && lane.contains(other))
        };
        lane.iter().any(parted)
    }

    fn waiting(&self, lane: &[usize], slowest: usize) -> Cost {
        lane.iter().fold(Cost::default(), |sum, place| sum + self.cost_of_waiting(*place, slowest))
    }

    fn cost_of_waiting(&self, place: usize, slowest: usize) -> Cost {
        let (own, slowest) = (self.hundredths.get(place), self.hundredths.get(slowest));
        own.zip(slowest).map_or(Cost::BEYOND, |(own, slowest)| Cost::of_waiting(*own, *slowest))
    }
}

/// A swimmer with the pace that they are taken to have.
struct Paced<'a> {
    hundredths: u32,
    unknown: bool,
    pace: Pace,
    entrant: &'a Entrant,
}

impl<'a> Paced<'a> {
    fn of(entrant: &'a Entrant, course: Course, slowest: Pace) -> Paced<'a> {
        let known = entrant.known_pace.pace().map(|pace| pace.in_unit_of(course));
        let pace = known.unwrap_or(slowest);
        let hundredths = pace.per_100().map_or(u32::MAX, |time| time.hundredths());
        Paced { hundredths, unknown: entrant.known_pace == KnownPace::Unknown, pace, entrant }
    }

    fn compare(&self, other: &Paced<'_>) -> Ordering {
        let key = |one: &Paced<'_>| (one.hundredths, one.unknown);
        let by_name = || self.entrant.name.cmp(&other.entrant.name);
        key(self).cmp(&key(other)).then_with(by_name)
    }
}

/// Puts an evening's swimmers in the order of a board: of each board of that evening, and
/// drawing takes several, they need not be sorted then.
pub fn in_order_of_pace(evening: &mut Evening) {
    evening.swimmers = in_order(evening).iter().map(|one| one.entrant.clone()).collect();
}

fn in_order(evening: &Evening) -> Vec<Paced<'_>> {
    let slowest = slowest_known(evening);
    let paced = |one| Paced::of(one, evening.course, slowest);
    let mut order: Vec<Paced<'_>> = evening.swimmers.iter().map(paced).collect();
    order.sort_by(Paced::compare);
    order
}

fn places_of<'a>(swimmers: &[&'a Entrant]) -> BTreeMap<&'a str, usize> {
    swimmers.iter().enumerate().map(|(place, one)| (one.name.as_str(), place)).collect()
}

/// The slowest pace that is known of anyone there, in the pool's unit.
#[expect(clippy::expect_used, reason = "the constant is a pace in any unit")]
fn slowest_known(evening: &Evening) -> Pace {
    let known = evening.swimmers.iter().filter_map(|entrant| entrant.known_pace.pace());
    known
        .map(|pace| pace.in_unit_of(evening.course))
        .max_by(|one, other| one.per_100_s().total_cmp(&other.per_100_s()))
        .unwrap_or_else(|| {
            Pace::new(ANYONE_S_PER_100, evening.course.unit()).expect("a number above nought")
        })
}
