//! A set written with other amounts, or other send-offs, for some lanes.

use super::writer::{Written, write};
use crate::message::ForLanes;
use crate::reading::frame::Clause;
use crate::reading::lexicon::Concept;
use crate::reading::piece::{Far, Figure, Item, Piece, Pieces, Used};
use crate::units::SendOff;

/// What lanes swim otherwise, and what is left of the text: the set of the first of them.
pub struct ByLane {
    /// What they swim otherwise.
    pub lanes: Vec<ForLanes>,
    /// The pieces that say it, beside the set itself.
    said: Used,
}

impl ByLane {
    /// The set without what lanes swim otherwise; all of that counts as understood.
    pub fn written(&self, c: &Clause<'_, '_>) -> Written {
        let kept = c.pieces.iter().zip(&self.said).filter(|(_, said)| !**said);
        let kept: Vec<Piece<'_>> = kept.map(|(piece, _)| piece.clone()).collect();
        let mut written = write(&Clause { pieces: Pieces(&kept), question: None, ..*c });
        let mut used = written.used.iter().copied().collect::<Vec<_>>().into_iter();
        let mut whole = self.said.clone();
        whole.iter_mut().filter(|said| !**said).for_each(|said| {
            *said = used.next().unwrap_or_default();
        });
        written.used = whole;
        written
    }
}

/// What some lanes swim, where it stands, and whether the set's own words say it too.
struct Version {
    lanes: Vec<u8>,
    /// Where the lanes are named.
    named: (usize, usize),
    /// Where it is said what they swim.
    told: (usize, usize),
    distance: Option<u32>,
    count: Option<u32>,
    send_off: Option<SendOff>,
}

/// `10x100 on 2:15 for lanes 1 and 2, 8 for 3 and 4`, `L1 10x100 1:40 L2 9x100 1:50`, `12x100
/// L1 @1:55 L2 @2:05`.
pub fn by_lane(c: &Clause<'_, '_>) -> Option<ByLane> {
    let named = lanes_named(c);
    let [(first, ..), _, ..] = named.as_slice() else { return None };
    let repeat = c.pieces.iter().position(|piece| matches!(piece.item, Item::Repeat(..)))?;
    // `10x100 for lanes 1 and 2, 8 for 3 and 4`: lanes stand behind what they swim.
    let last = named.last().map_or(c.len(), |last| last.1);
    let ends = version(c, vec![], (last, last), (last, c.len())).is_none();
    let behind = repeat < *first && (ends || c.pieces[..*first].last().is_some_and(is_for));
    let versions: Vec<Version> = named
        .iter()
        .enumerate()
        .map(|(place, (from, to, lanes))| {
            let before = place.checked_sub(1).and_then(|before| named.get(before));
            let stretch = match behind {
                true => (before.map_or(repeat, |last| last.1), *from),
                false => (*to, named.get(place + 1).map_or(c.len(), |next| next.0)),
            };
            version(c, lanes.clone(), (*from, *to), stretch)
        })
        .collect::<Option<_>>()?;
    let own = Version { lanes: vec![], ..version(c, vec![], (repeat, repeat), (repeat, c.len()))? };
    // A set before all lanes is that of those without a count of their own; else that of all
    // the others, or of the lanes named first.
    let others = versions.iter().position(|one| one.lanes.is_empty()).unwrap_or(0);
    let stands_first = repeat < *first && !behind;
    let base = if stands_first { own } else { copy(versions.get(others)?) };
    let distance = base.distance?;
    if versions.iter().any(|one| one.distance.is_some_and(|other| other != distance)) {
        return None;
    }
    let mut said = Used::none(c.len());
    let mut lanes: Vec<ForLanes> = Vec::new();
    for (place, one) in versions.iter().enumerate() {
        said[one.named.0..one.named.1].fill(true);
        let is_base = place == others && !stands_first;
        if !is_base {
            said[one.told.0..one.told.1].fill(true);
        }
        let count = one.count.filter(|count| Some(*count) != base.count);
        let count = count.and_then(|count| u16::try_from(count).ok());
        let send_off = one.send_off.filter(|on| Some(*on) != base.send_off);
        if !one.lanes.is_empty() && (count.is_some() || send_off.is_some()) {
            lanes.push(ForLanes { lanes: one.lanes.clone(), count, send_off });
        }
    }
    (!lanes.is_empty()).then_some(ByLane { lanes, said })
}

fn copy(one: &Version) -> Version {
    Version { lanes: one.lanes.clone(), ..*one }
}

fn is_for(piece: &Piece<'_>) -> bool {
    piece.means(Concept::For) || piece.means(Concept::In)
}

/// The lanes that are named, each time from one piece up to another: `lanes 1 and 2`, `L3`,
/// `everyone else`, and `for 3 and 4` behind another.
fn lanes_named(c: &Clause<'_, '_>) -> Vec<(usize, usize, Vec<u8>)> {
    let mut all: Vec<(usize, usize, Vec<u8>)> = Vec::new();
    let number = |at: usize| match c.at(at)?.item {
        Item::Figure(Figure::Whole { value: value @ 1..=10, places: 1 }) => {
            u8::try_from(value).ok()
        }
        _ => None,
    };
    let mut at = 0;
    while let Some(piece) = c.at(at) {
        let lanes: Vec<u8> = piece.lanes().collect();
        let bare = !all.is_empty() && at > 0 && is_for(&c.pieces[at - 1]);
        let others = piece.means(Concept::Rest) && !piece.means(Concept::RestWord);
        if !lanes.is_empty() || others {
            all.push((at, at + 1, lanes));
        } else if let Some(first) = number(at).filter(|_| bare) {
            let other = c.at(at + 1).is_some_and(|and| and.means(Concept::And));
            let second = number(at + 2).filter(|_| other);
            let end = if second.is_some() { at + 3 } else { at + 1 };
            all.push((at, end, std::iter::once(first).chain(second).collect()));
            at = end;
            continue;
        }
        at += 1;
    }
    all
}

/// What a stretch beside some lanes says that they swim: so many, every so often.
fn version(
    c: &Clause<'_, '_>,
    lanes: Vec<u8>,
    named: (usize, usize),
    (from, to): (usize, usize),
) -> Option<Version> {
    let mut one =
        Version { lanes, named, told: (from, from), distance: None, count: None, send_off: None };
    let mut at = from;
    while at < to {
        let piece = &c.pieces[at];
        let leaves = at > from && is_send_off_word(&c.pieces[at - 1]);
        match piece.item {
            Item::Repeat(count, Far::Of(distance, _)) if one.count.is_none() => {
                (one.count, one.distance) = (Some(count), Some(distance));
            }
            Item::Repeat(..) | Item::Far(_) => break,
            Item::Figure(Figure::Whole { value: value @ 2..=40, .. })
                if one.count.is_none() && one.send_off.is_none() && !leaves =>
            {
                one.count = Some(value);
            }
            Item::Figure(figure) => {
                let time = figure.times().into_iter().find(|time| {
                    time.hundredths().is_multiple_of(500)
                        && (30.0..=420.0).contains(&time.seconds())
                });
                // `wu 200` is no time.
                let clear = leaves || figure.whole().is_none_or(|value| value < 100);
                let Some(time) = time.filter(|_| one.send_off.is_none() && clear) else { break };
                one.send_off = SendOff::new(time.hundredths() / 100).ok();
            }
            Item::Mark(_) | Item::Line | Item::Day(_) | Item::Chatter => {
                at += 1;
                continue;
            }
            _ if is_send_off_word(piece) || is_for(piece) || is_little(piece) => {
                at += 1;
                continue;
            }
            _ => break,
        }
        at += 1;
        one.told.1 = at;
    }
    Some(one).filter(|one| one.count.is_some() || one.send_off.is_some())
}

fn is_send_off_word(piece: &Piece<'_>) -> bool {
    piece.item == Item::Mark('@')
        || piece.means(Concept::SetTime)
        || matches!(piece.text, "on" | "off" | "at" | "every")
}

fn is_little(piece: &Piece<'_>) -> bool {
    [Concept::Make, Concept::And, Concept::Then, Concept::Will, Concept::Only, Concept::Reps]
        .iter()
        .any(|one| piece.means(*one))
}
