//! Health that a text tells of beside what the grammar reads: half-read words,
//! a child's illness from her guardian, `shes ill` of one named before.

use super::bench::Desk;
use crate::message::{self, Ailing, Kind, Message, Name, Reading, Statement};

impl Desk<'_> {
    /// The message with the illness of those whom the sender speaks for, where
    /// the grammar left it aside as another's.
    pub fn with_health_of_others(&self, mut message: Message, text: &str) -> Message {
        // `shes out`, from a guardian of one.
        if let Some(ward) = self.ward() {
            for statement in &mut message.statements {
                if statement.who.as_ref().is_some_and(|who| message::is_pronoun(who.as_str())) {
                    statement.who = Some(ward.clone());
                }
            }
        }
        // `dunnock out thu, shoulder 4`, from a coach who does not swim.
        if !self.swims() && self.ward().is_none() {
            let only = message.statements.iter().filter_map(|one| one.who.clone());
            let mut only: Vec<Name> = only.collect();
            only.dedup();
            if let [who] = only.as_slice() {
                let open = message.statements.iter_mut().filter(|one| {
                    one.who.is_none() && matches!(one.kind, Kind::Ill { .. } | Kind::Pain(_))
                });
                open.for_each(|one| one.who = Some(who.clone()));
            }
        }
        for statement in self.ill_others(text) {
            // A guardian of one means that one where nobody is named.
            let theirs = |who: &Option<Name>| {
                *who == statement.who || who.is_none() && statement.who.as_ref() == self.ward()
            };
            let told = |one: &Statement| theirs(&one.who) && matches!(one.kind, Kind::Ill { .. });
            if !message.statements.iter().any(told) {
                message.statements.push(statement);
            }
        }
        message
    }

    /// What a text that the grammar can't read says of health, and that someone
    /// stays away where it says so; `None` where it says nothing of health.
    pub fn half_read_health(&self, text: &str, reading: &Reading) -> Option<Message> {
        let own = message::health(text).map(|kind| Statement { who: self.named_in(text), kind });
        let mut statements: Vec<Statement> = own.into_iter().chain(self.ill_others(text)).collect();
        if statements.is_empty() {
            return None;
        }
        if let Reading::NotUnderstood { understood, .. } = reading {
            let stays = |one: &&Statement| {
                matches!(
                    one.kind,
                    Kind::Attend { coming: false, .. } | Kind::Missed { .. } | Kind::Away { .. }
                )
            };
            statements.extend(understood.iter().filter(stays).cloned());
        }
        Some(Message { statements })
    }

    /// Another's illness that a text tells of, where that other swims here: the
    /// one named, else whose guardian the sender is. Of several all, as it lowers
    /// what they swim and raises nothing.
    fn ill_others(&self, text: &str) -> Vec<Statement> {
        let Some((whose, kind)) = message::health_of_another(text) else { return vec![] };
        let named = self.named_in(text);
        let wards = self.squad.wards(self.asked.from).map(|ward| ward.name.clone());
        let wards: Vec<Name> = wards.filter(|name| self.is_ward(name)).collect();
        let whom = match (whose, named) {
            (Ailing::Pronoun, Some(named)) => vec![named],
            (Ailing::Kin, _) => vec![],
            (Ailing::Child, Some(named)) if wards.contains(&named) => vec![named],
            _ => wards,
        };
        let ill = |who| Statement { who: Some(who), kind: kind.clone() };
        whom.into_iter().map(ill).collect()
    }
}
