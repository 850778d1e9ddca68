//! `lapwing rules`: what coaching goes by, with the numbers in force.

use serde::Serialize;

use super::arguments::Rules;
use super::console::{BOLD, note, print, print_json, styled};
use super::run::Outcome;
use super::settings::Settings;
use crate::coaching::{Rule, Rulebook, rules};
use crate::control::{DataFolder, rulebook};

/// A rule as it is in force.
#[derive(Debug, Serialize)]
struct InForce {
    rule: &'static str,
    when: &'static str,
    then: &'static str,
    #[serde(flatten)]
    number: Option<Number>,
    source: &'static str,
}

/// Its number.
#[derive(Debug, Serialize)]
struct Number {
    value: f64,
    unit: &'static str,
    least: f64,
    most: f64,
    /// What it is where nobody changes it.
    usual: f64,
}

/// Prints them all, or one.
pub fn run(settings: &Settings, asked: &Rules) -> Outcome {
    let book = rulebook(&settings.data)?;
    let wanted = |rule: &&Rule| asked.rule.as_deref().is_none_or(|id| id == rule.id);
    let found: Vec<InForce> =
        rules().iter().filter(wanted).map(|rule| in_force(rule, &book)).collect();
    if let (Some(id), true) = (&asked.rule, found.is_empty()) {
        return Err(format!("no rule `{id}`; `lapwing rules` lists them all").into());
    }
    if asked.listing.json {
        print_json(&found)?;
        return Ok(());
    }
    found.iter().try_for_each(show)?;
    tell_file(&settings.data);
    Ok(())
}

fn in_force(rule: &Rule, book: &Rulebook) -> InForce {
    let own = book.in_force(rule.id).and_then(|own| own.number);
    let number = rule.number.zip(own).map(|(usual, own)| Number {
        value: own.value,
        unit: usual.unit,
        least: usual.least,
        most: usual.most,
        usual: usual.value,
    });
    InForce { rule: rule.id, when: rule.when, then: rule.then, number, source: rule.source }
}

fn show(one: &InForce) -> std::io::Result<()> {
    let InForce { rule, when, then, number, source } = one;
    let rule = styled(BOLD, rule);
    match number {
        None => print(format_args!("{rule}"))?,
        Some(Number { value, unit, least, most, usual }) => {
            let changed = if value == usual { String::new() } else { format!(", usually {usual}") };
            print(format_args!("{rule} = {value} {unit} ({least} to {most}{changed})"))?;
        }
    }
    print(format_args!("    {when}: {then}"))?;
    print(format_args!("    source: {source}"))
}

/// Says where numbers are changed, and when that counts.
fn tell_file(data: &DataFolder) {
    let file = data.rules();
    let is_there = if file.exists() { "are" } else { "would be" };
    note(format_args!(
        "\nnumbers of your own {is_there} in {}; a server heeds them from its next start",
        file.display()
    ));
}
