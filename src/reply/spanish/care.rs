//! Cautions: what to do first, never what may be wrong.

use super::Spanish;
use super::words::pain_in;
use crate::message::Name;
use crate::reply::phrases::{Care, Illness, Much, Spare, first_upper};

impl Care for Spanish {
    fn danger_of(&self, who: &Name) -> Vec<String> {
        vec![
            "Que salga del agua ya, avisa al socorrista y llama a emergencias. Quédate a su lado."
                .into(),
            format!(
                "Anotado: {who} fuera del agua hasta que lo autorice un médico y escribas LIBERA \
                 {who}."
            ),
        ]
    }

    fn stopped_of(&self, who: &Name) -> String {
        format!(
            "{who} esta en pausa: fuera del agua hasta que lo autorice un médico; después escribe \
             LIBERA {who}."
        )
    }

    fn danger(&self) -> &'static [&'static str] {
        &[
            "Para. Sal del agua ya y avisa al socorrista. Dolor de pecho, desmayo o falta de \
             aire: llama a emergencias ya. Que alguien se quede contigo.",
            "No vuelvas a nadar hasta que lo autorice un médico y tu entrenador te dé paso. Tu \
             entrenador ya lo sabe.",
        ]
    }

    fn stopped(&self) -> &'static str {
        "Estas en pausa: fuera del agua hasta que lo autorice un médico y tu entrenador te dé \
         paso. Si vuelve: sal, avisa al socorrista y llama a emergencias."
    }

    fn welfare(&self) -> &'static [&'static str] {
        &[
            "Gracias por contarlo. Te creemos y no es culpa tuya. Si hay peligro ahora, llama a \
             emergencias.",
            "Esto no se guarda con tus entrenos ni lo ve tu entrenador. No podemos prometer \
             guardar un secreto; habla hoy con alguien de confianza o con un teléfono de ayuda.",
        ]
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

    fn pain(&self, place: &str, level: u8, much: Much) -> String {
        let pain = first_upper(&pain_in(place));
        match much {
            Much::Little => {
                format!("{pain}, {level} de 10, anotado: sin palas, y para si va a mas.")
            }
            Much::Some => format!(
                "{pain}, anotado: deja lo que duele, {}. Tu proximo entreno sera mas ligero.",
                spare(Spare::of(place))
            ),
            Much::TooMuch => format!(
                "{pain}, {level} de 10: para por hoy y descansa la zona. Tu proximo entreno sera \
                 mas ligero."
            ),
        }
    }

    fn after_pain(&self, again: bool) -> &'static str {
        if again {
            "Van dos veces en dos semanas: que lo vea un médico. Tu entrenador ya lo sabe."
        } else {
            "Si el dolor dura o te despierta, que lo vea un médico. Escribe MEJOR cuando se pase."
        }
    }

    fn ill(&self, illness: Illness) -> &'static str {
        match illness {
            Illness::Stomach => {
                "Fuera del agua hasta 48 horas después de que pase (14 dias si un médico encontro \
                 un parasito). ¡Que te mejores!"
            }
            Illness::Fever => {
                "Con fiebre o el pecho cargado, fuera del agua; para volver, antes dos dias sin \
                 sintomas. ¡Que te mejores!"
            }
            Illness::Other => "Descansa y deja lo fuerte por ahora. ¡Que te mejores!",
        }
    }

    fn after_illness(&self) -> &'static str {
        "Escribe MEJOR cuando se pase; volveras poco a poco. Si dura, que lo vea un médico."
    }
}

fn spare(spare: Spare) -> &'static str {
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
