//! Taking back what was said: all of the sender's last text, or what is one
//! swimmer's of it. Events are appended; nothing is rewritten.

use crate::desk::decision::desk::Desk;
use crate::desk::decision::questions_back;
use crate::desk::decision::refusing::{Stopped, refused, turned_down};
use crate::desk::decision::view::View;
use crate::desk::plans::approval;
use crate::history::{Before, EveningBy, Event, QuestionKept, Swimmer, TimetableChange};
use crate::message::{Choice, Kind, Message, Name, Statement};
use crate::reply::{Asks, OfficeRefusal, OkReply, Outcome, QuestionReply, RefusedWhy, Withdrawn};
use crate::swim::Trial;

/// What was taken back, and whose it was where it was not the sender's own.
type TakenBack = Vec<(Option<Name>, Withdrawn)>;

/// `undo`: all that the sender's last storing message stored, asked about where that
/// is more than one thing; with a name, what is theirs.
pub fn undo(desk: &mut Desk<'_>, statement: &Statement) -> Result<Outcome, Stopped> {
    match statement.who.as_ref().filter(|who| desk.me() != Some(who)) {
        Some(_) => of_one(desk, statement),
        None => all(desk),
    }
}

/// `undo heron`, `scratch heron's set from last night`: one swimmer's, by name. The
/// whole text must be of this form; so it can be read first, before its name is taken
/// for something else.
pub fn named(view: &View<'_>, text: &str) -> Option<Message> {
    let lower = text.to_lowercase();
    let mut words = lower.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty());
    let first = words.next()?;
    let (mut who, mut result) = (None, false);
    for word in words {
        let name = Name::new(word).ok().filter(|name| view.squad.swimmers.contains_key(name));
        match name {
            Some(name) if who.is_none() => who = Some(name),
            Some(_) => return None,
            None if RESULTS.contains(&word) => result = true,
            None if AROUND.contains(&word) => {}
            None => return None,
        }
    }
    // `remove heron` is of the squad.
    let taken_back = UNDO.contains(&first) || result && REMOVE.contains(&first);
    let who = who.filter(|_| taken_back)?;
    Some(Message { statements: vec![Statement { who: Some(who), kind: Kind::Undo }] })
}

const UNDO: [&str; 5] = ["undo", "scratch", "deshacer", "deshaz", "anula"];

const REMOVE: [&str; 6] = ["delete", "remove", "drop", "borra", "borrar", "quita"];

const RESULTS: [&str; 14] = [
    "set",
    "sets",
    "test",
    "tests",
    "time",
    "times",
    "result",
    "results",
    "serie",
    "series",
    "tiempo",
    "tiempos",
    "resultado",
    "resultados",
];

const AROUND: [&str; 14] = [
    "s",
    "the",
    "of",
    "from",
    "for",
    "last",
    "night",
    "tonight",
    "yesterday",
    "today",
    "de",
    "el",
    "la",
    "anoche",
];

fn all(desk: &mut Desk<'_>) -> Result<Outcome, Stopped> {
    // What was only asked about is not kept yet: what was told before that stays.
    if desk.open_question().is_some_and(QuestionKept::is_of_a_swim) {
        return questions_back::no(desk);
    }
    let cause = to_take_back(desk)?;
    let mut what = stored_by(desk, cause);
    if !desk.confirmed && is_several(desk, cause, &what) {
        return Err(ask(desk, cause, what));
    }
    if what.is_empty() {
        what.push((None, Withdrawn::Change));
    }
    let given = approval::given_by(desk, cause);
    desk.record(Event::Undone { cause });
    approval::taken_back(desk, &given);
    // What was asked about that text goes with it.
    if desk.open_question().is_some() {
        desk.record(Event::QuestionsDropped { address: desk.asked.from.to_owned() });
    }
    Ok(Outcome::Ok(OkReply::Undone { what }))
}

/// What the sender's last storing message stored of one swimmer, else what was told
/// of them last. What is older than the last evening is asked about.
fn of_one(desk: &mut Desk<'_>, statement: &Statement) -> Result<Outcome, Stopped> {
    let who = desk.subject(statement)?;
    let nothing = || refused("nothing", RefusedWhy::Nothing);
    let swimmer = desk.swimmer(&who).ok_or_else(nothing)?;
    let last = last_storing(desk).filter(|cause| !results_of(swimmer, *cause).is_empty());
    let cause = last.or_else(|| last_told(desk, swimmer)).ok_or_else(nothing)?;
    let what = results_of(swimmer, cause);
    let whose = desk.not_me(&who);
    let what: TakenBack = what.into_iter().map(|one| (whose.clone(), one)).collect();
    if last != Some(cause) && !desk.confirmed {
        let message = Message { statements: vec![statement.clone()] };
        let reply = question(desk, Asks::TakeBack { what, singly: false });
        desk.ask(&reply, vec![Choice { word: "yes".into(), message }]);
        return Err(Box::new(Outcome::Question(reply)));
    }
    desk.record(Event::ResultsTakenBack { who, cause });
    Ok(Outcome::Ok(OkReply::Undone { what }))
}

/// All of it is asked about first, and a name takes back what is theirs alone.
fn ask(desk: &mut Desk<'_>, cause: u64, what: TakenBack) -> Stopped {
    let swimmers = desk.squad.swimmers.values();
    let named: Vec<Name> = swimmers
        .filter(|one| desk.me() != Some(&one.name) && !results_of(one, cause).is_empty())
        .map(|one| one.name.clone())
        .collect();
    let undo =
        |who: Option<Name>| Message { statements: vec![Statement { who, kind: Kind::Undo }] };
    let mut choices = vec![Choice { word: "yes".into(), message: undo(None) }];
    choices.extend(
        named.iter().map(|one| Choice { word: one.to_string(), message: undo(Some(one.clone())) }),
    );
    let reply = question(desk, Asks::TakeBack { what, singly: named.len() > 1 });
    desk.ask(&reply, choices);
    Box::new(Outcome::Question(reply))
}

fn question(view: &View<'_>, asks: Asks) -> QuestionReply {
    QuestionReply { asks, options: vec!["yes".into(), "no".into()], until: view.question_until() }
}

/// True for more than one thing: several results, or a register of several.
fn is_several(view: &View<'_>, cause: u64, what: &TakenBack) -> bool {
    let swimmers = view.squad.swimmers.values();
    let marked = swimmers.filter(|one| one.presence.of_cause(cause).next().is_some());
    // Two that changed places are one thing.
    let put_right =
        |one: &Withdrawn| matches!(one, Withdrawn::PutRight(_) | Withdrawn::SetPutRight(_));
    what.iter().filter(|(_, one)| !put_right(one)).count() > 1 || marked.count() > 1
}

/// All that a message stored.
fn stored_by(view: &View<'_>, cause: u64) -> TakenBack {
    let mut what: TakenBack = Vec::new();
    for swimmer in view.squad.swimmers.values() {
        let whose = view.not_me(&swimmer.name);
        let swum = results_of(swimmer, cause).into_iter();
        let swum = swum.filter(|one| !matches!(one, Withdrawn::Register(_)));
        what.extend(swum.map(|one| (whose.clone(), one)));
    }
    what.extend(standing_again(view, cause));
    let register = view.squad.swimmers.values().find_map(|one| one.presence.of_cause(cause).next());
    what.extend(register.map(|kept| (None, Withdrawn::Register(kept.on))));
    let nights = view.squad.timetable.of_cause(cause).map(|kept| match &kept.what {
        TimetableChange::Shut => Withdrawn::Shut(kept.on),
        TimetableChange::Weekly { .. } => Withdrawn::Timetable,
        _ => Withdrawn::Night(kept.on),
    });
    what.extend(nights.map(|one| (None, one)));
    let evening = view.squad.evenings.of_cause(cause).find_map(|kept| match kept.what.by {
        EveningBy::Set => Some(Withdrawn::SquadSet(kept.on)),
        EveningBy::Change => Some(Withdrawn::SetChange(kept.on)),
        EveningBy::Lanes => Some(Withdrawn::Lanes(kept.on)),
        EveningBy::People => None,
    });
    // Another number of lanes is one thing, with what became of the lanes.
    let lanes_too = what.iter().any(|(_, one)| matches!(one, Withdrawn::Night(_)));
    let evening = evening.filter(|one| !(lanes_too && matches!(one, Withdrawn::Lanes(_))));
    what.extend(evening.map(|one| (None, one)));
    let wished = view.member().is_some_and(|member| member.wished_in(cause));
    what.extend(wished.then_some((None, Withdrawn::Digest)));
    let notes = view.squad.swimmers.values().filter(|swimmer| swimmer.wished_in(cause));
    what.extend(notes.map(|swimmer| (view.not_me(&swimmer.name), Withdrawn::Note)));
    what
}

/// What message `cause` told of one swimmer: tests, sets, sessions, the register.
fn results_of(swimmer: &Swimmer, cause: u64) -> Vec<Withdrawn> {
    let tests = swimmer.tests.of_cause(cause).map(|kept| Withdrawn::Test(kept.what.trial));
    let sets = swimmer.sets.of_cause(cause).map(|kept| Withdrawn::Set(kept.what.set.clone()));
    let swims = swimmer.swims.of_cause(cause).map(|kept| Withdrawn::Session(kept.on));
    let other = swimmer.other.of_cause(cause).map(|kept| Withdrawn::Session(kept.on));
    let seen = swimmer.presence.of_cause(cause).map(|kept| Withdrawn::Register(kept.on));
    tests.chain(sets).chain(swims).chain(other).chain(seen).collect()
}

/// The message that told of their swimming last.
fn last_told(view: &View<'_>, swimmer: &Swimmer) -> Option<u64> {
    let by = view.asked.wall.max(view.now());
    let tests = swimmer.tests.as_of(by).map(|kept| kept.cause).max();
    let sets = swimmer.sets.as_of(by).map(|kept| kept.cause).max();
    let swims = swimmer.swims.as_of(by).map(|kept| kept.cause).max();
    tests.max(sets).max(swims)
}

/// The tests and sets that message `cause` put right, as they were before it, and
/// whose.
fn standing_again(view: &View<'_>, cause: u64) -> TakenBack {
    let mut again = Vec::new();
    for swimmer in view.squad.swimmers.values() {
        let own = view.not_me(&swimmer.name);
        for kept in swimmer.tests.as_of(view.asked.wall.max(view.now())) {
            let test = &kept.what;
            let mut by_it = test.put_right.iter().filter(|right| right.cause == cause);
            let Some(right) = by_it.next() else { continue };
            let (whose, time) = match &right.was {
                Before::Of(was) => (was, test.trial.time),
                Before::Time(time) => (&swimmer.name, *time),
            };
            again.push((view.not_me(whose), Withdrawn::PutRight(Trial { time, ..test.trial })));
        }
        let sets = swimmer.sets_put_right.iter().filter(|right| right.cause == cause);
        again
            .extend(sets.map(|right| (own.clone(), Withdrawn::SetPutRight(right.was.set.clone()))));
    }
    again
}

/// Which message is taken back next, or why there is none.
pub fn to_take_back(view: &View<'_>) -> Result<u64, Stopped> {
    last_storing(view).ok_or_else(|| {
        match view.member().is_some_and(|member| member.no_undo_of.is_some()) {
            true => turned_down("stop_stays", OfficeRefusal::StopStays),
            false => refused("nothing", RefusedWhy::Nothing),
        }
    })
}

/// The sender's last storing message.
fn last_storing(view: &View<'_>) -> Option<u64> {
    view.member()?.undoable.last().copied()
}
