//! Sets in trade notation.

use std::fmt;

use super::parts::{Words, equipment, sure};
use crate::message::{Effort, Rounds, SetItem, SetLine, SetPiece};
use crate::session::Part;

impl fmt::Display for SetLine {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        if let Some(part) = self.part {
            write!(out, "{}: ", words(part))?;
        }
        pieces(out, &self.pieces)
    }
}

const fn words(part: Part) -> &'static str {
    match part {
        Part::WarmUp => "warm up",
        Part::Drill => "drill set",
        Part::Build => "build set",
        Part::Test => "test set",
        Part::Recovery => "recovery",
        Part::Main => "main set",
        Part::SwimDown => "swim down",
    }
}

fn pieces(out: &mut fmt::Formatter<'_>, pieces: &[SetPiece]) -> fmt::Result {
    for (at, piece) in pieces.iter().enumerate() {
        if at > 0 {
            out.write_str(", ")?;
        }
        match piece {
            SetPiece::Item(item) => write!(out, "{item}")?,
            SetPiece::Rounds(rounds) => write!(out, "{rounds}")?,
        }
    }
    Ok(())
}

impl fmt::Display for Rounds {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(out, "{}x(", self.times)?;
        pieces(out, &self.pieces)?;
        out.write_str(")")?;
        self.rest.map_or(Ok(()), |rest| write!(out, " rest {}", sure(rest)))
    }
}

impl fmt::Display for SetItem {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let words = Words::of(&format!("{}x{}", self.count, self.distance))
            .each(self.equipment.iter().map(|kit| equipment(*kit)))
            .maybe(self.stroke)
            .maybe(self.level)
            .each(&self.effort)
            .maybe(self.send_off.map(|send_off| format!("on {}", sure(send_off.time()))))
            .maybe(self.rest.map(|rest| format!("rest {}", sure(rest))))
            .maybe(self.target.map(|target| format!("hold {}", sure(target))))
            .maybe(self.pace_of.map(|test| format!("hold {test} pace")))
            .maybe(self.comment.as_ref().map(|comment| format!("\"{comment}\"")));
        write!(out, "{words}")
    }
}

impl fmt::Display for Effort {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Effort::Descend(None) => out.write_str("descend"),
            Effort::Descend(Some(over)) => write!(out, "descend 1-{over}"),
            Effort::Ascend(None) => out.write_str("ascend"),
            Effort::Ascend(Some(over)) => write!(out, "ascend 1-{over}"),
            Effort::Build => out.write_str("build"),
            Effort::NegativeSplit => out.write_str("negative split"),
            Effort::Even => out.write_str("even"),
            Effort::BestAverage => out.write_str("best average"),
            Effort::ImOrder => out.write_str("im order"),
        }
    }
}
