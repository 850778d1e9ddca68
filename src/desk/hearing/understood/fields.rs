//! The fields of one entry in the making.

use serde_json::{Map, Value};

/// Fields in the making; absent values are left out.
#[derive(Clone, Default)]
pub struct Fields(pub Map<String, Value>);

impl Fields {
    /// With one more, where it has a value.
    pub fn with(mut self, name: &str, value: impl Into<Value>) -> Self {
        let value = value.into();
        if !value.is_null() {
            self.0.insert(name.to_owned(), value);
        }
        self
    }

    /// With a list, where there is anything in it.
    pub fn with_list<T: Into<Value>>(self, name: &str, list: Vec<T>) -> Self {
        if list.is_empty() { self } else { self.with(name, list) }
    }

    /// With all the fields of another.
    pub fn merge(mut self, other: Fields) -> Self {
        self.0.extend(other.0);
        self
    }
}
