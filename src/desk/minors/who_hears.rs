//! Who hears of a minor's words: one table, by what they are about.
//!
//! What is not listed as fit for a guardian is for nobody: it may be about home.

use crate::desk::decision::desk::Desk;
use crate::message::{Matter, Statement};
use crate::reply::{Outcome, Voice};

/// What somebody is told of a minor's words.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Hears {
    /// Nothing.
    Nothing,
    /// That they wrote, and when.
    That,
    /// Of what kind it is, and what to do first.
    Which,
    /// What was read of it, in our words, and what they are answered.
    Read,
}

/// A row: what a guardian, those on deck and the welfare officer hear.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Row {
    /// Of words about this.
    pub matter: Matter,
    /// The guardian.
    pub guardian: Hears,
    /// Coaches and assistants.
    pub deck: Hears,
    /// The welfare officer.
    pub officer: Hears,
}

/// The table. Those on deck see a minor's results on the cards, as everybody's; the
/// table says what is written to them.
pub const TABLE: [Row; 9] = {
    use Hears::{Nothing, Read, That, Which};
    const fn row(matter: Matter, guardian: Hears, deck: Hears, officer: Hears) -> Row {
        Row { matter, guardian, deck, officer }
    }
    [
        row(Matter::Swimming, Read, Which, Nothing),
        row(Matter::Body, Read, Which, Nothing),
        row(Matter::Danger, Which, Which, Nothing),
        row(Matter::Harm, Nothing, Nothing, That),
        row(Matter::Worried, Nothing, Nothing, That),
        row(Matter::Food, Nothing, Nothing, That),
        row(Matter::Clinician, Nothing, Nothing, Nothing),
        row(Matter::Address, Nothing, Which, Nothing),
        row(Matter::Unread, Nothing, Nothing, Nothing),
    ]
};

impl Matter {
    /// Its row; that of nothing read where the table has none.
    pub fn row(self) -> Row {
        let nobody = Hears::Nothing;
        let unread = Row { matter: self, guardian: nobody, deck: nobody, officer: nobody };
        TABLE.into_iter().find(|row| row.matter == self).unwrap_or(unread)
    }
}

impl Desk<'_> {
    /// What the sender's text is about: the gravest of all that was read in it.
    pub fn matters(&self) -> Vec<Matter> {
        match self.matter {
            Some(matter) => vec![matter],
            None if self.read.is_empty() => vec![Matter::Unread],
            None => self.read.iter().map(|one| Matter::of(&one.kind)).collect(),
        }
    }

    /// True where a minor's words were not read: they may be about anything, and they
    /// are told of the safe word.
    pub fn may_worry(&self, outcome: &Outcome) -> bool {
        let unread = matches!(outcome, Outcome::NotUnderstood(_) | Outcome::Refused(_));
        unread && self.minor_sender().is_some() && self.matters() == [Matter::Unread]
    }

    /// What a guardian who reads along is told of the text, in our words, and of
    /// the answer; nothing where nothing in it is for a guardian.
    pub fn for_guardian(&self, outcome: &Outcome, answer: &str, voice: Voice) -> Option<String> {
        let matters = self.matters();
        let reads = |matter: &Matter| matter.row().guardian == Hears::Read;
        if !matters.iter().any(reads) {
            return None;
        }
        let fit = |one: &&Statement| reads(&Matter::of(&one.kind));
        let words: Vec<String> =
            self.read.iter().filter(fit).map(|one| voice.statement(one)).collect();
        // An answer may repeat what was not read, or is of something else too.
        let whole = matters.iter().all(reads) && !repeats_words(outcome);
        let said = words.join(", ");
        Some(if whole { format!("{said}\n{answer}") } else { said })
    }
}

/// True where the answer may say over what the sender typed.
fn repeats_words(outcome: &Outcome) -> bool {
    match outcome {
        Outcome::Mixed(several) | Outcome::Captured(several) => several.iter().any(repeats_words),
        Outcome::NotUnderstood(_) | Outcome::Question(_) => true,
        _ => false,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_table_as_a_page() {
        let rows: Vec<String> = TABLE
            .iter()
            .map(|row| {
                let Row { matter, guardian, deck, officer } = row;
                format!("{matter:?}: guardian {guardian:?}, deck {deck:?}, officer {officer:?}")
            })
            .collect();
        assert_eq!(
            rows,
            [
                "Swimming: guardian Read, deck Which, officer Nothing",
                "Body: guardian Read, deck Which, officer Nothing",
                "Danger: guardian Which, deck Which, officer Nothing",
                "Harm: guardian Nothing, deck Nothing, officer That",
                "Worried: guardian Nothing, deck Nothing, officer That",
                "Food: guardian Nothing, deck Nothing, officer That",
                "Clinician: guardian Nothing, deck Nothing, officer Nothing",
                "Address: guardian Nothing, deck Which, officer Nothing",
                "Unread: guardian Nothing, deck Nothing, officer Nothing",
            ]
        );
        for matter in Matter::ALL {
            assert_eq!(TABLE.iter().filter(|row| row.matter == matter).count(), 1, "{matter:?}");
        }
    }
}
