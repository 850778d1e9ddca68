//! The blocks of a session, which its copies share until one of them changes.
//!
//! Each message about a swimmer copies the sessions that were suggested to them.

use std::fmt;
use std::ops::{Deref, DerefMut};
use std::sync::Arc;

use serde::{Deserialize, Deserializer, Serialize, Serializer};

use super::Block;

/// Blocks, in the order swum.
#[derive(Clone, PartialEq, Eq, Hash, Default)]
pub struct Blocks(Arc<Vec<Block>>);

impl Deref for Blocks {
    type Target = Vec<Block>;

    fn deref(&self) -> &Vec<Block> {
        &self.0
    }
}

impl DerefMut for Blocks {
    fn deref_mut(&mut self) -> &mut Vec<Block> {
        Arc::make_mut(&mut self.0)
    }
}

impl fmt::Debug for Blocks {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.fmt(out)
    }
}

impl From<Vec<Block>> for Blocks {
    fn from(blocks: Vec<Block>) -> Blocks {
        Blocks(Arc::new(blocks))
    }
}

impl FromIterator<Block> for Blocks {
    fn from_iter<I: IntoIterator<Item = Block>>(blocks: I) -> Blocks {
        Vec::from_iter(blocks).into()
    }
}

impl IntoIterator for Blocks {
    type Item = Block;
    type IntoIter = std::vec::IntoIter<Block>;

    fn into_iter(self) -> Self::IntoIter {
        Arc::unwrap_or_clone(self.0).into_iter()
    }
}

impl<'a> IntoIterator for &'a Blocks {
    type Item = &'a Block;
    type IntoIter = std::slice::Iter<'a, Block>;

    fn into_iter(self) -> Self::IntoIter {
        self.0.iter()
    }
}

impl<'a> IntoIterator for &'a mut Blocks {
    type Item = &'a mut Block;
    type IntoIter = std::slice::IterMut<'a, Block>;

    fn into_iter(self) -> Self::IntoIter {
        self.iter_mut()
    }
}

impl Serialize for Blocks {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        self.0.as_slice().serialize(to)
    }
}

impl<'de> Deserialize<'de> for Blocks {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Blocks, D::Error> {
        Ok(Vec::deserialize(from)?.into())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::session::{Extent, Part, Repeat, Session};
    use crate::units::{Distance, Equipment, Level, SendOff, Stroke, Unit};

    fn block(count: u16, equipment: &[Equipment]) -> Block {
        let line = Repeat {
            count,
            distance: Distance::new(50, Unit::Metre).unwrap(),
            stroke: Stroke::Free,
            target: None,
            send_off: Some(SendOff::new(65).unwrap()),
            rest: None,
            aim: None,
            level: Level::Easy,
            equipment: equipment.to_vec(),
            cue: None,
        };
        Block { part: Part::Main, rounds: 2, repeats: vec![line] }
    }

    #[test]
    fn a_copy_shares_until_it_changes() {
        let blocks: Blocks = vec![block(4, &[]), block(2, &[])].into();
        let mut copy = blocks.clone();
        assert!(Arc::ptr_eq(&blocks.0, &copy.0));
        copy[1].rounds = 3;
        assert_eq!((blocks[1].rounds, copy[1].rounds), (2, 3));
    }

    #[test]
    fn blocks_come_to_what_their_session_says() {
        let (fins, both) = ([Equipment::Fins], [Equipment::Snorkel, Equipment::Fins]);
        let turned = [Equipment::Fins, Equipment::Snorkel];
        let all = [&[][..], &fins, &fins, &both, &turned, &[]];
        for from in 0..=all.len() {
            for to in from..=all.len() {
                let blocks: Vec<Block> = all[from..to].iter().map(|kit| block(3, kit)).collect();
                let halves = blocks.split_at(blocks.len() / 2);
                let extent = Extent::of(halves.0).then(Extent::of(halves.1));
                let session = Session {
                    on: jiff::civil::date(2026, 3, 4),
                    purpose: crate::session::Purpose::Endurance,
                    unit: Unit::Metre,
                    blocks: blocks.into(),
                    rules: vec![],
                    without: vec![],
                };
                assert_eq!(extent.amount, session.amount());
                assert_eq!(extent.duration_s(), session.duration_s());
            }
        }
    }
}
