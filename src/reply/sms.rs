//! Cutting a text for SMS: the alphabet of 3GPP TS 23.038 and its segments.
//!
//! Every reply of ours stays in the GSM 7-bit alphabet, so that one curly
//! quote never halves a text's room.

use unicode_normalization::UnicodeNormalization;

/// The default alphabet (3GPP TS 23.038, 6.2.1), one septet each; the escape
/// at 0x1B is left out.
const BASIC: &str = "@£$¥èéùìòÇ\nØø\rÅåΔ_ΦΓΛΩΠΨΣΘΞÆæßÉ !\"#¤%&'()*+,-./0123456789:;<=>?¡\
ABCDEFGHIJKLMNOPQRSTUVWXYZÄÖÑÜ§¿abcdefghijklmnopqrstuvwxyzäöñüà";

/// The extension table (3GPP TS 23.038, 6.2.1.1), two septets each.
const EXTENDED: &str = "\u{c}^{}\\[~]|€";

/// The alphabet that a text needs.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Alphabet {
    /// GSM 7-bit: 160 septets alone, 153 a part.
    Gsm7,
    /// UCS-2: 70 units alone, 67 a part.
    Ucs2,
}

/// What of a reply fits, and what waits for `more`.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fitted {
    /// The lines that fit, joined.
    pub text: String,
    /// The lines that wait.
    pub rest: Vec<String>,
}

impl Alphabet {
    const fn alone(self) -> usize {
        match self {
            Alphabet::Gsm7 => 160,
            Alphabet::Ucs2 => 70,
        }
    }

    const fn a_part(self) -> usize {
        match self {
            Alphabet::Gsm7 => 153,
            Alphabet::Ucs2 => 67,
        }
    }

    fn cost(self, c: char) -> usize {
        match self {
            Alphabet::Gsm7 => septets(c).unwrap_or(1),
            Alphabet::Ucs2 => c.len_utf16(),
        }
    }
}

/// How many septets an ASCII character takes; 0 for one that is in neither table.
#[expect(clippy::indexing_slicing, reason = "it is filled while compiling")]
const ASCII_SEPTETS: [u8; 128] = {
    let mut septets = [0; 128];
    let mut tables = [(BASIC.as_bytes(), 1), (EXTENDED.as_bytes(), 2)].as_slice();
    while let [(table, cost), rest @ ..] = tables {
        let mut at = 0;
        while at < table.len() {
            if table[at].is_ascii() {
                septets[table[at] as usize] = *cost;
            }
            at += 1;
        }
        tables = rest;
    }
    septets
};

/// How many septets a character takes; none where neither table has it.
fn septets(c: char) -> Option<usize> {
    match u8::try_from(c) {
        Ok(byte) if byte.is_ascii() => {
            let cost = ASCII_SEPTETS.get(usize::from(byte)).copied().map(usize::from);
            cost.filter(|cost| *cost > 0)
        }
        _ if BASIC.contains(c) => Some(1),
        _ if EXTENDED.contains(c) => Some(2),
        _ => None,
    }
}

/// True for a text whose every byte is a character of one septet, as most are.
fn is_simple(text: &str) -> bool {
    text.bytes().all(|byte| ASCII_SEPTETS.get(usize::from(byte)) == Some(&1))
}

/// The alphabet `text` needs.
pub fn alphabet(text: &str) -> Alphabet {
    match text.chars().all(|c| septets(c).is_some()) {
        true => Alphabet::Gsm7,
        false => Alphabet::Ucs2,
    }
}

/// `text` in the GSM alphabet: an accent that it lacks is left out, any other
/// character becomes `?`.
///
/// ```
/// use lapwing::reply::carried;
/// assert_eq!(carried("r\u{e1}pido, ni\u{f1}o"), "rapido, ni\u{f1}o");
/// ```
pub fn carried(text: &str) -> String {
    // Most texts: what is ASCII is made of nothing, and these are in the alphabet.
    if text.bytes().all(|byte| ASCII_SEPTETS.get(usize::from(byte)).is_some_and(|cost| *cost > 0)) {
        return text.to_owned();
    }
    let fits = |c: &char| septets(*c).is_some();
    let bare = |c: char| std::iter::once(c).nfd().next().filter(fits);
    text.nfc().map(|c| Some(c).filter(fits).or_else(|| bare(c)).unwrap_or('?')).collect()
}

/// `text` cut into the parts that a phone joins again; an escape or surrogate
/// pair never straddles two.
///
/// ```
/// use lapwing::reply::segments;
/// assert_eq!(segments(&"a".repeat(160)).len(), 1);
/// assert_eq!(segments(&"a".repeat(161)).len(), 2);
/// ```
pub fn segments(text: &str) -> Vec<String> {
    if is_simple(text) {
        let short = text.len() <= Alphabet::Gsm7.alone();
        let most = if short { Alphabet::Gsm7.alone() } else { Alphabet::Gsm7.a_part() };
        let (mut parts, mut rest) = (Vec::new(), text);
        while rest.len() > most {
            let (part, behind) = rest.split_at(most);
            parts.push(part.to_owned());
            rest = behind;
        }
        parts.push(rest.to_owned());
        return parts;
    }
    let alphabet = alphabet(text);
    let whole: usize = text.chars().map(|c| alphabet.cost(c)).sum();
    if whole <= alphabet.alone() {
        return vec![text.to_owned()];
    }
    let mut parts = vec![String::new()];
    let mut used = 0;
    for c in text.chars() {
        let cost = alphabet.cost(c);
        if used + cost > alphabet.a_part() {
            parts.push(String::new());
            used = 0;
        }
        if let Some(part) = parts.last_mut() {
            part.push(c);
        }
        used += cost;
    }
    parts
}

/// How many parts these pieces make as one text, counted without cutting it.
fn parts_in(pieces: &[&str]) -> usize {
    if pieces.iter().all(|piece| is_simple(piece)) {
        return simple_parts_in(pieces);
    }
    let gsm7 = pieces.iter().all(|piece| alphabet(piece) == Alphabet::Gsm7);
    let alphabet = if gsm7 { Alphabet::Gsm7 } else { Alphabet::Ucs2 };
    let costs = || pieces.iter().flat_map(|piece| piece.chars()).map(|c| alphabet.cost(c));
    if costs().sum::<usize>() <= alphabet.alone() {
        return 1;
    }
    let (parts, _) = costs().fold((1, 0), |(parts, used), cost| {
        if used + cost > alphabet.a_part() { (parts + 1, cost) } else { (parts, used + cost) }
    });
    parts
}

/// The same of pieces whose every byte is a character of one septet.
fn simple_parts_in(pieces: &[&str]) -> usize {
    let whole: usize = pieces.iter().map(|piece| piece.len()).sum();
    let short = whole <= Alphabet::Gsm7.alone();
    if short { 1 } else { whole.div_ceil(Alphabet::Gsm7.a_part()) }
}

/// As many whole lines as fit into `most` parts, the last of them `more_hint`
/// if any must wait. Where whole lines would leave more than half of the room
/// empty, the first that waits is cut, a list between two of its items.
pub fn fit(lines: Vec<String>, most: usize, more_hint: &str) -> Fitted {
    let all = lines.join("\n");
    // What is simple as a whole is simple in pieces, none of which is looked at again.
    let simple = is_simple(&all) && is_simple(more_hint);
    let parts_in = if simple { simple_parts_in } else { parts_in };
    if parts_in(&[&all]) <= most {
        return Fitted { text: all, rest: Vec::new() };
    }
    // Whether a text with one more line behind it leaves room for the hint.
    let fits = |text: &str, line: &str| {
        let between = if text.is_empty() { "" } else { "\n" };
        parts_in(&[text, between, line, "\n", more_hint]) <= most
    };
    let mut text = String::new();
    let mut waiting = lines.into_iter();
    let mut rest = Vec::new();
    for line in waiting.by_ref() {
        if fits(&text, &line) {
            text = behind(&text, &line);
            continue;
        }
        let mostly_empty = parts_in(&[&text]) <= most / 2;
        match cut(&text, &line, fits).filter(|_| mostly_empty) {
            Some((head, tail)) => {
                text = behind(&text, head);
                rest.push(tail.to_owned());
            }
            None => rest.push(line),
        }
        break;
    }
    rest.extend(waiting);
    rest.retain(|line| !line.is_empty());
    Fitted { text: format!("{text}\n{more_hint}"), rest }
}

fn behind(text: &str, line: &str) -> String {
    if text.is_empty() { line.to_owned() } else { format!("{text}\n{line}") }
}

/// `line` cut so that its longest possible head fits behind `text`: between two
/// items of a list; a first line that is none at a space, or anywhere.
fn cut<'a>(
    text: &str,
    line: &'a str,
    fits: impl Fn(&str, &str) -> bool,
) -> Option<(&'a str, &'a str)> {
    // A longer head never takes fewer parts, so the last that fits is soon found.
    let last = |places: Vec<usize>| {
        let places: Vec<usize> = places.into_iter().filter(|at| *at > 0).collect();
        let fitting = places.partition_point(|at| fits(text, &line[..*at]));
        places.into_iter().take(fitting).next_back()
    };
    // Where semicolons part the items, commas are inside of them.
    let mark = if line.contains("; ") { "; " } else { ", " };
    let between = last(line.match_indices(mark).map(|(at, _)| at + 1).collect());
    let alone = text.is_empty();
    let at_space = || last(line.match_indices(' ').map(|(at, _)| at).collect());
    let anywhere = || last(line.char_indices().map(|(at, _)| at).collect());
    let place = between.or_else(|| alone.then(at_space).flatten());
    let place = place.or_else(|| alone.then(anywhere).flatten())?;
    let (head, tail) = line.split_at(place);
    Some((head, tail.trim_start()))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Source: 3GPP TS 23.038 and 23.040 (140 octets, less 6 of header in a
    /// part); the counts were also worked with an independent segment counter.
    #[test]
    fn segment_counts() {
        let many = |c: &str, n: usize| c.repeat(n);
        for (text, alphabet_wanted, parts) in [
            (many("a", 160), Alphabet::Gsm7, 1),
            (many("a", 161), Alphabet::Gsm7, 2),
            (many("a", 306), Alphabet::Gsm7, 2),
            (many("a", 307), Alphabet::Gsm7, 3),
            (many("€", 80), Alphabet::Gsm7, 1),
            (many("€", 81), Alphabet::Gsm7, 2),
            (many("a", 159) + "€", Alphabet::Gsm7, 2),
            (many("a", 152) + "€" + &many("a", 152), Alphabet::Gsm7, 3),
            (many("ł", 70), Alphabet::Ucs2, 1),
            (many("ł", 71), Alphabet::Ucs2, 2),
            (many("ł", 134), Alphabet::Ucs2, 2),
            (many("ł", 135), Alphabet::Ucs2, 3),
            (many("🏊", 35), Alphabet::Ucs2, 1),
            (many("🏊", 36), Alphabet::Ucs2, 2),
            (many("ł", 66) + "🏊" + &many("ł", 66), Alphabet::Ucs2, 3),
            ("1:23–1:25".to_owned(), Alphabet::Ucs2, 1),
        ] {
            assert_eq!(alphabet(&text), alphabet_wanted, "{text}");
            let cut = segments(&text);
            assert_eq!(cut.len(), parts, "{text}");
            assert_eq!(cut.concat(), text);
        }
    }

    #[test]
    fn table_has_all_but_the_escape() {
        assert_eq!(BASIC.chars().count(), 127);
        assert_eq!(EXTENDED.chars().count(), 10);
    }

    /// Counting without cutting is what cutting would have given.
    #[test]
    fn parts_are_counted_as_they_are_cut() {
        for unit in ["a", "[", "é", "ł", "🏊", "a€", "[b"] {
            for length in (0..400).step_by(7) {
                let text = unit.repeat(length);
                let half = text.char_indices().nth(length / 2).map_or(0, |(at, _)| at);
                let pieces = [&text[..half], &text[half..]];
                assert_eq!(parts_in(&pieces), segments(&text).len(), "{unit} {length}");
            }
        }
    }

    #[test]
    fn what_does_not_fit_waits() {
        let lines: Vec<String> = (0..10).map(|n| format!("{n}{}", "x".repeat(60))).collect();
        let fitted = fit(lines.clone(), 2, "MORE");
        assert!(segments(&fitted.text).len() <= 2);
        assert_eq!(fitted.rest.len(), 6);
        assert_eq!(fitted.rest[0], lines[4]);
        let one = fit(vec!["word ".repeat(200)], 2, "MORE");
        assert!(segments(&one.text).len() <= 2 && one.rest.len() == 1);
        assert!(fit(vec!["short".into()], 2, "MORE").rest.is_empty());
    }

    #[test]
    fn a_list_is_cut_between_its_items() {
        let names: Vec<String> = (0..60).map(|n| format!("swimmer{n}")).collect();
        let lines = vec!["Tonight:".to_owned(), format!("In: {}.", names.join(", "))];
        let fitted = fit(lines, 2, "MORE");
        assert_eq!(segments(&fitted.text).len(), 2);
        let said = fitted.text.strip_suffix(",\nMORE").unwrap().split(", ").count();
        let waiting: Vec<&str> = fitted.rest[0].split(", ").collect();
        assert_eq!((waiting[0], said + waiting.len()), (format!("swimmer{said}").as_str(), 60));
    }
}
