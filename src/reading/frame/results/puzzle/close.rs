//! How a row ends: the last ones, those that are excepted, and all of which nothing was said.

use super::row::{IDLE, Open, Row, Slot};
use super::subset::Subset;

/// What one time costs that is put for all repeats that nothing was said of.
const ONE_FOR_ALL: f32 = 0.3;

/// What it costs that those of which nothing is said were held.
const HELD_UNSAID: f32 = 0.6;

impl Row<'_> {
    /// What all repeats come to, and what that costs; nothing where it does not come out.
    pub fn close(mut self, open: Open) -> Option<(f32, Vec<Slot>)> {
        let mut told = self.cost;
        for (count, slots) in std::mem::take(&mut self.ends) {
            let from = self.slots.len().checked_sub(count as usize)?;
            let there = self.slots.get_mut(from..)?;
            let said = there.iter().filter(|slot| **slot != Slot::Unsaid).count();
            if said == there.len() && open.so_far {
                return None;
            }
            there.iter_mut().zip(slots).for_each(|(one, slot)| *one = slot);
        }
        let excepted = std::mem::take(&mut self.excepted);
        let is_excepted = !excepted.is_empty();
        let mut kept = Vec::new();
        for (subset, slots) in &excepted {
            let mut places = Row { slots: vec![Slot::Unsaid; self.slots.len()], ..self.clone() };
            places.cursor = 0;
            match subset {
                Subset::Next(count) => {
                    // `all but 2`: how many, and not which.
                    let from = places.slots.len().checked_sub(*count as usize)?;
                    places.slots.get_mut(from..)?.fill(*slots.first()?);
                }
                Subset::Last(count) => {
                    let from = places.slots.len().checked_sub(*count as usize)?;
                    let last = places.slots.get_mut(from..)?;
                    let first = *slots.first()?;
                    for (at, slot) in last.iter_mut().enumerate() {
                        *slot = slots.get(at).copied().unwrap_or(first);
                    }
                }
                Subset::All | Subset::Others(_) => return None,
                subset => places.assign(subset, slots)?,
            }
            kept.push(places.slots);
        }
        let over = |at: usize| {
            kept.iter().filter_map(|slots| slots.get(at)).find(|slot| **slot != Slot::Unsaid)
        };
        let is_unsaid = |(at, slot): &(usize, &Slot)| **slot == Slot::Unsaid && over(*at).is_none();
        let unsaid = self.slots.iter().enumerate().filter(is_unsaid).map(|(at, _)| at);
        let unsaid: Vec<usize> = unsaid.collect();
        let mut base = None;
        let said = self.slots.iter().filter(|slot| **slot != Slot::Unsaid).count();
        if self.counted == Some(said) && self.plain == said && said > 1 && !unsaid.is_empty() {
            // `only got five in, 48 47 48 48 49`
            told += 0.2 - IDLE;
            base = Some(Slot::Missed);
        } else if let Some((slot, count)) = self.others {
            if unsaid.is_empty() {
                return None;
            }
            if count.is_some_and(|count| count as usize != unsaid.len()) {
                told += 0.8;
            }
            base = Some(slot);
        } else if let Some(slot) = self.all {
            if unsaid.is_empty() {
                told += 1.0;
            }
            base = Some(slot);
        } else if unsaid.is_empty() {
        } else if is_excepted && self.plain <= 1 {
            // `48 bar the last`: its one time, or held.
            let one = self.slots.iter().find(|slot| **slot != Slot::Unsaid).copied();
            base = Some(one.unwrap_or(Slot::Held));
        } else if let Some(slot) = self.lone.or(self.first.filter(|_| self.plain == 1)) {
            // `first four 48, then 50`: all that follow.
            told += if self.idle { ONE_FOR_ALL + IDLE } else { ONE_FOR_ALL };
            base = Some(slot);
        } else if self.plain == 0 && !open.stopped && !open.so_far && !self.idle {
            // `the last two went to 53`: the others were held, as it seems.
            told += HELD_UNSAID;
            base = Some(Slot::Held);
        }
        match base {
            Some(slot) => {
                for at in unsaid {
                    *self.slots.get_mut(at)? = slot;
                }
            }
            None if unsaid.is_empty() => {}
            None if open.so_far => {
                let said = self.slots.iter().take_while(|slot| **slot != Slot::Unsaid).count();
                let left = self.slots.get(said..)?.iter().any(|slot| *slot != Slot::Unsaid);
                if left || said == 0 {
                    // The last ones, or some by their number: they alone.
                    self.slots.retain(|slot| *slot != Slot::Unsaid);
                    told += 0.1;
                } else {
                    self.slots.truncate(said);
                }
            }
            None if open.stopped && self.slots.last() == Some(&Slot::Unsaid) => {
                told += 0.5;
                for at in unsaid {
                    *self.slots.get_mut(at)? = Slot::Missed;
                }
            }
            None => return None,
        }
        let slots = self.slots.iter().enumerate().map(|(at, slot)| *over(at).unwrap_or(slot));
        Some((told, slots.collect()))
    }
}
