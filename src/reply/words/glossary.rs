//! The words of the trade that we use, in a line each; what we are, and what we keep.
//!
//! Meanings are those of the sport's glossaries: the send-off and the interval, descend,
//! build, negative split, taper, rate of perceived exertion (Borg's CR10, 1 to 10), critical
//! speed as the pace that settles over long swims.

use super::small::difference;
use crate::message::Term;
use crate::reply::Voice;
use crate::units::{Centis, SendOff};

/// So many words are explained at once.
const AT_ONCE: usize = 2;

/// The send-off of the example, in seconds.
const ON_S: u32 = 65;

/// The time to hold of the example, in seconds.
const HOLD_S: u32 = 48;

// What is told, and in which order.
impl Voice {
    /// What words of the trade mean.
    pub(super) fn meaning(
        self,
        terms: &[Term],
        on: Option<SendOff>,
        hold: Option<Centis>,
    ) -> Vec<String> {
        let terms = terms.iter().take(AT_ONCE);
        terms.map(|term| self.term(*term, on, hold)).collect()
    }
}

// In which words.
impl Voice {
    /// A word of the trade.
    fn term(self, term: Term, on: Option<SendOff>, hold: Option<Centis>) -> String {
        let fixed = match term {
            Term::SendOff => return self.meaning_of_send_off(on, hold),
            Term::Hold => return self.meaning_of_hold(hold),
            Term::Css => self.pick(
                "Critical pace (CSS): the fastest pace per 100 that settles over a long swim. \
                 TARGETS shows yours.",
                "Ritmo critico (CSS, umbral): lo mas rapido por 100 que aguantas mucho rato. \
                 OBJETIVOS dice el tuyo.",
            ),
            Term::Rpe => self.pick(
                "RPE: how hard it felt, 1 very easy to 10 all you had.",
                "RPE: lo duro que fue, de 1 muy suave a 10 a tope.",
            ),
            Term::Descend => self.pick(
                "Descend: each repeat faster than the one before; the distance stays.",
                "Descendente: cada repeticion mas rapida que la anterior; la distancia no cambia.",
            ),
            Term::Build => self.pick(
                "Build: start easy and get faster within each repeat.",
                "Progresivo: empieza suave y acelera dentro de cada repeticion.",
            ),
            Term::NegativeSplit => self.pick(
                "Negative split: the second half faster than the first.",
                "Split negativo: la segunda mitad mas rapida que la primera.",
            ),
            Term::Split => self.pick(
                "Split: the time of one part of a swim, say each 50 of a 200.",
                "Parcial: el tiempo de una parte, por ejemplo cada 50 de un 200.",
            ),
            Term::Im => self.pick(
                "IM: fly, back, breast, free, in that order.",
                "Estilos: mariposa, espalda, braza, libre, en ese orden.",
            ),
            Term::Pull => self.pick(
                "Pull: arms alone, a buoy between the legs.",
                "Brazos (pull): brazos nada mas, con pull buoy entre las piernas.",
            ),
            Term::Kick => self.pick(
                "Kick: legs alone, with or without a board.",
                "Patada: piernas nada mas, con o sin tabla.",
            ),
            Term::Drill => self.pick(
                "Drill: a slow exercise for one part of the stroke.",
                "Técnica: un ejercicio lento para una parte del estilo.",
            ),
            Term::Best => self.pick(
                "PB: your best time so far. BEST shows yours.",
                "Mejor marca (PB): tu mejor tiempo hasta ahora. MARCAS dice las tuyas.",
            ),
            Term::Taper => self.pick(
                "Taper: less distance in the days before a race, so that you are fresh.",
                "Taper: menos metros los dias antes de competir, para llegar con fuerzas.",
            ),
            Term::Fade => self.pick(
                "Fade: by how many seconds a repeat you get slower in a set.",
                "Caida: los segundos que pierdes por repeticion en una serie.",
            ),
            Term::Repeats => self.pick(
                "8x50: eight swims of 50, with a break after each.",
                "8x50: ocho veces 50, con una pausa tras cada una.",
            ),
            Term::SwimDown => self.pick(
                "Swim-down: easy swimming at the end, so that you recover.",
                "Vuelta a la calma: nado suave al final, para recuperar.",
            ),
            Term::Test => self.pick(
                "Test: one swim over a distance as fast as you evenly can, timed. Text 200 test \
                 3:12",
                "Test: un nado cronometrado, lo mas rapido y parejo que puedas. Escribe 200 test \
                 3:12",
            ),
            Term::Course => self.pick(
                "SCM: 25 m pool. LCM: 50 m. SCY: 25 yd.",
                "SCM: piscina de 25 m. LCM: 50 m. SCY: 25 yd.",
            ),
        };
        fixed.to_owned()
    }

    /// Leave every so often.
    fn meaning_of_send_off(self, on: Option<SendOff>, hold: Option<Centis>) -> String {
        let on = on.or_else(|| SendOff::new(ON_S).ok());
        let hold = hold.or_else(|| Centis::from_whole_seconds(HOLD_S).ok());
        let rest = on.zip(hold).and_then(|(on, hold)| on.rest_after(hold));
        let every = on.map(|on| on.to_string()).unwrap_or_default();
        let example = rest.zip(hold).map(|(rest, hold)| {
            let (hold, rest) = (hold.short(), difference(rest));
            say!(
                self,
                " In at {hold}: {rest} rest.",
                " Llegas en {hold}: {rest} de descanso.",
                [hold, rest]
            )
        });
        let example = example.unwrap_or_default();
        say!(
            self,
            "On {every}: leave every {every}, swim and rest both within it.{example}",
            "Cada {every}: sales cada {every}, con el nado y el descanso dentro.{example}",
            [every, example]
        )
    }

    /// Each in so much.
    fn meaning_of_hold(self, hold: Option<Centis>) -> String {
        let hold = hold.map_or_else(|| HOLD_S.to_string(), Centis::short);
        say!(
            self,
            "Hold {hold}: every repeat in {hold}, the last like the first; no faster.",
            "Hold {hold}: cada repeticion en {hold}, la ultima como la primera; no mas rapido.",
            [hold]
        )
    }

    /// What we are.
    pub(super) fn what_we_are(self) -> Vec<String> {
        vec![
            self.pick(
                "A computer program, no person. I work out times and sessions from what is \
                 texted; your coach reads what matters.",
                "Un programa, no una persona. Calculo tiempos y sesiones con lo que me escriben; \
                 lo importante lo lee tu coach.",
            )
            .to_owned(),
        ]
    }

    /// What is kept, and who sees it.
    pub(super) fn what_is_kept(self) -> Vec<String> {
        let lines = self.pick(
            [
                "Kept: your texts, times, sessions, who came, and pain or illness you tell me. \
                 You and your coaches see it; a guardian sees their child's.",
                "Worries texted as WORRIED go to the welfare officer alone. FORGET ME erases what \
                 is yours.",
            ],
            [
                "Guardo tus mensajes, tiempos, sesiones, asistencia y el dolor o enfermedad que \
                 cuentes. Lo veis tu y tus coaches; de un menor tambien quien responde por él.",
                "Lo escrito con PREOCUPADO va a la persona de bienestar y a nadie mas. OLVIDAME borra \
                 lo tuyo.",
            ],
        );
        lines.into_iter().map(str::to_owned).collect()
    }
}
