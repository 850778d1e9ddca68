//! Forms of Spanish words that no list of words holds: verbs in their persons and
//! tenses, plurals, feminines, diminutives.
//!
//! Knows endings only, by the regular paradigms of any school grammar; whether a
//! stem is a word is asked of the list. It is as good as telling chatter from
//! slips needs, and takes some forms that nobody says.

/// True if `word`, folded, is a form of a word that `is_listed` knows.
pub fn is_form(word: &str, is_listed: impl Fn(&str) -> bool) -> bool {
    let word = without_clitics(word).unwrap_or(word);
    is_listed(word) || is_noun_form(word, &is_listed) || is_verb_form(word, &is_listed)
}

/// A stem and an ending, put together without memory of their own: looking for a word's
/// verb puts a dozen together. Longer ones than any listed word are no word.
fn joined(parts: [&str; 3], is_listed: impl Fn(&str) -> bool) -> bool {
    let mut letters = [0; 64];
    let mut length = 0;
    for part in parts {
        let end = length + part.len();
        let Some(room) = letters.get_mut(length..end) else {
            return is_listed(&parts.concat());
        };
        room.copy_from_slice(part.as_bytes());
        length = end;
    }
    let word = letters.get(..length).and_then(|letters| std::str::from_utf8(letters).ok());
    word.is_some_and(is_listed)
}

/// What is left of a word before an ending: at least two letters.
fn stem_of<'w>(word: &'w str, ending: &str) -> Option<&'w str> {
    let last = |text: &str| text.as_bytes().last().copied();
    if last(word) != last(ending) {
        return None;
    }
    word.strip_suffix(ending).filter(|stem| stem.len() > 1)
}

/// `decirles`, `haciendolo`: the verb alone.
fn without_clitics(word: &str) -> Option<&str> {
    const CLITICS: [&str; 14] = [
        "melo", "mela", "telo", "tela", "selo", "sela", "noslo", "los", "las", "les", "nos", "lo",
        "la", "le",
    ];
    const SHORT: [&str; 3] = ["me", "te", "se"];
    CLITICS.iter().chain(&SHORT).find_map(|clitic| {
        let verb = word.strip_suffix(clitic)?;
        ["ar", "er", "ir", "ando", "iendo", "endo"]
            .iter()
            .any(|ending| verb.len() > 3 && verb.ends_with(ending))
            .then_some(verb)
    })
}

fn is_noun_form(word: &str, is_listed: &impl Fn(&str) -> bool) -> bool {
    // Each ending, and what stands in its place in the list.
    const ENDINGS: [(&str, &[&str]); 18] = [
        ("isimos", &["o", "e", ""]),
        ("isimas", &["o", "e", ""]),
        ("isimo", &["o", "e", ""]),
        ("isima", &["o", "e", ""]),
        ("citos", &["", "e"]),
        ("citas", &["", "e"]),
        ("cito", &["", "e"]),
        ("cita", &["", "e"]),
        ("itos", &["o", "e", ""]),
        ("itas", &["a", "o"]),
        ("ito", &["o", "e", ""]),
        ("ita", &["a", "o"]),
        ("ces", &["z"]),
        ("azo", &["o", "a", ""]),
        ("as", &["o", "a"]),
        ("es", &["", "e"]),
        ("s", &[""]),
        ("a", &["o", ""]),
    ];
    ENDINGS.iter().any(|(ending, instead)| {
        stem_of(word, ending).is_some_and(|stem| {
            instead.iter().any(|instead| joined([stem, instead, ""], is_listed))
        })
    })
}

/// Endings of verbs in `-ar`, in `-er` and `-ir`, longest first.
const OF_AR: [&str; 49] = [
    "abamos", "aramos", "asemos", "asteis", "aremos", "ariamos", "arian", "arias", "areis",
    "abais", "arais", "aria", "aron", "aste", "aban", "abas", "aran", "aras", "asen", "ando",
    "adas", "ados", "amos", "emos", "aba", "ara", "are", "ase", "ado", "ada", "ais", "eis", "aos",
    "an", "as", "en", "es", "ad", "ar", "ao", "a", "e", "o", "azo", "adora", "ador", "adores",
    "acion", "aciones",
];
const OF_ER: [&str; 50] = [
    "ieramos", "iesemos", "isteis", "eriamos", "iriamos", "eremos", "iremos", "erian", "irian",
    "ieron", "ieran", "ieras", "iesen", "iamos", "iendo", "eria", "iria", "eras", "iras", "eran",
    "iran", "iste", "iera", "iese", "amos", "emos", "imos", "idas", "idos", "endo", "ido", "ida",
    "ian", "ias", "ere", "ire", "era", "ira", "ais", "eis", "io", "ia", "an", "as", "en", "es",
    "ed", "id", "a", "e",
];

fn is_verb_form(word: &str, is_listed: &impl Fn(&str) -> bool) -> bool {
    let of = |endings: &[&str], infinitives: &[&str]| {
        endings.iter().any(|ending| {
            stem_of(word, ending).is_some_and(|stem| is_stem(stem, infinitives, is_listed))
        })
    };
    of(&OF_AR, &["ar"]) || of(&OF_ER, &["er", "ir"]) || of(&["o", "i"], &["er", "ir"])
}

/// True if the stem makes a verb of the list, with the changes that spelling and
/// stress make of it: `saqu-` of `sacar`, `pued-` of `poder`, `pid-` of `pedir`.
fn is_stem(stem: &str, infinitives: &[&str], is_listed: &impl Fn(&str) -> bool) -> bool {
    let verb = |stem: &str, spelt: &str| {
        infinitives.iter().any(|end| joined([stem, spelt, end], is_listed))
    };
    if verb(stem, "") {
        return true;
    }
    const SPELT: [(&str, &str); 7] =
        [("qu", "c"), ("gu", "g"), ("zc", "c"), ("c", "z"), ("j", "g"), ("y", ""), ("g", "")];
    if SPELT
        .iter()
        .any(|(end, instead)| stem.strip_suffix(end).is_some_and(|stem| verb(stem, instead)))
    {
        return true;
    }
    const STRESSED: [(&str, &str); 4] = [("ue", "o"), ("ie", "e"), ("ue", "u"), ("i", "e")];
    STRESSED.iter().any(|(vowel, instead)| {
        stem.rfind(vowel).is_some_and(|at| {
            let behind = &stem[at + vowel.len()..];
            let back = behind.strip_suffix("qu").map(|rest| format!("{rest}c"));
            let back = back.or_else(|| behind.strip_suffix("gu").map(|rest| format!("{rest}g")));
            let behind = back.unwrap_or_else(|| behind.to_owned());
            verb(&stem[..at], &format!("{instead}{behind}"))
        })
    })
}

#[cfg(test)]
mod tests {
    use super::is_form;
    use crate::language::Language;
    use crate::reading::lexicon::is_ordinary;

    /// From memory: forms that a school grammar gives.
    #[test]
    fn forms_are_known_by_their_stems() {
        for word in [
            "nadabamos",
            "saque",
            "llegue",
            "empece",
            "puedo",
            "duele",
            "pidieron",
            "decirles",
            "piscinas",
            "cansadita",
            "luces",
            "entrenaste",
            "corriendo",
            "salieron",
            "conduzco",
        ] {
            assert!(is_ordinary(word, Language::Spanish), "{word}");
        }
        for word in ["xqzt", "puffin", "heronn"] {
            assert!(!is_ordinary(word, Language::Spanish), "{word}");
        }
        assert!(!is_form("nadabamox", |word| word == "nadar"));
    }
}
