//! What is answered to private words: harm, low spirits, pregnancy, weight,
//! medicines. No reply names the matter.

use crate::reply::{Voice, carried};

impl Voice {
    /// Words of harm or fear.
    /// The first line is for everybody: believed, and what to do if there is danger,
    /// `call` as in first aid; of someone beside the sender, what to do for them.
    // NHS, urgent help: call for an overdose or a grave wound, stay with someone.
    // Mental Health First Aid guidelines on suicide: stay, listen, put means away.
    pub(super) fn welfare(self, of_another: bool, call: &str) -> String {
        match of_another {
            false => say!(
                self,
                "Thank you for telling us. You are believed and it is not your fault. Emergency, \
                 hurt or took something: {call}. Stay with someone you trust.",
                "Gracias por contarlo. Te creemos y no es culpa tuya. En una emergencia, heridas \
                 o has tomado algo: {call} ya. Quédate con alguien de confianza.",
                [call]
            ),
            true => say!(
                self,
                "Thank you for telling us. Stay with them and listen; put pills, blades away. \
                 Emergency, hurt or took something: {call}. Tell an adult.",
                "Gracias por contarlo. Quédate a su lado y escucha; aparta pastillas y cuchillas. \
                 Emergencia, herida o ha tomado algo: {call}. Avisa a un adulto.",
                [call]
            ),
        }
    }

    /// After it: who is told, and whom to talk to.
    pub(super) fn after_welfare(self, officer: bool, helpline: Option<&str>) -> String {
        let told = match officer {
            true => self.pick(
                "We can't promise to keep a secret: the welfare officer is told that you wrote, \
                 your coach is not.",
                "No podemos guardar secretos: la persona de bienestar sabe que has escrito; tu \
                 entrenador no.",
            ),
            false => self.pick(
                "We can't promise to keep a secret; this is not kept, nor shown to your coach.",
                "No podemos prometer guardar un secreto; no se guarda ni lo ve tu entrenador.",
            ),
        };
        match helpline {
            Some(helpline) => say!(
                self,
                "Today you can also call {helpline}. {told}",
                "Habla hoy con alguien o llama a {helpline}. {told}",
                [helpline = carried(helpline), told]
            ),
            None => say!(
                self,
                "{told} Talk to someone, or a helpline, today.",
                "{told} Habla hoy con alguien o un telefono de ayuda.",
                [told]
            ),
        }
    }

    /// Something of theirs that makes them swim easy; the reply does not name it.
    pub(super) fn easing(self) -> [&'static str; 2] {
        [
            self.pick(
                "Thank you for telling us. Please ask your midwife, doctor or another clinician \
                 how to swim now; until then keep it easy and comfortable.",
                "Gracias por contarlo. Pregunta a tu matrona, a un médico o a otro profesional \
                 como nadar ahora; hasta entonces, suave y con comodidad.",
            ),
            self.pick(
                "Your sessions stay easy. Your words are not stored and not shown to your coach; \
                 tell your coach yourself if you like.",
                "Tus entrenos siguen suaves. Tus palabras no se guardan ni las ve tu entrenador; \
                 cuéntaselo si quieres.",
            ),
        ]
    }

    /// Weight, food, the body; the reply does not name it.
    pub(super) fn gentle(self) -> [&'static str; 2] {
        [
            self.pick(
                "Thank you for telling us. That is one for a doctor or another clinician, or \
                 someone you trust; please talk to one of them soon.",
                "Gracias por contarlo. Eso es para un médico u otro profesional, o alguien de \
                 confianza; habla pronto con uno de ellos.",
            ),
            self.pick(
                "Your words are not stored and not shown to your coach. We set swims and give no \
                 advice on weight or food.",
                "Tus palabras no se guardan ni las ve tu entrenador. Aqui se ponen entrenos, no \
                 consejos de peso ni de comida.",
            ),
        ]
    }

    /// Fear of the water (common practice of swimming teachers, no source).
    pub(super) fn afraid(self) -> [&'static str; 2] {
        [
            self.pick(
                "Many feel that, and it can be worked on. Stay where you can stand, by the wall; \
                 if it comes, hold on, breathe out, and get out when you like.",
                "Le pasa a muchos y se puede trabajar. Quédate donde haces pie, junto al borde; \
                 si llega, agarrate, suelta el aire y sal cuando quieras.",
            ),
            self.pick(
                "Tell your coach or the lifeguard before you get in. Your words are not stored \
                 and not shown to your coach.",
                "Diselo al entrenador o al socorrista antes de entrar. Tus palabras no se guardan \
                 ni las ve tu entrenador.",
            ),
        ]
    }

    /// A medicine, an operation, a period; the reply does not name it.
    pub(super) fn clinician(self) -> [&'static str; 2] {
        [
            self.pick(
                "Thank you for telling us. Ask whoever treats you, or a pharmacist, how to swim \
                 with it; until then keep it easy, by feel, and sit out what you like.",
                "Gracias por contarlo. Pregunta a tu médico o farmacéutico como nadar con ello; \
                 hasta entonces, suave, segun te sientas, y deja lo que quieras.",
            ),
            self.pick(
                "Your words are not stored and not shown to your coach; tell your coach yourself \
                 if you like.",
                "Tus palabras no se guardan ni las ve tu entrenador; diselo tu si quieres.",
            ),
        ]
    }

    /// Low spirits or a death: a kind word, and whom to talk to.
    pub(super) fn low(self, call: &str, helpline: Option<&str>) -> Vec<String> {
        let helpline =
            helpline.map(|to| say!(self, ", or call {to}", ", o llama a {to}", [to = carried(to)]));
        vec![
            say!(
                self,
                "I'm sorry it is hard just now. You are not alone with it: please talk to someone \
                 you trust or your doctor, today if you can.",
                "Siento que sea un momento dificil. No hace falta llevarlo a solas: habla hoy con \
                 alguien de confianza o con tu médico."
            ),
            say!(
                self,
                "Your words are not stored and not shown to your coach. If you think of harming \
                 yourself: {call}{helpline}.",
                "Tus palabras no se guardan ni las ve tu entrenador. Si piensas en hacerte daño: \
                 {call}{helpline}.",
                [
                    call,
                    helpline = helpline
                        .as_deref()
                        .unwrap_or(self.pick(", or a helpline", " o a un telefono de ayuda"))
                ]
            ),
        ]
    }
}
