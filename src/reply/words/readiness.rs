//! Who may swim hard: the questions on joining, and who is released.

use crate::message::Name;
use crate::reply::Voice;

impl Voice {
    /// Plans stay easy until the coach knows their health.
    pub(super) fn readiness(self, questions: bool) -> &'static str {
        if questions {
            self.pick(
                "Plans stay easy until three health questions are answered; results count from \
                 the start.",
                "Todo sera suave hasta responder tres preguntas de salud; los resultados cuentan \
                 desde ya.",
            )
        } else {
            self.pick(
                "Until your coach has cleared you, plans stay easy: tell your coach of any heart, \
                 chest, fainting or breathing trouble, medicine, or a long break.",
                "Hasta que tu entrenador te dé paso, todo sera suave: cuéntale si hay problemas \
                 de corazon, pecho, desmayos o respiracion, medicinas o una pausa larga.",
            )
        }
    }

    /// One of the questions that follow joining, with how to answer it.
    pub(super) fn readiness_question(self, question: u8) -> &'static str {
        match question {
            1 => self.pick(
                "1 of 3: have you been out of regular exercise for three months or more? YES or \
                 NO.",
                "1 de 3: ¿llevas tres meses o mas sin ejercicio regular? SI o NO.",
            ),
            2 => self.pick(
                "2 of 3: any heart, chest, fainting or breathing trouble, or medicine for one? \
                 YES or NO.",
                "2 de 3: ¿problemas de corazon, pecho, desmayos o respiracion, o medicinas para \
                 ello? SI o NO.",
            ),
            _ => self.pick(
                "3 of 3: has anyone told you not to swim hard, or is there a reason not to? YES \
                 or NO.",
                "3 de 3: ¿te han dicho que no nades fuerte, o hay un motivo para no hacerlo? SI o \
                 NO.",
            ),
        }
    }

    /// Someone may swim again: on the coach's word alone, for hard swimming too, or from
    /// whatever else kept them back.
    pub(super) fn released(self, who: &Name, on_word: bool, cleared: bool) -> String {
        match (on_word, cleared) {
            (true, _) => say!(
                self,
                "{who} is released, on your word that a clinician has cleared it; the next \
                 sessions start gently. If nobody has, keep {who} out of the water.",
                "{who} puede volver, bajo tu palabra de que un médico lo ha autorizado; empieza \
                 suave. Si no es asi, que {who} siga fuera del agua.",
                [who]
            ),
            (false, true) => say!(
                self,
                "{who} is released and cleared: sessions may get harder, gently at first.",
                "{who} tiene paso libre: los entrenos pueden subir, poco a poco.",
                [who]
            ),
            (false, false) => say!(
                self,
                "{who} is released; the next sessions start gently.",
                "{who} puede volver; los proximos entrenos empiezan suaves.",
                [who]
            ),
        }
    }

    /// The questions on joining are answered.
    pub(super) fn readiness_answered(self, clear: bool) -> String {
        match clear {
            true => say!(
                self,
                "Thank you, noted: you may swim hard when a session says so. If any of it \
                 changes, tell your coach first.",
                "Gracias, anotado: puedes ir fuerte cuando el entreno lo diga. Si algo cambia, \
                 avisa antes a tu entrenador."
            ),
            false => say!(
                self,
                "Thank you. Plans stay easy until your coach releases you: please talk to your \
                 coach and, if in doubt, a clinician. Results count all the same.",
                "Gracias. Todo sera suave hasta que tu entrenador te dé paso: habla con él o ella \
                 y, en caso de duda, con un médico. Los resultados cuentan igual."
            ),
        }
    }
}
