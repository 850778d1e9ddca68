//! The messages of `grammar/corpus/`, each with what it must be read as.
//!
//! A case stands under the rule that it shows: with that rule taken out of the
//! grammar its text must no longer be a sentence. After a wanted change,
//! `REWRITE_CORPUS=1 cargo test --test language corpus` writes the new readings
//! for review; nothing is taken as right that wasn't looked at.

use std::collections::BTreeMap;
use std::fs;
use std::path::PathBuf;

use abnf_oracle::{CheckedGrammar, Recognizer};
use lapwing::language::Language;
use lapwing::message::{EXAMPLES, Name, Reading, normal_form, parse, parse_knowing};

use crate::grammar::{checked, rules, source};
use crate::notation;

/// Cases under the headings that name no rule.
const NOT_RULES: [&str; 4] = ["not understood", "asked about", "slips", "whole texts"];

/// The squad that the corpus's messages come from.
const SQUAD: [&str; 10] =
    ["heron", "teal", "wren", "siskin", "dunnock", "zoë", "李明", "anne-marie", "wren_2", "tess"];

fn read_by_squad(text: &str, language: Language) -> Reading {
    parse_knowing(text, language, |name: &Name| SQUAD.contains(&name.as_str()))
}

struct Case {
    language: Language,
    text: String,
    expected: Vec<String>,
    line: usize,
}

struct Section {
    file: PathBuf,
    heading: String,
    cases: Vec<Case>,
}

/// Every text of the corpus with its language.
pub fn texts() -> Vec<(String, Language)> {
    let cases = sections().into_iter().flat_map(|section| section.cases);
    cases.map(|case| (case.text, case.language)).collect()
}

fn sections() -> Vec<Section> {
    let mut files: Vec<PathBuf> =
        fs::read_dir("grammar/corpus").unwrap().map(|entry| entry.unwrap().path()).collect();
    files.sort();
    assert!(!files.is_empty(), "no corpus");
    files.into_iter().flat_map(read).collect()
}

fn read(file: PathBuf) -> Vec<Section> {
    let text = fs::read_to_string(&file).unwrap();
    let mut sections: Vec<Section> = Vec::new();
    for (at, line) in text.lines().enumerate() {
        let place = || format!("{}:{}", file.display(), at + 1);
        if let Some(heading) = line.strip_prefix('[').and_then(|rest| rest.strip_suffix(']')) {
            sections.push(Section {
                file: file.clone(),
                heading: heading.to_owned(),
                cases: Vec::new(),
            });
        } else if let Some((language, text)) = line.split_once("> ").filter(|(l, _)| l.len() == 2) {
            let language = Language::ALL.into_iter().find(|one| one.code() == language).unwrap();
            let text = text.replace("\\n", "\n");
            let section = sections.last_mut().unwrap_or_else(|| panic!("{}: no heading", place()));
            section.cases.push(Case { language, text, expected: Vec::new(), line: at + 1 });
        } else if let Some(expected) = line.strip_prefix("   ") {
            let case = sections.last_mut().and_then(|one| one.cases.last_mut());
            case.unwrap_or_else(|| panic!("{}: no text", place()))
                .expected
                .push(expected.to_owned());
        } else {
            assert!(line.is_empty() || line.starts_with('#'), "{}: {line}", place());
        }
    }
    assert!(!sections.is_empty(), "{} is empty", file.display());
    sections
}

#[test]
fn each_message_is_read_as_written_down() {
    if std::env::var_os("REWRITE_CORPUS").is_some() {
        return rewrite();
    }
    let mut wrong = Vec::new();
    let (mut all, mut refused) = (0, 0);
    for section in sections() {
        assert!(!section.cases.is_empty(), "[{}] has no cases", section.heading);
        for case in &section.cases {
            let place = format!("{}:{} {:?}", section.file.display(), case.line, case.text);
            assert!(!case.expected.is_empty(), "{place} has no expectation");
            let reading = read_by_squad(&case.text, case.language);
            let read = notation::lines(&reading);
            all += 1;
            refused += usize::from(!matches!(reading, Reading::Understood(_)));
            if read != case.expected {
                wrong.push(format!("{place}\n  expected {:#?}\n  read {read:#?}", case.expected));
            }
        }
    }
    println!("{all} messages, {refused} of them asked about or not understood");
    assert!(wrong.is_empty(), "{} of {all} differ:\n{}", wrong.len(), wrong.join("\n"));
}

fn rewrite() {
    for entry in fs::read_dir("grammar/corpus").unwrap() {
        let file = entry.unwrap().path();
        let text = fs::read_to_string(&file).unwrap();
        let mut out = String::new();
        for line in text.lines().filter(|line| !line.starts_with("   ")) {
            out.push_str(line);
            out.push('\n');
            if let Some((code, text)) = line.split_once("> ").filter(|(l, _)| l.len() == 2) {
                let language = Language::ALL.into_iter().find(|one| one.code() == code).unwrap();
                for read in notation::lines(&read_by_squad(&text.replace("\\n", "\n"), language)) {
                    out.push_str(&format!("   {read}\n"));
                }
            }
        }
        fs::write(file, out).unwrap();
    }
}

#[test]
fn each_rule_is_shown_by_three_messages() {
    let source = source();
    let mut shown: BTreeMap<String, usize> = BTreeMap::new();
    let mut idle = Vec::new();
    for section in sections() {
        if NOT_RULES.contains(&section.heading.as_str()) {
            continue;
        }
        let without = without(&source, &section.heading);
        for case in &section.cases {
            let form = normal_form(&case.text, case.language);
            if Recognizer::new(&without, &form).accepts("message").unwrap() {
                idle.push(format!("[{}] {:?} does without it: {form}", section.heading, case.text));
            }
            *shown.entry(section.heading.clone()).or_default() += 1;
        }
    }
    assert!(idle.is_empty(), "{}", idle.join("\n"));
    let few: Vec<String> =
        rules().into_keys().filter(|rule| shown.get(rule).copied().unwrap_or(0) < 3).collect();
    assert!(few.is_empty(), "fewer than three messages: {few:?}");
}

/// The grammar with one rule made unmatchable.
fn without(source: &str, rule: &str) -> CheckedGrammar {
    let mut found = false;
    let lines: Vec<String> = source
        .lines()
        .map(|line| match line.split_once('=') {
            Some((name, _)) if name.trim() == rule => {
                found = true;
                format!("{rule} = %x1")
            }
            _ => line.to_owned(),
        })
        .collect();
    assert!(found, "[{rule}] is no rule");
    checked(&(lines.join("\n") + "\n"))
}

#[test]
fn each_example_works() {
    for (tried, english, spanish) in EXAMPLES {
        for (text, language) in [(english, Language::English), (spanish, Language::Spanish)] {
            let reading = parse(text, language);
            assert!(matches!(reading, Reading::Understood(_)), "{tried}: {text}: {reading:?}");
        }
        // Free text stays in its language; all else must be the same.
        let kinds = |text, language| -> Vec<String> {
            let lines = notation::lines(&parse(text, language));
            lines.iter().map(|line| line.split("text: ").next().unwrap().to_owned()).collect()
        };
        assert_eq!(
            kinds(english, Language::English),
            kinds(spanish, Language::Spanish),
            "{tried} differs between the languages"
        );
    }
}
