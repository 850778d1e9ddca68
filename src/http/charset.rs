//! The two charsets in which gateways hand texts over.

/// How the bytes of a text are to be read.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Charset {
    /// UTF-8, and with it ASCII.
    #[default]
    Utf8,
    /// UTF-16, the high byte first, as a phone network carries it.
    Utf16Be,
}

impl Charset {
    /// The charset of this name, in any case; `None` for one we can't read.
    pub fn named(name: &str) -> Option<Charset> {
        match name.to_ascii_lowercase().as_str() {
            "utf-8" | "us-ascii" => Some(Charset::Utf8),
            "utf-16be" => Some(Charset::Utf16Be),
            _ => None,
        }
    }

    /// The text in these bytes, less a byte order mark; the bytes again if
    /// they are none.
    pub fn decode(self, bytes: Vec<u8>) -> Result<String, Vec<u8>> {
        let text = match self {
            Charset::Utf8 => String::from_utf8(bytes).map_err(|bad| bad.into_bytes())?,
            Charset::Utf16Be => {
                let (units, odd) = bytes.as_chunks::<2>();
                let units = units.iter().copied().map(u16::from_be_bytes);
                match char::decode_utf16(units).collect::<Result<String, _>>() {
                    Ok(text) if odd.is_empty() => text,
                    _ => return Err(bytes),
                }
            }
        };
        Ok(text.strip_prefix('\u{FEFF}').map(str::to_owned).unwrap_or(text))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn utf_16_of_a_gateway_is_read() {
        // "så 🏊" as a phone network carries it, surrogates included.
        let bytes = vec![0x00, 0x73, 0x00, 0xE5, 0x00, 0x20, 0xD8, 0x3C, 0xDF, 0xCA];
        assert_eq!(Charset::Utf16Be.decode(bytes), Ok("så 🏊".to_owned()));
        assert_eq!(Charset::Utf16Be.decode(vec![0xFE, 0xFF, 0x00, 0x61]), Ok("a".to_owned()));
    }

    #[test]
    fn bytes_that_are_no_text_come_back_whole() {
        for bytes in
            [vec![0x00], vec![0x00, 0x61, 0x00], vec![0xD8, 0x3C], vec![0xDF, 0xCA, 0, 0x61]]
        {
            assert_eq!(Charset::Utf16Be.decode(bytes.clone()), Err(bytes));
        }
        assert_eq!(Charset::Utf8.decode(vec![0x61, 0xFF]), Err(vec![0x61, 0xFF]));
        assert_eq!(Charset::Utf8.decode(vec![0xED, 0xA0, 0x80]), Err(vec![0xED, 0xA0, 0x80]));
    }

    #[test]
    fn names_are_read_in_any_case() {
        assert_eq!(Charset::named("utf-16BE"), Some(Charset::Utf16Be));
        assert_eq!(Charset::named("UTF-8"), Some(Charset::Utf8));
        assert_eq!(Charset::named("UTF-16LE"), None);
    }
}
