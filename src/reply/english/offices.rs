//! Offices: who holds one, who is called in danger.

use super::English;
use crate::reply::phrases::Offices;
use crate::reply::{Grave, OfficeDone, OfficeLetter, OfficeRefusal};

impl Offices for English {
    fn office_done(&self, done: &OfficeDone) -> String {
        match done {
            OfficeDone::SecondContact { named: true } => {
                "Stored: called in danger when no coach or assistant is reached. They are told by \
                 text."
                    .to_owned()
            }
            OfficeDone::SecondContact { named: false } => {
                "Stored: there is no second contact any more.".to_owned()
            }
            OfficeDone::StandsBy(true) => {
                "Stored: you are told of danger when nobody else is reached. The coach knows. \
                 ALERTS OFF ends it."
                    .to_owned()
            }
            OfficeDone::StandsBy(false) => "Stored: no alerts for you any more.".to_owned(),
            OfficeDone::StoodDown { who } => format!("Stored: no alerts for {who} any more."),
            OfficeDone::Staff(_) => {
                "To take one out text REMOVE and the name or the number.".to_owned()
            }
            OfficeDone::CodeRenewed { code } => {
                format!("The squad is joined by {code} from now on. The old code opens nothing.")
            }
            OfficeDone::CodeSent { mine: true, .. } => {
                "Not done yet: a code comes to your own phone by itself. Text it back: CONFIRM and \
                 the code."
                    .to_owned()
            }
            OfficeDone::CodeSent { mine: false, .. } => {
                "Not done yet: they get a code by text. With it, text CONFIRM and the code."
                    .to_owned()
            }
            OfficeDone::OutOfOffice { who } => format!("{who} holds no office here any more."),
        }
    }

    fn office_refusal(&self, why: &OfficeRefusal) -> String {
        match why {
            OfficeRefusal::NoSuchOffice => {
                "Nobody with an office texts from there. STAFF lists them.".to_owned()
            }
            OfficeRefusal::WrongCode => {
                "That is no code we wait for. Ask again for what it was to confirm.".to_owned()
            }
            OfficeRefusal::AskedOften => {
                "That address has been asked often enough lately: we send it nothing more."
                    .to_owned()
            }
            OfficeRefusal::Dialled => {
                "No text comes from a number that begins with 0. Write it with a plus and the \
                 country's code, as in +15550123."
                    .to_owned()
            }
            OfficeRefusal::Minor => "Nobody under 18 is called in danger.".to_owned(),
            OfficeRefusal::CommandWord { name, instead } => {
                format!("{name} is a word we take for a command. Another name, say {instead}?")
            }
            OfficeRefusal::LooksAlike { name, instead } => format!(
                "{name} looks just like the name of somebody here. Another name, say {instead}?"
            ),
            OfficeRefusal::StopStays => {
                "A stop can't be taken back, nor what came before it. FIX puts a result right."
                    .to_owned()
            }
            OfficeRefusal::NotToday { who, from } => format!(
                "{who} had a knock to the head: no release on the same day, whoever says so. From \
                 {from} on, with a clinician's word."
            ),
            OfficeRefusal::NeedsClearance { who } => format!(
                "{who} stays stopped. Still to come: {who}'s own text that a clinician cleared it \
                 (CLEARED BY THE DOCTOR). You can lift it on your word: RELEASE {who} ON MY WORD; \
                 that is kept."
            ),
            OfficeRefusal::DangerUnanswered { who } => format!(
                "{who} was asked whether anything is wrong and has not answered. No plan before \
                 that: please ask {who}."
            ),
        }
    }

    fn office_letter(&self, letter: &OfficeLetter) -> String {
        match letter {
            OfficeLetter::SecondContact { squad } => format!(
                "{squad}, a swim squad: its coach names you as the one to be called in danger when \
                 no coach is reached. STOP if you don't want that."
            ),
            OfficeLetter::StandsBy { who } => format!(
                "{who} asked to be told of danger when no coach is reached. ALERTS OFF and the name \
                 ends it."
            ),
            OfficeLetter::Joined { who, squad, stopped } => {
                let stays = if *stopped { " Stopped here before, and still is." } else { "" };
                format!("{who} has joined {squad}.{stays} If you don't know them: REMOVE {who}.")
            }
            OfficeLetter::Code { what, code, squad } => {
                let what = match what {
                    Grave::NewCoach { who } => format!("{who} becomes a coach too"),
                    Grave::HandOver { to } => format!("{to} becomes the coach in your place"),
                    Grave::CoachGoes { who } => format!("{who} is coach no more"),
                    Grave::OfficerGoes => "you are welfare officer no more".to_owned(),
                };
                let how = match letter.is_for_the_coach() {
                    true => "If you asked for it, text",
                    false => "If that is right, give the coach the code; it is confirmed by",
                };
                format!("{squad}: {what}? {how} CONFIRM {code}. If not, do nothing.")
            }
            OfficeLetter::Confirmed { what, squad } => match what {
                Grave::NewCoach { who } => {
                    format!("{squad}: a coach has asked {who} in as another coach.")
                }
                Grave::HandOver { to } => {
                    format!("{squad}: a coach has handed over to {to}.")
                }
                Grave::CoachGoes { who } => format!("{squad}: {who} is coach no more."),
                Grave::OfficerGoes => format!("{squad}: a welfare officer has been taken out."),
            },
            OfficeLetter::ResultWhileOut { who, stopped: true } => {
                format!("{who} has texted a result and is stopped. Please talk to {who}.")
            }
            OfficeLetter::ResultWhileOut { who, stopped: false } => {
                format!(
                    "{who} has texted a result and is ill by their own word. Please talk to {who}."
                )
            }
        }
    }

    fn nobody_reached(&self, on_deck: bool) -> &'static str {
        if on_deck {
            return "We have reached nobody else for you. Call out to whoever is near; in danger \
                    call the emergency number now.";
        }
        "We have not reached your coach: call them. In danger call the emergency number now."
    }

    fn worried_hint(&self) -> &'static str {
        "Does something worry you? Text WORRIED: the welfare officer is told that you wrote, nobody \
         else is."
    }

    fn second_contact(&self) -> &'static str {
        "second contact"
    }
}
