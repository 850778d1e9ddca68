//! Whose illness it is, and what else is said beside it: `ill be late` is I'll,
//! `my son is ill` another's, `ill so im out` two statements.
//!
//! In doubt `ill` is illness: a swimmer who rests too much loses a session.

use super::Token;
use super::kinds::{is_break, is_day, is_name};

/// Verbs that make an `ill` before them I'll. Those that an ill person says of
/// themselves as well (`ill miss tonight`, `ill stay home`) are none of them.
const WILL: &[&str] = &[
    "arrive",
    "ask",
    "be",
    "bring",
    "call",
    "check",
    "come",
    "cycle",
    "definitely",
    "do",
    "drive",
    "drop",
    "finish",
    "get",
    "give",
    "go",
    "have",
    "head",
    "join",
    "just",
    "let",
    "make",
    "pay",
    "pick",
    "probably",
    "send",
    "see",
    "show",
    "start",
    "still",
    "swim",
    "take",
    "tell",
    "text",
    "try",
    "turn",
    "use",
    "wait",
    "walk",
    "wear",
];

/// Words that make an `ill` behind them illness, whatever follows.
const BEING: &[&str] = &[
    "am", "been", "being", "bit", "fallen", "feel", "feeling", "feels", "felt", "gone", "got",
    "im", "is", "still", "taken", "was",
];

/// Children, whose illness is not the sender's, unless they speak for them.
const CHILDREN: &[&str] = &[
    "son", "daughter", "kid", "child", "children", "boy", "girl", "twin", "toddler", "hijo",
    "hija", "nino", "nina",
];

/// Others whose illness is not the sender's.
const KIN: &[&str] = &[
    "baby",
    "wife",
    "husband",
    "partner",
    "girlfriend",
    "boyfriend",
    "fiance",
    "mum",
    "mom",
    "mam",
    "dad",
    "mother",
    "father",
    "brother",
    "sister",
    "gran",
    "grandma",
    "grandad",
    "nan",
    "friend",
    "boss",
    "dog",
    "cat",
    "flatmate",
    "bebe",
    "mujer",
    "marido",
    "esposa",
    "esposo",
    "pareja",
    "madre",
    "padre",
    "hermano",
    "hermana",
    "abuela",
    "abuelo",
];

/// One of those, by a pronoun.
const PRONOUNS: &[&str] = &["she", "he", "shes", "hes", "they", "theyre", "ella"];

/// What may stand before them.
const BEFORE: &[&str] = &[
    "my", "our", "his", "her", "their", "the", "a", "both", "all", "little", "big", "older",
    "younger", "youngest", "oldest", "eldest", "middle", "poor", "two", "mi", "mis", "nuestro",
    "nuestra", "los", "las", "la",
];

/// Of those, whose they are.
const OWNS: &[&str] = &["my", "our", "his", "her", "their"];

/// What may stand between them and the illness.
const BETWEEN: &[&str] = &[
    "is", "are", "was", "were", "has", "have", "had", "got", "s", "been", "a", "an", "the", "off",
    "down", "with", "really", "very", "quite", "so", "feeling", "feels", "both", "all", "come",
    "gone", "caught", "again", "still", "just", "esta", "estan", "tiene", "tienen", "con", "muy",
];

/// Words that make another's illness the sender's as well.
const AS_WELL: &[&str] = &["too", "also", "me", "myself", "us", "am", "tambien", "yo"];

/// Pairs of words that do: `i and my son are ill`, `so have i`.
const AS_WELL_PAIRS: &[[&str; 2]] = &[["i", "and"], ["have", "i"], ["do", "i"], ["did", "i"]];

/// True for an `ill` between `before` and `next` that is I'll without its
/// apostrophe.
pub fn is_i_will(before: Option<&str>, next: Option<&str>) -> bool {
    next.is_some_and(|next| WILL.contains(&next))
        && !before.is_some_and(|before| BEING.contains(&before))
}

/// True where the words of a text say that the sender is ill as well.
pub fn is_as_well(words: &[&str]) -> bool {
    words.iter().any(|word| AS_WELL.contains(word))
        || words.windows(2).any(|pair| AS_WELL_PAIRS.iter().any(|both| pair == both))
}

/// True for a name that is but `she` or `he`.
pub fn is_pronoun(word: &str) -> bool {
    PRONOUNS.contains(&word)
}

/// Whose illness, of those who are not the sender.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Ailing {
    /// A child, who may swim here and the sender speak for them.
    Child,
    /// Anyone else of their family, a friend.
    Kin,
    /// `she` or `he`, who may be anyone named in the text.
    Pronoun,
}

/// Whose illness stands at the start of `ahead`, folded words, and how many words
/// it takes; `illness` tells how many words of illness stand at the start of some.
pub fn another(
    ahead: &[&str],
    illness: impl Fn(&[&str]) -> Option<usize>,
) -> Option<(Ailing, usize)> {
    let leading = |words: &[&str], table: &[&str], most: usize| {
        words.iter().take(most).take_while(|word| table.contains(word)).count()
    };
    let before = leading(ahead, BEFORE, 3);
    let rest = ahead.get(before..)?;
    // `my ill son`, and not `the flu, mum says`
    if ahead.first().is_some_and(|word| OWNS.contains(word))
        && rest.first().is_some_and(|word| ["ill", "sick", "poorly", "unwell"].contains(word))
        && let Some(length) = illness(rest)
        && let Some(whose) = rest.get(length).and_then(|word| kin(word))
    {
        return Some((whose, before + length + 1));
    }
    let (first, behind) = rest.split_first()?;
    let whose = match before == 0 && PRONOUNS.contains(first) {
        true => Ailing::Pronoun,
        false => kin(first)?,
    };
    let between = leading(behind, BETWEEN, 4);
    let length = illness(behind.get(between..)?)?;
    Some((whose, before + 1 + between + length))
}

fn kin(word: &str) -> Option<Ailing> {
    let is_in = |table: &[&str]| {
        table.contains(&word) || word.strip_suffix('s').is_some_and(|one| table.contains(&one))
    };
    if is_in(CHILDREN) {
        return Some(Ailing::Child);
    }
    is_in(KIN).then_some(Ailing::Kin)
}

/// Parts what is said of one's health from whether one comes: `ill so im out`,
/// `out tonight, ill`. What begins with a name is of that name throughout, and
/// `shes out` of the one named before.
pub(super) fn parted(tokens: Vec<Token>) -> Vec<Token> {
    let mut out: Vec<Token> = Vec::with_capacity(tokens.len());
    let mut named: Vec<Token> = Vec::new();
    for statement in tokens.split_inclusive(|token| is_break(&token.text)) {
        let leads = statement.iter().take_while(|token| is_person(token)).count();
        let of_before = match statement {
            [first, said @ ..] if takes_up(first) && attends(said) => Some(said),
            _ => None,
        };
        let said = match of_before.filter(|_| !named.is_empty()) {
            Some(said) => {
                out.extend(named.iter().cloned());
                said
            }
            None => {
                if leads > 0 {
                    named = statement.iter().take(leads).cloned().collect();
                }
                statement
            }
        };
        let own = if leads > 0 { named.as_slice() } else { &[] };
        one(said, own, &mut out);
    }
    out
}

/// One statement, parted; `named` is of whom.
fn one(said: &[Token], named: &[Token], out: &mut Vec<Token>) {
    let (mut health, mut coming) = (false, false);
    let (mut rest, mut begins) = (said, true);
    loop {
        // `shoulder sore but ill be there`
        match rest {
            [but, behind @ ..] if health && but.text == "but" && attends(behind) => {
                (rest, begins) = (behind, false);
            }
            _ => {}
        }
        let [first, behind @ ..] = rest else { return };
        let pronoun = takes_up(first) && attends(behind);
        let follows =
            (health || pronoun && !begins) && attends(if pronoun { behind } else { rest });
        if health && follows || coming && is_health(rest) {
            out.push(Token { text: ",".to_owned(), to: first.from, ..first.clone() });
            match (named.is_empty(), pronoun) {
                (false, _) => out.extend(named.iter().cloned()),
                (true, true) => out.push(first.clone()),
                (true, false) => {}
            }
            if pronoun {
                rest = behind;
            }
            (health, coming) = (false, false);
        }
        coming |= attends(rest);
        health |= is_health(rest);
        let [first, behind @ ..] = rest else { return };
        out.push(first.clone());
        (rest, begins) = (behind, false);
    }
}

/// `shes`, as it stands for someone named before.
fn takes_up(token: &Token) -> bool {
    token
        .text
        .strip_prefix('~')
        .is_some_and(|word| PRONOUNS.contains(&word.replace('\'', "").as_str()))
}

fn is_person(token: &Token) -> bool {
    is_name(&token.text) && !takes_up(token)
}

/// True for tokens that begin with whether one comes.
fn attends(tokens: &[Token]) -> bool {
    let next = tokens.get(1).map_or(",", |next| next.text.as_str());
    match tokens.first().map(|token| token.text.as_str()) {
        Some("out" | "late" | "in" | "away") => true,
        // `ill in bed` says nothing of coming.
        Some("(in)") => is_break(next) || is_day(next),
        _ => false,
    }
}

/// True for tokens that begin with a state of health.
fn is_health(tokens: &[Token]) -> bool {
    let next = tokens.get(1).map_or(",", |next| next.text.as_str());
    match tokens.first().map_or(",", |token| token.text.as_str()) {
        "ill" | "cold" | "fever" | "stomach" | "pain" | "better" | "faint" => true,
        "back" => next == "pain",
        text => super::BODY.contains(&text),
    }
}
