//! What was read of a message and what it came to, as JSON: the same in the record and in the
//! answer, and so written once.

use serde::Serialize;
use serde_json::Value;

/// `"understood":[…],"result":{…}`, where it was written for the record.
#[derive(Debug, Clone, Default)]
pub struct Told(Option<Box<[u8]>>);

/// It says nothing that is not in what it was written from.
impl PartialEq for Told {
    fn eq(&self, _: &Self) -> bool {
        true
    }
}

impl Told {
    /// Writes it behind `bytes`, and keeps it.
    pub(super) fn write(
        bytes: &mut Vec<u8>,
        understood: &[Value],
        result: &Value,
    ) -> Result<Told, serde_json::Error> {
        let begin = bytes.len();
        bytes.extend_from_slice(br#""understood":"#);
        serde_json::to_writer(&mut *bytes, understood)?;
        bytes.extend_from_slice(br#","result":"#);
        serde_json::to_writer(&mut *bytes, result)?;
        Ok(Told(bytes.get(begin..).map(Box::from)))
    }

    /// The same as it was written.
    pub(super) fn written(&self) -> Option<&[u8]> {
        self.0.as_deref()
    }
}

/// Writes an object that is to be gone on with: without its end, and with a comma.
pub(super) fn write_open(
    bytes: &mut Vec<u8>,
    object: &impl Serialize,
) -> Result<(), serde_json::Error> {
    serde_json::to_writer(&mut *bytes, object)?;
    bytes.pop();
    bytes.push(b',');
    Ok(())
}
