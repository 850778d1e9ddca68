//! The signing secrets and the plain gateway's token: given in the
//! environment, or made at the first start and kept in the data folder.

use std::env::{self, VarError};
use std::fmt;
use std::fs;
use std::io::ErrorKind;
use std::os::unix::fs::PermissionsExt;
use std::path::{Path, PathBuf};

use crate::control::{DataFolder, write_private};
use crate::http::PlainToken;
use crate::signing::Secret;

/// Names one or more secrets, separated by spaces; all of them hold, the first
/// signs.
const SECRET: &str = "LAPWING_SECRET";

/// Names one or more secrets; letters are signed with all of them.
const OUTBOX_SECRET: &str = "LAPWING_OUTBOX_SECRET";

/// Names the plain gateway's token.
const PLAIN_TOKEN: &str = "LAPWING_PLAIN_TOKEN";

/// What a server checks senders by.
pub struct Keys {
    /// The signing secrets, and whence they are.
    pub secrets: (Vec<Secret>, Source),
    /// The token, and whence it is.
    pub token: (PlainToken, Source),
}

/// Where a key is kept; this may be shown, the key never.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Source {
    /// In this environment variable.
    Environment(&'static str),
    /// In this file.
    File(PathBuf),
}

impl fmt::Display for Source {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Source::Environment(name) => write!(out, "given in {name}"),
            Source::File(path) => write!(out, "in {}", path.display()),
        }
    }
}

/// Why there are no keys. Never repeats one.
#[derive(Debug, thiserror::Error)]
pub enum KeyError {
    /// It is given, and can't be one.
    #[error("the key {place}: {why}")]
    Unfit {
        /// Where it is given.
        place: Source,
        /// What is wrong.
        why: String,
    },
    /// None is given, and none was made so far.
    #[error("no secret is given in {SECRET} and {} holds none; start the server there once, or name its folder with --data", .0.display())]
    NoSecret(PathBuf),
    /// It would have to be made, and each machine would make its own.
    #[error(
        "{0} is not given: where the journal is in a database, every machine that may serve must \
         be given the same keys"
    )]
    NotGiven(&'static str),
    /// The system has no randomness.
    #[error("no key could be made: {0}")]
    Random(#[from] getrandom::Error),
}

impl Keys {
    /// The keys of a folder that this process owns; those that are missing are
    /// made.
    ///
    /// # Errors
    /// One that is given is unfit, or one can't be made or kept.
    pub fn of(folder: &DataFolder) -> Result<Keys, KeyError> {
        let secrets = secrets(SECRET, folder, &folder.secret())?;
        let token = match given(PLAIN_TOKEN, &folder.plain_token())? {
            Some((word, source)) => (parsed(&word, &source)?, source),
            None if folder.database().is_some() => return Err(KeyError::NotGiven(PLAIN_TOKEN)),
            None => {
                let made = PlainToken::generate()?;
                let source = keep(&folder.plain_token(), made.reveal())?;
                (made, source)
            }
        };
        Ok(Keys { secrets, token })
    }
}

/// The plain gateway's token that is given, or one that nothing keeps.
///
/// # Errors
/// It is unfit, or the system has no randomness.
pub fn plain_token(folder: &DataFolder) -> Result<PlainToken, KeyError> {
    match given(PLAIN_TOKEN, &folder.plain_token())? {
        Some((word, source)) => parsed(&word, &source),
        None => Ok(PlainToken::generate()?),
    }
}

/// Secrets that nobody knows and nothing keeps, to try settings with.
///
/// # Errors
/// The system has no randomness.
pub fn spare_secrets() -> Result<(Vec<Secret>, Source), KeyError> {
    Ok((vec![Secret::generate()?], Source::Environment(OUTBOX_SECRET)))
}

/// What is wrong with the keys that are given; makes none.
pub fn faults(folder: &DataFolder) -> impl Iterator<Item = KeyError> {
    let of_secrets = |name, file: &Path| match given(name, file)? {
        Some((words, source)) => parsed_secrets(&words, &source).map(drop),
        None => Ok(()),
    };
    let token = given(PLAIN_TOKEN, &folder.plain_token()).and_then(|given| match given {
        Some((word, source)) => parsed::<PlainToken>(&word, &source).map(drop),
        None => Ok(()),
    });
    let secrets = of_secrets(SECRET, &folder.secret());
    let outbox = of_secrets(OUTBOX_SECRET, &folder.outbox_secret());
    [secrets, outbox, token].into_iter().filter_map(Result::err)
}

/// The secrets that letters are signed with, made and kept if there are none.
///
/// # Errors
/// As [`Keys::of`].
pub fn outbox_secrets(folder: &DataFolder) -> Result<(Vec<Secret>, Source), KeyError> {
    secrets(OUTBOX_SECRET, folder, &folder.outbox_secret())
}

/// The secret to sign with, for the server that keeps its data in `folder`, and
/// whence it is.
///
/// # Errors
/// There is none, or it is unfit.
pub fn signing_secret(folder: &DataFolder) -> Result<(Secret, Source), KeyError> {
    let none = || KeyError::NoSecret(folder.path().to_owned());
    let (words, source) = given(SECRET, &folder.secret())?.ok_or_else(none)?;
    let secret = parsed_secrets(&words, &source)?.into_iter().next().ok_or_else(none)?;
    Ok((secret, source))
}

/// The secrets that are given, or else one made and kept in the file.
fn secrets(
    name: &'static str,
    folder: &DataFolder,
    file: &Path,
) -> Result<(Vec<Secret>, Source), KeyError> {
    match given(name, file)? {
        Some((words, source)) => Ok((parsed_secrets(&words, &source)?, source)),
        None if folder.database().is_some() => Err(KeyError::NotGiven(name)),
        None => {
            let made = Secret::generate()?;
            let source = keep(file, &made.reveal())?;
            Ok((vec![made], source))
        }
    }
}

/// What the environment gives, else what the file holds.
fn given(name: &'static str, file: &Path) -> Result<Option<(String, Source)>, KeyError> {
    match env::var(name) {
        Ok(words) => return Ok(Some((words, Source::Environment(name)))),
        Err(VarError::NotPresent) => {}
        Err(VarError::NotUnicode(_)) => {
            return Err(unfit(&Source::Environment(name), "it is no text"));
        }
    }
    let source = Source::File(file.to_owned());
    match fs::read_to_string(file) {
        Ok(words) => {
            warn_if_open_to_others(file);
            Ok(Some((words, source)))
        }
        Err(gone) if gone.kind() == ErrorKind::NotFound => Ok(None),
        Err(failed) => Err(unfit(&source, failed)),
    }
}

fn warn_if_open_to_others(file: &Path) {
    let mode = fs::metadata(file).map(|found| found.permissions().mode());
    if mode.is_ok_and(|mode| mode & 0o077 != 0) {
        tracing::warn!(file = %file.display(), "others than its owner may read this key");
    }
}

fn keep(file: &Path, word: &str) -> Result<Source, KeyError> {
    let source = Source::File(file.to_owned());
    write_private(file, word).map_err(|failed| unfit(&source, failed))?;
    Ok(source)
}

fn parsed_secrets(words: &str, source: &Source) -> Result<Vec<Secret>, KeyError> {
    let secrets: Vec<Secret> =
        words.split_whitespace().map(|word| parsed(word, source)).collect::<Result<_, _>>()?;
    if secrets.is_empty() { Err(unfit(source, "it is empty")) } else { Ok(secrets) }
}

fn parsed<T: std::str::FromStr<Err: fmt::Display>>(word: &str, at: &Source) -> Result<T, KeyError> {
    word.trim().parse().map_err(|why| unfit(at, why))
}

fn unfit(place: &Source, why: impl fmt::Display) -> KeyError {
    KeyError::Unfit { place: place.clone(), why: why.to_string() }
}
