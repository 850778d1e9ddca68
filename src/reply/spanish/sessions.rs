//! Sessions and weeks.

use super::Spanish;
use crate::coaching::WeekKind;
use crate::reply::News;
use crate::reply::phrases::{Sessions, count};
use crate::units::SendOff;

impl Sessions for Spanish {
    fn head(&self, day: &str, distance: &str, minutes: u32, title: &str) -> String {
        format!("{day}, {distance} en {minutes} min, {title}:")
    }

    fn week(&self, kind: WeekKind, starts: &str, sessions: usize, distance: &str) -> String {
        let sessions = count(sessions, "entreno", "entrenos");
        format!("Semana {} desde {starts}: {sessions}, {distance}.", self::kind(kind))
    }

    fn lane(&self, lane: u8) -> String {
        format!("C{lane}")
    }

    fn stop_rule(&self, over: &str, then: Option<SendOff>) -> String {
        match then {
            Some(on) => format!(
                "Dos seguidas por encima de {over}: cada {on}, mismo ritmo; otra vez: suave hasta el final."
            ),
            None => format!("Dos seguidas por encima de {over}: deja el resto de la ronda."),
        }
    }

    fn before_it(&self) -> &'static str {
        "Antes:"
    }

    fn only_if_well(&self) -> &'static str {
        "Para cuando ya no haya sintomas y pasen unos dias: escribe MEJOR al estarlo."
    }

    fn unheard_since(&self, day: &str) -> String {
        format!("Sin noticias desde el {day}: si nadaste, dilo con su dia (hecho 1500 vie).")
    }

    fn then_the_race(&self) -> &'static str {
        "La prueba va antes de la vuelta a la calma. Nada la tuya, y mandame el tiempo."
    }

    fn how_to_test(&self, distance: u32) -> String {
        format!(
            "Ritmo uniforme desde el primer largo, lo que aguantes. Luego: {distance} test y el tiempo."
        )
    }

    fn for_alone(&self) -> &'static str {
        "Con el grupo, nada su serie (MI CALLE); esto es para nadar sin el grupo."
    }

    fn harder_sessions_after_yes(&self) -> &'static str {
        "Las mas duras llegan con el si de tu entrenador: PLAN pide una semana."
    }

    fn another_than_told(&self, day: &str, news: News) -> String {
        let why = match news {
            News::Away => "estas fuera",
            News::Better => "estas volviendo",
            News::Break => "llevas dias sin nadar",
            News::Corrected => "se corrigio un resultado",
            News::Done => "cuenta como fue el ultimo entreno",
            News::Elsewhere => "cuenta tu otro entreno",
            News::Limits => "hay cosas que dejas fuera o que fijo tu entrenador",
            News::Profile => "cambiaste tus datos",
            News::Race => "hay una prueba",
            News::Set => "cuenta tu ultima serie",
            News::Shut => "la piscina esta cerrada",
            News::SquadSet => "el grupo nada fuerte al lado",
            News::Test => "cuenta tu test",
            News::Tired => "dijiste que hay cansancio",
            News::Trouble => "hay dolor o malestar",
            News::Wish => "lo pediste",
        };
        format!("Cambia lo dicho para el {day}: {why}.")
    }

    fn set_waits(&self, set: &str) -> String {
        format!("Hoy no cabe {set}: espera al proximo dia fuerte.")
    }

    fn test_is_promised(&self) -> &'static str {
        "Hoy no hay test: espera al proximo dia fuerte."
    }

    fn other_week(&self, asked: WeekKind, given: WeekKind) -> String {
        format!(
            "Pediste una semana {}; las reglas dan una {} (escribe PORQUE).",
            kind(asked),
            kind(given)
        )
    }
}

fn kind(kind: WeekKind) -> &'static str {
    match kind {
        WeekKind::Easy => "suave",
        WeekKind::Normal => "normal",
        WeekKind::Hard => "fuerte",
        WeekKind::Taper => "de puesta a punto",
        WeekKind::Return => "de vuelta",
    }
}
