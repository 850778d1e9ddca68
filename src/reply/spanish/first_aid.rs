//! The first act for each kind of danger, in Spanish. Sources, and what each part
//! may hold, as in the English words beside it.

use crate::message::Danger;
use crate::reply::phrases::first_upper;

/// To the one who is in danger.
pub fn own(danger: Danger, call: &str) -> String {
    let upper = first_upper(call);
    match danger {
        Danger::Stroke => format!(
            "{upper} ya, aunque se pase; apunta cuando empezo. Sal del agua, siéntate, no \
             comas ni bebas. Avisa al socorrista, que alguien se quede contigo."
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
            "Sal del agua, siéntate, inhalador de rescate: un puff cada 30-60 s, hasta 10. Si \
             no hay, no ayuda o te cuesta hablar: {call}. Avisa al socorrista."
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
            "Sal del agua. Aprieta fuerte la herida con un paño sin soltar, tumbate, {call}. \
             Nariz: siéntate, inclinate adelante, pinzala. Avisa al socorrista."
        ),
        Danger::Allergy => format!(
            "Adrenalina en el muslo ya, si tienes; {call}. Sal del agua, tumbate, piernas en \
             alto; sin aire: siéntate. No te levantes. 5 min sin mejora: otra."
        ),
        Danger::Spine => format!(
            "No te muevas, no gires el cuello. {upper} ya y que alguien avise al socorrista. \
             En el agua: flota y que te sujeten la cabeza."
        ),
        Danger::Seizure => format!(
            "Para. Sal del agua, tumbate de lado, {call} ya. Avisa al socorrista, no te \
             quedes a solas ni conduzcas. Si es otra persona: su cara fuera del agua."
        ),
        Danger::Sugar => format!(
            "Sal del agua ya. Si esta bajo o no lo sabes: azucar ya (zumo, dulces), mide en \
             15 min. Si no mejora, vomitos o sueño: {call}. Avisa al socorrista."
        ),
        Danger::HeadSigns => format!(
            "Para. Sal del agua, no muevas el cuello, {call} ya. Que alguien se quede \
             contigo, no te eches a dormir ni conduzcas. Avisa al socorrista."
        ),
        Danger::Fumes => format!(
            "Todos fuera ya, al aire libre, lejos de ello. {upper} ya, avisa al socorrista. \
             No vuelvas a entrar, no te quedes a solas. En los ojos: agua."
        ),
        Danger::Poison => format!(
            "{upper} ya: di qué, cuanto y cuando. No provoques el vomito, no comas ni bebas, \
             no te quedes a solas. Fuera del agua, avisa al socorrista."
        ),
        Danger::Cold => format!(
            "Sal del agua y del viento, {call} ya. Ropa seca, abrigate, tapa la cabeza. Sin \
             baño caliente ni frotar. No te quedes a solas. Avisa al socorrista."
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
            "Para. Sal del agua ya, tumbate, piernas en alto, {call} ya. Avisa al socorrista, \
             que alguien se quede contigo, no conduzcas."
        ),
        Danger::Unspecific | Danger::Unconscious => format!(
            "Para. Sal del agua ya, pide ayuda a gritos, {call} ya. Que alguien se quede \
             contigo. Si otra persona no respira: comprime fuerte y rapido su pecho."
        ),
        Danger::Head => format!(
            "Sal del agua ya, avisa al socorrista. No te quedes a solas ni conduzcas. Sueño, \
             vomitos, confusion, fuerte dolor de cabeza o cuello: {call}."
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
            "Grita al socorrista, sacale del agua, {call}. Si no respira o boquea: 5 soplos \
             boca a boca, 30 compresiones y 2, y sigue; DEA. Si respira: de lado."
        ),
        Danger::Choking => format!(
            "Si no puede toser: 5 golpes fuertes entre los omoplatos, luego 5 compresiones \
             bajo las costillas; {call}. Si se desmaya: RCP. Avisa al socorrista."
        ),
        Danger::Water => format!(
            "Grita al socorrista, {call}, aunque se vea bien. Tiende o lanza algo, no te \
             tires. Fuera: sentado, abrigado. Si no respira: 5 boca a boca y RCP."
        ),
        Danger::Bleeding => format!(
            "Fuera del agua, aprieta fuerte la herida con un paño sin soltar. Avisa al \
             socorrista, {call}. Que se tumbe. Nariz: sentado, hacia delante, pinzala."
        ),
        Danger::Allergy => format!(
            "Su adrenalina en el muslo ya, {call}. Que se tumbe, piernas en alto; si le falta \
             aire, sentado. Que no se levante. 5 min sin mejora: otra dosis."
        ),
        Danger::Spine => format!(
            "Que no mueva cabeza ni cuello, avisa al socorrista, {call} ya. En el agua: boca \
             arriba, sujeta su cabeza en linea. Si no respira: fuera ya, RCP."
        ),
        Danger::Seizure => format!(
            "En el agua: mantén su cara fuera; sacalo al parar. Avisa al socorrista, {call} \
             ya. No sujetes, aparta objetos. Luego de lado; si no respira: RCP."
        ),
        Danger::Stroke => format!(
            "Que salga del agua ya, avisa al socorrista, {call} ya; apunta cuando empezo. \
             Sentado, sin comer ni beber. Quédate a su lado."
        ),
        Danger::Heart => format!(
            "Que salga del agua ya, avisa al socorrista, {call} ya. Sentado y quieto, que \
             traigan el DEA. Quédate a su lado. Si no respira o boquea: RCP."
        ),
        Danger::Asthma => format!(
            "Fuera del agua, avisa al socorrista. Sentado, inhalador de rescate: un puff cada \
             30-60 s, hasta 10. Si no hay, no ayuda o no puede hablar: {call}."
        ),
        Danger::Breath => format!(
            "Que salga del agua ya, avisa al socorrista, {call} ya. Sentado, afloja lo que apriete. \
             Quédate a su lado."
        ),
        Danger::Sugar => format!(
            "Fuera del agua, avisa al socorrista. Si responde: azucar (zumo, dulces). Con \
             sueño: nada en la boca, de lado. Sueño, vomitos o no mejora: {call}."
        ),
        Danger::HeadSigns => format!(
            "Que salga del agua sin mover cabeza ni cuello, avisa al socorrista, {call} ya. \
             Quédate a su lado. Con sueño o vomitos: de lado. Si no respira: RCP."
        ),
        Danger::Fumes => format!(
            "Todos fuera ya, al aire libre, no entres por nadie. {} ya, avisa al socorrista. \
             Con sueño: de lado. Si no respira: RCP.",
            first_upper(call)
        ),
        Danger::Poison => format!(
            "{} ya: di qué, cuanto y cuando. No le hagas vomitar. Con sueño: de lado. Si no \
             respira: RCP. Avisa al socorrista, quédate a su lado.",
            first_upper(call)
        ),
        Danger::Cold => format!(
            "Que salga del agua y del viento, avisa al socorrista, {call} ya. Tumbado, ropa \
             seca, con mantas, cabeza tapada. Sin frotar ni baño caliente."
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
            "Que salga del agua ya, avisa al socorrista, {call} ya. Tumbado, piernas en alto. \
             Si no respira o boquea: RCP. Quédate a su lado."
        ),
        Danger::Unspecific => format!(
            "Que salga del agua ya, avisa al socorrista, {call}. Quédate a su lado. Si no \
             respira o boquea: 5 soplos y comprime fuerte y rapido el pecho."
        ),
        Danger::Head | Danger::Dizzy => format!(
            "Que salga del agua ya y se siente, avisa al socorrista. Quédate a su lado. Si va \
             a mas, o con sueño, vomitos, confusion o dolor de pecho: {call}."
        ),
    }
}

/// What it looks like, for an alert.
pub fn named(danger: Danger) -> &'static str {
    match danger {
        Danger::Unconscious => "no responde o no respira",
        Danger::Choking => "atragantamiento",
        Danger::Water => "agua respirada o apuros en el agua",
        Danger::Bleeding => "mucha sangre",
        Danger::Allergy => "hinchazon o reaccion a comida o picadura",
        Danger::Spine => "cuello o espalda, o falta de sensibilidad",
        Danger::Seizure => "convulsiones",
        Danger::Stroke => "cara, brazo, habla, vista o dolor de cabeza subito",
        Danger::Heart => "pecho, brazo, mandibula o latido",
        Danger::Asthma => "falta de aire, necesita inhalador",
        Danger::Breath => "falta de aire o pantorrilla hinchada",
        Danger::Sugar => "azucar en sangre",
        Danger::HeadSigns => "golpe en la cabeza, con signos de alarma",
        Danger::Fumes => "gases o humo",
        Danger::Poison => "veneno o pastillas",
        Danger::Cold => "helado de frio",
        Danger::Heat => "demasiado calor",
        Danger::Pregnancy => "peligro en el embarazo",
        Danger::Faint => "desmayo o casi",
        Danger::Unspecific => "hace falta ayuda",
        Danger::Head => "golpe en la cabeza",
        Danger::Dizzy => "mareo",
    }
}
