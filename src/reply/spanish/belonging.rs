//! Who comes, who goes, who runs the squad.

use super::Spanish;
use crate::message::Name;
use crate::profile::{Invitation, Role};
use crate::reply::Belonging;
use crate::reply::phrases::{Belongings, first_upper, shown_pace};

impl Belongings for Spanish {
    fn belongs(&self, done: &Belonging) -> String {
        match done {
            Belonging::Invited { name, role } => {
                let who = name.as_ref().map_or("quien tiene ese numero", Name::as_str);
                format!(
                    "Invitacion enviada: {who}, {}. Entra cuando responda SI.",
                    self.role(*role)
                )
            }
            Belonging::Declined => "De acuerdo: no se guarda nada.".to_owned(),
            Belonging::InAs { role, squad } => {
                format!(
                    "Te damos la bienvenida a {squad}, {}. AYUDA ense\u{f1}a que escribir.",
                    self.role(*role)
                )
            }
            Belonging::NeedsName { code } => {
                format!("Falta tu nombre aqui. Escribe JOIN {code} y el nombre.")
            }
            Belonging::HandedOver { to } => {
                format!("{to} lleva ahora el equipo y tu ayudas. DEJO EL EQUIPO si te vas.")
            }
            Belonging::Left { squad } => {
                format!("Has dejado {squad}: no mas mensajes. Tus resultados quedan en el equipo.")
            }
            Belonging::Removed { name } => {
                format!("{name} ya no esta en el equipo; los resultados quedan.")
            }
            Belonging::GuestAdded { name, guess, code } => {
                let pace = guess.map(|pace| format!(", a ojo {} por 100", shown_pace(pace)));
                let claim = code.as_ref().map(|code| {
                    format!(" Primer mensaje con telefono propio: CLAIM {code}, una vez.")
                });
                format!(
                    "{name} entra sin telefono{}. Nado suave.{}",
                    pace.unwrap_or_default(),
                    claim.unwrap_or_default()
                )
            }
            Belonging::Squads { names, here } if names.len() < 2 => format!("Estas en {here}."),
            Belonging::Squads { names, here } => format!(
                "Estas en {}. Tus mensajes van a {here}; para otro, empieza por su nombre.",
                names.join(", ")
            ),
            Belonging::Taken { squad } => format!("Tus mensajes van ahora a {squad}."),
        }
    }

    fn invitation(
        &self,
        squad: &str,
        code: &str,
        by: Option<&Name>,
        invitation: &Invitation,
    ) -> String {
        let by = by.map_or("Quien entrena".to_owned(), |by| first_upper(by.as_str()));
        let role = self.role(invitation.role);
        match (invitation.role, &invitation.name) {
            (Role::Swimmer, None) => format!(
                "{by} te invita al equipo de natacion {squad}. Para entrar escribe JOIN {code} heron \
                 (tu nombre por heron); si no, NO. STOP para no recibir mensajes."
            ),
            (Role::Swimmer, Some(name)) => format!(
                "{by} te invita al equipo de natacion {squad} como {name}. Responde YES o NO, o JOIN \
                 {code} y otro nombre. STOP para no recibir mensajes."
            ),
            _ => format!(
                "{by} te invita al equipo de natacion {squad}, {role}. Responde YES o NO. STOP para \
                 no recibir mensajes."
            ),
        }
    }

    fn has_come(&self, name: Option<&Name>, role: Role) -> String {
        let who = name.map_or("La persona invitada".to_owned(), |name| first_upper(name.as_str()));
        format!("{who} ya esta, {}.", self.role(role))
    }

    fn now_coach(&self, squad: &str) -> String {
        format!("Ahora llevas {squad}. AYUDA ense\u{f1}a que escribir.")
    }

    fn role(&self, role: Role) -> &'static str {
        match role {
            Role::Coach => "para entrenar",
            Role::Assistant => "como ayudante",
            Role::Swimmer => "para nadar",
            Role::Guardian => "como responsable de un menor",
            Role::WelfareOfficer => "como responsable de bienestar",
        }
    }

    fn guest(&self, pace: Option<&str>) -> String {
        match pace {
            None => "(sin telefono)".to_owned(),
            Some(pace) => format!("(sin telefono, a ojo {pace} por 100)"),
        }
    }
}
