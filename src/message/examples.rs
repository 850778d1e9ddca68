//! One text that works, near to what was tried.

use super::normal::Token;
use crate::language::Language;

/// The verb or the kind of thing tried, and a text of it that works, in English
/// and in Spanish. Each is read by a test.
pub const EXAMPLES: [(&str, &str, &str); 51] = [
    ("test", "200 test 3:12", "200 marca 3:12"),
    (
        "held",
        "8x50 on 1:05 held 48 48 49 50 49 49 50 51",
        "8x50 cada 1:05 hice 48 48 49 50 49 49 50 51",
    ),
    ("avg", "8x50 on 1:05 avg 48.5", "8x50 cada 1:05 media 48.5"),
    ("made", "8x50 on 1:05 made 6/8", "8x50 cada 1:05 logre 6/8"),
    (
        "splits",
        "400 test 6:40 splits 1:36 1:40 1:42 1:42",
        "400 marca 6:40 parciales 1:36 1:40 1:42 1:42",
    ),
    ("done", "done 1800 in 45min rpe 6", "hecho 1800 en 45min rpe 6"),
    ("rpe", "done 1800 in 45min rpe 6", "hecho 1800 en 45min rpe 6"),
    ("run", "ran 10k 50min rpe 6", "corri 10k 50min rpe 6"),
    ("ride", "rode 60min rpe 5", "bici 60min rpe 5"),
    ("gym", "gym 45min rpe 6", "gimnasio 45min rpe 6"),
    ("missed", "missed tue", "falte martes"),
    ("pain", "shoulder hurts 4", "duele hombro 4"),
    ("plan", "plan easy week", "plan semana suave"),
    ("next", "next 45min no fins", "siguiente 45min sin aletas"),
    ("targets", "targets 50 100", "objetivos 50 100"),
    ("predict", "predict 1500", "pronostico 1500"),
    ("race", "race 1500 on 20 dec goal 26:00", "carrera 1500 20 diciembre meta 26:00"),
    ("compare", "compare heron teal", "compara heron teal"),
    ("swap", "swap tue thu", "cambia martes jueves"),
    ("away", "away until 20/11", "fuera hasta 20/11"),
    ("join", "join CODE-1 heron", "unir CODE-1 heron"),
    ("pool", "pool 25m", "piscina 25m"),
    ("born", "born 1981", "nacido 1981"),
    ("days", "days tue thu", "dias martes jueves"),
    ("language", "language es", "idioma es"),
    ("fix", "fix 3:14", "corrige 3:14"),
    ("entry", "entry 100 free 20 dec", "inscribe 100 libre 20 diciembre"),
    ("relay", "relay 4x50 free heron 31.2 teal 29.8", "relevo 4x50 libre heron 31.2 teal 29.8"),
    ("scratch", "scratch 100 free", "retira 100 libre"),
    ("squad", "squad overdue", "equipo pendientes"),
    ("lanes", "lanes 4", "calles 4"),
    ("squad-board", "board", "pizarra"),
    ("test-night", "test night 400", "noche de test 400"),
    ("apart", "apart heron teal", "separa heron teal"),
    ("together", "together heron teal", "junta heron teal"),
    ("here", "here heron teal", "presentes heron teal"),
    ("absent", "absent wren", "ausente wren"),
    ("tell", "tell heron: cap on", "avisa heron: gorro puesto"),
    ("note", "note heron: left early", "nota heron: se fue antes"),
    ("focus", "focus heron: long neck", "foco heron: cuello largo"),
    ("invite", "invite +15550123 assistant kestrel", "invita +15550123 ayudante kestrel"),
    ("hand-over", "hand over kestrel", "cede a kestrel"),
    ("remove", "remove kestrel", "quita kestrel"),
    ("add", "add robin 2:20", "suma robin 2:20"),
    ("claim", "claim CODE-1", "reclama CODE-1"),
    ("leave", "leave squad", "dejo el equipo"),
    ("squads", "squads", "equipos"),
    ("slot", "slot tue 20:00-21:00 4 lanes", "turno martes 20:00-21:00 4 calles"),
    ("shut", "pool shut thu", "cerrada jueves"),
    ("lane", "L1 make it 6", "calle 1 haz 6"),
    ("set", "4x100 on 1:45, 200 easy", "4x100 cada 1:45, 200 suave"),
];

/// A text that works, of the kind that `tokens` seem to try.
pub fn example(tokens: &[Token], language: Language) -> &'static str {
    let tried = tokens.iter().find_map(|token| row(&token.text));
    let is_repeat = |token: &Token| {
        token.text.split_once('x').is_some_and(|(count, far)| {
            count.bytes().all(|b| b.is_ascii_digit()) && !count.is_empty() && !far.is_empty()
        })
    };
    let swims = || tokens.iter().any(is_repeat).then(|| row("set")).flatten();
    let (english, spanish) = tried.or_else(swims).unwrap_or((EXAMPLES[0].1, EXAMPLES[0].2));
    match language {
        Language::English => english,
        Language::Spanish => spanish,
    }
}

fn row(tried: &str) -> Option<(&'static str, &'static str)> {
    EXAMPLES
        .iter()
        .find(|(word, ..)| *word == tried)
        .map(|(_, english, spanish)| (*english, *spanish))
}
