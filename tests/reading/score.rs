//! Each text's verdict, and what they come to.

use std::collections::BTreeMap;
use std::fmt::Write;
use std::path::PathBuf;
use std::sync::Mutex;
use std::sync::atomic::{AtomicUsize, Ordering};

use serde_json::Value;

use super::label::{Label, Reading, kind, matched, only_answers};
use super::squad::{Context, Squads, say, traced};

/// One text, judged.
pub struct Scored {
    pub file: String,
    pub context: String,
    pub text: String,
    pub label: String,
    pub verdict: &'static str,
    pub reply: String,
    pub understood: Vec<Value>,
    /// By its label it tells something to be kept.
    pub stores: bool,
    pub asked: bool,
}

/// Verdicts that count as read or well asked.
pub const GOOD: [&str; 5] = ["READ", "ASKED", "QUIET", "SAFE", "QUIET-UNREAD"];

/// File, context, text and label of every text of some files, in order.
pub fn rows(files: &[PathBuf]) -> Vec<(String, String, String, String)> {
    let mut rows = Vec::new();
    for file in files {
        let name = file.file_name().unwrap_or_default().to_string_lossy().into_owned();
        let text = std::fs::read_to_string(file).unwrap_or_else(|_| panic!("no file {file:?}"));
        for line in text.lines().filter(|line| !line.starts_with('#')) {
            let columns: Vec<&str> = line.split('\t').collect();
            if columns.len() >= 3 && !columns[0].is_empty() {
                let [context, text, label] =
                    [columns[0], columns[1], columns[2]].map(str::to_owned);
                rows.push((name.clone(), context, text, label));
            }
        }
    }
    rows
}

/// Judges every text of some files, in order.
pub fn files(files: &[PathBuf]) -> Vec<Scored> {
    let rows = rows(files);
    let next = AtomicUsize::new(0);
    let done: Mutex<Vec<(usize, Scored)>> = Mutex::new(Vec::new());
    std::thread::scope(|scope| {
        for _ in 0..2 {
            scope.spawn(|| {
                let mut squads = Squads::default();
                loop {
                    let at = next.fetch_add(1, Ordering::Relaxed);
                    let Some((file, context, text, label)) = rows.get(at) else { break };
                    let scored = one(&mut squads, file, context, text, label);
                    done.lock().unwrap().push((at, scored));
                }
            });
        }
    });
    let mut done = done.into_inner().unwrap();
    done.sort_by_key(|(at, _)| *at);
    done.into_iter().map(|(_, scored)| scored).collect()
}

fn emergency(reply: &str) -> bool {
    let reply = reply.to_lowercase();
    [
        "emergency",
        "out of the water",
        "lifeguard",
        "emergencia",
        "fuera del agua",
        "sal del agua",
        "socorrista",
    ]
    .iter()
    .any(|word| reply.contains(word))
}

fn one(squads: &mut Squads, file: &str, context: &str, text: &str, label: &str) -> Scored {
    let spanish = file.contains("spanish");
    let at = Context::of(context, spanish);
    let want = Label::of(label);
    let mut squad = squads.of(&at);
    if std::env::var_os("LAPWING_TRACE").is_some() {
        println!("{}", traced(&squad, at.sender(), text, at.at()));
    }
    let decision = say(&mut squad, at.sender(), text, at.at());
    let result = &decision.result;
    let reply: String = decision
        .said
        .iter()
        .filter(|say| say.to.is_none())
        .map(|say| say.text.replace('\n', " | "))
        .collect();
    let understood = decision.understood.clone();
    let mut kinds = vec![kind(result).to_owned()];
    kinds
        .extend(result["results"].as_array().into_iter().flatten().map(|one| kind(one).to_owned()));
    let has = |word: &str| kinds.iter().any(|one| one == word);
    let asked = has("question");
    let stores = want.stores();
    let answers = || -> bool {
        let options = result["options"].as_array().cloned().unwrap_or_default();
        let mut words: Vec<String> = options
            .iter()
            .map(|one| {
                one.as_str().map_or_else(
                    || one["word"].as_str().unwrap_or_default().to_owned(),
                    str::to_owned,
                )
            })
            .collect();
        if words.is_empty() {
            words.push("yes".into());
        }
        words.iter().take(4).any(|word| {
            let mut squad = squad.clone();
            let answer = say(&mut squad, at.sender(), word, at.at());
            let all: Vec<Value> =
                answer.understood.into_iter().chain(understood.iter().cloned()).collect();
            want.readings.iter().any(|reading| matched(&all, reading).0 == reading.len())
        })
    };
    let verdict = judge(&want, &reply, &understood, &kinds, answers);
    Scored {
        file: file.to_owned(),
        context: context.to_owned(),
        text: text.to_owned(),
        label: label.to_owned(),
        verdict,
        reply,
        understood,
        stores,
        asked,
    }
}

/// How much of a reading was understood, at most 1.
fn share(reading: &Reading, understood: &[Value]) -> f64 {
    matched(understood, reading).0 as f64 / reading.len().max(1) as f64
}

/// The same of the reading of which most was.
fn best_share(want: &Label, understood: &[Value]) -> f64 {
    want.readings.iter().map(|reading| share(reading, understood)).fold(0.0, f64::max)
}

fn judge(
    want: &Label,
    reply: &str,
    understood: &[Value],
    kinds: &[String],
    answers: impl Fn() -> bool,
) -> &'static str {
    let has = |word: &str| kinds.iter().any(|one| one == word);
    let best = best_share(want, understood);
    if let Some(care) = &want.care {
        let of_health =
            |got: &Value| matches!(kind(got), "faint" | "pain" | "ill" | "welfare" | "private");
        let caught = match care.danger {
            true => emergency(reply) && has("caution"),
            false => has("caution") || understood.iter().any(of_health),
        };
        if caught {
            let kept = |reading: &Reading| reading.is_empty() || share(reading, understood) == 1.0;
            let kept = best == 1.0 || care.beside.iter().any(kept);
            return if kept { "SAFE" } else { "SAFE-LOST" };
        }
        if has("question") {
            return "ASKED";
        }
        // Another alternative may do.
        let verdict = judge_otherwise(want, reply, understood, kinds, answers);
        return if GOOD.contains(&verdict) { verdict } else { "MISSED" };
    }
    judge_otherwise(want, reply, understood, kinds, answers)
}

/// The same by what else than care the label allows.
fn judge_otherwise(
    want: &Label,
    reply: &str,
    understood: &[Value],
    kinds: &[String],
    answers: impl Fn() -> bool,
) -> &'static str {
    let has = |word: &str| kinds.iter().any(|one| one == word);
    let best = best_share(want, understood);
    let hurts = want
        .readings
        .iter()
        .flatten()
        .any(|one| matches!(one["kind"].as_str(), Some("pain" | "ill")));
    if has("caution") && emergency(reply) && !hurts {
        return "ALARM";
    }
    if has("question") && kinds[0] != "mixed" {
        return if want.ask || answers() { "ASKED" } else { "POORASK" };
    }
    if kinds[0] == "not_understood" {
        return if want.nothing { "QUIET-UNREAD" } else { "UNREAD" };
    }
    if kinds[0] == "refused" && best < 1.0 {
        return "REFUSED";
    }
    let mut partial = false;
    for reading in &want.readings {
        let (hits, extra) = matched(understood, reading);
        if hits == reading.len() && extra.is_empty() {
            return "READ";
        }
        partial |= hits > 0 && extra.is_empty();
    }
    let storing =
        understood.iter().any(|got| !only_answers(got) && !matches!(kind(got), "yes" | "no"));
    if want.nothing && !storing {
        return "QUIET";
    }
    if want.ask && want.readings.is_empty() {
        return if storing { "WRONG" } else { "UNREAD" };
    }
    if partial {
        return "PARTIAL";
    }
    if storing {
        "WRONG"
    } else if !understood.is_empty() {
        "WRONGANSWER"
    } else if kinds[0] == "ok" {
        "UNREAD"
    } else {
        "WRONGANSWER"
    }
}

/// A line a file, and one for all.
pub fn table(scored: &[Scored]) -> String {
    let mut files: BTreeMap<&str, Vec<&Scored>> = BTreeMap::new();
    for one in scored {
        files.entry(&one.file).or_default().push(one);
    }
    let mut out = String::new();
    let all: Vec<&Scored> = scored.iter().collect();
    for (name, texts) in files.iter().map(|(name, texts)| (*name, texts)).chain([("all", &all)]) {
        let mut counts: BTreeMap<&str, usize> = BTreeMap::new();
        texts.iter().for_each(|one| *counts.entry(one.verdict).or_default() += 1);
        let good: usize = GOOD.iter().filter_map(|word| counts.get(word)).sum();
        let mut counts: Vec<_> = counts.into_iter().collect();
        counts.sort_by_key(|(_, count)| std::cmp::Reverse(*count));
        let counts: Vec<String> =
            counts.iter().map(|(word, count)| format!("{word} {count}")).collect();
        let storing = texts.iter().filter(|one| one.stores).count();
        let asked = texts.iter().filter(|one| one.stores && one.asked).count();
        let _ = writeln!(
            out,
            "# {name}: {good} of {} ({:.1} %): {}; asked {asked} of {storing} that store",
            texts.len(),
            100.0 * good as f64 / texts.len().max(1) as f64,
            counts.join(", ")
        );
    }
    out
}

/// Every text with its verdict.
pub fn listed(scored: &[Scored]) -> String {
    let mut out = String::new();
    for one in scored {
        let understood = serde_json::to_string(&one.understood).unwrap_or_default();
        let _ = writeln!(
            out,
            "{}\t{}\t{}\t{}\t{}\t{}\t{understood}",
            one.verdict, one.file, one.context, one.text, one.label, one.reply
        );
    }
    out
}
