//! Why something was not done.

use super::small::joined;
use crate::coaching::RefusalReason;
use crate::reply::{RefusedReply, RefusedWhy, Voice};

// What is told, and in which order.
impl Voice {
    /// Something not done.
    pub fn refused(self, reply: &RefusedReply) -> Vec<String> {
        vec![self.refusal(&reply.why)]
    }
}

// In which words.
impl Voice {
    /// Why something was not done.
    fn refusal(self, why: &RefusedWhy) -> String {
        match why {
            RefusedWhy::Coaching(reason) => self.coaching(reason),
            RefusedWhy::CoachOnly => say!(
                self,
                "That one is for the coach. HELP shows what you can text.",
                "Eso le toca al entrenador. AYUDA dice qué puedes escribir."
            ),
            RefusedWhy::OthersSwims => say!(
                self,
                "What others swim is for the coach to tell. Of you I know BEST, TREND, LOG, \
                 TARGETS.",
                "Lo que nadan otros le toca al entrenador. De ti sé MARCAS, PROGRESO, REGISTRO, \
                 OBJETIVOS."
            ),
            RefusedWhy::HealthOtherwise => say!(
                self,
                "Not passed on: of health tell your coach yourself. To me, text SHOULDER HURTS 4 \
                 or ILL.",
                "No lo he pasado: de tu salud habla con tu coach. A mi: DUELE HOMBRO 4 o GRIPE."
            ),
            RefusedWhy::NobodyReads => say!(
                self,
                "I can pass nothing on: your coach takes no texts. Please ask your coach yourself.",
                "No puedo pasarlo: tu coach no recibe mensajes. Preguntale en persona."
            ),
            RefusedWhy::NotAMember => say!(
                self,
                "Lapwing, a swim squad's coaching assistant. You are in no squad here: ask the \
                 coach for the code and text, say, JOIN CODE heron. STOP for no texts.",
                "Lapwing, ayudante de un equipo de natacion. Aqui no estas en ningun equipo: pide \
                 el codigo al entrenador y escribe, por ejemplo, UNIR CODIGO heron. STOP para no \
                 recibir mensajes."
            ),
            RefusedWhy::NotASwimmer => say!(
                self,
                "You don't swim in this squad. Name a swimmer (heron 200 test 3:12) or JOIN with \
                 the code.",
                "No nadas en este equipo. Di de quién es (heron 200 test 3:12) o escribe UNIR con \
                 el codigo."
            ),
            RefusedWhy::BadCode => say!(
                self,
                "No squad opens with that code, or no longer. Ask your coach.",
                "Ese codigo no abre ningun equipo, o ya no vale. Pregunta a tu entrenador."
            ),
            RefusedWhy::NameTaken => say!(
                self,
                "Someone here has that name; join with another.",
                "Ese nombre ya se usa aqui; elige otro."
            ),
            RefusedWhy::AlreadyIn => say!(
                self,
                "That number is in the squad already.",
                "Ese numero ya esta en el equipo."
            ),
            RefusedWhy::SquadFull => say!(
                self,
                "This squad is full. Ask your coach.",
                "Este equipo esta completo. Pregunta a tu entrenador."
            ),
            RefusedWhy::ManyAskedIn => say!(
                self,
                "Many are asked in and have not answered: wait until some have.",
                "Hay muchas invitaciones sin respuesta: espera a que contesten algunas."
            ),
            RefusedWhy::LastCoach => say!(
                self,
                "A squad needs a coach: HAND OVER to an assistant first, then LEAVE.",
                "Un equipo necesita quien lo lleve: primero CEDE A quien ayuda, luego DEJO EL \
                 EQUIPO."
            ),
            RefusedWhy::NotOnDeck { name } => say!(
                self,
                "{name} is no assistant or coach here; INVITE one with the number first.",
                "{name} no lleva ni ayuda aqui; primero INVITA con el numero.",
                [name]
            ),
            RefusedWhy::Care(why) => self.care_refusal(why),
            RefusedWhy::Office(why) => self.office_refusal(why),
            RefusedWhy::Future { on } => say!(
                self,
                "{day} has not come yet; nothing stored. For today just leave the day out.",
                "Aun no es {day}; sin guardar. Si fue hoy, no pongas dia.",
                [day = self.day(*on)]
            ),
            RefusedWhy::NoNight { on } => say!(
                self,
                "No squad night on {day}. To set one: slot tue 2000-2100 4 lanes",
                "No hay turno el {day}. Para poner uno: turno martes 2000-2100 4 calles",
                [day = self.day(*on)]
            ),
            RefusedWhy::NightShut { on, next } => {
                let next = next
                    .as_ref()
                    .map(|night| format!(" {}", self.next_night(&self.night_line(night))));
                say!(
                    self,
                    "The pool is shut on {day}.{next}",
                    "La piscina esta cerrada el {day}.{next}",
                    [day = self.day(*on), next = next.unwrap_or_default()]
                )
            }
            RefusedWhy::Unlikely { distance, time } => say!(
                self,
                "{distance} in {time} does not look right; nothing changed. Text it like this: \
                 fix 3:14",
                "{distance} en {time} no cuadra; sin cambios. Escribe asi: corrige 3:14",
                [distance, time = time.short()]
            ),
            RefusedWhy::NoSet => say!(
                self,
                "Nothing is set for tonight. Text the set (set 4x50 easy, 8x50 on 1:15, 100 easy) \
                 or PLAN TONIGHT.",
                "No hay serie para hoy. Escribe la serie (serie 4x50 suave, 8x50 cada 1:15, 100 \
                 suave) o PLAN HOY."
            ),
            RefusedWhy::NoBoard => say!(
                self,
                "The board needs the server: it is not running.",
                "La pizarra necesita el servidor, y no esta en marcha."
            ),
            RefusedWhy::NoSetYet => say!(
                self,
                "No set for tonight yet. NEXT gives you a session of your own.",
                "Todavia no hay serie para hoy. SIGUIENTE te da un entreno tuyo."
            ),
            RefusedWhy::NoLane { lane } => {
                say!(self, "There is no lane {lane} tonight.", "Hoy no hay calle {lane}.", [lane])
            }
            RefusedWhy::LaneOrder { lane, names } => say!(
                self,
                "Lane {lane} tonight: {names}. Text one result for each in that order, x for who \
                 did not swim. Nothing stored.",
                "Calle {lane} hoy: {names}. Escribe un resultado por cada nadador en ese orden, x \
                 si no nado. Nada guardado.",
                [lane, names = joined(names)]
            ),
            RefusedWhy::NamesOfMinors => say!(
                self,
                "Some of this squad are under 18: their names stay out of the chat.",
                "Hay menores en este grupo: sus nombres no salen en el chat."
            ),
            RefusedWhy::NoMainSet => say!(
                self,
                "Tonight's set has no main set to change.",
                "La serie de hoy no tiene parte principal."
            ),
            RefusedWhy::NothingOfPart { part } => {
                let part = self.part(*part).to_lowercase();
                say!(
                    self,
                    "Tonight's set has no {part} still to come.",
                    "En la serie de hoy no queda {part}.",
                    [part]
                )
            }
            RefusedWhy::NoRounds => say!(
                self,
                "Tonight's set has no rounds. MAKE IT 6 says how many repeats.",
                "La serie de hoy no tiene vueltas. HAZ 6 dice cuantas repeticiones."
            ),
            RefusedWhy::NotLaned { name } => say!(
                self,
                "{name} is in no lane tonight. Nothing changed.",
                "{name} no esta hoy en ninguna calle. Sin cambios.",
                [name]
            ),
            RefusedWhy::LaneCount => say!(
                self,
                "How many lanes? Text, say, LANES 4.",
                "¿Cuantas calles hay? Escribe, por ejemplo, CALLES 4."
            ),
            RefusedWhy::NobodyThere => say!(
                self,
                "Nobody to put into lanes. Say who is here: HERE heron teal",
                "Nadie que repartir. Di quién ha venido: PRESENTES heron teal"
            ),
            RefusedWhy::NobodyToTest => say!(
                self,
                "Nobody comes that night, so no heats. Say who is here: HERE heron teal",
                "Esa noche no viene nadie, asi que no hay series. Di quién ha venido: PRESENTES \
                 heron teal"
            ),
            RefusedWhy::Nothing => say!(
                self,
                "There is nothing of yours to do that with.",
                "No hay nada tuyo con lo que hacer eso."
            ),
            RefusedWhy::NoTest => say!(
                self,
                "No test to work from yet. Swim one and text: 200 test 3:12",
                "Aun no hay test del que partir. Haz uno y escribe: 200 test 3:12"
            ),
            RefusedWhy::NoQuestion => say!(
                self,
                "No question is open. HELP shows what to text.",
                "No hay ninguna pregunta abierta. AYUDA dice qué puedes escribir."
            ),
            RefusedWhy::Distance => say!(
                self,
                "That distance can't be swum in your pool.",
                "Esa distancia no sale en tu piscina."
            ),
            RefusedWhy::SetNames { name } => say!(
                self,
                "That reads as a set with {name} in it; nothing changed. A result is texted like \
                 this: {name} 400 test 6:50",
                "Eso parece una serie con {name} dentro; no cambia nada. Un resultado va asi: \
                 {name} 400 test 6:50",
                [name]
            ),
            RefusedWhy::CoachLimit => say!(
                self,
                "That is your coach's word: it is lifted from the deck.",
                "Lo ha dicho tu entrenador: lo levanta el."
            ),
            RefusedWhy::SquadLimit { limits } => self.holds_for_all(limits),
            RefusedWhy::LimitsFree => say!(
                self,
                "Free is what barred strokes are swum as, so it stays in. What is left out? Say, \
                 NO FLY, NO FINS or NO DIVES.",
                "Lo que se deja fuera se nada a crol, asi que el crol se queda. Qué se deja \
                 fuera? Por ejemplo, SIN MARIPOSA o SIN ALETAS."
            ),
            RefusedWhy::Weekly(why) => self.weekly_refusal(*why).to_owned(),
            RefusedWhy::Approval(why) => self.approval_refusal(why),
            RefusedWhy::NotYet => say!(
                self,
                "I read that but can't do it yet; nothing stored.",
                "Lo he leido, pero aun no sé hacerlo; sin guardar."
            ),
            RefusedWhy::Private => say!(
                self,
                "That is for a private text, not for this room.",
                "Eso es para un mensaje privado, no para este grupo."
            ),
        }
    }

    fn coaching(self, reason: &RefusalReason) -> String {
        match reason {
            RefusalReason::Stopped => say!(
                self,
                "No session: you are stopped until a clinician has cleared it and your coach \
                 releases you.",
                "Sin entreno: estas en pausa hasta que lo autorice un médico y tu entrenador te \
                 dé paso."
            ),
            RefusalReason::TooShort { least_minutes } => say!(
                self,
                "Too short for a warm-up, something and a swim-down: {least_minutes} min at least.",
                "Muy corto para calentar, nadar algo y volver a la calma: al menos \
                 {least_minutes} min.",
                [least_minutes]
            ),
            RefusalReason::NotPlanned => say!(
                self,
                "Nothing is planned on those days; text PLAN for a week first.",
                "No hay nada planeado esos dias; escribe PLAN y tendras una semana."
            ),
            RefusalReason::NotHarder => say!(
                self,
                "Not harder now: the rules hold it where it is.",
                "Mas fuerte ahora no: las reglas lo dejan como esta."
            ),
        }
    }
}
