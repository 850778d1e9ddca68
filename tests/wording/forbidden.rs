//! Words that no reply uses: blame, pressure, a name for what may be wrong, a
//! promise. Common practice in coaching and in care, no source; the list is
//! ours.

use lapwing::language::Language;

use super::said;

/// Whole words and phrases, in lower case and without the accents that the SMS
/// alphabet lacks.
const ENGLISH: &[&str] = &[
    // Pressure.
    "no pain",
    "push through",
    "push on",
    "tough it out",
    "toughen up",
    "try harder",
    "no excuses",
    // Blame.
    "lazy",
    "failed",
    "fail",
    "failure",
    "weak",
    "poor",
    "disappointing",
    "should have",
    "blame",
    "fault",
    // Beside a pool this is said of the drowned.
    "missing",
    // What may be wrong is for a clinician to say.
    "heart attack",
    "angina",
    "asthma",
    "concussion",
    "infection",
    "flu",
    "tear",
    "torn",
    "strain",
    "sprain",
    "tendinitis",
    "overtraining",
    "overtrained",
    "injured",
    "you have a",
    "you may have",
    "sounds like",
    "probably",
    // Promises.
    "guarantee",
    "guaranteed",
    "promise",
    "for sure",
    "safe to",
    "ok to swim",
    "always works",
];

/// Where such a word means something else, or says the opposite.
const ENGLISH_ALLOWED: &[&str] = &[
    "it is not your fault",
    "can't promise",
    // A condition that keeps people safe.
    "one arm only",
];

const SPANISH: &[&str] = &[
    // Pressure.
    "sin dolor no hay",
    "aguanta el dolor",
    "echale ganas",
    "esfuérzate",
    "sin excusas",
    "debiste",
    // Blame.
    "vago",
    "vaga",
    "perezoso",
    "perezosa",
    "flojo",
    "floja",
    "fallo",
    "fallaste",
    "fallado",
    "fracaso",
    "débil",
    "decepcionante",
    "culpa",
    // Beside a pool this is said of the drowned.
    "desaparecido",
    "desaparecida",
    "perdido",
    "perdida",
    // What may be wrong is for a clinician to say.
    "infarto",
    "angina",
    "asma",
    "conmocion",
    "infeccion",
    "rotura",
    "desgarro",
    "esguince",
    "tendinitis",
    "lesion",
    "sobreentrenamiento",
    "tienes un",
    "tienes una",
    "parece que",
    "seguramente",
    // Promises.
    "garantizado",
    "garantizamos",
    "prometer",
    "prometemos",
    "seguro que",
    "puedes nadar sin",
];

const SPANISH_ALLOWED: &[&str] = &[
    "no es culpa tuya",
    "no podemos prometer",
    // Of a test, a pace, an arm.
    "un solo brazo",
];

/// Words that make a number small. A rule may use them (`only a part is hard`).
const SMALL: &[&str] = &["only", "solo", "solamente"];

#[test]
fn no_blame_no_pressure_no_diagnosis_no_promise() {
    for said in said::all() {
        let (forbidden, allowed) = match said.language {
            Language::English => (ENGLISH, ENGLISH_ALLOWED),
            Language::Spanish => (SPANISH, SPANISH_ALLOWED),
        };
        for line in &said.lines {
            let mut rest = line.to_lowercase();
            for phrase in allowed {
                rest = rest.replace(phrase, "");
            }
            let small = if said.of.starts_with("why") { &[] } else { SMALL };
            for phrase in forbidden.iter().chain(small) {
                assert!(!holds(&rest, phrase), "`{phrase}` in {}: {line}", said.of);
            }
        }
    }
}

/// An allowance that nothing needs any more would let a new fault through.
#[test]
fn every_allowance_is_needed() {
    for (language, allowed) in
        [(Language::English, ENGLISH_ALLOWED), (Language::Spanish, SPANISH_ALLOWED)]
    {
        let text: Vec<String> = said::all()
            .into_iter()
            .filter(|said| said.language == language)
            .flat_map(|said| said.lines)
            .map(|line| line.to_lowercase())
            .collect();
        for phrase in allowed {
            assert!(text.iter().any(|line| line.contains(phrase)), "{phrase}");
        }
    }
}

/// Numbers are said plainly: what was held and what was lost.
#[test]
fn a_set_is_told_as_held_and_lost() {
    let told = |language| {
        said::all()
            .into_iter()
            .find(|said| said.of == "set 2" && said.language == language)
            .map(|said| said.lines[0].clone())
            .unwrap()
    };
    assert!(told(Language::English).starts_with("Held 6 of 8 at 48, lost 2"));
    assert!(told(Language::Spanish).starts_with("6 de 8 aguantadas a 48, se fueron 2"));
}

fn holds(text: &str, phrase: &str) -> bool {
    text.match_indices(phrase).any(|(at, found)| {
        let before = text[..at].chars().next_back();
        let after = text[at + found.len()..].chars().next();
        !before.is_some_and(char::is_alphanumeric) && !after.is_some_and(char::is_alphanumeric)
    })
}
