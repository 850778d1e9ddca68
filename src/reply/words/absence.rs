//! Days without a swim: missed, away, well again, not tonight.

use jiff::civil::Date;

use crate::message::Name;
use crate::reply::Voice;

impl Voice {
    /// Away until then.
    pub(super) fn away(self, from: Option<Date>, until: Date) -> String {
        let from = from.map_or(String::new(), |from| {
            say!(self, " from {day}", " desde el {day}", [day = self.day(from)])
        });
        say!(
            self,
            "Away{from} until {until}, noted. You will start again gently.",
            "Anotado: fuera{from} hasta el {until}. Volveras poco a poco.",
            [from, until = self.day(until)]
        )
    }

    /// All well again, after illness from a day on.
    pub(super) fn better(self, from: Option<Date>) -> String {
        match from {
            Some(from) => say!(
                self,
                "Good to hear. Clear days first: no training before {day}, then a gentle start.",
                "¡Qué bien! Primero dias de descanso: no entrenes antes del {day}; luego empieza \
                 suave.",
                [day = self.day(from)]
            ),
            None => say!(
                self,
                "Good to hear. The next session starts gently; text NEXT for it.",
                "¡Qué bien! El proximo entreno empieza suave; escribe SIGUIENTE para verlo."
            ),
        }
    }

    /// Someone swims no more that night, or not at all.
    pub(super) fn not_tonight(self, who: Option<&Name>, on: Date, done: bool) -> String {
        let day = self.day(on);
        match (who, done) {
            (None, true) => say!(
                self,
                "You have told what you swam on {day}: that was it.",
                "Ya dijiste lo que nadaste el {day}: eso fue todo.",
                [day]
            ),
            (Some(who), true) => {
                say!(self, "{who} is done for {day}.", "{who} ha terminado el {day}.", [who, day])
            }
            (None, false) => say!(
                self,
                "You are down as out on {day}. Text IN if you come.",
                "El {day} no vienes. Escribe VOY si vienes.",
                [day]
            ),
            (Some(who), false) => {
                say!(self, "{who} is down as out on {day}.", "{who} no viene el {day}.", [who, day])
            }
        }
    }
}
