//! What was stored, what it means, what to swim next.

use super::Spanish;
use crate::coaching::{Change, Realism};
use crate::reply::phrases::{BesideBest, Results, ShownBand, count, difference};
use crate::swim::prediction::PredictionBasis;
use crate::units::{Centis, Rpe, Start};

impl Results for Spanish {
    fn stored(&self, what: &str) -> String {
        format!("Guardado: {what}.")
    }

    fn coach_told(&self, set: &str) -> String {
        format!("De tu entrenador: {set}.")
    }

    fn stored_already(&self, what: &str) -> String {
        format!("{what} ya estaba guardado, hace unos minutos: cuenta una vez.")
    }

    fn stored_beside(&self, what: &str, name: &str, best: BesideBest) -> String {
        match best {
            BesideBest::First => {
                format!("Guardado: {what}. Primer {name}: buen punto de partida.")
            }
            BesideBest::Faster(by) => {
                format!("Guardado: {what}, mejor marca por {}. ¡Muy bien nadado!", difference(by))
            }
            BesideBest::Equal => format!("Guardado: {what}, igual que la mejor marca."),
            BesideBest::Slower { by, best } => {
                format!(
                    "Guardado: {what}, a {} de la mejor marca, {}.",
                    difference(by),
                    best.short()
                )
            }
        }
    }

    fn start_taken(&self, start: Start) -> &'static str {
        match start {
            Start::Push => "Cuenta como salida desde la pared; si no, escribe DE SALTO.",
            Start::Dive => "Cuenta como salida de salto; si no, escribe EMPUJE.",
            Start::Water => "Cuenta como salida en el agua; si no, escribe EMPUJE.",
        }
    }

    fn began(&self, tests: &str, start: Start) -> String {
        match start {
            Start::Push => format!("{tests}: desde la pared."),
            Start::Dive => format!("{tests}: de salto. Desde la pared, como salen las series:"),
            Start::Water => format!("{tests}: desde el agua."),
        }
    }

    fn by_coach(&self, targets: &str) -> String {
        format!("Del entrenador: {targets}.")
    }

    fn even_pace(&self, targets: &str) -> String {
        format!("Ritmo uniforme: {targets}.")
    }

    fn target(&self, distance: u32, time: &str) -> String {
        format!("{distance} en {time}")
    }

    fn sharpened_by(&self, distance: u32) -> String {
        format!("; un test de {distance} lo afinaria")
    }

    fn critical_guess(&self, band: &ShownBand, sharpened: &str) -> String {
        let ShownBand { pace, low, high } = band;
        format!(
            "Ritmo critico: unos {pace} por 100, calculado con un test ({low}-{high}){sharpened}."
        )
    }

    fn critical_from(&self, tests: usize, band: &ShownBand, sharpened: &str) -> String {
        let ShownBand { pace, low, high } = band;
        format!("Ritmo critico: unos {pace} por 100 ({low}-{high}, de {tests} tests){sharpened}.")
    }

    fn no_critical(&self, test_next: Option<u32>) -> String {
        match test_next {
            Some(distance) => {
                format!("Con esto aun no hay ritmo critico: toca un test de {distance}.")
            }
            None => "Con esto aun no hay ritmo critico.".to_owned(),
        }
    }

    fn next(&self) -> &'static str {
        "Siguiente:"
    }

    fn targets_from(&self, trial: &str, day: &str, targets: &str) -> String {
        format!("Del {trial} ({day}): {targets}.")
    }

    fn held(&self, held: usize, of: usize, target: Option<&str>) -> String {
        match target {
            Some(target) => format!("{held} de {of} aguantadas a {target}"),
            None => format!("{held} de {of} aguantadas"),
        }
    }

    fn lost(&self, lost: usize) -> String {
        format!("{} {lost}", if lost == 1 { "se fue" } else { "se fueron" })
    }

    fn first_lost(&self, number: usize) -> String {
        format!("la primera, la {number}")
    }

    fn mean(&self, mean: &str) -> String {
        format!("Media {mean}")
    }

    fn fade(&self, seconds: f64) -> String {
        format!("{seconds:+.1} s en cada repeticion")
    }

    fn slower_is_fine(&self) -> &'static str {
        "Este tipo de serie siempre puede ir mas lento; primero, la técnica."
    }

    fn change(&self, what: Change, set: &str, target: &str, held: bool) -> String {
        match what {
            Change::FewerRepeats => format!("{set}: menos, al mismo ritmo."),
            Change::LongerSendOff => {
                format!("{set}: mas descanso, al mismo ritmo.")
            }
            Change::MoreRepeats => format!("¡Bien aguantado! {set}: un paso mas."),
            Change::ShorterSendOff => {
                format!("¡Bien aguantado! {set}: menos descanso.")
            }
            Change::FasterTarget => {
                format!("¡Dos veces aguantado! {set}: un poco mas rapido.")
            }
            Change::SlowerStart => {
                format!("Salida muy rapida. {set}: empieza en {target}.")
            }
            Change::Same if held => format!("¡Todas aguantadas! {set}: lo mismo."),
            Change::Same => format!("{set}: lo mismo."),
            Change::Rest => {
                "El ritmo no salio desde el principio: la serie no cambia. ¿Dormiste mal, hay \
                 malestar o dolor? Lo siguiente es suave; escribe como estas."
                    .to_owned()
            }
            Change::Retest => {
                "Dos recortes con este objetivo: ya no vale. Toca un test nuevo.".to_owned()
            }
        }
    }

    fn beside_goal(&self, time: Centis, goal: Centis) -> String {
        match (goal.less(time), time.less(goal)) {
            (Some(by), _) => {
                format!(
                    "Objetivo {}: logrado, con {} de sobra. ¡Enhorabuena!",
                    goal.short(),
                    difference(by)
                )
            }
            (_, Some(by)) => {
                format!("A {} de tu objetivo de {}: ya llegara.", difference(by), goal.short())
            }
            (None, None) => format!("Objetivo {}: clavado. ¡Enhorabuena!", goal.short()),
        }
    }

    fn farther(&self, distance: &str) -> String {
        format!("{distance} sin parar, por primera vez aqui: ¡un hito!")
    }

    fn cut_short(&self) -> &'static str {
        "Menos de lo previsto tambien vale; bien por ir. El proximo va a medida."
    }

    fn eased(&self) -> &'static str {
        "Un dia duro, y aun asi fuiste. El siguiente va a tu medida: menos."
    }

    fn next_hard_swim(&self) -> &'static str {
        "Proximo dia fuerte"
    }

    fn swum_again(&self) -> &'static str {
        "Cuando la repitas,"
    }

    fn in_place_of(&self, set: &str) -> String {
        format!("Va en lugar de {set}, que ya no toca.")
    }

    fn off_by_test(&self, set: &str) -> String {
        format!("La serie {set} que tocaba ya no vale: hay ritmos nuevos.")
    }

    fn a_session(&self) -> &'static str {
        "entreno"
    }

    fn effort_of(&self, rpe: Rpe) -> String {
        format!("esfuerzo {}", rpe.value())
    }

    fn stored_for(&self, what: &str, day: &str) -> String {
        format!("Guardado para {day}: {what}.")
    }

    fn elsewhere(&self) -> &'static str {
        "Cuenta como entreno, no como metros nadados."
    }

    fn in_seven_days(&self, distance: &str) -> String {
        format!("{distance} en siete dias.")
    }

    fn how_hard(&self) -> &'static str {
        "¿Qué esfuerzo, de 0 a 10? La proxima vez, todo junto: hecho 1500 45min rpe 6"
    }

    fn predicted(&self, distance: &str, [time, low, high]: [&str; 3], basis: &str) -> String {
        format!("{distance}: unos {time} (de {low} a {high}), {basis}.")
    }

    fn basis(&self, tests: usize, basis: PredictionBasis) -> String {
        let tests = count(tests, "test", "tests");
        match basis {
            PredictionBasis::Law(exponent) => {
                format!("ley de potencia de {tests}, exponente {exponent:.2}")
            }
            PredictionBasis::Curve(_) => format!("tu curva de {tests}"),
        }
    }

    fn far_from_tests(&self) -> &'static str {
        "Queda lejos de tus distancias de test: tomalo con cautela."
    }

    fn race_on(&self, day: &str, weeks: usize, time: &str) -> String {
        let weeks = count(weeks, "semana", "semanas");
        format!("Carrera el {day}, dentro de {weeks}: cuenta con unos {time} ese dia.")
    }

    fn goal(&self, time: &str, verdict: Realism) -> String {
        let verdict = match verdict {
            Realism::Likely => "probable",
            Realism::Possible => "posible",
            Realism::FarOff => "lejos por ahora",
        };
        format!("Meta {time}: {verdict}.")
    }

    fn even_splits(&self, splits: &str) -> String {
        format!("Pasos a ritmo uniforme: {splits}.")
    }

    fn taper_from(&self, day: &str) -> String {
        format!("Puesta a punto desde {day}.")
    }
}
