//! Who is stopped, hurting, ill or held now.

use jiff::civil::{Date, Time};

use super::name_on_page::Person;
use crate::coaching::Trouble;
use crate::desk::decision::view::View;
use crate::history::{Kept, Presence, Right, Swimmer, TroubleKept, TroubleKind};

/// A swimmer with something that is not over: a pain, an illness, a stop.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Hurting {
    /// Who.
    pub who: Person,
    /// They are ill at home and nothing worse: not seen at the pool.
    pub at_home: bool,
    /// What is not over, the gravest first.
    pub open: Vec<Open>,
    /// Whether they swim nevertheless.
    pub swims: Swims,
    /// Who ends what only a release ends.
    pub release: Option<MayRelease>,
    /// Whom to call, while they are stopped.
    pub contact: Option<String>,
}

/// Whether a swimmer with something open swims.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Swims {
    /// Not until they are released.
    Never,
    /// Not this evening.
    NotToday,
    /// Easily.
    Easily,
}

/// Something that is not over.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Open {
    /// What.
    pub kind: TroubleKind,
    /// Since which day.
    pub on: Date,
    /// Since when on it, where that is today.
    pub at: Option<Time>,
    /// It was asked about, and not answered.
    pub asked: bool,
}

/// Who may let them swim again, and what has been said towards it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct MayRelease {
    /// Whoever looks at the page may.
    pub you: bool,
    /// They say that a clinician has cleared them since; none where that is not
    /// asked.
    pub cleared: Option<bool>,
    /// Their guardian has agreed since; none where none is needed.
    pub guardian: Option<bool>,
}

impl Hurting {
    /// True for someone who must not swim.
    pub fn is_stopped(&self) -> bool {
        self.swims == Swims::Never
    }
}

/// All of them, those who must not swim first.
pub fn hurting(view: &View<'_>, on: Date) -> Vec<Hurting> {
    let swimmers = view.squad.swimmers.values();
    let mut all: Vec<Hurting> = swimmers.filter_map(|swimmer| of(view, swimmer, on)).collect();
    all.sort_by_key(|one| {
        let gravest = one.open.first().map(|open| gravity(&open.kind));
        (gravest, one.who.name.clone())
    });
    all
}

fn of(view: &View<'_>, swimmer: &Swimmer, on: Date) -> Option<Hurting> {
    // What they told in private makes them swim easy, and is shown nowhere.
    let kept: Vec<_> = swimmer.told_troubles(view.now()).collect();
    let once = swimmer.told_once(view.now());
    let mut open: Vec<Open> = once.iter().map(|kept| opened(view, kept)).collect();
    open.extend(view.unanswered_of(swimmer).iter().filter_map(asked));
    open.sort_by_key(|open| gravity(&open.kind));
    open.first()?;
    let since = |kind: TroubleKind| {
        kept.iter().filter(|kept| kept.what.kind == kind).map(|kept| kept.at).max()
    };
    let stop = since(TroubleKind::Faint);
    let who = Person::of(view, &swimmer.name);
    let after = |said: Option<jiff::Timestamp>| {
        stop.map(|stop| said.is_some_and(|said| said >= stop && said <= view.now()))
    };
    let guardian = swimmer.guard.as_ref().and_then(|guard| guard.released);
    let held = since(TroubleKind::Held).is_some();
    let swims = match stop {
        Some(_) => Swims::Never,
        None if view.squad.is_done(swimmer, view.evening(), view.now()) => Swims::NotToday,
        None => Swims::Easily,
    };
    let release = (stop.is_some() || held).then(|| MayRelease {
        you: view.may(Right::Release),
        cleared: after(swimmer.clearance),
        guardian: who.minor.as_ref().and_then(|_| after(guardian)),
    });
    let contact = swimmer.contact.at(view.now()).filter(|_| stop.is_some()).cloned();
    let ill = open.iter().all(|open| matches!(open.kind, TroubleKind::Ill { .. }));
    let at_home = ill && swimmer.seen_on(on, view.now()) != Some(Presence::Here);
    Some(Hurting { who, at_home, open, swims, release, contact })
}

fn opened(view: &View<'_>, kept: &Kept<TroubleKept>) -> Open {
    let at = kept.at.to_zoned_datetime(view.squad.zone());
    let today = at.date() == view.today && kept.on == view.today;
    Open { kind: kept.what.kind.clone(), on: kept.on, at: today.then(|| at.time()), asked: false }
}

/// What was asked about and not answered.
fn asked(trouble: &Trouble) -> Option<Open> {
    let Trouble::Asked { since, place } = trouble else { return None };
    let kind = match place {
        Some(place) => TroubleKind::Pain { place: place.clone(), level: None },
        None => TroubleKind::Ill { fever: false, stomach: false },
    };
    Some(Open { kind, on: *since, at: None, asked: true })
}

/// The gravest first.
fn gravity(kind: &TroubleKind) -> (u8, std::cmp::Reverse<u8>) {
    let (class, level) = match kind {
        TroubleKind::Faint => (0, 0),
        TroubleKind::Pain { level, .. } => (1, level.unwrap_or(crate::coaching::UNSAID_LEVEL)),
        TroubleKind::Ill { fever, .. } => (2, u8::from(*fever)),
        TroubleKind::Held | TroubleKind::Eased => (3, 0),
    };
    (class, std::cmp::Reverse(level))
}
