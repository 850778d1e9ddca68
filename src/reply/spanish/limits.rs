//! What somebody can't or may not do.

use super::Spanish;
use crate::reply::phrases::{Limited, Words};
use crate::session::Limit;

impl Limited for Spanish {
    fn limit(&self, limit: Limit) -> String {
        match limit {
            Limit::Kit(kit) => format!("sin {}", self.equipment(kit)),
            Limit::Stroke(stroke) => format!("sin {}", self.stroke(stroke)),
            Limit::BreastKick => "sin patada de braza".to_owned(),
            Limit::Dives => "sin zambullidas".to_owned(),
            Limit::TumbleTurns => "sin virajes".to_owned(),
        }
    }

    fn left_out_by(&self, who: Option<&str>, all: bool, list: &str) -> String {
        match (who, all) {
            (_, true) => format!("Para todos, hasta que digas OK: {list}."),
            (Some(who), _) => format!("{who}: {list}, en cada entreno hasta que digas OK."),
            (None, _) => format!("Anotado: {list}, en cada entreno hasta que digas OK."),
        }
    }

    fn nothing_left_out(&self, who: Option<&str>, all: bool) -> String {
        match (who, all) {
            (_, true) => "Para todos: ya no se deja nada fuera.".to_owned(),
            (Some(who), _) => format!("{who}: ya no se deja nada fuera."),
            (None, _) => "Ya no se deja nada fuera.".to_owned(),
        }
    }

    fn within(&self, list: &str) -> String {
        format!("Dentro de lo permitido: {list}.")
    }

    fn set_changed_too(&self, day: &str) -> String {
        format!("El entreno del {day} cambia con ello: escribe esta noche.")
    }

    fn holds_for_all(&self, limits: &[Limit]) -> String {
        let list = self.limits(limits);
        let lift = list.replace("sin ", "").replace(',', "");
        format!("Para todo el grupo: {list}. Para levantarlo, escribe: todos {lift} ok")
    }

    fn kit_there_is(&self, list: &str) -> String {
        format!("Material: {list}; ningun otro en tus entrenos.")
    }
}
