//! A text read: plain characters, canonical tokens, the grammar, its meaning;
//! and where that fails, the slip of a finger, the remark, or what was left.

use nom::Parser;
use nom::combinator::all_consuming;

use super::examples::example;
use super::grammar::message;
use super::meaning::{self, Outcome, Trouble};
use super::normal::{BODY, Normal, Token, Words, free_text, listed, normalise};
use super::syntax::Text;
use super::typed::{Form, Typed};
use super::{
    Choice, Doubt, Kind, Message, Name, Reading, Statement, is_help, is_opt_in, is_opt_out,
};
use crate::language::Language;

/// A text is read up to this many bytes: a whole session or a lane of thirty
/// fits several times over, and nothing longer was meant for us. Ours.
pub const LONGEST_TEXT: usize = 4096;

/// Characters up to which a text is looked at for slips of the finger: a text is read anew for
/// each. Nobody types a longer one.
const LONGEST_SLIPPED: usize = 1024;

/// Unknown words that are tried as slips in one text; each costs one reading.
const MOST_SLIPS: usize = 3;

/// Words that one slip is tried as.
const MOST_MEANINGS: usize = 4;

/// Reads a text in `language`.
///
/// Pure, and linear in the text's length; what cannot be read is said, never
/// guessed.
///
/// ```
/// use lapwing::language::Language;
/// use lapwing::message::{Kind, Reading, parse};
/// let Reading::Understood(message) = parse("200 test 3:12", Language::English) else { panic!() };
/// let Kind::Test(test) = &message.statements[0].kind else { panic!() };
/// assert_eq!(test.distance.amount, 200);
/// ```
pub fn parse(text: &str, language: Language) -> Reading {
    parse_knowing(text, language, |_| false)
}

/// As [`parse`], for a squad whose members `knows` tells from other words: an
/// unknown word where a name may stand is tried as a slip of the finger first
/// (`doen 1800 45min` is no swimmer called Doen), a known name never.
pub fn parse_knowing(text: &str, language: Language, knows: impl Fn(&Name) -> bool) -> Reading {
    Typed::new(text).reading(language, knows)
}

/// What is read of a text before the grammar: the words that every gateway knows, and
/// what nobody can have meant.
pub(super) fn without_grammar(text: &str, language: Language) -> Option<Reading> {
    let sole = |kind| {
        Some(Reading::Understood(Message { statements: vec![Statement { who: None, kind }] }))
    };
    if text.len() > LONGEST_TEXT {
        let rest = text.chars().take(60).collect();
        return Some(Reading::NotUnderstood {
            understood: Vec::new(),
            rest,
            example: example(&[], language),
        });
    }
    if is_opt_out(text) {
        return sole(Kind::Stop);
    }
    if is_opt_in(text) {
        return sole(Kind::Start);
    }
    is_help(text).then(|| sole(Kind::Help { topic: None })).flatten()
}

/// Reads a text in the grammar's form.
pub(super) fn read_normal(
    form: &Form,
    language: Language,
    knows: impl Fn(&Name) -> bool,
) -> Reading {
    let Form { characters, foreign_number, normal } = form;
    if let Some(typed) = foreign_number {
        let typed = typed.clone();
        let asks = Doubt::Digits { typed };
        return Reading::Unsure { options: vec![], asks, told: vec![] };
    }
    let words = Words::of(language);
    let reading = match attempt(normal) {
        Err(Trouble::Senseless) => by_name(normal, &knows).unwrap_or(Err(Trouble::Senseless)),
        read => read,
    };
    let strangers: Vec<&Token> =
        normal.tokens.iter().filter(|token| is_stranger(token, &knows)).take(MOST_SLIPS).collect();
    if characters.len() <= LONGEST_SLIPPED
        && let Some(corrected) = without_slips(characters, &strangers, words)
    {
        return corrected;
    }
    match reading {
        Ok(statements) => Reading::Understood(Message { statements }),
        Err(Trouble::Doubt(asks, options)) => unsure(asks, options),
        Err(Trouble::Senseless) => with_remarks(characters, normal)
            .unwrap_or_else(|| not_understood(characters, normal, language)),
    }
}

/// True where no word is read over, and none is a stranger's.
pub(super) fn is_notation_in(normal: &Normal, knows: impl Fn(&Name) -> bool) -> bool {
    normal.skipped == 0 && !normal.tokens.iter().any(|token| is_stranger(token, &knows))
}

/// A text in the form that the grammar is written in.
///
/// ```
/// use lapwing::language::Language;
/// use lapwing::message::normal_form;
/// assert_eq!(normal_form("Tests: 200m FREE 3m12s!", Language::English), "test 200m free 3:12");
/// ```
pub fn normal_form(text: &str, language: Language) -> String {
    Form::of(text, language, None).normal.text
}

/// True if the whole of a normalised text belongs to the grammar, whatever it
/// means; an independent recogniser of `grammar/*.abnf` must agree.
pub fn parses(normal_form: &str) -> bool {
    all_consuming(message).parse(normal_form).is_ok()
}

/// The tokens read as a whole text.
fn attempt(normal: &Normal) -> Outcome<Vec<Statement>> {
    let Ok((_, text)) = all_consuming(message).parse(&normal.text) else {
        return Err(Trouble::Senseless);
    };
    let sentences = match text {
        Text::Opt { out } => {
            let kind = if out { Kind::Stop } else { Kind::Start };
            return Ok(vec![Statement { who: None, kind }]);
        }
        Text::Capture(capture) => return meaning::capture(&capture),
        Text::Statements(sentences) => sentences,
    };
    let several = sentences.len() > 1;
    meaning::of_each(sentences.into_iter().map(|sentence| {
        // A lone word beside other statements says nothing of anyone.
        let lone_name = sentence.who.is_some() && sentence.said.is_none();
        let who = sentence.who.clone();
        match several && lone_name {
            true => (who, Err(Trouble::Senseless)),
            false => (who, meaning::sentence(sentence)),
        }
    }))
}

/// The text as a list of what several swam, if one of its names is known: of
/// words that are nobody's name we would not make one.
fn by_name(normal: &Normal, knows: impl Fn(&Name) -> bool) -> Option<Outcome<Vec<Statement>>> {
    let is_known = |token: &Token| {
        let name = token.text.strip_prefix(['~', '@']).and_then(|word| Name::new(word).ok());
        name.is_some_and(|name| knows(&name))
    };
    let listed = normal.tokens.iter().any(is_known).then(|| listed(&normal.tokens))??;
    match attempt(&listed) {
        Err(Trouble::Senseless) => None,
        read => Some(read),
    }
}

/// True for a word that is in no table and names nobody.
fn is_stranger(token: &Token, knows: impl Fn(&Name) -> bool) -> bool {
    let name = token.text.strip_prefix('~').and_then(|word| Name::new(word).ok());
    token.text.starts_with(['~', '?']) && !name.is_some_and(|name| knows(&name))
}

fn unsure(asks: Doubt, options: meaning::Answers) -> Reading {
    let choice = |(word, statements)| Choice { word, message: Message { statements } };
    Reading::Unsure { options: options.into_iter().map(choice).collect(), asks, told: vec![] }
}

/// The text with an unknown word taken for one that is a slip away: asked about
/// where it would store something, understood where not.
fn without_slips(characters: &[char], strangers: &[&Token], words: &Words) -> Option<Reading> {
    let typed =
        |token: &Token| -> String { between(characters, token.from, token.to).iter().collect() };
    let slips: Vec<(&Token, Vec<&'static str>)> = strangers
        .iter()
        .map(|token| (*token, words.one_slip_from(token.text.trim_start_matches(['~', '?']))))
        .filter(|(_, near)| !near.is_empty())
        .collect();
    let singly = slips.iter().flat_map(|(token, near)| {
        near.iter().take(MOST_MEANINGS).map(|meant| vec![(*token, *meant)])
    });
    let together = slips.iter().filter_map(|(token, near)| Some((*token, *near.first()?)));
    let together = together.collect::<Vec<_>>();
    for correction in singly.chain((slips.len() > 1).then_some(together)) {
        let corrected = replaced(characters, &correction);
        let Ok(statements) = attempt(&normalise(&corrected, words, None)) else { continue };
        let still_a_name = |one: &Statement| one.kind == Kind::Swimmer && one.who.is_some();
        let answers = |one: &Statement| matches!(one.kind, Kind::Choose { .. });
        if statements.is_empty() || statements.iter().any(|one| still_a_name(one) || answers(one)) {
            continue;
        }
        let stores = statements.iter().any(|one| one.kind.nature().stores);
        let message = Message { statements };
        if !stores {
            return Some(Reading::Understood(message));
        }
        let join = |each: Vec<String>| each.join(" ");
        let asks = Doubt::Spelling {
            typed: join(correction.iter().map(|(token, _)| typed(token)).collect()),
            meant: join(correction.iter().map(|(_, meant)| (*meant).to_owned()).collect()),
        };
        let options = vec![Choice { word: "yes".to_owned(), message }];
        return Some(Reading::Unsure { options, asks, told: vec![] });
    }
    None
}

fn replaced(characters: &[char], corrections: &[(&Token, &'static str)]) -> Vec<char> {
    let mut corrected = Vec::with_capacity(characters.len());
    let mut at = 0;
    let mut in_order = corrections.to_vec();
    in_order.sort_unstable_by_key(|(token, _)| token.from);
    for (token, meant) in in_order {
        if token.from < at {
            continue;
        }
        corrected.extend_from_slice(between(characters, at, token.from));
        corrected.extend(meant.chars());
        at = token.to;
    }
    corrected.extend(characters.iter().skip(at));
    corrected
}

/// What was typed from one character to another.
fn between(characters: &[char], from: usize, to: usize) -> &[char] {
    characters.get(from..to).unwrap_or_default()
}

/// A set whose unknown words are remarks: `8x50 drill long legs on 1:10`.
fn with_remarks(characters: &[char], normal: &Normal) -> Option<Reading> {
    let is_unknown =
        |token: &Token| token.text.starts_with(['~', '?']) || BODY.contains(&token.text.as_str());
    let first = normal.tokens.first()?;
    if is_unknown(first) || !normal.tokens.iter().any(is_unknown) {
        return None;
    }
    let mut tokens: Vec<Token> = Vec::with_capacity(normal.tokens.len());
    let mut follows = false;
    for token in &normal.tokens {
        let unknown = is_unknown(token);
        match tokens.last_mut() {
            Some(before) if unknown && follows => {
                (before.from, before.to) = (before.from.min(token.from), before.to.max(token.to));
            }
            _ => tokens.push(token.clone()),
        }
        follows = unknown;
        if let Some(remark) = tokens.last_mut().filter(|_| unknown) {
            remark.text = free_text(between(characters, remark.from, remark.to))?;
        }
    }
    let statements = attempt(&Normal::of(tokens)).ok()?;
    let only_sets = statements.iter().all(|one| matches!(one.kind, Kind::Set(_)));
    only_sets.then_some(Reading::Understood(Message { statements }))
}

/// What could be read, what not, and one text that works.
fn not_understood(characters: &[char], normal: &Normal, language: Language) -> Reading {
    let mut understood = Vec::new();
    let mut rest: Vec<String> = Vec::new();
    for chunk in normal.tokens.split(|token| matches!(token.text.as_str(), "," | ";")) {
        let (read, left) = longest_start(chunk);
        understood.extend(read);
        // The tokens may stand in another order than they were typed in.
        let from = left.iter().map(|token| token.from).min();
        let to = left.iter().map(|token| token.to).max();
        if let (Some(from), Some(to)) = (from, to) {
            rest.push(between(characters, from, to).iter().collect());
        }
    }
    let mut rest = rest.join(", ");
    if rest.is_empty() {
        rest = characters.iter().collect::<String>().trim().to_owned();
    }
    Reading::NotUnderstood { understood, rest, example: example(&normal.tokens, language) }
}

/// The longest start of a chunk that means something, and what is left of it.
fn longest_start(chunk: &[Token]) -> (Vec<Statement>, &[Token]) {
    let normal = Normal::of(chunk.to_vec());
    let read = message(&normal.text).map_or(0, |(left, _)| normal.text.len() - left.len());
    let fits = if read == normal.text.len() { chunk.len() } else { normal.token_at(read + 1) };
    let (start, left) = chunk.split_at_checked(fits).unwrap_or((chunk, &[]));
    let starts = attempt(&Normal::of(start.to_vec()));
    let answers = |one: &Statement| matches!(one.kind, Kind::Choose { .. } | Kind::Swimmer);
    match starts {
        Ok(statements) if !statements.iter().any(answers) => (statements, left),
        // Well formed up to a word or a figure that no rule knows: that is it.
        _ if !left.is_empty()
            && start.first().is_some_and(|first| !first.text.starts_with('~')) =>
        {
            (Vec::new(), left)
        }
        _ => (Vec::new(), chunk),
    }
}
