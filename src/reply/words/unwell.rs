//! Pain and illness: what to leave out, how long to rest.

use super::small::first_upper;
use crate::coaching::UNSAID_LEVEL;
use crate::language::Language;
use crate::message::Name;
use crate::reply::Voice;

impl Voice {
    /// Pain in a place, and what to do about it.
    pub(super) fn pain(self, place: &str, level: Option<u8>) -> String {
        let pain = first_upper(&self.pain_in(place));
        let of_ten = self.of_ten(level);
        match Soreness::of(level) {
            Soreness::Light => say!(
                self,
                "{pain}{of_ten} noted: no paddles, and stop if it grows.",
                "{pain}{of_ten}, anotado: sin palas, y para si va a mas.",
                [pain, of_ten]
            ),
            Soreness::Felt => say!(
                self,
                "{pain}{of_ten} noted: leave out what hurts, {spare}. Your next session is lowered.",
                "{pain}{of_ten}, anotado: deja lo que duele, {spare}. Tu proximo entreno sera mas \
                 ligero.",
                [pain, of_ten, spare = self.spare(Spare::of(place))]
            ),
            Soreness::Severe => say!(
                self,
                "{pain}{of_ten}: stop for today. Rest it; your next session is lowered.",
                "{pain}{of_ten}: para por hoy y descansa la zona. Tu proximo entreno sera mas \
                 ligero.",
                [pain, of_ten]
            ),
        }
    }

    /// The same of another swimmer, to whoever told of it.
    pub(super) fn pain_of(self, who: &Name, place: &str, level: Option<u8>) -> String {
        let (pain, of_ten) = (self.pain_in(place), self.of_ten(level));
        match Soreness::of(level) {
            Soreness::Light => say!(
                self,
                "{who}: {pain}{of_ten} noted. No paddles; out if it grows.",
                "{who}: {pain}{of_ten}, anotado. Sin palas; que pare si va a mas.",
                [who, pain, of_ten]
            ),
            Soreness::Felt => say!(
                self,
                "{who}: {pain}{of_ten} noted. Leave out what hurts, {spare}. The next session is \
                 lowered.",
                "{who}: {pain}{of_ten}, anotado. Sin lo que duele, {spare}. El proximo entreno \
                 sera mas ligero.",
                [who, pain, of_ten, spare = self.spare(Spare::of(place))]
            ),
            Soreness::Severe => say!(
                self,
                "{who}: {pain}{of_ten}. Out for today and rest it; the next session is lowered.",
                "{who}: {pain}{of_ten}. Que pare por hoy y descanse la zona; el proximo entreno \
                 sera mas ligero.",
                [who, pain, of_ten]
            ),
        }
    }

    /// What to leave out so as to spare a sore place.
    pub(super) fn spare(self, spare: Spare) -> &'static str {
        match spare {
            Spare::Arms => {
                self.pick("no paddles, no fly, no board", "sin palas, mariposa ni tabla")
            }
            Spare::Back => {
                self.pick("no fly, no hard dolphin kick", "sin mariposa ni patada de delfin fuerte")
            }
            Spare::BreastKick => self.pick("no breaststroke kick", "sin patada de braza"),
            Spare::Feet => self.pick("no fins, gentle kick", "sin aletas, patada suave"),
            Spare::Neck => self.pick("use a snorkel", "usa tubo"),
            Spare::Hard => self.pick("swim easy", "todo suave"),
            Spare::Water => self.pick(
                "stay out of the water until it has settled",
                "fuera del agua hasta que se calme",
            ),
        }
    }

    /// After pain: when to see someone, when to text again.
    pub(super) fn after_pain(self, again: bool) -> &'static str {
        if again {
            self.pick(
                "That is twice in two weeks: have a clinician look at it, and tell your coach.",
                "Van dos veces en dos semanas: que lo vea un médico, y avisa a tu entrenador.",
            )
        } else {
            self.pick(
                "Pain that lasts or wakes you: see a clinician. Text BETTER when it has gone.",
                "Si el dolor dura o te despierta, que lo vea un médico. Escribe MEJOR cuando se \
                 pase.",
            )
        }
    }

    /// The same of another.
    pub(super) fn after_pain_of(self, who: &Name, again: bool) -> String {
        match again {
            true => say!(
                self,
                "That is twice in two weeks: a clinician should look at it.",
                "Van dos veces en dos semanas: que lo vea un médico."
            ),
            false => say!(
                self,
                "Pain that lasts or wakes them: a clinician. Text {who} BETTER when it has gone.",
                "Si el dolor dura, que lo vea un médico. Cuando se pase, escribe {who} MEJOR.",
                [who = who.as_str().to_uppercase()]
            ),
        }
    }

    /// Illness: how long to stay out.
    pub(super) fn ill(self, illness: Illness) -> &'static str {
        match illness {
            Illness::Stomach => self.pick(
                "Stay out of the water until 48 hours after it has stopped (14 days if a doctor \
                 found a parasite). Get well soon.",
                "Fuera del agua hasta 48 horas después de que pase (14 dias si un médico encontro \
                 un parasito). ¡Que te mejores!",
            ),
            Illness::Fever => self.pick(
                "No swimming with a fever or a bad chest; four clear days first. Get well soon.",
                "Con fiebre o el pecho cargado, fuera del agua; para volver, antes cuatro dias \
                 sin sintomas. ¡Que te mejores!",
            ),
            Illness::Other => self.pick(
                "Rest up; no hard swimming. Get well soon.",
                "Descansa y deja lo fuerte por ahora. ¡Que te mejores!",
            ),
        }
    }

    /// The same of another.
    pub(super) fn ill_of(self, who: &Name, illness: Illness) -> String {
        match illness {
            Illness::Stomach => say!(
                self,
                "{who} stays out of the water until 48 hours after it has stopped (14 days if a \
                 doctor found a parasite).",
                "{who}: fuera del agua hasta 48 horas después de que pase (14 dias si un médico \
                 encontro un parasito).",
                [who]
            ),
            Illness::Fever => say!(
                self,
                "{who}: no swimming with a fever or a bad chest; four clear days first.",
                "{who}: con fiebre o el pecho cargado, fuera del agua; para volver, antes cuatro \
                 dias sin sintomas.",
                [who]
            ),
            Illness::Other => say!(
                self,
                "{who}: rest, no hard swimming. The next session is lowered.",
                "{who}: descanso y nada fuerte. El proximo entreno sera mas ligero.",
                [who]
            ),
        }
    }

    /// After illness: how to start again.
    pub(super) fn after_illness(self) -> &'static str {
        self.pick(
            "Text BETTER when you are; you will start again gently. If it lasts, see a clinician.",
            "Escribe MEJOR cuando se pase; volveras poco a poco. Si dura, que lo vea un médico.",
        )
    }

    /// The same of another.
    pub(super) fn after_illness_of(self, who: &Name) -> String {
        say!(
            self,
            "Text {who} BETTER when it is over; the start is gentle then. If it lasts: a \
             clinician.",
            "Cuando se pase, escribe {who} MEJOR; volvera poco a poco. Si dura, que lo vea un \
             médico.",
            [who = who.as_str().to_uppercase()]
        )
    }

    /// `shoulder pain`, from the English name of the place; in Spanish bare where the
    /// place is unsaid or unknown.
    pub(super) fn pain_in(self, place: &str) -> String {
        match self.language {
            Language::English => format!("{place} pain"),
            Language::Spanish => place_in_spanish(place)
                .map_or("dolor".to_owned(), |place| format!("dolor de {place}")),
        }
    }

    /// ` 4 of 10`, where a level was said.
    pub(super) fn of_ten(self, level: Option<u8>) -> String {
        level
            .map(|level| say!(self, " {level} of 10", ", {level} de 10", [level]))
            .unwrap_or_default()
    }
}

/// How much it hurts, as far as that changes what to do (common practice, no
/// source).
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Soreness {
    /// Up to 2: noted.
    Light,
    /// 3 to 5: swim without what hurts.
    Felt,
    /// 6 or more: stop for today.
    Severe,
}

impl Soreness {
    /// That of a level; one that was not said counts as 5.
    pub fn of(level: Option<u8>) -> Self {
        match level.unwrap_or(UNSAID_LEVEL) {
            0..=2 => Soreness::Light,
            3..=5 => Soreness::Felt,
            _ => Soreness::Severe,
        }
    }
}

/// An illness, as far as it changes what to do.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Illness {
    /// Of the stomach: out of the water for others' sake too.
    Stomach,
    /// With fever or a bad chest.
    Fever,
    /// Any other.
    Other,
}

impl Illness {
    pub(super) fn of(fever: bool, stomach: bool) -> Self {
        match (stomach, fever) {
            (true, _) => Illness::Stomach,
            (false, true) => Illness::Fever,
            (false, false) => Illness::Other,
        }
    }
}

/// What to leave out so as to spare a sore place (common practice, no source).
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Spare {
    /// Paddles, butterfly and a board held overhead.
    Arms,
    /// Butterfly and hard dolphin kick.
    Back,
    /// The breaststroke kick.
    BreastKick,
    /// Fins and a hard kick.
    Feet,
    /// Turning the head.
    Neck,
    /// Anything hard.
    Hard,
    /// The water.
    Water,
}

impl Spare {
    /// What spares a place, by its English name.
    pub fn of(place: &str) -> Self {
        match place {
            "shoulder" | "elbow" | "wrist" | "arm" => Spare::Arms,
            "knee" | "groin" | "hip" => Spare::BreastKick,
            "back" => Spare::Back,
            "neck" => Spare::Neck,
            "ear" | "eye" => Spare::Water,
            "ankle" | "foot" | "calf" => Spare::Feet,
            _ => Spare::Hard,
        }
    }
}

/// `hombro`, from the English name of the place, where there is one.
pub(super) fn place_in_spanish(place: &str) -> Option<&'static str> {
    let place = match place {
        "shoulder" => "hombro",
        "elbow" => "codo",
        "wrist" => "muñeca",
        "hand" => "mano",
        "arm" => "brazo",
        "neck" => "cuello",
        "head" => "cabeza",
        "ear" => "oido",
        "eye" => "ojo",
        "rib" => "costillas",
        "hip" => "cadera",
        "groin" => "ingle",
        "thigh" => "muslo",
        "knee" => "rodilla",
        "calf" => "gemelo",
        "ankle" => "tobillo",
        "foot" => "pie",
        "leg" => "pierna",
        "back" => "espalda",
        _ => return None,
    };
    Some(place)
}
