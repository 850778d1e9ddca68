//! Where a time is put, and what all of them come to at the end.

use super::{Scope, Slot, Teller, Told};

impl<'a, 't> Teller<'_, 'a, 't> {
    /// Puts what was told where the scope says.
    pub(super) fn place(&mut self, slot: Slot) {
        self.faded = None;
        let scope = std::mem::replace(&mut self.scope, Scope::Sequential);
        match scope {
            Scope::Sequential => self.put(slot),
            Scope::Next(count) => (0..count).for_each(|_| self.put(slot)),
            Scope::Last(count) => self.from_end.push((count, slot)),
            Scope::Places(places) => {
                for place in places {
                    *self.reach((place as usize).saturating_sub(1)) = slot;
                }
            }
            Scope::Others => self.others = Some(slot),
            Scope::All => match slot {
                Slot::Swum(time, tenths) => self.told.each = Some((time, tenths)),
                Slot::Held => self.told.made_all = true,
                _ => self.base = Some(slot),
            },
            Scope::Odd => self.odd = Some(slot),
            Scope::Even => self.even = Some(slot),
        }
    }

    pub(super) fn relist(&mut self, scope: &Scope, listed: &[Slot]) {
        match scope {
            Scope::Next(count) => {
                let count = *count as usize;
                self.cursor -= count;
                self.told.slots.truncate(self.cursor);
                listed.iter().for_each(|slot| self.put(*slot));
            }
            Scope::Last(count) => {
                self.from_end.pop();
                let of = |(at, slot): (usize, &Slot)| (*count - at as u32, *slot);
                // Later ones overwrite the end of earlier ones.
                self.from_end.extend(listed.iter().enumerate().map(of));
            }
            _ => {}
        }
    }

    /// `41 on no 3`, `44 on the last`, told at the poolside: the times of the
    /// repeats that are named, and nothing of the others.
    pub(super) fn only_swum(&mut self) {
        let swum = |slot: &Slot| matches!(slot, Slot::Swum(..));
        let others = self.others.is_some() || self.odd.is_some() || self.even.is_some();
        let named = self.told.slots.iter().filter(|slot| **slot != Slot::Unsaid);
        let all_swum = named.clone().all(swum) && self.from_end.iter().all(|(_, slot)| swum(slot));
        if others || !all_swum || self.told.each.is_some() {
            return;
        }
        self.told.slots.retain(swum);
        for (count, slot) in std::mem::take(&mut self.from_end) {
            self.told.slots.extend(std::iter::repeat_n(slot, count as usize));
        }
        self.cursor = self.told.slots.len();
    }

    /// The repeat at a place, of which nothing need have been told yet.
    #[expect(clippy::indexing_slicing, reason = "it is made where it was not there")]
    fn reach(&mut self, place: usize) -> &mut Slot {
        if self.told.slots.len() <= place {
            self.told.slots.resize(place + 1, Slot::Unsaid);
        }
        &mut self.told.slots[place]
    }

    pub(super) fn put(&mut self, slot: Slot) {
        // Places that were told of by their number are passed over.
        *self.reach(self.cursor) = slot;
        self.cursor += 1;
    }

    pub(super) fn close(mut self) -> Told {
        if self.spec.so_far {
            self.only_swum();
        }
        let total = self.told.count.or(self.spec.count);
        let told = &mut self.told;
        let structured = !self.from_end.is_empty()
            || self.others.is_some()
            || self.odd.is_some()
            || self.even.is_some()
            || told.slots.contains(&Slot::Unsaid)
            || told.each.is_some() && !told.slots.is_empty();
        if let Some(total) = total.filter(|_| structured) {
            let total = total as usize;
            if told.slots.len() < total {
                told.slots.resize(total, Slot::Unsaid);
            }
            for (count, slot) in &self.from_end {
                let from = told.slots.len().saturating_sub(*count as usize);
                told.slots.iter_mut().skip(from).for_each(|one| *one = *slot);
            }
            for (place, slot) in told.slots.iter_mut().enumerate() {
                let side = if place % 2 == 0 { self.odd } else { self.even };
                if *slot == Slot::Unsaid
                    && let Some(side) = side.or(self.others)
                {
                    *slot = side;
                }
            }
            let each = told.each.map(|(time, tenths)| Slot::Swum(time, tenths));
            let held = (told.made_all || self.excepted).then_some(Slot::Held);
            if let Some(base) = each.or(held).or(self.base) {
                told.slots
                    .iter_mut()
                    .filter(|slot| **slot == Slot::Unsaid)
                    .for_each(|slot| *slot = base);
                told.each = None;
            }
        } else if structured {
            told.vague = true;
        }
        // A lone time for a set of several is the time of each.
        if let [Slot::Swum(time, tenths)] = told.slots.as_slice()
            && told.each.is_none()
            && total.is_some_and(|total| total > 1)
            && !structured
            && told.average.is_none()
            && !self.spec.so_far
        {
            told.each = Some((*time, *tenths));
            told.slots.clear();
        }
        self.told
    }
}
