//! All that the voices say of the samples.

use std::fmt::Write;

use lapwing::coaching::DRILLS;
use lapwing::language::Language;
use lapwing::reply::voice;
use lapwing::session::Purpose;
use strum::VariantArray;

use super::parts::name;
use super::samples::{Numbered, alerts, invitations, outcomes};
use super::statements::statements;
use super::{care, offices};

/// What is said of one sample in one language, line by line.
pub struct Said {
    pub of: String,
    pub language: Language,
    pub lines: Vec<String>,
}

/// Every sample in every language, language after language for each.
pub fn all() -> Vec<Said> {
    let mut all = Vec::new();
    let mut add = |of: String, words: &dyn Fn(Language) -> Vec<String>| {
        all.extend(Language::ALL.map(|language| Said {
            of: of.clone(),
            language,
            lines: words(language),
        }));
    };
    for (of, outcome) in outcomes() {
        add(of, &|language| voice(language).lines(&outcome));
    }
    let mut numbered = Numbered::default();
    for alert in alerts() {
        let kind: &str = (&alert.kind).into();
        add(numbered.next(format!("alert {kind}")), &|language| {
            vec![voice(language).alert(&alert)]
        });
    }
    for invitation in invitations() {
        let role = invitation.role;
        for by in [None, Some(name("kestrel"))] {
            add(format!("invitation {role:?}"), &|language| {
                vec![voice(language).invitation("Dusk", "K7WQ2ABC", by.as_ref(), &invitation)]
            });
        }
        add(format!("has come {role:?}"), &|language| {
            let voice = voice(language);
            vec![voice.has_come(None, role), voice.has_come(invitation.name.as_ref(), role)]
        });
    }
    add("now coach".into(), &|language| vec![voice(language).now_coach("Dusk")]);
    for letter in care::letters() {
        let kind: &str = (&letter).into();
        add(numbered.next(format!("letter {kind}")), &|language| {
            vec![voice(language).care_letter(&letter)]
        });
    }
    for letter in offices::letters() {
        let kind: &str = (&letter).into();
        add(numbered.next(format!("office letter {kind}")), &|language| {
            vec![voice(language).office_letter(&letter)]
        });
    }
    for asks in [true, false] {
        add(format!("carried to deck {asks}"), &|language| {
            let voice = voice(language);
            let words = "could we have a longer warm up";
            vec![
                voice.carried_to_deck("heron", asks, words),
                voice.carried_to_deck(&voice.guardian_of("robin, wren"), asks, words),
            ]
        });
    }
    add("worried hint".into(), &|language| vec![voice(language).worried_hint().to_owned()]);
    for on_deck in [false, true] {
        add(format!("nobody reached {on_deck}"), &|language| {
            vec![voice(language).nobody_reached(on_deck).to_owned()]
        });
    }
    for statement in statements() {
        let of = format!("statement {}", voice(Language::English).statement(&statement));
        add(of, &|language| vec![voice(language).statement(&statement)]);
    }
    for &purpose in Purpose::VARIANTS {
        add(format!("title {purpose:?}"), &|language| {
            vec![voice(language).title(purpose).to_owned()]
        });
    }
    for drill in DRILLS {
        add(format!("cue {}", drill.id), &|language| vec![voice(language).cue(drill.id)]);
    }
    add("in a room".into(), &|language| vec![voice(language).answered_privately().to_owned()]);
    add("more".into(), &|language| vec![voice(language).more_hint().to_owned()]);
    all
}

/// For reading: what it is of, then each language's lines.
pub fn side_by_side() -> String {
    let mut out = String::new();
    let mut of = String::new();
    for said in all() {
        if said.of != of {
            of.clone_from(&said.of);
            writeln!(out, "\n{of}").unwrap();
        }
        for line in &said.lines {
            writeln!(out, "  {} {line}", said.language).unwrap();
        }
    }
    out
}
