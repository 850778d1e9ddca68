//! The texts that come every week.

use super::Spanish;
use crate::profile::Unasked;
use crate::reply::WeeklyRefusal;
use crate::reply::phrases::{Weeklies, count};

impl Weeklies for Spanish {
    fn week_of(&self, squad: &str, days: &str, swam: usize) -> String {
        let swam = count(swam, "persona nado", "personas nadaron");
        format!("{squad}, {days}: {swam}.")
    }

    fn days_to(&self, from: &str, to: &str) -> String {
        format!("{from} al {to}")
    }

    fn tested(&self, list: &str) -> String {
        format!("Tests: {list}.")
    }

    fn came(&self, list: &str) -> String {
        format!("Dias nadados: {list}.")
    }

    fn getting_faster(&self, names: &str) -> String {
        format!("Mejorando: {names}.")
    }

    fn getting_slower(&self, names: &str) -> String {
        format!("Empeorando: {names}.")
    }

    fn not_heard_from(&self, names: &str) -> String {
        format!("Sin noticias de: {names}.")
    }

    fn tests_overdue(&self, names: &str) -> String {
        format!("Test atrasado: {names}.")
    }

    fn tests_fall_due(&self, names: &str) -> String {
        format!("Les toca test esta semana: {names}.")
    }

    fn nights_ahead(&self, list: &str) -> String {
        format!("Proximas sesiones: {list}.")
    }

    fn night_of_test(&self, day: &str, distance: u32) -> String {
        format!("{day} (test {distance})")
    }

    fn quiet_week(&self) -> &'static str {
        "Semana tranquila: nadie nado, nada que contar."
    }

    fn your_week(&self, days: &str, swims: usize, metres: u32) -> String {
        let far = if metres > 0 { format!(", {metres}m") } else { String::new() };
        format!("Tu semana, {days}: nadaste {}{far}.", count(swims, "dia", "dias"))
    }

    fn you_held(&self, set: &str, held: u16, of: u16) -> String {
        format!("{set}: mantuviste {held} de {of}.")
    }

    fn go_carefully(&self) -> &'static str {
        "De momento con calma, y para si duele."
    }

    fn test_is_due(&self) -> &'static str {
        "Toca un test cuando te sientas con fuerzas."
    }

    fn to_end_notes(&self) -> &'static str {
        "Para no recibirla: SEMANAL NO."
    }

    fn digest_comes(&self, when: &str, counts: bool) -> String {
        let counts = if counts { ", y quien viene cada noche de equipo" } else { "" };
        format!("El resumen de la semana llega {when}{counts}. RESUMEN NO lo quita.")
    }

    fn digest_ends(&self, counts: bool) -> &'static str {
        if counts {
            "Ya no llega el resumen; quien viene cada noche si. RESUMEN muestra la semana."
        } else {
            "Ya no llegan ni el resumen ni quien viene. RESUMEN muestra la semana."
        }
    }

    fn note_comes(&self, when: &str) -> String {
        format!(
            "La nota de tu semana llega {when} si nadaste. SEMANAL NO la quita, SEMANAL la muestra ya."
        )
    }

    fn note_ends(&self) -> &'static str {
        "Ya no llega la nota semanal. SEMANAL muestra tu semana."
    }

    fn shown_whole(&self, what: Unasked) -> &'static str {
        match what {
            Unasked::Count => "EQUIPO HOY lo muestra todo.",
            Unasked::Digest => "RESUMEN lo muestra todo.",
            Unasked::Note => "SEMANAL lo muestra todo.",
            Unasked::Advice => "SEMANAL muestra tus series.",
        }
    }

    fn weekly_refusal(&self, why: WeeklyRefusal) -> &'static str {
        match why {
            WeeklyRefusal::Minor => "La nota semanal es para mayores de edad. YO muestra como vas.",
            WeeklyRefusal::HersToSay => {
                "La nota semanal la pide cada cual desde su telefono: SEMANAL SI."
            }
            WeeklyRefusal::QuietHours => {
                "Entre las 20:00 y las 08:00 no se envia nada sin pedirlo. Asi: resumen dom 18:00"
            }
        }
    }
}
