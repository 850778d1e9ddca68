//! Cautions: the first sentence says what to do, and none says what may be
//! wrong. We advise; we do not diagnose.

use super::unwell::Illness;
use crate::message::Name;
use crate::reply::{CautionKind, CautionReply, Voice};

// What is told, and in which order.
impl Voice {
    /// A caution, on its own.
    pub fn caution(self, reply: &CautionReply) -> Vec<String> {
        let one = match (&reply.kind, &reply.about) {
            (CautionKind::Danger { danger, call }, Some(who)) => {
                let call = self.call(call.as_deref());
                return vec![self.first_aid_for(*danger, &call), self.stopped_of(who)];
            }
            (CautionKind::Danger { danger, call }, None) => {
                let first = self.first_aid(*danger, &self.call(call.as_deref()));
                return vec![first, self.until_cleared().to_owned()];
            }
            (CautionKind::Beside { danger, unnamed, call }, _) => {
                let first = self.first_aid_for(*danger, &self.call(call.as_deref()));
                let then =
                    if *unnamed { self.name_whom() } else { self.until_another_is_cleared() };
                return vec![first, then.to_owned()];
            }
            (CautionKind::Stopped, Some(who)) => return vec![self.stopped_of(who)],
            (CautionKind::Welfare { officer, of_another, call, helpline }, _) => {
                let first = self.welfare(*of_another, &self.call(call.as_deref()));
                return vec![first, self.after_welfare(*officer, helpline.as_deref())];
            }
            (CautionKind::Pain { place, level, again }, None) => {
                return vec![self.pain(place, *level), self.after_pain(*again).to_owned()];
            }
            (CautionKind::Pain { place, level, again }, Some(who)) => {
                return vec![self.pain_of(who, place, *level), self.after_pain_of(who, *again)];
            }
            (CautionKind::Ill { fever, stomach }, about) => {
                let illness = Illness::of(*fever, *stomach);
                return match about {
                    None => owned(&[self.ill(illness), self.after_illness()]),
                    Some(who) => vec![self.ill_of(who, illness), self.after_illness_of(who)],
                };
            }
            (CautionKind::DoneToday, Some(who)) => return vec![self.done_for_today_of(who)],
            (CautionKind::DoneToday, None) => self.done_for_today(),
            (CautionKind::Stopped, None) => self.stopped(),
            (CautionKind::Effort, _) => self.effort(),
            (CautionKind::OpenWater, _) => self.open_water(),
            (CautionKind::BreathHold, _) => self.breath_hold(),
            (CautionKind::Easing, _) => return owned(&self.easing()),
            (CautionKind::Clinician, _) => return owned(&self.clinician()),
            (CautionKind::Gentle, _) => return owned(&self.gentle()),
            (CautionKind::Afraid, _) => return owned(&self.afraid()),
            (CautionKind::Low { call, helpline }, _) => {
                return self.low(&self.call(call.as_deref()), helpline.as_deref());
            }
            (CautionKind::MaySwim { worries }, _) => self.may_swim(*worries),
            (CautionKind::WhereHelpIs { call }, _) => {
                return self.where_help_is(&self.call(call.as_deref()));
            }
            (CautionKind::Dive, _) => self.dive(),
            (CautionKind::Alone, _) => self.alone(),
            (CautionKind::EverybodyOut { here }, _) => return self.everybody_out(*here),
        };
        vec![one.to_owned()]
    }

    /// A caution that belongs to what the sender will swim.
    pub fn caution_with(self, kind: CautionKind) -> Vec<String> {
        self.caution(&CautionReply { kind, about: None })
    }
}

// In which words.
impl Voice {
    /// Out first, then count: how many there should be, where that is known.
    fn everybody_out(self, here: usize) -> Vec<String> {
        let first = match here {
            0 => say!(
                self,
                "Everybody out of the water first, and count heads. Nothing stored.",
                "Primero todos fuera del agua, y contar. Nada guardado."
            ),
            here => say!(
                self,
                "Everybody out of the water first, and count heads: {here} on the register (HERE \
                 lists them). Nothing stored.",
                "Primero todos fuera del agua, y contar: {here} en la lista (LISTA los dice). \
                 Nada guardado.",
                [here]
            ),
        };
        let then = self.pick(
            "When you are back: 12 LEFT fits the set to the time.",
            "A la vuelta: QUEDAN 12 ajusta la serie al tiempo.",
        );
        vec![first, then.to_owned()]
    }

    /// Words that may be of somebody's health or safety (ours; the same places of help as
    /// where a text can't be read).
    fn where_help_is(self, call: &str) -> Vec<String> {
        let first = say!(
            self,
            "Hurt or unwell: out of the water, lifeguard, {call}. About health: ask a doctor or \
             pharmacist first, easy until then.",
            "Dolor o malestar: fuera del agua, socorrista, {call}. De salud: pregunta antes a un \
             médico, suave hasta entonces.",
            [call]
        );
        let then = self.pick(
            "Worried or unsafe: text WORRIED, the welfare officer alone is told.",
            "Con miedo o en apuros: escribe PREOCUPADO, y nadie lo sabe sino bienestar.",
        );
        vec![first, then.to_owned()]
    }

    /// To the coach: which swimmer is to be stopped.
    fn name_whom(self) -> &'static str {
        self.pick(
            "Text the swimmer's name with it, say HERON FAINTED, and they are stopped until you \
             release them.",
            "Escribe su nombre, por ejemplo HERON SE DESMAYO, y queda en pausa hasta que tu la \
             liberes.",
        )
    }

    /// After either, to one who is not the coach.
    fn until_another_is_cleared(self) -> &'static str {
        self.pick(
            "No more swimming for them until a clinician has cleared it. Tell the coach.",
            "Que no vuelva a nadar hasta que lo autorice un médico. Avisa al entrenador.",
        )
    }

    /// To the coach: a swimmer's stop is open.
    fn stopped_of(self, who: &Name) -> String {
        say!(
            self,
            "{who} is stopped: no swimming until a clinician has cleared it; then text RELEASE \
             {who}.",
            "{who} esta en pausa: fuera del agua hasta que lo autorice un médico; después escribe \
             LIBERA {who}.",
            [who]
        )
    }

    /// After any danger: how long it stops them, and whom to tell.
    fn until_cleared(self) -> &'static str {
        self.pick(
            "No more swimming until a clinician has cleared it and your coach releases you. Tell \
             your coach.",
            "No vuelvas a nadar hasta que lo autorice un médico y tu entrenador te dé paso. Avisa \
             a tu entrenador.",
        )
    }

    /// A stop is open.
    fn stopped(self) -> &'static str {
        self.pick(
            "You are stopped: no swimming until a clinician has cleared it and your coach \
             releases you. If it comes back: out, tell the lifeguard, emergency number.",
            "Estas en pausa: fuera del agua hasta que lo autorice un médico y tu entrenador te dé \
             paso. Si vuelve: sal, avisa al socorrista y llama a emergencias.",
        )
    }

    /// Hard swimming ahead.
    fn effort(self) -> &'static str {
        self.pick(
            "Never swim hard alone. Chest pain, dizzy or faint: stop, out, get help.",
            "Lo fuerte, siempre con gente cerca. Dolor de pecho, mareo o desmayo: para, sal y \
             pide ayuda.",
        )
    }

    /// Open water.
    fn open_water(self) -> &'static str {
        self.pick(
            "Open water: never alone, bright cap and float, the venue's rules, mind the cold. \
             Chest pain, dizzy or faint: stop, get help.",
            "Aguas abiertas: nunca a solas, gorro y boya visibles, las normas del lugar, cuidado \
             con el frio. Dolor de pecho, mareo o desmayo: para y pide ayuda.",
        )
    }

    /// A request for breath-holding.
    fn breath_hold(self) -> &'static str {
        self.pick(
            "No breath-holding: it can make you pass out without warning and drown. Breathe \
             whenever you want to; we set no such lengths.",
            "Aguantar la respiracion, nunca: puedes desmayarte sin aviso y ahogarte. Respira \
             siempre que quieras; aqui no se ponen largos asi.",
        )
    }

    /// A question whether they may swim; the answer is never yes. A verruca or a
    /// tattoo needs no word of an ambulance.
    fn may_swim(self, worries: bool) -> &'static str {
        if !worries {
            return self.pick(
                "We can't say yes to that: ask a pharmacist, doctor or other clinician first. \
                 Until then stay out if anything is open, catching or wrong.",
                "A eso no podemos decir que si: pregunta antes en la farmacia o a un médico. Hasta \
                 entonces, fuera del agua si algo se contagia o va mal.",
            );
        }
        self.pick(
            "We can't say yes to that. If anything is wrong, stay out and ask a clinician; with \
             chest pain, fainting or trouble breathing call the emergency number.",
            "A eso no podemos decir que si. Si algo va mal, fuera del agua y pregunta a un \
             médico; con dolor de pecho, desmayo o falta de aire llama a emergencias.",
        )
    }

    /// Dives.
    fn dive(self) -> &'static str {
        self.pick(
            "Dives: where the pool allows them, with your coach there and the depth checked, \
             never alone. Sprints from a push do the same work.",
            "De cabeza, donde la piscina lo permita, con tu entrenador delante y la profundidad \
             comprobada; nunca a solas. Salir desde la pared entrena lo mismo.",
        )
    }

    /// Swimming with nobody there.
    fn alone(self) -> &'static str {
        self.pick(
            "Never swim alone: a lifeguard or another person watching, every time. If nobody is \
             there, leave it for another day.",
            "Nunca nades a solas: siempre con socorrista o alguien que mire. Si no hay nadie, \
             déjalo para otro dia.",
        )
    }

    /// Nothing more is swum today.
    fn done_for_today(self) -> &'static str {
        self.pick(
            "You are done for today: no lane and no set. Text BETTER when it is over.",
            "Por hoy no nadas mas: ni calle ni serie. Escribe MEJOR cuando pase.",
        )
    }

    /// The same of another.
    fn done_for_today_of(self, who: &Name) -> String {
        say!(
            self,
            "{who} is done for today: no lane and no set.",
            "{who} no nada mas hoy: ni calle ni serie.",
            [who]
        )
    }
}

fn owned(lines: &[&str]) -> Vec<String> {
    lines.iter().map(|line| (*line).to_owned()).collect()
}
