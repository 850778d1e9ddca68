//! Who looks after whom.

use super::Spanish;
use crate::message::Name;
use crate::profile::{CareKind, ReadWhat, Role};
use crate::reply::carried;
use crate::reply::phrases::Safeguards;
use crate::reply::{CareDone, CareLetter, CareRefusal};

impl Safeguards for Spanish {
    fn cared(&self, done: &CareDone) -> String {
        match done {
            CareDone::OfficerNamed { opens: true } => {
                "Guardado: se lo decimos por mensaje. El equipo ya esta abierto.".to_owned()
            }
            CareDone::OfficerNamed { opens: false } => {
                "Guardado: se lo decimos por mensaje.".to_owned()
            }
            CareDone::EmergencyNumberKept { number } => {
                format!("Guardado. A quien esté en peligro se le dice que llame al {number}.")
            }
            CareDone::HelplineKept => {
                "Guardado. Quien escriba de daño o miedo recibe este telefono.".to_owned()
            }
            CareDone::GuardianAsked { who } => {
                format!("Preguntado: cuando responda SI, lee los mensajes de {who}.")
            }
            CareDone::GuardianAgreed { who } => format!(
                "Gracias, guardamos tu permiso para {who}. Recibes copia de todo; peligro y dolor a \
                 cualquier hora, lo demas de 8:00 a 20:00. Mandan las normas de tu lugar."
            ),
            CareDone::GuardianEnded { who } => {
                format!("Guardado: ya no te escribimos sobre {who}, ni a {who}.")
            }
            CareDone::GuardianReleases { who } => {
                format!(
                    "Guardado. Con la palabra de un medico, el entrenador puede dar paso a {who}."
                )
            }
            CareDone::Seen { .. } | CareDone::Records { .. } => String::new(),
        }
    }

    fn care_refusal(&self, why: &CareRefusal) -> String {
        match why {
            CareRefusal::NoOfficer => {
                "Este equipo abre cuando el club nombre a su responsable de bienestar. Pregunta al \
                 entrenador; hasta entonces se responde a peligro y a dolor."
                    .to_owned()
            }
            CareRefusal::AskBirthYear => {
                "Primero, el año en que naciste: escribe NACIDO y el año. Si tienes menos de 18, \
                 pide a tu madre o padre que se una."
                    .to_owned()
            }
            CareRefusal::AskParent => {
                "Pide a tu madre o padre que se una: escribe TUTOR y su numero. Hasta que acepte no \
                 guardamos tus entrenos."
                    .to_owned()
            }
            CareRefusal::ParentTexts => {
                "Pide a tu madre o padre que lo escriba desde su telefono.".to_owned()
            }
            CareRefusal::CoachSetsAge => {
                "Con ese año eres mayor de edad: pide al entrenador que lo escriba.".to_owned()
            }
            CareRefusal::CoachNamesGuardian => {
                "Pide al entrenador que escriba ese numero.".to_owned()
            }
            CareRefusal::NoSecondAdult { who } => format!(
                "Sin enviar: {who} es menor y lo han de leer su tutor y otro adulto. Escribe TUTOR \
                 {who} y el numero, o invita a un ayudante."
            ),
            CareRefusal::StopNeeds { who, clinician, guardian } => {
                let what = match (clinician, guardian) {
                    (true, true) => "la palabra de un medico y la del tutor",
                    (true, false) => "la palabra de un medico",
                    _ => "la palabra del tutor, desde su telefono",
                };
                format!("{who} es menor y sigue en pausa. Aun hace falta: {what}.")
            }
            CareRefusal::OfficerOnly => "Eso es para responsables de bienestar.".to_owned(),
            CareRefusal::OfficerApart => {
                "Responsable de bienestar ha de ser otra persona, no el entrenador.".to_owned()
            }
        }
    }

    fn seen_times(&self, who: &Name, times: usize) -> String {
        match times {
            0 => format!("Nadie mas ha leido aqui sobre la salud de {who}."),
            1 => format!("La salud de {who} la ha leido alguien una vez:"),
            times => format!("La salud de {who} se ha leido {times} veces, la ultima primero:"),
        }
    }

    fn occasion(&self, what: ReadWhat) -> &'static str {
        match what {
            ReadWhat::Alert => "recibio un aviso",
            ReadWhat::Board => "miro la pizarra",
            ReadWhat::Card => "pidio la ficha",
            ReadWhat::Squad => "pidio el equipo",
        }
    }

    fn role(&self, role: Option<Role>) -> &'static str {
        match role {
            Some(Role::Coach) => "entrenador",
            Some(Role::Assistant) => "ayudante",
            Some(Role::Swimmer) => "nadador",
            Some(Role::Guardian) => "tutor",
            Some(Role::WelfareOfficer) => "bienestar",
            None => "alguien que se fue",
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
            "Guardado aparte, {years} años: {accidents} de accidentes, {disclosures} de \
             preocupaciones, {to_minors} mensajes a menores."
        )
    }

    fn kept_apart(&self, who: Option<&Name>, what: &CareKind) -> String {
        let who = who.map_or("alguien", Name::as_str);
        match what {
            CareKind::Accident { words } => format!("{who}: {}", carried(words)),
            CareKind::Disclosure { .. } => format!("{who} escribio de daño o miedo"),
            CareKind::Overruled { by } => {
                format!("parada de {who} levantada bajo la palabra de {}", carried(by))
            }
            CareKind::ToMinor { words } => format!("a {who}: {}", carried(words)),
        }
    }

    fn ask_birth_year(&self) -> &'static str {
        "¿En que año naciste? Escribe NACIDO y el año. Con menos de 18, tu madre o padre se une: \
         escribe TUTOR y su numero."
    }

    fn care_letter(&self, letter: &CareLetter) -> String {
        match letter {
            CareLetter::Disclosure { by, squad } => {
                format!(
                    "Bienestar, {squad}: {by} acaba de escribir de daño o miedo. Nadie mas lo sabe y las \
             palabras no se guardan. Habla hoy con esa persona, segun el protocolo del club."
                )
            }
            CareLetter::NowOfficer { squad } => {
                format!(
                    "Ahora eres responsable de bienestar de {squad}: nadie mas sabe si alguien escribe de \
             daño o miedo. LINEA DE AYUDA y un numero la fija; PARTES dice que se guarda."
                )
            }
            CareLetter::AskGuardian { who, squad } => {
                format!(
                    "{squad}, un equipo de natacion: {who} te nombra madre, padre o tutor. ¿Puede escribir \
             con nosotros y lees tu? Peligro y dolor a cualquier hora, lo demas 8:00-20:00. SI o NO."
                )
            }
            CareLetter::GuardianAgreed { who } => {
                format!("El tutor de {who} ha aceptado y lee sus mensajes.")
            }
            CareLetter::GuardianReleases { who } => {
                format!("El tutor de {who} acepta que termine la pausa.")
            }
            CareLetter::ToGuardian { who, what } => {
                format!("{who}, ahora mismo: {what}")
            }
            CareLetter::CopyOf { who, words } => {
                format!("Copia, {who}: {}", carried(words))
            }
            CareLetter::OfAge { who } => {
                format!(
                    "{who} ya es mayor de edad por su año: desde ahora no se copia nada a un tutor."
                )
            }
        }
    }
}
