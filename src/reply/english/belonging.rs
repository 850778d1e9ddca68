//! Who comes, who goes, who runs the squad.

use super::English;
use crate::message::Name;
use crate::profile::{Invitation, Role};
use crate::reply::Belonging;
use crate::reply::phrases::{Belongings, first_upper, shown_pace};

impl Belongings for English {
    fn belongs(&self, done: &Belonging) -> String {
        match done {
            Belonging::Invited { name, role } => {
                let who = name.as_ref().map_or("whoever has that number", Name::as_str);
                format!("Asked in: {who}, as {}. In as soon as YES comes back.", self.role(*role))
            }
            Belonging::Declined => "All right: nothing is kept of it.".to_owned(),
            Belonging::InAs { role, squad } => {
                format!("Welcome to {squad}, as {}. HELP shows what to text.", self.role(*role))
            }
            Belonging::NeedsName { code } => {
                format!("One thing more, your name here. Text JOIN {code} and the name.")
            }
            Belonging::HandedOver { to } => {
                format!("{to} is the coach now, you are an assistant. LEAVE if you are going.")
            }
            Belonging::Left { squad } => {
                format!("You have left {squad}: no more texts. Your results stay with the squad.")
            }
            Belonging::Removed { name } => {
                format!("{name} is out of the squad; the results stay with it.")
            }
            Belonging::GuestAdded { name, guess, code } => {
                let pace = guess.map(|pace| format!(", a guess: {} per 100", shown_pace(pace)));
                let claim = code.as_ref().map(|code| {
                    format!(" First text from a phone of {name}'s own: CLAIM {code}, once.")
                });
                format!(
                    "{name} is in as a guest{}. Easy swims.{}",
                    pace.unwrap_or_default(),
                    claim.unwrap_or_default()
                )
            }
            Belonging::Squads { names, here } if names.len() < 2 => format!("You are in {here}."),
            Belonging::Squads { names, here } => format!(
                "You are in {}. Texts go to {here}; for another begin with its name.",
                names.join(", ")
            ),
            Belonging::Taken { squad } => format!("Your texts go to {squad} now."),
        }
    }

    fn invitation(
        &self,
        squad: &str,
        code: &str,
        by: Option<&Name>,
        invitation: &Invitation,
    ) -> String {
        let by = by.map_or("The coach".to_owned(), |by| first_upper(by.as_str()));
        let name = invitation.name.as_ref().map_or("heron", Name::as_str);
        let own = if invitation.name.is_none() { " (your own name for heron)" } else { "" };
        let role = self.role(invitation.role);
        match (invitation.role, &invitation.name) {
            (Role::Swimmer, None) => format!(
                "{by} asks you into the swim squad {squad}. To come in text JOIN {code} {name}{own}; \
                 if not, NO. STOP for no texts."
            ),
            (Role::Swimmer, Some(name)) => format!(
                "{by} asks you into the swim squad {squad} as {name}. Answer YES or NO, or JOIN \
                 {code} and a name you like better. STOP for no texts."
            ),
            _ => format!(
                "{by} asks you into the swim squad {squad}, as {role}. Answer YES or NO. STOP for no \
                 texts."
            ),
        }
    }

    fn has_come(&self, name: Option<&Name>, role: Role) -> String {
        let who = name.map_or("Someone you asked".to_owned(), |name| first_upper(name.as_str()));
        format!("{who} is in, as {}.", self.role(role))
    }

    fn now_coach(&self, squad: &str) -> String {
        format!("You are the coach of {squad} now. HELP shows what to text.")
    }

    fn role(&self, role: Role) -> &'static str {
        role.in_english()
    }

    fn guest(&self, pace: Option<&str>) -> String {
        match pace {
            None => "(guest)".to_owned(),
            Some(pace) => format!("(guest, at a guess {pace} per 100)"),
        }
    }
}
