//! What is known of what was asked.

use super::Spanish;
use crate::reply::SwumReply;
use crate::reply::phrases::{Questions, count};

impl Questions for Spanish {
    fn test_called(&self, distance: u32, day: &str) -> String {
        format!("proximo test {distance} el {day}, noche de test del equipo.")
    }

    fn test_due(&self, from: Option<&str>, distance: Option<u32>, last: &str) -> String {
        let due = from.map_or("ya toca test".to_owned(), |from| format!("proximo test el {from}"));
        let best = distance.map_or(String::new(), |far| format!(", mejor un {far}"));
        format!("{due}{best}. Ultimo: {last}.")
    }

    fn first_test(&self) -> &'static str {
        "aun sin test: un 200 o 400 parejo, con fuerzas y calentando antes; luego escribe 200 test 3:12"
    }

    fn test_waits(&self) -> &'static str {
        "sin test mientras haya algo abierto (dolor, enfermedad o un alto)."
    }

    fn swims_in(&self, lane: &str, day: &str) -> String {
        format!("en la {lane} el {day}.")
    }

    fn nobody_in(&self) -> &'static str {
        "nadie"
    }

    fn swum_in(&self, days: &str, swum: &SwumReply) -> String {
        let mut said = vec![match swum.sessions {
            0 => "ninguna sesion registrada".to_owned(),
            sessions => count(sessions, "sesion", "sesiones"),
        }];
        said.extend((swum.metres > 0).then(|| format!("{}m", swum.metres)));
        said.extend((swum.tests > 0).then(|| count(swum.tests, "test", "tests")));
        said.extend(
            (swum.sets > 0).then(|| count(swum.sets, "serie con tiempos", "series con tiempos")),
        );
        format!("{days}: {}.", said.join(", "))
    }

    fn counted_back_to(&self, day: &str) -> String {
        format!("No cuento antes del {day}.")
    }

    fn held_so_many(&self, held: u16, of: u16) -> String {
        format!("{held} de {of} a ritmo")
    }

    fn is_on(&self, night: &str) -> String {
        format!("Si hay: {night}.")
    }

    fn begins_at(&self, time: &str) -> String {
        format!("empieza a las {time}.")
    }

    fn booked_until(&self, time: &str, left_min: Option<u32>) -> String {
        match left_min {
            Some(left) => format!("Reservado hasta las {time}, quedan {left} min."),
            None => format!("Reservado hasta las {time}."),
        }
    }

    fn one_of_so_many(&self, number: u16, of: u16) -> String {
        format!("la {number} de {of}")
    }

    fn in_round(&self, round: u16, of: u16) -> String {
        format!("vuelta {round} de {of}")
    }

    fn on_the_way_to(&self, part: &str) -> String {
        format!("cambio; ahora {part}")
    }

    fn and_then(&self, parts: &str) -> String {
        format!("luego {parts}")
    }

    fn lane_ends(&self, time: &str) -> String {
        format!("acaba a las {time}")
    }

    fn all_swum(&self) -> &'static str {
        "por el reloj ya acabada"
    }

    fn no_lanes(&self, day: &str) -> String {
        format!("Aun no hay calles repartidas para el {day}.")
    }

    fn no_results(&self, day: Option<&str>) -> String {
        match day {
            Some(day) => format!("No hay tiempos guardados del {day}."),
            None => "Aun no hay tiempos guardados.".to_owned(),
        }
    }

    fn no_set_on(&self, day: &str) -> String {
        format!("No hay entreno del equipo guardado del {day}.")
    }

    fn no_test_night(&self) -> &'static str {
        "No hay noche de test. Para convocarla: test night 400 jue"
    }

    fn no_night_on(&self, day: &str) -> String {
        format!("El {day} no hay entreno del equipo.")
    }

    fn nights_unknown(&self) -> &'static str {
        "Nadie me ha dicho cuando nada el equipo: preguntale a tu coach."
    }

    fn carried_to_deck(&self, who: &str, asks: bool, text: &str) -> String {
        format!("{who} {}: {text}", if asks { "pregunta" } else { "dice" })
    }

    fn guardian_of(&self, names: &str) -> String {
        format!("Quien responde por {names}")
    }

    fn given_to_deck(&self) -> &'static str {
        "Se lo he pasado a tu coach."
    }
}
