//! What the things that were said are called.

use super::Spanish;
use super::words::pain_in;
use crate::message::Kind;
use crate::reply::phrases::{Statements, length, time};

impl Statements for Spanish {
    fn said(&self, kind: &Kind) -> String {
        let fixed = match kind {
            Kind::Test(test) => {
                return format!("un test de {} en {}", length(test.distance), time(&test.time));
            }
            Kind::TimedTest(test) => {
                return format!("{} en {}", length(test.distance), test.duration.short());
            }
            Kind::SetResult(set) => return format!("{}x{}", set.count, length(set.distance)),
            Kind::Pain(pain) => return pain_in(&pain.place),
            Kind::Set(_) => "una serie",
            Kind::Done(_) => "un entreno hecho",
            Kind::Missed { .. } => "un dia sin nadar",
            Kind::Ill { .. } => "enfermedad",
            Kind::Better => "que ya va mejor",
            Kind::Away { .. } => "unos dias fuera",
            Kind::Faint => "mareo",
            Kind::Plan(_) => "plan",
            Kind::Next(_) => "siguiente",
            Kind::Profile(_) => "un ajuste",
            Kind::Race { .. } => "una carrera",
            Kind::Squad { .. } => "equipo",
            Kind::Targets { .. } => "objetivos",
            _ => "una orden",
        };
        fixed.to_owned()
    }
}
