//! The next session, the week, the race they lead to.

use jiff::civil::Date;

use super::approval;
use crate::coaching::{
    self, Effort, Facts, Promise, Race, SessionWish, Trouble, WeekKind, WeekPlanned, WeekWish,
};
use crate::desk::decision::desk::Desk;
use crate::desk::decision::kept_for_why::main_of;
use crate::desk::decision::questions_back::ask_yes;
use crate::desk::decision::refusing::{Stopped, refusal, refused};
use crate::desk::decision::resolve::{self, Toward};
use crate::desk::decision::view::View;
use crate::desk::known::facts::facts;
use crate::desk::known::standing_sessions::{as_told, that_stand};
use crate::history::{Event, Reasons};
use crate::message::{self, Day, Length, Message, Name, NextWish, PlanWish, Statement, TypedTime};
use crate::reply::{
    CautionKind, News, OkReply, Outcome, PlanReply, PredictionReply, RefusedWhy, SessionReply,
};
use crate::session::{Purpose, Session};
use crate::units::{Distance, Stroke};

/// A step away from the session suggested last.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Step {
    /// Less of it.
    Shorter,
    /// A level down.
    Easier,
    /// A level up, within the rules.
    Harder,
}

/// `next`, `next 30min no fins`
pub fn next(
    desk: &mut Desk<'_>,
    statement: &Statement,
    wish: &NextWish,
) -> Result<Outcome, Stopped> {
    let who = desk.subject(statement)?;
    let course = desk.course_of(&who);
    let wish = SessionWish {
        minutes: wish.minutes,
        distance: wish.distance.and_then(|length| resolve::distance(length, course)),
        with: wish.with.clone(),
        without: wish.without.clone(),
        open_water: wish.open_water,
        ..SessionWish::default()
    };
    suggest(desk, &who, &wish)
}

/// `shorter`, `easier`, `harder`
pub fn changed(desk: &mut Desk<'_>, statement: &Statement, step: Step) -> Result<Outcome, Stopped> {
    let who = desk.subject(statement)?;
    // Shorter and easier are than what was suggested last.
    let last = facts(desk, &who)?.suggested.last().map(Session::duration_s);
    let minutes = last.filter(|_| step != Step::Harder).map(|seconds| {
        // What is booked is five minutes more than what is swum.
        u16::try_from(seconds.div_ceil(60) + 5).unwrap_or(u16::MAX)
    });
    let wish = SessionWish {
        minutes,
        effort: match step {
            Step::Shorter => None,
            Step::Easier => Some(Effort::Easier),
            Step::Harder => Some(Effort::Harder),
        },
        shorter: step == Step::Shorter,
        ..SessionWish::default()
    };
    suggest(desk, &who, &wish)
}

/// What a swimmer swims alone, next.
pub fn alone(desk: &mut Desk<'_>, who: &Name) -> Result<Outcome, Stopped> {
    suggest(desk, who, &SessionWish::default())
}

fn suggest(desk: &mut Desk<'_>, who: &Name, wish: &SessionWish) -> Result<Outcome, Stopped> {
    let facts = facts(desk, who)?;
    let told = desk.swimmer(who).and_then(|swimmer| {
        let told = desk.told(swimmer).into_iter().next()?;
        Some((told.what.clone(), desk.news(swimmer, &facts, told)))
    });
    let unchanged = *wish == SessionWish::default();
    // What was told stands, however often it is asked for.
    if let Some((session, None)) = &told
        && unchanged
        && approval::is_covered(desk, who, session)
    {
        desk.keep_reasons(Reasons::of(session).with_main(main_of(who, [session])));
        // One of a plan is the one that was told last, from now on.
        let last = facts.suggested.last();
        if last.is_none_or(|last| !last.swims_as(session)) {
            desk.record(Event::SessionSuggested { who: who.clone(), session: session.clone() });
        }
        let reply = reply(desk, &facts, session.clone(), false);
        return Ok(Outcome::Session(reply));
    }
    let (session, after_yes) = approval::session(desk, who, &facts, wish)?;
    let changed = told.filter(|_| unchanged).and_then(|(before, news)| {
        if before.swims_as(&session) { None } else { Some((before.on, news?)) }
    });
    desk.keep_reasons(Reasons::of(&session).with_main(main_of(who, [&session])));
    desk.record(Event::SessionSuggested { who: who.clone(), session: session.clone() });
    let reply = reply(desk, &facts, session, wish.open_water);
    Ok(Outcome::Session(SessionReply { after_yes, changed, ..reply }))
}

fn reply(view: &View<'_>, facts: &Facts, session: Session, open_water: bool) -> SessionReply {
    let on_squad_night = view.squad.night(session.on, view.now()).is_some() && !open_water;
    let waits = waits(facts, [&session]);
    let unheard = coaching::unheard_since(facts, &session);
    let told = told(session);
    SessionReply {
        caution: if open_water { Some(CautionKind::OpenWater) } else { told.caution },
        on_squad_night,
        waits,
        if_well: facts.clear_from.is_none()
            && facts.open.iter().any(|trouble| matches!(trouble, Trouble::Ill { .. })),
        unheard,
        ..told
    }
}

/// A session to be swum, with a caution where it is hard.
pub fn told(session: Session) -> SessionReply {
    let caution = coaching::is_hard(&session).then_some(CautionKind::Effort);
    SessionReply { caution, ..SessionReply::of(session) }
}

/// What was promised for the next hard swim, where the first hard one of `sessions`
/// does not keep it.
fn waits<'a>(facts: &Facts, sessions: impl IntoIterator<Item = &'a Session>) -> Option<Promise> {
    let promise = facts.promised_hard()?;
    // The day of a race holds no set of its own.
    let counts =
        |session: &&Session| coaching::is_hard(session) && session.purpose != Purpose::Race;
    let first = sessions.into_iter().find(counts)?;
    let kept = match promise {
        Promise::Easy => true,
        Promise::Set { set } => coaching::holds(first, set),
        Promise::Test => first.purpose == Purpose::Test,
    };
    (!kept).then(|| promise.clone())
}

/// `again`: the session suggested last, once more.
pub fn again(desk: &mut Desk<'_>, statement: &Statement) -> Result<Outcome, Stopped> {
    let who = desk.subject(statement)?;
    let facts = facts(desk, &who)?;
    if !facts.open.is_empty() {
        // Something came up since: what may be swum is worked out anew.
        return suggest(desk, &who, &SessionWish::default());
    }
    let session = facts.suggested.last().ok_or_else(|| refused("nothing", RefusedWhy::Nothing))?;
    let session = as_told(session, &facts);
    if !approval::is_covered(desk, &who, &session) {
        return suggest(desk, &who, &SessionWish::default());
    }
    desk.keep_reasons(Reasons::of(&session).with_main(main_of(&who, [&session])));
    Ok(Outcome::Session(reply(desk, &facts, session, false)))
}

/// `plan`, `plan easy week`, `plan 3x week 45min`
pub fn plan(
    desk: &mut Desk<'_>,
    statement: &Statement,
    wish: &PlanWish,
) -> Result<Outcome, Stopped> {
    let who = desk.subject(statement)?;
    let mut facts = facts(desk, &who)?;
    let asked = wish.week.map(|week| match week {
        message::WeekKind::Easy => WeekKind::Easy,
        message::WeekKind::Normal => WeekKind::Normal,
        message::WeekKind::Hard => WeekKind::Hard,
    });
    let wish = WeekWish { kind: asked, minutes: wish.minutes, sessions: wish.sessions };
    let before = desk.swimmer(&who).map(|swimmer| desk.told_since(swimmer, &facts));
    let before = before.unwrap_or_default();
    facts.standing = that_stand(&before);
    let week = coaching::week_by(desk.asked.book, &facts, &wish).map_err(refusal)?;
    let unasked = if wish == WeekWish::default() { News::Done } else { News::Wish };
    let changed = changed_days(&before, &week.sessions, unasked);
    let distance = Distance::new(week.distance(), week.unit())
        .map_err(|_| refused("nothing", RefusedWhy::Nothing))?;
    let planned = WeekPlanned { starts: week.starts, kind: week.kind, distance, days: week.days() };
    let sessions = week.sessions.clone();
    let without = week.sessions.iter().flat_map(|session| session.without.iter().copied());
    let main = main_of(&who, &week.sessions);
    let reasons = Reasons::rules(week.rules.clone(), without).with_main(main);
    if approval::waits(desk, &who, &planned) {
        desk.keep_reasons(reasons);
        return Ok(approval::keep(desk, who, wish, planned, sessions));
    }
    approval::replace(desk, &who);
    desk.record(Event::WeekPlanned { who, week: planned, sessions });
    desk.keep_reasons(reasons);
    Ok(Outcome::Plan(PlanReply {
        starts: week.starts,
        kind: week.kind,
        asked: asked.filter(|asked| *asked != week.kind),
        distance,
        waits: waits(&facts, &week.sessions),
        sessions: week.sessions,
        changed,
        rules: week.rules,
    }))
}

/// The days whose session in `before` differs from the week's now, and why; `unasked`
/// where nothing came up.
fn changed_days(
    before: &[(Option<News>, Session)],
    now: &[Session],
    unasked: News,
) -> Vec<(Date, News)> {
    let is_kept = |told: &Session| now.iter().any(|one| one.swims_as(told));
    let ends = now.last().map(|one| one.on);
    let changed = before.iter().filter(|(_, told)| !is_kept(told) && Some(told.on) <= ends);
    changed.map(|(news, told)| (told.on, news.unwrap_or(unasked))).collect()
}

/// `race 1500 on 20 dec goal 26:00`
pub fn race(
    desk: &mut Desk<'_>,
    statement: &Statement,
    distance: Length,
    on: Day,
    goal: Option<&TypedTime>,
) -> Result<Outcome, Stopped> {
    let who = desk.subject(statement)?;
    let course = desk.course_of(&who);
    let on = resolve::day(on, desk.today, course.unit(), Toward::Future)
        .filter(|on| *on >= desk.today)
        .ok_or_else(|| refused("day", RefusedWhy::Nothing))?;
    let distance: Distance = resolve::distance(distance, course)
        .ok_or_else(|| refused("distance", RefusedWhy::Distance))?;
    let goal = match goal.map(|goal| resolve::time(goal, distance, Stroke::Free)) {
        None => None,
        Some(Some(resolve::Settled::Sure(time))) => Some(time),
        Some(Some(resolve::Settled::Unlikely(time))) if desk.confirmed => Some(time),
        Some(Some(settled)) => {
            let time = settled.likelier();
            let asks = crate::reply::Asks::Implausible { distance, time };
            return Err(ask_yes(desk, asks, &Message { statements: vec![statement.clone()] }));
        }
        Some(None) => None,
    };
    let race = Race { on, distance, stroke: Stroke::Free, goal };
    desk.record(Event::RaceSet { who: who.clone(), race: race.clone() });
    Ok(match coaching::outlook_by(desk.asked.book, &facts(desk, &who)?, &race) {
        Some(outlook) => {
            desk.keep_reasons(Reasons::Prediction { who, distance });
            Outcome::Prediction(PredictionReply {
                prediction: outlook.prediction.clone(),
                race: Some((on, outlook)),
            })
        }
        None => Outcome::Ok(OkReply::Race { on, distance }),
    })
}

/// `swap tue thu`
pub fn swap(
    desk: &mut Desk<'_>,
    statement: &Statement,
    days: &[Day; 2],
) -> Result<Outcome, Stopped> {
    let who = desk.subject(statement)?;
    let unit = desk.course_of(&who).unit();
    let date = |day: Day| {
        resolve::day(day, desk.today, unit, Toward::Future)
            .ok_or_else(|| refused("day", RefusedWhy::Nothing))
    };
    let (one, other) = (date(days[0])?, date(days[1])?);
    let week =
        coaching::swap_by(desk.asked.book, &facts(desk, &who)?, one, other).map_err(refusal)?;
    let days = week.days.clone();
    let sessions = swapped(desk, &who, &week, one, other);
    desk.record(Event::WeekPlanned { who, week, sessions });
    Ok(Outcome::Ok(OkReply::Swapped { days }))
}

/// The week's sessions, those of the two days changed for each other.
fn swapped(
    view: &View<'_>,
    who: &Name,
    week: &WeekPlanned,
    one: Date,
    other: Date,
) -> Vec<Session> {
    planned(view, who, week.starts)
        .into_iter()
        .map(|session| {
            let on = match session.on {
                on if on == one => other,
                on if on == other => one,
                on => on,
            };
            Session { on, ..session }
        })
        .collect()
}

/// The sessions of the plan in force that begins on `starts`.
fn planned(view: &View<'_>, who: &Name, starts: Date) -> Vec<Session> {
    let Some(swimmer) = view.swimmer(who) else { return Vec::new() };
    let now = view.now();
    let plan = swimmer.weeks.as_of(now).filter(|kept| kept.on == starts).max_by_key(|k| k.cause);
    let Some(cause) = plan.map(|kept| kept.cause) else { return Vec::new() };
    swimmer.planned.of_cause(cause).map(|kept| kept.what.clone()).collect()
}
