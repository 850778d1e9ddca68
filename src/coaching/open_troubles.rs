//! What ails a swimmer and isn't over: pain, illness, a stop, what they come back from.

use jiff::civil::Date;

use super::{After, Trouble, UNSAID_LEVEL};

/// What is open.
#[derive(Debug, Clone, Default)]
pub(super) struct Open {
    /// Faintness or chest pain.
    pub faint: bool,
    /// The worst pain, 0 to 10.
    pub pain: Option<u8>,
    /// Every sore place.
    pub places: Vec<String>,
    /// Since when pain is open.
    pub pain_since: Option<Date>,
    /// Illness, since when.
    pub ill_since: Option<Date>,
    /// With fever.
    pub fever: bool,
    /// Over, and on the way back: what and since when.
    pub mending: Option<(Date, After)>,
    /// Held by the coach.
    pub held: bool,
}

impl Open {
    /// What these troubles come to, the gravest of each kind.
    pub(super) fn of(troubles: &[Trouble]) -> Open {
        let mut open = Open::default();
        for trouble in troubles {
            match trouble {
                Trouble::Pain { since, place, level } => {
                    open.pain = open.pain.max(Some(level.unwrap_or(UNSAID_LEVEL)));
                    open.places.push(place.clone());
                    open.pain_since =
                        Some(open.pain_since.map_or(*since, |first| first.min(*since)));
                }
                Trouble::Asked { since, place } => {
                    open.pain = open.pain.max(Some(UNSAID_LEVEL));
                    open.places.extend(place.clone());
                    open.pain_since =
                        Some(open.pain_since.map_or(*since, |first| first.min(*since)));
                }
                Trouble::Ill { since, fever } => {
                    open.ill_since = Some(open.ill_since.map_or(*since, |last| last.max(*since)));
                    open.fever |= fever;
                }
                Trouble::Mending { since, after } => {
                    // Of several the one that wants the most time.
                    let heavier = |(_, before): (Date, After)| weight(*after) > weight(before);
                    if open.mending.is_none_or(heavier) {
                        open.mending = Some((*since, *after));
                    }
                }
                Trouble::Faint { .. } => open.faint = true,
                Trouble::Held { .. } => open.held = true,
            }
        }
        open
    }

    /// Something of the body is open: everything is lowered.
    pub fn lowers(&self) -> bool {
        self.hurts_now() || self.mending.is_some()
    }

    /// Pain or illness is open, not just over.
    pub fn hurts_now(&self) -> bool {
        self.pain.is_some() || self.ill_since.is_some()
    }

    /// Anything at all is open: nothing is raised.
    pub fn any(&self) -> bool {
        self.lowers() || self.faint || self.held
    }

    /// True if that place hurts.
    pub fn hurts(&self, place: &str) -> bool {
        self.places.iter().any(|one| one == place)
    }
}

/// What wants the most time to come back from.
const fn weight(after: After) -> u8 {
    match after {
        After::Away | After::Pain { .. } => 0,
        After::Ill { fever: false } => 1,
        After::Stop => 2,
        After::Ill { fever: true } => 3,
    }
}
