//! The first act for each kind of danger, in Spanish. Sources, and what each part
//! may hold, as in the English words beside it.

use crate::message::Danger;
use crate::reply::phrases::first_upper;

/// To the one who is in danger.
pub fn own(danger: Danger, call: &str) -> String {
    let upper = first_upper(call);
    match danger {
        Danger::Stroke => format!(
            "{upper} ya, aunque se pase; mira la hora. Sal del agua, siéntate, no comas ni bebas. \
             Avisa al socorrista, que alguien se quede contigo."
        ),
        Danger::Heart => format!(
            "Para. Sal del agua ya, siéntate y descansa, {call} ya. Avisa al socorrista, que \
             alguien se quede contigo, no conduzcas."
        ),
        Danger::Breath => format!(
            "Para. Sal del agua ya, siéntate con la espalda recta, {call} ya. Afloja lo que \
             apriete. Avisa al socorrista, que alguien se quede contigo."
        ),
        Danger::Asthma => format!(
            "Sal del agua ya, siéntate, inhalador de rescate: un puff cada 30-60 s, hasta 10. Si no \
             hay o no mejora: {call}. Avisa al socorrista."
        ),
        Danger::Water => format!(
            "Para. Sal del agua ya, siéntate, abrigate, {call} ya, aunque mejore. Avisa al \
             socorrista, que alguien se quede contigo."
        ),
        Danger::Choking => format!(
            "Tose fuerte. Si no puedes: que te den 5 golpes entre los omoplatos y 5 compresiones \
             bajo las costillas; {call}. Avisa al socorrista."
        ),
        Danger::Bleeding => format!(
            "Sal del agua ya. Aprieta fuerte con un paño sin soltar, tumbate, {call} ya. De la \
             nariz: inclinate adelante. Avisa al socorrista."
        ),
        Danger::Allergy => format!(
            "Adrenalina (autoinyector) ya si tienes, luego {call}. Tumbate, piernas en alto; si te \
             ahogas, siéntate. No te levantes. Avisa al socorrista."
        ),
        Danger::Spine => format!(
            "No te muevas, no gires el cuello. Que avisen al socorrista: {call} ya. En el agua: \
             flota y que te sujeten la cabeza."
        ),
        Danger::Seizure => format!(
            "Para. Sal del agua ya y no vuelvas, tumbate de lado, {call} ya. Avisa al socorrista, \
             que alguien se quede contigo."
        ),
        Danger::Sugar => format!(
            "Sal del agua ya. Si esta bajo: azucar ya (zumo, dulces), mide en 15 min. Si no mejora, \
             vomitos o sueño: {call}. Avisa al socorrista."
        ),
        Danger::HeadSigns => format!(
            "Para. Sal del agua, quédate quieto, {call} ya. Que alguien se quede contigo, no \
             conduzcas. Avisa al socorrista."
        ),
        Danger::Poison => format!(
            "{upper} ya: di qué, cuanto y cuando. Gases: todos fuera, al aire. No provoques el \
             vomito, que alguien se quede contigo. Avisa al socorrista."
        ),
        Danger::Cold => format!(
            "Sal del agua y del viento, ropa seca, tapa la cabeza. Sin baño caliente ni frotar. Si \
             no para el temblor, o sueño: {call} ya. Avisa al socorrista."
        ),
        Danger::Heat => format!(
            "Sal del calor ya, tumbate, {call}. Enfriate ya: agua fria, paños mojados, aire. Avisa \
             al socorrista, que alguien se quede contigo."
        ),
        Danger::Pregnancy => format!(
            "Sal del agua ya, tumbate de lado, llama ya a tu maternidad. Mucha sangre, dolor fuerte \
             o desmayo: {call}. Avisa al socorrista."
        ),
        Danger::Faint => format!(
            "Para. Sal del agua ya, tumbate, piernas en alto, {call} ya. Avisa al socorrista, que \
             alguien se quede contigo."
        ),
        Danger::Unspecific | Danger::Unconscious => format!(
            "Para. Sal del agua ya, grita al socorrista, {call} ya. Que alguien se quede contigo. \
             Si no respira: comprime fuerte el pecho."
        ),
        Danger::Head => format!(
            "Sal del agua ya y avisa al socorrista. Que alguien se quede contigo; con sueño, vomitos \
             o mucho dolor de cabeza: {call}."
        ),
        Danger::Dizzy => format!(
            "Sal del agua ya, siéntate, avisa al socorrista y que alguien se quede contigo. Si \
             sigue, o dolor de pecho o falta de aire: {call} ya."
        ),
    }
}

/// To whoever is with the one in danger.
pub fn beside(danger: Danger, call: &str) -> String {
    match danger {
        Danger::Unconscious => format!(
            "Que salga del agua ya, grita al socorrista, {call}. Si no respira: 5 soplos, luego 30 \
             compresiones y 2 soplos; trae el DEA. Si respira: de lado."
        ),
        Danger::Choking => format!(
            "5 golpes fuertes entre los omoplatos, luego 5 compresiones bajo las costillas; {call}. \
             Si se desmaya: comprime el pecho. Avisa al socorrista."
        ),
        Danger::Water => format!(
            "Que salga del agua ya, avisa al socorrista, {call}, aunque parezca bien. Sentado y \
             abrigado. Si no respira: 5 soplos y RCP."
        ),
        Danger::Bleeding => format!(
            "Que salga del agua ya, avisa al socorrista, {call}. Aprieta fuerte con un paño sin \
             soltar; que se tumbe. Quédate a su lado."
        ),
        Danger::Allergy => format!(
            "Su adrenalina ya, en el muslo, luego {call}. Que se tumbe, piernas en alto; si se \
             ahoga, sentado. Que no se levante. Avisa al socorrista."
        ),
        Danger::Spine => format!(
            "No muevas cabeza ni cuello: que flote, sujeta la cabeza, avisa al socorrista, {call} \
             ya. Quédate a su lado."
        ),
        Danger::Seizure => format!(
            "Mantén su cara fuera del agua, avisa al socorrista, {call} ya. Fuera: despeja, no \
             sujetes, mira la hora; después de lado."
        ),
        Danger::Stroke => format!(
            "Que salga del agua ya, avisa al socorrista, {call} ya; mira la hora. Sentado, sin comer \
             ni beber. Quédate a su lado."
        ),
        Danger::Heart => format!(
            "Que salga del agua ya, avisa al socorrista, {call} ya. Sentado y quieto, trae el DEA. \
             Quédate a su lado."
        ),
        Danger::Asthma => format!(
            "Que salga del agua ya, avisa al socorrista. Sentado, inhalador: un puff cada 30-60 s, \
             hasta 10. Si no hay o no mejora: {call} ya."
        ),
        Danger::Breath => format!(
            "Que salga del agua ya, avisa al socorrista, {call} ya. Sentado, afloja lo que apriete. \
             Quédate a su lado."
        ),
        Danger::Sugar => format!(
            "Que salga del agua ya. Si despierto: azucar ya (zumo, dulces). Si se duerme: nada en la \
             boca, de lado, {call} ya. Avisa al socorrista."
        ),
        Danger::HeadSigns => format!(
            "Que salga del agua sin mover cabeza ni cuello, avisa al socorrista, {call} ya. Que alguien se quede."
        ),
        Danger::Poison => format!(
            "{} ya: di qué, cuanto y cuando. Gases: todos fuera, al aire. No le hagas vomitar. Avisa \
             al socorrista, quédate a su lado.",
            first_upper(call)
        ),
        Danger::Cold => format!(
            "Que salga del agua y del viento, avisa al socorrista, {call} ya. Tumbado, ropa seca, \
             tapa la cabeza. Sin frotar ni baño caliente."
        ),
        Danger::Heat => format!(
            "Que salga del calor ya, {call} ya. Enfrialo ya: agua fria por el cuerpo, paños, aire. \
             Avisa al socorrista, quédate a su lado."
        ),
        Danger::Pregnancy => format!(
            "Que salga del agua ya, tumbada de lado, llama a su maternidad; mucha sangre, dolor \
             fuerte o desmayo: {call}. Avisa al socorrista."
        ),
        Danger::Faint => format!(
            "Que salga del agua ya, avisa al socorrista, {call} ya. Tumbado, piernas en alto; si no \
             respira: RCP. Quédate a su lado."
        ),
        Danger::Unspecific => format!(
            "Que salga del agua ya, avisa al socorrista, {call}. Quédate a su lado. Si no respira: 5 \
             soplos y comprime fuerte el pecho."
        ),
        Danger::Head | Danger::Dizzy => format!(
            "Que salga del agua ya y avisa al socorrista. Quédate a su lado; si va a mas, le da \
             sueño o vomita, {call}."
        ),
    }
}

/// What it looks like, for an alert.
pub fn named(danger: Danger) -> &'static str {
    match danger {
        Danger::Unconscious => "no responde o no respira",
        Danger::Choking => "atragantamiento",
        Danger::Water => "agua tragada o apuros en el agua",
        Danger::Bleeding => "mucha sangre",
        Danger::Allergy => "hinchazon o reaccion a comida o picadura",
        Danger::Spine => "cuello o espalda, o sin sentir",
        Danger::Seizure => "convulsiones",
        Danger::Stroke => "cara, brazo, habla o vista",
        Danger::Heart => "pecho, brazo, mandibula o latido",
        Danger::Asthma => "falta de aire, necesita inhalador",
        Danger::Breath => "falta de aire",
        Danger::Sugar => "azucar en sangre",
        Danger::HeadSigns => "golpe en la cabeza, con malas señales",
        Danger::Poison => "veneno, gases o pastillas",
        Danger::Cold => "helado de frio",
        Danger::Heat => "demasiado calor",
        Danger::Pregnancy => "peligro en el embarazo",
        Danger::Faint => "desmayo o casi",
        Danger::Unspecific => "hace falta ayuda",
        Danger::Head => "golpe en la cabeza",
        Danger::Dizzy => "mareo",
    }
}
