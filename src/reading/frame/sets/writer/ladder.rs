//! A ladder: distances that rise or fall, one of each.

use super::Writer;
use super::written::{WrittenPart, is_swum};
use crate::message::Length;
use crate::reading::frame::sets::item::Swim;
use crate::reading::lexicon::{Concept, Sense};
use crate::reading::piece::{Figure, Item};
use crate::units::Centis;

impl Writer<'_, '_, '_> {
    /// `25-50-75-100`, `50 100 150 200 150 100 50`, `50/100/150`: one of each.
    pub(super) fn ladder(&mut self, at: usize) -> Option<usize> {
        let mut rungs: Vec<u32> = Vec::new();
        let mut place = at;
        let mut end = at;
        loop {
            let value = match self.piece(place).map(|piece| piece.item) {
                Some(Item::Figure(Figure::Whole { value, .. })) if is_swum(value) => Some(value),
                Some(Item::Range(
                    Figure::Whole { value: from, .. },
                    Figure::Whole { value: to, .. },
                )) if is_swum(from) && is_swum(to) => {
                    rungs.push(from);
                    Some(to)
                }
                _ => None,
            };
            let Some(value) = value else { break };
            rungs.push(value);
            place += 1;
            end = place;
            if self
                .piece(place)
                .is_some_and(|piece| matches!(piece.item, Item::Mark('-' | '/' | ',')))
            {
                place += 1;
            }
        }
        // The slowest ladders have three rungs, none of them like its neighbour.
        if rungs.len() < 3 || rungs.array_windows::<2>().any(|pair| pair[0] == pair[1]) {
            return None;
        }
        if self.piece(end).is_some_and(|piece| {
            piece
                .sense(|sense| matches!(sense, Sense::Stroke(_) | Sense::Part(_)).then_some(()))
                .is_some()
        }) && rungs.len() == 3
            && self
                .piece(at + 1)
                .is_some_and(|piece| !matches!(piece.item, Item::Figure(_) | Item::Mark('-' | '/')))
        {
            return None;
        }
        let mut swims: Vec<WrittenPart> = rungs
            .iter()
            .map(|rung| WrittenPart::One(Swim::new(1, Length { amount: *rung, unit: None }, at)))
            .collect();
        // `then back down`
        let back = (end..end + 8).find(|place| {
            self.piece(*place)
                .is_some_and(|piece| piece.text == "back" || piece.text == "backwards")
                && self.piece(*place + 1).is_some_and(|piece| {
                    piece.text == "down" || matches!(piece.item, Item::Mark(_))
                })
        });
        if let Some(back) = back {
            let rising = rungs.array_windows::<2>().all(|pair| pair[0] < pair[1]);
            if rising {
                let down: Vec<WrittenPart> = swims.iter().rev().skip(1).cloned().collect();
                swims.extend(down);
                self.written.used[back..(back + 2).min(self.c.len())].fill(true);
            }
        }
        let times = (end..end + 7).find_map(|place| {
            let piece = self.piece(place)?;
            match piece.text {
                "twice" => Some((2, place + 1)),
                "thrice" => Some((3, place + 1)),
                _ => match piece.item {
                    Item::Figure(Figure::Whole { value: value @ 2..=6, .. })
                        if self.means(place + 1, Concept::Times)
                            || self.piece(place + 1).is_some_and(|piece| {
                                piece.text == "times" || piece.text == "x"
                            }) =>
                    {
                        Some((value, place + 2))
                    }
                    _ => None,
                },
            }
        });
        if let Some((times, after)) = times {
            self.inside().push(WrittenPart::Rounds(times, swims, None));
            let after =
                self.c.pieces.after(after, |piece| matches!(piece.text, "through" | "thru"));
            self.written.used[at..end].fill(true);
            self.written.used[after - 2..after].fill(true);
            self.rest_of_all(end);
            return Some(self.uses(at, end));
        }
        self.inside().extend(swims);
        self.rest_of_all(end);
        Some(self.uses(at, end))
    }

    /// A rest behind a ladder holds for each of its rungs.
    fn rest_of_all(&mut self, end: usize) {
        let rest = (end..end + 6).find_map(|place| self.rest_at(place));
        if let Some((rest, _)) = rest {
            fn put(parts: &mut [WrittenPart], rest: Centis) {
                for part in parts {
                    match part {
                        WrittenPart::One(swim)
                            if swim.rest.is_none() && swim.send_off.is_none() && swim.is_bare() =>
                        {
                            swim.rest = Some(rest)
                        }
                        WrittenPart::One(_) => {}
                        WrittenPart::Rounds(_, inside, _) => put(inside, rest),
                    }
                }
            }
            put(self.inside(), rest);
        }
    }
}
