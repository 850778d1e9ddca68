//! What ails a swimmer, or is over so lately that they are on the way back.

use jiff::Timestamp;

use crate::coaching::{self, After, Trouble};
use crate::desk::decision::view::View;
use crate::history::{Kept, Swimmer, TroubleKept, TroubleKind};
use crate::message::{Kind, Statement};

/// Longer after they came back than this it is another break (ours).
const JUST_BACK_DAYS: i32 = 9;

impl View<'_> {
    /// What is open, and what was over so lately that they are on the way back.
    pub fn still_careful(&self, swimmer: &Swimmer) -> Vec<Trouble> {
        let now = self.now();
        let swum_since = |closed: Timestamp| {
            swimmer.swims.as_of(now).any(|kept| kept.at > closed)
                || swimmer.sets.as_of(now).any(|kept| kept.at > closed)
                || swimmer.tests.as_of(now).any(|kept| kept.at > closed)
        };
        let mending = |kind: &TroubleKind, closed: Timestamp| {
            let after = match kind {
                // The coach's word that a hold is over needs no gentle start.
                TroubleKind::Held | TroubleKind::Eased => return None,
                TroubleKind::Pain { level, .. } => After::Pain { level: *level },
                TroubleKind::Ill { fever, .. } => After::Ill { fever: *fever },
                TroubleKind::Faint => After::Stop,
            };
            let since = self.squad.local_day(closed);
            let (book, swum) = (self.asked.book, swum_since(closed));
            coaching::is_mending(book, since, after, self.today, swum)
                .then_some(Trouble::Mending { since, after })
        };
        let troubles = swimmer.troubles.as_of(now);
        let troubles = troubles.filter_map(|kept| match kept.what.closed {
            Some((_, closed)) if closed <= now && self.is_of_knock(swimmer, kept.at) => {
                self.after_knock(closed).or_else(|| mending(&kept.what.kind, closed))
            }
            Some((_, closed)) if closed <= now => mending(&kept.what.kind, closed),
            _ => Some(trouble(kept)),
        });
        let asked = self.unanswered_of(swimmer);
        troubles.chain(asked).chain(self.just_back(swimmer)).collect()
    }

    /// What may ail them by what they, or their guardian, wrote in words that had to be asked
    /// about, and that nobody answered: until they do, or it may have passed, it lowers what
    /// follows like pain of which no level was said.
    pub fn unanswered_of(&self, swimmer: &Swimmer) -> Vec<Trouble> {
        let guardian = swimmer.guard.as_ref().map(|guard| guard.address.as_str());
        let addresses = swimmer.address.as_deref().into_iter().chain(guardian);
        let members = addresses.filter_map(|address| self.squad.members.get(address));
        let mut asked = Vec::new();
        for member in members {
            let questions = member.question.iter().chain(&member.waiting);
            for question in questions.filter(|one| one.passes() > self.asked.wall) {
                let since = self.squad.local_day(question.asked.unwrap_or(self.now()));
                let theirs = |one: &&Statement| match &one.who {
                    Some(who) => *who == swimmer.name,
                    None => member.name.as_ref() == Some(&swimmer.name),
                };
                asked.extend(question.what_ails().into_iter().filter(theirs).map(|one| {
                    let place = match &one.kind {
                        Kind::Pain(pain) => Some(pain.place.clone()),
                        _ => None,
                    };
                    Trouble::Asked { since, place }
                }));
            }
        }
        asked
    }

    /// True where something is open, or may be, that makes them swim easily.
    pub fn is_careful(&self, swimmer: &Swimmer) -> bool {
        swimmer.open_troubles(self.now()).next().is_some()
            || !self.unanswered_of(swimmer).is_empty()
    }

    /// They said that they were away until a day of the last week, and have not swum
    /// since: they start again gently.
    fn just_back(&self, swimmer: &Swimmer) -> Option<Trouble> {
        let now = self.now();
        let back = swimmer.away.as_of(now).map(|kept| kept.what).max()?;
        let swum = swimmer.swims.since(back, now).next().is_some()
            || swimmer.sets.since(back, now).next().is_some()
            || swimmer.tests.since(back, now).next().is_some();
        let lately = (0..=JUST_BACK_DAYS).contains(&(self.today - back).get_days());
        (lately && !swum).then_some(Trouble::Mending { since: back, after: After::Away })
    }

    /// True if a stop that began at an instant is of a knock to the head.
    fn is_of_knock(&self, swimmer: &Swimmer, began: Timestamp) -> bool {
        swimmer.knocks.as_of(self.now()).any(|knock| knock.at == began)
    }

    /// The return after a knock to the head takes six days from its release at the
    /// least, whatever a coach's own numbers say. Six steps of a day at least each:
    /// consensus statement on concussion in sport (Amsterdam 2022), from memory;
    /// that all of them are gentle swims is ours.
    fn after_knock(&self, released: Timestamp) -> Option<Trouble> {
        const STEPS: i32 = 6;
        let since = self.squad.local_day(released);
        let within = (self.today - since).get_days() < STEPS;
        within.then_some(Trouble::Mending { since, after: After::Stop })
    }
}

/// What is open, as coaching knows it.
pub fn trouble(kept: &Kept<TroubleKept>) -> Trouble {
    let since = kept.on;
    match &kept.what.kind {
        TroubleKind::Pain { place, level } => {
            Trouble::Pain { since, place: place.clone(), level: *level }
        }
        TroubleKind::Ill { fever, .. } => Trouble::Ill { since, fever: *fever },
        TroubleKind::Faint => Trouble::Faint { since },
        TroubleKind::Held | TroubleKind::Eased => Trouble::Held { since },
    }
}
