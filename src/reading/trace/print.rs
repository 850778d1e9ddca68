//! A trace in lines, for people: a title in the first column, one line a thing.

use std::fmt;

use super::{AnswerSeen, DecisionSeen, Fragment, Likely, ReadingSeen, Stretch, Trace};

impl fmt::Display for Trace {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let tokens: Vec<&str> = self.tokens.iter().map(|token| token.text.as_str()).collect();
        writeln!(out, "tokens     {}", tokens.join(" | "))?;
        writeln!(out, "language   {}", self.language)?;
        for (at, Fragment { typed, is, means }) in self.fragments.iter().enumerate() {
            let title = if at == 0 { "fragments" } else { "" };
            let means =
                if means.is_empty() { String::new() } else { format!(": {}", means.join(", ")) };
            writeln!(out, "{title:10} {typed} ({is}{means})")?;
        }
        if let Some(says) = &self.notation {
            writeln!(out, "notation   {}", says.join("; "))?;
        }
        let likely = self.likely.iter().map(|Likely { kind, odds }| format!("{kind} {odds:.2}"));
        writeln!(out, "words say  {}", likely.collect::<Vec<_>>().join(", "))?;
        for (at, one) in self.readings.iter().enumerate() {
            let title = if at == 0 { "readings" } else { "" };
            let ReadingSeen { typed, frame, cost, says, asks } = one;
            let asks = if *asks { ", asks first" } else { "" };
            writeln!(out, "{title:10} {cost:5.2} \"{typed}\" {frame}: {}{asks}", says.join("; "))?;
        }
        for (at, part) in self.best.iter().enumerate() {
            let title = if at == 0 { "best" } else { "" };
            let Stretch { typed, frame, cost, says, left } = part;
            write!(out, "{title:10} {cost:5.2} \"{typed}\" ")?;
            match frame {
                Some(frame) => write!(out, "{frame}: {}", says.join("; "))?,
                None => write!(out, "is left")?,
            }
            match frame.is_some() && !left.is_empty() {
                true => writeln!(out, "; leaves {}", left.join(", "))?,
                false => writeln!(out)?,
            }
        }
        for (at, sign) in self.signs.iter().enumerate() {
            let title = if at == 0 { "signs" } else { "" };
            writeln!(out, "{title:10} {sign}")?;
        }
        match &self.decision {
            DecisionSeen::Take { says, rest } => {
                write!(out, "decision   takes {}", says.join("; "))?;
                rest.iter().try_for_each(|rest| write!(out, "; could not read {rest}"))
            }
            DecisionSeen::Ask { answers, says } => {
                write!(out, "decision   asks")?;
                for AnswerSeen { word, says } in answers {
                    write!(out, "; \"{word}\" would say {}", says.join("; "))?;
                }
                says.iter().try_for_each(|says| write!(out, "; keeps {says}"))
            }
            DecisionSeen::Nothing => write!(out, "decision   nothing"),
        }
    }
}
