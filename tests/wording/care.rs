//! A sample of all that is said of who looks after whom.

use jiff::civil::date;
use lapwing::history::{CareKind, ReadWhat, Role};
use lapwing::reply::{CareDone, CareLetter, CareRefusal, RecordLine, SeenLine};

use super::parts::name;

pub fn done() -> Vec<CareDone> {
    let who = || name("heron");
    let on = date(2026, 3, 2);
    let seen = |role, what| SeenLine { on, role, what };
    let record = |what| RecordLine { on, who: Some(who()), what };
    vec![
        CareDone::OfficerNamed { opens: true },
        CareDone::OfficerNamed { opens: false },
        CareDone::EmergencyNumberKept { number: "112".to_owned() },
        CareDone::HelplineKept,
        CareDone::GuardianAsked { who: who() },
        CareDone::GuardianAgreed { who: who() },
        CareDone::GuardianEnded { who: who() },
        CareDone::GuardianReleases { who: who() },
        CareDone::Seen { who: who(), times: 0, latest: vec![] },
        CareDone::Seen { who: who(), times: 1, latest: vec![seen(None, ReadWhat::Squad)] },
        CareDone::Seen {
            who: who(),
            times: 7,
            latest: vec![
                seen(Some(Role::Coach), ReadWhat::Alert),
                seen(Some(Role::Assistant), ReadWhat::Card),
                seen(Some(Role::WelfareOfficer), ReadWhat::Squad),
                seen(Some(Role::Guardian), ReadWhat::Board),
                seen(Some(Role::Swimmer), ReadWhat::Squad),
            ],
        },
        CareDone::Records {
            accidents: 1,
            disclosures: 2,
            to_minors: 31,
            years: 7,
            latest: vec![
                record(CareKind::Accident { words: "200 test".into() }),
                record(CareKind::Disclosure { from: "+15550101".into() }),
                RecordLine { who: None, ..record(CareKind::ToMinor { words: "200".into() }) },
            ],
        },
    ]
}

pub fn refusals() -> Vec<CareRefusal> {
    let who = || name("heron");
    let stop = |clinician, guardian| CareRefusal::StopNeeds { who: who(), clinician, guardian };
    vec![
        CareRefusal::NoOfficer,
        CareRefusal::AskBirthYear,
        CareRefusal::AskParent,
        CareRefusal::ParentTexts,
        CareRefusal::CoachSetsAge,
        CareRefusal::CoachNamesGuardian,
        CareRefusal::NoSecondAdult { who: who() },
        stop(true, true),
        stop(true, false),
        stop(false, true),
        CareRefusal::OfficerOnly,
        CareRefusal::OfficerApart,
    ]
}

pub fn letters() -> Vec<CareLetter> {
    let who = || name("heron");
    let squad = || "Dusk".to_owned();
    vec![
        CareLetter::Disclosure { by: "heron (+15550101)".into(), squad: squad() },
        CareLetter::NowOfficer { squad: squad() },
        CareLetter::AskGuardian { who: who(), squad: squad() },
        CareLetter::GuardianAgreed { who: who() },
        CareLetter::GuardianReleases { who: who() },
        CareLetter::ToGuardian { who: who(), what: "3:12.".into() },
        CareLetter::CopyOf { who: who(), words: "200 3:12".into() },
        CareLetter::OfAge { who: who() },
    ]
}
