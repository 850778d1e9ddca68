//! What keeps somebody out of the water.

use super::Spanish;
use crate::message::Name;
use crate::reply::phrases::Gates;

impl Gates for Spanish {
    fn still_ill(&self, who: Option<&Name>) -> String {
        match who {
            None => {
                "Por tu propia palabra no estas bien: nada de entrenar. Escribe MEJOR cuando pase; \
                     despues van dias de descanso."
                    .to_owned()
            }
            Some(who) => {
                format!("{who} tiene una enfermedad: no entrena hasta que pase, y luego descansa.")
            }
        }
    }

    fn still_clearing(&self, who: Option<&Name>, from: &str) -> String {
        match who {
            None => format!("Primero dias de descanso: no entrenes antes del {from}."),
            Some(who) => format!("{who} tiene primero dias de descanso: no antes del {from}."),
        }
    }
}
