//! Words of health in a text that the grammar does not read: half-read words, a child's
//! illness from their guardian, `shes ill` of somebody named before.

use crate::desk::decision::view::View;
use crate::message::{self, Ailing, Kind, Message, Name, Reading, Statement};
use crate::reading::health::illness_of_another;

impl View<'_> {
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
        // Whose it is was read: `robin 4:02, puffin 4:41 but she had a cold`.
        let read = |one: &Statement| one.who.is_some() && matches!(one.kind, Kind::Ill { .. });
        if message.statements.iter().any(read) {
            return message;
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

    /// What was read of health alone, and that someone stays away where the grammar
    /// read so much of the rest: `my daughter is ill so shes out`.
    pub fn with_absence(mut read: Reading, strict: &Reading) -> Reading {
        let Reading::Understood(Message { statements }) = &mut read else { return read };
        let heard = match strict {
            Reading::Understood(Message { statements }) => statements,
            Reading::NotUnderstood { understood, .. } => understood,
            Reading::Unsure { .. } => return read,
        };
        if statements.iter().all(|one| matches!(one.kind, Kind::Ill { .. } | Kind::Pain(_))) {
            let theirs = |one: &&Statement| {
                is_absence(one) && statements.iter().any(|ill| ill.who == one.who)
            };
            let away: Vec<Statement> = heard.iter().filter(theirs).cloned().collect();
            statements.extend(away);
        }
        read
    }

    /// Another's illness and nothing else that can be read.
    pub fn illness_of_others(&self, text: &str) -> Option<Message> {
        let statements = self.ill_others(text);
        (!statements.is_empty()).then_some(Message { statements })
    }

    /// Another's illness that a text tells of, where that other swims here: the
    /// one named, else whose guardian the sender is. Of several all, as it lowers
    /// what they swim and raises nothing.
    fn ill_others(&self, text: &str) -> Vec<Statement> {
        let language = self.language();
        let ill = self.typed(text, |typed| illness_of_another(typed.lexed(), language));
        let Some((whose, what)) = ill else { return vec![] };
        let kind = Kind::Ill { what };
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

/// True where someone stays away.
const fn is_absence(one: &Statement) -> bool {
    matches!(one.kind, Kind::Attend { coming: false, .. } | Kind::Missed { .. } | Kind::Away { .. })
}
