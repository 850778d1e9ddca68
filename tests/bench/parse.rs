//! What it costs to read a text, beside two other ways of reading the same
//! language's test rule, in one run:
//!
//! - `parse`: the whole way from typed text to tree, as the service takes it
//! - `grammar`: the nom grammar alone, on the normalised text
//! - `regex`: a regular expression for a test alone, on the normalised text; it
//!   accepts less and builds nothing
//! - `recogniser`: the ABNF itself with full backtracking, on the normalised text
//!
//! Then how time grows with length, on texts made to be hard: it must double
//! with the length, not quadruple.

#![expect(clippy::unwrap_used, reason = "a benchmark that can't go on has failed")]

use std::hint::black_box;

use abnf_oracle::{CheckedGrammar, Grammar, Recognizer};
use criterion::{BenchmarkId, Criterion, Throughput, criterion_group, criterion_main};
use lapwing::language::Language;
use lapwing::message::{LONGEST_TEXT, normal_form, parse, parses};
use regex::Regex;

const MESSAGES: [(&str, &str); 5] = [
    ("test", "200 test 3:12"),
    ("test_in_full", "my 200m freestyle test was 3:12.4 yesterday, from a dive, 25m pool"),
    ("set_result", "8x50 on 1:05 held 48 48 49 50 49 49 50 51 rpe 7"),
    ("lane", "200 test: heron 3:12, teal 2:58, wren 3:40, siskin 3:05 (25yd)"),
    (
        "session",
        "warm up 400 easy, 3x(4x50 kick fins on 1:15, 200 easy), main 10x100 on 1:45 hold 1:32, swim down 200",
    ),
];

fn grammar() -> CheckedGrammar {
    let source = concat!(
        include_str!("../../grammar/message.abnf"),
        "\n",
        include_str!("../../grammar/set.abnf")
    );
    Grammar::parse(source).unwrap().check().unwrap()
}

/// Distance, stroke, the word, time, course, day, start, in any order: what a
/// team without a grammar would write.
fn expression() -> Regex {
    let item = concat!(
        r"(?:\d{1,6}(?:m|yd)?|test|meet|free|back|breast|fly|im|kick|pull|drill|choice",
        r"|(?:\d{1,2}:)?\d{1,3}:[0-5]\d(?:\.\d{1,2})?|\d{1,3}\.\d{1,2}|\d{1,5}(?:\.\d{1,2})?s",
        r"|pool-25m|pool-50m|pool-25yd|open|today|yesterday|tomorrow|(?:last-)?(?:mon|tue|wed|thu|fri|sat|sun)",
        r"|\d{1,2}/\d{1,2}(?:/\d{4})?|\d{4}-\d\d-\d\d|push|dive|water)"
    );
    Regex::new(&format!(r"^{item}(?:(?: ,)? {item})*$")).unwrap()
}

fn messages(criterion: &mut Criterion) {
    let (grammar, expression) = (grammar(), expression());
    for (name, text) in MESSAGES {
        let form = normal_form(text, Language::English);
        assert!(parses(&form), "{form}");
        let mut group = criterion.benchmark_group(name);
        group.bench_function("parse", |b| b.iter(|| parse(black_box(text), Language::English)));
        group.bench_function("grammar", |b| b.iter(|| parses(black_box(&form))));
        if name.starts_with("test") {
            assert!(expression.is_match(&form), "{form}");
            group.bench_function("regex", |b| b.iter(|| expression.is_match(black_box(&form))));
        }
        group.bench_function("recogniser", |b| {
            b.iter(|| Recognizer::new(&grammar, black_box(&form)).accepts("message"))
        });
        group.finish();
    }
}

fn length(criterion: &mut Criterion) {
    let shapes: [(&str, &str, &str); 5] = [
        ("words", "", "tset "),
        ("open_brackets", "", "3x(50 "),
        ("tests", "", "200 test 3:12, "),
        ("names", "200 test: heron 3:12", ", teal 2:58"),
        ("figures", "8x50 held ", "48.2 x "),
    ];
    for (name, start, unit) in shapes {
        let mut group = criterion.benchmark_group(format!("length/{name}"));
        for bytes in [1000, 2000, LONGEST_TEXT] {
            let text = format!("{start}{}", unit.repeat((bytes - start.len()) / unit.len()));
            group.throughput(Throughput::Bytes(text.len() as u64));
            group.bench_with_input(BenchmarkId::from_parameter(bytes), &text, |b, text| {
                b.iter(|| parse(black_box(text), Language::English));
            });
        }
        group.finish();
    }
}

criterion_group!(benches, messages, length);
criterion_main!(benches);
