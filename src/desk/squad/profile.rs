//! What a swimmer says of themselves: pool, days, minutes, year of birth; and in which
//! language anybody wants to be told.

use crate::desk::decision::desk::Desk;
use crate::desk::decision::refusing::{Stopped, refused};
use crate::desk::decision::view::View;
use crate::history::{AgeGroup, Event, ProfileSetting, Right};
use crate::language::Language;
use crate::message::{ProfileChange, Statement};
use crate::reply::{CareRefusal, OkReply, Outcome, RefusedWhy, Set};

/// `pool 25m`, `days tue thu`, `born 1981`
pub fn change(
    desk: &mut Desk<'_>,
    statement: &Statement,
    change: &ProfileChange,
) -> Result<Outcome, Stopped> {
    if let Some(language) = own_language(desk, statement, change) {
        let address = desk.asked.from.to_owned();
        desk.record(Event::LanguageChosen { address, language });
        return Ok(Outcome::Ok(OkReply::Profile(vec![Set::Language(language)])));
    }
    let who = desk.subject(statement)?;
    let days: crate::units::Weekdays = change.days.iter().copied().collect();
    let settings: Vec<(ProfileSetting, Set)> = [
        change.course.map(|course| (ProfileSetting::Course(course), Set::Course(course))),
        (!days.is_empty()).then(|| (ProfileSetting::Days(days.clone()), Set::Days(days))),
        change.sessions.map(|number| (ProfileSetting::Sessions(number), Set::Sessions(number))),
        change.minutes.map(|minutes| (ProfileSetting::Minutes(minutes), Set::Minutes(minutes))),
        change.born.map(|year| (ProfileSetting::Born(year), Set::Born(year))),
        change.units.map(|unit| (ProfileSetting::Units(unit), Set::Units(unit))),
        change
            .language
            .map(|language| (ProfileSetting::Language(language), Set::Language(language))),
    ]
    .into_iter()
    .flatten()
    .collect();
    if settings.is_empty() {
        return Err(refused("nothing", RefusedWhy::Nothing));
    }
    let minor = desk
        .swimmer(&who)
        .is_some_and(|swimmer| swimmer.born.at(desk.now()).is_some() && desk.is_minor(&who));
    let grown_up =
        change.born.is_some_and(|year| AgeGroup::of(year, desk.today) == AgeGroup::Adult);
    if minor && grown_up && !desk.may(Right::Release) {
        return Err(refused("guardian", RefusedWhy::Care(CareRefusal::CoachSetsAge)));
    }
    let (stored, said): (Vec<_>, Vec<_>) = settings.into_iter().unzip();
    for setting in stored {
        desk.record(Event::ProfileSet { who: who.clone(), setting });
    }
    Ok(Outcome::Ok(OkReply::Profile(said)))
}

/// The language of somebody who doesn't swim, where nothing else is set.
fn own_language(
    view: &View<'_>,
    statement: &Statement,
    change: &ProfileChange,
) -> Option<Language> {
    let alone = ProfileChange { language: None, ..change.clone() } == ProfileChange::default();
    let own = statement.who.is_none() && !view.swims() && view.member().is_some();
    change.language.filter(|_| alone && own)
}
