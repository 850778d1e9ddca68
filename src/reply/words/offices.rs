//! Offices: who holds one, who is called in danger.

use crate::reply::{Grave, OfficeDone, OfficeLetter, OfficeRefusal, StaffLine, Voice};

// What is told, and in which order.
impl Voice {
    /// What was done about offices.
    pub(super) fn offices(self, done: &OfficeDone) -> Vec<String> {
        let line = |line: &StaffLine| {
            let role = match line.role {
                Some(role) => self.was_in_squad(Some(role)),
                None => self.second_contact(),
            };
            match &line.called {
                Some(called) => format!("{role}: {called}, {}", line.address),
                None => format!("{role}: {}", line.address),
            }
        };
        match done {
            OfficeDone::Staff(all) => {
                all.iter().map(line).chain([self.office_done(done)]).collect()
            }
            done => vec![self.office_done(done)],
        }
    }
}

// In which words.
impl Voice {
    /// Something done that is told in one line.
    fn office_done(self, done: &OfficeDone) -> String {
        match done {
            OfficeDone::SecondContact { named: true } => say!(
                self,
                "Stored: called in danger when no coach or assistant is reached. They are told by \
                 text.",
                "Guardado: se le avisa de un peligro si no llegamos a nadie del equipo. Se lo \
                 decimos por mensaje."
            ),
            OfficeDone::SecondContact { named: false } => say!(
                self,
                "Stored: there is no second contact any more.",
                "Guardado: ya no hay segundo contacto."
            ),
            OfficeDone::StandsBy(true) => say!(
                self,
                "Stored: you are told of danger when nobody else is reached. The coach knows. \
                 ALERTS OFF ends it.",
                "Guardado: te avisamos de un peligro si no llegamos a nadie mas. El entrenador lo \
                 sabe. AVISOS NO lo termina."
            ),
            OfficeDone::StandsBy(false) => say!(
                self,
                "Stored: no alerts for you any more.",
                "Guardado: ya no hay avisos para ti."
            ),
            OfficeDone::StoodDown { who } => say!(
                self,
                "Stored: no alerts for {who} any more.",
                "Guardado: ya no hay avisos para {who}.",
                [who]
            ),
            OfficeDone::Staff(_) => say!(
                self,
                "To take one out text REMOVE and the name or the number.",
                "Para quitar a alguien escribe REMOVE y el nombre o el numero."
            ),
            OfficeDone::CodeRenewed { code } => say!(
                self,
                "The squad is joined by {code} from now on. The old code opens nothing.",
                "Al equipo se entra ahora con {code}. El codigo anterior ya no abre.",
                [code]
            ),
            OfficeDone::CodeSent { mine: true, .. } => say!(
                self,
                "Not done yet: a code comes to your own phone by itself. Text it back: CONFIRM \
                 and the code.",
                "Aun no esta hecho: te llega un codigo a tu telefono. Responde CONFIRMAR y el \
                 codigo."
            ),
            OfficeDone::CodeSent { mine: false, .. } => say!(
                self,
                "Not done yet: they get a code by text. With it, text CONFIRM and the code.",
                "Aun no esta hecho: le llega un codigo. Con el, escribe CONFIRMAR y el codigo."
            ),
            OfficeDone::OutOfOffice { who } => say!(
                self,
                "{who} holds no office here any more.",
                "{who} ya no tiene ningun cargo aqui.",
                [who]
            ),
        }
    }

    /// Why something was not done.
    pub(super) fn office_refusal(self, why: &OfficeRefusal) -> String {
        match why {
            OfficeRefusal::NoSuchOffice => say!(
                self,
                "Nobody with an office texts from there. STAFF lists them.",
                "Nadie con un cargo escribe desde ahi. CARGOS los muestra."
            ),
            OfficeRefusal::WrongCode => say!(
                self,
                "That is no code we wait for. Ask again for what it was to confirm.",
                "No esperamos ese codigo. Pide otra vez lo que habia que confirmar."
            ),
            OfficeRefusal::AskedOften => say!(
                self,
                "That address has been asked often enough lately: we send it nothing more.",
                "A esa direccion ya le hemos preguntado bastante: no le mandamos mas."
            ),
            OfficeRefusal::Dialled => say!(
                self,
                "No text comes from a number that begins with 0. Write it with a plus and the \
                 country's code, as in +15550123.",
                "Ningun mensaje llega de un numero que empieza por 0. Escribelo con el signo mas \
                 y el codigo del pais, como +15550123."
            ),
            OfficeRefusal::Minor => say!(
                self,
                "Nobody under 18 is called in danger.",
                "De un peligro se avisa a mayores de edad."
            ),
            OfficeRefusal::CommandWord { name, instead } => say!(
                self,
                "{name} is a word we take for a command. Another name, say {instead}?",
                "{name} es una palabra que leemos como orden. Otro nombre, digamos {instead}?",
                [name, instead]
            ),
            OfficeRefusal::LooksAlike { name, instead } => say!(
                self,
                "{name} looks just like the name of somebody here. Another name, say {instead}?",
                "{name} se ve igual que el nombre de alguien de aqui. Otro nombre, digamos \
                 {instead}?",
                [name, instead]
            ),
            OfficeRefusal::StopStays => say!(
                self,
                "A stop can't be taken back, nor what came before it. FIX puts a result right.",
                "Una parada no se deshace, ni lo de antes. CORRIGE arregla un resultado."
            ),
            OfficeRefusal::NotToday { who, from } => say!(
                self,
                "{who} had a knock to the head: no release on the same day, whoever says so. From \
                 {from} on, with a clinician's word.",
                "{who} se dio un golpe en la cabeza: no se levanta el mismo dia, lo diga quien lo \
                 diga. Desde el {from}, con la palabra de un medico.",
                [who, from]
            ),
            OfficeRefusal::NeedsClearance { who } => say!(
                self,
                "{who} stays stopped. Still to come: {who}'s own text that a clinician cleared it \
                 (CLEARED BY THE DOCTOR). You can lift it on your word: RELEASE {who} ON MY WORD; \
                 that is kept.",
                "{who} sigue sin nadar. Falta su propio mensaje de que un medico lo permite. \
                 Puedes levantarlo bajo tu palabra: RELEASE {who} ON MY WORD; eso queda guardado.",
                [who]
            ),
            OfficeRefusal::DangerUnanswered { who } => say!(
                self,
                "{who} was asked whether anything is wrong and has not answered. No plan before \
                 that: please ask {who}.",
                "Preguntamos a {who} si pasa algo y no ha respondido. Antes no hay plan: \
                 preguntale tu.",
                [who]
            ),
        }
    }

    /// What others are told.
    pub fn office_letter(self, letter: &OfficeLetter) -> String {
        match letter {
            OfficeLetter::SecondContact { squad } => say!(
                self,
                "{squad}, a swim squad: its coach names you as the one to be called in danger \
                 when no coach is reached. STOP if you don't want that.",
                "{squad}, un equipo de natacion: su entrenador te nombra para avisarte de un \
                 peligro si no llegamos a el. STOP si no quieres.",
                [squad]
            ),
            OfficeLetter::StandsBy { who } => say!(
                self,
                "{who} asked to be told of danger when no coach is reached. ALERTS OFF and the \
                 name ends it.",
                "{who} pide que le avisemos de un peligro si no llegamos a ti. AVISOS NO y el \
                 nombre lo termina.",
                [who]
            ),
            OfficeLetter::Joined { who, squad, stopped } => {
                let stays = if *stopped {
                    self.pick(
                        " Stopped here before, and still is.",
                        " Ya no podia nadar antes, y sigue asi.",
                    )
                } else {
                    ""
                };
                say!(
                    self,
                    "{who} has joined {squad}.{stays} If you don't know them: REMOVE {who}.",
                    "{who} ha entrado en {squad}.{stays} Si no sabes quien es: REMOVE {who}.",
                    [who, squad, stays]
                )
            }
            OfficeLetter::Code { what, code, squad } => {
                let what = match what {
                    Grave::NewCoach { who } => {
                        say!(self, "{who} becomes a coach too", "{who} entrena tambien", [who])
                    }
                    Grave::HandOver { to } => say!(
                        self,
                        "{to} becomes the coach in your place",
                        "{to} entrena en tu lugar",
                        [to]
                    ),
                    Grave::CoachGoes { who } => {
                        say!(self, "{who} is coach no more", "{who} deja de entrenar", [who])
                    }
                    Grave::OfficerGoes => say!(
                        self,
                        "you are welfare officer no more",
                        "dejas de ser responsable de bienestar"
                    ),
                };
                let how = match letter.is_for_the_coach() {
                    true => self.pick("If you asked for it, text", "Si lo has pedido, escribe"),
                    false => self.pick(
                        "If that is right, give the coach the code; it is confirmed by",
                        "Si es asi, da el codigo al entrenador; se confirma con",
                    ),
                };
                say!(
                    self,
                    "{squad}: {what}? {how} CONFIRM {code}. If not, do nothing.",
                    "{squad}: {what}? {how} CONFIRMAR {code}. Si no, no hagas nada.",
                    [squad, what, how, code]
                )
            }
            OfficeLetter::Confirmed { what, squad } => match what {
                Grave::NewCoach { who } => say!(
                    self,
                    "{squad}: a coach has asked {who} in as another coach.",
                    "{squad}: alguien que entrena ha invitado a {who} a entrenar tambien.",
                    [squad, who]
                ),
                Grave::HandOver { to } => say!(
                    self,
                    "{squad}: a coach has handed over to {to}.",
                    "{squad}: el equipo pasa a manos de {to}.",
                    [squad, to]
                ),
                Grave::CoachGoes { who } => say!(
                    self,
                    "{squad}: {who} is coach no more.",
                    "{squad}: {who} deja de entrenar.",
                    [squad, who]
                ),
                Grave::OfficerGoes => say!(
                    self,
                    "{squad}: a welfare officer has been taken out.",
                    "{squad}: ya no esta un responsable de bienestar.",
                    [squad]
                ),
            },
            OfficeLetter::ResultWhileOut { who, stopped: true } => say!(
                self,
                "{who} has texted a result and is stopped. Please talk to {who}.",
                "{who} manda un resultado y no puede nadar. Habla con {who}.",
                [who]
            ),
            OfficeLetter::ResultWhileOut { who, stopped: false } => say!(
                self,
                "{who} has texted a result and is ill by their own word. Please talk to {who}.",
                "{who} manda un resultado y dice que tiene una enfermedad. Habla con {who}.",
                [who]
            ),
        }
    }

    /// To whoever raised an alarm, perhaps on deck: it has reached nobody yet.
    pub fn nobody_reached(self, on_deck: bool) -> &'static str {
        if on_deck {
            return self.pick(
                "We have reached nobody else for you. Call out to whoever is near; in danger call \
                 the emergency number now.",
                "No hemos llegado a nadie mas. Pide ayuda a quien este cerca; si hay peligro, \
                 llama ya a emergencias.",
            );
        }
        self.pick(
            "We have not reached your coach: call them. In danger call the emergency number now.",
            "No hemos llegado a tu entrenador: llamale. Si hay peligro, llama ya a emergencias.",
        )
    }

    /// Beside an answer to a minor's words that were not read.
    pub fn worried_hint(self) -> &'static str {
        self.pick(
            "Does something worry you? Text WORRIED: the welfare officer is told that you wrote, \
             nobody else is.",
            "¿Te preocupa algo? Escribe PREOCUPADO: el responsable de bienestar sabra que has \
             escrito, y nadie mas.",
        )
    }

    /// As what somebody is called who holds no office.
    fn second_contact(self) -> &'static str {
        self.pick("second contact", "segundo contacto")
    }
}
