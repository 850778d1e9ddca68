//! What a text writes of a set: swims, once or in rounds, and the lines they come to.

use crate::message::{Rounds, SetLine, SetPiece};
use crate::reading::frame::sets::item::Swim;
use crate::reading::piece::Used;
use crate::session::Part;
use crate::units::Centis;

/// Several swims, once or in rounds.
#[derive(Debug, Clone, PartialEq)]
pub enum WrittenPart {
    /// One swim.
    One(Swim),
    /// Rounds of several, with the rest between them.
    Rounds(u32, Vec<WrittenPart>, Option<Centis>),
}

/// What a text writes of a set.
#[derive(Debug, Default)]
pub struct Written {
    /// What is to be swum.
    pub parts: Vec<WrittenPart>,
    /// The total that the text itself states.
    pub stated: Option<u32>,
    /// Warm-up and swim-down stay those of the set that is known.
    pub keeps_ends: bool,
    /// Which pieces were understood.
    pub used: Used,
}

impl Written {
    /// All of its metres.
    pub fn total(&self) -> u32 {
        total(&self.parts)
    }

    /// Every swim, each as often as it stands.
    pub fn swims(&self) -> Vec<&Swim> {
        fn gather<'s>(parts: &'s [WrittenPart], into: &mut Vec<&'s Swim>) {
            for part in parts {
                match part {
                    WrittenPart::One(swim) => into.push(swim),
                    WrittenPart::Rounds(_, inside, _) => gather(inside, into),
                }
            }
        }
        let mut swims = Vec::new();
        gather(&self.parts, &mut swims);
        swims
    }
}

/// The metres of some parts.
pub fn total(parts: &[WrittenPart]) -> u32 {
    let one = |part: &WrittenPart| match part {
        WrittenPart::One(swim) => swim.metres(),
        WrittenPart::Rounds(times, inside, _) => times * total(inside),
    };
    parts.iter().map(one).sum()
}

/// True for a number of metres that a set's line may have.
pub const fn is_swum(value: u32) -> bool {
    value >= 25 && value <= 5000 && value.is_multiple_of(25)
}

/// The lines of a set: warm-up, main part, swim-down.
pub fn lines(parts: Vec<WrittenPart>) -> Option<Vec<SetLine>> {
    let mut lines: Vec<SetLine> = Vec::new();
    for part in parts {
        let named = match &part {
            WrittenPart::One(swim) => swim.part,
            WrittenPart::Rounds(..) => None,
        };
        let piece = piece(part)?;
        match (named, lines.last_mut()) {
            (None, Some(line)) if !matches!(line.part, Some(Part::WarmUp | Part::SwimDown)) => {
                line.pieces.push(piece)
            }
            (named, Some(line)) if named == line.part && named.is_some() => line.pieces.push(piece),
            (named, before) => {
                let named = named.or(before
                    .is_some_and(|before| before.part == Some(Part::WarmUp))
                    .then_some(Part::Main));
                lines.push(SetLine { part: named, pieces: vec![piece] });
            }
        }
    }
    Some(lines)
}

fn piece(part: WrittenPart) -> Option<SetPiece> {
    Some(match part {
        WrittenPart::One(swim) => SetPiece::Item(swim.into_item()?),
        WrittenPart::Rounds(times, inside, rest) => SetPiece::Rounds(Rounds {
            times: u16::try_from(times).ok().filter(|times| (1..=50).contains(times))?,
            pieces: inside.into_iter().map(piece).collect::<Option<Vec<_>>>()?,
            rest,
        }),
    })
}
