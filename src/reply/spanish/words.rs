//! The small words: strokes, kit, levels, days, parts of a session, of a body.

use jiff::civil::Weekday;

use super::Spanish;
use crate::coaching;
use crate::reply::carried;
use crate::reply::phrases::Words;
use crate::session::{Part, Purpose};
use crate::units::{Course, Equipment, Level, Stroke};

impl Words for Spanish {
    fn stroke(&self, stroke: Stroke) -> &'static str {
        match stroke {
            Stroke::Free => "libre",
            Stroke::Back => "espalda",
            Stroke::Breast => "braza",
            Stroke::Fly => "mariposa",
            Stroke::Im => "estilos",
            Stroke::Kick => "patada",
            Stroke::Pull => "brazos",
            Stroke::Drill => "técnica",
            Stroke::Choice => "a elegir",
        }
    }

    fn equipment(&self, equipment: Equipment) -> &'static str {
        match equipment {
            Equipment::Fins => "aletas",
            Equipment::Paddles => "palas",
            Equipment::PullBuoy => "pull buoy",
            Equipment::Board => "tabla",
            Equipment::Snorkel => "tubo",
        }
    }

    fn level(&self, level: Level) -> &'static str {
        match level {
            Level::Easy => "suave",
            Level::Steady => "constante",
            Level::Threshold => "umbral",
            Level::Hard => "fuerte",
            Level::Sprint => "sprint",
        }
    }

    fn on(&self) -> &'static str {
        "cada"
    }

    fn rest(&self) -> &'static str {
        "descanso"
    }

    fn part(&self, part: Part) -> &'static str {
        match part {
            Part::WarmUp => "Calentamiento",
            Part::Drill => "Técnica",
            Part::Build => "Progresivo",
            Part::Test => "TEST",
            Part::Recovery => "Recuperacion",
            Part::Main => "Principal",
            Part::SwimDown => "Vuelta a la calma",
        }
    }

    fn title(&self, purpose: Purpose) -> &'static str {
        match purpose {
            Purpose::Endurance => "resistencia",
            Purpose::PaceHolding => "mantener el ritmo",
            Purpose::Race => "dia de la prueba",
            Purpose::RaceRehearsal => "ensayo de carrera",
            Purpose::Return => "vuelta suave",
            Purpose::Speed => "velocidad",
            Purpose::Technique => "técnica",
            Purpose::Test => "test",
            Purpose::Threshold => "umbral",
        }
    }

    fn course(&self, course: Course) -> &'static str {
        match course {
            Course::Short25m => "piscina de 25 m",
            Course::Long50m => "piscina de 50 m",
            Course::Short25yd => "piscina de 25 yd",
            Course::OpenWater => "aguas abiertas",
        }
    }

    fn weekday(&self, day: Weekday) -> &'static str {
        match day {
            Weekday::Monday => "lun",
            Weekday::Tuesday => "mar",
            Weekday::Wednesday => "mié",
            Weekday::Thursday => "jue",
            Weekday::Friday => "vie",
            Weekday::Saturday => "sab",
            Weekday::Sunday => "dom",
        }
    }

    fn months(&self) -> &'static [&'static str; 12] {
        &["ene", "feb", "mar", "abr", "may", "jun", "jul", "ago", "sep", "oct", "nov", "dic"]
    }

    fn and(&self) -> &'static str {
        "y"
    }

    fn or(&self) -> &'static str {
        "o"
    }

    fn sentence(&self, words: coaching::Words) -> String {
        carried(words.es)
    }
}

/// `dolor de hombro`, from the English name of the place; bare where the place
/// is unsaid or unknown.
pub fn pain_in(place: &str) -> String {
    place_in(place).map_or("dolor".to_owned(), |place| format!("dolor de {place}"))
}

/// `hombro`, from the English name of the place, where there is one.
pub fn place_in(place: &str) -> Option<&'static str> {
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
