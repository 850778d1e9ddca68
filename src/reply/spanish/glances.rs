//! The squad at a glance.

use super::Spanish;
use crate::message::SquadFilter;
use crate::reply::phrases::{Glances, Group};

impl Glances for Spanish {
    fn group(&self, group: Group) -> &'static str {
        match group {
            Group::Hurt => "MOLESTIAS",
            Group::Silent => "Sin noticias",
            Group::Slower => "Mas lentos",
            Group::Faster => "Mas rapidos",
            Group::Overdue => "Test pendiente",
            Group::Untested => "Aun sin test",
        }
    }

    fn asked_for(&self, filter: SquadFilter, number: usize) -> String {
        let number = match number {
            0 => "nadie".to_owned(),
            number => number.to_string(),
        };
        match filter {
            SquadFilter::Overdue => format!("{number} con test pendiente"),
            SquadFilter::Hurt => format!("{number} con molestias"),
            SquadFilter::Silent => format!("{number} sin noticias"),
            SquadFilter::Improving => {
                format!("{number} de verdad mas rapido que en el test anterior")
            }
            SquadFilter::Fading => format!("{number} de verdad mas lento que en el test anterior"),
            SquadFilter::Owed => format!("{number} sin hacer el test"),
            SquadFilter::Expected => format!("{number} vienen"),
            SquadFilter::Races => format!("{number} con carrera a la vista"),
            SquadFilter::Pace => format!("{number} por ritmo"),
        }
    }

    fn by_pace(&self) -> &'static str {
        "Ritmo critico por 100:"
    }
}
