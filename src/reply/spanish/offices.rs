//! Offices: who holds one, who is called in danger.

use super::Spanish;
use crate::reply::phrases::Offices;
use crate::reply::{Grave, OfficeDone, OfficeLetter, OfficeRefusal};

impl Offices for Spanish {
    fn office_done(&self, done: &OfficeDone) -> String {
        match done {
            OfficeDone::SecondContact { named: true } => {
                "Guardado: se le avisa de un peligro si no llegamos a nadie del equipo. Se lo decimos \
                 por mensaje."
                    .to_owned()
            }
            OfficeDone::SecondContact { named: false } => {
                "Guardado: ya no hay segundo contacto.".to_owned()
            }
            OfficeDone::StandsBy(true) => {
                "Guardado: te avisamos de un peligro si no llegamos a nadie mas. El entrenador lo \
                 sabe. AVISOS NO lo termina."
                    .to_owned()
            }
            OfficeDone::StandsBy(false) => "Guardado: ya no hay avisos para ti.".to_owned(),
            OfficeDone::StoodDown { who } => format!("Guardado: ya no hay avisos para {who}."),
            OfficeDone::Staff(_) => {
                "Para quitar a alguien escribe REMOVE y el nombre o el numero.".to_owned()
            }
            OfficeDone::CodeRenewed { code } => {
                format!("Al equipo se entra ahora con {code}. El codigo anterior ya no abre.")
            }
            OfficeDone::CodeSent { mine: true, .. } => {
                "Aun no esta hecho: te llega un codigo a tu telefono. Responde CONFIRMAR y el codigo."
                    .to_owned()
            }
            OfficeDone::CodeSent { mine: false, .. } => {
                "Aun no esta hecho: le llega un codigo. Con el, escribe CONFIRMAR y el codigo."
                    .to_owned()
            }
            OfficeDone::OutOfOffice { who } => format!("{who} ya no tiene ningun cargo aqui."),
        }
    }

    fn office_refusal(&self, why: &OfficeRefusal) -> String {
        match why {
            OfficeRefusal::NoSuchOffice => {
                "Nadie con un cargo escribe desde ahi. CARGOS los muestra.".to_owned()
            }
            OfficeRefusal::WrongCode => {
                "No esperamos ese codigo. Pide otra vez lo que habia que confirmar.".to_owned()
            }
            OfficeRefusal::AskedOften => {
                "A esa direccion ya le hemos preguntado bastante: no le mandamos mas.".to_owned()
            }
            OfficeRefusal::Dialled => {
                "Ningun mensaje llega de un numero que empieza por 0. Escribelo con el signo mas y \
                 el codigo del pais, como +15550123."
                    .to_owned()
            }
            OfficeRefusal::Minor => "De un peligro se avisa a mayores de edad.".to_owned(),
            OfficeRefusal::CommandWord { name, instead } => {
                format!(
                    "{name} es una palabra que leemos como orden. Otro nombre, digamos {instead}?"
                )
            }
            OfficeRefusal::LooksAlike { name, instead } => format!(
                "{name} se ve igual que el nombre de alguien de aqui. Otro nombre, digamos {instead}?"
            ),
            OfficeRefusal::StopStays => {
                "Una parada no se deshace, ni lo de antes. CORRIGE arregla un resultado.".to_owned()
            }
            OfficeRefusal::NotToday { who, from } => format!(
                "{who} se dio un golpe en la cabeza: no se levanta el mismo dia, lo diga quien lo \
                 diga. Desde el {from}, con la palabra de un medico."
            ),
            OfficeRefusal::NeedsClearance { who } => format!(
                "{who} sigue sin nadar. Falta su propio mensaje de que un medico lo permite. Puedes \
                 levantarlo bajo tu palabra: RELEASE {who} ON MY WORD; eso queda guardado."
            ),
            OfficeRefusal::DangerUnanswered { who } => format!(
                "Preguntamos a {who} si pasa algo y no ha respondido. Antes no hay plan: preguntale \
                 tu."
            ),
        }
    }

    fn office_letter(&self, letter: &OfficeLetter) -> String {
        match letter {
            OfficeLetter::SecondContact { squad } => format!(
                "{squad}, un equipo de natacion: su entrenador te nombra para avisarte de un peligro \
                 si no llegamos a el. STOP si no quieres."
            ),
            OfficeLetter::StandsBy { who } => format!(
                "{who} pide que le avisemos de un peligro si no llegamos a ti. AVISOS NO y el nombre \
                 lo termina."
            ),
            OfficeLetter::Joined { who, squad, stopped } => {
                let stays = if *stopped { " Ya no podia nadar antes, y sigue asi." } else { "" };
                format!("{who} ha entrado en {squad}.{stays} Si no sabes quien es: REMOVE {who}.")
            }
            OfficeLetter::Code { what, code, squad } => {
                let what = match what {
                    Grave::NewCoach { who } => format!("{who} entrena tambien"),
                    Grave::HandOver { to } => format!("{to} entrena en tu lugar"),
                    Grave::CoachGoes { who } => format!("{who} deja de entrenar"),
                    Grave::OfficerGoes => "dejas de ser responsable de bienestar".to_owned(),
                };
                let how = match letter.is_for_the_coach() {
                    true => "Si lo has pedido, escribe",
                    false => "Si es asi, da el codigo al entrenador; se confirma con",
                };
                format!("{squad}: {what}? {how} CONFIRMAR {code}. Si no, no hagas nada.")
            }
            OfficeLetter::Confirmed { what, squad } => match what {
                Grave::NewCoach { who } => {
                    format!("{squad}: alguien que entrena ha invitado a {who} a entrenar tambien.")
                }
                Grave::HandOver { to } => format!("{squad}: el equipo pasa a manos de {to}."),
                Grave::CoachGoes { who } => format!("{squad}: {who} deja de entrenar."),
                Grave::OfficerGoes => format!("{squad}: ya no esta un responsable de bienestar."),
            },
            OfficeLetter::ResultWhileOut { who, stopped: true } => {
                format!("{who} manda un resultado y no puede nadar. Habla con {who}.")
            }
            OfficeLetter::ResultWhileOut { who, stopped: false } => {
                format!(
                    "{who} manda un resultado y dice que tiene una enfermedad. Habla con {who}."
                )
            }
        }
    }

    fn nobody_reached(&self, on_deck: bool) -> &'static str {
        if on_deck {
            return "No hemos llegado a nadie mas. Pide ayuda a quien este cerca; si hay peligro, \
                    llama ya a emergencias.";
        }
        "No hemos llegado a tu entrenador: llamale. Si hay peligro, llama ya a emergencias."
    }

    fn worried_hint(&self) -> &'static str {
        "¿Te preocupa algo? Escribe PREOCUPADO: el responsable de bienestar sabra que has \
         escrito, y nadie mas."
    }

    fn second_contact(&self) -> &'static str {
        "segundo contacto"
    }
}
