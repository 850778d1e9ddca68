//! Any bytes as a text, in either language. Beside never panicking, three
//! things are looked for in each input: what is understood is read back from its
//! printed form; the parser and an independent recogniser of the same grammar
//! give the normalised text the same verdict; and no text takes long.
#![no_main]

use std::sync::LazyLock;
use std::time::{Duration, Instant};

use abnf_oracle::{CheckedGrammar, Grammar, Recognizer};
use lapwing::language::Language;
use lapwing::message::{Kind, Reading, normal_form, parse, parses};
use lapwing::reading::health::alarms;
use libfuzzer_sys::fuzz_target;

/// Longer normalised texts would only make the recogniser slow.
const LONGEST_FOR_RECOGNISER: usize = 160;

/// Far above what the longest text takes (see the parse benchmark), for a
/// machine that does other things meanwhile.
const TOO_LONG: Duration = Duration::from_millis(500);

static GRAMMAR: LazyLock<CheckedGrammar> = LazyLock::new(|| {
    let source = concat!(
        include_str!("../../../grammar/message.abnf"),
        "\n",
        include_str!("../../../grammar/set.abnf")
    );
    Grammar::parse(source).expect("ABNF").check().expect("whole")
});

fuzz_target!(|data: &[u8]| {
    let Some((first, rest)) = data.split_first() else { return };
    let Ok(text) = std::str::from_utf8(rest) else { return };
    let language = if first % 4 == 0 { Language::Spanish } else { Language::English };
    let began = Instant::now();
    let reading = parse(text, language);
    let _ = alarms(text, &|_| false);
    assert!(began.elapsed() < TOO_LONG, "{:?} for {} bytes", began.elapsed(), text.len());
    if let Reading::Understood(message) = reading {
        // A topic is kept in the words of the language that it was asked in.
        let topic = message.statements.iter().any(|one| matches!(one.kind, Kind::Help { .. }));
        let printed = message.to_string();
        if !topic || language == Language::English {
            assert_eq!(parse(&printed, Language::English), Reading::Understood(message), "{printed}");
        }
    }
    let form = normal_form(text, language);
    if form.len() <= LONGEST_FOR_RECOGNISER {
        // Too deep to decide is no verdict.
        if let Ok(expected) = Recognizer::new(&GRAMMAR, &form).accepts("message") {
            assert_eq!(parses(&form), expected, "{form:?}");
        }
    }
});
