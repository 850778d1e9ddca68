//! Who looks after whom.

use super::English;
use crate::message::Name;
use crate::profile::{CareKind, ReadWhat, Role};
use crate::reply::carried;
use crate::reply::phrases::Safeguards;
use crate::reply::{CareDone, CareLetter, CareRefusal};

impl Safeguards for English {
    fn cared(&self, done: &CareDone) -> String {
        match done {
            CareDone::OfficerNamed { opens: true } => {
                "Stored: the welfare officer is told by text. The squad is open to joiners now."
                    .to_owned()
            }
            CareDone::OfficerNamed { opens: false } => {
                "Stored: the welfare officer is told by text.".to_owned()
            }
            CareDone::EmergencyNumberKept { number } => {
                format!("Stored. Whoever is in danger is told to call {number}.")
            }
            CareDone::HelplineKept => {
                "Stored. Whoever writes of harm or fear is told this helpline.".to_owned()
            }
            CareDone::GuardianAsked { who } => {
                format!("Asked: once they answer YES, they read along with {who}.")
            }
            CareDone::GuardianAgreed { who } => format!(
                "Thank you, your consent for {who} is stored. You get a copy of all texts; danger \
                 and pain at any hour, the rest from 8:00 to 20:00. Local rules come first."
            ),
            CareDone::GuardianEnded { who } => {
                format!("Stored: you get no more texts about {who}, and {who} gets none from us.")
            }
            CareDone::GuardianReleases { who } => {
                format!("Stored. With a clinician's word too, the coach can release {who}.")
            }
            CareDone::Seen { .. } | CareDone::Records { .. } => String::new(),
        }
    }

    fn care_refusal(&self, why: &CareRefusal) -> String {
        match why {
            CareRefusal::NoOfficer => {
                "This squad opens once the club has named its welfare officer: please ask the coach. \
                 Until then nothing but danger and pain is answered here."
                    .to_owned()
            }
            CareRefusal::AskBirthYear => {
                "First the year you were born: text BORN and the year. Under 18, please ask a \
                 parent to join you."
                    .to_owned()
            }
            CareRefusal::AskParent => {
                "Please ask a parent to join you: text GUARDIAN and their number. Until they agree \
                 we store no training from you."
                    .to_owned()
            }
            CareRefusal::ParentTexts => {
                "Please ask your parent to text that for you from their phone.".to_owned()
            }
            CareRefusal::CoachSetsAge => {
                "That year makes you a grown-up: please ask the coach to text it.".to_owned()
            }
            CareRefusal::CoachNamesGuardian => {
                "Please ask the coach to text that number for you.".to_owned()
            }
            CareRefusal::NoSecondAdult { who } => format!(
                "Not sent: {who} is under 18, and a guardian and a second adult must read along. Add \
                 GUARDIAN {who} and their number, or invite an assistant."
            ),
            CareRefusal::StopNeeds { who, clinician, guardian } => {
                let what = match (clinician, guardian) {
                    (true, true) => "a clinician's word and the guardian's RELEASE",
                    (true, false) => "a clinician's word (text CLEARED BY THE DOCTOR)",
                    _ => "the guardian's RELEASE, texted from their phone",
                };
                format!("{who} is under 18 and stays stopped. Still to come: {what}.")
            }
            CareRefusal::OfficerOnly => "That is for the welfare officer.".to_owned(),
            CareRefusal::OfficerApart => {
                "The welfare officer must be someone other than the coach.".to_owned()
            }
        }
    }

    fn seen_times(&self, who: &Name, times: usize) -> String {
        match times {
            0 => format!("Nobody else has read of {who}'s health here."),
            1 => format!("{who}'s health was read once by others:"),
            times => format!("{who}'s health was read {times} times by others, latest first:"),
        }
    }

    fn occasion(&self, what: ReadWhat) -> &'static str {
        match what {
            ReadWhat::Alert => "warned by us",
            ReadWhat::Board => "looked at the board",
            ReadWhat::Card => "asked for the card",
            ReadWhat::Squad => "asked for the squad",
        }
    }

    fn role(&self, role: Option<Role>) -> &'static str {
        match role {
            Some(Role::Coach) => "coach",
            Some(Role::Assistant) => "assistant",
            Some(Role::Swimmer) => "swimmer",
            Some(Role::Guardian) => "guardian",
            Some(Role::WelfareOfficer) => "welfare officer",
            None => "someone who left",
        }
    }

    fn records_kept(
        &self,
        accidents: usize,
        disclosures: usize,
        to_minors: usize,
        years: u16,
    ) -> String {
        format!(
            "Kept apart, {years} years: {accidents} of accidents, {disclosures} of worries, \
             {to_minors} texts to minors."
        )
    }

    fn kept_apart(&self, who: Option<&Name>, what: &CareKind) -> String {
        let who = who.map_or("someone", Name::as_str);
        match what {
            CareKind::Accident { words } => format!("{who}: {}", carried(words)),
            CareKind::Disclosure { .. } => format!("{who} wrote of harm or fear"),
            CareKind::Overruled { by } => {
                format!("{who}'s stop lifted on the word of {}", carried(by))
            }
            CareKind::ToMinor { words } => format!("to {who}: {}", carried(words)),
        }
    }

    fn ask_birth_year(&self) -> &'static str {
        "What year were you born? Text BORN and the year. Under 18, a parent joins you: text \
         GUARDIAN and their number."
    }

    fn care_letter(&self, letter: &CareLetter) -> String {
        match letter {
            CareLetter::Disclosure { by, squad } => {
                format!(
                    "Welfare, {squad}: {by} has just written of harm or fear. Nobody else is told and the \
             words are kept nowhere. Please speak with them today, by your club's procedure."
                )
            }
            CareLetter::NowOfficer { squad } => {
                format!(
                    "You are now welfare officer of {squad}: you alone hear when someone writes of harm or \
             fear. Text HELPLINE and a number to set one, RECORDS for what is kept."
                )
            }
            CareLetter::AskGuardian { who, squad } => {
                format!(
                    "{squad}, a swim squad: {who} names you as parent or guardian. May {who} text with us, \
             and you read along? Danger and pain come at any hour, the rest 8:00-20:00. YES or NO."
                )
            }
            CareLetter::GuardianAgreed { who } => {
                format!("{who}'s guardian agreed and reads along.")
            }
            CareLetter::GuardianReleases { who } => {
                format!("{who}'s guardian agrees that the stop be lifted.")
            }
            CareLetter::ToGuardian { who, what } => {
                format!("{who}, just now: {what}")
            }
            CareLetter::CopyOf { who, words } => {
                format!("Copy, {who}: {}", carried(words))
            }
            CareLetter::OfAge { who } => {
                format!(
                    "{who} is 18 or over by the year of birth: from now on no texts are copied to a guardian."
                )
            }
        }
    }
}
