//! One table of the settings file, read field by field, so that a fault in one
//! field hides none in another.

use std::cell::RefCell;
use std::collections::BTreeMap;
use std::fmt::Display;
use std::ops::Range;

use serde::Deserialize;
use serde::de::IntoDeserializer;
use toml::Spanned;
use toml::de::{DeTable, DeValue};

use super::{Environment, Fault, Place};
use crate::hidden::Hidden;

/// How like an unknown field must be to a known one to be taken for a slip;
/// 1 is the same. Ours.
const LIKE: f64 = 0.8;

/// What all tables of a file share.
pub(super) struct Pages<'e> {
    text: &'e str,
    environment: &'e Environment,
    faults: RefCell<Vec<Fault>>,
}

/// A table.
pub(super) struct Table<'p, 'e> {
    pages: &'p Pages<'e>,
    /// What it is called in a fault: nothing for the file itself.
    title: String,
    line: usize,
    fields: BTreeMap<String, Field<'e>>,
    /// Fields that were asked for.
    known: Vec<&'static str>,
}

struct Field<'e> {
    line: usize,
    /// None once it was read.
    value: Option<Spanned<DeValue<'e>>>,
}

impl<'e> Pages<'e> {
    pub fn new(text: &'e str, environment: &'e Environment) -> Pages<'e> {
        Pages { text, environment, faults: RefCell::default() }
    }

    /// Reads the file's fields, of which `read` takes all it knows.
    pub fn read<T>(&self, read: impl FnOnce(&mut Table<'_, 'e>) -> T) -> T {
        let (fields, broken) = DeTable::parse_recoverable(self.text);
        for error in broken {
            self.fault(error.span().map(|span| self.line(span)), Place::File, error.message());
        }
        Table::open(self, String::new(), 1, fields.into_inner(), read)
    }

    pub fn into_faults(self) -> Vec<Fault> {
        self.faults.into_inner()
    }

    fn line(&self, span: Range<usize>) -> usize {
        let before = self.text.as_bytes().get(..span.start).unwrap_or_default();
        1 + before.iter().filter(|&&byte| byte == b'\n').count()
    }

    fn fault(&self, line: Option<usize>, place: Place, what: impl Display) {
        self.faults.borrow_mut().push(Fault { line, place, what: what.to_string() });
    }
}

impl<'p, 'e> Table<'p, 'e> {
    fn open<T>(
        pages: &'p Pages<'e>,
        title: String,
        line: usize,
        fields: DeTable<'e>,
        read: impl FnOnce(&mut Table<'p, 'e>) -> T,
    ) -> T {
        let fields = fields
            .into_iter()
            .map(|(name, value)| {
                let line = pages.line(name.span());
                (name.into_inner().into_owned(), Field { line, value: Some(value) })
            })
            .collect();
        let mut table = Table { pages, title, line, fields, known: vec![] };
        let told = read(&mut table);
        table.report_unknown();
        told
    }

    /// A field's value; a fault and none where it is of another type.
    pub fn value<T: Deserialize<'e>>(&mut self, name: &'static str) -> Option<T> {
        let value = self.take(name)?;
        match T::deserialize(value.into_deserializer()) {
            Ok(value) => Some(value),
            Err(error) => {
                self.fault(name, error.message());
                None
            }
        }
    }

    /// A field's text as `read` makes something of it.
    pub fn word<T, E: Display>(
        &mut self,
        name: &'static str,
        read: impl FnOnce(&str) -> Result<T, E>,
    ) -> Option<T> {
        let word: String = self.value(name)?;
        read(&word).map_err(|error| self.fault(name, error)).ok()
    }

    /// The secret in the environment variable that a field names.
    pub fn secret(&mut self, name: &'static str) -> Option<Hidden> {
        let variable: String = self.value(name)?;
        self.revealed(name, &variable)
    }

    /// The secrets in the environment variables that a table's fields name.
    pub fn secrets(&mut self, name: &'static str) -> Vec<(String, Hidden)> {
        let variables: BTreeMap<String, String> = self.words(name);
        variables
            .into_iter()
            .filter_map(|(field, variable)| Some((field, self.revealed(name, &variable)?)))
            .collect()
    }

    fn revealed(&self, name: &str, variable: &str) -> Option<Hidden> {
        let is_name = |c: char| c.is_ascii_alphanumeric() || c == '_';
        if variable.is_empty() || !variable.chars().all(is_name) {
            self.fault(name, "name the environment variable that holds the secret, not the secret");
            return None;
        }
        let missing = |why| self.add(self.line_of(name), Place::Environment, name, &why);
        self.pages.environment.secret(variable).map_err(missing).ok()
    }

    /// True if the field is there, in whatever form.
    pub fn has(&self, name: &str) -> bool {
        self.fields.contains_key(name)
    }

    /// A table within this one.
    pub fn inside<T>(
        &mut self,
        name: &'static str,
        read: impl FnOnce(&mut Table<'p, 'e>) -> T,
    ) -> Option<T> {
        let value = self.take(name)?;
        let title = self.titled(name);
        self.opened(name, title, value, read)
    }

    /// The tables of a `[[name]]`, in their order.
    pub fn each<T>(
        &mut self,
        name: &'static str,
        mut read: impl FnMut(&mut Table<'p, 'e>) -> T,
    ) -> Vec<T> {
        let Some(value) = self.take(name) else { return vec![] };
        let DeValue::Array(tables) = value.into_inner() else {
            self.fault(name, format_args!("write it as [[{name}]]"));
            return vec![];
        };
        let title = self.titled(name);
        tables
            .into_iter()
            .filter_map(|value| self.opened(name, title.clone(), value, &mut read))
            .collect()
    }

    /// A table of whatever fields there are, each of them a text.
    pub fn words(&mut self, name: &'static str) -> BTreeMap<String, String> {
        self.value(name).unwrap_or_default()
    }

    /// Notes that a field must be there and isn't, unless it was there in a
    /// wrong form.
    pub fn require<T>(&self, name: &'static str, value: Option<T>) -> Option<T> {
        if value.is_none() && !self.has(name) {
            self.add(Some(self.line), Place::File, name, &"it is missing");
        }
        value
    }

    /// Notes what is wrong with a field, at its line.
    pub fn fault(&self, name: &str, what: impl Display) {
        self.add(self.line_of(name), Place::File, name, &what);
    }

    fn opened<T>(
        &mut self,
        name: &'static str,
        title: String,
        value: Spanned<DeValue<'e>>,
        read: impl FnOnce(&mut Table<'p, 'e>) -> T,
    ) -> Option<T> {
        let line = self.pages.line(value.span());
        match value.into_inner() {
            DeValue::Table(fields) => Some(Table::open(self.pages, title, line, fields, read)),
            _ => {
                self.fault(name, format_args!("write it as a table, [{name}]"));
                None
            }
        }
    }

    fn take(&mut self, name: &'static str) -> Option<Spanned<DeValue<'e>>> {
        self.known.push(name);
        self.fields.get_mut(name)?.value.take()
    }

    fn titled(&self, name: &str) -> String {
        if self.title.is_empty() { name.to_owned() } else { format!("{}.{name}", self.title) }
    }

    fn line_of(&self, name: &str) -> Option<usize> {
        Some(self.fields.get(name).map_or(self.line, |field| field.line))
    }

    fn add(&self, line: Option<usize>, place: Place, name: &str, what: &dyn Display) {
        self.pages.fault(line, place, format_args!("`{}`: {what}", self.titled(name)));
    }

    fn report_unknown(&self) {
        for (name, field) in self.fields.iter().filter(|(_, field)| field.value.is_some()) {
            let likeness = |known: &&&str| strsim::jaro_winkler(known, name);
            let like = self.known.iter().max_by(|a, b| likeness(a).total_cmp(&likeness(b)));
            let what = match like.filter(|known| likeness(known) > LIKE) {
                Some(known) => format!("there is no such setting; is it `{known}`?"),
                None => format!("there is no such setting; known here: {}", self.known.join(", ")),
            };
            self.add(Some(field.line), Place::File, name, &what);
        }
    }
}
