//! Answers to questions of any other kind (`message::Question`), from what is known:
//! whatever is asked, about whom, of when.
//!
//! Who may be told of whom is what the command for it would show: one's own to oneself
//! and to whoever answers for one, everybody's to who sees the squad. What isn't known
//! comes back as nothing, and is passed on.

mod many;
mod paces;
mod people;
mod set;
mod times;
mod whom;

use crate::desk::decision::desk::Desk;
use crate::desk::decision::refusing::Stopped;
use crate::desk::known::trials::trials;
use crate::desk::questions::about::known;
use crate::desk::questions::{evening, swimmer};
use crate::desk::squad::overview;
use crate::desk::swims::targets;
use crate::history::{Right, Swimmer};
use crate::message::{Of, Question, Sought, SquadFilter, Statement, Term};
use crate::reply::{Answer, HelpReply, Known, Outcome, SquadReply};
use crate::units::SendOff;

/// What is known of it; nothing where it isn't.
pub fn answer(
    desk: &mut Desk<'_>,
    statement: &Statement,
    asked: &Question,
) -> Result<Option<Outcome>, Stopped> {
    Ok(match asked.sought {
        Sought::Us => Some(Outcome::Help(HelpReply::Us)),
        Sought::Data => Some(Outcome::Help(HelpReply::Data)),
        Sought::Meaning => meaning(asked),
        Sought::Stored => Some(times::stored(desk, asked)?),
        Sought::Time => times::swum(desk, statement, asked)?,
        Sought::Best => times::best(desk, asked)?,
        Sought::Converted => paces::converted(desk, asked)?,
        Sought::Versus => times::versus(desk, asked)?,
        Sought::Gap => times::gap(desk, statement, asked)?,
        Sought::LastSwum => times::last_swum(desk, asked)?,
        Sought::Goal => times::goal(desk, asked)?,
        Sought::Pace => paces::pace(desk, asked)?,
        Sought::Sum => match paces::sum(asked) {
            Some(sum) => Some(sum),
            None => paces::pace(desk, asked)?,
        },
        Sought::Lengths => paces::lengths(desk, asked),
        Sought::Average => many::average(desk, asked)?,
        Sought::Ranked(pick) => many::ranked(desk, asked, pick)?,
        Sought::Count => people::count(desk, asked)?,
        Sought::Came => people::came(desk, asked)?,
        Sought::LastCame => people::last_there(desk, asked)?,
        Sought::Swum => people::swum(desk, asked)?,
        Sought::TestNight => test_night(desk, statement, asked)?,
        Sought::Total => set::total(desk, asked)?,
        Sought::Hold => set::hold(desk, asked)?,
        Sought::Rest => set::rest(desk, asked)?,
        Sought::Targets => match whom::of(statement, asked) {
            of if matches!(asked.of, Of::Named(_) | Of::Sender) => {
                Some(targets::targets(desk, &of, &[])?)
            }
            _ => None,
        },
        Sought::Silent => Some(overview::squad(desk, Some(SquadFilter::Silent), None)?),
        Sought::Untested => Some(untested(desk, asked)?),
        Sought::Kit => set::kit(desk, asked)?,
        Sought::Room => set::room(desk, asked)?,
        Sought::Standing => Some(evening::standing(desk, statement, whom::lane(asked))?),
        Sought::Lane => Some(evening::lane(desk, &whom::of(statement, asked), whom::lane(asked))?),
        Sought::Evening => Some(set::evening(desk, statement, asked)?),
    })
}

/// The figure that was asked for.
fn told(answer: Answer) -> Outcome {
    known(Known::Told(answer))
}

/// What words of the trade mean; with the figures that were asked about, the longer one
/// as the send-off.
fn meaning(asked: &Question) -> Option<Outcome> {
    const LONGEST_S: f64 = 600.0;
    let mut times: Vec<_> = asked.times.iter().filter_map(|all| all.first()).copied().collect();
    times.retain(|time| time.seconds() <= LONGEST_S);
    times.sort();
    let terms = asked.terms.clone();
    let holds = terms.contains(&Term::Hold);
    let (on, hold) = match times.as_slice() {
        [] => (None, None),
        [one] if holds => (None, Some(*one)),
        [one] => (Some(*one), None),
        [hold, .., on] => (Some(*on), Some(*hold)),
    };
    let on = on.and_then(|on| SendOff::new(on.hundredths() / 100).ok());
    (!terms.is_empty()).then_some(Outcome::Help(HelpReply::Meaning { terms, on, hold }))
}

/// Whether a test is on that night; without a night, when the next one is.
fn test_night(
    desk: &mut Desk<'_>,
    statement: &Statement,
    asked: &Question,
) -> Result<Option<Outcome>, Stopped> {
    let Some(on) = asked.on.and_then(|typed| desk.night_meant(Some(typed))) else {
        return swimmer::next_test(desk, &whom::of(statement, asked)).map(Some);
    };
    let called = desk.squad.test_night_called(desk.now()).filter(|called| called.on >= desk.today);
    let called = called.map(|called| (called.on, called.what));
    Ok(Some(told(Answer::TestOn { on, called })))
}

/// Who still has the test night's test to swim; without one, whose last test is too long ago.
/// Of a distance: who has no test over it, or none since that day.
fn untested(desk: &mut Desk<'_>, asked: &Question) -> Result<Outcome, Stopped> {
    let Some(length) = asked.length else {
        let called = desk.squad.test_night_called(desk.now()).is_some();
        let filter = if called { SquadFilter::Owed } else { SquadFilter::Overdue };
        return overview::squad(desk, Some(filter), None);
    };
    desk.demand(Right::SeeSquad)?;
    let from = whom::past(desk, asked.on);
    let has_one = |swimmer: &Swimmer| {
        trials(swimmer, desk).any(|trial| {
            trial.distance.amount() == length.amount && from.is_none_or(|from| trial.on >= from)
        })
    };
    let without = desk.squad.swimmers.values().filter(|one| !has_one(one));
    let swimmers = without.map(|one| overview::row(desk, one)).collect();
    let (squad, filter) = (desk.squad.name.clone(), Some(SquadFilter::Overdue));
    Ok(Outcome::Squad(SquadReply { squad, swimmers, filter, night: None }))
}
