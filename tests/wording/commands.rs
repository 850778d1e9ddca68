//! Help and hints name nothing that the grammar can't read.

use lapwing::language::Language;
use lapwing::message::{Kind, Reading, parse};
use lapwing::reply::{Outcome, voice};

use super::samples::helps;

/// What stands between bars and explains.
const EXPLANATIONS: [&str; 6] = [
    "here shows the register",
    "presentes muestra la lista",
    "pool 25m, 50m or 25yd",
    "undo takes back your last result",
    "piscina 25m, 50m o 25yd",
    "deshacer quita tu ultimo resultado",
];

/// What replies ask to text, in capitals there.
const HINTS: [(Language, &[&str]); 2] = [
    (
        Language::English,
        &[
            "more",
            "next",
            "plan",
            "why",
            "better",
            "born 1981",
            "help",
            "help test",
            "help set",
            "help plan",
            "help pain",
            "release heron",
            "help here",
            "join CODE-1 heron",
            "set 4x50 easy, 8x50 on 1:15, 100 easy",
            "plan tonight",
            "make it 6",
            "yes",
            "no",
            "done 1500 45min rpe 6",
            "fix 3:14",
            "lanes",
            "lanes 4",
            "help lanes",
            "help evening",
            "help register",
            "help test night",
            "help results",
            "help people",
            "help timetable",
            "wren lane 3",
        ],
    ),
    (
        Language::Spanish,
        &[
            "sigue",
            "siguiente",
            "plan",
            "porque",
            "mejor",
            "naci 1981",
            "ayuda",
            "ayuda test",
            "ayuda serie",
            "ayuda plan",
            "ayuda dolor",
            "libera heron",
            "ayuda presentes",
            "unir CODE-1 heron",
            "serie 4x50 suave, 8x50 cada 1:15, 100 suave",
            "plan hoy",
            "haz 6",
            "si",
            "no",
            "hecho 1500 45min rpe 6",
            "corrige 3:14",
            "calles",
            "calles 4",
            "ayuda calles",
            "ayuda noche",
            "ayuda lista",
            "ayuda noche de test",
            "ayuda resultados",
            "ayuda gente",
            "ayuda horario",
            "wren calle 3",
        ],
    ),
];

#[test]
fn all_of_help_can_be_read() {
    for language in Language::ALL {
        for help in helps() {
            for line in voice(language).lines(&Outcome::Help(help)) {
                for command in commands(&line) {
                    assert!(reads(command, language), "{language}: {command}");
                }
            }
        }
    }
}

#[test]
fn all_hints_can_be_read() {
    for (language, hints) in HINTS {
        for hint in hints {
            assert!(reads(hint, language), "{language}: {hint}");
            let topic = hint.split_once(' ').filter(|(verb, _)| ["help", "ayuda"].contains(verb));
            if let (Some(_), Reading::Understood(message)) = (topic, parse(hint, language)) {
                let kind = &message.statements[0].kind;
                assert!(matches!(kind, Kind::Help { topic: Some(_) }), "{hint}: {kind:?}");
            }
        }
    }
}

fn reads(text: &str, language: Language) -> bool {
    matches!(parse(text, language), Reading::Understood(_))
}

/// The commands of a line: what stands between bars, less the sentences before
/// the first and after the last.
fn commands(line: &str) -> Vec<&str> {
    if !line.contains(" | ") {
        return vec![];
    }
    line.split(" | ")
        .map(|piece| {
            let explained = piece.starts_with(char::is_uppercase);
            let last = |mark| piece.rsplit_once(mark).map_or(piece, |(_, command)| command);
            match explained {
                true if piece.contains(". ") => last(". "),
                true => piece.split_once(": ").map_or(piece, |(_, command)| command),
                false => piece.split(". ").next().unwrap_or(piece),
            }
        })
        .filter(|piece| !EXPLANATIONS.contains(piece))
        .collect()
}
