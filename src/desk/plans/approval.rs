//! Plans that wait for the coach's yes: which do, what is swum meanwhile, and
//! what becomes of them.
//!
//! Lowering never waits. What was looked at is an upper bound of what goes out:
//! where something came up since, the week is written anew by the rules, and the
//! lower of the two is given.

use crate::coaching::{
    self, Effort, Facts, RefusalReason, SessionWish, Week, WeekKind, WeekPlanned,
};
use crate::desk::decision::desk::Desk;
use crate::desk::decision::letters::{PARTS, way_to};
use crate::desk::decision::refusing::{Stopped, refusal, refused};
use crate::desk::decision::view::View;
use crate::desk::known::facts::facts;
use crate::desk::known::standing_sessions::{as_told, that_stand};
use crate::history::{Event, PlanWaiting, Right};
use crate::message::{Approval, Name, Statement};
use crate::reply::{
    self, Answered, ApprovalRefusal, ApprovalReply, CautionKind, CautionReply, OkReply, Outcome,
    PlanLetter, PlanReply, RefusedWhy, WaitingLine,
};
use crate::session::Session;
use crate::units::Distance;

/// `approve plans on`, `squad waiting`, `approve all`, `approve heron`,
/// `approve heron no`
pub fn approval(
    desk: &mut Desk<'_>,
    statement: &Statement,
    said: Approval,
) -> Result<Outcome, Stopped> {
    let reply = match said {
        Approval::Waiting => {
            desk.demand(Right::SeeSquad)?;
            list(desk)
        }
        Approval::Wanted { wanted } => {
            desk.demand(Right::SayYes)?;
            desk.record(Event::ApprovalSet { wanted });
            let answered = if wanted { Answered::default() } else { give_all(desk)? };
            ApprovalReply::Wish { wanted, answered }
        }
        Approval::All => {
            desk.demand(Right::SayYes)?;
            match waiting(desk).is_empty() {
                true => list(desk),
                false => ApprovalReply::Given(give_all(desk)?),
            }
        }
        Approval::Given => {
            let who = whose(desk, statement)?;
            let mut answered = Answered::default();
            give(desk, &who, &mut answered)?;
            if !answered.stopped.is_empty() {
                let about = Some(who);
                let kind = CautionKind::Stopped;
                return Err(Box::new(Outcome::Caution(CautionReply { kind, about })));
            }
            ApprovalReply::Given(answered)
        }
        Approval::SentBack => {
            let who = whose(desk, statement)?;
            desk.record(Event::WeekSettled { who: who.clone(), yes: Some(false) });
            let planned = has_plan(desk, &who);
            let told = tell(desk, &who, PlanLetter::SentBack { planned });
            ApprovalReply::SentBack { who, told }
        }
    };
    Ok(Outcome::Ok(OkReply::Approval(reply)))
}

/// Whose plans wait, and for what.
pub fn waiting(view: &View<'_>) -> Vec<WaitingLine> {
    let swimmers = view.squad.swimmers.values();
    let lines = swimmers.filter_map(|swimmer| {
        let plan = swimmer.plan_waiting(view.today, view.now())?;
        Some(WaitingLine {
            who: swimmer.name.clone(),
            distance: plan.week.distance,
            sessions: plan.week.days.len(),
            hard: hard_days(&plan.week),
        })
    });
    lines.collect()
}

fn list(view: &View<'_>) -> ApprovalReply {
    let wanted = view.squad.approves_plans(view.now());
    ApprovalReply::List { wanted, waiting: waiting(view) }
}

/// The swimmer named, if a plan of theirs waits.
fn whose(view: &View<'_>, statement: &Statement) -> Result<Name, Stopped> {
    view.demand(Right::SayYes)?;
    let who = view.subject(statement)?;
    match plan_of(view, &who) {
        Some(_) => Ok(who),
        None => {
            let why = ApprovalRefusal::NothingWaits { who };
            Err(refused("approval", RefusedWhy::Approval(why)))
        }
    }
}

fn plan_of(view: &View<'_>, who: &Name) -> Option<PlanWaiting> {
    view.swimmer(who)?.plan_waiting(view.today, view.now()).cloned()
}

/// True while what the sender asks for themselves waits for a yes.
fn governs(view: &View<'_>) -> bool {
    view.squad.approves_plans(view.now()) && !view.may(Right::SpeakForOthers)
}

/// True if the week that the sender asked for has to wait: it could raise effort beyond
/// what the coach has seen. A lower one than the last plan, an easy one, and whatever
/// pain or illness lowers go out at once, and so does what is no more than the plan in
/// force, which is asked for again. Asking for a hard week where the last was none
/// always waits.
pub fn waits(view: &View<'_>, who: &Name, week: &WeekPlanned) -> bool {
    let lowers = matches!(week.kind, WeekKind::Easy | WeekKind::Return);
    if !governs(view) || lowers {
        return false;
    }
    let Some(last) = last_plan(view, who) else { return true };
    let harder_kind = week.kind == WeekKind::Hard && last.kind != WeekKind::Hard;
    let again = has_plan(view, who) && is_within(week, last);
    harder_kind || (!again && !is_lower(week, last))
}

/// Keeps a week until the coach has looked at it.
pub fn keep(
    desk: &mut Desk<'_>,
    who: Name,
    wish: coaching::WeekWish,
    week: WeekPlanned,
    sessions: Vec<Session>,
) -> Outcome {
    let planned = has_plan(desk, &who);
    desk.record(Event::WeekWaits { who, wish, week, sessions });
    Outcome::Ok(OkReply::Approval(ApprovalReply::Waits { planned }))
}

/// Another week takes the place of one that waits.
pub fn replace(desk: &mut Desk<'_>, who: &Name) {
    if plan_of(desk, who).is_some() {
        desk.record(Event::WeekSettled { who: who.clone(), yes: None });
    }
}

/// The session that the rules write, held to easy where the coach's yes is
/// still to come; and whether to say so, which is done once.
pub fn session(
    view: &View<'_>,
    who: &Name,
    facts: &Facts,
    wish: &SessionWish,
) -> Result<(Session, bool), Stopped> {
    let write = |wish: &SessionWish| coaching::next_session_by(view.asked.book, facts, wish);
    let written = write(wish).map_err(refusal)?;
    if is_covered(view, who, &written) {
        return Ok((written, false));
    }
    if wish.effort == Some(Effort::Harder) {
        let why = RefusedWhy::Approval(ApprovalRefusal::AfterYes);
        return Err(refused("approval", why));
    }
    // As far as the coach's plan for that day goes.
    if let Some(most) = approved_on(view, who, &written) {
        let capped = SessionWish { distance: most, ..wish.clone() };
        if let Some(session) = write(&capped).ok().filter(|one| is_covered(view, who, one)) {
            return Ok((session, false));
        }
    }
    let most = Distance::new(written.amount(), written.unit).ok();
    let easy = SessionWish { effort: Some(Effort::Easier), ..wish.clone() };
    let shorter = SessionWish { distance: most, ..easy.clone() };
    let session = write(&shorter).or_else(|_| write(&easy)).map_err(refusal)?;
    Ok((session, !is_said(view, who)))
}

/// True if a session may go to the sender now: it is not hard, or the coach's
/// plan holds a hard one that day which is at least as long.
pub fn is_covered(view: &View<'_>, who: &Name, session: &Session) -> bool {
    let within = |most: Distance| most.unit() == session.unit && session.amount() <= most.amount();
    !governs(view)
        || !coaching::is_hard(session)
        || approved_on(view, who, session).flatten().is_some_and(within)
}

/// How far the hard session goes that their last plan holds on that day.
fn approved_on(view: &View<'_>, who: &Name, session: &Session) -> Option<Option<Distance>> {
    let swimmer = view.swimmer(who)?;
    let plan = swimmer.weeks.as_of(view.now()).max_by_key(|kept| kept.cause)?;
    let mut planned = swimmer.planned.of_cause(plan.cause).map(|kept| &kept.what);
    let hard = planned.find(|one| one.on == session.on && coaching::is_hard(one))?;
    Some(Distance::new(hard.amount(), hard.unit).ok())
}

/// True if they were suggested something since plans wait: it was said then.
fn is_said(view: &View<'_>, who: &Name) -> bool {
    let since = view.squad.approval.cause_at(view.now()).unwrap_or_default();
    view.swimmer(who)
        .is_some_and(|swimmer| swimmer.suggested.as_of(view.now()).any(|kept| kept.cause > since))
}

fn last_plan<'a>(view: &'a View<'_>, who: &Name) -> Option<&'a WeekPlanned> {
    let weeks = view.swimmer(who)?.weeks.as_of(view.now());
    weeks.max_by_key(|kept| kept.cause).map(|kept| &kept.what)
}

/// True while days of their last plan are to come.
fn has_plan(view: &View<'_>, who: &Name) -> bool {
    last_plan(view, who).is_some_and(|week| week.days.iter().any(|(day, _)| *day >= view.today))
}

fn hard_days(week: &WeekPlanned) -> usize {
    week.days.iter().filter(|(_, hard)| *hard).count()
}

fn metres(week: &WeekPlanned) -> f64 {
    week.distance.metres().get()
}

/// True if a week asks for no more than another.
fn is_within(week: &WeekPlanned, other: &WeekPlanned) -> bool {
    metres(week) <= metres(other) && hard_days(week) <= hard_days(other)
}

/// True if a week asks for less than another, and for more in nothing.
fn is_lower(week: &WeekPlanned, other: &WeekPlanned) -> bool {
    is_within(week, other) && (metres(week) < metres(other) || hard_days(week) < hard_days(other))
}

fn give_all(desk: &mut Desk<'_>) -> Result<Answered, Stopped> {
    let mut answered = Answered::default();
    for line in waiting(desk) {
        give(desk, &line.who, &mut answered)?;
    }
    Ok(answered)
}

/// Sends out the plan that waits, unless they may not swim.
fn give(desk: &mut Desk<'_>, who: &Name, answered: &mut Answered) -> Result<(), Stopped> {
    let Some(waiting) = plan_of(desk, who) else { return Ok(()) };
    let mut facts = facts(desk, who)?;
    let told = desk.swimmer(who).map(|swimmer| desk.told_since(swimmer, &facts));
    facts.standing = that_stand(&told.unwrap_or_default());
    let (week, lowered) = match as_it_is_now(desk, who, &facts, &waiting) {
        Ok(given) => given,
        Err(no) if no.reason == RefusalReason::Stopped => {
            answered.stopped.push(who.clone());
            return Ok(());
        }
        Err(no) => return Err(refusal(no)),
    };
    let distance = Distance::new(week.distance(), week.unit())
        .map_err(|_| refused("nothing", RefusedWhy::Nothing))?;
    let planned = WeekPlanned { starts: week.starts, kind: week.kind, distance, days: week.days() };
    let sessions = week.sessions.clone();
    desk.record(Event::WeekPlanned { who: who.clone(), week: planned, sessions });
    desk.record(Event::WeekSettled { who: who.clone(), yes: Some(true) });
    let plan = Box::new(PlanReply {
        starts: week.starts,
        kind: week.kind,
        asked: None,
        distance,
        sessions: week.sessions,
        changed: vec![],
        waits: None,
        rules: week.rules,
    });
    answered.given.push(who.clone());
    answered.lowered.extend(lowered.then(|| who.clone()));
    let told = tell(desk, who, PlanLetter::Given { plan, lowered });
    answered.untold.extend((!told).then(|| who.clone()));
    Ok(())
}

/// The waiting week as it may go out today, and whether it was lowered. Where something
/// is open or came up since, the rules write it again, and never more than the coach
/// looked at; else it is that week without the days that are over.
fn as_it_is_now(
    view: &View<'_>,
    who: &Name,
    facts: &Facts,
    waiting: &PlanWaiting,
) -> Result<(Week, bool), coaching::Refusal> {
    let mut now = coaching::week_by(view.asked.book, facts, &waiting.wish)?;
    let most = Week { sessions: waiting.sessions.clone(), ..now.clone() };
    let hard = |week: &Week| week.days().iter().filter(|(_, hard)| *hard).count();
    let mut as_written =
        Week { starts: waiting.week.starts, kind: waiting.week.kind, ..most.clone() };
    as_written.sessions.retain(|one| one.on >= view.today && !facts.shut.contains(&one.on));
    as_written.sessions.iter_mut().for_each(|one| *one = as_told(one, facts));
    if facts.open.is_empty() && !came_up_from(view, who, waiting.cause + 1) {
        return Ok((as_written, false));
    }
    // Never the week as it was: one session of the lowered one is always left.
    while now.sessions.len() > 1 && (now.distance() > most.distance() || hard(&now) > hard(&most)) {
        now.sessions.pop();
    }
    let lower = now.distance() < most.distance() || hard(&now) < hard(&most);
    Ok((now, lower))
}

/// True if a result or a trouble came with message `cause` or after it.
pub fn came_up_from(view: &View<'_>, who: &Name, cause: u64) -> bool {
    let now = view.now();
    view.swimmer(who).is_some_and(|one| {
        let tests = one.tests.as_of(now).map(|kept| kept.cause);
        let sets = one.sets.as_of(now).map(|kept| kept.cause);
        let troubles = one.troubles.as_of(now).map(|kept| kept.cause);
        tests.chain(sets).chain(troubles).any(|since| since >= cause)
    })
}

/// Tells a swimmer of their plan, in their language and as any text from the deck:
/// to a minor only where a guardian and a second grown-up read it. What does not
/// fit waits for their `more`. False where no text can go to them.
fn tell(desk: &mut Desk<'_>, who: &Name, letter: PlanLetter) -> bool {
    let way = desk.swimmer(who).and_then(|swimmer| way_to(desk, swimmer));
    let Some((address, language)) = way.filter(|_| desk.may_write_to(who)) else { return false };
    let voice = reply::voice(language);
    let outcome = Outcome::Ok(OkReply::Approval(ApprovalReply::ToSwimmer(letter)));
    let fitted = reply::fit(voice.lines(&outcome), PARTS, voice.more_hint());
    if !fitted.rest.is_empty() {
        desk.record(Event::MoreKept { address: address.clone(), lines: fitted.rest });
    }
    desk.write_to(address, fitted.text);
    true
}

/// Those whose plan message `cause` sent out.
pub fn given_by(view: &View<'_>, cause: u64) -> Vec<Name> {
    let given = view.squad.swimmers.values().filter(|swimmer| {
        swimmer.waiting.of_cause(cause).is_some_and(Option::is_none)
            && swimmer.weeks.of_cause(cause).next().is_some()
    });
    given.map(|swimmer| swimmer.name.clone()).collect()
}

/// Tells those whose yes was taken back that their plan waits again.
pub fn taken_back(desk: &mut Desk<'_>, whose: &[Name]) {
    for who in whose {
        tell(desk, who, PlanLetter::WaitsAgain);
    }
}
