//! Who comes, who goes, who runs the squad.

use super::small::{first_upper, shown_pace};
use crate::history::{Invitation, Role};
use crate::language::Language;
use crate::message::Name;
use crate::reply::{Belonging, Voice};

impl Voice {
    /// Someone is in.
    pub(super) fn welcome(self, name: &Name, squad: &str) -> String {
        say!(
            self,
            "Welcome to {squad}, {name}!",
            "¡Hola, {name}! Ya estas en {squad}.",
            [squad, name]
        )
    }

    /// What to do and text first, and what comes before all texting.
    pub(super) fn first_steps(self) -> [&'static str; 2] {
        [
            self.pick(
                "Swim 200 or 400 at an even pace when you are ready, then text: 200 test 3:12",
                "Cuando quieras, nada 200 o 400 a ritmo uniforme y escribe: 200 test 3:12",
            ),
            self.pick(
                "HELP shows what else to text. Pool rules and lifeguards come first.",
                "AYUDA dice qué mas puedes escribir. Primero van las normas de la piscina y el \
                 socorrista.",
            ),
        ]
    }

    /// What was done.
    pub(super) fn belongs(self, done: &Belonging) -> String {
        match done {
            Belonging::Invited { name, role } => {
                let who = name.as_ref().map_or(
                    self.pick("whoever has that number", "quien tiene ese numero"),
                    Name::as_str,
                );
                say!(
                    self,
                    "Asked in: {who}, as {role}. In as soon as YES comes back.",
                    "Invitacion enviada: {who}, {role}. Entra cuando responda SI.",
                    [who, role = self.role(*role)]
                )
            }
            Belonging::Declined => {
                say!(self, "All right: nothing is kept of it.", "De acuerdo: no se guarda nada.")
            }
            Belonging::InAs { role, squad } => say!(
                self,
                "Welcome to {squad}, as {role}. HELP shows what to text.",
                "Te damos la bienvenida a {squad}, {role}. AYUDA enseña que escribir.",
                [squad, role = self.role(*role)]
            ),
            Belonging::NeedsName { code } => say!(
                self,
                "One thing more, your name here. Text JOIN {code} and the name.",
                "Falta tu nombre aqui. Escribe JOIN {code} y el nombre.",
                [code]
            ),
            Belonging::HandedOver { to } => say!(
                self,
                "{to} is the coach now, you are an assistant. LEAVE if you are going.",
                "{to} lleva ahora el equipo y tu ayudas. DEJO EL EQUIPO si te vas.",
                [to]
            ),
            Belonging::Left { squad } => say!(
                self,
                "You have left {squad}: no more texts. Your results stay with the squad.",
                "Has dejado {squad}: no mas mensajes. Tus resultados quedan en el equipo.",
                [squad]
            ),
            Belonging::Removed { name } => say!(
                self,
                "{name} is out of the squad; the results stay with it.",
                "{name} ya no esta en el equipo; los resultados quedan.",
                [name]
            ),
            Belonging::GuestAdded { name, guess, code } => {
                let pace = guess.map(|pace| {
                    say!(
                        self,
                        ", a guess: {pace} per 100",
                        ", a ojo {pace} por 100",
                        [pace = shown_pace(pace)]
                    )
                });
                let claim = code.as_ref().map(|code| match self.language {
                    Language::English => {
                        format!(" First text from a phone of {name}'s own: CLAIM {code}, once.")
                    }
                    Language::Spanish => {
                        format!(" Primer mensaje con telefono propio: CLAIM {code}, una vez.")
                    }
                });
                say!(
                    self,
                    "{name} is in as a guest{pace}. Easy swims.{claim}",
                    "{name} entra sin telefono{pace}. Nado suave.{claim}",
                    [name, pace = pace.unwrap_or_default(), claim = claim.unwrap_or_default()]
                )
            }
            Belonging::Squads { names, here } if names.len() < 2 => {
                say!(self, "You are in {here}.", "Estas en {here}.", [here])
            }
            Belonging::Squads { names, here } => say!(
                self,
                "You are in {names}. Texts go to {here}; for another begin with its name.",
                "Estas en {names}. Tus mensajes van a {here}; para otro, empieza por su nombre.",
                [names = names.join(", "), here]
            ),
            Belonging::Taken { squad } => say!(
                self,
                "Your texts go to {squad} now.",
                "Tus mensajes van ahora a {squad}.",
                [squad]
            ),
        }
    }

    /// The one text to someone who is asked in: by whom, as what, how to answer.
    pub fn invitation(
        self,
        squad: &str,
        code: &str,
        by: Option<&Name>,
        invitation: &Invitation,
    ) -> String {
        let by = by.map_or(say!(self, "The coach", "Quien entrena"), |by| first_upper(by.as_str()));
        match (invitation.role, &invitation.name) {
            (Role::Swimmer, None) => say!(
                self,
                "{by} asks you into the swim squad {squad}. To come in text JOIN {code} heron \
                 (your own name for heron); if not, NO. STOP for no texts.",
                "{by} te invita al equipo de natacion {squad}. Para entrar escribe JOIN {code} \
                 heron (tu nombre por heron); si no, NO. STOP para no recibir mensajes.",
                [by, squad, code]
            ),
            (Role::Swimmer, Some(name)) => say!(
                self,
                "{by} asks you into the swim squad {squad} as {name}. Answer YES or NO, or JOIN \
                 {code} and a name you like better. STOP for no texts.",
                "{by} te invita al equipo de natacion {squad} como {name}. Responde YES o NO, o \
                 JOIN {code} y otro nombre. STOP para no recibir mensajes.",
                [by, squad, name, code]
            ),
            (role, _) => say!(
                self,
                "{by} asks you into the swim squad {squad}, as {role}. Answer YES or NO. STOP for \
                 no texts.",
                "{by} te invita al equipo de natacion {squad}, {role}. Responde YES o NO. STOP \
                 para no recibir mensajes.",
                [by, squad, role = self.role(role)]
            ),
        }
    }

    /// To the coach: someone asked in has come.
    pub fn has_come(self, name: Option<&Name>, role: Role) -> String {
        let who = name.map_or(say!(self, "Someone you asked", "La persona invitada"), |name| {
            first_upper(name.as_str())
        });
        say!(
            self,
            "{who} is in, as {role}.",
            "{who} ya esta, {role}.",
            [who, role = self.role(role)]
        )
    }

    /// To the new coach.
    pub fn now_coach(self, squad: &str) -> String {
        say!(
            self,
            "You are the coach of {squad} now. HELP shows what to text.",
            "Ahora llevas {squad}. AYUDA enseña que escribir.",
            [squad]
        )
    }

    /// A role, as it stands in a sentence.
    fn role(self, role: Role) -> &'static str {
        let spanish = match role {
            Role::Coach => "para entrenar",
            Role::Assistant => "como ayudante",
            Role::Swimmer => "para nadar",
            Role::Guardian => "como responsable de un menor",
            Role::WelfareOfficer => "como responsable de bienestar",
        };
        self.pick(role.in_english(), spanish)
    }

    /// Behind a guest's name: that they are one, and what their pace may be.
    pub(super) fn guest(self, pace: Option<&str>) -> String {
        match pace {
            None => say!(self, "(guest)", "(sin telefono)"),
            Some(pace) => say!(
                self,
                "(guest, at a guess {pace} per 100)",
                "(sin telefono, a ojo {pace} por 100)",
                [pace]
            ),
        }
    }
}
