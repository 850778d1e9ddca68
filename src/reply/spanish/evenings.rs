//! The squad's evening.

use super::Spanish;
use crate::coaching::evening::Beyond;
use crate::reply::Ends;
use crate::reply::phrases::Evenings;

impl Evenings for Spanish {
    fn night_head(&self, day: &str, title: &str, ends: &str) -> String {
        format!("{day}, {title}, {ends}.")
    }

    fn until(&self, ends: Ends) -> String {
        match ends {
            Ends::At(time) => format!("hasta {}", time.strftime("%H:%M")),
            Ends::In(seconds) => format!("{} min", seconds.div_ceil(60)),
        }
    }

    fn ends_apart(&self, minutes: u32) -> String {
        format!("Las calles acaban con {minutes} min de diferencia.")
    }

    fn too_long(&self, lane: &str, over_min: u32, booked_min: u16) -> String {
        format!("{lane} pasa {over_min} min de los {booked_min} reservados.")
    }

    fn minutes_over(&self, minutes: u32) -> String {
        format!("{minutes} min")
    }

    fn over_booked(&self, booked_min: u16, lanes: &str) -> String {
        format!("Pasan de los {booked_min} reservados: {lanes}.")
    }

    fn fits_with(&self, what: &str) -> String {
        format!("Para que quepa: {what}.")
    }

    fn never_fits(&self) -> &'static str {
        "No cabe nada mas que la vuelta a la calma."
    }

    fn fewer(&self, left: &str, had: u16) -> String {
        format!("{left}, no {had}")
    }

    fn more_of(&self, left: &str, had: u16) -> String {
        format!("{left} mas, no {had}")
    }

    fn no_more(&self, line: &str) -> String {
        format!("ningun {line} mas")
    }

    fn left_out(&self, line: &str) -> String {
        format!("sin {line}")
    }

    fn is_tight(&self, lane: &str, line: &str, fits: &str, guess: bool) -> String {
        let guess = if guess { " (estimado)" } else { "" };
        format!("{lane}: {line} va justo, con {fits} cabe{guess}.")
    }

    fn is_beyond(&self, lane: &str, hold: &str, beyond: &Beyond, own: Option<&str>) -> String {
        let own = own.map(|own| format!("; unos {own} ya es duro alli"));
        let own = own.unwrap_or_default();
        format!("{lane}: {hold} no esta al alcance de {} de {}{own}.", beyond.swimmers, beyond.of)
    }

    fn ends_now(&self, lane: &str, change: Option<&str>, now: &str, was: &str) -> String {
        match change {
            Some(change) => format!("{lane} {change}: {now} (antes {was})."),
            None => format!("{lane} {now} (antes {was})."),
        }
    }

    fn ends_still(&self, lane: &str, change: Option<&str>, now: &str) -> String {
        match change {
            Some(change) => format!("{lane} {change}: {now}, como antes."),
            None => format!("{lane} {now}, como antes."),
        }
    }

    fn purpose_gone(&self, lane: &str) -> String {
        format!("{lane}: no da tiempo a la parte principal; todo suave, ya volvera otro dia.")
    }

    fn still_too_long(&self, lane: &str) -> String {
        format!("{lane} se pasa aun asi: la vuelta a la calma no se recorta.")
    }

    fn counted_from_main(&self) -> &'static str {
        "No sé la hora de inicio: cuento desde la parte principal."
    }

    fn swim_easy(&self, names: &str) -> String {
        format!("Version suave: {names}.")
    }
}
