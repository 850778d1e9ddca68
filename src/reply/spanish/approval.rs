//! Plans that wait for the coach's yes.

use super::Spanish;
use crate::reply::ApprovalRefusal;
use crate::reply::phrases::{Approvals, Sessions, count};

impl Approvals for Spanish {
    fn plans_wait(&self, wanted: bool) -> &'static str {
        if wanted {
            "Los planes esperan tu si desde ahora; los suaves salen ya. EQUIPO EN ESPERA los \
             muestra, APRUEBA TODOS los envia, APROBAR PLANES NO lo quita."
        } else {
            "Desde ahora los planes salen al momento, segun las reglas."
        }
    }

    fn how_many_wait(&self, number: usize) -> String {
        let plans = count(number, "plan espera", "planes esperan");
        format!("{plans} el si del entrenador (APRUEBA TODOS, APRUEBA HERON, APRUEBA HERON NO):")
    }

    fn none_waits(&self, wanted: bool) -> &'static str {
        if wanted {
            "Ningun plan espera un si."
        } else {
            "Ningun plan espera: salen al momento. Con APROBAR PLANES SI esperan al entrenador."
        }
    }

    fn waiting_line(&self, who: &str, distance: &str, sessions: usize, hard: usize) -> String {
        let sessions = count(sessions, "sesion", "sesiones");
        let hard = count(hard, "dura", "duras");
        format!("{who}: {distance}, {sessions}, {hard}")
    }

    fn waits_for_yes(&self, line: &str) -> String {
        format!("Plan en espera, {line}.")
    }

    fn went_out(&self, names: &str) -> String {
        format!("Enviada la semana de {names}.")
    }

    fn were_lowered(&self, names: &str) -> String {
        format!("Antes rebajada, por lo que surgio desde entonces: {names}.")
    }

    fn not_told(&self, names: &str) -> String {
        format!("No puede salir mensaje a {names}: SIGUIENTE va con el plan igual.")
    }

    fn wait_on(&self, names: &str) -> String {
        format!("Sin enviar, no puede nadar hasta que lo liberes: {names}.")
    }

    fn was_sent_back(&self, who: &str, told: bool) -> String {
        match told {
            true => format!("La semana de {who} no sale, y {who} lo sabe por mensaje."),
            false => format!("La semana de {who} no sale. No puede salir mensaje a {who}."),
        }
    }

    fn yours_waits(&self, planned: bool) -> &'static str {
        if planned {
            "Tu entrenador mira esa semana primero; luego te llega por mensaje. Hasta entonces \
             SIGUIENTE va con tu ultimo plan, y PLAN SUAVE sale ya."
        } else {
            "Tu entrenador mira esa semana primero; luego te llega por mensaje. Hasta entonces \
             SIGUIENTE da sesiones suaves, y PLAN SUAVE sale ya."
        }
    }

    fn coach_says_yes(&self, lowered: bool) -> &'static str {
        if lowered {
            "Tu entrenador dice si a tu semana, rebajada por lo que surgio desde entonces:"
        } else {
            "Tu entrenador dice si a tu semana:"
        }
    }

    fn yours_sent_back(&self, planned: bool) -> &'static str {
        if planned {
            "Tu entrenador prefiere otra semana para ti: habladlo. SIGUIENTE va con tu ultimo plan."
        } else {
            "Tu entrenador prefiere otra semana para ti: habladlo. SIGUIENTE da sesiones suaves hasta \
             entonces."
        }
    }

    fn yours_waits_again(&self) -> &'static str {
        "Tu entrenador mira tu semana otra vez: no la sigas por ahora. SIGUIENTE muestra que \
         nadar hasta entonces."
    }

    fn approval_refusal(&self, why: &ApprovalRefusal) -> String {
        match why {
            ApprovalRefusal::NothingWaits { who } => {
                format!(
                    "Ningun plan de {who} espera un si. EQUIPO EN ESPERA muestra los que esperan."
                )
            }
            ApprovalRefusal::AfterYes => self.harder_sessions_after_yes().to_owned(),
        }
    }
}
