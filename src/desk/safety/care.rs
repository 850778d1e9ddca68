//! Pain, illness, faintness; holds and releases.

use jiff::{Timestamp, ToSpan};

use crate::coaching::UNSAID_LEVEL;
use crate::desk::decision::desk::Desk;
use crate::desk::decision::refusing::{Stopped, turned_down};
use crate::desk::decision::view::View;
use crate::desk::decision::who::coached;
use crate::desk::minors::guardians;
use crate::history::{AgeGroup, CareKind, Event, Right, STOPS_FOR_TODAY, TroubleKind};
use crate::message::{self, Danger, Illness, Name, Statement, Whom};
use crate::reply::{CautionKind, CautionReply, OfficeRefusal, OkReply, Outcome};

/// Two reports of one place within so many days: a clinician (common practice,
/// no source).
const AGAIN_DAYS: i64 = 14;

/// `shoulder hurts 4`
pub fn pain(
    desk: &mut Desk<'_>,
    statement: &Statement,
    pain: &message::Pain,
) -> Result<Outcome, Stopped> {
    let who = desk.subject(statement)?;
    let since = desk.today.checked_sub(AGAIN_DAYS.days()).unwrap_or(desk.today);
    let again = desk.swimmer(&who).is_some_and(|swimmer| {
        swimmer.troubles.since(since, desk.now()).any(|kept| {
            matches!(&kept.what.kind, TroubleKind::Pain { place, .. } if *place == pain.place)
        })
    });
    let trouble = TroubleKind::Pain { place: pain.place.clone(), level: pain.level };
    desk.record(Event::TroubleOpened { who: who.clone(), trouble });
    let kind = CautionKind::Pain { place: pain.place.clone(), level: pain.level, again };
    let counts_as = pain.level.unwrap_or(UNSAID_LEVEL);
    if again || counts_as >= STOPS_FOR_TODAY || desk.is_minor(&who) {
        desk.warn(Some(who.clone()), kind.clone());
    }
    guardians::tell_guardian(desk, &who, &kind);
    Ok(caution(kind, desk.if_another(who)))
}

/// `ill`, `fever`
pub fn ill(
    desk: &mut Desk<'_>,
    statement: &Statement,
    what: Option<Illness>,
) -> Result<Outcome, Stopped> {
    let who = desk.subject(statement)?;
    let (fever, stomach) = (what == Some(Illness::Fever), what == Some(Illness::Stomach));
    let trouble = TroubleKind::Ill { fever, stomach };
    desk.record(Event::TroubleOpened { who: who.clone(), trouble });
    let kind = CautionKind::Ill { fever, stomach };
    guardians::tell_guardian(desk, &who, &kind);
    Ok(caution(kind, desk.if_another(who)))
}

/// `felt dizzy`: stops all swimming until a release. Never refused: whoever it
/// is about, the sender is told what to do.
pub fn faint(desk: &mut Desk<'_>, statement: &Statement) -> Result<Outcome, Stopped> {
    let danger = desk.danger.unwrap_or(Danger::Unspecific);
    let call = desk.squad.emergency_number();
    let kind = CautionKind::Danger { danger, call: call.clone() };
    // What is told of someone who wrote of harm is that help is needed, not why.
    let told = match desk.private {
        true => CautionKind::Danger { danger: Danger::Unspecific, call: call.clone() },
        false => kind.clone(),
    };
    // To a swimmer an unknown word is no name: they may mean themselves.
    let named = statement.who.clone().filter(|who| {
        !desk.all_of_me().contains(who) && (!desk.swims() || desk.swimmer(who).is_some())
    });
    let ward = desk.ward().cloned();
    let beside = match desk.danger_to {
        // A guardian texts of the child.
        _ if ward.is_some() => true,
        Whom::Sender => named.is_some(),
        Whom::Unsaid => named.is_some() || !desk.swims(),
        Whom::Another => true,
    };
    // Of several on one telephone who don't say which, all are stopped.
    let whom = if beside { named.or(ward).into_iter().collect() } else { desk.all_of_me() };
    let whom: Vec<_> = whom.into_iter().filter(|who| desk.swimmer(who).is_some()).collect();
    let words = desk.words_of_accident();
    for who in &whom {
        if !desk.private {
            guardians::tell_guardian(desk, who, &kind);
        }
        let what = CareKind::Accident { words: words.clone() };
        desk.record(Event::CareRecorded { who: Some(who.clone()), what });
        if matches!(danger, Danger::Head | Danger::HeadSigns) {
            desk.record(Event::HeadKnocked { who: who.clone() });
        }
        desk.record(Event::TroubleOpened { who: who.clone(), trouble: TroubleKind::Faint });
        desk.warn(Some(who.clone()), told.clone());
    }
    if whom.is_empty() {
        desk.warn(None, told);
        desk.record(Event::CareRecorded { who: None, what: CareKind::Accident { words } });
    }
    let who = whom.into_iter().next();
    // Only to a coach is it said whose stop it is, as only a coach may lift it.
    let about = who.filter(|_| beside && desk.may(Right::Release));
    let kind = if beside && about.is_none() {
        CautionKind::Beside { danger, unnamed: desk.may(Right::SpeakForOthers), call }
    } else {
        kind
    };
    Ok(Outcome::Caution(CautionReply { kind, about }))
}

/// `better`
pub fn better(desk: &mut Desk<'_>, statement: &Statement) -> Result<Outcome, Stopped> {
    let who = desk.subject(statement)?;
    let stopped = desk.swimmer(&who).is_some_and(|swimmer| swimmer.is_stopped(desk.now()));
    let clear = desk.swimmer(&who).map(|swimmer| desk.clear_days(swimmer)).unwrap_or_default();
    desk.record(Event::Recovered { who: who.clone(), clear });
    // Their own word lifts pain, and begins the clear days after illness; never a
    // stop.
    let until = desk.swimmer(&who).and_then(|swimmer| swimmer.clear_until(desk.now()));
    Ok(if stopped {
        caution(CautionKind::Stopped, statement.who.clone())
    } else {
        Outcome::Ok(OkReply::Better { from: until.map(|until| desk.squad.local_day(until)) })
    })
}

/// `heron easy till I say`
pub fn hold(desk: &mut Desk<'_>, statement: &Statement) -> Result<Outcome, Stopped> {
    let who = coached(desk, Right::Hold, statement)?;
    desk.record(Event::TroubleOpened { who: who.clone(), trouble: TroubleKind::Held });
    Ok(Outcome::Ok(OkReply::Held { who }))
}

/// `release heron`
pub fn release(desk: &mut Desk<'_>, statement: &Statement) -> Result<Outcome, Stopped> {
    let who = coached(desk, Right::Release, statement)?;
    released(desk, who, false)
}

/// `release heron on my word`: the coach answers for it that there is no word of
/// a clinician, and that is kept.
pub fn overrule(desk: &mut Desk<'_>, who: &Name) -> Result<Outcome, Stopped> {
    let statement = Statement { who: Some(who.clone()), kind: message::Kind::Release };
    let who = coached(desk, Right::Release, &statement)?;
    released(desk, who, true)
}

/// What a stop still needs before it is lifted: another day after a knock to the head,
/// the swimmer's word that a clinician cleared them, a minor's guardian's word.
fn may_release(
    view: &View<'_>,
    who: &Name,
    stop: Option<Timestamp>,
    on_word: bool,
) -> Result<(), Stopped> {
    let (Some(since), Some(swimmer)) = (stop, view.swimmer(who)) else { return Ok(()) };
    let knocked = swimmer.knocks.as_of(view.now()).map(|knock| knock.on).max();
    if knocked.is_some_and(|on| on >= view.today) {
        let from = view.today.tomorrow().unwrap_or(view.today);
        return Err(turned_down("not_today", OfficeRefusal::NotToday { who: who.clone(), from }));
    }
    guardians::may_release(view, who, stop)?;
    let adult = view.age_group(swimmer) == AgeGroup::Adult;
    let clinician = swimmer.clearance.is_some_and(|said| said >= since);
    if adult && !clinician && !on_word {
        let why = OfficeRefusal::NeedsClearance { who: who.clone() };
        return Err(turned_down("needs_clearance", why));
    }
    Ok(())
}

fn released(desk: &mut Desk<'_>, who: Name, on_word: bool) -> Result<Outcome, Stopped> {
    let stop = desk.swimmer(&who).and_then(|swimmer| {
        let stops = |kind: &TroubleKind| *kind == TroubleKind::Faint;
        let open = swimmer.open_troubles(desk.now()).filter(|kept| stops(&kept.what.kind));
        open.map(|kept| kept.at).max()
    });
    may_release(desk, &who, stop, on_word)?;
    if on_word {
        let what = CareKind::Overruled { by: desk.asked.from.to_owned() };
        desk.record(Event::CareRecorded { who: Some(who.clone()), what });
    }
    let cleared = desk.swimmer(&who).is_some_and(|swimmer| !desk.is_cleared(swimmer));
    desk.record(Event::Released { who: who.clone() });
    Ok(Outcome::Ok(OkReply::Released { who, on_word, cleared }))
}

fn caution(kind: CautionKind, about: Option<Name>) -> Outcome {
    Outcome::Caution(CautionReply { kind, about })
}

impl View<'_> {
    /// Whom a text is about, if not one who texts from the sender's telephone.
    fn if_another(&self, who: Name) -> Option<Name> {
        let own = self.member().is_some_and(|member| member.names().any(|name| *name == who));
        (!own).then_some(who)
    }
}

impl Desk<'_> {
    /// The text, to be kept with the accident; nothing where it speaks of harm.
    pub fn words_of_accident(&self) -> String {
        match self.private {
            true => String::new(),
            false => self.asked.text.trim().to_owned(),
        }
    }
}
