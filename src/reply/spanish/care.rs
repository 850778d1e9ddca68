//! Cautions: what to do first, never what may be wrong.

use super::words::pain_in;
use super::{Spanish, first_aid};
use crate::message::{Danger, Name};
use crate::reply::carried;
use crate::reply::phrases::{Care, Illness, Soreness, Spare, first_upper};

impl Care for Spanish {
    fn first_aid(&self, danger: Danger, call: &str) -> String {
        first_aid::own(danger, call)
    }

    fn first_aid_for(&self, danger: Danger, call: &str) -> String {
        first_aid::beside(danger, call)
    }

    fn call(&self, number: Option<&str>) -> String {
        match number {
            Some(number) => format!("llama al {}", carried(number)),
            None => "llama a emergencias".to_owned(),
        }
    }

    fn danger_named(&self, danger: Danger) -> &'static str {
        first_aid::named(danger)
    }

    fn name_whom(&self) -> &'static str {
        "Escribe su nombre, por ejemplo HERON SE DESMAYO, y queda en pausa hasta que tu la liberes."
    }

    fn until_another_is_cleared(&self) -> &'static str {
        "Que no vuelva a nadar hasta que lo autorice un médico. Avisa al entrenador."
    }

    fn stopped_of(&self, who: &Name) -> String {
        format!(
            "{who} esta en pausa: fuera del agua hasta que lo autorice un médico; después escribe \
             LIBERA {who}."
        )
    }

    fn until_cleared(&self) -> &'static str {
        "No vuelvas a nadar hasta que lo autorice un médico y tu entrenador te dé paso. Avisa a \
         tu entrenador."
    }

    fn stopped(&self) -> &'static str {
        "Estas en pausa: fuera del agua hasta que lo autorice un médico y tu entrenador te dé \
         paso. Si vuelve: sal, avisa al socorrista y llama a emergencias."
    }

    fn welfare(&self, of_another: bool, call: &str) -> String {
        match of_another {
            false => format!(
                "Gracias por contarlo. Te creemos y no es culpa tuya. Si hay peligro, heridas o has \
                 tomado algo: {call} ya. Quédate con alguien de confianza."
            ),
            true => format!(
                "Gracias por contarlo. Quédate a su lado y escucha; aparta pastillas y cuchillas. \
                 Peligro, herida o ha tomado algo: {call}. Avisa a un adulto."
            ),
        }
    }

    fn after_welfare(&self, officer: bool, helpline: Option<&str>) -> String {
        let told = match officer {
            true => {
                "No podemos guardar secretos: la persona de bienestar sabe que has escrito; tu \
                 entrenador no."
            }
            false => "No podemos prometer guardar un secreto; no se guarda ni lo ve tu entrenador.",
        };
        match helpline {
            Some(helpline) => {
                let helpline = carried(helpline);
                format!("Habla hoy con alguien o llama a {helpline}. {told}")
            }
            None => format!("{told} Habla hoy con alguien o un telefono de ayuda."),
        }
    }

    fn effort(&self) -> &'static str {
        "Lo fuerte, siempre con gente cerca. Dolor de pecho, mareo o desmayo: para, sal y pide \
         ayuda."
    }

    fn open_water(&self) -> &'static str {
        "Aguas abiertas: nunca a solas, gorro y boya visibles, las normas del lugar, cuidado con \
         el frio. Dolor de pecho, mareo o desmayo: para y pide ayuda."
    }

    fn breath_hold(&self) -> &'static str {
        "Aguantar la respiracion, nunca: puedes desmayarte sin aviso y ahogarte. Respira siempre \
         que quieras; aqui no se ponen largos asi."
    }

    fn easing(&self) -> [&'static str; 2] {
        [
            "Gracias por contarlo. Pregunta a tu matrona, a un médico o a otro profesional como \
             nadar ahora; hasta entonces, suave y con comodidad.",
            "Tus entrenos siguen suaves. Tus palabras no se guardan ni las ve tu entrenador; \
             cuéntaselo si quieres.",
        ]
    }

    fn gentle(&self) -> [&'static str; 2] {
        [
            "Gracias por contarlo. Eso es para un médico u otro profesional, o alguien de \
             confianza; habla pronto con uno de ellos.",
            "Tus palabras no se guardan ni las ve tu entrenador. Aqui se ponen entrenos, no \
             consejos de peso ni de comida.",
        ]
    }

    fn clinician(&self) -> [&'static str; 2] {
        [
            "Gracias por contarlo. Pregunta a tu médico o farmacéutico como nadar con ello; hasta entonces, suave, segun te sientas, y deja lo que quieras.",
            "Tus palabras no se guardan ni las ve tu entrenador; diselo tu si quieres.",
        ]
    }

    fn low(&self, call: &str, helpline: Option<&str>) -> Vec<String> {
        let helpline = helpline.map(|to| format!(", o llama a {}", carried(to)));
        vec![
            "Siento que sea un momento dificil. No hace falta llevarlo a solas: habla hoy con alguien de confianza o con tu médico."
                .to_owned(),
            format!("Tus palabras no se guardan ni las ve tu entrenador. Si piensas en hacerte daño: {call}{}.", helpline.as_deref().unwrap_or(" o a un telefono de ayuda")),
        ]
    }

    fn may_swim(&self) -> &'static str {
        "A eso no podemos decir que si. Si algo va mal, fuera del agua y pregunta a un médico; con \
         dolor de pecho, desmayo o falta de aire llama a emergencias."
    }

    fn dive(&self) -> &'static str {
        "De cabeza, donde la piscina lo permita, con tu entrenador delante y la profundidad \
         comprobada; nunca a solas. Salir desde la pared entrena lo mismo."
    }

    fn alone(&self) -> &'static str {
        "Nunca nades a solas: siempre con socorrista o alguien que mire. Si no hay nadie, déjalo \
         para otro dia."
    }

    fn cleared_alert(&self, who: &Name) -> String {
        format!(
            "{who} dice que un médico lo ha autorizado. Si te parece bien, escribe LIBERA {who}; \
             hasta entonces sigue en pausa."
        )
    }

    fn not_ready_alert(&self, who: &Name) -> String {
        format!(
            "{who} ha respondido a las preguntas de salud, no a todas con un no claro. Todo suave \
             hasta que habléis y escribas LIBERA {who}."
        )
    }

    fn contact(&self, contact: &str) -> String {
        format!("Contacto de emergencia: {contact}.")
    }

    fn pain(&self, place: &str, level: Option<u8>) -> String {
        let pain = first_upper(&pain_in(place));
        let of_ten = of_ten(level);
        match Soreness::of(level) {
            Soreness::Light => {
                format!("{pain}{of_ten}, anotado: sin palas, y para si va a mas.")
            }
            Soreness::Felt => format!(
                "{pain}, anotado: deja lo que duele, {}. Tu proximo entreno sera mas ligero.",
                self.spare(Spare::of(place))
            ),
            Soreness::Severe => format!(
                "{pain}{of_ten}: para por hoy y descansa la zona. Tu proximo entreno sera \
                 mas ligero."
            ),
        }
    }

    fn pain_of(&self, who: &Name, place: &str, level: Option<u8>) -> String {
        let (pain, of_ten) = (pain_in(place), of_ten(level));
        match Soreness::of(level) {
            Soreness::Light => {
                format!("{who}: {pain}{of_ten}, anotado. Sin palas; que pare si va a mas.")
            }
            Soreness::Felt => format!(
                "{who}: {pain}{of_ten}, anotado. Sin lo que duele, {}. El proximo entreno sera \
                 mas ligero.",
                self.spare(Spare::of(place))
            ),
            Soreness::Severe => format!(
                "{who}: {pain}{of_ten}. Que pare por hoy y descanse la zona; el proximo entreno \
                 sera mas ligero."
            ),
        }
    }

    fn spare(&self, spare: Spare) -> &'static str {
        match spare {
            Spare::Arms => "sin palas, mariposa ni tabla",
            Spare::Back => "sin mariposa ni patada de delfin fuerte",
            Spare::BreastKick => "sin patada de braza",
            Spare::Feet => "sin aletas, patada suave",
            Spare::Neck => "usa tubo",
            Spare::Hard => "todo suave",
            Spare::Water => "fuera del agua hasta que se calme",
        }
    }

    fn after_pain(&self, again: bool) -> &'static str {
        if again {
            "Van dos veces en dos semanas: que lo vea un médico, y avisa a tu entrenador."
        } else {
            "Si el dolor dura o te despierta, que lo vea un médico. Escribe MEJOR cuando se pase."
        }
    }

    fn after_pain_of(&self, who: &Name, again: bool) -> String {
        match again {
            true => "Van dos veces en dos semanas: que lo vea un médico.".to_owned(),
            false => format!(
                "Si el dolor dura, que lo vea un médico. Cuando se pase, escribe {} MEJOR.",
                who.as_str().to_uppercase()
            ),
        }
    }

    fn ill(&self, illness: Illness) -> &'static str {
        match illness {
            Illness::Stomach => {
                "Fuera del agua hasta 48 horas después de que pase (14 dias si un médico encontro \
                 un parasito). ¡Que te mejores!"
            }
            Illness::Fever => {
                "Con fiebre o el pecho cargado, fuera del agua; para volver, antes cuatro dias sin \
                 sintomas. ¡Que te mejores!"
            }
            Illness::Other => "Descansa y deja lo fuerte por ahora. ¡Que te mejores!",
        }
    }

    fn after_illness(&self) -> &'static str {
        "Escribe MEJOR cuando se pase; volveras poco a poco. Si dura, que lo vea un médico."
    }

    fn ill_of(&self, who: &Name, illness: Illness) -> String {
        match illness {
            Illness::Stomach => format!(
                "{who}: fuera del agua hasta 48 horas después de que pase (14 dias si un médico \
                 encontro un parasito)."
            ),
            Illness::Fever => format!(
                "{who}: con fiebre o el pecho cargado, fuera del agua; para volver, antes dos \
                 dias sin sintomas."
            ),
            Illness::Other => {
                format!("{who}: descanso y nada fuerte. El proximo entreno sera mas ligero.")
            }
        }
    }

    fn after_illness_of(&self, who: &Name) -> String {
        format!(
            "Cuando se pase, escribe {} MEJOR; volvera poco a poco. Si dura, que lo vea un \
             médico.",
            who.as_str().to_uppercase()
        )
    }

    fn done_for_today(&self) -> &'static str {
        "Por hoy no nadas mas: ni calle ni serie. Escribe MEJOR cuando pase."
    }

    fn done_for_today_of(&self, who: &Name) -> String {
        format!("{who} no nada mas hoy: ni calle ni serie.")
    }

    fn someone(&self) -> &'static str {
        "Alguien del equipo"
    }

    fn as_told_by(&self, who: &str, by: &Name) -> String {
        format!("{who} (lo escribe {by})")
    }

    fn pain_alert(&self, who: &str, place: &str, level: Option<u8>, again: bool) -> String {
        let of_ten = of_ten(level);
        let again = if again { ", segundo aviso en dos semanas" } else { "" };
        let pain = pain_in(place);
        format!("{who}: {pain}{of_ten}{again}. El proximo entreno sera mas ligero.")
    }

    fn danger_alert(&self, who: &str, danger: Danger, stopped: Option<&Name>) -> String {
        format!(
            "ALERTA {who}: {}. Asegurate de que tenga ayuda. {}",
            first_aid::named(danger),
            until_released(stopped)
        )
    }
}

/// `, 4 de 10`, where a level was said.
fn of_ten(level: Option<u8>) -> String {
    level.map(|level| format!(", {level} de 10")).unwrap_or_default()
}

fn until_released(stopped: Option<&Name>) -> String {
    let release = stopped.map(|who| format!(" y escribas LIBERA {who}")).unwrap_or_default();
    format!("Fuera del agua hasta que lo autorice un médico{release}.")
}
