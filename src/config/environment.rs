//! Where secrets come from.

use std::collections::HashMap;
use std::fs;

use crate::hidden::Hidden;

/// What a variable's name ends in where it names a file that holds the secret,
/// as service managers hand secrets over.
const IN_FILE: &str = "_FILE";

/// The environment, or a test's own.
#[derive(Debug, Clone, Default)]
pub struct Environment(Source);

#[derive(Debug, Clone, Default)]
enum Source {
    #[default]
    Process,
    Given(HashMap<String, String>),
}

impl Environment {
    /// The process's own environment.
    pub fn process() -> Environment {
        Environment::default()
    }

    /// An environment of these variables alone.
    pub fn of<'a>(variables: impl IntoIterator<Item = (&'a str, &'a str)>) -> Environment {
        let owned = |(name, word): (&str, &str)| (name.to_owned(), word.to_owned());
        Environment(Source::Given(variables.into_iter().map(owned).collect()))
    }

    /// The secret in the variable `name`, or else in the file that `name_FILE`
    /// names, without the blanks round it.
    ///
    /// # Errors
    /// Neither is set, or what it holds is empty or no text; never repeats it.
    pub fn secret(&self, name: &str) -> Result<Hidden, String> {
        let given = self.given(name)?;
        given.ok_or_else(|| format!("the environment variable {name} is not set"))
    }

    /// The same, where it may be left out.
    ///
    /// # Errors
    /// What it holds is empty or no text; never repeats it.
    pub fn given(&self, name: &str) -> Result<Option<Hidden>, String> {
        let word = match self.variable(name)? {
            Some(word) => word,
            None => match self.variable(&format!("{name}{IN_FILE}"))? {
                Some(file) => fs::read_to_string(&file)
                    .map_err(|failed| format!("{name}{IN_FILE}: {file}: {failed}"))?,
                None => return Ok(None),
            },
        };
        match word.trim() {
            "" => Err(format!("the environment variable {name} holds nothing")),
            word => Ok(Some(Hidden::new(word))),
        }
    }

    fn variable(&self, name: &str) -> Result<Option<String>, String> {
        match &self.0 {
            Source::Given(variables) => Ok(variables.get(name).cloned()),
            Source::Process => match std::env::var(name) {
                Ok(word) => Ok(Some(word)),
                Err(std::env::VarError::NotPresent) => Ok(None),
                Err(std::env::VarError::NotUnicode(_)) => {
                    Err(format!("the environment variable {name} is no text"))
                }
            },
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_secret_stands_in_its_variable_or_in_the_file_beside() {
        let dir = tempfile::tempdir().unwrap();
        let file = dir.path().join("token");
        fs::write(&file, "plover-9\n").unwrap();
        let path = file.to_str().unwrap();
        let environment =
            Environment::of([("A", "wren-7"), ("B_FILE", path), ("C", " "), ("D_FILE", "/none")]);
        let secret = |name| environment.secret(name).map(|word| word.reveal().to_owned());
        assert_eq!((secret("A"), secret("B")), (Ok("wren-7".into()), Ok("plover-9".into())));
        for (name, why) in [("C", "nothing"), ("D", "/none"), ("E", "not set")] {
            assert!(secret(name).unwrap_err().contains(why), "{name}");
        }
        assert_eq!(format!("{:?}", environment.secret("A")), "Ok(Hidden)");
    }
}
