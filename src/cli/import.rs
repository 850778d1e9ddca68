//! `lapwing import`: a table into a squad, whole or not at all.

use std::io::Read;
use std::path::Path;
use std::{fs, io};

use super::arguments::Import;
use super::asking::asked_of;
use super::console::{note, print};
use super::progress::shown;
use super::run::{Failed, Outcome};
use super::settings::Settings;
use crate::control::{Access, Owner};
use crate::service::{Bringing, BroughtIn};

/// Brings the file in, or says all that is wrong in it.
pub async fn run(settings: &Settings, asked: Import) -> Outcome {
    let Import { list, file, which } = asked;
    let text = text_of(&file)?;
    let bringing = Bringing { squad: which.squad, list, text };
    let bring =
        async |access: &Access<Owner>| shown("bringing the table", access.bring(&bringing)).await;
    match asked_of(settings, bring).await? {
        BroughtIn::Stored { new, known } => {
            print(format_args!("{new} stored, {known} known before"))?;
            Ok(())
        }
        BroughtIn::Faulty(faults) => {
            faults.iter().for_each(note);
            Err(format!("nothing is stored; faults: {}", faults.len()).into())
        }
    }
}

/// The file's text; `-` is what is piped in.
fn text_of(file: &Path) -> Result<String, Failed> {
    let mut bytes = Vec::new();
    match file.to_str() {
        Some("-") => io::stdin().lock().read_to_end(&mut bytes).map(drop)?,
        _ => {
            let read = fs::read(file);
            bytes = read.map_err(|failed| format!("{}: {failed}", file.display()))?;
        }
    }
    String::from_utf8(bytes).map_err(|broken| {
        let (good, _) = broken.as_bytes().split_at(broken.utf8_error().valid_up_to());
        let line = good.iter().filter(|byte| **byte == b'\n').count() + 1;
        format!("line {line}: it is not UTF-8; save the table as UTF-8").into()
    })
}
