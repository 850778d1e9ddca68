//! Each lane with a count or a send-off of its own, in one text.

use super::lanes_and_names::{cuts, lanes_named, pass};
use crate::message::Cut;
use crate::reading::frame::Clause;
use crate::reading::frame::candidate::Candidate;
use crate::reading::lexicon::Concept;
use crate::reading::piece::{Far, Item, Piece};
use crate::reading::situation::{Line, Phase};
use crate::units::SendOff;

/// `L1 on 60, L2 1.05, L3 1.10`, `l1 12x50 55. l2 10x50 1.00`: each lane with a count or a
/// send-off of its own behind it.
pub fn each_lane(c: &Clause<'_, '_>, main: &Line) -> Option<Candidate> {
    let starts: Vec<usize> =
        (0..c.len()).filter(|at| matches!(c.pieces[*at].item, Item::Lanes(_))).collect();
    let told = c.sit.phase == Phase::Before
        || c.has_any(&[Concept::SetTime, Concept::To, Concept::Make, Concept::Give])
        || c.pieces.iter().any(|piece| piece.item == Item::Mark('@'))
        || c.has(Concept::For) && c.pieces.iter().all(|piece| leaves_in_fives(piece));
    // `lane 4 6x50 on 1:30`, `down to 6x50 for lane 4`: one alone, by the repeats of the set.
    let alone = starts.len() == 1
        && c.pieces.iter().any(|piece| {
            matches!(piece.item, Item::Repeat(_, Far::Of(amount, _)) if amount == main.distance)
        });
    let each = starts.len() > 1 && told;
    if !(each || alone) || !c.people().is_empty() {
        return None;
    }
    let mut candidate = Candidate::new("cut", c.len());
    let mut says = Vec::new();
    for (place, from) in starts.iter().enumerate() {
        let to = starts.get(place + 1).copied().unwrap_or(c.len());
        let from = if alone { 0 } else { *from };
        let stretch = c.part(from, to);
        let (cut, used) = one_lane(&stretch, main)?;
        used.into_iter().for_each(|at| candidate.used[from + at] = true);
        let lanes = lanes_named(&stretch);
        says.extend(cuts(&lanes, |lane| Cut { lane, ..cut.clone() }));
    }
    pass(c, &mut candidate);
    for (at, piece) in c.pieces.iter().enumerate() {
        let little = [Concept::SetTime, Concept::To, Concept::For, Concept::Started, Concept::Reps];
        candidate.used[at] |= little.iter().any(|one| piece.means(*one))
            || matches!(piece.item, Item::Plural(value) if value == main.distance);
    }
    candidate.says = says;
    Some(candidate.at_cost(0.1))
}

/// True of what is no time at which nobody is sent off: of `1:07 for lane 3` they swam it.
fn leaves_in_fives(piece: &Piece<'_>) -> bool {
    match piece.item {
        Item::Figure(figure) => {
            figure.times().into_iter().any(|time| time.hundredths().is_multiple_of(500))
        }
        _ => true,
    }
}

/// What one lane's stretch says of its repeats, and the pieces that say it: at most one
/// count and one send-off, and no other figure.
pub fn one_lane(c: &Clause<'_, '_>, main: &Line) -> Option<(Cut, Vec<usize>)> {
    let mut cut = Cut::default();
    let mut used = Vec::new();
    for (at, piece) in c.pieces.iter().enumerate() {
        let time = match piece.item {
            Item::Lanes(_) => {
                used.push(at);
                continue;
            }
            Item::Repeat(count, Far::Of(amount, _)) => {
                if amount != main.distance || cut.count.is_some() {
                    return None;
                }
                cut.count = u16::try_from(count).ok();
                used.push(at);
                continue;
            }
            Item::Figure(figure) => figure.times().into_iter().find(|time| {
                let seconds = time.seconds();
                let usual = main.send_off.map_or(60.0, |usual| f64::from(usual.seconds()));
                (0.6..=2.2).contains(&(seconds / usual))
            })?,
            Item::Range(..) | Item::Each(_) | Item::Far(_) | Item::Repeat(..) => return None,
            _ => continue,
        };
        // A pace to hold is no send-off.
        let before = at.checked_sub(1).and_then(|before| c.at(before));
        let held =
            before.is_some_and(|piece| piece.means(Concept::Held) || piece.means(Concept::Average));
        if cut.send_off.is_some() || held {
            return None;
        }
        cut.send_off = SendOff::new(time.seconds() as u32).ok();
        used.push(at);
    }
    (cut.count.is_some() || cut.send_off.is_some()).then_some((cut, used))
}
