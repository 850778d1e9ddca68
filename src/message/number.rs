//! Telephone numbers that nobody texts from as they are written.

/// Fewer digits than this are no whole telephone number (ours: gateways' short codes
/// have at most six).
const SHORTEST: usize = 7;

/// True for a telephone number that begins with a 0, as it is dialled within a country
/// or, with two, abroad: texts come from a plus and the country's code.
///
/// ```
/// use lapwing::message::is_dialled;
/// assert!(is_dialled("07700900123") && is_dialled("00447700900123"));
/// assert!(!is_dialled("+447700900123") && !is_dialled("0800"));
/// ```
pub fn is_dialled(word: &str) -> bool {
    word.len() >= SHORTEST && word.starts_with('0') && is_number(word)
}

/// True for digits alone, so many as a whole telephone number has.
pub fn is_number(word: &str) -> bool {
    word.len() >= SHORTEST && word.bytes().all(|byte| byte.is_ascii_digit())
}
